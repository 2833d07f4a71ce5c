package org.asmeasured.fitting;

import java.math.BigDecimal;
import java.math.MathContext;
import org.asmeasured.internal.Quantity;

/** A figure as a person would write it: a plain number takes no prefix. */
final class Figure {
  private static final MathContext FOUR_DIGITS = new MathContext(4);

  /** Below, and above its reciprocal, no power of ten stands for noughts. */
  private static final double PLAIN = 1e6;

  private Figure() {}

  static String of(double value, String unit) {
    if (!unit.isEmpty() || !Double.isFinite(value)) {
      return Quantity.of(value, unit).trim();
    }
    if (value == 0) {
      return "0";
    }
    BigDecimal rounded = new BigDecimal(value).round(FOUR_DIGITS).stripTrailingZeros();
    return Math.abs(value) < PLAIN && Math.abs(value) > 1 / PLAIN
        ? rounded.toPlainString()
        : rounded.toString();
  }
}
