package org.asmeasured.measure;

import java.util.ArrayDeque;
import java.util.Deque;
import org.apache.commons.math3.analysis.solvers.BrentSolver;
import org.apache.commons.math3.optim.MaxEval;
import org.apache.commons.math3.optim.nonlinear.scalar.GoalType;
import org.apache.commons.math3.optim.univariate.BrentOptimizer;
import org.apache.commons.math3.optim.univariate.SearchInterval;
import org.apache.commons.math3.optim.univariate.UnivariateObjectiveFunction;
import org.asmeasured.signal.Waveform;

/**
 * A waveform from knot to knot. A jump is a piece without duration. A piece that may reach a level
 * by turning is cut at its turning point.
 */
final class WaveformPath extends Path {
  private static final double SHARE_OF_PIECE = 1e-13;
  private static final double LAST_PLACE = 0x1p-53;
  private static final int MAX_EVALUATIONS = 500;

  private final Waveform waveform;
  private final double[] knots;
  private final double[] levels;
  private final Deque<Piece> ahead = new ArrayDeque<>();
  private int knot;
  private double left;

  WaveformPath(Waveform waveform, double fromSeconds, double toSeconds, double... levels) {
    this.waveform = waveform;
    this.levels = levels;
    knots = waveform.knots(fromSeconds, toSeconds);
    left = waveform.valueAt(knots[0]);
  }

  @Override
  boolean next() {
    while (ahead.isEmpty()) {
      if (knot + 1 >= knots.length) {
        return false;
      }
      knot++;
      cut(knots[knot - 1], knots[knot]);
    }
    Piece piece = ahead.removeFirst();
    startSeconds = piece.startSeconds();
    startVolts = piece.startVolts();
    endSeconds = piece.endSeconds();
    endVolts = piece.endVolts();
    return true;
  }

  private void cut(double a, double b) {
    double right = waveform.valueBefore(b);
    double m = a + (b - a) / 2;
    if (m > a && m < b) {
      double middle = waveform.valueAt(m);
      double bend = Math.abs(left - 2 * middle + right);
      double greatest = Math.max(middle, Math.max(left, right));
      double least = Math.min(middle, Math.min(left, right));
      if (anyWithin(greatest, greatest + bend)) {
        m = turning(a, b, GoalType.MAXIMIZE);
        middle = waveform.valueAt(m);
      } else if (anyWithin(least - bend, least)) {
        m = turning(a, b, GoalType.MINIMIZE);
        middle = waveform.valueAt(m);
      }
      ahead.addLast(new Piece(a, left, m, middle));
      ahead.addLast(new Piece(m, middle, b, right));
    } else {
      ahead.addLast(new Piece(a, left, b, right));
    }
    left = waveform.valueAt(b);
    if (left != right) {
      ahead.addLast(new Piece(b, right, b, left));
    }
  }

  private boolean anyWithin(double low, double high) {
    for (double level : levels) {
      if (level >= low && level <= high && low < high) {
        return true;
      }
    }
    return false;
  }

  private double turning(double a, double b, GoalType goal) {
    return new BrentOptimizer(1e-9, Math.max(Double.MIN_NORMAL, (b - a) * 1e-9))
        .optimize(
            new MaxEval(MAX_EVALUATIONS),
            new UnivariateObjectiveFunction(waveform::valueAt),
            goal,
            new SearchInterval(a, b))
        .getPoint();
  }

  @Override
  double instant(Piece piece, double level) {
    double a = piece.startSeconds();
    double b = piece.endSeconds();
    if (a == b || piece.endVolts() == level) {
      return b;
    }
    BrentSolver solver =
        new BrentSolver(LAST_PLACE, Math.max(Double.MIN_NORMAL, SHARE_OF_PIECE * (b - a)), 0);
    return solver.solve(
        MAX_EVALUATIONS,
        t ->
            (t <= a ? piece.startVolts() : t >= b ? piece.endVolts() : waveform.valueAt(t)) - level,
        a,
        b);
  }
}
