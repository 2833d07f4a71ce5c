package org.asmeasured.characterisation;

import java.util.Optional;
import org.ejml.data.DMatrixRMaj;
import org.ejml.dense.row.factory.LinearSolverFactory_DDRM;
import org.ejml.interfaces.linsol.LinearSolverDense;

/**
 * Least squares by Gauss and Newton: at each trial the linear problem is solved for what is left
 * over, so that rounding is that of the remainder. Three parameters are done at the second step;
 * the frequency, as the fourth, is halved back where a step makes things worse.
 */
final class SineSolver {
  private static final int MAX_STEPS = 60;

  /** Below this, columns scaled to length one are no longer told apart. */
  private static final double SINGULAR = 1e-11;

  /** A last step this small, of the amplitude and in radians at the ends, is the last one. */
  private static final double SMALL = 1e-12;

  /**
   * Values are within 1 of their middle; an amplitude below this is found to so many digits less.
   */
  private static final double LEAST = 1e-3;

  /** A trial: a cos + b sin + level, with the frequency in cycles a unit, in two doubles. */
  record Trial(double cycles, double more, double a, double b, double level) {
    /** A frequency alone. */
    static Trial at(double cycles) {
      return new Trial(cycles, 0, 0, 0, 0);
    }

    double amplitude() {
      return Math.hypot(a, b);
    }
  }

  /**
   * A fit.
   *
   * @param inverse of the normal matrix of a, b, level and radians at the ends
   */
  record Solution(Trial trial, double meanSquare, double[][] inverse, boolean converged) {}

  private SineSolver() {}

  /** At a given frequency; empty if cosine, sine and constant cannot be told apart there. */
  static Optional<Solution> linear(SineData data, double cycles) {
    return solve(data, Trial.at(cycles), false, 4, 0);
  }

  /** The frequency too, to the last place. */
  static Optional<Solution> free(SineData data, Trial start) {
    return solve(data, start, true, MAX_STEPS, SMALL);
  }

  /** The frequency too, roughly: a start for more points. */
  static Optional<Solution> rough(SineData data, Trial start) {
    return solve(data, start, true, 8, 1e-3);
  }

  private static Optional<Solution> solve(
      SineData data, Trial start, boolean free, int maxSteps, double small) {
    // the first step leaves the frequency alone: without an amplitude there is no derivative by it
    boolean move = free && start.amplitude() > 0;
    Trial trial = start;
    SineMoments m = data.at(trial);
    double step = Double.POSITIVE_INFINITY;
    for (int i = 0; i < maxSteps; i++) {
      int n = move ? 4 : 3;
      double[][] inverse = inverse(m.normal(trial.a(), trial.b()), n);
      if (inverse == null) {
        return Optional.empty();
      }
      if (move == free && step <= small) {
        return Optional.of(new Solution(trial, m.rr / m.ones, inverse, true));
      }
      double[] d = times(inverse, m.gradient(trial.a(), trial.b()));
      double turn = move ? d[3] : 0;
      double share = Math.min(1, Math.PI / 2 / Math.abs(turn));
      Trial next;
      SineMoments after;
      while (true) {
        next = stepped(trial, d, share, turn, data.half());
        after = data.at(next);
        if (!move || after.rr <= m.rr * (1 + 1e-9) || share * Math.abs(turn) < 1e-7) {
          break;
        }
        share /= 4;
      }
      double length = Math.max(Math.max(Math.abs(d[0]), Math.abs(d[1])), Math.abs(d[2]));
      step =
          Math.max(length, next.amplitude() * Math.abs(turn)) / Math.max(next.amplitude(), LEAST);
      if (!free) {
        // the second solution of the same linear problem removes the rounding of the first
        step = i == 0 ? Double.POSITIVE_INFINITY : 0;
      } else if (!move) {
        step = Double.POSITIVE_INFINITY;
      }
      trial = next;
      m = after;
      move = free;
    }
    double[][] inverse = inverse(m.normal(trial.a(), trial.b()), free ? 4 : 3);
    return inverse == null
        ? Optional.empty()
        : Optional.of(new Solution(trial, m.rr / m.ones, inverse, false));
  }

  private static Trial stepped(Trial t, double[] d, double share, double turn, double half) {
    // a step cut short in frequency keeps its amplitudes as cut as well
    double change = share * turn / half / (2 * Math.PI) + t.more();
    double cycles = t.cycles() + change;
    return new Trial(
        cycles,
        change - (cycles - t.cycles()),
        t.a() + share * d[0],
        t.b() + share * d[1],
        t.level() + share * d[2]);
  }

  private static double[] times(double[][] matrix, double[] vector) {
    double[] out = new double[4];
    for (int i = 0; i < matrix.length; i++) {
      for (int k = 0; k < matrix.length; k++) {
        out[i] += matrix[i][k] * vector[k];
      }
    }
    return out;
  }

  /** The inverse of the leading n rows and columns, or null if they are dependent. */
  static double[][] inverse(double[][] normal, int n) {
    double[] scale = new double[n];
    DMatrixRMaj matrix = new DMatrixRMaj(n, n);
    for (int i = 0; i < n; i++) {
      scale[i] = 1 / Math.sqrt(normal[i][i]);
      if (!(scale[i] > 0 && scale[i] < Double.POSITIVE_INFINITY)) {
        return null;
      }
    }
    for (int i = 0; i < n; i++) {
      for (int k = 0; k < n; k++) {
        matrix.set(i, k, normal[i][k] * scale[i] * scale[k]);
      }
    }
    LinearSolverDense<DMatrixRMaj> solver = LinearSolverFactory_DDRM.symmPosDef(n);
    if (!solver.setA(matrix)) {
      return null;
    }
    DMatrixRMaj inverse = new DMatrixRMaj(n, n);
    solver.invert(inverse);
    double[][] out = new double[n][n];
    for (int i = 0; i < n; i++) {
      // a diagonal of the inverse is how often a column is told apart from the others
      if (!(inverse.get(i, i) < 1 / SINGULAR)) {
        return null;
      }
      for (int k = 0; k < n; k++) {
        out[i][k] = inverse.get(i, k) * scale[i] * scale[k];
      }
    }
    return out;
  }
}
