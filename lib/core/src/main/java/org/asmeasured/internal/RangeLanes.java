package org.asmeasured.internal;

import java.util.Arrays;

/**
 * The least and the greatest of many values that come block by block: lanes side by side, on
 * vectors, of which the extremes are taken at the end. No value may be NaN.
 */
public final class RangeLanes {
  /**
   * The most values of a block: as many stay in the nearest cache together with their lanes, and
   * are no whole number of pages, or stores to a lane would hold up the loads.
   */
  public static final int BLOCK = 960;

  private final double[] least = new double[BLOCK];
  private final double[] greatest = new double[BLOCK];

  public RangeLanes() {
    Arrays.fill(least, Double.POSITIVE_INFINITY);
    Arrays.fill(greatest, Double.NEGATIVE_INFINITY);
  }

  /** Takes the first values into account, no more than a block. */
  public void add(double[] values, int count) {
    lower(values, count, least);
    raise(values, count, greatest);
  }

  // Two loops: with both in one it depends on the compiler's mood whether it uses vectors.

  private static void lower(double[] v, int count, double[] least) {
    for (int i = 0; i < count; i++) {
      least[i] = Math.min(least[i], v[i]);
    }
  }

  private static void raise(double[] v, int count, double[] greatest) {
    for (int i = 0; i < count; i++) {
      greatest[i] = Math.max(greatest[i], v[i]);
    }
  }

  /** The least value; infinite if there is none. */
  public double least() {
    double low = Double.POSITIVE_INFINITY;
    for (double lane : least) {
      low = Math.min(low, lane);
    }
    return low;
  }

  /** The greatest value; minus infinity if there is none. */
  public double greatest() {
    double high = Double.NEGATIVE_INFINITY;
    for (double lane : greatest) {
      high = Math.max(high, lane);
    }
    return high;
  }
}
