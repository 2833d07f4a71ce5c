package org.asmeasured.frontend;

import org.asmeasured.internal.Quantity;
import org.asmeasured.internal.Require;

/**
 * What the input shows to the source: a resistance with a capacitance across it.
 *
 * @param ohms input resistance, 0.001 to 1e12 ohm
 * @param farads input capacitance, 0 or 1e-18 to 1e-3 F
 */
public record Termination(double ohms, double farads) {
  private static final double MIN_FARADS = 1e-18;
  private static final double MAX_FARADS = 1e-3;

  /**
   * Checks the two values.
   *
   * @param ohms input resistance, 0.001 to 1e12 ohm
   * @param farads input capacitance, 0 or 1e-18 to 1e-3 F
   * @throws IllegalArgumentException if either is out of range
   */
  public Termination {
    Require.inRange("ohms", ohms, "ohm", 1e-3, 1e12);
    if (farads != 0) {
      Require.inRange("farads", farads, "F", MIN_FARADS, MAX_FARADS);
    }
  }

  /**
   * The usual high-impedance input, 1 Mohm in parallel with 15 pF (common practice, no source).
   *
   * @return the termination
   */
  public static Termination oneMegohm() {
    return new Termination(1e6, 15e-12);
  }

  /**
   * A matched input, 50 ohm without capacitance.
   *
   * @return the termination
   */
  public static Termination fiftyOhm() {
    return new Termination(50, 0);
  }

  @Override
  public String toString() {
    String resistance = Quantity.of(ohms, "ohm");
    return farads == 0 ? resistance : resistance + " in parallel with " + Quantity.of(farads, "F");
  }
}
