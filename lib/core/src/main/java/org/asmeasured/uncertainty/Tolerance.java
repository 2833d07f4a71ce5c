package org.asmeasured.uncertainty;

import org.asmeasured.internal.Require;

/**
 * Limits of what is allowed, one-sided or two-sided (JCGM 106, 3.3.5), or limits of what is
 * accepted (3.3.9).
 *
 * @param lower limit, negative infinity if there is none
 * @param upper limit, above the lower one, positive infinity if there is none
 */
public record Tolerance(double lower, double upper) {

  /**
   * Checks the limits.
   *
   * @param lower limit, negative infinity if there is none
   * @param upper limit, above the lower one, positive infinity if there is none
   * @throws IllegalArgumentException if they are not in order, or there is none
   */
  public Tolerance {
    Require.inRange("lower", lower, "", Double.NEGATIVE_INFINITY, Normal.MAX);
    Require.that(
        upper > lower && (upper <= Normal.MAX || upper == Double.POSITIVE_INFINITY),
        "upper = " + upper + ": must be above lower = " + lower);
    Require.that(
        lower > Double.NEGATIVE_INFINITY || upper < Double.POSITIVE_INFINITY,
        "lower = " + lower + ", upper = " + upper + ": one of them must be finite");
  }

  /**
   * An upper limit alone.
   *
   * @param upper limit, finite
   * @return the tolerance
   * @throws IllegalArgumentException if it is not finite
   */
  public static Tolerance atMost(double upper) {
    return new Tolerance(Double.NEGATIVE_INFINITY, upper);
  }

  /**
   * A lower limit alone.
   *
   * @param lower limit, finite
   * @return the tolerance
   * @throws IllegalArgumentException if it is not finite
   */
  public static Tolerance atLeast(double lower) {
    return new Tolerance(lower, Double.POSITIVE_INFINITY);
  }

  /**
   * Both limits.
   *
   * @param lower limit, finite
   * @param upper limit, above the lower one, finite
   * @return the tolerance
   * @throws IllegalArgumentException if they are not in order or not finite
   */
  public static Tolerance between(double lower, double upper) {
    Require.inRange("lower", lower, "", -Normal.MAX, Normal.MAX);
    Require.above("upper", upper, "", lower, Normal.MAX);
    return new Tolerance(lower, upper);
  }

  /**
   * Limits of acceptance with a guard band of this width inside each limit (JCGM 106, 8.3.2), or
   * outside if it is negative (8.3.3).
   *
   * @param width w = limit of tolerance - limit of acceptance, less than half of what is between
   *     two limits
   * @return the limits of acceptance
   * @throws IllegalArgumentException if nothing would be accepted
   */
  public Tolerance guarded(double width) {
    Require.inRange("width", width, "", -Normal.MAX, Normal.MAX);
    Require.that(
        lower + width < upper - width,
        "width = " + width + ": must be less than half of the tolerance, " + (upper - lower));
    return new Tolerance(lower + width, upper - width);
  }

  /**
   * Whether there are two limits.
   *
   * @return false if there is one
   */
  public boolean isTwoSided() {
    return lower > Double.NEGATIVE_INFINITY && upper < Double.POSITIVE_INFINITY;
  }

  /**
   * The middle of two limits, from which a tolerance nominal +/- T is told.
   *
   * @return lower + (upper - lower)/2
   * @throws IllegalStateException if there is one limit only
   */
  public double middle() {
    if (!isTwoSided()) {
      throw new IllegalStateException("one limit has no middle: " + this);
    }
    return lower + 0.5 * (upper - lower);
  }

  /**
   * Whether a value lies within the limits, which belong to it.
   *
   * @param value any
   * @return true if so
   */
  public boolean holds(double value) {
    return value >= lower && value <= upper;
  }
}
