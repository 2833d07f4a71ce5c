package org.asmeasured.internal;

import java.util.Arrays;

/** Order statistics of many values. */
public final class OrderStatistics {
  private static final int FEW = 64;
  private static final int BINS = 1023;

  private OrderStatistics() {}

  /** The least and the greatest of the first values, one at least; none of them may be NaN. */
  public static double[] extremes(double[] values, int count) {
    double low = values[0];
    double high = values[0];
    for (int i = 1; i < count; i++) {
      double v = values[i];
      low = v < low ? v : low;
      high = v > high ? v : high;
    }
    return new double[] {low, high};
  }

  /**
   * The value of a rank among the first values, which come into disorder; by histograms within
   * histograms.
   *
   * @param rank 0 for the least, count - 1 for the greatest
   */
  public static double select(double[] values, int count, int rank) {
    int n = count;
    int k = rank;
    while (n > FEW) {
      double[] extremes = extremes(values, n);
      double low = extremes[0];
      double range = extremes[1] - low;
      if (range == 0) {
        return low;
      }
      double perUnit = BINS / range;
      if (!(perUnit <= Double.MAX_VALUE)) {
        break;
      }
      ValueHistogram histogram = new ValueHistogram(low, perUnit, BINS);
      histogram.add(values, n);
      int[] counts = histogram.counts();
      int bin = 0;
      while (k >= counts[bin]) {
        k -= counts[bin++];
      }
      n = histogram.gather(values, n, bin, bin, values, 0);
    }
    Arrays.sort(values, 0, n);
    return values[k];
  }
}
