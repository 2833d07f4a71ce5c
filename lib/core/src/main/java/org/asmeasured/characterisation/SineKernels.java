package org.asmeasured.characterisation;

/**
 * The loops of the sine fit. Each works on the same index of every array, so that the compiler
 * makes vector code of it; nothing is reduced to one number in a loop, because sums in a fixed
 * order are not vectorised: place j of every block is added to place j of the totals.
 */
final class SineKernels {
  private SineKernels() {}

  /** x[j] = y[offset + j]. */
  static void load(double[] y, int offset, double[] x, int count) {
    System.arraycopy(y, offset, x, 0, count);
  }

  /** x[j] -= level + p cosine[j] + q sine[j]: what is left of a block. */
  static void residual(
      double[] x, double[] cosine, double[] sine, double level, double p, double q, int count) {
    for (int j = 0; j < count; j++) {
      x[j] = Math.fma(-p, cosine[j], Math.fma(-q, sine[j], x[j] - level));
    }
  }

  /** plain[j] += x[j], square[j] += x[j]^2. */
  static void addPlain(double[] x, double[] plain, double[] square, int count) {
    for (int j = 0; j < count; j++) {
      double r = x[j];
      plain[j] += r;
      square[j] = Math.fma(r, r, square[j]);
    }
  }

  /**
   * The block's residual, turned by the phase at its start, once plain and once times its place.
   */
  static void addTurned(
      double[] x,
      double[] real,
      double[] imaginary,
      double[] placedReal,
      double[] placedImaginary,
      double cosine,
      double sine,
      double place,
      int count) {
    double placedCosine = place * cosine;
    double placedSine = place * sine;
    for (int j = 0; j < count; j++) {
      double r = x[j];
      real[j] = Math.fma(r, cosine, real[j]);
      imaginary[j] = Math.fma(r, sine, imaginary[j]);
      placedReal[j] = Math.fma(r, placedCosine, placedReal[j]);
      placedImaginary[j] = Math.fma(r, placedSine, placedImaginary[j]);
    }
  }

  /** y[i] = (y[i] - centre) scale. */
  static void normalise(double[] y, double centre, double scale) {
    for (int i = 0; i < y.length; i++) {
      y[i] = (y[i] - centre) * scale;
    }
  }

  /** A sum of consecutive values, in four strands. */
  static double sum(double[] y, int from, int count) {
    double s0 = 0;
    double s1 = 0;
    double s2 = 0;
    double s3 = 0;
    int i = from;
    int end = from + count;
    for (; i + 3 < end; i += 4) {
      s0 += y[i];
      s1 += y[i + 1];
      s2 += y[i + 2];
      s3 += y[i + 3];
    }
    for (; i < end; i++) {
      s0 += y[i];
    }
    return (s0 + s1) + (s2 + s3);
  }
}
