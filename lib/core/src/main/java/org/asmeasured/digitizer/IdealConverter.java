package org.asmeasured.digitizer;

import java.util.Objects;
import org.asmeasured.internal.Require;

/**
 * An ideal mid-tread converter: code = clamp(rint(level)).
 *
 * <p>Transitions lie at (k - 1/2) steps; a level exactly on one gets the even code of its two
 * neighbours. Outside the range, the end codes.
 *
 * @param bits 1 to 24
 */
public record IdealConverter(int bits) implements Converter {

  /**
   * Checks the number of bits.
   *
   * @param bits 1 to 24
   * @throws IllegalArgumentException if it is out of range
   */
  public IdealConverter {
    Require.inRange("bits", bits, 1, MAX_BITS);
  }

  @Override
  public void convert(double[] levels, int offset, int count) {
    round(levels, offset, offset + count, lowestCode(), highestCode());
  }

  /** Kept apart, without calls or branches in the loop, so that it runs on vectors. */
  private static void round(double[] levels, int from, int to, double low, double high) {
    for (int i = from; i < to; i++) {
      levels[i] = Math.min(high, Math.max(low, Math.rint(levels[i])));
    }
  }

  @Override
  public void toVolts(
      double[] levels, double[] volts, int offset, int count, double zeroVolts, double stepVolts) {
    Objects.checkFromIndexSize(offset, count, levels.length);
    Objects.checkFromIndexSize(offset, count, volts.length);
    volts(levels, volts, offset, offset + count, lowestCode(), highestCode(), zeroVolts, stepVolts);
  }

  private static void volts(
      double[] levels,
      double[] volts,
      int from,
      int to,
      double low,
      double high,
      double zero,
      double step) {
    for (int i = from; i < to; i++) {
      volts[i] = zero + Math.min(high, Math.max(low, Math.rint(levels[i]))) * step;
    }
  }

  @Override
  public String toString() {
    return "ideal converter of " + bits + (bits == 1 ? " bit" : " bits");
  }
}
