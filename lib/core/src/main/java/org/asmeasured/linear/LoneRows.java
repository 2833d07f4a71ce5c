package org.asmeasured.linear;

/**
 * The row pair of a lone pole: real part and negative imaginary part of e^{p t} at the instants of
 * one block.
 *
 * <p>Every entry is the product of that of the greatest power of two below its number and that of
 * the rest, and the powers of two are those of {@link PoleSteps}. So the rounding of an entry stays
 * below 4e-14 of it beside that of the angle itself.
 */
final class LoneRows {
  /** What lies below e to this power could only slow the sums down, as a subnormal number. */
  private static final double LEAST_EXPONENT = -650;

  private LoneRows() {}

  /**
   * The rows; of a real pole the second is empty.
   *
   * @param re 1/s
   * @param im rad/s
   * @param samples how many of the block are wanted; the others are zero
   * @param length of the rows, above 0 and not below {@code samples}
   */
  static double[][] of(double re, double im, double rateHz, int samples, int length) {
    double[] cos = new double[length];
    double[] sin = new double[im == 0 ? 0 : length];
    cos[0] = 1;
    int last = last(re, rateHz, samples);
    int bits = PoleSteps.bits(Math.max(0, last - 1));
    PoleSteps steps = new PoleSteps(re, im, 1 / rateHz, bits);
    for (int k = 0; k < bits; k++) {
      int power = 1 << k;
      int end = Math.min(last, 2 * power);
      if (im == 0) {
        decaying(cos, steps.powerRe(k), power, end);
      } else {
        turning(cos, sin, steps.powerRe(k), -steps.powerIm(k), power, end);
      }
    }
    return new double[][] {cos, sin};
  }

  /** How many of so many samples come before the subnormal ones. */
  static int last(double growth, double rateHz, int samples) {
    return growth == 0 ? samples : (int) Math.min(samples, 1 + LEAST_EXPONENT * rateHz / growth);
  }

  private static void decaying(double[] row, double factor, int power, int end) {
    for (int j = power; j < end; j++) {
      row[j] = row[j - power] * factor;
    }
  }

  /** Numbers {@code power} to {@code end} as those from 0 on, turned further. */
  static void turning(
      double[] re, double[] im, double factorRe, double factorIm, int power, int end) {
    for (int j = power; j < end; j++) {
      double a = re[j - power];
      double b = im[j - power];
      re[j] = a * factorRe - b * factorIm;
      im[j] = a * factorIm + b * factorRe;
    }
  }
}
