package org.asmeasured.spectrum;

import org.asmeasured.internal.Quantity;
import org.asmeasured.internal.Require;

/**
 * A tone that was found: a fundamental, one of its harmonics, or a spur.
 *
 * @param order 1 for the fundamental, n for harmonic n, 0 for what is neither
 * @param frequencyHz its own frequency, 0 Hz or more: order times that of the fundamental
 * @param foldedHz where it stands in the spectrum, 0 Hz to half the rate: its alias
 * @param rmsVolts root of its mean square, V, 0 or more
 * @param over what it cannot be told from, as a person would say it; empty if it stands alone
 */
public record Tone(int order, double frequencyHz, double foldedHz, double rmsVolts, String over) {

  /**
   * Checks the tone.
   *
   * @param order 1 for the fundamental, n for harmonic n, 0 for what is neither
   * @param frequencyHz its own frequency, 0 Hz or more
   * @param foldedHz where it stands in the spectrum, 0 Hz or more
   * @param rmsVolts root of its mean square, V, 0 or more
   * @param over what it cannot be told from; empty if it stands alone
   * @throws IllegalArgumentException if a number is negative or not finite
   * @throws NullPointerException if {@code over} is missing
   */
  public Tone {
    Require.inRange("order", order, 0, Integer.MAX_VALUE);
    Require.inRange("frequencyHz", frequencyHz, "Hz", 0, Double.MAX_VALUE);
    Require.inRange("foldedHz", foldedHz, "Hz", 0, Double.MAX_VALUE);
    Require.inRange("rmsVolts", rmsVolts, "V", 0, Double.MAX_VALUE);
    Require.present("over", over);
  }

  /**
   * The amplitude of the cosine.
   *
   * @return volts, root of two times the RMS value
   */
  public double peakVolts() {
    return Math.sqrt(2) * rmsVolts;
  }

  /**
   * Whether it can be told from everything else.
   *
   * @return true if {@link #over} is empty
   */
  public boolean standsAlone() {
    return over.isEmpty();
  }

  double meanSquare() {
    return rmsVolts * rmsVolts;
  }

  @Override
  public String toString() {
    String words = order == 0 ? "spur" : order == 1 ? "fundamental" : "harmonic " + order;
    words += ", " + Quantity.of(rmsVolts, "V") + " RMS at " + Quantity.of(frequencyHz, "Hz");
    if (foldedHz != frequencyHz) {
      words += ", folded to " + Quantity.of(foldedHz, "Hz");
    }
    return standsAlone() ? words : words + ", not to be told from " + over;
  }
}
