package org.asmeasured.linear;

/**
 * The loops of a {@link StreamFilter}: recurrences of several sections side by side, so that they
 * wait for their results together; and sums, which run on vectors.
 */
final class StreamKernels {
  private StreamKernels() {}

  /** w[j+2] = a w[j+1] + b w[j] + u[j] for two sections, from <= j < to. */
  static void recur2(double[] u, double[][] w, double[] a, double[] b, int i, int from, int to) {
    double[] w0 = w[i];
    double[] w1 = w[i + 1];
    double a0 = a[i];
    double a1 = a[i + 1];
    double b0 = b[i];
    double b1 = b[i + 1];
    double x0 = w0[from + 1];
    double x1 = w1[from + 1];
    double y0 = w0[from];
    double y1 = w1[from];
    for (int j = from; j < to; j++) {
      double v = u[j];
      double n0 = Math.fma(a0, x0, Math.fma(b0, y0, v));
      double n1 = Math.fma(a1, x1, Math.fma(b1, y1, v));
      y0 = x0;
      x0 = n0;
      y1 = x1;
      x1 = n1;
      w0[j + 2] = n0;
      w1[j + 2] = n1;
    }
  }

  /** The same for four. */
  static void recur4(double[] u, double[][] w, double[] a, double[] b, int i, int from, int to) {
    double[] w0 = w[i];
    double[] w1 = w[i + 1];
    double[] w2 = w[i + 2];
    double[] w3 = w[i + 3];
    double a0 = a[i];
    double a1 = a[i + 1];
    double a2 = a[i + 2];
    double a3 = a[i + 3];
    double b0 = b[i];
    double b1 = b[i + 1];
    double b2 = b[i + 2];
    double b3 = b[i + 3];
    double x0 = w0[from + 1];
    double x1 = w1[from + 1];
    double x2 = w2[from + 1];
    double x3 = w3[from + 1];
    double y0 = w0[from];
    double y1 = w1[from];
    double y2 = w2[from];
    double y3 = w3[from];
    for (int j = from; j < to; j++) {
      double v = u[j];
      double n0 = Math.fma(a0, x0, Math.fma(b0, y0, v));
      double n1 = Math.fma(a1, x1, Math.fma(b1, y1, v));
      double n2 = Math.fma(a2, x2, Math.fma(b2, y2, v));
      double n3 = Math.fma(a3, x3, Math.fma(b3, y3, v));
      y0 = x0;
      x0 = n0;
      y1 = x1;
      x1 = n1;
      y2 = x2;
      x2 = n2;
      y3 = x3;
      x3 = n3;
      w0[j + 2] = n0;
      w1[j + 2] = n1;
      w2[j + 2] = n2;
      w3[j + 2] = n3;
    }
  }

  /** The same for six. */
  static void recur6(double[] u, double[][] w, double[] a, double[] b, int i, int from, int to) {
    double[] w0 = w[i];
    double[] w1 = w[i + 1];
    double[] w2 = w[i + 2];
    double[] w3 = w[i + 3];
    double[] w4 = w[i + 4];
    double[] w5 = w[i + 5];
    double a0 = a[i];
    double a1 = a[i + 1];
    double a2 = a[i + 2];
    double a3 = a[i + 3];
    double a4 = a[i + 4];
    double a5 = a[i + 5];
    double b0 = b[i];
    double b1 = b[i + 1];
    double b2 = b[i + 2];
    double b3 = b[i + 3];
    double b4 = b[i + 4];
    double b5 = b[i + 5];
    double x0 = w0[from + 1];
    double x1 = w1[from + 1];
    double x2 = w2[from + 1];
    double x3 = w3[from + 1];
    double x4 = w4[from + 1];
    double x5 = w5[from + 1];
    double y0 = w0[from];
    double y1 = w1[from];
    double y2 = w2[from];
    double y3 = w3[from];
    double y4 = w4[from];
    double y5 = w5[from];
    for (int j = from; j < to; j++) {
      double v = u[j];
      double n0 = Math.fma(a0, x0, Math.fma(b0, y0, v));
      double n1 = Math.fma(a1, x1, Math.fma(b1, y1, v));
      double n2 = Math.fma(a2, x2, Math.fma(b2, y2, v));
      double n3 = Math.fma(a3, x3, Math.fma(b3, y3, v));
      double n4 = Math.fma(a4, x4, Math.fma(b4, y4, v));
      double n5 = Math.fma(a5, x5, Math.fma(b5, y5, v));
      y0 = x0;
      x0 = n0;
      y1 = x1;
      x1 = n1;
      y2 = x2;
      x2 = n2;
      y3 = x3;
      x3 = n3;
      y4 = x4;
      x4 = n4;
      y5 = x5;
      x5 = n5;
      w0[j + 2] = n0;
      w1[j + 2] = n1;
      w2[j + 2] = n2;
      w3[j + 2] = n3;
      w4[j + 2] = n4;
      w5[j + 2] = n5;
    }
  }

  /** y[j] += c u[j]. */
  static void addInput(double c, double[] u, double[] y, int from, int to) {
    for (int j = from; j < to; j++) {
      y[j] = Math.fma(c, u[j], y[j]);
    }
  }

  /** y[j] += c w[j+1] + d w[j] for two sections. */
  static void addSections(
      double[][] w, double[] c, double[] d, int i, double[] y, int from, int to) {
    double[] w0 = w[i];
    double[] w1 = w[i + 1];
    double c0 = c[i];
    double c1 = c[i + 1];
    double d0 = d[i];
    double d1 = d[i + 1];
    for (int j = from; j < to; j++) {
      y[j] += Math.fma(c0, w0[j + 1], d0 * w0[j]) + Math.fma(c1, w1[j + 1], d1 * w1[j]);
    }
  }

  /** A complex mode on its own from the state in {@code d}: y[j] += Re d, then d = e d + g u[j]. */
  static void addLone(
      double eRe,
      double eIm,
      double gRe,
      double gIm,
      double[] d,
      double[] u,
      double[] y,
      int from,
      int to) {
    double re = d[0];
    double im = d[1];
    for (int j = from; j < to; j++) {
      y[j] += re;
      double n = Math.fma(eRe, re, Math.fma(-eIm, im, gRe * u[j]));
      im = Math.fma(eRe, im, Math.fma(eIm, re, gIm * u[j]));
      re = n;
    }
    d[0] = re;
    d[1] = im;
  }

  /** The same for a chain; the real parts of its states come first in {@code d}. */
  static void addChain(
      double[] eRe,
      double[] eIm,
      double[] gRe,
      double[] gIm,
      double[] d,
      double[] u,
      double[] y,
      int from,
      int to) {
    int m = gRe.length;
    for (int j = from; j < to; j++) {
      y[j] += d[0];
      // row i needs the states from i on only, and they are still the old ones
      for (int i = 0; i < m; i++) {
        double re = gRe[i] * u[j];
        double im = gIm[i] * u[j];
        for (int k = i; k < m; k++) {
          double r = eRe[i * m + k];
          double q = eIm[i * m + k];
          re = Math.fma(r, d[k], Math.fma(-q, d[m + k], re));
          im = Math.fma(r, d[m + k], Math.fma(q, d[k], im));
        }
        d[i] = re;
        d[m + i] = im;
      }
    }
  }
}
