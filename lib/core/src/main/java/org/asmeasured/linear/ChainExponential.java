package org.asmeasured.linear;

/**
 * The exponential of a chain, {@code E = exp(J t)} with J upper bidiagonal: entry (i, j) is {@code
 * scale^(j-i)} times the divided difference of e^{p t} over p_i .. p_j, computed without
 * differences (A. McCurdy, K. Ng, B. Parlett, Mathematics of Computation 43 (1984) 501: Taylor's
 * series about the centre, scaling and squaring).
 */
final class ChainExponential {
  private final int m;
  private final double[] pRe;
  private final double[] pIm;
  private final double scale;
  private final double centreRe;
  private final double centreIm;
  private final double spread;

  /** Row-major, upper triangle. */
  final double[] re;

  final double[] im;
  private final double[] workRe;
  private final double[] workIm;

  ChainExponential(double[] pRe, double[] pIm, double scale) {
    this.m = pRe.length;
    this.pRe = pRe;
    this.pIm = pIm;
    this.scale = scale;
    // about the slowest point, so that nothing underflows while any of it is alive
    double slowest = Double.NEGATIVE_INFINITY;
    double sumIm = 0;
    for (int i = 0; i < m; i++) {
      slowest = Math.max(slowest, pRe[i]);
      sumIm += pIm[i];
    }
    centreRe = slowest;
    centreIm = sumIm / m;
    double most = 0;
    for (int i = 0; i < m; i++) {
      most = Math.max(most, Math.hypot(pRe[i] - centreRe, pIm[i] - centreIm));
    }
    spread = most;
    re = new double[m * m];
    im = new double[m * m];
    workRe = new double[m * m];
    workIm = new double[m * m];
  }

  /** Evaluates E at t >= 0. */
  void at(double t) {
    double decay = Math.exp(centreRe * t);
    if (decay == 0 || t == Double.POSITIVE_INFINITY) {
      java.util.Arrays.fill(re, 0);
      java.util.Arrays.fill(im, 0);
      return;
    }
    int squarings = Math.max(0, Math.getExponent(spread * t) + 1);
    double step = Math.scalb(t, -squarings);
    taylor(step, centreRe, centreIm, true);
    for (int i = 0; i < squarings; i++) {
      square();
    }
    double c = decay * Math.cos(centreIm * t);
    double s = decay * Math.sin(centreIm * t);
    for (int i = 0; i < m * m; i++) {
      double x = re[i] * c - im[i] * s;
      im[i] = re[i] * s + im[i] * c;
      re[i] = x;
    }
  }

  /** Evaluates E - I at a t so small that |p| t is below one half: nothing cancels. */
  void lessIdentityAt(double t) {
    taylor(t, 0, 0, false);
  }

  /** sum over n of ((J - c) t)^n / n!, by Horner's rule: R = I + A R / n. */
  private void taylor(double t, double cRe, double cIm, boolean withIdentity) {
    int terms = 20 + m;
    java.util.Arrays.fill(re, 0);
    java.util.Arrays.fill(im, 0);
    for (int i = 0; i < m; i++) {
      re[i * m + i] = 1;
    }
    double off = scale * t;
    for (int n = terms; n >= 1; n--) {
      for (int i = 0; i < m; i++) {
        double dr = (pRe[i] - cRe) * t / n;
        double di = (pIm[i] - cIm) * t / n;
        double o = off / n;
        // row i of A R uses rows i and i + 1; row i + 1 is still the old one
        for (int j = i; j < m; j++) {
          double r = re[i * m + j];
          double q = im[i * m + j];
          double nr = r * dr - q * di;
          double ni = r * di + q * dr;
          if (i + 1 < m && j > i) {
            nr += o * re[(i + 1) * m + j];
            ni += o * im[(i + 1) * m + j];
          }
          re[i * m + j] = nr;
          im[i * m + j] = ni;
        }
      }
      if (n > 1 || withIdentity) {
        for (int i = 0; i < m; i++) {
          re[i * m + i] += 1;
        }
      }
    }
  }

  private void square() {
    System.arraycopy(re, 0, workRe, 0, m * m);
    System.arraycopy(im, 0, workIm, 0, m * m);
    for (int i = 0; i < m; i++) {
      for (int j = i; j < m; j++) {
        double sr = 0;
        double si = 0;
        for (int k = i; k <= j; k++) {
          double ar = workRe[i * m + k];
          double ai = workIm[i * m + k];
          double br = workRe[k * m + j];
          double bi = workIm[k * m + j];
          sr += ar * br - ai * bi;
          si += ar * bi + ai * br;
        }
        re[i * m + j] = sr;
        im[i * m + j] = si;
      }
    }
  }

  /** x = E x. */
  void apply(double[] xRe, double[] xIm, int from) {
    for (int i = 0; i < m; i++) {
      double sr = 0;
      double si = 0;
      for (int j = i; j < m; j++) {
        sr += re[i * m + j] * xRe[from + j] - im[i * m + j] * xIm[from + j];
        si += re[i * m + j] * xIm[from + j] + im[i * m + j] * xRe[from + j];
      }
      xRe[from + i] = sr;
      xIm[from + i] = si;
    }
  }
}
