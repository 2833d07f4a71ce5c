package org.asmeasured.internal;

/**
 * A histogram of many values in the making, in equal bins from a lowest value on, the last one
 * closed. The bin of v is the whole part of (v - low) x binsPerUnit, but for a billionth of a bin:
 * values that much below an edge count as on it.
 */
public final class ValueHistogram {
  /** The most bins. */
  public static final int MAX_BINS = 1 << 20;

  /** What is best handed in at a time: no whole number of pages, for the sake of the stores. */
  public static final int BLOCK = 4000;

  /**
   * Added to a place of less than 2<sup>31</sup>, this rounds it to a whole number that then stands
   * in the lowest bits; the half makes that the whole part. Cheaper than a conversion.
   */
  private static final double WHOLE = 0x1.8p52;

  private static final double HALF = 0.5 - 0x1p-30;

  private final double low;
  private final double binsPerUnit;
  private final int bins;

  /** Four tables in turn: a bin that is met again and again would otherwise wait for itself. */
  private final int[] counts;

  private final double[] scratch = new double[BLOCK];
  private final int[] near = new int[BLOCK];

  /** No value may lie below {@code low} or above the upper edge of the last bin. */
  public ValueHistogram(double low, double binsPerUnit, int bins) {
    Require.inRange("bins", bins, 1, MAX_BINS);
    this.low = low;
    this.binsPerUnit = binsPerUnit;
    this.bins = bins;
    // the upper edge of the last bin has a place of its own until the end
    counts = new int[4 * (Integer.highestOneBit(bins) << 1)];
  }

  /** Counts the first values. */
  public void add(double[] values, int count) {
    for (int at = 0; at < count; at += BLOCK) {
      int n = Math.min(BLOCK, count - at);
      if (at == 0) {
        place(values, n, low, binsPerUnit, scratch);
      } else {
        System.arraycopy(values, at, scratch, 0, n);
        place(scratch, n, low, binsPerUnit, scratch);
      }
      count(scratch, n, counts);
    }
  }

  private static void place(double[] v, int count, double low, double perUnit, double[] out) {
    for (int i = 0; i < count; i++) {
      out[i] = ((v[i] - low) * perUnit - HALF) + WHOLE;
    }
  }

  private static void count(double[] places, int count, int[] counts) {
    int mask = counts.length - 1;
    int second = counts.length >> 2;
    int third = 2 * second;
    int fourth = 3 * second;
    int i = 0;
    for (; i + 3 < count; i += 4) {
      counts[whole(places[i]) & mask]++;
      counts[(second + whole(places[i + 1])) & mask]++;
      counts[(third + whole(places[i + 2])) & mask]++;
      counts[(fourth + whole(places[i + 3])) & mask]++;
    }
    for (; i < count; i++) {
      counts[whole(places[i]) & mask]++;
    }
  }

  private static int whole(double place) {
    return (int) Double.doubleToRawLongBits(place);
  }

  private int bin(double value) {
    int bin = whole(((value - low) * binsPerUnit - HALF) + WHOLE);
    return Math.min(bin, bins - 1);
  }

  /** How many values lie in each bin. */
  public int[] counts() {
    int[] sums = new int[bins];
    int table = counts.length >> 2;
    for (int row = 0; row < 4; row++) {
      for (int b = 0; b <= bins; b++) {
        sums[Math.min(b, bins - 1)] += counts[row * table + b];
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
    int[] both = {kept, 0};
    gather(values, count, new int[] {first, last, first, last}, new double[][] {out, out}, both);
    return both[0];
  }

  /**
   * The same of two rows of bins in one pass; a value in both is kept in the first.
   *
   * @param rows first and last of the one, first and last of the other
   * @param out receives those of the one, and those of the other; may be the values themselves
   * @param kept how many are kept already of each; is updated
   */
  public void gather(double[] values, int count, int[] rows, double[][] out, int[] kept) {
    double one = centre(rows[0], rows[1]);
    double other = centre(rows[2], rows[3]);
    double middle = one + (other - one) / 2;
    double distance = Math.abs(other - one) / 2;
    double half = Math.max(rows[1] - rows[0], rows[3] - rows[2]) + 1;
    // wide enough for all roundings: who is near is looked at once more
    double reach =
        half / (2 * binsPerUnit) * (1 + 1e-6)
            + 8 * Math.max(Math.ulp(low), Math.ulp(low + bins / binsPerUnit));
    for (int at = 0; at < count; at += BLOCK) {
      int n = Math.min(BLOCK, count - at);
      if (at == 0) {
        fold(values, n, middle, distance, scratch);
      } else {
        System.arraycopy(values, at, scratch, 0, n);
        fold(scratch, n, middle, distance, scratch);
      }
      int close = within(scratch, n, reach, near);
      for (int k = 0; k < close; k++) {
        double value = values[at + near[k]];
        int bin = bin(value);
        if (bin >= rows[0] && bin <= rows[1]) {
          out[0][kept[0]++] = value;
        } else if (bin >= rows[2] && bin <= rows[3]) {
          out[1][kept[1]++] = value;
        }
      }
    }
  }

  private double centre(int first, int last) {
    return low + (first + (last + 1 - first) / 2.0) / binsPerUnit;
  }

  /**
   * How far from the nearer of two levels, by one comparison where four would often be guessed
   * wrong.
   */
  private static void fold(double[] v, int count, double middle, double distance, double[] out) {
    for (int i = 0; i < count; i++) {
      out[i] = Math.abs(Math.abs(v[i] - middle) - distance);
    }
  }

  private static int within(double[] distances, int count, double reach, int[] near) {
    int n = 0;
    for (int i = 0; i < count; i++) {
      if (distances[i] <= reach) {
        near[n++] = i;
      }
    }
    return n;
  }
}
