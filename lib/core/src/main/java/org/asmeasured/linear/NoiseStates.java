package org.asmeasured.linear;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.apache.commons.math3.complex.Complex;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.MatrixUtils;
import org.apache.commons.math3.linear.RealMatrix;

/**
 * States that white noise drives to unit variance each, none correlated with another: {@code x' = A
 * x + B u} with {@code A + A' + B B' = 0}.
 *
 * <p>They come from a chain of all-pass sections, one for each real pole or pair of poles, whose
 * input is what the section before lets pass (the orthonormal functions of S. Takenaka 1925 and F.
 * Malmquist 1926 in real form). So they are as well conditioned as can be, whether poles coincide
 * or lie nine decades apart.
 */
final class NoiseStates {
  private static final double SHORT = 0.25;
  private static final int TERMS = 20;

  private final List<Complex> sections = new ArrayList<>();
  private final int n;
  private final double[] input;
  private final double[][] a;

  NoiseStates(Response response) {
    List<Complex> poles = new ArrayList<>(response.poles());
    poles.removeIf(p -> p.getImaginary() < 0);
    poles.sort(Comparator.comparingDouble(Complex::abs).thenComparingDouble(Complex::getReal));
    sections.addAll(poles);
    n = response.poles().size();
    input = new double[n];
    a = new double[n][n];
    int i = 0;
    for (Complex p : sections) {
      int last = i;
      if (p.getImaginary() == 0) {
        a[i][i] = p.getReal();
        input[i] = Math.sqrt(-2 * p.getReal());
      } else {
        last = i + 1;
        a[i][last] = p.abs();
        a[last][i] = -p.abs();
        a[last][last] = 2 * p.getReal();
        input[last] = Math.sqrt(-4 * p.getReal());
      }
      for (int j = 0; j < i; j++) {
        a[last][j] = -input[last] * input[j];
      }
      i = last + 1;
    }
  }

  /** exp(A h) - I: Taylor's series over a short time, doubled as (I + X)^2 - I = 2 X + X^2. */
  RealMatrix lessIdentity(double h) {
    RealMatrix rate = new Array2DRowRealMatrix(a);
    int doublings = Math.max(0, Math.getExponent(rate.getFrobeniusNorm() * h / SHORT) + 1);
    RealMatrix step = rate.scalarMultiply(Math.scalb(h, -doublings));
    RealMatrix identity = MatrixUtils.createRealIdentityMatrix(n);
    RealMatrix sum = identity;
    for (int k = TERMS; k >= 2; k--) {
      sum = identity.add(step.multiply(sum).scalarMultiply(1.0 / k));
    }
    RealMatrix x = step.multiply(sum);
    for (int d = 0; d < doublings; d++) {
      x = x.scalarMultiply(2).add(x.multiply(x));
    }
    return x;
  }

  /**
   * The row C that makes the response's output, less its direct part, of these states: their
   * covariance with the output of the modal chains, {@code (A + p_m) w_m = -(B b_m + scale
   * w_{m+1})}.
   */
  double[] output(Modes modes) {
    double[] c = new double[n];
    for (Cluster cluster : modes.clusters) {
      double[] wRe = new double[n];
      double[] wIm = new double[n];
      for (int m = cluster.size - 1; m >= 0; m--) {
        solve(cluster, m, wRe, wIm);
      }
      for (int i = 0; i < n; i++) {
        c[i] += wRe[i];
      }
    }
    return c;
  }

  /** Replaces w_{m+1} by w_m. */
  private void solve(Cluster c, int m, double[] wRe, double[] wIm) {
    double scale = m + 1 < c.size ? c.scale : 0;
    double uRe = c.bRe[m];
    double uIm = c.bIm[m];
    double pRe = c.re[m];
    double pIm = c.im[m];
    int i = 0;
    for (Complex q : sections) {
      if (q.getImaginary() == 0) {
        Complex right =
            new Complex(-input[i] * uRe - scale * wRe[i], -input[i] * uIm - scale * wIm[i]);
        Complex w = right.divide(new Complex(pRe + q.getReal(), pIm));
        wRe[i] = w.getReal();
        wIm[i] = w.getImaginary();
      } else {
        Complex first = new Complex(-scale * wRe[i], -scale * wIm[i]);
        i++;
        Complex second =
            new Complex(-input[i] * uRe - scale * wRe[i], -input[i] * uIm - scale * wIm[i]);
        Complex p = new Complex(pRe, pIm);
        Complex determinant = p.add(q).multiply(p.add(q.conjugate()));
        double turn = q.abs();
        Complex w0 =
            first
                .multiply(p.add(2 * q.getReal()))
                .subtract(second.multiply(turn))
                .divide(determinant);
        Complex w1 = second.multiply(p).add(first.multiply(turn)).divide(determinant);
        wRe[i - 1] = w0.getReal();
        wIm[i - 1] = w0.getImaginary();
        wRe[i] = w1.getReal();
        wIm[i] = w1.getImaginary();
      }
      uRe -= input[i] * wRe[i];
      uIm -= input[i] * wIm[i];
      i++;
    }
  }
}
