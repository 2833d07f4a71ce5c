package org.asmeasured.linear;

/**
 * The loops that make the samples. Each works on the same index of every array, at most four rows a
 * pass, which is what the compiler turns into vector code; the methods are long on purpose, since
 * several such loops inlined into one method stop being vectorised.
 */
final class Kernels {
  /** How many sums of squares there are. */
  static final int SQUARES = 512;

  private Kernels() {}

  /**
   * s[j] = c + sum of amplitude_i row_i[j] over from <= j < to. Rows stand in order of how long
   * they last; beyond {@code until} a row no longer counts.
   */
  static void sum(
      double[][] rows,
      double[] amplitudes,
      int[] until,
      int count,
      double c,
      double[] s,
      int from,
      int to) {
    int i = count & 3;
    switch (i) {
      case 1 -> {
        double a0 = amplitudes[0];
        double[] r0 = rows[0];
        for (int j = from; j < to; j++) {
          s[j] = Math.fma(a0, r0[j], c);
        }
      }
      case 2 -> {
        double a0 = amplitudes[0];
        double a1 = amplitudes[1];
        double[] r0 = rows[0];
        double[] r1 = rows[1];
        for (int j = from; j < to; j++) {
          s[j] = Math.fma(a0, r0[j], Math.fma(a1, r1[j], c));
        }
      }
      case 3 -> {
        double a0 = amplitudes[0];
        double a1 = amplitudes[1];
        double a2 = amplitudes[2];
        double[] r0 = rows[0];
        double[] r1 = rows[1];
        double[] r2 = rows[2];
        for (int j = from; j < to; j++) {
          s[j] = Math.fma(a0, r0[j], Math.fma(a1, r1[j], Math.fma(a2, r2[j], c)));
        }
      }
      default -> {
        if (count == 0) {
          java.util.Arrays.fill(s, from, to, c);
          return;
        }
        double a0 = amplitudes[0];
        double a1 = amplitudes[1];
        double a2 = amplitudes[2];
        double a3 = amplitudes[3];
        double[] r0 = rows[0];
        double[] r1 = rows[1];
        double[] r2 = rows[2];
        double[] r3 = rows[3];
        for (int j = from; j < to; j++) {
          s[j] = Math.fma(a0, r0[j], Math.fma(a1, r1[j], c)) + Math.fma(a2, r2[j], a3 * r3[j]);
        }
        i = 4;
      }
    }
    for (; i < count; i += 4) {
      double a0 = amplitudes[i];
      double a1 = amplitudes[i + 1];
      double a2 = amplitudes[i + 2];
      double a3 = amplitudes[i + 3];
      double[] r0 = rows[i];
      double[] r1 = rows[i + 1];
      double[] r2 = rows[i + 2];
      double[] r3 = rows[i + 3];
      int end = Math.min(to, until[i]);
      for (int j = from; j < end; j++) {
        s[j] =
            Math.fma(
                a0, r0[j], Math.fma(a1, r1[j], Math.fma(a2, r2[j], Math.fma(a3, r3[j], s[j]))));
      }
    }
  }

  /** s[j] += polynomial of degree 7 in x = start + step j over from <= j < to. */
  static void addPolynomial(
      double[] p, double start, double step, double[] ramp, double[] s, int from, int to) {
    double p0 = p[0];
    double p1 = p[1];
    double p2 = p[2];
    double p3 = p[3];
    double p4 = p[4];
    double p5 = p[5];
    double p6 = p[6];
    double p7 = p[7];
    for (int j = from; j < to; j++) {
      double x = Math.fma(step, ramp[j], start);
      double high = Math.fma(Math.fma(Math.fma(p7, x, p6), x, p5), x, p4);
      s[j] += Math.fma(Math.fma(Math.fma(Math.fma(high, x, p3), x, p2), x, p1), x, p0);
    }
  }

  /**
   * s[j] = constant + sum over i of row_i[j] p_i(x[j]), over from <= j < to: two rows with
   * polynomials of degree 4, two rows and the constant with straight lines. In this order of the
   * sums it becomes vector code; with a polynomial of sums of rows, or with four polynomials of
   * degree 4, it does not.
   */
  static void taylor(
      double[] high0,
      double[] h0,
      double[] high1,
      double[] h1,
      double[] low0,
      double[] low1,
      double[] low,
      double[] x,
      double[] s,
      int from,
      int to) {
    double a0 = h0[0];
    double a1 = h0[1];
    double a2 = h0[2];
    double a3 = h0[3];
    double a4 = h0[4];
    double b0 = h1[0];
    double b1 = h1[1];
    double b2 = h1[2];
    double b3 = h1[3];
    double b4 = h1[4];
    double c0 = low[0];
    double c1 = low[1];
    double d0 = low[2];
    double d1 = low[3];
    double e0 = low[4];
    double e1 = low[5];
    for (int j = from; j < to; j++) {
      double d = x[j];
      double p = Math.fma(Math.fma(Math.fma(Math.fma(a4, d, a3), d, a2), d, a1), d, a0);
      double q = Math.fma(Math.fma(Math.fma(Math.fma(b4, d, b3), d, b2), d, b1), d, b0);
      double u = Math.fma(c1, d, c0);
      double v = Math.fma(d1, d, d0);
      double w = Math.fma(e1, d, e0);
      s[j] =
          Math.fma(
              p, high0[j], Math.fma(q, high1[j], Math.fma(u, low0[j], Math.fma(v, low1[j], w))));
    }
  }

  /** s[j] *= factor over 0 <= j < count. */
  static void scale(double[] s, double factor, int count) {
    for (int j = 0; j < count; j++) {
      s[j] *= factor;
    }
  }

  /** sums[j] = sum of the squares of every 512th number from the j-th on, of 2048. */
  static void squares(double[] s, double[] sums) {
    for (int j = 0; j < SQUARES; j++) {
      double a = s[j];
      double b = s[j + SQUARES];
      double c = s[j + 2 * SQUARES];
      double d = s[j + 3 * SQUARES];
      sums[j] = a * a + b * b + c * c + d * d;
    }
  }

  /** s[j] += x[j] high[j] over from <= j < to: one step of Horner's rule. */
  static void horner(double[] high, double[] x, double[] s, int from, int to) {
    for (int j = from; j < to; j++) {
      s[j] = Math.fma(high[j], x[j], s[j]);
    }
  }

  /** out[offset + j - from] += s[j]. */
  static void add(double[] s, int from, int to, double[] out, int offset) {
    for (int j = from; j < to; j++) {
      out[offset + j - from] += s[j];
    }
  }
}
