package org.asmeasured.examples;

import java.util.Locale;
import java.util.Set;

/**
 * A unit with an SI prefix, chosen from the data: the same for all numbers that stand in one line,
 * table or axis.
 *
 * @param exponent power of ten of the prefix; a multiple of three
 * @param symbol prefix and unit, for instance "mV"
 */
record Scale(int exponent, String symbol) {
  /** A millionth of the smallest prefix: less is what a rounding left, and shown as nothing. */
  private static final double LEAST = 1e-24;

  private static final String[] PREFIXES = {
    "a", "f", "p", "n", "µ", "m", "", "k", "M", "G", "T", "P"
  };
  private static final int LEAST_EXPONENT = -18;
  private static final int GREATEST_EXPONENT = 15;

  /**
   * Units that take a prefix. A prefix before "V^2" would be squared with it, so such units take
   * none.
   */
  private static final Set<String> PLAIN_UNITS =
      Set.of(
          "V",
          "A",
          "W",
          "VA",
          "J",
          "C",
          "s",
          "Hz",
          "ohm",
          "F",
          "H",
          "rad",
          "V/s",
          "V/sqrt(Hz)",
          "samples/s");

  /** The unit of a difference between two values of a unit. */
  static String ofDifference(String unit) {
    return unit.equals("%") ? "percentage points" : unit;
  }

  /** The scale in which a magnitude reads as 1.000 to 999.9. */
  static Scale of(double magnitude, String unit) {
    if (!PLAIN_UNITS.contains(unit) || magnitude == 0 || !Double.isFinite(magnitude)) {
      return new Scale(0, unit);
    }
    // Half a unit of the fourth digit: 999.96 mV is to read 1.000 V.
    int decade = (int) Math.floor(Math.log10(Math.abs(magnitude) * 1.00005));
    int exponent = Math.floorDiv(decade, 3) * 3;
    exponent = Math.max(LEAST_EXPONENT, Math.min(GREATEST_EXPONENT, exponent));
    return new Scale(exponent, PREFIXES[(exponent - LEAST_EXPONENT) / 3] + unit);
  }

  /** The value in this scale. */
  double in(double value) {
    // Dividing by an exact power of ten rounds once; multiplying by its inverse would round twice.
    return exponent >= 0 ? value / power(exponent) : value * power(-exponent);
  }

  private static double power(int exponent) {
    return Double.parseDouble("1e" + exponent);
  }

  /** Decimals that give the value so many significant digits in this scale. */
  int decimals(double value, int significantDigits) {
    double scaled = Math.abs(in(value));
    if (scaled == 0 || !Double.isFinite(scaled)) {
      return 0;
    }
    int decade =
        (int) Math.floor(Math.log10(scaled * (1 + 0.5 * Math.pow(10, -significantDigits))));
    return Math.max(0, Math.min(12, significantDigits - 1 - decade));
  }

  /** The number without its unit; a plain "0" is an exact nothing. */
  String number(double value, int decimals) {
    if (value == 0) {
      return "0";
    }
    if (!Double.isFinite(value)) {
      return Double.toString(value);
    }
    double scaled = in(value);
    double magnitude = Math.abs(scaled);
    if (magnitude >= 1e6 || (decimals >= 12 && magnitude < 1e-6)) {
      return String.format(Locale.ROOT, "%.3e", scaled);
    }
    String text = String.format(Locale.ROOT, "%." + decimals + "f", scaled);
    return isZero(text) && text.startsWith("-") ? text.substring(1) : text;
  }

  /** The number with its sign, plus or minus, without its unit. */
  String signed(double value, int decimals) {
    String text = number(value, decimals);
    return value > 0 && !isZero(text) ? "+" + text : text;
  }

  private static boolean isZero(String text) {
    return text.chars().noneMatch(c -> c >= '1' && c <= '9');
  }

  /** A number with the unit after it. */
  String withUnit(String number) {
    return symbol.isEmpty() ? number : number + " " + symbol;
  }

  /** One value on its own, four significant digits. */
  static String text(double value, String unit) {
    if (!unit.isEmpty() && Math.abs(value) < LEAST) {
      return "0 " + unit;
    }
    Scale scale = of(value, unit);
    return scale.withUnit(scale.number(value, scale.decimals(value, 4)));
  }

  /** One difference on its own, four significant digits and its sign. */
  static String signedText(double value, String unit) {
    Scale scale = of(value, unit);
    return scale.withUnit(scale.signed(value, scale.decimals(value, 4)));
  }
}
