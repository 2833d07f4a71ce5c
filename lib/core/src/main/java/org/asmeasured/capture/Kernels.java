package org.asmeasured.capture;

/**
 * Loops over a block. Each is a method of its own: several of them inlined into one another stop
 * running on vectors.
 */
final class Kernels {
  /** Beside it numbers have no binary places left, and whole ones differ by one in the last. */
  private static final double ROUNDER = 0x1.8p52;

  private static final long ROUNDER_BITS = Double.doubleToRawLongBits(ROUNDER);

  private Kernels() {}

  static void affine(double[] volts, int count, double gain, double shift) {
    for (int i = 0; i < count; i++) {
      volts[i] = volts[i] * gain + shift;
    }
  }

  static void add(double[] terms, double[] volts, int count) {
    for (int i = 0; i < count; i++) {
      volts[i] += terms[i];
    }
  }

  /** Volts to levels of the converter, with the errors of the vertical scale ahead of it. */
  static void levels(
      double[] volts, int count, double gain, double shift, double offset, double levelsPerVolt) {
    for (int i = 0; i < count; i++) {
      volts[i] = ((volts[i] * gain + shift) - offset) * levelsPerVolt;
    }
  }

  /** The same with noise after the errors of the vertical scale. */
  static void noisyLevels(
      double[] volts,
      double[] deviates,
      double sigma,
      int count,
      double gain,
      double shift,
      double offset,
      double levelsPerVolt) {
    for (int i = 0; i < count; i++) {
      volts[i] = (((volts[i] * gain + shift) + sigma * deviates[i]) - offset) * levelsPerVolt;
    }
  }

  static void volts(double[] codes, int count, double offset, double step) {
    for (int i = 0; i < count; i++) {
      codes[i] = offset + codes[i] * step;
    }
  }

  /**
   * How far the farthest level lies from the middle, in one pass; NaN or infinite if one level is
   * not finite. Four are followed side by side, which need not wait for one another.
   */
  static double farthest(double[] levels, int count, double middle) {
    double a = 0;
    double b = 0;
    double c = 0;
    double d = 0;
    double sum = 0;
    double sums = 0;
    int i = 0;
    for (; i + 3 < count; i += 4) {
      double w = Math.abs(levels[i] - middle);
      double x = Math.abs(levels[i + 1] - middle);
      double y = Math.abs(levels[i + 2] - middle);
      double z = Math.abs(levels[i + 3] - middle);
      a = w > a ? w : a;
      b = x > b ? x : b;
      c = y > c ? y : c;
      d = z > d ? z : d;
      sum += w + x;
      sums += y + z;
    }
    for (; i < count; i++) {
      double w = Math.abs(levels[i] - middle);
      a = w > a ? w : a;
      sum += w;
    }
    // a comparison passes over what is not a number; a sum does not
    return sum + sums <= Double.MAX_VALUE ? Math.max(Math.max(a, b), Math.max(c, d)) : Double.NaN;
  }

  static long below(double[] levels, int count, double edge) {
    int found = 0;
    for (int i = 0; i < count; i++) {
      if (levels[i] < edge) {
        found++;
      }
    }
    return found;
  }

  static long above(double[] levels, int count, double edge) {
    int found = 0;
    for (int i = 0; i < count; i++) {
      if (levels[i] > edge) {
        found++;
      }
    }
    return found;
  }

  /** Scaled to the stored step, a tie to the even code, at most the stored range; in place. */
  static void rescale(double[] levels, int count, double storedPerLevel, double low, double high) {
    for (int i = 0; i < count; i++) {
      levels[i] = Math.min(high, Math.max(low, Math.rint(levels[i] * storedPerLevel)));
    }
  }

  /** Apart from the rounding, which runs on vectors, as this does not. */
  static void store(double[] codes, int count, int[] out, int at) {
    for (int i = 0; i < count; i++) {
      out[at + i] = (int) codes[i];
    }
  }

  /**
   * Levels to the nearest code, a tie to the even one, as an ideal converter rounds within its
   * range: one and a half times 2^52 is added, so that what is no whole number is rounded away, and
   * the code stands in the last 32 bits, which are zero without it. No level outside the range, and
   * none that is not a number, has bits that differ from those of the lowest code by less than
   * 2^bits.
   *
   * @return the least and the greatest code; null if a level lies outside the range, and then what
   *     was stored means nothing
   */
  static CodeRange roundWithin(double[] levels, int count, int[] out, int at, int low, int bits) {
    long least = Long.MAX_VALUE;
    long greatest = Long.MIN_VALUE;
    for (int i = 0; i < count; i++) {
      long k = Double.doubleToRawLongBits(levels[i] + ROUNDER);
      out[at + i] = (int) k;
      least = Math.min(least, k);
      greatest = Math.max(greatest, k);
    }
    long lowest = ROUNDER_BITS + low;
    return (least - lowest | greatest - lowest) >>> bits == 0
        ? new CodeRange((int) least, (int) greatest)
        : null;
  }

  /**
   * What leaves the reducer lies within the converter's codes, if converter and decimation keep
   * their contracts.
   */
  static void checkCodes(double[] levels, int count, Setup setup) {
    double low = setup.converter().lowestCode();
    double high = setup.converter().highestCode();
    for (int i = 0; i < count; i++) {
      if (!(levels[i] >= low && levels[i] <= high)) {
        throw new IllegalStateException(
            setup.converter()
                + ", "
                + setup.decimation()
                + ": gave "
                + levels[i]
                + ", which is no code from "
                + low
                + " to "
                + high);
      }
    }
  }

  static void checkFinite(double[] volts, int count, Setup setup) {
    for (int i = 0; i < count; i++) {
      if (!(Math.abs(volts[i]) <= Double.MAX_VALUE)) {
        throw new IllegalStateException(
            setup.frontEnd() + ", " + setup.decimation() + ": gave " + volts[i] + " V");
      }
    }
  }
}
