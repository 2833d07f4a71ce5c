package org.asmeasured.frontend;

import org.asmeasured.internal.Quantity;
import org.asmeasured.internal.Require;
import org.asmeasured.linear.Response;

/**
 * Direct or alternating-current coupling. AC coupling is a first-order high-pass, s/(s + 2 pi
 * f<sub>c</sub>).
 *
 * <p>The corner does not depend on the source. A periodic signal meets it settled, a signal that
 * begins meets it at rest.
 */
public final class Coupling implements AnalogStage {
  private static final double USUAL_CORNER_HZ = 10;
  private static final Coupling DC = new Coupling(0);

  private final double cornerHz;

  private Coupling(double cornerHz) {
    this.cornerHz = cornerHz;
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
    return new Coupling(Require.inRange("cornerHz", cornerHz, "Hz", 1e-6, 1e12));
  }

  /**
   * Whether the direct part passes.
   *
   * @return true for direct coupling
   */
  public boolean isDc() {
    return cornerHz == 0;
  }

  /**
   * The half-power frequency of the high-pass.
   *
   * @return Hz; 0 for direct coupling
   */
  public double cornerHz() {
    return cornerHz;
  }

  @Override
  public String name() {
    return "coupling";
  }

  @Override
  public Response response() {
    return isDc() ? Response.identity() : Response.highPass(cornerHz);
  }

  @Override
  public boolean equals(Object other) {
    return other instanceof Coupling && ((Coupling) other).cornerHz == cornerHz;
  }

  @Override
  public int hashCode() {
    return Double.hashCode(cornerHz);
  }

  @Override
  public String toString() {
    return isDc() ? "DC coupling" : "AC coupling, high-pass at " + Quantity.of(cornerHz, "Hz");
  }
}
