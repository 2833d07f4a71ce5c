package org.asmeasured.linear;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.ArrayList;
import java.util.List;
import org.apache.commons.math3.complex.Complex;

/**
 * The transfer function of linear equations {@code (G + s C) x = b u, y = c x} with real entries,
 * as exact polynomials: both determinants are evaluated at whole numbers with some hundred digits
 * and interpolated, so that no element value is too far from another.
 */
final class Pencil {
  private static final MathContext DIGITS = new MathContext(400);

  /**
   * Coefficients below this share of the largest are what interpolation has left over of a zero.
   */
  private static final BigDecimal LEFT_OVER = new BigDecimal("1e-300");

  private final BigDecimal[][] g;
  private final BigDecimal[][] c;
  private final int size;

  Pencil(int size) {
    this.size = size;
    g = filled(size);
    c = filled(size);
  }

  private static BigDecimal[][] filled(int size) {
    BigDecimal[][] m = new BigDecimal[size][size];
    for (BigDecimal[] row : m) {
      java.util.Arrays.fill(row, BigDecimal.ZERO);
    }
    return m;
  }

  void addConstant(int row, int column, BigDecimal value) {
    g[row][column] = g[row][column].add(value, DIGITS);
  }

  void addLinear(int row, int column, BigDecimal value) {
    c[row][column] = c[row][column].add(value, DIGITS);
  }

  static BigDecimal reciprocal(double value) {
    return BigDecimal.ONE.divide(new BigDecimal(value), DIGITS);
  }

  /**
   * The response from an input that enters all equations with the given weights to one unknown.
   *
   * @return the response with roots that both polynomials share taken out
   * @throws IllegalArgumentException if the equations have no unique solution or are not stable
   */
  Response response(BigDecimal[] input, int unknown) {
    BigDecimal[] denominator = determinant(null, -1);
    BigDecimal[] numerator = determinant(input, unknown);
    if (denominator.length == 0) {
      throw new IllegalArgumentException(
          "the equations have no unique solution: an element or node is left open");
    }
    if (numerator.length == 0) {
      return Response.gain(0);
    }
    if (numerator.length > denominator.length) {
      throw new IllegalArgumentException(
          "the response grows without bound at high frequencies: a series resistance is missing somewhere");
    }
    List<Complex> zeros = new ArrayList<>(Roots.of(numerator, DIGITS));
    List<Complex> poles = new ArrayList<>(Roots.of(denominator, DIGITS));
    cancel(zeros, poles);
    double gain =
        numerator[numerator.length - 1]
            .divide(denominator[denominator.length - 1], DIGITS)
            .doubleValue();
    return Response.of(zeros, poles, gain);
  }

  /**
   * Parts that the input does not reach, or the output does not show, appear as equal zeros and
   * poles.
   */
  private static void cancel(List<Complex> zeros, List<Complex> poles) {
    for (int i = zeros.size() - 1; i >= 0; i--) {
      Complex z = zeros.get(i);
      for (int k = 0; k < poles.size(); k++) {
        if (poles.get(k).subtract(z).abs() <= 1e-15 * z.abs() || poles.get(k).equals(z)) {
          poles.remove(k);
          zeros.remove(i);
          break;
        }
      }
    }
  }

  /**
   * Ascending coefficients of det(G + s C), one column replaced if asked for; leading zeros
   * removed.
   */
  private BigDecimal[] determinant(BigDecimal[] column, int at) {
    int n = size + 1;
    BigDecimal[] newton = new BigDecimal[n];
    for (int k = 0; k < n; k++) {
      newton[k] = determinantAt(new BigDecimal(k + 1), column, at);
    }
    // divided differences over s = 1, 2, 3, ..., then out of Newton's form
    for (int order = 1; order < n; order++) {
      for (int k = n - 1; k >= order; k--) {
        newton[k] = newton[k].subtract(newton[k - 1], DIGITS).divide(new BigDecimal(order), DIGITS);
      }
    }
    BigDecimal[] p = new BigDecimal[n];
    java.util.Arrays.fill(p, BigDecimal.ZERO);
    for (int k = n - 1; k >= 0; k--) {
      BigDecimal node = new BigDecimal(k + 1);
      for (int i = n - 1; i >= 1; i--) {
        p[i] = p[i - 1].subtract(p[i].multiply(node, DIGITS), DIGITS);
      }
      p[0] = newton[k].subtract(p[0].multiply(node, DIGITS), DIGITS);
    }
    BigDecimal most = BigDecimal.ZERO;
    for (BigDecimal a : p) {
      most = most.max(a.abs());
    }
    int degree = n - 1;
    for (int i = 0; i < n; i++) {
      if (p[i].abs().compareTo(most.multiply(LEFT_OVER, DIGITS)) <= 0) {
        p[i] = BigDecimal.ZERO;
      }
    }
    while (degree >= 0 && p[degree].signum() == 0) {
      degree--;
    }
    return java.util.Arrays.copyOf(p, degree + 1);
  }

  /** Gaussian elimination with partial pivoting. */
  private BigDecimal determinantAt(BigDecimal s, BigDecimal[] column, int at) {
    BigDecimal[][] m = new BigDecimal[size][size];
    for (int i = 0; i < size; i++) {
      for (int j = 0; j < size; j++) {
        m[i][j] = j == at ? column[i] : g[i][j].add(c[i][j].multiply(s, DIGITS), DIGITS);
      }
    }
    BigDecimal product = BigDecimal.ONE;
    for (int i = 0; i < size; i++) {
      int pivot = i;
      for (int k = i + 1; k < size; k++) {
        if (m[k][i].abs().compareTo(m[pivot][i].abs()) > 0) {
          pivot = k;
        }
      }
      if (m[pivot][i].signum() == 0) {
        return BigDecimal.ZERO;
      }
      if (pivot != i) {
        BigDecimal[] swap = m[i];
        m[i] = m[pivot];
        m[pivot] = swap;
        product = product.negate();
      }
      product = product.multiply(m[i][i], DIGITS);
      for (int k = i + 1; k < size; k++) {
        if (m[k][i].signum() != 0) {
          BigDecimal factor = m[k][i].divide(m[i][i], DIGITS);
          for (int j = i + 1; j < size; j++) {
            m[k][j] = m[k][j].subtract(factor.multiply(m[i][j], DIGITS), DIGITS);
          }
        }
      }
    }
    return product;
  }
}
