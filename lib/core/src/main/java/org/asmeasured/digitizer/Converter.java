package org.asmeasured.digitizer;

import java.util.Objects;

/**
 * Turns levels into codes. Open: a converter of your own needs a number of bits and one method.
 *
 * <p>An implementation is immutable and may be used by several threads at once. What becomes of a
 * sample depends on its level alone, not on its neighbours nor on the place where a block ends.
 */
public interface Converter {
  /** The greatest number of bits. */
  int MAX_BITS = 24;

  /**
   * Infinite resolution and no range: the volts are stored as they are.
   *
   * @return the converter that changes nothing
   */
  static Converter none() {
    return NoConverter.INSTANCE;
  }

  /**
   * The number of bits.
   *
   * @return 1 to 24; 0 for infinite resolution, and then {@link #convert} is not called
   */
  int bits();

  /**
   * Replaces levels by codes, in place. NaN stays NaN; infinite levels get the end codes.
   *
   * @param levels on entry (v - offset)/q, real numbers of any size; on return whole numbers from
   *     {@link #lowestCode} to {@link #highestCode}
   * @param offset index of the first
   * @param count how many, 0 or more
   */
  void convert(double[] levels, int offset, int count);

  /**
   * What the codes of levels stand for: zero + step x code, or zero + step x level where the
   * resolution is infinite. The levels stay as they are, unless both arrays are the same.
   *
   * @param levels as {@link #convert} takes them
   * @param volts receives the volts, at the same places
   * @param offset index of the first in both arrays
   * @param count how many, 0 or more
   * @param zeroVolts at code 0
   * @param stepVolts from code to code
   * @throws IndexOutOfBoundsException if an array does not hold them
   */
  default void toVolts(
      double[] levels, double[] volts, int offset, int count, double zeroVolts, double stepVolts) {
    Objects.checkFromIndexSize(offset, count, levels.length);
    Objects.checkFromIndexSize(offset, count, volts.length);
    System.arraycopy(levels, offset, volts, offset, count);
    if (bits() > 0) {
      convert(volts, offset, count);
    }
    for (int i = offset; i < offset + count; i++) {
      volts[i] = zeroVolts + volts[i] * stepVolts;
    }
  }

  /**
   * Whether the converter changes nothing at all.
   *
   * @return true for infinite resolution
   */
  default boolean isIdeal() {
    return bits() == 0;
  }

  /**
   * The code at the low end of the range.
   *
   * @return -2<sup>bits-1</sup>; 0 for infinite resolution
   */
  default int lowestCode() {
    return bits() == 0 ? 0 : -(1 << (bits() - 1));
  }

  /**
   * The code at the high end of the range.
   *
   * @return 2<sup>bits-1</sup> - 1; 0 for infinite resolution
   */
  default int highestCode() {
    return bits() == 0 ? 0 : (1 << (bits() - 1)) - 1;
  }

  /**
   * Where the range ends below: half a step under the lowest code, beyond which a sample counts as
   * clipped.
   *
   * @return level in steps; the lowest code - 1/2 unless overridden
   */
  default double lowestLevel() {
    return lowestCode() - 0.5;
  }

  /**
   * Where the range ends above: half a step over the highest code, beyond which a sample counts as
   * clipped.
   *
   * @return level in steps; the highest code + 1/2 unless overridden
   */
  default double highestLevel() {
    return highestCode() + 0.5;
  }
}
