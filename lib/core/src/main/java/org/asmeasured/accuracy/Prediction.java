package org.asmeasured.accuracy;

import java.util.ArrayList;
import java.util.List;
import org.asmeasured.capture.Record;
import org.asmeasured.capture.Setup;
import org.asmeasured.internal.Quantity;
import org.asmeasured.internal.Require;
import org.asmeasured.measure.Measured;
import org.asmeasured.measure.Measured.NotTaken;
import org.asmeasured.measure.Measured.Value;
import org.asmeasured.measure.Reading;
import org.asmeasured.measure.ReadingGroup;
import org.asmeasured.signal.Signal;
import org.asmeasured.signal.Waveform;

/**
 * What a setup would make of a reading: the truth, the value as measured, and where the difference
 * comes from. Immutable.
 */
public final class Prediction {
  private static final double ROUNDING = 1e-12;

  private final Reading reading;
  private final Measured truth;
  private final Measured measured;
  private final Measured bias;
  private final List<StageBias> byStage;

  private Prediction(Reading reading, Measured truth, Measured measured, List<StageBias> byStage) {
    this.reading = reading;
    this.truth = truth;
    this.measured = measured;
    this.bias = difference(measured, truth);
    this.byStage = List.copyOf(byStage);
  }

  /**
   * Predicts a reading with seed 0.
   *
   * @param reading what is read
   * @param signal what is there: the open-circuit voltage of the source
   * @param setup how it is captured
   * @return the prediction
   * @throws NullPointerException if one is missing
   * @throws IllegalArgumentException if the span of the record is below the last place of its start
   */
  public static Prediction of(Reading reading, Signal signal, Setup setup) {
    return of(reading, signal, setup, 0);
  }

  /**
   * Predicts a reading. Where a stage is random (noise, jitter, a trigger), its row is one draw of
   * it: that of the seed.
   *
   * @param reading what is read
   * @param signal what is there: the open-circuit voltage of the source
   * @param setup how it is captured
   * @param seed of all that is random
   * @return the prediction
   * @throws NullPointerException if one is missing
   * @throws IllegalArgumentException if the span of the record is below the last place of its start
   */
  public static Prediction of(Reading reading, Signal signal, Setup setup, long seed) {
    return of(List.of(Require.present("reading", reading)), signal, setup, seed).get(0);
  }

  /**
   * Predicts several readings of the same record; each setup on the way is captured once for all of
   * them.
   *
   * @param readings what is read
   * @param signal what is there: the open-circuit voltage of the source
   * @param setup how it is captured
   * @param seed of all that is random
   * @return a prediction for each reading, in their order
   * @throws NullPointerException if one is missing
   * @throws IllegalArgumentException if the span of the record is below the last place of its start
   */
  public static List<Prediction> of(List<Reading> readings, Signal signal, Setup setup, long seed) {
    ReadingGroup group = ReadingGroup.of(readings);
    Require.present("signal", signal);
    Require.present("setup", setup);
    Record last = setup.capture(signal, seed);
    double from = last.startSeconds();
    double to = from + setup.spanSeconds();
    Require.that(
        to > from,
        "startSeconds = "
            + from
            + " s: a span of "
            + setup.spanSeconds()
            + " s cannot be told apart there");
    List<StageWalk<Reading>> walks = new ArrayList<>();
    List<Measured> truths = group.of(signal, from, to);
    for (int r = 0; r < truths.size(); r++) {
      walks.add(new StageWalk<>(group.readings().get(r), truths.get(r)));
    }
    ChainWalk chain = new ChainWalk(setup, from);
    for (ChainWalk.Step step : chain.analog()) {
      Waveform waveform = step.setup().analogOutput(signal, from, to);
      add(walks, step.stage(), group.of(waveform, from, to));
    }
    List<ChainWalk.Step> digital = chain.digital();
    for (ChainWalk.Step step : digital) {
      if (step.setup() == null) {
        NotTaken reason = new NotTaken("there are more raw samples than are held at a time");
        walks.forEach(walk -> walk.add(step.stage(), reason));
      } else {
        boolean whole = step == digital.get(digital.size() - 1);
        Record record = whole ? last : step.setup().capture(signal, seed);
        add(walks, step.stage(), group.of(record));
      }
    }
    return walks.stream()
        .map(walk -> new Prediction(walk.reading, walk.truth, walk.now(), walk.rows()))
        .toList();
  }

  private static void add(List<StageWalk<Reading>> walks, String stage, List<Measured> readings) {
    for (int r = 0; r < readings.size(); r++) {
      walks.get(r).add(stage, readings.get(r));
    }
  }

  static Measured difference(Measured value, Measured reference) {
    if (value instanceof Value minuend && reference instanceof Value subtrahend) {
      return new Value(minuend.value() - subtrahend.value());
    }
    return value.isTaken() ? reference : value;
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
   * The reading of the signal itself over the span of the record.
   *
   * @return in the reading's unit
   */
  public Measured truth() {
    return truth;
  }

  /**
   * The reading of the record.
   *
   * @return in the reading's unit
   */
  public Measured measured() {
    return measured;
  }

  /**
   * As measured less truth.
   *
   * @return in the reading's unit; the reason, if one of the two could not be taken
   */
  public Measured bias() {
    return bias;
  }

  /**
   * The bias of each stage that is not ideal, switched in after those before it. The biases add up
   * to the whole, to the rounding of the sums.
   *
   * @return in the order of the chain, unmodifiable
   */
  public List<StageBias> byStage() {
    return byStage;
  }

  @Override
  public String toString() {
    String unit = reading.unit();
    StringBuilder words = new StringBuilder(reading.name());
    words
        .append(": true value ")
        .append(truth.in(unit))
        .append(", as measured ")
        .append(measured.in(unit));
    if (bias instanceof Value whole) {
      words.append(", bias ").append(signed(whole.value()));
    }
    words.append(" (in order: ");
    String separator = "";
    for (StageBias row : byStage) {
      words.append(separator).append(row.stage()).append(' ');
      words.append(row.bias() instanceof Value part ? signed(part.value()) : row.bias());
      separator = ", ";
    }
    return words.append(')').toString();
  }

  /** What is below the rounding of the readings themselves is no bias. */
  private String signed(double value) {
    double size = Math.max(size(truth), size(measured));
    double shown = Math.abs(value) <= ROUNDING * size ? 0 : value;
    return (shown >= 0 ? "+" : "") + Quantity.ofDifference(shown, reading.unit());
  }

  private static double size(Measured reading) {
    return reading instanceof Value taken ? Math.abs(taken.value()) : 0;
  }
}
