package org.asmeasured.characterisation;

/**
 * How values were brought to within 1 of their middle, by a power of two: so squares neither
 * overflow nor vanish, and a small ripple on a large level keeps its digits.
 *
 * @param centre what was taken away
 * @param unit what the rest was divided by; 0 if all values are equal
 */
record Normalised(double centre, double unit) {
  /** 2^1000 still is a number, and lifts the smallest one to where squares are. */
  private static final int MOST = 1000;

  static Normalised inPlace(double[] values) {
    double low = Double.POSITIVE_INFINITY;
    double high = Double.NEGATIVE_INFINITY;
    for (double v : values) {
      low = Math.min(low, v);
      high = Math.max(high, v);
    }
    if (low == high) {
      return new Normalised(low, 0);
    }
    double centre = low / 2 + high / 2;
    double reach = Math.max(high - centre, centre - low);
    int exponent = Math.max(-MOST, Math.getExponent(reach) + 1);
    SineKernels.normalise(values, centre, Math.scalb(1.0, -exponent));
    return new Normalised(centre, Math.scalb(1.0, exponent));
  }
}
