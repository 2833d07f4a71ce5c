package org.asmeasured.characterisation;

import org.asmeasured.internal.Quantity;
import org.asmeasured.measure.Measured;
import org.jtransforms.fft.DoubleFFT_1D;

/**
 * A frequency response from a recorded step. Immutable.
 *
 * <p>The response to an impulse is the derivative of that to a step. Of a record it is the first
 * difference d<sub>n</sub> = y<sub>n+1</sub> - y<sub>n</sub>, which is the derivative seen through
 * a mean over one interval; so its transform is divided by the response of that mean (IEEE Std
 * 1057-2017, frequency response from the step, from memory):
 *
 * <pre>
 * H(f) = (sum of d_n exp(-j 2 pi f (n + 1/2 - n_50)/rate)) / sinc(f/rate),   sinc(x) = sin(pi x)/(pi x)
 * </pre>
 *
 * <p>at f = k rate/(number of differences), k = 0 ... half of it. The window is rectangular, and
 * the step's own levels are its ends: it cuts nothing off a step that has settled. Time counts from
 * the 50 % instant, so the phase is that beyond the delay of the edge itself. H is relative to the
 * amplitude of the step, so that H(0) is what the ends of the record make of it, 1 if both levels
 * are those of the ends.
 *
 * <p><b>Accuracy.</b> What the step has above half the rate is folded: the error is the sum over k
 * of H(f - k rate) f/(f - k rate), up to the sign. It vanishes towards f = 0 and is as large as the
 * response at half the rate there. White noise s of a record makes an error that rises as 2 sin(pi
 * f/rate)/sinc.
 */
public final class FrequencyResponse {
  private final double spacingHz;
  private final double[] real;
  private final double[] imaginary;

  private FrequencyResponse(double spacingHz, double[] real, double[] imaginary) {
    this.spacingHz = spacingHz;
    this.real = real;
    this.imaginary = imaginary;
  }

  /** From a step in shares; {@code origin} in points. */
  static FrequencyResponse of(double[] step, double rateHz, double origin) {
    int n = step.length - 1;
    double[] d = new double[n];
    for (int i = 0; i < n; i++) {
      d[i] = step[i + 1] - step[i];
    }
    double[] packed = d.clone();
    new DoubleFFT_1D(n).realForward(packed);
    double[] real = new double[n / 2 + 1];
    double[] imaginary = new double[n / 2 + 1];
    for (int k = 0; k < real.length; k++) {
      boolean half = 2 * k == n;
      double re = half ? packed[1] : packed[2 * k];
      double im = k == 0 || half ? 0 : k == n / 2 ? packed[1] : packed[2 * k + 1];
      double f = (double) k / n;
      double angle = Math.PI * f;
      double sinc = k == 0 ? 1 : Math.sin(angle) / angle;
      double phase = -Cycles.radians(f, 0, 0.5 - origin);
      double c = Math.cos(phase) / sinc;
      double s = Math.sin(phase) / sinc;
      real[k] = re * c - im * s;
      imaginary[k] = re * s + im * c;
    }
    return new FrequencyResponse(rateHz / n, real, imaginary);
  }

  /**
   * The number of frequencies, from 0 to half the rate.
   *
   * @return 4 or more
   */
  public int size() {
    return real.length;
  }

  /**
   * A frequency.
   *
   * @param index 0 to size - 1
   * @return Hz
   * @throws IndexOutOfBoundsException if there is no such frequency
   */
  public double frequencyHz(int index) {
    checked(index);
    return index * spacingHz;
  }

  /**
   * The real part of the response.
   *
   * @param index 0 to size - 1
   * @return a share of the step's amplitude
   * @throws IndexOutOfBoundsException if there is no such frequency
   */
  public double real(int index) {
    return real[checked(index)];
  }

  /**
   * The imaginary part of the response.
   *
   * @param index 0 to size - 1
   * @return a share of the step's amplitude
   * @throws IndexOutOfBoundsException if there is no such frequency
   */
  public double imaginary(int index) {
    return imaginary[checked(index)];
  }

  /**
   * The magnitude of the response.
   *
   * @param index 0 to size - 1
   * @return a share of the step's amplitude, 0 or more
   * @throws IndexOutOfBoundsException if there is no such frequency
   */
  public double magnitude(int index) {
    return Math.hypot(real(index), imaginary(index));
  }

  /**
   * The phase of the response, with time counted from the step's 50 % instant.
   *
   * @param index 0 to size - 1
   * @return radians, -pi to pi; negative lags
   * @throws IndexOutOfBoundsException if there is no such frequency
   */
  public double phaseRadians(int index) {
    return Math.atan2(imaginary(index), real(index));
  }

  /**
   * Where the magnitude first falls to 1/sqrt 2 of that at 0, interpolated by a straight line.
   *
   * @return Hz; not taken if it does not up to half the rate
   */
  public Measured halfPowerHz() {
    double level = magnitude(0) / Math.sqrt(2);
    for (int k = 1; k < real.length; k++) {
      double now = magnitude(k);
      if (now < level) {
        double before = magnitude(k - 1);
        return new Measured.Value((k - 1 + (before - level) / (before - now)) * spacingHz);
      }
    }
    return new Measured.NotTaken(
        "the magnitude does not fall to half power up to half the rate, "
            + Quantity.of((real.length - 1) * spacingHz, "Hz"));
  }

  private int checked(int index) {
    if (index < 0 || index >= real.length) {
      throw new IndexOutOfBoundsException(
          "index = " + index + ": must be from 0 to " + (real.length - 1));
    }
    return index;
  }

  @Override
  public String toString() {
    return "frequency response at "
        + real.length
        + " frequencies up to "
        + Quantity.of((real.length - 1) * spacingHz, "Hz");
  }
}
