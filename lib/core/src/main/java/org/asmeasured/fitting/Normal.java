package org.asmeasured.fitting;

import java.util.Arrays;
import org.ejml.data.DMatrixRMaj;
import org.ejml.dense.row.factory.DecompositionFactory_DDRM;
import org.ejml.interfaces.decomposition.EigenDecomposition_F64;

/** Small symmetric matrices of products of columns. */
final class Normal {
  private Normal() {}

  static double dot(double[] a, double[] b) {
    double s0 = 0;
    double s1 = 0;
    double s2 = 0;
    double s3 = 0;
    int i = 0;
    for (; i + 3 < a.length; i += 4) {
      s0 += a[i] * b[i];
      s1 += a[i + 1] * b[i + 1];
      s2 += a[i + 2] * b[i + 2];
      s3 += a[i + 3] * b[i + 3];
    }
    for (; i < a.length; i++) {
      s0 += a[i] * b[i];
    }
    return (s0 + s1) + (s2 + s3);
  }

  /** A'B. */
  static double[][] products(double[][] a, double[][] b) {
    double[][] g = new double[a.length][b.length];
    for (int i = 0; i < a.length; i++) {
      for (int j = 0; j < b.length; j++) {
        g[i][j] = a == b && j < i ? g[j][i] : dot(a[i], b[j]);
      }
    }
    return g;
  }

  static double[] products(double[][] a, double[] b) {
    double[] g = new double[a.length];
    for (int i = 0; i < a.length; i++) {
      g[i] = dot(a[i], b);
    }
    return g;
  }

  /** X with (G + damping diag G) x = g among those that are free, 0 for the others. */
  static double[] solve(double[][] g, double[] right, boolean[] free, double damping) {
    int n = right.length;
    double[] scale = scales(g);
    double[][] l = new double[n][n];
    double[] x = new double[n];
    for (int j = 0; j < n; j++) {
      if (!free[j]) {
        continue;
      }
      double pivot = 1 + damping;
      for (int k = 0; k < j; k++) {
        pivot -= l[j][k] * l[j][k];
      }
      l[j][j] = Math.sqrt(Math.max(pivot, 1e-300));
      for (int i = j + 1; i < n; i++) {
        if (free[i]) {
          double sum = g[i][j] * scale[i] * scale[j];
          for (int k = 0; k < j; k++) {
            sum -= l[i][k] * l[j][k];
          }
          l[i][j] = sum / l[j][j];
        }
      }
      double y = right[j] * scale[j];
      for (int k = 0; k < j; k++) {
        y -= l[j][k] * x[k];
      }
      x[j] = y / l[j][j];
    }
    for (int j = n - 1; j >= 0; j--) {
      if (free[j]) {
        for (int k = j + 1; k < n; k++) {
          x[j] -= free[k] ? l[k][j] * x[k] : 0;
        }
        x[j] /= l[j][j];
      }
    }
    for (int j = 0; j < n; j++) {
      x[j] *= scale[j];
    }
    return x;
  }

  /** One over the root of the diagonal. */
  static double[] scales(double[][] g) {
    double[] scale = new double[g.length];
    for (int i = 0; i < g.length; i++) {
      scale[i] = g[i][i] > 0 ? 1 / Math.sqrt(g[i][i]) : 1;
    }
    return scale;
  }

  /** The inverse of a matrix that has one. */
  static double[][] inverse(double[][] g) {
    int n = g.length;
    boolean[] free = new boolean[n];
    Arrays.fill(free, true);
    double[][] inverse = new double[n][];
    for (int j = 0; j < n; j++) {
      double[] unit = new double[n];
      unit[j] = 1;
      inverse[j] = solve(g, unit, free, 0);
    }
    for (int i = 0; i < n; i++) {
      for (int j = 0; j < i; j++) {
        inverse[i][j] = (inverse[i][j] + inverse[j][i]) / 2;
        inverse[j][i] = inverse[i][j];
      }
    }
    return inverse;
  }

  static double[][] times(double[][] a, double[][] b) {
    double[][] c = new double[a.length][b[0].length];
    for (int i = 0; i < a.length; i++) {
      for (int k = 0; k < b.length; k++) {
        for (int j = 0; j < c[i].length; j++) {
          c[i][j] += a[i][k] * b[k][j];
        }
      }
    }
    return c;
  }

  /** The sum of the diagonal of a product. */
  static double trace(double[][] a, double[][] b) {
    double sum = 0;
    for (int i = 0; i < a.length; i++) {
      for (int k = 0; k < b.length; k++) {
        sum += a[i][k] * b[k][i];
      }
    }
    return sum;
  }

  /** An eigenvalue of a matrix scaled to a diagonal of 1, and its vector in the scaled unknowns. */
  record Weakest(double eigenvalue, double[] direction) {}

  static Weakest weakest(double[][] g) {
    int n = g.length;
    double[] scale = scales(g);
    DMatrixRMaj scaled = new DMatrixRMaj(n, n);
    for (int i = 0; i < n; i++) {
      for (int j = 0; j < n; j++) {
        scaled.set(i, j, i == j ? 1 : g[i][j] * scale[i] * scale[j]);
      }
    }
    EigenDecomposition_F64<DMatrixRMaj> eigen = DecompositionFactory_DDRM.eig(n, true, true);
    if (!eigen.decompose(scaled)) {
      throw new IllegalStateException("no eigenvalues found");
    }
    int least = 0;
    for (int i = 1; i < n; i++) {
      if (eigen.getEigenvalue(i).getReal() < eigen.getEigenvalue(least).getReal()) {
        least = i;
      }
    }
    return new Weakest(
        eigen.getEigenvalue(least).getReal(), eigen.getEigenVector(least).getData().clone());
  }
}
