package org.asmeasured.linear;

/**
 * The loops of a {@link StreamFilter}. Several sections run side by side, so that they wait for
 * their results together; more than these would not find room in registers.
 */
final class StreamKernels {
  private StreamKernels() {}

  /**
   * Four sections from {@code p} on: y[j] += c w + d w_before, then w_next = a w + b w_before +
   * u[j].
   */
  static void pairs4(Sections s, int p, double[] u, double[] y, int from, int to) {
    double a0 = s.a[p];
    double b0 = s.b[p];
    double c0 = s.c[p];
    double d0 = s.d[p];
    double x0 = s.now[p];
    double y0 = s.before[p];
    double a1 = s.a[p + 1];
    double b1 = s.b[p + 1];
    double c1 = s.c[p + 1];
    double d1 = s.d[p + 1];
    double x1 = s.now[p + 1];
    double y1 = s.before[p + 1];
    double a2 = s.a[p + 2];
    double b2 = s.b[p + 2];
    double c2 = s.c[p + 2];
    double d2 = s.d[p + 2];
    double x2 = s.now[p + 2];
    double y2 = s.before[p + 2];
    double a3 = s.a[p + 3];
    double b3 = s.b[p + 3];
    double c3 = s.c[p + 3];
    double d3 = s.d[p + 3];
    double x3 = s.now[p + 3];
    double y3 = s.before[p + 3];
    for (int j = from; j < to; j++) {
      double v = u[j];
      y[j] +=
          (Math.fma(c0, x0, d0 * y0) + Math.fma(c1, x1, d1 * y1))
              + (Math.fma(c2, x2, d2 * y2) + Math.fma(c3, x3, d3 * y3));
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
    }
    s.now[p] = x0;
    s.before[p] = y0;
    s.now[p + 1] = x1;
    s.before[p + 1] = y1;
    s.now[p + 2] = x2;
    s.before[p + 2] = y2;
    s.now[p + 3] = x3;
    s.before[p + 3] = y3;
  }

  /** Two of them. */
  static void pairs2(Sections s, int p, double[] u, double[] y, int from, int to) {
    double a0 = s.a[p];
    double b0 = s.b[p];
    double c0 = s.c[p];
    double d0 = s.d[p];
    double x0 = s.now[p];
    double y0 = s.before[p];
    double a1 = s.a[p + 1];
    double b1 = s.b[p + 1];
    double c1 = s.c[p + 1];
    double d1 = s.d[p + 1];
    double x1 = s.now[p + 1];
    double y1 = s.before[p + 1];
    for (int j = from; j < to; j++) {
      double v = u[j];
      y[j] += Math.fma(c0, x0, d0 * y0) + Math.fma(c1, x1, d1 * y1);
      double n0 = Math.fma(a0, x0, Math.fma(b0, y0, v));
      double n1 = Math.fma(a1, x1, Math.fma(b1, y1, v));
      y0 = x0;
      x0 = n0;
      y1 = x1;
      x1 = n1;
    }
    s.now[p] = x0;
    s.before[p] = y0;
    s.now[p + 1] = x1;
    s.before[p + 1] = y1;
  }

  /**
   * Three of them from {@code p} on, and two of first order from {@code r} on: y[j] += c w, then
   * w_next = a w + u[j].
   */
  static void pairs3Reals2(Sections s, int p, int r, double[] u, double[] y, int from, int to) {
    double a0 = s.a[p];
    double b0 = s.b[p];
    double c0 = s.c[p];
    double d0 = s.d[p];
    double x0 = s.now[p];
    double y0 = s.before[p];
    double a1 = s.a[p + 1];
    double b1 = s.b[p + 1];
    double c1 = s.c[p + 1];
    double d1 = s.d[p + 1];
    double x1 = s.now[p + 1];
    double y1 = s.before[p + 1];
    double a2 = s.a[p + 2];
    double b2 = s.b[p + 2];
    double c2 = s.c[p + 2];
    double d2 = s.d[p + 2];
    double x2 = s.now[p + 2];
    double y2 = s.before[p + 2];
    double e0 = s.a[r];
    double g0 = s.c[r];
    double z0 = s.now[r];
    double e1 = s.a[r + 1];
    double g1 = s.c[r + 1];
    double z1 = s.now[r + 1];
    for (int j = from; j < to; j++) {
      double v = u[j];
      y[j] +=
          (Math.fma(c0, x0, d0 * y0) + Math.fma(c1, x1, d1 * y1))
              + (Math.fma(c2, x2, d2 * y2) + Math.fma(g0, z0, g1 * z1));
      double n0 = Math.fma(a0, x0, Math.fma(b0, y0, v));
      double n1 = Math.fma(a1, x1, Math.fma(b1, y1, v));
      double n2 = Math.fma(a2, x2, Math.fma(b2, y2, v));
      y0 = x0;
      x0 = n0;
      y1 = x1;
      x1 = n1;
      y2 = x2;
      x2 = n2;
      z0 = Math.fma(e0, z0, v);
      z1 = Math.fma(e1, z1, v);
    }
    s.now[p] = x0;
    s.before[p] = y0;
    s.now[p + 1] = x1;
    s.before[p + 1] = y1;
    s.now[p + 2] = x2;
    s.before[p + 2] = y2;
    s.now[r] = z0;
    s.now[r + 1] = z1;
  }

  /** Two of first order. */
  static void reals2(Sections s, int r, double[] u, double[] y, int from, int to) {
    double e0 = s.a[r];
    double g0 = s.c[r];
    double z0 = s.now[r];
    double e1 = s.a[r + 1];
    double g1 = s.c[r + 1];
    double z1 = s.now[r + 1];
    for (int j = from; j < to; j++) {
      double v = u[j];
      y[j] += Math.fma(g0, z0, g1 * z1);
      z0 = Math.fma(e0, z0, v);
      z1 = Math.fma(e1, z1, v);
    }
    s.now[r] = z0;
    s.now[r + 1] = z1;
  }

  /** y[j] += c u[j]. */
  static void addInput(double c, double[] u, double[] y, int from, int to) {
    for (int j = from; j < to; j++) {
      y[j] = Math.fma(c, u[j], y[j]);
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
