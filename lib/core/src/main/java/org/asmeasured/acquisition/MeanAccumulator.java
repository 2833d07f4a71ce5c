package org.asmeasured.acquisition;

import java.util.ArrayList;
import java.util.List;
import org.asmeasured.internal.Require;

/**
 * The mean of acquisitions, point by point, each added as it comes. Codes are summed exactly in
 * {@code long}; volts pairwise, by doubling: the error grows with the logarithm of the number of
 * acquisitions. For one thread.
 */
public final class MeanAccumulator {
  private final int points;
  private final long[] codeSums;
  private final List<double[]> partialSums = new ArrayList<>();
  private final double[] carry;
  private int count;

  private MeanAccumulator(int points, boolean ofCodes) {
    this.points = Require.inRange("points", points, 1, Integer.MAX_VALUE);
    codeSums = ofCodes ? new long[points] : null;
    carry = ofCodes ? null : new double[points];
  }

  /**
   * For codes.
   *
   * @param points of an acquisition, 1 or more
   * @return an empty accumulator
   * @throws IllegalArgumentException if the number of points is not positive
   */
  public static MeanAccumulator ofCodes(int points) {
    return new MeanAccumulator(points, true);
  }

  /**
   * For volts.
   *
   * @param points of an acquisition, 1 or more
   * @return an empty accumulator
   * @throws IllegalArgumentException if the number of points is not positive
   */
  public static MeanAccumulator ofVolts(int points) {
    return new MeanAccumulator(points, false);
  }

  /**
   * Adds an acquisition.
   *
   * @param codes as many as there are points
   * @throws IllegalArgumentException if their number is another
   * @throws IllegalStateException if this is an accumulator of volts
   */
  public void add(int[] codes) {
    Require.present("codes", codes);
    Require.inRange("codes.length", codes.length, points, points);
    if (codeSums == null) {
      throw new IllegalStateException("codes added to an accumulator of volts");
    }
    for (int i = 0; i < points; i++) {
      codeSums[i] += codes[i];
    }
    count++;
  }

  /**
   * Adds an acquisition.
   *
   * @param volts as many as there are points
   * @throws IllegalArgumentException if their number is another
   * @throws IllegalStateException if this is an accumulator of codes
   */
  public void add(double[] volts) {
    Require.present("volts", volts);
    Require.inRange("volts.length", volts.length, points, points);
    if (codeSums != null) {
      throw new IllegalStateException("volts added to an accumulator of codes");
    }
    System.arraycopy(volts, 0, carry, 0, points);
    int level = 0;
    for (int rest = count; (rest & 1) == 1; rest >>= 1) {
      addInto(carry, partialSums.get(level++));
    }
    if (level == partialSums.size()) {
      partialSums.add(new double[points]);
    }
    System.arraycopy(carry, 0, partialSums.get(level), 0, points);
    count++;
  }

  /**
   * How many acquisitions were added.
   *
   * @return 0 or more
   */
  public int count() {
    return count;
  }

  /**
   * The mean of those added so far, of volts or of codes.
   *
   * @param out where to write it, as many as there are points
   * @throws IllegalArgumentException if there is another number of places
   * @throws IllegalStateException if none was added
   */
  public void mean(double[] out) {
    Require.present("out", out);
    Require.inRange("out.length", out.length, points, points);
    if (count == 0) {
      throw new IllegalStateException("no acquisition was added");
    }
    if (codeSums != null) {
      for (int i = 0; i < points; i++) {
        out[i] = (double) codeSums[i] / count;
      }
      return;
    }
    boolean first = true;
    for (int level = 0; level < partialSums.size(); level++) {
      if ((count >> level & 1) == 1) {
        if (first) {
          System.arraycopy(partialSums.get(level), 0, out, 0, points);
          first = false;
        } else {
          addInto(out, partialSums.get(level));
        }
      }
    }
    for (int i = 0; i < points; i++) {
      out[i] /= count;
    }
  }

  private static void addInto(double[] sum, double[] more) {
    for (int i = 0; i < sum.length; i++) {
      sum[i] += more[i];
    }
  }
}
