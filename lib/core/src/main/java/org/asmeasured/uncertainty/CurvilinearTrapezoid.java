package org.asmeasured.uncertainty;

import org.asmeasured.internal.Quantity;
import org.asmeasured.internal.Require;

/**
 * A rectangle about m whose half-width w is itself rectangular from a - d to a + d. With t = |x -
 * m|, the chance to lie farther out is 1 - t ln((a + d)/(a - d))/(2 d) up to a - d, and beyond it
 * (a + d)/(2 d) (1 - v + v ln v), v = t/(a + d).
 */
record CurvilinearTrapezoid(double lower, double upper, double inexactness)
    implements Distribution {

  CurvilinearTrapezoid {
    Trapezoidal.limits(lower, upper);
    double half = 0.5 * (upper - lower);
    Require.above("inexactness", inexactness, "", 0, half);
    Require.that(
        inexactness < half,
        "inexactness = " + inexactness + ": must be below half the width, " + half);
  }

  @Override
  public String name() {
    return "curvilinear trapezoid from "
        + lower
        + " to "
        + upper
        + ", limits off by "
        + inexactness;
  }

  @Override
  public String words(String unit) {
    return "curvilinear trapezoid from "
        + Quantity.of(lower, unit)
        + " to "
        + Quantity.of(upper, unit)
        + ", limits off by "
        + Quantity.of(inexactness, unit);
  }

  @Override
  public double quantile(double probability) {
    double a = 0.5 * (upper - lower);
    double widest = a + inexactness;
    double outside = 2 * Math.min(probability, 1 - probability);
    double density = StrictMath.log1p(2 * inexactness / (a - inexactness)) / (2 * inexactness);
    double t = (1 - outside) / density;
    if (t > a - inexactness) {
      t = widest * (1 - missing(outside * 2 * inexactness / widest, 2 * inexactness / widest));
    }
    return probability < 0.5 ? estimate() - t : estimate() + t;
  }

  /** The e = 1 - v that solves e + (1 - e) ln(1 - e) = k, by Newton from above: it is convex. */
  private static double missing(double k, double most) {
    double e = Math.min(Math.sqrt(2 * k), most);
    for (int i = 0; i < 60; i++) {
      double step = (area(e) - k) / StrictMath.log1p(-e);
      double next = e + step;
      if (!(next < e) || !(next > 0)) {
        return e;
      }
      e = next;
    }
    return e;
  }

  private static double area(double e) {
    if (e > 0.02) {
      return e + (1 - e) * StrictMath.log1p(-e);
    }
    double sum = 0;
    for (int n = 10; n >= 2; n--) {
      sum = sum * e + 1.0 / (n * (n - 1));
    }
    return sum * e * e;
  }

  @Override
  public double estimate() {
    return 0.5 * (lower + upper);
  }

  @Override
  public double standardDeviation() {
    double a = 0.5 * (upper - lower);
    return Math.sqrt(a * a / 3 + inexactness * inexactness / 9);
  }
}
