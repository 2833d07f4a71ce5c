package org.asmeasured.linear;

import java.util.List;

/**
 * e^{p d} of all lone poles for d between 0 and 1 sample, from Taylor polynomials about 17 places:
 * an edge that falls between two samples costs a few multiplications instead of an exponential, a
 * sine and a cosine for each pole. The polynomials about a place are made when an edge first falls
 * there.
 */
final class EdgeTable {
  private static final int PER_SAMPLE = 16;

  /** Places, both ends included. */
  static final int PLACES = PER_SAMPLE + 1;

  /** Coefficients a polynomial. */
  static final int ORDER = 8;

  /** Reach of the polynomial: half a place, to 2e-13. */
  private static final double MAX_TURN = 3;

  private final int width;
  private final int[] offset;
  private final double[][] table = new double[PLACES][];

  /** Whether a pole is slow enough beside the rate to be served. */
  private final boolean[] serves;

  private final PoleSteps[] steps;
  private final double[][] powerRe;
  private final double[][] powerIm;
  private final double[] rateRe;
  private final double[] rateIm;

  EdgeTable(List<Cluster> lone, double rateHz) {
    int n = lone.size();
    offset = new int[n];
    serves = new boolean[n];
    steps = new PoleSteps[n];
    powerRe = new double[n][];
    powerIm = new double[n][];
    rateRe = new double[n];
    rateIm = new double[n];
    int w = 0;
    for (int q = 0; q < n; q++) {
      serves[q] = lone.get(q).fastest / rateHz <= MAX_TURN;
      offset[q] = w;
      if (serves[q]) {
        w += 2 * ORDER;
      }
    }
    width = w;
    for (int q = 0; q < n; q++) {
      rateRe[q] = lone.get(q).re[0] / rateHz;
      rateIm[q] = lone.get(q).im[0] / rateHz;
      if (serves[q]) {
        steps[q] =
            new PoleSteps(rateRe[q], rateIm[q], 1.0 / PER_SAMPLE, PoleSteps.bits(PER_SAMPLE));
        powerRe[q] = new double[ORDER];
        powerIm[q] = new double[ORDER];
        PoleSteps.taylor(rateRe[q], rateIm[q], powerRe[q], powerIm[q]);
      }
    }
  }

  private double[] at(int place) {
    double[] made = table[place];
    if (made == null) {
      made = new double[width];
      for (int q = 0; q < serves.length; q++) {
        if (serves[q]) {
          make(q, place, made, offset[q]);
        }
      }
      table[place] = made;
    }
    return made;
  }

  private void make(int q, int place, double[] into, int at) {
    steps[q].at(place);
    double re = steps[q].re();
    double im = steps[q].im();
    double[] pRe = powerRe[q];
    double[] pIm = powerIm[q];
    for (int m = 0; m < ORDER; m++) {
      into[at + m] = re * pRe[m] - im * pIm[m];
      into[at + ORDER + m] = re * pIm[m] + im * pRe[m];
    }
  }

  /** The place nearest to d. */
  static int place(double d) {
    return (int) (d * PER_SAMPLE + 0.5);
  }

  /** What is left of d beyond its place. */
  static double beyond(double d, int place) {
    return d - place * (1.0 / PER_SAMPLE);
  }

  /** Whether a pole's exponential is tabulated. */
  boolean serves(int q) {
    return serves[q];
  }

  /** The polynomial of a times the real part plus b times the imaginary part, about a place. */
  void scaled(int q, int place, double a, double b, double[] into, int at) {
    double[] t = at(place);
    int from = offset[q];
    for (int m = 0; m < ORDER; m++) {
      into[at + m] = a * t[from + m] + b * t[from + ORDER + m];
    }
  }

  double re(int q, int place, double f, double d) {
    if (serves[q]) {
      return polynomial(at(place), offset[q], f);
    }
    return Math.exp(rateRe[q] * d) * Math.cos(rateIm[q] * d);
  }

  double im(int q, int place, double f, double d) {
    if (serves[q]) {
      return polynomial(at(place), offset[q] + ORDER, f);
    }
    return Math.exp(rateRe[q] * d) * Math.sin(rateIm[q] * d);
  }

  /** The polynomial whose coefficients begin there. */
  static double polynomial(double[] t, int at, double f) {
    double f2 = f * f;
    double a = Math.fma(t[at + 1], f, t[at]);
    double b = Math.fma(t[at + 3], f, t[at + 2]);
    double c = Math.fma(t[at + 5], f, t[at + 4]);
    double e = Math.fma(t[at + 7], f, t[at + 6]);
    return Math.fma(Math.fma(e, f2, c), f2 * f2, Math.fma(b, f2, a));
  }
}
