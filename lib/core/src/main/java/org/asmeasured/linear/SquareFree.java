package org.asmeasured.linear;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * Splits a polynomial of many digits into factors without repeated roots, one for each multiplicity
 * (D. Yun, 1976): an iteration finds simple roots in a few rounds, where sixteen equal ones would
 * take it hundreds.
 */
final class SquareFree {
  /** Coefficients below this share of the largest are what rounding has left over of a zero. */
  private static final BigDecimal LEFT_OVER = new BigDecimal("1e-120");

  private final MathContext precision;

  SquareFree(MathContext precision) {
    this.precision = precision;
  }

  /** A factor of simple roots, each of which the polynomial has so many times. */
  record Factor(BigDecimal[] ascending, int multiplicity) {}

  List<Factor> of(BigDecimal[] p) {
    List<Factor> factors = new ArrayList<>();
    BigDecimal[] slope = derivative(p);
    BigDecimal[] common = greatestCommonDivisor(p, slope);
    if (common.length == 1) {
      factors.add(new Factor(p, 1));
      return factors;
    }
    BigDecimal[] w = quotient(p, common);
    BigDecimal[] z = difference(quotient(slope, common), derivative(w));
    for (int multiplicity = 1; w.length > 1; multiplicity++) {
      BigDecimal[] h = z.length == 0 ? w : greatestCommonDivisor(w, z);
      if (h.length > 1) {
        factors.add(new Factor(h, multiplicity));
      }
      w = quotient(w, h);
      z = z.length == 0 ? z : difference(quotient(z, h), derivative(w));
    }
    return factors;
  }

  private BigDecimal[] derivative(BigDecimal[] p) {
    BigDecimal[] d = new BigDecimal[p.length - 1];
    for (int i = 1; i < p.length; i++) {
      d[i - 1] = p[i].multiply(new BigDecimal(i), precision);
    }
    return d;
  }

  private BigDecimal[] difference(BigDecimal[] a, BigDecimal[] b) {
    BigDecimal[] d = Arrays.copyOf(a, Math.max(a.length, b.length));
    for (int i = 0; i < d.length; i++) {
      BigDecimal x = i < a.length ? a[i] : BigDecimal.ZERO;
      d[i] = i < b.length ? x.subtract(b[i], precision) : x;
    }
    return trimmed(d, largest(a).max(largest(b)));
  }

  private BigDecimal[] greatestCommonDivisor(BigDecimal[] a, BigDecimal[] b) {
    BigDecimal[] high = normalised(a);
    BigDecimal[] low = normalised(b);
    while (low.length > 1) {
      BigDecimal[] rest = divided(high, low, false);
      high = low;
      if (rest.length == 0) {
        return monic(high);
      }
      low = normalised(rest);
    }
    return new BigDecimal[] {BigDecimal.ONE};
  }

  private BigDecimal[] quotient(BigDecimal[] a, BigDecimal[] b) {
    return divided(a, b, true);
  }

  private BigDecimal[] divided(BigDecimal[] a, BigDecimal[] b, boolean wantQuotient) {
    BigDecimal[] rest = a.clone();
    int n = b.length - 1;
    BigDecimal[] quotient = new BigDecimal[Math.max(1, a.length - n)];
    Arrays.fill(quotient, BigDecimal.ZERO);
    for (int k = a.length - 1; k >= n; k--) {
      BigDecimal factor = rest[k].divide(b[n], precision);
      quotient[k - n] = factor;
      for (int i = 0; i <= n; i++) {
        rest[k - n + i] = rest[k - n + i].subtract(factor.multiply(b[i], precision), precision);
      }
    }
    return wantQuotient
        ? quotient
        : trimmed(Arrays.copyOf(rest, Math.min(n, rest.length)), largest(a));
  }

  private static BigDecimal[] trimmed(BigDecimal[] p, BigDecimal beside) {
    BigDecimal least = beside.multiply(LEFT_OVER);
    int n = p.length;
    while (n > 0 && p[n - 1].abs().compareTo(least) <= 0) {
      n--;
    }
    return Arrays.copyOf(p, n);
  }

  private static BigDecimal largest(BigDecimal[] p) {
    BigDecimal most = BigDecimal.ZERO;
    for (BigDecimal c : p) {
      most = most.max(c.abs());
    }
    return most;
  }

  private BigDecimal[] normalised(BigDecimal[] p) {
    return over(p, largest(p));
  }

  private BigDecimal[] monic(BigDecimal[] p) {
    return over(p, p[p.length - 1]);
  }

  private BigDecimal[] over(BigDecimal[] p, BigDecimal divisor) {
    BigDecimal[] q = new BigDecimal[p.length];
    for (int i = 0; i < q.length; i++) {
      q[i] = p[i].divide(divisor, precision);
    }
    return q;
  }
}
