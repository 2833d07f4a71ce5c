package org.asmeasured.fitting;

import org.asmeasured.capture.Setup;
import org.asmeasured.internal.Require;
import org.jtransforms.fft.DoubleFFT_1D;

/** The covariance matrix of so many points of a stationary process: a symmetric Toeplitz matrix. */
final class Stationary {
  private static final int SHORT = 48;

  private final double[] r;
  private final int points;
  private final DoubleFFT_1D transform;
  private final double[] spectrum;

  /** Refuses what no process has. */
  static double[] requireCovariance(double[] r) {
    Require.present("autocovariance", r);
    Require.inRange("autocovariance.length", r.length, 1, Setup.MAX_POINTS);
    Require.above("autocovariance[0]", r[0], "V^2", 0, 1e18);
    for (int k = 1; k < r.length; k++) {
      if (!(Math.abs(r[k]) <= r[0])) {
        Require.inRange("autocovariance[" + k + "]", r[k], "V^2", -r[0], r[0]);
      }
    }
    return r;
  }

  Stationary(double[] autocovariance, int points) {
    r = autocovariance;
    this.points = points;
    if (r.length <= SHORT) {
      transform = null;
      spectrum = null;
      return;
    }
    // a circle on which no lag meets its mirror image
    int size = Integer.highestOneBit(points + r.length - 1) << 1;
    transform = new DoubleFFT_1D(size);
    double[] circle = new double[size];
    circle[0] = r[0];
    for (int k = 1; k < r.length; k++) {
      circle[k] = r[k];
      circle[size - k] = r[k];
    }
    transform.realForward(circle);
    spectrum = circle;
  }

  double variance() {
    return r[0];
  }

  /** The product with a column. */
  double[] times(double[] column, int offset) {
    if (transform == null) {
      return direct(column, offset);
    }
    double[] x = new double[spectrum.length];
    System.arraycopy(column, offset, x, 0, points);
    transform.realForward(x);
    x[0] *= spectrum[0];
    x[1] *= spectrum[1];
    for (int i = 2; i < x.length; i += 2) {
      // an even sequence has a real spectrum
      x[i] *= spectrum[i];
      x[i + 1] *= spectrum[i];
    }
    transform.realInverse(x, true);
    return x;
  }

  private double[] direct(double[] column, int offset) {
    double[] y = new double[points];
    for (int i = 0; i < points; i++) {
      y[i] = r[0] * column[offset + i];
    }
    for (int k = 1; k < Math.min(r.length, points); k++) {
      for (int i = 0; i + k < points; i++) {
        y[i] += r[k] * column[offset + i + k];
        y[i + k] += r[k] * column[offset + i];
      }
    }
    return y;
  }

  double trace() {
    return points * r[0];
  }

  double traceOfSquare() {
    double sum = points * (r[0] * r[0]);
    for (int k = 1; k < Math.min(r.length, points); k++) {
      sum += 2.0 * (points - k) * (r[k] * r[k]);
    }
    return sum;
  }
}
