package org.asmeasured.scenario;

import java.math.BigDecimal;
import java.math.MathContext;
import tools.jackson.core.io.NumberOutput;

/** Numbers as texts, and the texts in between. */
final class Numbers {
  private static final double PLAIN_WHOLE = 1e15;

  /** As many digits as a grid needs, and so few that 0.3 is not 0.30000000000000004. */
  private static final MathContext DIGITS = new MathContext(12);

  private Numbers() {}

  /**
   * The shortest text that reads back to the same double, on every version of Java; a whole number
   * below 10^15 without a point.
   */
  static String text(double value) {
    if (value == Math.rint(value) && Math.abs(value) < PLAIN_WHOLE) {
      return Long.toString((long) value);
    }
    return NumberOutput.toString(value, true);
  }

  /** {@code from + (to - from) share}, to 12 digits. */
  static double between(double from, double to, int step, int steps) {
    BigDecimal start = new BigDecimal(text(from));
    BigDecimal way = new BigDecimal(text(to)).subtract(start).multiply(BigDecimal.valueOf(step));
    return start
        .add(way.divide(BigDecimal.valueOf(steps), MathContext.DECIMAL64))
        .round(DIGITS)
        .doubleValue();
  }

  /** {@code from (to/from)^share}, to 12 digits; both of one sign. */
  static double ratioBetween(double from, double to, int step, int steps) {
    // By logarithms: the quotient of two doubles may overflow.
    double low = StrictMath.log(Math.abs(from));
    double way = (StrictMath.log(Math.abs(to)) - low) * step / steps;
    double between = from * StrictMath.exp(way);
    return new BigDecimal(between).round(DIGITS).doubleValue();
  }
}
