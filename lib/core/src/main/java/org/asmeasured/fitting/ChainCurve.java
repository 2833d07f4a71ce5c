package org.asmeasured.fitting;

import java.util.List;
import org.asmeasured.accuracy.Measurement;
import org.asmeasured.capture.Setup;
import org.asmeasured.internal.Parallel;

/**
 * The noiseless points of all recordings as a function of the unknowns, and its slopes by central
 * differences.
 *
 * <p>A difference is taken over so much of an unknown that the point which changes most does so by
 * about the cube root of the rounding: there rounding and bending both cost about 1e-11 of a slope.
 * Near an end of its range an unknown is moved inwards alone, by a formula of the same order.
 */
final class ChainCurve {
  /** Change of the prediction that a difference is taken over, as a fraction of its swing. */
  private static final double CHANGE = StrictMath.cbrt(0x1p-52);

  private static final double NEAR = 3;
  private static final int MOST_TRIES = 6;

  private final List<Recording> recordings;
  private final List<Unknown> unknowns;
  private final Measurement[] placed;
  private final int[] first;
  private final int threads;
  private final double[] steps;

  ChainCurve(List<Recording> recordings, List<Unknown> unknowns, int threads) {
    this.recordings = recordings;
    this.unknowns = unknowns;
    this.threads = threads;
    placed = recordings.stream().map(Recording::placed).toArray(Measurement[]::new);
    first = new int[recordings.size() + 1];
    for (int i = 0; i < recordings.size(); i++) {
      first[i + 1] = first[i] + recordings.get(i).record().size();
    }
    steps = new double[unknowns.size()];
    for (int j = 0; j < steps.length; j++) {
      steps[j] = CHANGE * width(j);
    }
  }

  private double width(int j) {
    return unknowns.get(j).highest() - unknowns.get(j).lowest();
  }

  List<Recording> recordings() {
    return recordings;
  }

  List<Unknown> unknowns() {
    return unknowns;
  }

  /** Index of a recording's first point among all; of one after the last, how many there are. */
  int first(int recording) {
    return first[recording];
  }

  int points() {
    return first[recordings.size()];
  }

  /** A recording's measurement at values of the unknowns. */
  Measurement measurement(int recording, double[] values) {
    Measurement m = placed[recording];
    for (int j = 0; j < values.length; j++) {
      if (unknowns.get(j).concerns(recording)) {
        m = unknowns.get(j).parameter().with(m, values[j]);
      }
    }
    return m;
  }

  /** All points, one recording after another. */
  double[] at(double[] values) {
    double[] all = new double[points()];
    for (int i = 0; i < recordings.size(); i++) {
      fill(i, values, all, first[i]);
    }
    return all;
  }

  private void fill(int recording, double[] values, double[] out, int offset) {
    Measurement m = measurement(recording, values);
    Setup setup = Recording.noiseless(m.setup());
    setup.capture(m.signal()).volts(0, out, offset, recordings.get(recording).record().size());
  }

  /** For each unknown the derivative of every point. */
  double[][] slopes(double[] values, double[] here) {
    double[][] columns = new double[unknowns.size()][];
    Parallel.each(columns.length, threads, j -> columns[j] = column(j, values, here));
    return columns;
  }

  private double[] column(int j, double[] values, double[] here) {
    double[] one = new double[here.length];
    double[] two = new double[here.length];
    double target = Double.MIN_NORMAL;
    for (int i = 0; i < recordings.size(); i++) {
      if (unknowns.get(j).concerns(i)) {
        target = Math.max(target, target(here, first[i], first[i + 1]));
      }
    }
    double step = steps[j];
    for (int tries = 1; ; tries++) {
      int side = side(j, values[j], step);
      double change = differences(j, values, here, side, step, one, two);
      double off = change / target;
      if (tries == MOST_TRIES || (off >= 1 / NEAR && off <= NEAR)) {
        steps[j] = step;
        for (int k = 0; k < one.length; k++) {
          one[k] /= step;
        }
        return one;
      }
      double next = step / Math.max(1e-4, Math.min(1e4, off));
      // a quarter of the range leaves room on one side at least
      next = Math.max(1e-12 * width(j), Math.min(width(j) / 4, next));
      next = Math.max(next, 1e3 * Math.ulp(values[j]));
      if (next == step) {
        tries = MOST_TRIES - 1;
      }
      step = next;
    }
  }

  /** 0 where there is room on both sides; else that on which there is. */
  private int side(int j, double value, double step) {
    Unknown u = unknowns.get(j);
    if (value - step >= u.lowest() && value + step <= u.highest()) {
      return 0;
    }
    return value - u.lowest() > u.highest() - value ? -1 : 1;
  }

  /** The derivative times the step into {@code one}; the largest of them. */
  private double differences(
      int j, double[] values, double[] here, int side, double step, double[] one, double[] two) {
    double[] moved = values.clone();
    double change = 0;
    for (int i = 0; i < recordings.size(); i++) {
      if (!unknowns.get(j).concerns(i)) {
        continue;
      }
      moved[j] = values[j] + (side == 0 ? step : side * step);
      fill(i, moved, one, first[i]);
      moved[j] = values[j] + (side == 0 ? -step : 2 * side * step);
      fill(i, moved, two, first[i]);
      if (side == 0) {
        central(one, two, first[i], first[i + 1]);
      } else {
        sided(side, here, one, two, first[i], first[i + 1]);
      }
      change = Math.max(change, largest(one, first[i], first[i + 1]));
    }
    return change;
  }

  private static void central(double[] up, double[] down, int from, int to) {
    for (int k = from; k < to; k++) {
      up[k] = (up[k] - down[k]) / 2;
    }
  }

  private static void sided(int side, double[] here, double[] one, double[] two, int from, int to) {
    for (int k = from; k < to; k++) {
      one[k] = side * (4 * (one[k] - here[k]) - (two[k] - here[k])) / 2;
    }
  }

  /**
   * The change at which rounding of the largest value and bending, which goes with the swing, weigh
   * the same: cbrt(rounding x largest x swing^2).
   */
  private static double target(double[] x, int from, int to) {
    double lowest = Double.POSITIVE_INFINITY;
    double highest = Double.NEGATIVE_INFINITY;
    for (int k = from; k < to; k++) {
      lowest = Math.min(lowest, x[k]);
      highest = Math.max(highest, x[k]);
    }
    double largest = Math.max(Math.abs(lowest), Math.abs(highest));
    double swing = highest > lowest ? highest - lowest : largest;
    return CHANGE * StrictMath.cbrt(largest) * StrictMath.pow(StrictMath.cbrt(swing), 2);
  }

  private static double largest(double[] x, int from, int to) {
    double largest = 0;
    for (int k = from; k < to; k++) {
      largest = Math.max(largest, Math.abs(x[k]));
    }
    return largest;
  }
}
