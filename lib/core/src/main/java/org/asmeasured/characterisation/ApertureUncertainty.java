package org.asmeasured.characterisation;

import org.apache.commons.math3.analysis.UnivariateFunction;
import org.apache.commons.math3.analysis.solvers.BrentSolver;
import org.asmeasured.internal.Quantity;
import org.asmeasured.internal.Require;
import org.asmeasured.measure.Measured;

/**
 * Aperture uncertainty: by how much the sampling instants scatter, from what a sine of steep slope
 * leaves over more than one of gentle slope (IEEE Std 1057-2017 and 1241-2010, aperture
 * uncertainty, from memory).
 *
 * <p>Normal jitter s shrinks a sine of frequency f by exp(-(2 pi f s)<sup>2</sup>/2) in the mean,
 * and leaves noise of the power (A<sup>2</sup>/2)(exp((2 pi f s)<sup>2</sup>) - 1), A being the
 * amplitude as fitted. The other noise, the same in both records, drops out of the difference of
 * the two:
 *
 * <pre>NAD_2^2 - NAD_1^2 = (A_2^2/2)(exp((2 pi f_2 s)^2) - 1) - (A_1^2/2)(exp((2 pi f_1 s)^2) - 1)
 * </pre>
 *
 * <p>which is solved for s. For a small phase this is the usual form, extra noise over extra RMS
 * slope. Distortion that grows with the slope is taken for jitter.
 */
public final class ApertureUncertainty {
  private ApertureUncertainty() {}

  /**
   * The standard deviation of the sampling instants.
   *
   * @param gentle the fit of a sine of gentle slope
   * @param steep the fit of one of steeper slope, amplitude times frequency, of the same converter
   *     with the same other noise
   * @return seconds; or a reason: the second slope is not the steeper, or leaves no more over
   * @throws NullPointerException if a fit is missing
   */
  public static Measured of(SineFit gentle, SineFit steep) {
    Require.present("gentle", gentle);
    Require.present("steep", steep);
    double w1 = 2 * Math.PI * gentle.frequencyHz();
    double w2 = 2 * Math.PI * steep.frequencyHz();
    double a1 = gentle.amplitudeVolts();
    double a2 = steep.amplitudeVolts();
    if (!(a2 * w2 > a1 * w1)) {
      return new Measured.NotTaken(
          "the second sine, of "
              + Quantity.of(a2 * w2, "V/s")
              + " at its steepest, is not steeper than the first, of "
              + Quantity.of(a1 * w1, "V/s"));
    }
    if (w2 < w1) {
      return new Measured.NotTaken(
          "the steeper sine is the slower one: only a higher frequency shows jitter for sure");
    }
    double extra =
        (steep.residualVolts() - gentle.residualVolts())
            * (steep.residualVolts() + gentle.residualVolts());
    if (!(extra > 0)) {
      return new Measured.NotTaken(
          "the steeper sine leaves no more over ("
              + Quantity.of(steep.residualVolts(), "V")
              + ") than the other ("
              + Quantity.of(gentle.residualVolts(), "V")
              + "): no jitter shows");
    }
    double small = Math.sqrt(2 * extra / ((a2 * w2 - a1 * w1) * (a2 * w2 + a1 * w1)));
    // in units of the estimate for a small phase
    UnivariateFunction over =
        k ->
            (a2 * a2 / 2 * Math.expm1(square(k * small * w2))
                        - a1 * a1 / 2 * Math.expm1(square(k * small * w1)))
                    / extra
                - 1;
    double high = 1.000001;
    double low = 0;
    while (over.value(high) < 0) {
      high *= 1.5;
    }
    double k = new BrentSolver(1e-14, 1e-14, 0).solve(1000, over, low, high);
    return new Measured.Value(k * small);
  }

  private static double square(double x) {
    return x * x;
  }
}
