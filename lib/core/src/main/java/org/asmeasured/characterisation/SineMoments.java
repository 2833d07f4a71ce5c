package org.asmeasured.characterisation;

/**
 * The sums over points, or integrals over a span, that one step of a sine fit rests on. With u the
 * distance from the middle, h half of the length, x = u/h, and r what the trial leaves over.
 */
final class SineMoments {
  /** Sums of 1, x, x^2. */
  double ones;

  double x;
  double xx;

  /** Sums of cos, sin, x cos, x sin, at the trial's frequency. */
  double cos;

  double sin;
  double xCos;
  double xSin;

  /** Sums of cos, sin at twice the trial's frequency, plain, by x and by x^2. */
  double cos2;

  double sin2;
  double xCos2;
  double xSin2;
  double xxCos2;
  double xxSin2;

  /** Sums of r, r cos, r sin, x r cos, x r sin, r^2. */
  double r;

  double rCos;
  double rSin;
  double xrCos;
  double xrSin;
  double rr;

  /**
   * The normal matrix of the columns cos, sin, 1, x (b cos - a sin): the derivatives by a, b, level
   * and the frequency, in radians at the ends.
   */
  double[][] normal(double a, double b) {
    double cc = (ones + cos2) / 2;
    double ss = (ones - cos2) / 2;
    double cs = sin2 / 2;
    double xcc = (x + xCos2) / 2;
    double xss = (x - xCos2) / 2;
    double xcs = xSin2 / 2;
    double c4 = b * xcc - a * xcs;
    double s4 = b * xcs - a * xss;
    double l4 = b * xCos - a * xSin;
    double w4 = a * a * (xx - xxCos2) / 2 - a * b * xxSin2 + b * b * (xx + xxCos2) / 2;
    return new double[][] {
      {cc, cs, cos, c4}, {cs, ss, sin, s4}, {cos, sin, ones, l4}, {c4, s4, l4, w4}
    };
  }

  /** The right-hand side that goes with {@link #normal}. */
  double[] gradient(double a, double b) {
    return new double[] {rCos, rSin, r, b * xrCos - a * xrSin};
  }
}
