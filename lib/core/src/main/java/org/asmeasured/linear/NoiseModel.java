package org.asmeasured.linear;

import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.EigenDecomposition;
import org.apache.commons.math3.linear.LUDecomposition;
import org.apache.commons.math3.linear.MatrixUtils;
import org.apache.commons.math3.linear.RealMatrix;
import org.apache.commons.math3.linear.RealVector;
import org.apache.commons.math3.linear.SingularValueDecomposition;

/**
 * The innovations form of a stationary process, {@code y = C x + sqrt(g) e, x <- F x + K sqrt(g)
 * e}: one white value a sample makes all of it. Balanced, so that states can be left out.
 *
 * <p>The state covariance S is the least solution of {@code S = F S F' + (G - F S C')(R(0) - C S
 * C')^-1 (G - F S C')'} (P. Faurre 1976; B. Anderson, J. Moore, Optimal Filtering, 1979, ch. 9),
 * reached by doubling, so that slow poles take no more rounds than fast ones (E. Chu, H. Fan, W.
 * Lin, C. Wang, International Journal of Control 77 (2004) 767). States are left out by balanced
 * truncation with square roots of both Gramians (B. Moore 1981; M. Tombs, I. Postlethwaite 1987).
 */
final class NoiseModel {
  /** Relative change of a doubling at which it has converged. */
  private static final double CONVERGED = 1e-15;

  private static final int MOST_ROUNDS = 64;

  private final RealMatrix lessIdentity;
  private final RealVector input;
  private final RealVector output;
  private final double direct;

  private NoiseModel(RealMatrix lessIdentity, RealVector input, RealVector output, double direct) {
    this.lessIdentity = lessIdentity;
    this.input = input;
    this.output = output;
    this.direct = direct;
  }

  static NoiseModel of(NoiseCovariance r) {
    int n = r.states();
    RealMatrix identity = MatrixUtils.createRealIdentityMatrix(n);
    RealMatrix f = identity.add(r.lessIdentity());
    RealMatrix s = leastCovariance(r, f);
    RealVector seen = s.operate(r.output());
    double g = r.present() - r.output().dotProduct(seen);
    if (!(g > 0)) {
      throw new IllegalArgumentException("the process has no innovation left: g = " + g);
    }
    double direct = Math.sqrt(g);
    RealVector input = r.withOutput().subtract(f.operate(seen)).mapDivide(direct);

    RealMatrix reach = squareRoot(gramian(r.lessIdentity(), input));
    RealMatrix show = squareRoot(gramian(r.lessIdentity().transpose(), r.output()));
    SingularValueDecomposition svd =
        new SingularValueDecomposition(show.transpose().multiply(reach));
    double[] hankel = svd.getSingularValues();
    // of one state at least, which may stand still
    int rank = 1;
    while (rank < hankel.length && hankel[rank] > 1e-13 * hankel[0]) {
      rank++;
    }
    RealMatrix left = new Array2DRowRealMatrix(rank, n);
    RealMatrix right = new Array2DRowRealMatrix(n, rank);
    RealMatrix u = show.multiply(svd.getU());
    RealMatrix v = reach.multiply(svd.getV());
    for (int i = 0; i < rank; i++) {
      double root = Math.sqrt(Math.max(hankel[i], Double.MIN_NORMAL));
      left.setRowVector(i, u.getColumnVector(i).mapDivide(root));
      right.setColumnVector(i, v.getColumnVector(i).mapDivide(root));
    }
    return new NoiseModel(
        left.multiply(r.lessIdentity()).multiply(right),
        left.operate(input),
        right.preMultiply(r.output()),
        direct);
  }

  private static RealMatrix leastCovariance(NoiseCovariance r, RealMatrix f) {
    int n = r.states();
    RealMatrix identity = MatrixUtils.createRealIdentityMatrix(n);
    RealMatrix m =
        f.subtract(r.withOutput().outerProduct(r.output()).scalarMultiply(1 / r.present()))
            .transpose();
    RealMatrix gamma = r.output().outerProduct(r.output()).scalarMultiply(-1 / r.present());
    RealMatrix h = r.withOutput().outerProduct(r.withOutput()).scalarMultiply(1 / r.present());
    for (int round = 0; round < MOST_ROUNDS; round++) {
      RealMatrix solved =
          new LUDecomposition(identity.add(gamma.multiply(h)), 0)
              .getSolver()
              .solve(joined(m, gamma.multiply(m.transpose())));
      RealMatrix inverseM = solved.getSubMatrix(0, n - 1, 0, n - 1);
      RealMatrix inverseGamma = solved.getSubMatrix(0, n - 1, n, 2 * n - 1);
      RealMatrix more = m.transpose().multiply(h).multiply(inverseM);
      gamma = symmetric(gamma.add(m.multiply(inverseGamma)));
      h = symmetric(h.add(more));
      m = m.multiply(inverseM);
      if (most(more) <= CONVERGED * most(h)) {
        break;
      }
    }
    return h;
  }

  private static RealMatrix joined(RealMatrix a, RealMatrix b) {
    int n = a.getRowDimension();
    RealMatrix both = new Array2DRowRealMatrix(n, 2 * n);
    both.setSubMatrix(a.getData(), 0, 0);
    both.setSubMatrix(b.getData(), 0, n);
    return both;
  }

  /** W = F W F' + b b', by doubling; F is given less the identity. */
  static RealMatrix gramian(RealMatrix lessIdentity, RealVector b) {
    int n = b.getDimension();
    double[][] power = lessIdentity.getData();
    double[][] w = b.outerProduct(b).getData();
    double[][] half = new double[n][n];
    double[][] more = new double[n][n];
    double[][] next = new double[n][n];
    for (int round = 0; round < MOST_ROUNDS; round++) {
      double greatest = 0;
      double change = 0;
      for (int i = 0; i < n; i++) {
        for (int j = 0; j < n; j++) {
          half[i][j] = w[i][j] + product(power, w, i, j);
        }
      }
      for (int i = 0; i < n; i++) {
        for (int j = 0; j < n; j++) {
          double sum = 0;
          for (int k = 0; k < n; k++) {
            sum += half[i][k] * power[j][k];
          }
          more[i][j] = half[i][j] + sum;
          change = Math.max(change, Math.abs(more[i][j]));
        }
      }
      for (int i = 0; i < n; i++) {
        for (int j = 0; j < n; j++) {
          half[i][j] = w[i][j] + more[i][j];
          next[i][j] = power[i][j] * 2 + product(power, power, i, j);
        }
      }
      for (int i = 0; i < n; i++) {
        for (int j = 0; j < n; j++) {
          w[i][j] = (half[i][j] + half[j][i]) * 0.5;
          greatest = Math.max(greatest, Math.abs(w[i][j]));
        }
      }
      double[][] swap = power;
      power = next;
      next = swap;
      if (change <= CONVERGED * greatest) {
        break;
      }
    }
    return new Array2DRowRealMatrix(w, false);
  }

  private static double product(double[][] a, double[][] b, int i, int j) {
    double sum = 0;
    for (int k = 0; k < a.length; k++) {
      sum += a[i][k] * b[k][j];
    }
    return sum;
  }

  /** L with L L' = W; what rounding has made negative counts as zero. */
  static RealMatrix squareRoot(RealMatrix w) {
    EigenDecomposition e = new EigenDecomposition(w);
    RealMatrix root = e.getV().copy();
    for (int j = 0; j < w.getColumnDimension(); j++) {
      double scale = Math.sqrt(Math.max(0, e.getRealEigenvalue(j)));
      root.setColumnVector(j, root.getColumnVector(j).mapMultiply(scale));
    }
    return root;
  }

  private static RealMatrix symmetric(RealMatrix a) {
    return a.add(a.transpose()).scalarMultiply(0.5);
  }

  private static double most(RealMatrix a) {
    double most = 0;
    for (double[] row : a.getData()) {
      for (double v : row) {
        most = Math.max(most, Math.abs(v));
      }
    }
    return most;
  }

  int states() {
    return input.getDimension();
  }

  /** The first states of the balanced form, split into modes or whole. */
  NoiseSections truncated(int states, boolean modes) {
    if (states == 0) {
      return NoiseSections.white(direct);
    }
    RealMatrix x = lessIdentity.getSubMatrix(0, states - 1, 0, states - 1);
    RealVector b = input.getSubVector(0, states);
    RealVector c = output.getSubVector(0, states);
    return modes ? NoiseSections.modes(x, b, c, direct) : NoiseSections.whole(x, b, c, direct);
  }
}
