package org.asmeasured.linear;

import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.ArrayRealVector;
import org.apache.commons.math3.linear.EigenDecomposition;
import org.apache.commons.math3.linear.LUDecomposition;
import org.apache.commons.math3.linear.RealMatrix;
import org.apache.commons.math3.linear.RealVector;

/**
 * A filter of white values as sections side by side: {@code y = direct e + sum b x + sum (c u - d
 * v)}, where each x decays by its own factor and each pair u + j v turns and decays by one complex
 * factor; every x and u takes in e after it was read.
 */
final class NoiseSections {
  final double direct;
  final double[] factor;
  final double[] weight;
  final double[] factorRe;
  final double[] factorIm;
  final double[] weightRe;
  final double[] weightIm;
  private final double[] lessOne;
  private final double[] lessOneRe;

  private NoiseSections(
      double direct,
      double[] lessOne,
      double[] weight,
      double[] lessOneRe,
      double[] factorIm,
      double[] weightRe,
      double[] weightIm) {
    this.direct = direct;
    this.lessOne = lessOne;
    this.weight = weight;
    this.lessOneRe = lessOneRe;
    this.factorIm = factorIm;
    this.weightRe = weightRe;
    this.weightIm = weightIm;
    factor = new double[lessOne.length];
    factorRe = new double[lessOneRe.length];
    for (int i = 0; i < factor.length; i++) {
      factor[i] = 1 + lessOne[i];
    }
    for (int i = 0; i < factorRe.length; i++) {
      factorRe[i] = 1 + lessOneRe[i];
    }
  }

  static NoiseSections white(double direct) {
    double[] none = {};
    return new NoiseSections(direct, none, none, none, none, none, none);
  }

  /** The modes of {@code x <- (I + X) x + b e, y = c x + direct e}. */
  static NoiseSections of(RealMatrix x, RealVector b, RealVector c, double direct) {
    int n = b.getDimension();
    EigenDecomposition e = new EigenDecomposition(x);
    RealMatrix v = e.getV();
    RealVector in = new LUDecomposition(v, 0).getSolver().solve(b);
    RealVector out = v.preMultiply(c);
    int pairs = 0;
    for (int i = 0; i < n; i++) {
      pairs += e.getImagEigenvalue(i) > 0 ? 1 : 0;
    }
    double[] lessOne = new double[n - 2 * pairs];
    double[] weight = new double[n - 2 * pairs];
    double[][] pair = new double[4][pairs];
    int lone = 0;
    int p = 0;
    for (int i = 0; i < n; i++) {
      double im = e.getImagEigenvalue(i);
      if (im == 0) {
        lessOne[lone] = e.getRealEigenvalue(i);
        weight[lone++] = out.getEntry(i) * in.getEntry(i);
      } else {
        // columns i and i + 1 of V carry the block [a b; -b a] of D
        double turn = e.getD().getEntry(i, i + 1);
        pair[0][p] = e.getRealEigenvalue(i);
        pair[1][p] = turn;
        pair[2][p] = out.getEntry(i) * in.getEntry(i) + out.getEntry(i + 1) * in.getEntry(i + 1);
        pair[3][p++] = out.getEntry(i + 1) * in.getEntry(i) - out.getEntry(i) * in.getEntry(i + 1);
        i++;
      }
    }
    return new NoiseSections(direct, lessOne, weight, pair[0], pair[1], pair[2], pair[3]);
  }

  int states() {
    return factor.length + 2 * factorRe.length;
  }

  boolean isStable() {
    for (double r : factor) {
      if (!(Math.abs(r) < 1)) {
        return false;
      }
    }
    for (int i = 0; i < factorRe.length; i++) {
      if (!(Math.hypot(factorRe[i], factorIm[i]) < 1)) {
        return false;
      }
    }
    return true;
  }

  NoiseSections scaledBy(double k) {
    return new NoiseSections(
        k * direct,
        lessOne,
        times(weight, k),
        lessOneRe,
        factorIm,
        times(weightRe, k),
        times(weightIm, k));
  }

  private static double[] times(double[] a, double k) {
    double[] out = a.clone();
    for (int i = 0; i < a.length; i++) {
      out[i] *= k;
    }
    return out;
  }

  /** The stationary covariance of the states, lone ones first, then u and v of each pair. */
  RealMatrix stateCovariance() {
    return NoiseModel.gramian(lessIdentity(), input());
  }

  private RealMatrix lessIdentity() {
    int n = states();
    RealMatrix x = new Array2DRowRealMatrix(n, n);
    for (int i = 0; i < lessOne.length; i++) {
      x.setEntry(i, i, lessOne[i]);
    }
    for (int i = 0; i < lessOneRe.length; i++) {
      int u = lessOne.length + 2 * i;
      x.setEntry(u, u, lessOneRe[i]);
      x.setEntry(u + 1, u + 1, lessOneRe[i]);
      x.setEntry(u, u + 1, -factorIm[i]);
      x.setEntry(u + 1, u, factorIm[i]);
    }
    return x;
  }

  private RealVector input() {
    RealVector b = new ArrayRealVector(states());
    for (int i = 0; i < lessOne.length; i++) {
      b.setEntry(i, 1);
    }
    for (int i = 0; i < lessOneRe.length; i++) {
      b.setEntry(lessOne.length + 2 * i, 1);
    }
    return b;
  }

  /** What comes out for white values of unit variance. */
  NoiseCovariance covariance() {
    int n = states();
    if (n == 0) {
      RealVector none = new ArrayRealVector(0);
      return new NoiseCovariance(null, none, none, direct * direct);
    }
    RealVector c = new ArrayRealVector(n);
    for (int i = 0; i < lessOne.length; i++) {
      c.setEntry(i, weight[i]);
    }
    for (int i = 0; i < lessOneRe.length; i++) {
      c.setEntry(lessOne.length + 2 * i, weightRe[i]);
      c.setEntry(lessOne.length + 2 * i + 1, -weightIm[i]);
    }
    RealMatrix x = lessIdentity();
    RealVector seen = stateCovariance().operate(c);
    RealVector next = seen.add(x.operate(seen)).add(input().mapMultiply(direct));
    return new NoiseCovariance(x, next, c, direct * direct + c.dotProduct(seen));
  }
}
