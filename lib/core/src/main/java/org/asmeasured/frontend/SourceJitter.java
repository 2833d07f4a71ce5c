package org.asmeasured.frontend;

import org.asmeasured.internal.Quantity;
import org.asmeasured.internal.Require;

/**
 * Edge jitter that the signal itself has: the device's, not the instrument's.
 *
 * <p>Every transition of the signal between two levels, a jump or a straight edge with both its
 * ends, comes late by a time of its own: normal, independent from transition to transition, drawn
 * anew for every acquisition. Averaging therefore sees each harmonic of an edge through the
 * low-pass {@code exp(-(2 pi f sigma)^2/2)}, the characteristic function of the displacement;
 * between one transition and another the error is sqrt(2) sigma.
 *
 * <p>It is part of what there is to measure, so it is kept apart from the sampler's aperture jitter
 * and from the trigger's, and the truth of a reading is that of the undisturbed signal. Which
 * signals can have it, {@link org.asmeasured.signal.Transitions} says.
 *
 * @param rmsSeconds sigma: standard deviation of a transition's displacement, 0 or 1e-18 to 1 s
 * @param device which device the transitions come from: channels of the same one have the same
 *     displacements, in units of their sigma, transition by transition; 0 to 1 000 000
 */
public record SourceJitter(double rmsSeconds, int device) {
  private static final SourceJitter NONE = new SourceJitter(0, 0);
  private static final int MAX_DEVICE = 1_000_000;

  /**
   * Checks the values.
   *
   * @param rmsSeconds standard deviation of a transition's displacement, 0 or 1e-18 to 1 s
   * @param device which device the transitions come from, 0 to 1 000 000
   * @throws IllegalArgumentException if one is out of range
   */
  public SourceJitter {
    rmsSeconds = Require.durationOrZero("rmsSeconds", rmsSeconds);
    Require.inRange("rmsSeconds", rmsSeconds, "s", 0, 1);
    Require.inRange("device", device, 0, MAX_DEVICE);
  }

  /**
   * A source whose transitions are in time.
   *
   * @return the value
   */
  public static SourceJitter none() {
    return NONE;
  }

  /**
   * Jitter of device 0.
   *
   * @param rmsSeconds standard deviation of a transition's displacement, 0 or 1e-18 to 1 s
   * @return the jitter
   * @throws IllegalArgumentException if it is out of range
   */
  public static SourceJitter of(double rmsSeconds) {
    return new SourceJitter(rmsSeconds, 0);
  }

  /**
   * The same jitter of another device.
   *
   * @param value 0 to 1 000 000
   * @return the jitter
   * @throws IllegalArgumentException if it is out of range
   */
  public SourceJitter ofDevice(int value) {
    return new SourceJitter(rmsSeconds, value);
  }

  /**
   * Whether there is none.
   *
   * @return true if the standard deviation is 0
   */
  public boolean isNone() {
    return rmsSeconds == 0;
  }

  @Override
  public String toString() {
    return isNone()
        ? "no jitter of the source"
        : "edges of the source jitter by "
            + Quantity.of(rmsSeconds, "s")
            + " rms"
            + (device == 0 ? "" : " (device " + device + ")");
  }
}
