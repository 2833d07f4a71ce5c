package org.asmeasured.signal;

import java.util.Arrays;
import org.asmeasured.internal.ExtendedTime;

/**
 * The terms of a piece, seen from its start: {@code level + slope u + sum exp(growth_i u) (cosine_i
 * cos(2 pi f_i u) + sine_i sin(2 pi f_i u))}. Mutable, used while signals are built and integrated.
 */
final class Terms {
  double level;
  double slope;
  int count;
  double[] cosine = new double[2];
  double[] sine = new double[2];
  double[] growth = new double[2];
  double[] frequencyHz = new double[2];

  /** Adds an exponential term; one of the same growth and frequency is joined. */
  void add(double c, double s, double sigma, double f) {
    if (c == 0 && s == 0) {
      return;
    }
    for (int i = 0; i < count; i++) {
      if (growth[i] == sigma && frequencyHz[i] == f) {
        cosine[i] += c;
        sine[i] += s;
        return;
      }
    }
    if (count == cosine.length) {
      cosine = Arrays.copyOf(cosine, 2 * count);
      sine = Arrays.copyOf(sine, 2 * count);
      growth = Arrays.copyOf(growth, 2 * count);
      frequencyHz = Arrays.copyOf(frequencyHz, 2 * count);
    }
    cosine[count] = c;
    sine[count] = s;
    growth[count] = sigma;
    frequencyHz[count++] = f;
  }

  /** Adds a term given at an earlier instant, as it stands {@code hi + lo} seconds later. */
  void addRotated(double c, double s, double sigma, double f, double hi, double lo) {
    double angle = 2 * Math.PI * ExtendedTime.fractionOfCycles(f, hi, lo);
    double e = Math.exp(sigma * hi);
    double re = e * Math.cos(angle);
    double im = e * Math.sin(angle);
    add(c * re + s * im, s * re - c * im, sigma, f);
  }

  void addAll(Terms other) {
    level += other.level;
    slope += other.slope;
    for (int i = 0; i < other.count; i++) {
      add(other.cosine[i], other.sine[i], other.growth[i], other.frequencyHz[i]);
    }
  }

  boolean isZero() {
    return level == 0 && slope == 0 && count == 0;
  }

  static double[] scaled(double[] values, double factor) {
    double[] out = new double[values.length];
    for (int i = 0; i < out.length; i++) {
      out[i] = values[i] * factor;
    }
    return out;
  }

  /** The integral over [0, d]. */
  double integral(double d) {
    double sum = level * d + slope * d * d / 2;
    Integral integral = new Integral();
    for (int i = 0; i < count; i++) {
      integral.of(growth[i], frequencyHz[i], d);
      // Re((c - j s) e^{(sigma + j w) u})
      sum += cosine[i] * integral.re0 + sine[i] * integral.im0;
    }
    return sum;
  }

  /** The integral of the square over [0, d]. */
  double integralOfSquare(double d) {
    double sum = d * (level * level + d * (level * slope + d * slope * slope / 3));
    Integral integral = new Integral();
    for (int i = 0; i < count; i++) {
      integral.of(growth[i], frequencyHz[i], d);
      sum += 2 * level * (cosine[i] * integral.re0 + sine[i] * integral.im0);
      sum += 2 * slope * (cosine[i] * integral.re1 + sine[i] * integral.im1);
      for (int k = 0; k <= i; k++) {
        double weight = k == i ? 0.5 : 1;
        integral.of(growth[i] + growth[k], frequencyHz[i] + frequencyHz[k], d);
        sum +=
            weight
                * ((cosine[i] * cosine[k] - sine[i] * sine[k]) * integral.re0
                    + (cosine[i] * sine[k] + sine[i] * cosine[k]) * integral.im0);
        integral.of(growth[i] + growth[k], frequencyHz[i] - frequencyHz[k], d);
        sum +=
            weight
                * ((cosine[i] * cosine[k] + sine[i] * sine[k]) * integral.re0
                    + (sine[i] * cosine[k] - cosine[i] * sine[k]) * integral.im0);
      }
    }
    return sum;
  }

  /** Integrals of e^{su} and u e^{su} over [0, d], s = sigma + 2 pi j f. */
  private static final class Integral {
    private double re0;
    private double im0;
    private double re1;
    private double im1;

    void of(double sigma, double f, double d) {
      double x = sigma * d;
      double y = 2 * Math.PI * f * d;
      double r2 = x * x + y * y;
      if (r2 < 0.25) {
        series(x, y, d);
        return;
      }
      double angle = 2 * Math.PI * ExtendedTime.fractionOfCycles(f, d, 0);
      double e = Math.exp(x);
      double half = Math.sin(angle / 2);
      // e^z - 1 without cancellation near the real axis
      double em1 = Math.expm1(x) * Math.cos(angle) - 2 * half * half;
      double ei = e * Math.sin(angle);
      re0 = d * (em1 * x + ei * y) / r2;
      im0 = d * (ei * x - em1 * y) / r2;
      // (e^z z - (e^z - 1)) / z^2 = (e^z - (e^z - 1)/z) / z
      double nr = e * Math.cos(angle) - re0 / d;
      double ni = ei - im0 / d;
      re1 = d * d * (nr * x + ni * y) / r2;
      im1 = d * d * (ni * x - nr * y) / r2;
    }

    private void series(double x, double y, double d) {
      double tr = 1;
      double ti = 0;
      re0 = 1;
      im0 = 0;
      re1 = 0.5;
      im1 = 0;
      for (int n = 1; n < 20; n++) {
        double nr = (tr * x - ti * y) / n;
        ti = (tr * y + ti * x) / n;
        tr = nr;
        re0 += tr / (n + 1);
        im0 += ti / (n + 1);
        re1 += tr / (n + 2);
        im1 += ti / (n + 2);
      }
      re0 *= d;
      im0 *= d;
      re1 *= d * d;
      im1 *= d * d;
    }
  }
}
