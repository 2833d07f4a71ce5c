package org.asmeasured.accuracy;

import java.util.ArrayList;
import java.util.List;
import org.asmeasured.capture.Record;
import org.asmeasured.capture.Setup;
import org.asmeasured.internal.Require;
import org.asmeasured.measure.Measured;
import org.asmeasured.measure.Measured.NotTaken;
import org.asmeasured.measure.Reading;
import org.asmeasured.measure.ReadingGroup;
import org.asmeasured.signal.Signal;

/**
 * What a reading would be with each stage alone ideal, and all others as they are: what a better
 * probe, or more bits, would be worth. Immutable.
 *
 * <p>The rows do not add up to the whole: two stages that hide one another's errors, such as two
 * limits of the bandwidth, both seem worth little, and a stage that makes up for another is worth
 * less than nothing.
 *
 * <p>Source, probe, ground lead, termination and coupling capacitor are left out as factors of the
 * network's response: with H<sub>k</sub> the response up to element k in the order of the chain,
 * what is left of n elements is H<sub>n</sub> H<sub>k - 1</sub>/H<sub>k</sub>. Where that is no
 * response, or noise is without bound when its bandwidth is made unlimited, the row says so.
 * Sampling has no row: without it there is no record of which the other digital stages could be
 * part. With a trigger, a stage that is ideal may place the record elsewhere; that counts too.
 */
public final class IdealStages {
  private final Reading reading;
  private final Measured measured;
  private final Scatter scatter;
  private final List<StageBias> rows;

  private IdealStages(StageTable<Reading> table) {
    reading = table.reading();
    measured = table.first();
    scatter = table.ofFirst();
    rows = table.rows();
  }

  /**
   * Makes each stage ideal in turn, of a single capture.
   *
   * @param reading what is read
   * @param signal what is there: the open-circuit voltage of the source
   * @param setup how it is captured
   * @param seed of all that is random
   * @return the table
   * @throws NullPointerException if one is missing
   * @throws IllegalArgumentException if the capture refuses
   */
  public static IdealStages of(Reading reading, Signal signal, Setup setup, long seed) {
    return of(List.of(Require.present("reading", reading)), signal, setup, seed, 1, 1).get(0);
  }

  /**
   * Makes each stage ideal in turn, over many captures with the seeds of {@link Prediction#of(List,
   * Signal, Setup, long, int, int)}. Where nothing is random one capture is made, and stands for
   * all. The figures are the same on any number of threads, bit for bit.
   *
   * @param readings what is read; used by several threads at once
   * @param signal what is there: the open-circuit voltage of the source
   * @param setup how it is captured
   * @param seed of all that is random
   * @param captures how many, 1 to 10 000 000
   * @param threads how many share the work, 1 to 1024
   * @return a table for each reading, in their order
   * @throws NullPointerException if one is missing
   * @throws IllegalArgumentException if a number is out of range, or the capture refuses
   */
  public static List<IdealStages> of(
      List<Reading> readings, Signal signal, Setup setup, long seed, int captures, int threads) {
    Require.present("readings", readings);
    readings.forEach(reading -> Require.present("reading", reading));
    Require.present("signal", signal);
    Require.present("setup", setup);
    Captures made = new Captures(captures, seed, threads).of(setup);
    Walk walk = new Walk(List.copyOf(readings), signal, setup);
    return made.tables(false, walk::walks).stream().map(IdealStages::new).toList();
  }

  /** One capture of the whole, and one of each setup with a stage ideal. */
  private static final class Walk {
    private final List<Reading> readings;
    private final ReadingGroup group;
    private final Signal signal;
    private final Setup setup;
    private final boolean random;
    private final List<IdealWalk.Step> steps;

    /** Of each step, what is read of every capture; null where it depends on the seed. */
    private final List<Measured[]> fixed = new ArrayList<>();

    Walk(List<Reading> readings, Signal signal, Setup setup) {
      this.readings = readings;
      group = ReadingGroup.of(readings);
      this.signal = signal;
      this.setup = setup;
      random = !setup.isRepeatable();
      steps = new IdealWalk(setup).steps();
      for (IdealWalk.Step step : steps) {
        // Without its trigger a setup begins wherever the whole did.
        fixed.add(isRandom(step) || step.isTrigger() ? null : of(step, 0, 0));
      }
    }

    private static boolean isRandom(IdealWalk.Step step) {
      return step.setup() != null && !step.setup().isRepeatable();
    }

    List<StageWalk<Reading>> walks(long seed) {
      Record whole = setup.capture(signal, seed);
      List<StageWalk<Reading>> walks = new ArrayList<>();
      List<Measured> read = group.of(whole);
      for (int r = 0; r < readings.size(); r++) {
        walks.add(new StageWalk<>(readings.get(r), read.get(r), random));
      }
      for (int s = 0; s < steps.size(); s++) {
        IdealWalk.Step step = steps.get(s);
        Measured[] values = fixed.get(s);
        if (values == null) {
          values = of(step, whole.startSeconds(), seed);
        }
        for (int r = 0; r < values.length; r++) {
          walks.get(r).add(step.stage(), values[r], fixed.get(s) == null);
        }
      }
      return walks;
    }

    private Measured[] of(IdealWalk.Step step, double from, long seed) {
      if (step.setup() == null) {
        return all(step.reason());
      }
      Setup ideal = step.isTrigger() ? step.setup().startingAt(from) : step.setup();
      Record record;
      try {
        record = ideal.capture(signal, seed);
      } catch (IllegalArgumentException e) {
        return all(
            isUnbounded(ideal) && !isUnbounded(setup)
                ? new NotTaken("there is noise that nothing else bounds")
                : new NotTaken(e.getMessage()));
      }
      return group.of(record).toArray(Measured[]::new);
    }

    private static boolean isUnbounded(Setup setup) {
      return setup.frontEnd().bandwidth().isIdeal() && setup.frontEnd().limit().isIdeal();
    }

    private Measured[] all(NotTaken reason) {
      return readings.stream().map(r -> reason).toArray(Measured[]::new);
    }
  }

  /**
   * What is read.
   *
   * @return the reading
   */
  public Reading reading() {
    return reading;
  }

  /**
   * The reading of the record, every stage as it is; of several captures, the mean over those of
   * which it was taken.
   *
   * @return in the reading's unit
   */
  public Measured measured() {
    return measured;
  }

  /**
   * How the reading scatters, every stage as it is.
   *
   * @return its random part; variance added and standard error are 0
   */
  public Scatter scatter() {
    return scatter;
  }

  /**
   * What the reading would be with each stage ideal. The bias of a row is what the stage takes
   * away: as measured, less the reading of that row; its added variance is that of the reading as
   * measured, less that of that row.
   *
   * @return in the order of the chain, without sampling; unmodifiable
   */
  public List<StageBias> rows() {
    return rows;
  }

  @Override
  public String toString() {
    String unit = reading.unit();
    StringBuilder words = new StringBuilder(reading.name());
    words.append(": as measured ").append(measured.in(unit)).append("; each alone ideal:");
    String separator = " ";
    for (StageBias row : rows) {
      words.append(separator).append(row.stage()).append(' ').append(row.reading().in(unit));
      separator = ", ";
    }
    return words.toString();
  }
}
