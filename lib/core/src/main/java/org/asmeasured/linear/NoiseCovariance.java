package org.asmeasured.linear;

import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.ArrayRealVector;
import org.apache.commons.math3.linear.LUDecomposition;
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

  /**
   * White noise through a response, seen at instants h apart, scaled to unit variance. The states
   * are those of the modal chains, in real form.
   */
  static NoiseCovariance of(Modes modes, double h) {
    double energy = modes.impulseEnergy();
    int n = 0;
    for (Cluster c : modes.clusters) {
      n += c.real ? c.size : 2 * c.size;
    }
    RealMatrix x = new Array2DRowRealMatrix(n, n);
    double[] w = new double[n];
    double[] out = new double[n];
    int at = 0;
    for (Cluster c : modes.clusters) {
      int m = c.size;
      double[][][] e = lessIdentity(c, h);
      double[][] v = modes.withOutput(c);
      for (int i = 0; i < m; i++) {
        w[at + i] = v[0][i] / energy;
        for (int j = i; j < m; j++) {
          x.setEntry(at + i, at + j, e[0][i][j]);
          if (!c.real) {
            x.setEntry(at + i, at + m + j, -e[1][i][j]);
            x.setEntry(at + m + i, at + j, e[1][i][j]);
            x.setEntry(at + m + i, at + m + j, e[0][i][j]);
          }
        }
        if (!c.real) {
          w[at + m + i] = v[1][i] / energy;
        }
      }
      out[at] = 1;
      at += c.real ? m : 2 * m;
    }
    RealVector states = new ArrayRealVector(w, false);
    return new NoiseCovariance(
        x, states.add(x.operate(states)), new ArrayRealVector(out, false), 1);
  }

  /**
   * E - I of a chain over a time h: Taylor's series over a short time, doubled as (I + X)^2 - I = 2
   * X + X^2. Plain arithmetic throughout, so every Java gives the same bits.
   */
  static double[][][] lessIdentity(Cluster c, double h) {
    int m = c.size;
    double fastest = Math.max(c.fastest, m > 1 ? c.scale : 0);
    int doublings = Math.max(0, Math.getExponent(fastest * h) + 2);
    ChainExponential e = new ChainExponential(c.re, c.im, c.scale);
    e.lessIdentityAt(Math.scalb(h, -doublings));
    double[][] re = new double[m][m];
    double[][] im = new double[m][m];
    for (int i = 0; i < m; i++) {
      for (int j = i; j < m; j++) {
        re[i][j] = e.re[i * m + j];
        im[i][j] = e.im[i * m + j];
      }
    }
    for (int d = 0; d < doublings; d++) {
      double[][] newRe = new double[m][m];
      double[][] newIm = new double[m][m];
      for (int i = 0; i < m; i++) {
        for (int j = i; j < m; j++) {
          double sr = 2 * re[i][j];
          double si = 2 * im[i][j];
          for (int k = i; k <= j; k++) {
            sr += re[i][k] * re[k][j] - im[i][k] * im[k][j];
            si += re[i][k] * im[k][j] + im[i][k] * re[k][j];
          }
          newRe[i][j] = sr;
          newIm[i][j] = si;
        }
      }
      re = newRe;
      im = newIm;
    }
    return new double[][][] {re, im};
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
    RealMatrix both = new Array2DRowRealMatrix(2 * n, 2 * n);
    RealVector right = new ArrayRealVector(2 * n);
    for (int i = 0; i < n; i++) {
      for (int j = 0; j < n; j++) {
        double a = (i == j ? zr : 0) - lessIdentity.getEntry(i, j);
        both.setEntry(i, j, a);
        both.setEntry(n + i, n + j, a);
      }
      both.setEntry(i, n + i, -zi);
      both.setEntry(n + i, i, zi);
      right.setEntry(i, withOutput.getEntry(i));
    }
    RealVector x = new LUDecomposition(both, 0).getSolver().solve(right);
    return present + 2 * output.dotProduct(x.getSubVector(0, n));
  }
}
