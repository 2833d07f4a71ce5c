package org.asmeasured.frontend;

import org.asmeasured.internal.Quantity;
import org.asmeasured.internal.Require;

/**
 * The loop of wire that closes a probe's circuit: an inductance L and a damping resistance R in
 * series between the tip and what follows, and a stray capacitance across the probe's own input.
 *
 * <p>What rings is L with the capacitance of the probe's input, for a divider C<sub>1</sub> in
 * series with C<sub>2</sub>, plus the stray one: f<sub>0</sub> = 1/(2 pi sqrt(L C)), zeta = (R +
 * R<sub>s</sub>)/2 sqrt(C/L) with the resistance of the source. The position of L in the loop, in
 * the ground lead or ahead of the tip, is the same to the voltage that is recorded.
 *
 * @param henries L, 0 or 1e-15 to 1e-3 H; 0 is ideal
 * @param ohms R, 0 or 1e-6 to 1e6 ohm; 0 without inductance
 * @param strayFarads stray capacitance behind the lead, 0 or 1e-18 to 1e-6 F; 0 without inductance
 */
public record GroundLead(double henries, double ohms, double strayFarads) {
  /** About 1 nH/mm: common practice, no source. */
  private static final double HENRIES_PER_MILLIMETRE = 1e-9;

  private static final GroundLead NONE = new GroundLead(0, 0, 0);

  /**
   * Checks the values.
   *
   * @param henries L, 0 or 1e-15 to 1e-3 H; 0 is ideal
   * @param ohms R, 0 or 1e-6 to 1e6 ohm; 0 without inductance
   * @param strayFarads stray capacitance behind the lead, 0 or 1e-18 to 1e-6 F; 0 without
   *     inductance
   * @throws IllegalArgumentException if one is out of range
   */
  public GroundLead {
    zeroOr("henries", henries, "H", 1e-15, 1e-3);
    zeroOr("ohms", ohms, "ohm", 1e-6, 1e6);
    zeroOr("strayFarads", strayFarads, "F", 1e-18, 1e-6);
    Require.that(
        henries > 0 || ohms == 0 && strayFarads == 0,
        "ohms = "
            + ohms
            + " ohm, strayFarads = "
            + strayFarads
            + " F: must both be 0 with henries = 0.0 H");
  }

  private static void zeroOr(String name, double value, String unit, double min, double max) {
    if (value != 0) {
      Require.inRange(name, value, unit, min, max);
    }
  }

  /**
   * No lead: ideal.
   *
   * @return the lead
   */
  public static GroundLead none() {
    return NONE;
  }

  /**
   * A lead by its length, 1 nH/mm (common practice, no source), without damping and without stray
   * capacitance.
   *
   * @param millimetres 0 or 1e-6 to 1e6 mm; 0 is ideal
   * @return the lead
   * @throws IllegalArgumentException if the length is out of range
   */
  public static GroundLead ofLength(double millimetres) {
    zeroOr("millimetres", millimetres, "mm", 1e-6, 1e6);
    return new GroundLead(millimetres * HENRIES_PER_MILLIMETRE, 0, 0);
  }

  /**
   * The same lead with another damping resistance.
   *
   * @param value 0 or 1e-6 to 1e6 ohm
   * @return the lead
   * @throws IllegalArgumentException if the value is out of range, or the lead has no inductance
   */
  public GroundLead withDamping(double value) {
    return new GroundLead(henries, value, strayFarads);
  }

  /**
   * The same lead with another stray capacitance.
   *
   * @param farads 0 or 1e-18 to 1e-6 F
   * @return the lead
   * @throws IllegalArgumentException if the value is out of range, or the lead has no inductance
   */
  public GroundLead withStray(double farads) {
    return new GroundLead(henries, ohms, farads);
  }

  /**
   * Whether it has no effect.
   *
   * @return true without inductance
   */
  public boolean isIdeal() {
    return henries == 0;
  }

  @Override
  public String toString() {
    if (isIdeal()) {
      return "no ground lead";
    }
    return "ground lead of "
        + Quantity.of(henries, "H")
        + (ohms == 0 ? "" : " and " + Quantity.of(ohms, "ohm"))
        + (strayFarads == 0 ? "" : ", stray " + Quantity.of(strayFarads, "F"));
  }
}
