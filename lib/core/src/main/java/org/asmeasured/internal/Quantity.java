package org.asmeasured.internal;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;

/**
 * A value with its unit as a person would write it: up to four digits and an SI prefix. Per cent
 * take none.
 */
public final class Quantity {
  private static final String PREFIXES = "afpnum kMGTPE";
  private static final int ZEROTH = PREFIXES.indexOf(' ');
  private static final MathContext FOUR_DIGITS = new MathContext(4, RoundingMode.HALF_UP);

  /** Below, and above its reciprocal, no power of ten stands for noughts of a plain number. */
  private static final double PLAIN = 1e6;

  /** Share of the values that a difference was taken of: what is less may be rounding alone. */
  private static final double ROUNDING = 1e-12;

  private Quantity() {}

  /**
   * Such as "12.5 mV"; the micro sign is a plain u, so that it survives any terminal. Without a
   * unit, a plain number.
   */
  public static String of(double value, String unit) {
    if (unit.isEmpty()) {
      return number(value);
    }
    if (value == 0 || Double.isNaN(value) || Double.isInfinite(value)) {
      return (value == 0 ? "0" : Double.toString(value)) + " " + unit;
    }
    BigDecimal rounded = new BigDecimal(value).round(FOUR_DIGITS);
    if (unit.equals("%")) {
      return rounded.stripTrailingZeros().toPlainString() + " %";
    }
    int exponent = rounded.precision() - rounded.scale() - 1;
    int step = Math.floorDiv(exponent, 3);
    step = Math.max(-ZEROTH, Math.min(PREFIXES.length() - 1 - ZEROTH, step));
    BigDecimal mantissa = rounded.scaleByPowerOfTen(-3 * step).stripTrailingZeros();
    String prefix = step == 0 ? "" : PREFIXES.substring(ZEROTH + step, ZEROTH + step + 1);
    return mantissa.toPlainString() + " " + prefix + unit;
  }

  /** Up to four digits, such as "0.0125", "2.5E-7". */
  private static String number(double value) {
    if (Double.isNaN(value) || Double.isInfinite(value)) {
      return Double.toString(value);
    }
    if (value == 0) {
      return "0";
    }
    BigDecimal rounded = new BigDecimal(value).round(FOUR_DIGITS).stripTrailingZeros();
    return Math.abs(value) < PLAIN && Math.abs(value) > 1 / PLAIN
        ? rounded.toPlainString()
        : rounded.toString();
  }

  /**
   * A value, or 0 where it may be what rounding left of nothing. Only who knows of what size the
   * values were that it was computed from can tell.
   *
   * @param size of these values
   */
  public static double orNothing(double value, double size) {
    return Math.abs(value) <= ROUNDING * Math.abs(size) ? 0 : value;
  }

  /** A difference of two values: between two shares, in percentage points. */
  public static String ofDifference(double value, String unit) {
    return unit.equals("%") ? of(value, "%").replace("%", "percentage points") : of(value, unit);
  }
}
