package org.asmeasured.accuracy;

import java.util.List;
import org.asmeasured.capture.Setup;
import org.asmeasured.internal.Quantity;
import org.asmeasured.internal.Require;
import org.asmeasured.measure.Measured;
import org.asmeasured.measure.Measured.Value;
import org.asmeasured.measure.Reading;
import org.asmeasured.signal.Signal;

/**
 * What a setup would make of a reading: the truth, the value as measured, and where the difference
 * comes from. Immutable.
 */
public final class Prediction {
  private final Reading reading;
  private final Measured truth;
  private final Measured measured;
  private final Scatter truthScatter;
  private final Scatter scatter;
  private final List<StageBias> byStage;

  private Prediction(StageTable<Reading> table) {
    reading = table.reading();
    truth = table.first();
    measured = table.last();
    truthScatter = table.ofFirst();
    scatter = table.whole();
    byStage = table.rows();
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
   * Predicts a reading of a single capture. Where a stage is random (noise, jitter, a trigger), its
   * row is one draw of it: that of the seed.
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
   * Predicts several readings of a single capture; each setup on the way is captured once for all
   * of them.
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
    return of(readings, signal, setup, seed, 1, 1);
  }

  /**
   * Predicts several readings over many captures: of every row the mean, its random part, and how
   * sure the mean is. Capture i has a seed of its own, {@link
   * org.asmeasured.measure.Statistics#seedOf}, in every row the same; a single capture has the seed
   * given. Where nothing is random one capture is made, and stands for all. The figures are the
   * same on any number of threads, bit for bit.
   *
   * @param readings what is read; used by several threads at once
   * @param signal what is there: the open-circuit voltage of the source
   * @param setup how it is captured
   * @param seed of all that is random
   * @param captures how many, 1 to 10 000 000
   * @param threads how many share the work, 1 to 1024
   * @return a prediction for each reading, in their order
   * @throws NullPointerException if one is missing
   * @throws IllegalArgumentException if a number is out of range, a capture refuses, or the span of
   *     the record is below the last place of its start
   */
  public static List<Prediction> of(
      List<Reading> readings, Signal signal, Setup setup, long seed, int captures, int threads) {
    Require.present("readings", readings);
    readings.forEach(reading -> Require.present("reading", reading));
    Require.present("signal", signal);
    Require.present("setup", setup);
    Captures made = new Captures(captures, seed, threads).of(setup);
    InOrder walk = new InOrder(List.copyOf(readings), signal, setup, made.seedOf(0));
    return made.tables(true, walk::walks).stream().map(Prediction::new).toList();
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
   * The reading of the signal itself over the span of the record. Of several captures that a
   * trigger places differently it is the mean.
   *
   * @return in the reading's unit
   */
  public Measured truth() {
    return truth;
  }

  /**
   * The reading of the record; of several captures, the mean over those of which it was taken.
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
    return StageTable.difference(measured, truth);
  }

  /**
   * How the reading scatters: its random part, what it adds to the variance of the truth (which has
   * one where a trigger places the record), and the standard error of {@link #bias}.
   *
   * @return of the whole setup
   */
  public Scatter scatter() {
    return scatter;
  }

  /**
   * How the truth scatters: not at all, unless a trigger places the record differently each time.
   *
   * @return its random part; variance added and standard error are 0
   */
  public Scatter truthScatter() {
    return truthScatter;
  }

  /**
   * The bias of each stage that is not ideal, switched in after those before it. The biases add up
   * to the whole, to the rounding of the sums; so do the variances that the stages add.
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
    if (bias() instanceof Value whole) {
      words.append(", bias ").append(signed(whole.value()));
    }
    if (scatter.captures() > 1) {
      words.append(", random part ").append(scatter.randomPart().in(unit));
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
    double shown = Quantity.orNothing(value, size);
    return (shown >= 0 ? "+" : "") + Quantity.ofDifference(shown, reading.unit());
  }

  private static double size(Measured reading) {
    return reading instanceof Value taken ? Math.abs(taken.value()) : 0;
  }
}
