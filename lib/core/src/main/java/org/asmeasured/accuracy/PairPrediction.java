package org.asmeasured.accuracy;

import java.util.List;
import org.asmeasured.capture.ChannelSet;
import org.asmeasured.internal.Quantity;
import org.asmeasured.internal.Require;
import org.asmeasured.measure.Measured;
import org.asmeasured.measure.PairReading;
import org.asmeasured.signal.Signal;

/**
 * What several channels would make of a reading between two of them: the truth, the value as
 * measured, and where the difference comes from. Immutable.
 *
 * <p>The stages are switched in one by one, in this order: the analog stages of the first channel
 * of the pair, those of the second, each row named after its channel; then, of all channels at
 * once, sampling, skew, noise and the rest up to the trigger.
 */
public final class PairPrediction {
  private static final Measured NO_UNCERTAINTY =
      new Measured.NotTaken(
          "readings between channels are predicted without tolerances, decision or advice");

  private final PairReading reading;
  private final String first;
  private final String second;
  private final Measured truth;
  private final Measured measured;
  private final Scatter scatter;
  private final List<StageBias> byStage;

  private PairPrediction(StageTable<PairReading> table, String first, String second) {
    reading = table.reading();
    this.first = first;
    this.second = second;
    truth = table.first();
    measured = table.last();
    scatter = table.whole();
    byStage = table.rows();
  }

  /**
   * Predicts readings between two channels of a single capture; each setup on the way is captured
   * once for all of them.
   *
   * @param readings what is read
   * @param first the name of the first channel
   * @param second the name of the second, another
   * @param signals one for each channel of the set, in their order
   * @param channels how they are captured
   * @param seed of all that is random
   * @return a prediction for each reading, in their order
   * @throws IllegalArgumentException if there is no such channel, the two are the same, there is
   *     not one signal for each channel, or the span of the record is below the last place of its
   *     start
   * @throws NullPointerException if one is missing
   */
  public static List<PairPrediction> of(
      List<PairReading> readings,
      String first,
      String second,
      List<Signal> signals,
      ChannelSet channels,
      long seed) {
    return of(readings, first, second, signals, channels, seed, 1, 1);
  }

  /**
   * Predicts readings between two channels over many captures, as {@link Prediction} does for one
   * channel.
   *
   * @param readings what is read; used by several threads at once
   * @param first the name of the first channel
   * @param second the name of the second, another
   * @param signals one for each channel of the set, in their order
   * @param channels how they are captured
   * @param seed of all that is random
   * @param captures how many, 1 to 10 000 000
   * @param threads how many share the work, 1 to 1024
   * @return a prediction for each reading, in their order
   * @throws IllegalArgumentException if there is no such channel, the two are the same, there is
   *     not one signal for each channel, a number is out of range, or the span of the record is
   *     below the last place of its start
   * @throws NullPointerException if one is missing
   */
  public static List<PairPrediction> of(
      List<PairReading> readings,
      String first,
      String second,
      List<Signal> signals,
      ChannelSet channels,
      long seed,
      int captures,
      int threads) {
    Require.present("readings", readings);
    Require.present("channels", channels);
    int a = channels.indexOf(Require.present("first", first));
    int b = channels.indexOf(Require.present("second", second));
    Require.that(a != b, "second = \"" + second + "\": must be another channel than the first");
    readings.forEach(reading -> Require.present("reading", reading));
    Captures asked = new Captures(captures, seed, threads);
    Captures made = PairInOrder.isRandom(channels) ? asked : new Captures(1, seed, 1);
    PairInOrder walk =
        new PairInOrder(List.copyOf(readings), a, b, signals, channels, made.seedOf(0));
    return made.tables(true, walk::walks).stream()
        .map(table -> new PairPrediction(table, first, second))
        .toList();
  }

  /**
   * What is read.
   *
   * @return the reading
   */
  public PairReading reading() {
    return reading;
  }

  /**
   * The first channel of the pair.
   *
   * @return its name
   */
  public String first() {
    return first;
  }

  /**
   * The second channel of the pair.
   *
   * @return its name
   */
  public String second() {
    return second;
  }

  /**
   * The standard uncertainty: of a reading between channels there is none, as no tolerances of
   * several setups are known together.
   *
   * @return the reason, always
   */
  public Measured standardUncertainty() {
    return NO_UNCERTAINTY;
  }

  /**
   * The reading of the two signals themselves over the span of the record.
   *
   * @return in the reading's unit
   */
  public Measured truth() {
    return truth;
  }

  /**
   * The reading of the two records; of several captures, the mean over those of which it was taken.
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
   * How the reading scatters: its random part, what it adds to the variance of the truth, and the
   * standard error of {@link #bias}.
   *
   * @return of all channels together
   */
  public Scatter scatter() {
    return scatter;
  }

  /**
   * The bias of each stage that is not ideal, switched in after those before it. The biases add up
   * to the whole, to the rounding of the sums.
   *
   * @return in the order that this class states, unmodifiable
   */
  public List<StageBias> byStage() {
    return byStage;
  }

  @Override
  public String toString() {
    String unit = reading.unit();
    return reading
        + " of "
        + first
        + " and "
        + second
        + ": true value "
        + truth.in(unit)
        + ", as measured "
        + measured.in(unit)
        + ", bias "
        + (bias() instanceof Measured.Value whole
            ? Quantity.ofDifference(Quantity.orNothing(whole.value(), size()), unit)
            : bias().toString());
  }

  /** The greater of truth and reading, as far as they were taken. */
  private double size() {
    double size = truth instanceof Measured.Value t ? Math.abs(t.value()) : 0;
    return measured instanceof Measured.Value m ? Math.max(size, Math.abs(m.value())) : size;
  }
}
