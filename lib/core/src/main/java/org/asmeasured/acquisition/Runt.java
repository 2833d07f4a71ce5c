package org.asmeasured.acquisition;

import org.asmeasured.internal.Quantity;
import org.asmeasured.internal.Require;

/**
 * Pulses that cross the trigger's level but come back without having reached another level beyond
 * it: above it for a rising slope, below it for a falling one.
 *
 * @param otherVolts the level they fail to reach, -1e9 to 1e9 V
 */
public record Runt(double otherVolts) implements Qualifier {

  /**
   * Checks the level.
   *
   * @param otherVolts the level they fail to reach, -1e9 to 1e9 V
   * @throws IllegalArgumentException if it is out of range
   */
  public Runt {
    Require.volts("otherVolts", otherVolts);
  }

  @Override
  public String toString() {
    return "pulses that do not reach " + Quantity.of(otherVolts, "V");
  }
}
