package org.asmeasured.uncertainty;

import java.util.function.DoublePredicate;

/** The one search that a monotone function needs. */
final class Bisection {
  /** Beyond it lies less than 1e-16 of any distribution. */
  static final double FARTHEST = 8.3;

  private Bisection() {}

  /** The z whose value is {@code value}, within -8.3 to 8.3. */
  static double normalAt(Distribution distribution, double value) {
    return turn(-FARTHEST, FARTHEST, z -> distribution.atNormal(z) > value);
  }

  /** Where a condition that is false below turns true: the first value at which it holds. */
  static double turn(double from, double to, DoublePredicate beyond) {
    double low = from;
    double high = to;
    while (true) {
      double middle = 0.5 * (low + high);
      if (middle <= low || middle >= high) {
        return high;
      }
      if (beyond.test(middle)) {
        high = middle;
      } else {
        low = middle;
      }
    }
  }
}
