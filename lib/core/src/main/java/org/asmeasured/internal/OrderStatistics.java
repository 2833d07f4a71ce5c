package org.asmeasured.internal;

import java.util.Arrays;

/**
 * Extremes, histograms and order statistics of many values. Each loop is a method of its own, so
 * that it is compiled alone.
 */
public final class OrderStatistics {
  private static final int FEW = 64;
  private static final int BINS = 1024;

  private OrderStatistics() {}

  /** The least and the greatest of the first values, one at least; none of them may be NaN. */
  public static double[] extremes(double[] values, int count) {
    double[] lowHigh = {values[0], values[0]};
    extremes(values, count, lowHigh);
    return lowHigh;
  }

  /** Takes more values into account. Four by four, so that no value waits for the one before. */
  public static void extremes(double[] v, int count, double[] lowHigh) {
    double low0 = lowHigh[0];
    double high0 = lowHigh[1];
    double low1 = low0;
    double high1 = high0;
    double low2 = low0;
    double high2 = high0;
    double low3 = low0;
    double high3 = high0;
    int i = 0;
    for (; i + 3 < count; i += 4) {
      double a = v[i];
      double b = v[i + 1];
      double c = v[i + 2];
      double d = v[i + 3];
      low0 = a < low0 ? a : low0;
      high0 = a > high0 ? a : high0;
      low1 = b < low1 ? b : low1;
      high1 = b > high1 ? b : high1;
      low2 = c < low2 ? c : low2;
      high2 = c > high2 ? c : high2;
      low3 = d < low3 ? d : low3;
      high3 = d > high3 ? d : high3;
    }
    for (; i < count; i++) {
      low0 = v[i] < low0 ? v[i] : low0;
      high0 = v[i] > high0 ? v[i] : high0;
    }
    lowHigh[0] = Math.min(Math.min(low0, low1), Math.min(low2, low3));
    lowHigh[1] = Math.max(Math.max(high0, high1), Math.max(high2, high3));
  }

  /**
   * A histogram in the making: equal bins from a lowest value on. That of v is the whole part of (v
   * - low) x binsPerUnit, the last bin being closed.
   */
  public static final class Histogram {
    private final double low;
    private final double binsPerUnit;
    private final int bins;
    private final int[] counts;

    /** No value may lie below {@code low} or above the upper edge of the last bin. */
    public Histogram(double low, double binsPerUnit, int bins) {
      this.low = low;
      this.binsPerUnit = binsPerUnit;
      this.bins = bins;
      counts = new int[4 * (bins + 1)];
    }

    /** Counts the first values. */
    public void add(double[] values, int count) {
      count(values, count, low, binsPerUnit, bins + 1, counts);
    }

    /** How many values lie in each bin. */
    public int[] counts() {
      int[] sums = new int[bins];
      for (int row = 0; row < 4; row++) {
        for (int b = 0; b <= bins; b++) {
          sums[Math.min(b, bins - 1)] += counts[row * (bins + 1) + b];
        }
      }
      return sums;
    }

    /**
     * Keeps those of the first values that lie in a row of bins, in their order.
     *
     * @param kept how many are kept already
     * @return how many are kept then
     */
    public int gather(double[] values, int count, int first, int last, double[] out, int kept) {
      return pick(values, count, low, binsPerUnit, first, width(first, last), out, kept);
    }

    /**
     * The same of two rows of bins in one pass.
     *
     * @param rows first and last of the one, first and last of the other
     * @param out receives those of the one, and those of the other
     * @param kept how many are kept already of each; is updated
     */
    public void gather(double[] values, int count, int[] rows, double[][] out, int[] kept) {
      pick(
          values,
          count,
          low,
          binsPerUnit,
          rows[0],
          width(rows[0], rows[1]),
          rows[2],
          width(rows[2], rows[3]),
          out[0],
          out[1],
          kept);
    }

    private long width(int first, int last) {
      // beyond the closed end of the last bin there is nothing
      return bits(last == bins - 1 ? Double.POSITIVE_INFINITY : last + 1 - first);
    }
  }

  private static long bits(double value) {
    return Double.doubleToRawLongBits(value) + Long.MIN_VALUE;
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

  /**
   * One comparison for both edges, because two would be guessed wrong half of the time: as whole
   * numbers without sign, the bits of a negative distance exceed those of any width.
   */
  private static int pick(
      double[] v,
      int count,
      double low,
      double binsPerUnit,
      double first,
      long width,
      double[] out,
      int kept) {
    int n = kept;
    for (int i = 0; i < count; i++) {
      double place = (v[i] - low) * binsPerUnit - first;
      if (bits(place) < width) {
        out[n++] = v[i];
      }
    }
    return n;
  }

  private static void pick(
      double[] v,
      int count,
      double low,
      double binsPerUnit,
      double first,
      long width,
      double otherFirst,
      long otherWidth,
      double[] out,
      double[] otherOut,
      int[] kept) {
    int n = kept[0];
    int m = kept[1];
    for (int i = 0; i < count; i++) {
      double place = (v[i] - low) * binsPerUnit;
      if (bits(place - first) < width) {
        out[n++] = v[i];
      } else if (bits(place - otherFirst) < otherWidth) {
        otherOut[m++] = v[i];
      }
    }
    kept[0] = n;
    kept[1] = m;
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
      Histogram histogram = new Histogram(low, perUnit, BINS);
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
