package org.asmeasured.spectrum;

import java.util.Arrays;
import org.apache.commons.math3.optim.MaxEval;
import org.apache.commons.math3.optim.nonlinear.scalar.GoalType;
import org.apache.commons.math3.optim.univariate.BrentOptimizer;
import org.apache.commons.math3.optim.univariate.SearchInterval;
import org.apache.commons.math3.optim.univariate.UnivariateObjectiveFunction;
import org.apache.commons.math3.optim.univariate.UnivariatePointValuePair;
import org.asmeasured.internal.Require;

/**
 * A window: the weights that the points of a segment get before they are transformed, as a sum of
 * cosines.
 *
 * <p>Point n of N gets w<sub>n</sub> = sum over k of (-1)<sup>k</sup> a<sub>k</sub> cos(2 pi k
 * n/N): the periodic form, whose coherent gain and noise bandwidth are exact for every N from
 * {@link #leastPoints} on. Its transform at x bins from a tone is W(x) = a<sub>0</sub> sinc(x) +
 * sum of a<sub>k</sub>/2 (sinc(x - k) + sinc(x + k)), sinc(x) = sin(pi x)/(pi x), in the limit of
 * many points; its zeros stand at the whole bins from {@link #halfLobeBins} on.
 *
 * <p>The figures of merit are those of F. J. Harris, Proc. IEEE 66 (1978) 51, and are computed from
 * the coefficients. Immutable.
 */
public final class Window {
  private static final int MAX_TERMS = 16;

  /** Side lobes fall off beyond their highest; that of every window in use is far nearer. */
  private static final int SEARCHED_BINS = 256;

  private static final int STEPS_PER_BIN = 8;

  private static final Window RECTANGULAR = new Window("rectangular", 1);
  private static final Window HANN = new Window("Hann", 0.5, 0.5);
  private static final Window HAMMING = new Window("Hamming", 0.54, 0.46);
  private static final Window BLACKMAN = new Window("Blackman", 0.42, 0.5, 0.08);
  private static final Window BLACKMAN_HARRIS =
      new Window("Blackman-Harris", 0.35875, 0.48829, 0.14128, 0.01168);
  private static final Window FLAT_TOP = new Window("flat top", 1, 1.933, 1.286, 0.388, 0.0322);

  private final String name;
  private final double[] a;

  private Window(String name, double... coefficients) {
    this.name = name;
    this.a = coefficients;
  }

  /**
   * No window: every point counts alike. The sharpest line, and the most leakage: for tones that
   * fill the segment with whole cycles.
   *
   * @return the window
   */
  public static Window rectangular() {
    return RECTANGULAR;
  }

  /**
   * Hann: 0.5, 0.5.
   *
   * @return the window
   */
  public static Window hann() {
    return HANN;
  }

  /**
   * Hamming: 0.54, 0.46.
   *
   * @return the window
   */
  public static Window hamming() {
    return HAMMING;
  }

  /**
   * Blackman: 0.42, 0.5, 0.08.
   *
   * @return the window
   */
  public static Window blackman() {
    return BLACKMAN;
  }

  /**
   * Blackman-Harris of four terms, side lobes 92 dB down: 0.35875, 0.48829, 0.14128, 0.01168.
   *
   * @return the window
   */
  public static Window blackmanHarris() {
    return BLACKMAN_HARRIS;
  }

  /**
   * Flat top with the coefficients of ISO 18431-2 (from memory): 1, 1.933, 1.286, 0.388, 0.0322. A
   * tone anywhere between two bins reads within 0.01 dB.
   *
   * @return the window
   */
  public static Window flatTop() {
    return FLAT_TOP;
  }

  /**
   * A window of your own. A common factor of the coefficients changes nothing.
   *
   * @param name as a person would say it, not blank
   * @param coefficients a<sub>0</sub>, a<sub>1</sub>, ..., 1 to 16 of them, each -1e6 to 1e6; the
   *     first, the coherent gain, from 1e-6
   * @return the window
   * @throws IllegalArgumentException if there are too few or too many, or one is out of range
   * @throws NullPointerException if an argument is missing
   */
  public static Window cosineSum(String name, double... coefficients) {
    Require.present("name", name);
    Require.that(!name.isBlank(), "name = \"" + name + "\": must not be blank");
    Require.present("coefficients", coefficients);
    Require.inRange("coefficients.length", coefficients.length, 1, MAX_TERMS);
    double[] copy = coefficients.clone();
    Require.inRange("coefficients[0]", copy[0], "", 1e-6, 1e6);
    for (int k = 1; k < copy.length; k++) {
      Require.inRange("coefficients[" + k + "]", copy[k], "", -1e6, 1e6);
    }
    return new Window(name, copy);
  }

  /**
   * The coefficients.
   *
   * @return a<sub>0</sub>, a<sub>1</sub>, ...; a new array
   */
  public double[] coefficients() {
    return a.clone();
  }

  /**
   * The mean of the weights: what a tone in the middle of a bin is multiplied by.
   *
   * @return a<sub>0</sub>/(a<sub>0</sub> + a<sub>1</sub> + ...): relative to the weight in the
   *     middle of the segment
   */
  public double coherentGain() {
    double sum = 0;
    for (double c : a) {
      sum += c;
    }
    return a[0] / sum;
  }

  /**
   * The equivalent noise bandwidth: the width of the rectangle that lets as much white noise
   * through, mean(w<sup>2</sup>)/mean(w)<sup>2</sup>.
   *
   * @return bins: 1 + sum over k from 1 of a<sub>k</sub><sup>2</sup>/(2 a<sub>0</sub><sup>2</sup>)
   */
  public double noiseBandwidthBins() {
    double sum = 0;
    for (int k = a.length - 1; k > 0; k--) {
      sum += a[k] * a[k];
    }
    return 1 + sum / (2 * a[0] * a[0]);
  }

  /**
   * How much too low a tone halfway between two bins reads.
   *
   * @return dB, -20 lg |W(1/2)/W(0)|, in the limit of many points
   */
  public double scallopLossDb() {
    return -20 * Math.log10(Math.abs(response(0.5)));
  }

  /**
   * The highest side lobe, seen from the main lobe: the worst that a tone leaves far from it.
   *
   * @return dB, negative, in the limit of many points; looked for up to 256 bins from the tone
   */
  public double highestSidelobeDb() {
    double best = 0;
    double at = halfLobeBins();
    double step = 1.0 / STEPS_PER_BIN;
    for (int i = halfLobeBins() * STEPS_PER_BIN; i < SEARCHED_BINS * STEPS_PER_BIN; i++) {
      double level = Math.abs(response(i * step));
      if (level > best) {
        best = level;
        at = i * step;
      }
    }
    UnivariatePointValuePair top =
        new BrentOptimizer(1e-10, 1e-12)
            .optimize(
                new MaxEval(200),
                new UnivariateObjectiveFunction(x -> Math.abs(response(x))),
                GoalType.MAXIMIZE,
                new SearchInterval(at - step, at + step));
    return 20 * Math.log10(Math.max(best, top.getValue()));
  }

  /**
   * From the middle of a tone to the first of the zeros that stand at every whole bin from there
   * on.
   *
   * @return bins: the number of coefficients
   */
  public int halfLobeBins() {
    return a.length;
  }

  /**
   * The least number of points that hold the cosines of this window and its square, so that
   * coherent gain and noise bandwidth are exact.
   *
   * @return twice the number of coefficients
   */
  public int leastPoints() {
    return 2 * a.length;
  }

  /**
   * What a tone reads at some distance from it, relative to what it reads in the middle of a bin,
   * in the limit of many points.
   *
   * @param bins distance, any finite number
   * @return W(bins)/W(0), with its sign
   * @throws IllegalArgumentException if the distance is not finite
   */
  public double response(double bins) {
    Require.inRange("bins", bins, "", -Double.MAX_VALUE, Double.MAX_VALUE);
    double sum = a[0] * sinc(bins);
    for (int k = 1; k < a.length; k++) {
      sum += a[k] / 2 * (sinc(bins - k) + sinc(bins + k));
    }
    return sum / a[0];
  }

  /**
   * The same for a given number of points, without regard to the sign.
   *
   * <p>With d(x) = sin(pi x)/(N sin(pi x/N)), it is |d(x) + sum of a<sub>k</sub>/(2 a<sub>0</sub>)
   * (e<sup>-j pi k/N</sup> d(x + k) + e<sup>j pi k/N</sup> d(x - k))|.
   */
  double modulus(double bins, int points) {
    double re = a[0] * dirichlet(bins, points);
    double im = 0;
    for (int k = 1; k < a.length; k++) {
      double above = dirichlet(bins + k, points);
      double below = dirichlet(bins - k, points);
      double turn = Math.PI * k / points;
      re += a[k] / 2 * Math.cos(turn) * (above + below);
      im += a[k] / 2 * Math.sin(turn) * (below - above);
    }
    return Math.hypot(re, im) / a[0];
  }

  private static double sinc(double x) {
    if (x == 0) {
      return 1;
    }
    // the sine from the distance to the nearest whole number, so that zeros are zeros
    double whole = Math.rint(x);
    double sine = Math.sin(Math.PI * (x - whole));
    return (isOdd(whole) ? -sine : sine) / (Math.PI * x);
  }

  private static double dirichlet(double bins, int points) {
    // periodic, but for a sign if the number of points is even
    double rounds = Math.rint(bins / points);
    double x = bins - rounds * points;
    double sign = isOdd(rounds * (points - 1)) ? -1 : 1;
    if (x == 0) {
      return sign;
    }
    double whole = Math.rint(x);
    double sine = Math.sin(Math.PI * (x - whole));
    return sign * (isOdd(whole) ? -sine : sine) / (points * Math.sin(Math.PI * x / points));
  }

  private static boolean isOdd(double whole) {
    return whole % 2 != 0;
  }

  /** The weights of a segment, divided by a<sub>0</sub>: their mean is 1. */
  double[] weights(int points) {
    double[] w = new double[points];
    for (int n = 0; n < points; n++) {
      double sum = 0;
      for (int k = a.length - 1; k > 0; k--) {
        // the angle from a whole number below the period, so that it is as exact at the end
        long turns = (long) k * n % points;
        double c = a[k] * Math.cos(2 * Math.PI * turns / points);
        sum += k % 2 == 0 ? c : -c;
      }
      w[n] = (sum + a[0]) / a[0];
    }
    return w;
  }

  @Override
  public boolean equals(Object other) {
    return other instanceof Window that && name.equals(that.name) && Arrays.equals(a, that.a);
  }

  @Override
  public int hashCode() {
    return 31 * name.hashCode() + Arrays.hashCode(a);
  }

  @Override
  public String toString() {
    return name;
  }
}
