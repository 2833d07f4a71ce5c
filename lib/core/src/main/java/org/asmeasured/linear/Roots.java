package org.asmeasured.linear;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.ArrayList;
import java.util.List;
import org.apache.commons.math3.complex.Complex;

/**
 * Roots of a polynomial whose coefficients are known to many digits, so that roots nine decades
 * apart and repeated roots come out right to the last bit of a double.
 *
 * <p>All roots at once by the Ehrlich-Aberth iteration, from starting circles read off the Newton
 * polygon of the coefficients (O. Aberth, Mathematics of Computation 27 (1973) 339; D. Bini,
 * Numerical Algorithms 13 (1996) 179).
 */
final class Roots {
  private static final int MAX_ROUNDS = 2000;
  private static final double CONVERGED = 1e-24;

  /**
   * Digits that the iteration works with: roots of a factor may be near each other, but not equal.
   */
  private static final MathContext ITERATION = new MathContext(150);

  private final MathContext precision;
  private final BigDecimal[] coefficients;

  private Roots(BigDecimal[] coefficients, MathContext precision) {
    this.coefficients = coefficients;
    this.precision = precision;
  }

  /**
   * The roots, conjugate pairs exact conjugates of each other.
   *
   * @param ascending real coefficients, of the power 0 first; the last is not zero
   */
  static List<Complex> of(BigDecimal[] ascending, MathContext precision) {
    int zeros = 0;
    while (ascending[zeros].signum() == 0) {
      zeros++;
    }
    List<Complex> roots = new ArrayList<>();
    for (int i = 0; i < zeros; i++) {
      roots.add(Complex.ZERO);
    }
    BigDecimal[] rest = java.util.Arrays.copyOfRange(ascending, zeros, ascending.length);
    if (rest.length > 1) {
      int decades = balance(rest);
      for (SquareFree.Factor factor : new SquareFree(precision).of(rest)) {
        List<Complex> simple =
            conjugated(
                new Roots(
                        factor.ascending(),
                        precision.getPrecision() < ITERATION.getPrecision() ? precision : ITERATION)
                    .iterate(),
                decades);
        for (int i = 0; i < factor.multiplicity(); i++) {
          roots.addAll(simple);
        }
      }
    }
    return roots;
  }

  /** Measures s in a power of ten near the roots' geometric mean; returns that power. */
  private static int balance(BigDecimal[] p) {
    int n = p.length - 1;
    int decades = (int) Math.rint((log(p[0]) - log(p[n])) / n / Math.log(10));
    for (int k = 0; k <= n; k++) {
      p[k] = p[k].scaleByPowerOfTen(decades * k);
    }
    return decades;
  }

  private BigComplex[] iterate() {
    BigComplex[] z = start();
    int n = z.length;
    boolean[] done = new boolean[n];
    for (int round = 0; round < MAX_ROUNDS; round++) {
      boolean moved = false;
      for (int i = 0; i < n; i++) {
        if (done[i]) {
          continue;
        }
        BigComplex step = newtonStep(z[i]);
        if (step.isZero()) {
          done[i] = true;
          continue;
        }
        BigComplex repulsion = BigComplex.ZERO;
        for (int k = 0; k < n; k++) {
          BigComplex apart = z[i].minus(z[k], precision);
          if (k != i && !apart.isZero()) {
            repulsion = repulsion.plus(BigComplex.ONE.over(apart, precision), precision);
          }
        }
        BigComplex divisor = BigComplex.ONE.minus(step.times(repulsion, precision), precision);
        BigComplex correction = divisor.isZero() ? step : step.over(divisor, precision);
        z[i] = z[i].minus(correction, precision);
        done[i] = correction.modulus() <= CONVERGED * z[i].modulus();
        moved |= !done[i];
      }
      if (!moved) {
        return z;
      }
    }
    throw new ArithmeticException("the roots of a polynomial of degree " + n + " did not settle");
  }

  /** p(z)/p'(z) by Horner's rule. */
  private BigComplex newtonStep(BigComplex z) {
    BigComplex p = BigComplex.ZERO;
    BigComplex slope = BigComplex.ZERO;
    for (int k = coefficients.length - 1; k >= 0; k--) {
      slope = slope.times(z, precision).plus(p, precision);
      p = p.times(z, precision).plus(new BigComplex(coefficients[k], BigDecimal.ZERO), precision);
    }
    if (p.isZero()) {
      return BigComplex.ZERO;
    }
    return slope.isZero()
        ? z.times(new BigComplex(new BigDecimal("0.01"), new BigDecimal("0.01")), precision)
        : p.over(slope, precision);
  }

  /** Points on circles whose radii are the slopes of the upper hull of log |coefficient|. */
  private BigComplex[] start() {
    int n = coefficients.length - 1;
    double[] log = new double[n + 1];
    for (int k = 0; k <= n; k++) {
      log[k] = log(coefficients[k]);
    }
    BigComplex[] z = new BigComplex[n];
    int from = 0;
    while (from < n) {
      int to = from + 1;
      double best = Double.NEGATIVE_INFINITY;
      for (int k = from + 1; k <= n; k++) {
        double slope = (log[k] - log[from]) / (k - from);
        if (slope >= best) {
          best = slope;
          to = k;
        }
      }
      for (int k = from; k < to; k++) {
        double angle = 2 * Math.PI * (k - from) / (to - from) + 0.7 + 0.1 * from;
        z[k] = BigComplex.polar(-best, angle);
      }
      from = to;
    }
    return z;
  }

  private static double log(BigDecimal value) {
    if (value.signum() == 0) {
      return Double.NEGATIVE_INFINITY;
    }
    int digits = value.precision();
    double mantissa = value.abs().movePointLeft(digits - value.scale()).doubleValue();
    return Math.log(mantissa) + (digits - value.scale()) * Math.log(10);
  }

  /** Rounds to doubles, puts nearly real roots on the axis and makes pairs exact. */
  private static List<Complex> conjugated(BigComplex[] z, int decades) {
    List<Complex> out = new ArrayList<>();
    for (BigComplex root : z) {
      Complex c =
          new Complex(
              root.re().scaleByPowerOfTen(decades).doubleValue(),
              root.im().scaleByPowerOfTen(decades).doubleValue());
      if (Math.abs(c.getImaginary()) <= 1e-16 * c.abs()) {
        out.add(new Complex(c.getReal(), 0));
      } else if (c.getImaginary() > 0) {
        out.add(c);
        out.add(c.conjugate());
      }
    }
    if (out.size() != z.length) {
      throw new ArithmeticException("the roots of a real polynomial did not pair up");
    }
    return out;
  }
}
