package org.asmeasured.internal;

import java.util.Arrays;

/**
 * Extremes, histograms and order statistics of many values. Each loop is a method of its own, so
 * that it is compiled alone.
 */
public final class OrderStatistics {
  private static final int LANES = 512;
  private static final int FEW = 64;
  private static final int BINS = 1024;

  private OrderStatistics() {}

  /** The least and the greatest of the first values; none of them may be NaN. */
  public static double[] extremes(double[] values, int count) {
    int whole = count - count % LANES;
    double low = Double.POSITIVE_INFINITY;
    double high = Double.NEGATIVE_INFINITY;
    if (whole > 0) {
      double[] least = Arrays.copyOf(values, LANES);
      double[] greatest = least.clone();
      for (int at = LANES; at < whole; at += LANES) {
        fold(values, at, least, greatest);
      }
      for (int j = 0; j < LANES; j++) {
        low = Math.min(low, least[j]);
        high = Math.max(high, greatest[j]);
      }
    }
    for (int i = whole; i < count; i++) {
      low = Math.min(low, values[i]);
      high = Math.max(high, values[i]);
    }
    return new double[] {low, high};
  }

  private static void fold(double[] values, int at, double[] least, double[] greatest) {
    for (int j = 0; j < LANES; j++) {
      double v = values[at + j];
      least[j] = Math.min(least[j], v);
      greatest[j] = Math.max(greatest[j], v);
    }
  }

  /**
   * Counts values by bins of equal width: that of v is the whole part of (v - low) x binsPerUnit,
   * the last bin being closed.
   */
  public static int[] histogram(
      double[] values, int count, double low, double binsPerUnit, int bins) {
    int[] counts = new int[4 * (bins + 1)];
    count(values, count, low, binsPerUnit, bins + 1, counts);
    int[] sums = new int[bins];
    for (int row = 0; row < 4; row++) {
      for (int b = 0; b <= bins; b++) {
        sums[Math.min(b, bins - 1)] += counts[row * (bins + 1) + b];
      }
    }
    return sums;
  }

  /** Four tables in turn: a bin that is met again and again would otherwise wait for itself. */
  private static void count(
      double[] v, int count, double low, double binsPerUnit, int stride, int[] counts) {
    int second = stride;
    int third = 2 * stride;
    int fourth = 3 * stride;
    int i = 0;
    for (; i + 3 < count; i += 4) {
      counts[(int) ((v[i] - low) * binsPerUnit)]++;
      counts[second + (int) ((v[i + 1] - low) * binsPerUnit)]++;
      counts[third + (int) ((v[i + 2] - low) * binsPerUnit)]++;
      counts[fourth + (int) ((v[i + 3] - low) * binsPerUnit)]++;
    }
    for (; i < count; i++) {
      counts[(int) ((v[i] - low) * binsPerUnit)]++;
    }
  }

  /** Keeps the values of some bins, in their order; returns how many. */
  public static int gather(
      double[] v,
      int count,
      double low,
      double binsPerUnit,
      int bins,
      int firstBin,
      int lastBin,
      double[] out) {
    // the closed end of the last bin
    double last = lastBin == bins - 1 ? Double.POSITIVE_INFINITY : lastBin + 1;
    int n = 0;
    for (int i = 0; i < count; i++) {
      double place = (v[i] - low) * binsPerUnit;
      out[n] = v[i];
      n += place >= firstBin && place < last ? 1 : 0;
    }
    return n;
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
      if (!(perUnit <= Double.MAX_VALUE) || (extremes[1] - low) * perUnit > BINS) {
        break;
      }
      int[] counts = histogram(values, n, low, perUnit, BINS);
      int bin = 0;
      while (k >= counts[bin]) {
        k -= counts[bin++];
      }
      n = gather(values, n, low, perUnit, BINS, bin, bin, values);
    }
    Arrays.sort(values, 0, n);
    return values[k];
  }
}
