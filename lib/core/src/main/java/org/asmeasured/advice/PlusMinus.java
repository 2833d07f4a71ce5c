package org.asmeasured.advice;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import org.asmeasured.internal.Quantity;

/**
 * A value with its expanded uncertainty: two digits of that, and the value to the same place (JCGM
 * 100, 7.2.6).
 */
final class PlusMinus {
  private static final int DIGITS = 2;

  private PlusMinus() {}

  static String of(double value, double expanded, String unit) {
    return of(value, " +/- ", expanded, unit);
  }

  /** The same with other words between the two, where they are not of one thing. */
  static String of(double value, String between, double expanded, String unit) {
    if (!(expanded > 0)) {
      return Quantity.of(value, unit);
    }
    BigDecimal u = new BigDecimal(expanded).round(new MathContext(DIGITS, RoundingMode.HALF_UP));
    BigDecimal v = new BigDecimal(value).setScale(u.scale(), RoundingMode.HALF_EVEN);
    BigDecimal greater = v.abs().max(u);
    // the prefix that the greater of both has by itself
    String like = Quantity.of(greater.doubleValue(), unit);
    String prefixed = like.substring(like.indexOf(' ') + 1);
    int power = power(prefixed, unit);
    return v.scaleByPowerOfTen(-power).toPlainString()
        + " "
        + prefixed
        + between
        + u.scaleByPowerOfTen(-power).toPlainString()
        + " "
        + prefixed;
  }

  private static int power(String prefixed, String unit) {
    String prefix = prefixed.substring(0, prefixed.length() - unit.length());
    return prefix.isEmpty() ? 0 : 3 * ("afpnum kMGTPE".indexOf(prefix) - 6);
  }
}
