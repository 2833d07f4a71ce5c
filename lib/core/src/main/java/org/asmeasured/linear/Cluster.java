package org.asmeasured.linear;

/**
 * Poles so close together that they must stay coupled: a chain {@code x_k' = p_k x_k + scale
 * x_{k+1} + b_k u}, whose output is Re x_1. A lone pole is a chain of one.
 *
 * <p>Its part of the response is {@code sum_k b_k scale^(k-1) / prod_{i<=k} (s - p_i)}: a partial
 * fraction in Newton's form, whose coefficients are divided differences and so stay tame however
 * close the poles are. For poles off the real axis the chain stands for its mirror image too (b
 * carries the factor two).
 */
final class Cluster {
  private static final double CANCELS = 1e3;

  final int size;
  final double[] re;
  final double[] im;
  final double scale;
  final double[] bRe;
  final double[] bIm;
  final double slowest;
  final double fastest;
  final boolean real;

  Cluster(double[] re, double[] im, double scale, double[] bRe, double[] bIm) {
    this.size = re.length;
    this.re = re;
    this.im = im;
    this.scale = scale;
    this.bRe = bRe;
    this.bIm = bIm;
    double least = Double.POSITIVE_INFINITY;
    double most = 0;
    boolean allReal = true;
    for (int i = 0; i < size; i++) {
      least = Math.min(least, -re[i]);
      most = Math.max(most, modulus(re[i], im[i]));
      allReal &= im[i] == 0 && bIm[i] == 0;
    }
    slowest = least;
    fastest = most;
    real = allReal;
  }

  /** Math.hypot, faster where no square leaves the range. */
  static double modulus(double re, double im) {
    double square = re * re + im * im;
    return square > 1e-290 && square < 1e290 ? Math.sqrt(square) : Math.hypot(re, im);
  }

  /** Solves (lambda - J) x = b g, the steady amplitude under an input g e^{lambda t}. */
  void steady(double lRe, double lIm, double gRe, double gIm, double[] xRe, double[] xIm) {
    for (int k = size - 1; k >= 0; k--) {
      double nr = bRe[k] * gRe - bIm[k] * gIm;
      double ni = bRe[k] * gIm + bIm[k] * gRe;
      if (k + 1 < size) {
        nr += scale * xRe[k + 1];
        ni += scale * xIm[k + 1];
      }
      double dr = lRe - re[k];
      double di = lIm - im[k];
      double d2 = dr * dr + di * di;
      xRe[k] = (nr * dr + ni * di) / d2;
      xIm[k] = (ni * dr - nr * di) / d2;
    }
  }

  /**
   * Whether an input e^{lambda t} lies so near the poles that its steady amplitude and the state
   * that makes up for it would cancel: where the steady amplitude is a thousand times what an input
   * could build up while the cluster lives.
   */
  boolean resonates(double lRe, double lIm, double withinSeconds) {
    double[] xRe = new double[size];
    double[] xIm = new double[size];
    for (int k = 0; k < size; k++) {
      if (lRe == re[k] && lIm == im[k]) {
        return true;
      }
    }
    steady(lRe, lIm, 1, 0, xRe, xIm);
    double basis = 1;
    double amplitude = 0;
    double natural = 0;
    for (int k = 0; k < size; k++) {
      double reach = Math.min(withinSeconds, 1 / -re[k]);
      amplitude += Math.hypot(xRe[k], xIm[k]) * basis;
      natural += Math.hypot(bRe[k], bIm[k]) * basis * reach;
      basis *= scale * reach;
    }
    return amplitude > CANCELS * natural;
  }

  /** Solves -J x = v in place. */
  void solveNegated(double[] xRe, double[] xIm) {
    for (int k = size - 1; k >= 0; k--) {
      double nr = xRe[k];
      double ni = xIm[k];
      if (k + 1 < size) {
        nr += scale * xRe[k + 1];
        ni += scale * xIm[k + 1];
      }
      double d2 = re[k] * re[k] + im[k] * im[k];
      xRe[k] = -(nr * re[k] + ni * im[k]) / d2;
      xIm[k] = -(ni * re[k] - nr * im[k]) / d2;
    }
  }
}
