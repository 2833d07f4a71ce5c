package org.asmeasured.linear;

import org.apache.commons.math3.linear.ArrayRealVector;
import org.apache.commons.math3.linear.RealMatrix;
import org.apache.commons.math3.linear.RealVector;

/**
 * A stationary process at uniform instants by its covariance: {@code R(0) = 1 + floor, R(k) = C
 * F^(k-1) G}.
 *
 * <p>F is held as F - I, so that slow poles keep their digits.
 *
 * @param lessIdentity F - I
 * @param withOutput G, the covariance of the next state with the present output
 * @param output C
 * @param present R(0)
 */
record NoiseCovariance(
    RealMatrix lessIdentity, RealVector withOutput, RealVector output, double present) {

  /** White noise through a response, seen at instants h apart, scaled to unit variance. */
  static NoiseCovariance of(Response response, double h) {
    NoiseStates states = new NoiseStates(response);
    RealVector c = new ArrayRealVector(states.output(response.modes()), false);
    c.mapDivideToSelf(c.getNorm());
    RealMatrix x = states.lessIdentity(h);
    return new NoiseCovariance(x, c.add(x.operate(c)), c, 1);
  }

  int states() {
    return output.getDimension();
  }

  NoiseCovariance withFloor(double floor) {
    return new NoiseCovariance(lessIdentity, withOutput, output, present + floor);
  }

  /** R at the lags 0, 1, then 1 + 2^j and 1 + 3 2^j for j = 0, 1, ... */
  double[] atSpreadLags(int octaves) {
    double[] r = new double[2 + 2 * octaves];
    r[0] = present;
    if (states() == 0) {
      return r;
    }
    r[1] = output.dotProduct(withOutput);
    RealMatrix power = lessIdentity;
    for (int j = 0; j < octaves; j++) {
      // power = F^(2^j) - I
      RealVector now = withOutput.add(power.operate(withOutput));
      r[2 + 2 * j] = output.dotProduct(now);
      power = power.scalarMultiply(2).add(power.multiply(power));
      r[3 + 2 * j] = output.dotProduct(now.add(power.operate(now)));
    }
    return r;
  }

  /**
   * The sum R(k) e^{-j theta k} over all k: R(0) + 2 Re C (zeta - (F - I))^-1 G with zeta = e^{j
   * theta} - 1.
   */
  double spectrum(double theta) {
    int n = states();
    if (n == 0) {
      return present;
    }
    double half = Math.sin(theta / 2);
    double zr = -2 * half * half;
    double zi = Math.sin(theta);
    double[][] re = new double[n][n];
    double[][] im = new double[n][n];
    double[] xRe = withOutput.toArray();
    double[] xIm = new double[n];
    for (int i = 0; i < n; i++) {
      for (int j = 0; j < n; j++) {
        re[i][j] = (i == j ? zr : 0) - lessIdentity.getEntry(i, j);
      }
      im[i][i] = zi;
    }
    solve(re, im, xRe, xIm);
    double sum = 0;
    for (int i = 0; i < n; i++) {
      sum += output.getEntry(i) * xRe[i];
    }
    return present + 2 * sum;
  }

  /** Solves a complex system in place, by elimination with partial pivoting. */
  private static void solve(double[][] re, double[][] im, double[] xRe, double[] xIm) {
    int n = xRe.length;
    for (int c = 0; c < n; c++) {
      int pivot = c;
      for (int i = c + 1; i < n; i++) {
        if (square(re[i][c], im[i][c]) > square(re[pivot][c], im[pivot][c])) {
          pivot = i;
        }
      }
      swap(re, pivot, c);
      swap(im, pivot, c);
      swap(xRe, pivot, c);
      swap(xIm, pivot, c);
      double d2 = square(re[c][c], im[c][c]);
      for (int i = c + 1; i < n; i++) {
        double fr = (re[i][c] * re[c][c] + im[i][c] * im[c][c]) / d2;
        double fi = (im[i][c] * re[c][c] - re[i][c] * im[c][c]) / d2;
        for (int j = c + 1; j < n; j++) {
          re[i][j] -= fr * re[c][j] - fi * im[c][j];
          im[i][j] -= fr * im[c][j] + fi * re[c][j];
        }
        double r = xRe[i] - (fr * xRe[c] - fi * xIm[c]);
        xIm[i] -= fr * xIm[c] + fi * xRe[c];
        xRe[i] = r;
      }
    }
    for (int c = n - 1; c >= 0; c--) {
      double nr = xRe[c];
      double ni = xIm[c];
      for (int j = c + 1; j < n; j++) {
        nr -= re[c][j] * xRe[j] - im[c][j] * xIm[j];
        ni -= re[c][j] * xIm[j] + im[c][j] * xRe[j];
      }
      double d2 = square(re[c][c], im[c][c]);
      xRe[c] = (nr * re[c][c] + ni * im[c][c]) / d2;
      xIm[c] = (ni * re[c][c] - nr * im[c][c]) / d2;
    }
  }

  private static double square(double re, double im) {
    return re * re + im * im;
  }

  private static void swap(double[][] rows, int a, int b) {
    double[] row = rows[a];
    rows[a] = rows[b];
    rows[b] = row;
  }

  private static void swap(double[] x, int a, int b) {
    double v = x[a];
    x[a] = x[b];
    x[b] = v;
  }
}
