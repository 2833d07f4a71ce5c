package org.asmeasured.linear;

import java.util.Arrays;

/**
 * The points of a chain exponential as a value, so that tables made for one piece serve the next.
 */
record Chain(double[] re, double[] im, double scale) {
  static Chain of(Cluster cluster) {
    return new Chain(cluster.re, cluster.im, cluster.scale);
  }

  int size() {
    return re.length;
  }

  /** One more point at the end. */
  Chain with(double pointRe, double pointIm) {
    double[] r = Arrays.copyOf(re, re.length + 1);
    double[] i = Arrays.copyOf(im, im.length + 1);
    r[re.length] = pointRe;
    i[im.length] = pointIm;
    return new Chain(r, i, scale);
  }

  /** x = h J x. */
  void differentiate(double[] xRe, double[] xIm, double h) {
    int n = size();
    for (int i = 0; i < n; i++) {
      double r = re[i] * xRe[i] - im[i] * xIm[i];
      double q = re[i] * xIm[i] + im[i] * xRe[i];
      if (i + 1 < n) {
        r += scale * xRe[i + 1];
        q += scale * xIm[i + 1];
      }
      xRe[i] = h * r;
      xIm[i] = h * q;
    }
  }

  double fastest() {
    double most = scale;
    for (int i = 0; i < re.length; i++) {
      most = Math.max(most, Math.hypot(re[i], im[i]));
    }
    return most;
  }

  /** The least decay of any point, 1/s. */
  double slowest() {
    double least = Double.POSITIVE_INFINITY;
    for (double r : re) {
      least = Math.min(least, -r);
    }
    return least;
  }

  ChainExponential exponential() {
    return new ChainExponential(re, im, scale);
  }

  @Override
  public boolean equals(Object other) {
    return other instanceof Chain c
        && Arrays.equals(re, c.re)
        && Arrays.equals(im, c.im)
        && scale == c.scale;
  }

  @Override
  public int hashCode() {
    return 31 * (31 * Arrays.hashCode(re) + Arrays.hashCode(im)) + Double.hashCode(scale);
  }
}
