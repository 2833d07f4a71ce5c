package org.asmeasured.capture;

/**
 * Loops over a block. Each is a method of its own: several of them inlined into one another stop
 * running on vectors.
 */
final class Kernels {
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

  static void levels(double[] volts, int count, double offset, double levelsPerVolt) {
    for (int i = 0; i < count; i++) {
      volts[i] = (volts[i] - offset) * levelsPerVolt;
    }
  }

  static void volts(double[] codes, int count, double offset, double step) {
    for (int i = 0; i < count; i++) {
      codes[i] = offset + codes[i] * step;
    }
  }

  /** Whether a level lies outside the edges: told in one pass, where there is nothing to count. */
  static boolean anyOutside(double[] levels, int count, double low, double high) {
    boolean any = false;
    for (int i = 0; i < count; i++) {
      any |= levels[i] < low | levels[i] > high;
    }
    return any;
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
