package org.asmeasured.acquisition;

import org.asmeasured.internal.Quantity;
import org.asmeasured.internal.Require;

/**
 * Pulses whose width lies strictly between two limits.
 *
 * @param longerThanSeconds they are longer than this, 0 to 1e12 s; 0 for no lower limit
 * @param shorterThanSeconds they are shorter than this, more than the other limit and up to 1e12 s,
 *     or infinite for no upper limit
 */
public record PulseWidth(double longerThanSeconds, double shorterThanSeconds) implements Qualifier {

  /**
   * Checks the limits.
   *
   * @param longerThanSeconds they are longer than this, 0 to 1e12 s; 0 for no lower limit
   * @param shorterThanSeconds they are shorter than this, more than the other limit and up to 1e12
   *     s, or infinite for no upper limit
   * @throws IllegalArgumentException if one is out of range, or they leave nothing between them
   */
  public PulseWidth {
    longerThanSeconds = Require.durationOrZero("longerThanSeconds", longerThanSeconds);
    if (shorterThanSeconds != Double.POSITIVE_INFINITY) {
      Require.duration("shorterThanSeconds", shorterThanSeconds);
    }
    Require.that(
        longerThanSeconds < shorterThanSeconds,
        "longerThanSeconds = "
            + longerThanSeconds
            + " s, shorterThanSeconds = "
            + shorterThanSeconds
            + " s: the second must be above the first");
  }

  static PulseWidth shorterThan(double seconds) {
    return new PulseWidth(0, Require.duration("seconds", seconds));
  }

  static PulseWidth longerThan(double seconds) {
    return new PulseWidth(Require.duration("seconds", seconds), Double.POSITIVE_INFINITY);
  }

  @Override
  public String toString() {
    String lower =
        longerThanSeconds == 0 ? "" : "longer than " + Quantity.of(longerThanSeconds, "s");
    String upper =
        shorterThanSeconds == Double.POSITIVE_INFINITY
            ? ""
            : "shorter than " + Quantity.of(shorterThanSeconds, "s");
    if (lower.isEmpty() && upper.isEmpty()) {
      return "pulses of any width";
    }
    return "pulses " + lower + (lower.isEmpty() || upper.isEmpty() ? "" : " and ") + upper;
  }
}
