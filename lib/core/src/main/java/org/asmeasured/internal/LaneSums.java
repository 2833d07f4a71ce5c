package org.asmeasured.internal;

/**
 * Sums of values that come block by block: lanes side by side, on vectors, each with what its
 * additions round away (Knuth's two-sum), added up at the end. So the error does not grow with the
 * number of values.
 */
public final class LaneSums {
  /** The most values of a block: no whole page, or stores to a lane would hold up the loads. */
  public static final int BLOCK = 480;

  /** Of few values more lanes would cost more than they save. */
  private static final int FEW_LANES = BLOCK / 4;

  private final double[] sums;
  private final double[] rounded;

  /** For any number of values. */
  public LaneSums() {
    this(Long.MAX_VALUE);
  }

  /** For about so many values. */
  public LaneSums(long values) {
    int lanes = values > 4 * BLOCK ? BLOCK : FEW_LANES;
    sums = new double[lanes];
    rounded = new double[lanes];
  }

  /** The most values of a block of these, no more than {@link #BLOCK}. */
  public int block() {
    return sums.length;
  }

  /** Adds the first values, no more than a block. */
  public void add(double[] values, int count) {
    addUp(values, count, sums, rounded);
  }

  /** Adds the squares of distances from a level; the values become those squares. */
  public void addSquares(double[] values, int count, double level) {
    square(values, count, level);
    addUp(values, count, sums, rounded);
  }

  private static void square(double[] values, int count, double level) {
    for (int i = 0; i < count; i++) {
      double distance = values[i] - level;
      values[i] = distance * distance;
    }
  }

  private static void addUp(double[] v, int count, double[] sums, double[] rounded) {
    for (int i = 0; i < count; i++) {
      double next = sums[i] + v[i];
      double grown = next - sums[i];
      rounded[i] += (sums[i] - (next - grown)) + (v[i] - grown);
      sums[i] = next;
    }
  }

  /** The sum of all. The lanes are folded in halves, which need not wait for one another. */
  public double total() {
    double[] sum = sums.clone();
    double[] rest = rounded.clone();
    int lanes = sums.length;
    while (lanes > 1) {
      int half = lanes / 2;
      fold(sum, rest, lanes - half, half);
      lanes -= half;
    }
    return sum[0] + rest[0];
  }

  /** Adds the lanes from {@code at} on to the first ones. */
  private static void fold(double[] sum, double[] rest, int at, int count) {
    for (int i = 0; i < count; i++) {
      double a = sum[i];
      double b = sum[at + i];
      double next = a + b;
      double grown = next - a;
      rest[i] += rest[at + i] + ((a - (next - grown)) + (b - grown));
      sum[i] = next;
    }
  }
}
