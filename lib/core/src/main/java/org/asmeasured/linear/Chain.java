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

  /** The largest decay still left to the slowest point. */
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
