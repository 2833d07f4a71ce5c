package org.asmeasured.uncertainty;

import org.asmeasured.internal.Require;

/**
 * The correlation that two normal values must have, so that the inputs made of them have the stated
 * one. With x = g(z) in Hermite polynomials, g = sum of a_k He_k/sqrt(k!), the inputs' correlation
 * is sum of a_k b_k rho^k over their standard deviations (Mehler's expansion): it rises with rho,
 * and is solved by bisection.
 */
final class NormalCorrelation {
  private static final int TERMS = 60;
  private static final double STEP = 1.0 / 32;

  private NormalCorrelation() {}

  static double of(Input a, Input b, double stated) {
    if (!(a.distribution().standardDeviation() < Double.POSITIVE_INFINITY
            && b.distribution().standardDeviation() < Double.POSITIVE_INFINITY)
        || a.distribution() instanceof Normal && b.distribution() instanceof Normal) {
      return stated;
    }
    double[] product = hermite(a.distribution());
    double[] other = hermite(b.distribution());
    for (int k = 0; k < TERMS; k++) {
      product[k] *= other[k];
    }
    double least = at(product, -1);
    double most = at(product, 1);
    // two inputs of one shape can be the same quantity: what the cut-off terms lack there is not a
    // limit
    double slack = 2e-3;
    Require.that(
        stated >= least - slack && stated <= most + slack,
        "correlation of "
            + a.name()
            + " and "
            + b.name()
            + " = "
            + stated
            + ": must be from "
            + least
            + " to "
            + most
            + " for a "
            + a.distribution().name()
            + " and a "
            + b.distribution().name());
    return stated >= most
        ? 1
        : stated <= least ? -1 : Bisection.turn(-1, 1, rho -> at(product, rho) > stated);
  }

  private static double at(double[] terms, double rho) {
    double sum = 0;
    for (int k = TERMS - 1; k >= 0; k--) {
      sum = (sum + terms[k]) * rho;
    }
    return sum;
  }

  /** a_1 to a_TERMS over the standard deviation. */
  private static double[] hermite(Distribution distribution) {
    double[] a = new double[TERMS];
    double middle = distribution.estimate();
    double sigma = distribution.standardDeviation();
    int ends = (int) (Bisection.FARTHEST / STEP);
    for (int i = -ends; i <= ends; i++) {
      double z = i * STEP;
      double weight = (distribution.atNormal(z) - middle) / sigma * Normal.density(z) * STEP;
      double before = 0;
      double polynomial = 1;
      for (int k = 1; k <= TERMS; k++) {
        double next = (z * polynomial - Math.sqrt(k - 1) * before) / Math.sqrt(k);
        before = polynomial;
        polynomial = next;
        a[k - 1] += weight * polynomial;
      }
    }
    return a;
  }
}
