package org.asmeasured.acquisition;

import org.asmeasured.frontend.AnalogStage;
import org.asmeasured.internal.Quantity;
import org.asmeasured.internal.Require;
import org.asmeasured.linear.Response;

/**
 * What the trigger sees of the signal: its own path, split off after the amplifier, which does not
 * touch the recorded one. A first-order high-pass s/(s + 2 pi f<sub>h</sub>) and a first-order
 * low-pass 2 pi f<sub>l</sub>/(s + 2 pi f<sub>l</sub>), each of which may be left out.
 *
 * <p>Gain at a frequency f: 1/sqrt(1 + (f<sub>h</sub>/f)<sup>2</sup>) and 1/sqrt(1 +
 * (f/f<sub>l</sub>)<sup>2</sup>). The corners of the named paths, 10 Hz and 50 kHz, are common
 * practice, no source.
 *
 * @param highPassHz corner of the high-pass, 1e-6 to 1e12 Hz; 0 for none
 * @param lowPassHz corner of the low-pass, 1e-6 to 1e12 Hz; 0 for none
 */
public record TriggerPath(double highPassHz, double lowPassHz) implements AnalogStage {
  private static final double AC_HZ = 10;
  private static final double REJECT_HZ = 50e3;
  private static final TriggerPath DC = new TriggerPath(0, 0);

  /**
   * Checks the corners.
   *
   * @param highPassHz corner of the high-pass, 1e-6 to 1e12 Hz; 0 for none
   * @param lowPassHz corner of the low-pass, 1e-6 to 1e12 Hz; 0 for none
   * @throws IllegalArgumentException if one is out of range
   */
  public TriggerPath {
    highPassHz = highPassHz == 0 ? 0 : corner("highPassHz", highPassHz);
    lowPassHz = lowPassHz == 0 ? 0 : corner("lowPassHz", lowPassHz);
  }

  private static double corner(String name, double hertz) {
    return Require.inRange(name, hertz, "Hz", 1e-6, 1e12);
  }

  /**
   * Everything: ideal.
   *
   * @return the path
   */
  public static TriggerPath dc() {
    return DC;
  }

  /**
   * All but the direct part: a high-pass at 10 Hz.
   *
   * @return the path
   */
  public static TriggerPath ac() {
    return new TriggerPath(AC_HZ, 0);
  }

  /**
   * Low frequencies rejected: a high-pass at 50 kHz.
   *
   * @return the path
   */
  public static TriggerPath lowFrequencyReject() {
    return new TriggerPath(REJECT_HZ, 0);
  }

  /**
   * High frequencies rejected: a low-pass at 50 kHz.
   *
   * @return the path
   */
  public static TriggerPath highFrequencyReject() {
    return new TriggerPath(0, REJECT_HZ);
  }

  @Override
  public String name() {
    return "trigger path";
  }

  @Override
  public Response response() {
    Response response = highPassHz == 0 ? Response.identity() : Response.highPass(highPassHz);
    return lowPassHz == 0 ? response : response.times(Response.singlePole(lowPassHz));
  }

  @Override
  public String toString() {
    if (highPassHz == 0 && lowPassHz == 0) {
      return "DC path";
    }
    String high = highPassHz == 0 ? "" : "high-pass at " + Quantity.of(highPassHz, "Hz");
    String low = lowPassHz == 0 ? "" : "low-pass at " + Quantity.of(lowPassHz, "Hz");
    return "path with " + high + (high.isEmpty() || low.isEmpty() ? "" : " and ") + low;
  }
}
