package org.asmeasured.uncertainty;

import org.asmeasured.internal.Require;

/**
 * An input quantity of a model: what is known about it.
 *
 * @param name what it is called in budgets and messages, not blank
 * @param unit its unit, "" for none
 * @param distribution what is known about it
 * @param degreesOfFreedom of its standard uncertainty (JCGM 100, G.3, G.4.2), 1 to positive
 *     infinity
 */
public record Input(String name, String unit, Distribution distribution, double degreesOfFreedom) {

  /**
   * Checks the input.
   *
   * @param name what it is called in budgets and messages, not blank
   * @param unit its unit, "" for none
   * @param distribution what is known about it
   * @param degreesOfFreedom of its standard uncertainty (JCGM 100, G.3, G.4.2), 1 to positive
   *     infinity
   * @throws IllegalArgumentException if a value is out of range
   * @throws NullPointerException if an argument is missing
   */
  public Input {
    Require.present("name", name);
    Require.that(!name.isBlank(), "name = \"" + name + "\": must not be blank");
    Require.present("unit", unit);
    Require.present("distribution", distribution);
    Require.inRange(
        "degreesOfFreedom of " + name, degreesOfFreedom, "", 1, Double.POSITIVE_INFINITY);
    Require.inRange("estimate of " + name, distribution.estimate(), unit, -Normal.MAX, Normal.MAX);
    Require.above(
        "standard uncertainty of " + name, distribution.standardUncertainty(), unit, 0, Normal.MAX);
  }

  /**
   * An input with the degrees of freedom that its distribution says.
   *
   * @param name what it is called in budgets and messages, not blank
   * @param unit its unit, "" for none
   * @param distribution what is known about it
   * @return the input
   * @throws IllegalArgumentException if the name is blank
   * @throws NullPointerException if an argument is missing
   */
  public static Input of(String name, String unit, Distribution distribution) {
    Require.present("distribution", distribution);
    return new Input(name, unit, distribution, distribution.degreesOfFreedom());
  }

  /**
   * The same input with other degrees of freedom, for the law of propagation alone: trials are
   * drawn from the distribution as it is.
   *
   * @param degrees 1 to positive infinity; nu = (u/delta u)^2/2 if u itself is uncertain by delta u
   *     (JCGM 100, G.4.2)
   * @return the changed input
   * @throws IllegalArgumentException if it is out of range
   */
  public Input withDegreesOfFreedom(double degrees) {
    return new Input(name, unit, distribution, degrees);
  }
}
