package org.asmeasured.frontend;

import java.math.BigDecimal;
import java.math.MathContext;

/** Numbers and parts of a probe as a person would say them. */
final class ProbeWords {
  private static final MathContext FOUR_DIGITS = new MathContext(4);

  private ProbeWords() {}

  static String of(Bandwidth bandwidth, GroundLead groundLead) {
    return (bandwidth.isIdeal() ? "" : ", " + bandwidth)
        + (groundLead.isIdeal() ? "" : ", " + groundLead);
  }

  static String number(double value) {
    return new BigDecimal(value).round(FOUR_DIGITS).stripTrailingZeros().toPlainString();
  }

  static String percent(double fraction) {
    return (fraction > 0 ? "+" : "") + number(100 * fraction) + " %";
  }
}
