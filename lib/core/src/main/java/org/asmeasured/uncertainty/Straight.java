package org.asmeasured.uncertainty;

import java.util.ArrayList;
import java.util.List;
import org.ejml.data.DMatrixRMaj;
import org.ejml.dense.row.factory.LinearSolverFactory_DDRM;
import org.ejml.interfaces.linsol.LinearSolverDense;

/**
 * The straight part of an output over a run of trials: its regression on the drawn inputs. What the
 * draws are known to be off, in mean and in covariance, is then put right: mean y - b (x - mu),
 * variance b' S b + variance of the remainder, S the exact covariance of the inputs.
 */
final class Straight {
  /** Trials for each slope, at least. */
  private static final int TRIALS_PER_SLOPE = 8;

  /** Which inputs have a standard deviation. */
  final int[] used;

  final double[] slopes;
  final double meanShift;
  final double variance;
  final double remainder;

  private Straight(int[] used, double[] slopes, double meanShift, double variance, double rest) {
    this.used = used;
    this.slopes = slopes;
    this.meanShift = meanShift;
    this.variance = variance;
    this.remainder = rest;
  }

  /** Null where there are too few trials. */
  static Straight of(Inputs inputs, Moments m, int output) {
    int[] used = used(inputs);
    int n = used.length;
    long trials = m.trials;
    if (n == 0 || trials < (long) TRIALS_PER_SLOPE * (n + 1)) {
      return null;
    }
    double[] sigma = new double[n];
    for (int i = 0; i < n; i++) {
      sigma[i] = inputs.get(used[i]).distribution().standardDeviation();
    }
    DMatrixRMaj a = new DMatrixRMaj(n, n);
    DMatrixRMaj b = new DMatrixRMaj(n, 1);
    double meanY = m.y[output] / trials;
    for (int i = 0; i < n; i++) {
      int p = used[i];
      for (int j = 0; j <= i; j++) {
        int q = used[j];
        double c =
            (m.xx[p * m.inputs + q] - m.x[p] * (m.x[q] / trials)) / (sigma[i] * sigma[j] * trials);
        a.set(i, j, c);
        a.set(j, i, c);
      }
      b.set(i, (m.xy[output * m.inputs + p] - m.x[p] * meanY) / (sigma[i] * trials));
    }
    double[] slope = solve(a, b);
    double total = m.yy[output] / trials - meanY * meanY;
    double explained = 0;
    double exact = 0;
    double shift = meanY;
    for (int i = 0; i < n; i++) {
      explained += slope[i] * b.get(i);
      shift -= slope[i] * (m.x[used[i]] / trials / sigma[i]);
      for (int j = 0; j < n; j++) {
        exact += slope[i] * inputs.correlation(used[i], used[j]) * slope[j];
      }
    }
    double rest = Math.max(0, total - explained) * trials / (trials - n - 1.0);
    double[] slopes = new double[n];
    for (int i = 0; i < n; i++) {
      slopes[i] = slope[i] / sigma[i];
    }
    return new Straight(used, slopes, shift, exact + rest, rest);
  }

  private static double[] solve(DMatrixRMaj a, DMatrixRMaj b) {
    DMatrixRMaj x = new DMatrixRMaj(a.numRows, 1);
    LinearSolverDense<DMatrixRMaj> solver = LinearSolverFactory_DDRM.chol(a.numRows);
    if (!solver.setA(a.copy()) || solver.quality() < 1e-10) {
      // inputs that are one and the same quantity share its slope
      solver = LinearSolverFactory_DDRM.pseudoInverse(true);
      solver.setA(a.copy());
    }
    solver.solve(b, x);
    return x.getData().clone();
  }

  private static int[] used(Inputs inputs) {
    List<Integer> used = new ArrayList<>();
    for (int i = 0; i < inputs.size(); i++) {
      if (inputs.get(i).distribution().standardDeviation() < Double.POSITIVE_INFINITY) {
        used.add(i);
      }
    }
    return used.stream().mapToInt(i -> i).toArray();
  }

  /** Lines of a budget, shares of the given variance. */
  List<BudgetLine> budget(Inputs inputs) {
    List<BudgetLine> lines = new ArrayList<>();
    for (int i = 0; i < used.length; i++) {
      Input input = inputs.get(used[i]);
      double sigma = input.distribution().standardDeviation();
      double with = 0;
      for (int j = 0; j < used.length; j++) {
        with +=
            inputs.correlation(used[i], used[j])
                * slopes[j]
                * inputs.get(used[j]).distribution().standardDeviation();
      }
      lines.add(
          new BudgetLine(
              input,
              input.distribution().estimate(),
              sigma,
              slopes[i],
              Math.abs(slopes[i]) * sigma,
              variance > 0 ? slopes[i] * sigma * with / variance : 0));
    }
    return lines;
  }
}
