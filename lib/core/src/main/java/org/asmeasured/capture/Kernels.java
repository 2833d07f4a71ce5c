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
   * The same with a look at what is stored, four side by side.
   *
   * @return whether all are numbers, and within the range without touching its ends
   */
  static boolean storeWithin(double[] codes, int count, int[] out, int at, int low, int high) {
    int least = low + 1;
    int greatest = high - 1;
    int signs = 0;
    double a = 0;
    double b = 0;
    int i = 0;
    for (; i + 3 < count; i += 4) {
      double w = codes[i];
      double x = codes[i + 1];
      double y = codes[i + 2];
      double z = codes[i + 3];
      int k = (int) w;
      int l = (int) x;
      int m = (int) y;
      int n = (int) z;
      out[at + i] = k;
      out[at + i + 1] = l;
      out[at + i + 2] = m;
      out[at + i + 3] = n;
      signs |= (k - least) | (greatest - k) | (l - least) | (greatest - l);
      signs |= (m - least) | (greatest - m) | (n - least) | (greatest - n);
      // what is not a number would be stored as zero, and shows in the sum alone
      a += w + x;
      b += y + z;
    }
    for (; i < count; i++) {
      int k = (int) codes[i];
      out[at + i] = k;
      signs |= (k - least) | (greatest - k);
      a += codes[i];
    }
    return signs >= 0 && a + b <= Double.MAX_VALUE;
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
