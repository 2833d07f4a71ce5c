package org.asmeasured.linear;

import java.util.Arrays;

/**
 * The end of a block, where few rows are left and few derivatives of them: all of it in one pass,
 * instead of a pass for every derivative. There are places for two rows with up to four derivatives
 * each (a pair of poles) and for two with one (poles slow beside the shift). Where that end begins
 * depends on the block alone, so it does not matter which part of the block is read.
 */
final class TaylorRows {
  private static final int DEGREE = 4;

  private final double[] filler;
  private final double[][] high = new double[2][];
  private final double[][] highAmplitudes = new double[2][DEGREE + 1];
  private final double[][] low = new double[2][];

  /** Value and slope of the two, then of the constant. */
  private final double[] lowAmplitudes = new double[6];

  /** The first sample of the block that is served. */
  private int from;

  /**
   * Makes the places.
   *
   * @param filler a row of finite numbers, for places that stay empty
   */
  TaylorRows(double[] filler) {
    this.filler = filler;
  }

  int from() {
    return from;
  }

  /** Takes the rows and their derivatives. */
  void set(RowList[] lists) {
    RowList plain = lists[0];
    Arrays.fill(high, filler);
    Arrays.fill(low, filler);
    Arrays.fill(highAmplitudes[0], 0);
    Arrays.fill(highAmplitudes[1], 0);
    Arrays.fill(lowAmplitudes, 0);
    lowAmplitudes[4] = plain.constant();
    lowAmplitudes[5] = lists.length > 1 ? lists[1].constant() : 0;
    from = lists.length > DEGREE + 1 ? lists[DEGREE + 1].longest() : 0;
    int highs = 0;
    int lows = 0;
    for (int i = 0; i < plain.size() && plain.until(i) > from; i++) {
      double[] row = plain.row(i);
      boolean curved = lists.length > 2 && lists[2].indexOf(row) >= 0;
      if (curved ? highs == high.length : lows == low.length) {
        from = plain.until(i);
        return;
      }
      if (curved) {
        high[highs] = row;
        take(lists, row, DEGREE, highAmplitudes[highs], 0);
        highs++;
      } else {
        low[lows] = row;
        take(lists, row, 1, lowAmplitudes, 2 * lows);
        lows++;
      }
    }
  }

  private static void take(RowList[] lists, double[] row, int degree, double[] into, int at) {
    for (int m = 0; m <= degree && m < lists.length; m++) {
      int k = lists[m].indexOf(row);
      if (k < 0) {
        return;
      }
      into[at + m] = lists[m].amplitude(k);
    }
  }

  /** s[j] = the sum of the rows at a sample shifted by x[j], over first <= j < to. */
  void sum(double[] x, double[] s, int first, int to) {
    Kernels.taylor(
        high[0],
        highAmplitudes[0],
        high[1],
        highAmplitudes[1],
        low[0],
        low[1],
        lowAmplitudes,
        x,
        s,
        first,
        to);
  }
}
