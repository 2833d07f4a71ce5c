package org.asmeasured.measure;

import java.util.List;
import java.util.OptionalDouble;
import org.asmeasured.acquisition.Slope;
import org.asmeasured.internal.Require;

/**
 * The readings between two channels that are there. Over the points v<sub>i</sub>, w<sub>i</sub> of
 * two records, i = 1 ... n, and over the span T of two waveforms v(t), w(t):
 *
 * <table>
 * <caption>Readings between channels</caption>
 * <tr><th>reading</th><th>definition</th></tr>
 * <tr><td>delay</td><td>mean of the instants at which the second crosses its level less those at which the first
 *     crosses its own, over crossings that are nearest to each other both ways. Positive: the second is later.
 *     Levels are those midway between minimum and maximum, or are given; a crossing counts if the value has been
 *     beyond the level by a tenth of the peak to peak since the one before</td></tr>
 * <tr><td>skew</td><td>the same over rising and falling edges, each taken with its own kind: of the same signal in two
 *     channels, what their delays differ by</td></tr>
 * <tr><td>phase lag</td><td>angle of the mean of exp(2 pi j d/T), d from the nearest rising crossing of the first to each
 *     of the second, T the first one's mean period; -pi to pi. Positive: the second lags</td></tr>
 * <tr><td>mean power P</td><td>mean of v w</td></tr>
 * <tr><td>energy</td><td>P times the span</td></tr>
 * <tr><td>apparent power S</td><td>RMS of v times RMS of w</td></tr>
 * <tr><td>power factor</td><td>P/S</td></tr>
 * </table>
 *
 * <p>Which of two edges half a period away belongs to another is anybody's guess: a delay near that
 * is of little sense, a phase is not.
 *
 * <p>Crossings of records are interpolated linearly, those of waveforms are bracketed roots. The
 * level midway is IEEE Std 181's 50 % reference level under its peak-magnitude method of state
 * levels, and a delay the difference of two of that Standard's mid-reference level instants
 * (clauses from memory). P, S and P/S are the active power, apparent power and power factor of IEEE
 * Std 1459 for one phase (from memory). Power is in watts if one channel is in volts and the other
 * in amperes, see {@link org.asmeasured.frontend.CurrentProbe}.
 *
 * <p>The integral of a product of two waveforms in closed form is right to 1e-12 of S times the
 * span. Over a broken number of cycles power differs from that over whole ones, in the truth too.
 *
 * <p>A skew s between two sines of lag phi makes the mean power S cos(phi + omega s): relative to
 * the truth, off by -tan(phi) omega s to first order, which no gain adjustment takes out, and which
 * is large where the power factor is small.
 */
public final class PairReadings {
  private static final PairReading PHASE = new PhaseReading();

  private PairReadings() {}

  /**
   * The delay from rising edges to rising edges, in seconds.
   *
   * @return the reading
   */
  public static PairReading delay() {
    return delay(Slope.RISING, Slope.RISING);
  }

  /**
   * The delay from edges of the first to edges of the second, at the level midway between the
   * extremes of each.
   *
   * @param first which edges of the first channel
   * @param second which edges of the second
   * @return the reading, in seconds
   * @throws NullPointerException if a slope is missing
   */
  public static PairReading delay(Slope first, Slope second) {
    return DelayReading.between(
        Edges.midway(Require.present("first", first)),
        Edges.midway(Require.present("second", second)));
  }

  /**
   * The delay from edges of the first to edges of the second, at given levels.
   *
   * @param first which edges of the first channel
   * @param firstVolts their level, -1e9 to 1e9 V
   * @param second which edges of the second
   * @param secondVolts their level, -1e9 to 1e9 V
   * @return the reading, in seconds
   * @throws IllegalArgumentException if a level is out of range
   * @throws NullPointerException if a slope is missing
   */
  public static PairReading delay(
      Slope first, double firstVolts, Slope second, double secondVolts) {
    return DelayReading.between(
        new Edges(
            Require.present("first", first),
            OptionalDouble.of(Require.volts("firstVolts", firstVolts))),
        new Edges(
            Require.present("second", second),
            OptionalDouble.of(Require.volts("secondVolts", secondVolts))));
  }

  /**
   * What all edges of the second come later than those of the first, in seconds.
   *
   * @return the reading
   */
  public static PairReading skew() {
    return DelayReading.skew();
  }

  /**
   * By how much the second lags the first, in radians.
   *
   * @return the reading
   */
  public static PairReading phaseLag() {
    return PHASE;
  }

  /**
   * The mean of the product, in watts.
   *
   * @return the reading
   */
  public static PairReading meanPower() {
    return new PowerReading(PowerReading.Which.MEAN_POWER);
  }

  /**
   * The integral of the product over the span, in joules.
   *
   * @return the reading
   */
  public static PairReading energy() {
    return new PowerReading(PowerReading.Which.ENERGY);
  }

  /**
   * The product of the RMS values, in volt-amperes.
   *
   * @return the reading
   */
  public static PairReading apparentPower() {
    return new PowerReading(PowerReading.Which.APPARENT_POWER);
  }

  /**
   * Mean power over apparent power, -1 to 1.
   *
   * @return the reading
   */
  public static PairReading powerFactor() {
    return new PowerReading(PowerReading.Which.POWER_FACTOR);
  }

  /**
   * Any reading of the product of the two, point by point: its maximum is the peak power. What is
   * volts in the reading is watts here.
   *
   * @param reading what is read of the product
   * @return the reading
   * @throws NullPointerException if the reading is missing
   */
  public static PairReading ofProduct(Reading reading) {
    return ProductReading.of(reading);
  }

  /**
   * Every reading of this class that needs no parameters, in the order of the table.
   *
   * @return unmodifiable
   */
  public static List<PairReading> all() {
    return List.of(
        delay(), skew(), phaseLag(), meanPower(), energy(), apparentPower(), powerFactor());
  }
}
