package org.asmeasured.linear;

/**
 * e^{p h n} of one pole for whole n, from its powers of two: an exponential for every seventh of
 * them, squares in between, and one product for each bit of n that is set. For n of seven bits it
 * is so within 2e-14 of itself beside the rounding of the angle, and each further seven bits add as
 * much.
 */
final class PoleSteps {
  private static final int SQUARES = 7;

  private final double[] powerRe;
  private final double[] powerIm;
  private double re;
  private double im;

  /**
   * Prepares the powers.
   *
   * @param poleRe 1/s
   * @param poleIm rad/s
   * @param stepSeconds h
   * @param bits how many bits n may have, up to 31
   */
  PoleSteps(double poleRe, double poleIm, double stepSeconds, int bits) {
    powerRe = new double[bits];
    powerIm = new double[bits];
    for (int k = 0; k < bits; k++) {
      if (k % SQUARES == 0) {
        double t = stepSeconds * (1 << k);
        double e = Math.exp(poleRe * t);
        powerRe[k] = e * Math.cos(poleIm * t);
        powerIm[k] = poleIm == 0 ? 0 : e * Math.sin(poleIm * t);
      } else {
        double a = powerRe[k - 1];
        double b = powerIm[k - 1];
        powerRe[k] = (a - b) * (a + b);
        powerIm[k] = 2 * a * b;
      }
    }
  }

  /** How many bits a whole number has. */
  static int bits(int most) {
    return Integer.SIZE - Integer.numberOfLeadingZeros(most);
  }

  /** Taylor's coefficients of e^{p x} about 0, p^n/n!, as many as there are places. */
  static void taylor(double pRe, double pIm, double[] re, double[] im) {
    re[0] = 1;
    for (int n = 1; n < re.length; n++) {
      re[n] = (re[n - 1] * pRe - im[n - 1] * pIm) * Piece.RECIPROCAL[n];
      im[n] = (re[n - 1] * pIm + im[n - 1] * pRe) * Piece.RECIPROCAL[n];
    }
  }

  /** Real part for n = 2^k. */
  double powerRe(int k) {
    return powerRe[k];
  }

  /** Imaginary part for n = 2^k. */
  double powerIm(int k) {
    return powerIm[k];
  }

  /** Works out {@link #re} and {@link #im}, for n of no more bits than said. */
  void at(int n) {
    double a = 1;
    double b = 0;
    for (int rest = n; rest != 0; rest &= rest - 1) {
      int k = Integer.numberOfTrailingZeros(rest);
      double r = a * powerRe[k] - b * powerIm[k];
      b = a * powerIm[k] + b * powerRe[k];
      a = r;
    }
    re = a;
    im = b;
  }

  /** Real part for the last n. */
  double re() {
    return re;
  }

  /** Imaginary part for the last n. */
  double im() {
    return im;
  }
}
