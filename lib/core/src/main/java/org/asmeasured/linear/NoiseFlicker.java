package org.asmeasured.linear;

import java.util.ArrayList;
import java.util.List;
import org.apache.commons.math3.complex.Complex;
import org.asmeasured.internal.Require;

/**
 * 1/f noise on top of white noise, as a response that gives white noise that spectrum.
 *
 * <p><b>The spectrum.</b> {@code |F(f)|^2 = 1 + sum_i a f_i/(f^2 + f_i^2)}: the white part, and
 * first-order noises of equal power at the frequencies {@code f_i}, spaced evenly in the logarithm
 * from the lowest frequency fL to fH = 1000 fc, two to the decade; {@code a = (2/pi) fc d}, d the
 * spacing in natural logarithms. A sum of first-order noises so spaced is how 1/f noise comes about
 * in a device (J. Bernamont 1937; A. McWhorter 1957). For spacing to zero it tends to
 *
 * <pre>1 + (fc/f) (2/pi) (arctan(fH/f) - arctan(fL/f))</pre>
 *
 * <p><b>How near.</b> Between its ends the spaced sum ripples about this by 2/cosh(pi^2/d) of the
 * 1/f part, at most 8e-4 (0.0033 dB); its lower end is stepped, 1 % from 3 fL up and 6 % below.
 * From 30 fL up the whole is within 2.3 % (0.1 dB) of 1 + fc/f: arctan(fL/f) takes (2/pi) fL/f of
 * the 1/f part, and the end at fH less than 0.07 % of the whole. Below fL it levels off. The power
 * of the 1/f part is {@code fc ln(fH/fL)}, that of a spectrum fc/f cut off sharply at fL and fH.
 *
 * <p>1/f noise has no finite power without a lowest frequency; what is slower than the time
 * observed is a constant in it, so one over that time is the usual choice.
 */
public final class NoiseFlicker {
  private static final double TO_THE_DECADE = 2;
  private static final double BEYOND_CORNER = 1000;
  private static final int MOST = 30;

  private NoiseFlicker() {}

  /**
   * The response that gives white noise a 1/f part.
   *
   * @param cornerHz where the 1/f part is as strong as the white part, 1e-6 to 1e12 Hz
   * @param lowestHz where the 1/f part ends, 1e-9 to 1e12 Hz, from 1e-12 of the corner up to 50
   *     times the corner
   * @return the response, of gain 1 at high frequencies; real poles and zeros that alternate, two
   *     of each to the decade
   * @throws IllegalArgumentException if a frequency is out of range
   */
  public static Response response(double cornerHz, double lowestHz) {
    Require.inRange("cornerHz", cornerHz, "Hz", 1e-6, 1e12);
    Require.inRange("lowestHz", lowestHz, "Hz", 1e-9, 1e12);
    double highest = BEYOND_CORNER * cornerHz;
    Require.that(
        lowestHz <= 50 * cornerHz && lowestHz >= 1e-12 * cornerHz,
        "lowestHz = "
            + lowestHz
            + " Hz: must be from 1e-12 of cornerHz = "
            + cornerHz
            + " Hz up to 50 times cornerHz");
    double span = StrictMath.log(highest / lowestHz);
    int n = Math.min(MOST, (int) Math.ceil(TO_THE_DECADE * span / StrictMath.log(10) - 1e-9));
    double spacing = span / n;
    double a = 2 / Math.PI * cornerHz * spacing;
    double[] at = new double[n + 1];
    double power = 0;
    for (int i = 0; i < n; i++) {
      at[i] = lowestHz * StrictMath.exp(spacing * (i + 0.5));
      power += a * at[i];
    }
    at[n] = Math.sqrt(at[n - 1] * at[n - 1] + power);
    List<Complex> poles = new ArrayList<>();
    List<Complex> zeros = new ArrayList<>();
    for (int i = 0; i < n; i++) {
      poles.add(new Complex(-2 * Math.PI * at[i], 0));
      zeros.add(new Complex(-2 * Math.PI * zero(at, a, i), 0));
    }
    return Response.of(zeros, poles, 1);
  }

  /**
   * The spectrum is a ratio of two products in f^2. Its only root between two poles, or above the
   * last: 1 + sum a f_i/(f_i^2 - z^2) rises from minus infinity to infinity there.
   */
  private static double zero(double[] at, double a, int i) {
    int n = at.length - 1;
    double low = at[i];
    double high = at[i + 1];
    while (true) {
      double z = low + (high - low) / 2;
      if (z <= low || z >= high) {
        return z;
      }
      double sum = 1;
      for (int k = 0; k < n; k++) {
        sum += a * at[k] / ((at[k] - z) * (at[k] + z));
      }
      if (sum < 0) {
        low = z;
      } else {
        high = z;
      }
    }
  }
}
