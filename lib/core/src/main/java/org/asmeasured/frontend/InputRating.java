package org.asmeasured.frontend;

import org.asmeasured.internal.Quantity;
import org.asmeasured.internal.Require;

/**
 * The highest voltage that an input or a probe is rated for. It changes no reading: where a signal
 * goes beyond it, the result of a prediction carries a caution.
 *
 * @param peakVolts modulus of the voltage at any instant, direct and alternating part together,
 *     1e-3 to 1e9 V, or infinite where none is stated
 * @param rmsVolts RMS of the voltage, direct and alternating part together, 1e-3 to 1e9 V, or
 *     infinite where none is stated
 */
public record InputRating(double peakVolts, double rmsVolts) {
  private static final InputRating UNSTATED =
      new InputRating(Double.POSITIVE_INFINITY, Double.POSITIVE_INFINITY);

  /**
   * Checks the two values.
   *
   * @param peakVolts modulus of the voltage at any instant, direct and alternating part together,
   *     1e-3 to 1e9 V, or infinite where none is stated
   * @param rmsVolts RMS of the voltage, direct and alternating part together, 1e-3 to 1e9 V, or
   *     infinite where none is stated
   * @throws IllegalArgumentException if either is out of range
   */
  public InputRating {
    check("peakVolts", peakVolts);
    check("rmsVolts", rmsVolts);
  }

  private static void check(String name, double volts) {
    if (volts != Double.POSITIVE_INFINITY) {
      Require.inRange(name, volts, "V", 1e-3, 1e9);
    }
  }

  /**
   * No rating is known. That is no promise that any voltage is safe.
   *
   * @return the rating
   */
  public static InputRating unstated() {
    return UNSTATED;
  }

  /**
   * A rating of the highest instantaneous voltage alone.
   *
   * @param volts modulus, direct and alternating part together, 1e-3 to 1e9 V
   * @return the rating
   * @throws IllegalArgumentException if the value is out of range
   */
  public static InputRating ofPeak(double volts) {
    return new InputRating(Require.inRange("peakVolts", volts, "V", 1e-3, 1e9), UNSTATED.rmsVolts);
  }

  /**
   * Whether anything is stated.
   *
   * @return true if one of the two is finite
   */
  public boolean isStated() {
    return peakVolts != Double.POSITIVE_INFINITY || rmsVolts != Double.POSITIVE_INFINITY;
  }

  @Override
  public String toString() {
    if (!isStated()) {
      return "no rating stated";
    }
    StringBuilder words = new StringBuilder("rated for ");
    if (peakVolts != Double.POSITIVE_INFINITY) {
      words.append(Quantity.of(peakVolts, "V")).append(" peak");
    }
    if (rmsVolts != Double.POSITIVE_INFINITY) {
      words.append(peakVolts != Double.POSITIVE_INFINITY ? " and " : "");
      words.append(Quantity.of(rmsVolts, "V")).append(" RMS");
    }
    return words.toString();
  }
}
