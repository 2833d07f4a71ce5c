package org.asmeasured.frontend;

import org.asmeasured.internal.Quantity;
import org.asmeasured.internal.Require;

/**
 * What the signal comes from: its open-circuit voltage behind a resistance, with a capacitance of
 * its own across the terminals.
 *
 * <p>The signal is the voltage at the terminals while nothing is attached to them, so the source's
 * own capacitance C has already had its effect on it. By Thevenin's theorem the source is then that
 * voltage behind Z = R/(1 + s R C), and a load of admittance Y sees the share 1/(1 + Z Y) of it: a
 * load of capacitance C<sub>L</sub> divides fast edges by C/(C + C<sub>L</sub>), where it would
 * take them away entirely behind R alone.
 *
 * @param ohms R, 0 to 1e12 ohm; 0 is ideal
 * @param farads C, 0 or 1e-18 to 1e-3 F; 0 without resistance
 * @param referenceVolts the greatest voltage to earth of the node from which the signal is counted,
 *     while nothing is attached to it, -1e9 to 1e9 V; 0 for a source on earth, or that floats. It
 *     changes no reading: where it is not 0 there is a caution
 */
public record Source(double ohms, double farads, double referenceVolts) {
  private static final double MIN_FARADS = 1e-18;
  private static final double MAX_FARADS = 1e-3;
  private static final Source IDEAL = new Source(0, 0);

  /**
   * Checks the values.
   *
   * @param ohms R, 0 to 1e12 ohm; 0 is ideal
   * @param farads C, 0 or 1e-18 to 1e-3 F; 0 without resistance
   * @param referenceVolts the greatest voltage to earth of the node from which the signal is
   *     counted, -1e9 to 1e9 V
   * @throws IllegalArgumentException if either is out of range, or there is a capacitance without a
   *     resistance
   */
  public Source {
    Require.inRange("sourceOhms", ohms, "ohm", 0, 1e12);
    Require.volts("sourceReferenceVolts", referenceVolts);
    if (farads != 0) {
      Require.inRange("sourceFarads", farads, "F", MIN_FARADS, MAX_FARADS);
      Require.that(
          ohms > 0,
          "sourceFarads = "
              + farads
              + " F: must be 0 F with sourceOhms = 0.0 ohm, where it has no effect");
    }
  }

  /**
   * A source whose signal is counted from earth.
   *
   * @param ohms R, 0 to 1e12 ohm; 0 is ideal
   * @param farads C, 0 or 1e-18 to 1e-3 F; 0 without resistance
   * @throws IllegalArgumentException if either is out of range, or there is a capacitance without a
   *     resistance
   */
  public Source(double ohms, double farads) {
    this(ohms, farads, 0);
  }

  /**
   * The same source with its signal counted from a node that is not on earth.
   *
   * @param volts the greatest voltage of that node to earth, -1e9 to 1e9 V
   * @return the source
   * @throws IllegalArgumentException if the value is out of range
   */
  public Source withReference(double volts) {
    return new Source(ohms, farads, volts);
  }

  /**
   * A source that no load changes.
   *
   * @return the source
   */
  public static Source ideal() {
    return IDEAL;
  }

  /**
   * A source without a capacitance of its own.
   *
   * @param ohms resistance, 0 to 1e12 ohm
   * @return the source
   * @throws IllegalArgumentException if the value is out of range
   */
  public static Source ofOhms(double ohms) {
    return new Source(ohms, 0);
  }

  /**
   * Whether no load changes it.
   *
   * @return true without resistance
   */
  public boolean isIdeal() {
    return ohms == 0;
  }

  @Override
  public String toString() {
    String words =
        isIdeal()
            ? "ideal source"
            : "source of "
                + Quantity.of(ohms, "ohm")
                + (farads == 0 ? "" : " with " + Quantity.of(farads, "F") + " of its own");
    return referenceVolts == 0
        ? words
        : words + ", its reference at " + Quantity.of(referenceVolts, "V") + " to earth";
  }
}
