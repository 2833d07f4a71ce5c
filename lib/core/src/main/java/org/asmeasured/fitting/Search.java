package org.asmeasured.fitting;

import java.util.Arrays;
import java.util.concurrent.CancellationException;
import org.asmeasured.uncertainty.Progress;

/**
 * The least sum of squares within the bounds, by steps of Gauss and Newton that are damped as they
 * must be (K. Levenberg 1944; D. Marquardt, J. SIAM 11 (1963) 431).
 *
 * <p>An unknown at a bound that the sum of squares falls beyond stays there for the step; a step
 * that leaves the bounds ends on them.
 */
final class Search {
  private static final double FIRST_DAMPING = 1e-3;
  private static final double LEAST_DAMPING = 1e-12;
  private static final double MOST_DAMPING = 1e12;

  /** Of the sum of squares: a step that takes less from it cannot be judged by its rounding. */
  private static final double SEEN = 1e-13;

  /** The same at the end. */
  private static final double ENOUGH = 1e-20;

  /** The same where rounding lets no step succeed. */
  private static final double STALLED = 1e-8;

  /** A sum of squares that differs by rounding alone. */
  private static final double SAME = 1 + 1e-12;

  /** Of a step, after which it is seen how far the points have bent. */
  private static final double PART = 0.1;

  private static final double MOST_BENT = 0.4;

  private final ChainCurve curve;
  private final double[] data;
  private final double[] weights;
  private final double rounding;

  private double[] values;
  private double[] points;
  private double[] residuals;
  private double cost;
  private double[][] columns;
  private int steps;

  /**
   * A search.
   *
   * @param weights one over the standard deviation, for each recording
   */
  Search(ChainCurve curve, double[] data, double[] weights) {
    this.curve = curve;
    this.data = data;
    this.weights = weights;
    double largest = 0;
    for (int i = 0; i < weights.length; i++) {
      for (int k = curve.first(i); k < curve.first(i + 1); k++) {
        largest = Math.max(largest, Math.abs(data[k]) * weights[i]);
      }
    }
    double unit = 1e-15 * largest;
    rounding = unit * unit * curve.unknowns().size();
  }

  double[] values() {
    return values;
  }

  double[] points() {
    return points;
  }

  /** Data less points, over the standard deviation. */
  double[] residuals() {
    return residuals;
  }

  double cost() {
    return cost;
  }

  /** Derivatives over the standard deviation. */
  double[][] columns() {
    return columns;
  }

  int steps() {
    return steps;
  }

  private double[] weighted(double[] points) {
    double[] r = new double[points.length];
    for (int i = 0; i < weights.length; i++) {
      for (int k = curve.first(i); k < curve.first(i + 1); k++) {
        r[k] = (data[k] - points[k]) * weights[i];
      }
    }
    return r;
  }

  private void move(double[] to, double[] there, double[] left, double sum) {
    values = to;
    points = there;
    residuals = left;
    cost = sum;
  }

  private void derive() {
    columns = curve.slopes(values, points);
    for (double[] column : columns) {
      for (int i = 0; i < weights.length; i++) {
        for (int k = curve.first(i); k < curve.first(i + 1); k++) {
          column[k] *= weights[i];
        }
      }
    }
  }

  private boolean[] free(double[] gradient) {
    boolean[] free = new boolean[gradient.length];
    for (int j = 0; j < free.length; j++) {
      Unknown u = curve.unknowns().get(j);
      free[j] =
          !(values[j] <= u.lowest() && gradient[j] <= 0)
              && !(values[j] >= u.highest() && gradient[j] >= 0);
    }
    return free;
  }

  private double[] moved(double[] step) {
    double[] to = values.clone();
    for (int j = 0; j < to.length; j++) {
      to[j] = curve.unknowns().get(j).clamped(to[j] + step[j]);
    }
    return to;
  }

  /**
   * A damped step, bent as the points bend along it where that is a small part of it: the sum of
   * squares may be a narrow valley that is not straight (M. Transtrum, J. Sethna, arXiv:1201.5885).
   */
  private double[] step(double[][] g, double[] gradient, boolean[] free, double damping) {
    double[] step = Normal.solve(g, gradient, free, damping);
    double[] part = new double[step.length];
    for (int j = 0; j < step.length; j++) {
      part[j] = PART * step[j];
    }
    double[] to = moved(part);
    for (int j = 0; j < to.length; j++) {
      if (to[j] != values[j] + part[j]) {
        return step; // a bound is nearer
      }
    }
    double[] left = weighted(curve.at(to));
    for (int k = 0; k < left.length; k++) {
      left[k] = (left[k] - residuals[k]) / PART;
    }
    for (int j = 0; j < step.length; j++) {
      for (int k = 0; k < left.length; k++) {
        left[k] += columns[j][k] * step[j];
      }
    }
    double[] bend = Normal.solve(g, Normal.products(columns, left), free, damping);
    double straight = 0;
    double bent = 0;
    for (int j = 0; j < step.length; j++) {
      straight += g[j][j] * step[j] * step[j];
      bent += g[j][j] * bend[j] * bend[j] / (PART * PART);
    }
    if (bent <= MOST_BENT * MOST_BENT * straight) {
      for (int j = 0; j < step.length; j++) {
        step[j] += bend[j] / PART;
      }
    }
    return step;
  }

  /** Whether it has come to an end; the columns are then those there. */
  boolean run(double[] start, int most, Progress progress) {
    double[] there = curve.at(start);
    double[] left = weighted(there);
    move(start.clone(), there, left, Normal.dot(left, left));
    double damping = FIRST_DAMPING;
    double lastGain = Double.POSITIVE_INFINITY;
    for (steps = 1; ; steps++) {
      if (!progress.goOn(steps - 1, most)) {
        throw new CancellationException("fit cancelled: as asked");
      }
      derive();
      double[][] g = Normal.products(columns, columns);
      double[] gradient = Normal.products(columns, residuals);
      boolean[] free = free(gradient);
      double[] full = Normal.solve(g, gradient, free, LEAST_DAMPING);
      double gain = 0;
      for (int j = 0; j < full.length; j++) {
        gain += full[j] * gradient[j];
      }
      double scale = Math.max(cost, 1);
      if (gain <= Math.max(rounding, ENOUGH * scale)) {
        return true;
      }
      boolean moved;
      if (gain <= SEEN * scale) {
        // on to the last digits, as long as what is left falls
        moved = gain < lastGain && accepted(moved(full), SAME);
        lastGain = gain / 2;
        if (!moved) {
          return true;
        }
      } else {
        moved = false;
        while (!moved && damping <= MOST_DAMPING) {
          double[] to = moved(step(g, gradient, free, damping));
          if (Arrays.equals(to, values)) {
            break;
          }
          moved = accepted(to, 1);
          damping = moved ? Math.max(LEAST_DAMPING, damping / 10) : damping * 10;
        }
      }
      if (!moved) {
        return gain <= STALLED * scale;
      }
      if (steps == most) {
        derive();
        return false;
      }
    }
  }

  /** Goes there if the sum of squares is then below its present value times the factor. */
  private boolean accepted(double[] to, double factor) {
    double[] there = curve.at(to);
    double[] left = weighted(there);
    double sum = Normal.dot(left, left);
    if (!(sum < cost * factor)) {
      return false;
    }
    move(to, there, left, sum);
    return true;
  }
}
