package org.asmeasured.acquisition;

import java.util.Objects;
import org.asmeasured.internal.Require;

/**
 * sin(x)/x, cut off by a Kaiser window of L points on each side.
 *
 * <pre>
 * x(p) = sum over n of x_n h(p - n)/sum over n of h(p - n)      n = floor(p) - L + 1 ... floor(p) + L
 * h(d) = sin(pi d)/(pi d) I0(beta sqrt(1 - (d/L)^2))/I0(beta)
 * </pre>
 *
 * <p>The sum over an infinite record without a window is exact for every signal below half the rate
 * (the sampling theorem); over a finite one it is not, and a window trades a band near half the
 * rate for accuracy below it. Here the band kept is 0 to 0.4 of the rate, that is 2.5 points a
 * period and more, and beta follows from L by Kaiser's rules (J. F. Kaiser, 1974, from memory): A =
 * 2.285 (0.4 pi)(2 L) + 8 dB, beta = 0.1102 (A - 8.7). Up to 0.4 of the rate the greatest error of
 * a sine is, of its amplitude, 5e-3 for L = 8, 2e-5 for 16, 2e-9 for 32 (found by trial). Near half
 * the rate it is that of the folded band and may reach the amplitude. The weights are divided by
 * their sum, so a constant stays what it is.
 *
 * <p>A step of the record overshoots by up to 9 % between the points, as any band-limited curve
 * through such points does; that is not in the signal.
 *
 * <p><b>Ends.</b> There are no values before point L - 1 nor after point size - L: the window would
 * need points that were not taken.
 *
 * @param halfLength L, points on each side, 4 to 64
 */
public record SincReconstruction(int halfLength) implements Reconstruction {
  static final SincReconstruction DEFAULT = new SincReconstruction(16);

  /**
   * Checks the length.
   *
   * @param halfLength points on each side, 4 to 64
   * @throws IllegalArgumentException if it is out of range
   */
  public SincReconstruction {
    Require.inRange("halfLength", halfLength, 4, 64);
  }

  @Override
  public int margin() {
    return halfLength - 1;
  }

  @Override
  public double between(double[] points, int index, double share) {
    Places.check(points, index, share, margin());
    return share == 0 ? points[index] : sum(points, index, weights(share));
  }

  /** Weights of the points from index - L + 1 to index + L. */
  private double[] weights(double share) {
    double[] h = new double[2 * halfLength];
    double attenuation = 2.285 * 0.4 * Math.PI * 2 * halfLength + 8;
    double beta = 0.1102 * (attenuation - 8.7);
    double total = 0;
    // sin(pi (share + j)) is that of the share but for its sign
    double sine = Math.sin(Math.PI * Math.min(share, 1 - share)) / Math.PI;
    for (int i = 0; i < h.length; i++) {
      double d = share + (halfLength - 1 - i);
      double r = d / halfLength;
      double window = bessel(beta * Math.sqrt((1 - r) * (1 + r)));
      h[i] = ((halfLength - 1 - i) % 2 == 0 ? sine : -sine) / d * window;
      total += h[i];
    }
    for (int i = 0; i < h.length; i++) {
      h[i] /= total;
    }
    return h;
  }

  /** The modified Bessel function I0 by its power series, all terms of which are positive. */
  private static double bessel(double x) {
    double quarter = x * x / 4;
    double term = 1;
    double sum = 1;
    for (int k = 1; term > sum * 0x1p-54; k++) {
      term *= quarter / ((double) k * k);
      sum += term;
    }
    return sum;
  }

  private double sum(double[] points, int index, double[] weights) {
    int from = index - halfLength + 1;
    double a = 0;
    double b = 0;
    for (int i = 0; i < weights.length; i += 2) {
      a = Math.fma(weights[i], points[from + i], a);
      b = Math.fma(weights[i + 1], points[from + i + 1], b);
    }
    return a + b;
  }

  @Override
  public void fill(double[] points, int factor, double[] out) {
    int size = size(Require.present("points", points).length, factor);
    Objects.checkFromIndexSize(0, size, Require.present("out", out).length);
    int margin = margin();
    for (int i = 0; i < size; i += factor) {
      out[i] = points[margin + i / factor];
    }
    for (int phase = 1; phase < factor; phase++) {
      double[] weights = weights((double) phase / factor);
      for (int i = phase; i < size; i += factor) {
        out[i] = sum(points, margin + i / factor, weights);
      }
    }
  }

  @Override
  public String toString() {
    return "sin(x)/x over " + halfLength + " points on each side";
  }
}
