package org.asmeasured.uncertainty;

import org.asmeasured.internal.Require;

/**
 * A coverage interval.
 *
 * @param lower its lower end
 * @param upper its upper end, not below the lower
 */
public record Interval(double lower, double upper) {

  /**
   * Checks the ends.
   *
   * @param lower its lower end
   * @param upper its upper end, not below the lower
   * @throws IllegalArgumentException if they are not finite or not in order
   */
  public Interval {
    Require.inRange("lower", lower, "", -Double.MAX_VALUE, Double.MAX_VALUE);
    Require.inRange("upper", upper, "", lower, Double.MAX_VALUE);
  }

  /**
   * How long it is.
   *
   * @return upper - lower
   */
  public double length() {
    return upper - lower;
  }
}
