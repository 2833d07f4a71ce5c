package org.asmeasured.pulse;

import org.asmeasured.internal.Quantity;
import org.asmeasured.internal.Require;

/**
 * The levels of the two states of a waveform. Their difference is its amplitude, 100 %.
 *
 * @param lowVolts level of the low state, 0 %
 * @param highVolts level of the high state, 100 %; equal to the other where there are no two states
 */
public record States(double lowVolts, double highVolts) {
  /**
   * Checks the levels.
   *
   * @param lowVolts level of the low state
   * @param highVolts level of the high state
   * @throws IllegalArgumentException if one is not finite or the second is below the first
   */
  public States {
    Require.inRange("lowVolts", lowVolts, "V", -1e30, 1e30);
    Require.inRange("highVolts", highVolts, "V", lowVolts, 1e30);
  }

  /**
   * High less low.
   *
   * @return volts, 0 or more
   */
  public double amplitudeVolts() {
    return highVolts - lowVolts;
  }

  /**
   * A level between the states, or beyond them.
   *
   * @param percent 0 % for the low state, 100 % for the high one
   * @return volts
   */
  public double atPercent(double percent) {
    return lowVolts + percent / 100 * (highVolts - lowVolts);
  }

  @Override
  public String toString() {
    return Quantity.of(lowVolts, "V") + " and " + Quantity.of(highVolts, "V");
  }
}
