package org.asmeasured.pulse;

import org.asmeasured.internal.Quantity;
import org.asmeasured.internal.Require;

/**
 * The three levels at which instants are taken: low, middle and high, in percent of the amplitude
 * or in volts. A waveform's percent reference level of x % is low state + x/100 amplitude (IEEE Std
 * 181; clause from memory).
 *
 * @param low below the middle one
 * @param mid between the others
 * @param high above the middle one
 * @param inVolts whether the three are volts, and not percent
 */
public record ReferenceLevels(double low, double mid, double high, boolean inVolts) {
  private static final double MAX_PERCENT = 1000;

  /**
   * Checks the levels.
   *
   * @param low below the middle one; -1000 to 1000 %, or -1e9 to 1e9 V
   * @param mid between the others
   * @param high above the middle one
   * @param inVolts whether the three are volts, and not percent
   * @throws IllegalArgumentException if one is out of range or they do not ascend
   */
  public ReferenceLevels {
    String unit = inVolts ? "V" : "%";
    double most = inVolts ? 1e9 : MAX_PERCENT;
    Require.inRange("low", low, unit, -most, most);
    Require.inRange("mid", mid, unit, -most, most);
    Require.inRange("high", high, unit, -most, most);
    Require.that(
        low < mid && mid < high,
        "low = "
            + low
            + " "
            + unit
            + ", mid = "
            + mid
            + " "
            + unit
            + ", high = "
            + high
            + " "
            + unit
            + ": each must be above the one before");
  }

  /**
   * Levels of 10, 50 and 90 %, the Standard's default.
   *
   * @return the levels
   */
  public static ReferenceLevels standard() {
    return percent(10, 50, 90);
  }

  /**
   * Levels in percent of the amplitude.
   *
   * @param low below the middle one, %
   * @param mid between the others, %
   * @param high above the middle one, %
   * @return the levels
   * @throws IllegalArgumentException if one is not from -1000 to 1000 % or they do not ascend
   */
  public static ReferenceLevels percent(double low, double mid, double high) {
    return new ReferenceLevels(low, mid, high, false);
  }

  /**
   * Levels in volts.
   *
   * @param low below the middle one, V
   * @param mid between the others, V
   * @param high above the middle one, V
   * @return the levels
   * @throws IllegalArgumentException if one is not from -1e9 to 1e9 V or they do not ascend
   */
  public static ReferenceLevels volts(double low, double mid, double high) {
    return new ReferenceLevels(low, mid, high, true);
  }

  double lowVolts(States states) {
    return inVolts ? low : states.atPercent(low);
  }

  double midVolts(States states) {
    return inVolts ? mid : states.atPercent(mid);
  }

  double highVolts(States states) {
    return inVolts ? high : states.atPercent(high);
  }

  @Override
  public String toString() {
    String unit = inVolts ? "V" : "%";
    return Quantity.of(low, unit) + ", " + Quantity.of(mid, unit) + ", " + Quantity.of(high, unit);
  }
}
