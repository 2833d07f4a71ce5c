package org.asmeasured.acquisition;

import org.asmeasured.internal.Require;

/**
 * The least and the greatest value of acquisitions, point by point, each added as it comes. For one
 * thread. A NaN among the volts makes NaN of its point.
 */
public final class EnvelopeAccumulator {
  private final int points;
  private final int[] lowerCodes;
  private final int[] upperCodes;
  private final double[] lowerVolts;
  private final double[] upperVolts;
  private int count;

  private EnvelopeAccumulator(int points, boolean ofCodes) {
    this.points = Require.inRange("points", points, 1, Integer.MAX_VALUE);
    lowerCodes = ofCodes ? new int[points] : null;
    upperCodes = ofCodes ? new int[points] : null;
    lowerVolts = ofCodes ? null : new double[points];
    upperVolts = ofCodes ? null : new double[points];
  }

  /**
   * For codes.
   *
   * @param points of an acquisition, 1 or more
   * @return an empty accumulator
   * @throws IllegalArgumentException if the number of points is not positive
   */
  public static EnvelopeAccumulator ofCodes(int points) {
    return new EnvelopeAccumulator(points, true);
  }

  /**
   * For volts.
   *
   * @param points of an acquisition, 1 or more
   * @return an empty accumulator
   * @throws IllegalArgumentException if the number of points is not positive
   */
  public static EnvelopeAccumulator ofVolts(int points) {
    return new EnvelopeAccumulator(points, false);
  }

  /**
   * Adds an acquisition that is an envelope itself; for any other, its points twice.
   *
   * @param lower least codes, as many as there are points
   * @param upper greatest codes, as many
   * @throws IllegalArgumentException if their number is another
   * @throws IllegalStateException if this is an accumulator of volts
   */
  public void add(int[] lower, int[] upper) {
    Require.inRange("lower.length", Require.present("lower", lower).length, points, points);
    Require.inRange("upper.length", Require.present("upper", upper).length, points, points);
    if (lowerCodes == null) {
      throw new IllegalStateException("codes added to an accumulator of volts");
    }
    if (count == 0) {
      System.arraycopy(lower, 0, lowerCodes, 0, points);
      System.arraycopy(upper, 0, upperCodes, 0, points);
    } else {
      for (int i = 0; i < points; i++) {
        lowerCodes[i] = Math.min(lowerCodes[i], lower[i]);
        upperCodes[i] = Math.max(upperCodes[i], upper[i]);
      }
    }
    count++;
  }

  /**
   * Adds an acquisition that is an envelope itself; for any other, its points twice.
   *
   * @param lower least volts, as many as there are points
   * @param upper greatest volts, as many
   * @throws IllegalArgumentException if their number is another
   * @throws IllegalStateException if this is an accumulator of codes
   */
  public void add(double[] lower, double[] upper) {
    Require.inRange("lower.length", Require.present("lower", lower).length, points, points);
    Require.inRange("upper.length", Require.present("upper", upper).length, points, points);
    if (lowerVolts == null) {
      throw new IllegalStateException("volts added to an accumulator of codes");
    }
    if (count == 0) {
      System.arraycopy(lower, 0, lowerVolts, 0, points);
      System.arraycopy(upper, 0, upperVolts, 0, points);
    } else {
      for (int i = 0; i < points; i++) {
        lowerVolts[i] = Math.min(lowerVolts[i], lower[i]);
        upperVolts[i] = Math.max(upperVolts[i], upper[i]);
      }
    }
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
   * The envelope of those added so far.
   *
   * @param lower where to write the least codes, as many as there are points
   * @param upper where to write the greatest codes, as many
   * @throws IllegalArgumentException if there is another number of places
   * @throws IllegalStateException if none was added, or if this is an accumulator of volts
   */
  public void envelope(int[] lower, int[] upper) {
    Require.inRange("lower.length", Require.present("lower", lower).length, points, points);
    Require.inRange("upper.length", Require.present("upper", upper).length, points, points);
    checkAdded();
    if (lowerCodes == null) {
      throw new IllegalStateException("codes asked of an accumulator of volts");
    }
    System.arraycopy(lowerCodes, 0, lower, 0, points);
    System.arraycopy(upperCodes, 0, upper, 0, points);
  }

  /**
   * The envelope of those added so far.
   *
   * @param lower where to write the least volts, as many as there are points
   * @param upper where to write the greatest volts, as many
   * @throws IllegalArgumentException if there is another number of places
   * @throws IllegalStateException if none was added, or if this is an accumulator of codes
   */
  public void envelope(double[] lower, double[] upper) {
    Require.inRange("lower.length", Require.present("lower", lower).length, points, points);
    Require.inRange("upper.length", Require.present("upper", upper).length, points, points);
    checkAdded();
    if (lowerVolts == null) {
      throw new IllegalStateException("volts asked of an accumulator of codes");
    }
    System.arraycopy(lowerVolts, 0, lower, 0, points);
    System.arraycopy(upperVolts, 0, upper, 0, points);
  }

  private void checkAdded() {
    if (count == 0) {
      throw new IllegalStateException("no acquisition was added");
    }
  }
}
