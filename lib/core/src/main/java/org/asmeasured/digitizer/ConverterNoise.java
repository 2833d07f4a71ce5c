package org.asmeasured.digitizer;

import java.util.Objects;
import org.asmeasured.internal.CounterRandom;
import org.asmeasured.internal.Require;

/**
 * White Gaussian noise of the converter: one deviate of its own on each raw sample, after the
 * responses and ahead of the converter.
 *
 * <p>It belongs to the converter, so it is a fraction of full scale, and grows in volts with the
 * vertical scale. Noise of about half a step makes the mean of many samples follow the signal
 * between codes: the mean error falls to sum over k of (-1)<sup>k</sup> q/(pi k) exp(-2
 * pi<sup>2</sup> k<sup>2</sup> s<sup>2</sup>/q<sup>2</sup>) sin(2 pi k x/q) (B. Widrow and I.
 * Kollar, <i>Quantization Noise</i>, 2008).
 *
 * @param rmsOfFullScale standard deviation as a fraction of full scale, 0 to 1
 */
public record ConverterNoise(double rmsOfFullScale) {

  /**
   * Checks the value.
   *
   * @param rmsOfFullScale standard deviation as a fraction of full scale, 0 to 1
   * @throws IllegalArgumentException if it is out of range
   */
  public ConverterNoise {
    Require.inRange("rmsOfFullScale", rmsOfFullScale, "", 0, 1);
  }

  /**
   * No noise.
   *
   * @return the noise that changes nothing
   */
  public static ConverterNoise none() {
    return new ConverterNoise(0);
  }

  /**
   * Noise in steps of a converter.
   *
   * @param rmsSteps standard deviation in steps, 0 to 2<sup>bits</sup>
   * @param bits 1 to 24
   * @return the noise
   * @throws IllegalArgumentException if a value is out of range
   */
  public static ConverterNoise ofSteps(double rmsSteps, int bits) {
    Require.inRange("bits", bits, 1, Converter.MAX_BITS);
    Require.inRange("rmsSteps", rmsSteps, "", 0, Math.scalb(1.0, bits));
    return new ConverterNoise(Math.scalb(rmsSteps, -bits));
  }

  /**
   * Whether there is no noise.
   *
   * @return true if nothing is added
   */
  public boolean isIdeal() {
    return rmsOfFullScale == 0;
  }

  /**
   * Adds the noise to a block of raw samples, in place. Deviate k is a pure function of (key, k).
   *
   * @param key the random stream of this acquisition
   * @param first number of the first raw sample
   * @param fullScaleVolts the converter's span
   * @param volts the samples
   * @param offset index of the first
   * @param count how many, 0 or more
   * @param work scratch of at least {@code count} entries, overwritten
   * @throws IndexOutOfBoundsException if an array does not hold them
   */
  public void add(
      long key,
      long first,
      double fullScaleVolts,
      double[] volts,
      int offset,
      int count,
      double[] work) {
    Objects.checkFromIndexSize(offset, count, Require.present("volts", volts).length);
    if (isIdeal()) {
      return;
    }
    deviates(key, first, Require.present("work", work), 0, count);
    add(volts, offset, count, work, rmsOfFullScale * fullScaleVolts);
  }

  /**
   * The noise of a block of raw samples in units of its standard deviation: normal deviates, of
   * which number k is a pure function of (key, k).
   *
   * @param key the random stream of this acquisition
   * @param first number of the first raw sample
   * @param out receives {@code count} deviates
   * @param offset where in {@code out} the first goes
   * @param count how many
   * @throws IndexOutOfBoundsException if {@code out} does not hold them
   */
  public void deviates(long key, long first, double[] out, int offset, int count) {
    CounterRandom.gaussians(key, first, Require.present("out", out), offset, count);
  }

  private static void add(double[] volts, int offset, int count, double[] deviates, double sigma) {
    for (int i = 0; i < count; i++) {
      volts[offset + i] += sigma * deviates[i];
    }
  }

  @Override
  public String toString() {
    return isIdeal()
        ? "no converter noise"
        : "converter noise of " + rmsOfFullScale + " of full scale";
  }
}
