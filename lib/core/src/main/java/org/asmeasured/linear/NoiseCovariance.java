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
