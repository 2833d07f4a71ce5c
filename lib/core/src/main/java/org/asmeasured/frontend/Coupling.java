package org.asmeasured.frontend;

import org.asmeasured.internal.Quantity;
import org.asmeasured.internal.Require;
import org.asmeasured.linear.Response;

/**
 * Direct or alternating-current coupling. AC coupling is either a filter or a capacitor.
 *
 * <p>As a filter it is a first-order high-pass, s/(s + 2 pi f<sub>c</sub>), whose corner depends on
 * nothing else. As a capacitor C it stands in series ahead of the termination, and is solved
 * together with source, probe and termination by {@link Loading}: the corner is at 1/(2 pi C
 * (R<sub>ahead</sub> + R<sub>in</sub>)), so that a x10 probe moves it from 10 Hz to 1 Hz, and into
 * 50 ohm it is 20 000 times higher. No direct current flows through a capacitor, so it carries the
 * whole undivided direct voltage of the source, behind a dividing probe too.
 *
 * <p>A periodic signal meets either settled, a signal that begins meets it at rest.
 */
public final class Coupling implements AnalogStage {
  private static final double USUAL_CORNER_HZ = 10;

  /** 10 Hz with 1 Mohm. */
  private static final double USUAL_FARADS = 1 / (2 * Math.PI * USUAL_CORNER_HZ * 1e6);

  private static final Coupling DC = new Coupling(0, 0);

  private final double cornerHz;
  private final double farads;

  private Coupling(double cornerHz, double farads) {
    this.cornerHz = cornerHz;
    this.farads = farads;
  }

  /**
   * Direct coupling: ideal.
   *
   * @return the coupling
   */
  public static Coupling dc() {
    return DC;
  }

  /**
   * AC coupling with a corner at 10 Hz (common practice, no source).
   *
   * @return the coupling
   */
  public static Coupling ac() {
    return ac(USUAL_CORNER_HZ);
  }

  /**
   * AC coupling.
   *
   * @param cornerHz half-power frequency, 1e-6 to 1e12 Hz
   * @return the coupling
   * @throws IllegalArgumentException if the frequency is out of range
   */
  public static Coupling ac(double cornerHz) {
    return new Coupling(Require.inRange("cornerHz", cornerHz, "Hz", 1e-6, 1e12), 0);
  }

  /**
   * AC coupling by a capacitor that has its corner at 10 Hz with 1 Mohm, 15.9 nF (common practice,
   * no source).
   *
   * @return the coupling
   */
  public static Coupling capacitor() {
    return capacitor(USUAL_FARADS);
  }

  /**
   * AC coupling by a capacitor in series ahead of the termination.
   *
   * @param farads capacitance, 1e-15 to 1 F
   * @return the coupling
   * @throws IllegalArgumentException if the capacitance is out of range
   */
  public static Coupling capacitor(double farads) {
    return new Coupling(0, Require.inRange("farads", farads, "F", 1e-15, 1));
  }

  /**
   * Whether the direct part passes.
   *
   * @return true for direct coupling
   */
  public boolean isDc() {
    return cornerHz == 0 && farads == 0;
  }

  /**
   * Whether it is a capacitor, which acts within {@link Loading} and not as a stage by itself.
   *
   * @return true for AC coupling by a capacitor
   */
  public boolean isCapacitor() {
    return farads > 0;
  }

  /**
   * The capacitance in series.
   *
   * @return F; 0 unless it is a capacitor
   */
  public double farads() {
    return farads;
  }

  /**
   * The half-power frequency of the filter.
   *
   * @return Hz; 0 for direct coupling, and for a capacitor, whose corner depends on what is around
   *     it
   */
  public double cornerHz() {
    return cornerHz;
  }

  @Override
  public String name() {
    return "coupling";
  }

  /** The filter; the identity for direct coupling, and for a capacitor, which is no stage. */
  @Override
  public Response response() {
    return cornerHz == 0 ? Response.identity() : Response.highPass(cornerHz);
  }

  @Override
  public boolean equals(Object other) {
    return other instanceof Coupling that && that.cornerHz == cornerHz && that.farads == farads;
  }

  @Override
  public int hashCode() {
    return Double.hashCode(cornerHz) + 31 * Double.hashCode(farads);
  }

  @Override
  public String toString() {
    if (isCapacitor()) {
      return "AC coupling by " + Quantity.of(farads, "F");
    }
    return isDc() ? "DC coupling" : "AC coupling, high-pass at " + Quantity.of(cornerHz, "Hz");
  }
}
