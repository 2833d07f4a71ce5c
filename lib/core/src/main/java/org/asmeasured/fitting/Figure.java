package org.asmeasured.fitting;

import java.math.BigDecimal;
import java.math.MathContext;
import org.asmeasured.internal.Quantity;

/** A figure as a person would write it: a plain number takes no prefix. */
final class Figure {
  private static final MathContext FOUR_DIGITS = new MathContext(4);

  private Figure() {}

  static String of(double value, String unit) {
    if (!unit.isEmpty() || !Double.isFinite(value)) {
      return Quantity.of(value, unit).trim();
    }
    return value == 0
        ? "0"
        : new BigDecimal(value).round(FOUR_DIGITS).stripTrailingZeros().toString();
  }
}
