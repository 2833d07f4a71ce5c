package org.asmeasured.fitting;

import java.util.List;

/**
 * What noise makes of estimates and of the sum of squares, to first order about the solution.
 *
 * <p>With columns J and residuals over the standard deviation, G = J'J, A = 1/G and the correlation
 * matrix P of the noise, the estimates have the covariance A (J'PJ) A. The sum of squares is e'Me,
 * M = I - J A J', of mean tr(MP) and, for normal noise, variance 2 tr(MPMP).
 *
 * @param covariance of the estimates
 * @param mean of the sum of squares
 * @param variance of the sum of squares
 */
record Spread(double[][] covariance, double mean, double variance) {

  /**
   * The spread of estimates from these columns.
   *
   * @param weights one over the standard deviation that the columns were divided by
   * @param noise of each recording
   */
  static Spread of(ChainCurve curve, double[][] columns, double[] weights, List<Stationary> noise) {
    int n = columns.length;
    double[][] shaped = new double[n][curve.points()];
    double trace = 0;
    double traceOfSquare = 0;
    for (int i = 0; i < weights.length; i++) {
      double w = weights[i] * weights[i];
      trace += w * noise.get(i).trace();
      traceOfSquare += w * w * noise.get(i).traceOfSquare();
      for (int j = 0; j < n; j++) {
        double[] part = noise.get(i).times(columns[j], curve.first(i));
        for (int k = curve.first(i); k < curve.first(i + 1); k++) {
          shaped[j][k] = w * part[k - curve.first(i)];
        }
      }
    }
    if (n == 0) {
      return new Spread(new double[0][0], trace, 2 * traceOfSquare);
    }
    double[][] a = Normal.inverse(Normal.products(columns, columns));
    double[][] ab = Normal.times(a, Normal.products(columns, shaped));
    double[][] twice = Normal.products(shaped, shaped);
    double mean = trace - Normal.trace(ab, identity(n));
    double variance = 2 * (traceOfSquare - 2 * Normal.trace(a, twice) + Normal.trace(ab, ab));
    return new Spread(symmetric(Normal.times(ab, a)), mean, variance);
  }

  private static double[][] identity(int n) {
    double[][] one = new double[n][n];
    for (int i = 0; i < n; i++) {
      one[i][i] = 1;
    }
    return one;
  }

  private static double[][] symmetric(double[][] c) {
    for (int i = 0; i < c.length; i++) {
      for (int j = 0; j < i; j++) {
        c[i][j] = (c[i][j] + c[j][i]) / 2;
        c[j][i] = c[i][j];
      }
    }
    return c;
  }
}
