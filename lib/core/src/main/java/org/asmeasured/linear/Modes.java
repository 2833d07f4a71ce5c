package org.asmeasured.linear;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.apache.commons.math3.complex.Complex;

/** A response as a direct gain and clusters of poles, each a chain of its own. */
final class Modes {
  /** Poles nearer than this share of their modulus stay coupled. */
  private static final double NEAR = 0.05;

  private static final double FARTHEST = 0.95;

  /** Numbers grow or shrink by so many binary places before they are brought back. */
  private static final int ROOM = 256;

  /**
   * Partial fractions this much larger than their sum cost three digits; then more poles are kept
   * together.
   */
  private static final double MAX_WEIGHT = 1e3;

  final double direct;
  final Cluster[] clusters;
  final int states;

  /** A bound of the part that any mode plays in the output of a unit input. */
  final double weight;

  private Modes(double direct, Cluster[] clusters) {
    this.direct = direct;
    this.clusters = clusters;
    int n = 0;
    double sum = Math.abs(direct);
    for (Cluster c : clusters) {
      n += c.size;
      double basis = 1 / c.scale;
      for (int k = 0; k < c.size; k++) {
        basis *= c.scale / Cluster.modulus(c.re[k], c.im[k]);
        sum += Cluster.modulus(c.bRe[k], c.bIm[k]) * basis;
      }
    }
    states = n;
    weight = sum;
  }

  static Modes of(Response response) {
    Modes best = null;
    for (double near = NEAR; near <= FARTHEST; near *= 1.25) {
      List<Cluster> made = new ArrayList<>();
      for (List<Complex> members : grouped(response.poles(), near)) {
        made.add(cluster(response, members));
      }
      Modes modes = new Modes(response.directGain(), made.toArray(Cluster[]::new));
      if (best == null || modes.weight < best.weight) {
        best = modes;
      }
      if (best.weight <= MAX_WEIGHT || best.weight <= MAX_WEIGHT * response.peakGain()) {
        break;
      }
    }
    return best;
  }

  /**
   * Single-linkage groups of the poles on and above the real axis; a group that meets its mirror
   * image takes it in.
   */
  private static List<List<Complex>> grouped(List<Complex> poles, double near) {
    List<Complex> upper = new ArrayList<>();
    for (Complex p : poles) {
      if (p.getImaginary() >= 0) {
        upper.add(p);
      }
    }
    upper.sort(Comparator.comparingDouble(Modes::squared).thenComparingDouble(Complex::getReal));
    List<List<Complex>> groups = new ArrayList<>();
    while (!upper.isEmpty()) {
      List<Complex> group = new ArrayList<>();
      group.add(upper.remove(0));
      for (int i = 0; i < group.size(); i++) {
        Complex p = group.get(i);
        for (int k = upper.size() - 1; k >= 0; k--) {
          if (near(p, upper.get(k), near) || near(p, upper.get(k).conjugate(), near)) {
            group.add(upper.remove(k));
          }
        }
      }
      boolean meetsMirror = false;
      for (Complex p : group) {
        for (Complex q : group) {
          meetsMirror |= near(p, q.conjugate(), near);
        }
      }
      if (meetsMirror) {
        List<Complex> both = new ArrayList<>();
        for (Complex p : group) {
          both.add(p);
          if (p.getImaginary() > 0) {
            both.add(p.conjugate());
          }
        }
        group = both;
      }
      groups.add(group);
    }
    return groups;
  }

  private static boolean near(Complex a, Complex b, double share) {
    double re = a.getReal() - b.getReal();
    double im = a.getImaginary() - b.getImaginary();
    return re * re + im * im <= share * share * Math.max(squared(a), squared(b));
  }

  private static double squared(Complex p) {
    return p.getReal() * p.getReal() + p.getImaginary() * p.getImaginary();
  }

  private static Cluster cluster(Response response, List<Complex> members) {
    int m = members.size();
    double[] re = new double[m];
    double[] im = new double[m];
    for (int i = 0; i < m; i++) {
      re[i] = members.get(i).getReal();
      im[i] = members.get(i).getImaginary();
    }
    // A power of two, so that scaling is exact.
    int exponent = Math.getExponent(members.get(0).abs());
    double scale = Math.scalb(1.0, exponent);

    // Row 1 of H(J) prod(J - member): divided differences over the members in reverse order (Opitz'
    // theorem).
    double[] vRe = new double[m];
    double[] vIm = new double[m];
    vRe[0] = response.mantissa();
    long shift = response.exponent();
    List<Complex> others = new ArrayList<>(response.poles());
    for (Complex member : members) {
      others.remove(member);
    }
    List<Complex> zeros = response.zeros();
    int z = 0;
    for (int i = 0; i < Math.max(others.size(), zeros.size()); i++) {
      if (i < others.size()) {
        divide(vRe, vIm, re, im, scale, others.get(i));
      }
      if (z < zeros.size()) {
        multiply(vRe, vIm, re, im, scale, zeros.get(z++));
      }
      shift += rescale(vRe, vIm);
    }
    long toUnit = shift - (long) exponent * (m - 1);
    // Off the real axis the mirror image doubles the real part; a group that holds its mirror image
    // does not need it.
    boolean mirrored = im[0] > 0 && others.contains(members.get(0).conjugate());
    int e = Response.clamped(toUnit + (mirrored ? 1 : 0));
    double[] bRe = new double[m];
    double[] bIm = new double[m];
    for (int k = 0; k < m; k++) {
      bRe[k] = Math.scalb(vRe[m - 1 - k], e);
      bIm[k] = Math.scalb(vIm[m - 1 - k], e);
    }
    return new Cluster(re, im, scale, bRe, bIm);
  }

  /** v (J - z I), J upper bidiagonal over the members in reverse order. */
  private static void multiply(
      double[] vRe, double[] vIm, double[] re, double[] im, double scale, Complex z) {
    int m = vRe.length;
    for (int j = m - 1; j >= 0; j--) {
      double dr = re[m - 1 - j] - z.getReal();
      double di = im[m - 1 - j] - z.getImaginary();
      double nr = vRe[j] * dr - vIm[j] * di;
      double ni = vRe[j] * di + vIm[j] * dr;
      if (j > 0) {
        nr += scale * vRe[j - 1];
        ni += scale * vIm[j - 1];
      }
      vRe[j] = nr;
      vIm[j] = ni;
    }
  }

  /** v (J - q I)^-1. */
  private static void divide(
      double[] vRe, double[] vIm, double[] re, double[] im, double scale, Complex q) {
    int m = vRe.length;
    for (int j = 0; j < m; j++) {
      double nr = vRe[j];
      double ni = vIm[j];
      if (j > 0) {
        nr -= scale * vRe[j - 1];
        ni -= scale * vIm[j - 1];
      }
      double dr = re[m - 1 - j] - q.getReal();
      double di = im[m - 1 - j] - q.getImaginary();
      double d2 = dr * dr + di * di;
      vRe[j] = (nr * dr + ni * di) / d2;
      vIm[j] = (ni * dr - nr * di) / d2;
    }
  }

  private static int rescale(double[] vRe, double[] vIm) {
    double most = 0;
    for (int j = 0; j < vRe.length; j++) {
      most = Math.max(most, Math.max(Math.abs(vRe[j]), Math.abs(vIm[j])));
    }
    if (most == 0) {
      return 0;
    }
    int e = Math.getExponent(most);
    if (Math.abs(e) < ROOM) {
      return 0; // a power of two would change no digit
    }
    for (int j = 0; j < vRe.length; j++) {
      vRe[j] = Math.scalb(vRe[j], -e);
      vIm[j] = Math.scalb(vIm[j], -e);
    }
    return e;
  }

  /**
   * The integral of the square of the impulse response without its direct part.
   *
   * @see #withOutput
   */
  double impulseEnergy() {
    double sum = 0;
    for (Cluster a : clusters) {
      double[][] w = withOutput(a);
      sum += w[0][0];
    }
    return sum;
  }

  /**
   * How the states of one cluster go with the whole output under white noise: the integral of x_a
   * y, real and imaginary parts. With x(t) = e^{Jt} b and y = Re of the sum of the chains' first
   * states, that is half the sum of the integrals of x_a x and x_a x*; each from the Lyapunov
   * equation of two chains, solved from the last states backwards.
   */
  double[][] withOutput(Cluster a) {
    double[][] w = new double[2][a.size];
    for (Cluster b : clusters) {
      addFirstOfGram(a, b, 1, w);
      addFirstOfGram(a, b, -1, w);
    }
    return w;
  }

  /** Adds half the leading column of the integral of x_a x_b^T (sign 1) or x_a x_b^H (sign -1). */
  private static void addFirstOfGram(Cluster a, Cluster b, int sign, double[][] w) {
    double[][] pRe = new double[a.size + 1][b.size + 1];
    double[][] pIm = new double[a.size + 1][b.size + 1];
    for (int i = a.size - 1; i >= 0; i--) {
      for (int j = b.size - 1; j >= 0; j--) {
        double cIm = sign * b.bIm[j];
        double nr =
            a.bRe[i] * b.bRe[j]
                - a.bIm[i] * cIm
                + a.scale * pRe[i + 1][j]
                + b.scale * pRe[i][j + 1];
        double ni =
            a.bRe[i] * cIm
                + a.bIm[i] * b.bRe[j]
                + a.scale * pIm[i + 1][j]
                + b.scale * pIm[i][j + 1];
        double dr = -(a.re[i] + b.re[j]);
        double di = -(a.im[i] + sign * b.im[j]);
        double d2 = dr * dr + di * di;
        pRe[i][j] = (nr * dr + ni * di) / d2;
        pIm[i][j] = (ni * dr - nr * di) / d2;
      }
      w[0][i] += 0.5 * pRe[i][0];
      w[1][i] += 0.5 * pIm[i][0];
    }
  }
}
