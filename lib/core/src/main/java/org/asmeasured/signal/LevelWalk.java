package org.asmeasured.signal;

import java.util.ArrayDeque;
import java.util.Deque;
import org.apache.commons.math3.analysis.solvers.BrentSolver;
import org.apache.commons.math3.optim.MaxEval;
import org.apache.commons.math3.optim.nonlinear.scalar.GoalType;
import org.apache.commons.math3.optim.univariate.BrentOptimizer;
import org.apache.commons.math3.optim.univariate.SearchInterval;
import org.apache.commons.math3.optim.univariate.UnivariateObjectiveFunction;

/**
 * A waveform, or its mirror image, as a walk along pieces, on each of which it rises or falls only;
 * a jump is a piece without duration. Pieces are cut at a turning point where this may lie beyond a
 * level of interest and the ends do not, or at every turning point.
 *
 * <p>Instants are a knot and the time after it, so that a picosecond is told from the next at any
 * time of day. Roots are bracketed, and found to 1e-13 of their piece.
 *
 * <p>A walk is a working object: it belongs to one thread.
 */
public final class LevelWalk {
  private static final int MAX_PIECES = 1 << 22;
  private static final int FEW_KNOTS = 1 << 8;
  private static final double SHARE_OF_PIECE = 1e-13;
  private static final double LAST_PLACE = 0x1p-53;
  private static final double SHARE_FOR_SLOPE = 1e-4;
  private static final double JUMP = 1e-9;
  private static final double LATEST = 1e12;
  private static final int MAX_EVALUATIONS = 500;

  /** How far outside its piece the turn of a parabola through three values is looked for. */
  private static final double MARGIN_OF_TURN = 0.25;

  private final Waveform waveform;
  private final double sign;
  private final double[] levels;
  private final Deque<Piece> ahead = new ArrayDeque<>();
  private double[] knots;
  private int knot;
  private double chunkSeconds;
  private double left;
  private long pieces;

  /**
   * A piece, on a stretch between two knots.
   *
   * @param knot the instant at which the stretch begins, seconds
   * @param length of the stretch, seconds
   * @param x0 start of the piece, seconds after the knot
   * @param v0 the value there, volts
   * @param x1 end of the piece, seconds after the knot; a jump has no duration
   * @param v1 the value there, volts
   */
  public record Piece(double knot, double length, double x0, double v0, double x1, double v1) {
    /**
     * Whether the piece has no duration.
     *
     * @return true for a jump
     */
    public boolean isJump() {
      return x0 == x1;
    }
  }

  /**
   * A walk without end from an instant on, with a piece for a jump at that very instant. Knots are
   * asked for chunk by chunk.
   *
   * @param waveform what is walked along
   * @param sign 1, or -1 for the mirror image
   * @param fromSeconds start
   * @param chunkSeconds for how long knots are asked for at first, above 0 s
   * @param levels of interest, volts; of the mirror image if so
   */
  public LevelWalk(
      Waveform waveform, double sign, double fromSeconds, double chunkSeconds, double... levels) {
    this.waveform = waveform;
    this.sign = sign;
    this.levels = levels.clone();
    this.chunkSeconds = chunkSeconds;
    knots = new double[] {fromSeconds};
    left = sign * waveform.valueAt(fromSeconds);
    double before = sign * waveform.valueBefore(fromSeconds);
    ahead.add(new Piece(fromSeconds, 0, 0, before, 0, left));
  }

  private LevelWalk(Waveform waveform, double[] knots) {
    this.waveform = waveform;
    sign = 1;
    levels = null;
    this.knots = knots;
    left = waveform.valueAt(knots[0]);
  }

  /**
   * A walk over a closed span that is cut at every turning point. A jump at its start has been, one
   * at its end is to come.
   *
   * @param waveform what is walked along
   * @param fromSeconds start of the span
   * @param toSeconds end of the span, after its start
   * @return the walk; {@link #next} gives null at the end of the span
   * @throws IllegalArgumentException if the waveform refuses the span: more knots than it lists
   */
  public static LevelWalk over(Waveform waveform, double fromSeconds, double toSeconds) {
    return new LevelWalk(waveform, waveform.knots(fromSeconds, toSeconds));
  }

  /**
   * The latest instant that was walked to.
   *
   * @return seconds
   */
  public double reachedSeconds() {
    return knots[knot];
  }

  /**
   * Whether the walk has been as long as it may be, 2<sup>22</sup> stretches.
   *
   * @return true if it will go no further
   */
  public boolean isExhausted() {
    return pieces >= MAX_PIECES;
  }

  /**
   * The next piece.
   *
   * @param untilSeconds up to when
   * @return null when the piece would begin at or after that instant, or the walk is exhausted
   */
  public Piece next(double untilSeconds) {
    while (ahead.isEmpty()) {
      if (isExhausted()) {
        return null;
      }
      if (knot + 1 >= knots.length) {
        double from = knots[knot];
        double until = Math.min(untilSeconds, LATEST);
        if (levels == null || !(from < until && moreKnots(from, until))) {
          return null;
        }
      }
      cut(knots[knot], knots[knot + 1], levels == null && knot + 2 == knots.length);
      knot++;
      pieces++;
    }
    return ahead.remove();
  }

  private boolean moreKnots(double from, double until) {
    while (true) {
      double to = Math.max(Math.min(from + chunkSeconds, until), Math.nextUp(from));
      try {
        knots = waveform.knots(from, to);
        knot = 0;
        if (knots.length < FEW_KNOTS) {
          chunkSeconds *= 4;
        }
        return true;
      } catch (IllegalArgumentException e) {
        // more knots than the waveform is willing to list at once
        if (to == Math.nextUp(from)) {
          pieces = MAX_PIECES;
          return false;
        }
        chunkSeconds = (to - from) / 1024;
      }
    }
  }

  private void cut(double a, double b, boolean last) {
    double d = b - a;
    double right = sign * waveform.valueBefore(b);
    double start = left;
    double middle = value(a, d / 2);
    double bend = start - 2 * middle + right;
    double greatest = Math.max(middle, Math.max(start, right));
    double least = Math.min(middle, Math.min(start, right));
    double m = d / 2;
    if (bend < 0 && mayTurn(start, bend, right) && anyWithin(greatest, greatest - bend)) {
      m = turning(a, d, GoalType.MAXIMIZE);
      middle = value(a, m);
    } else if (bend > 0 && mayTurn(start, bend, right) && anyWithin(least - bend, least)) {
      m = turning(a, d, GoalType.MINIMIZE);
      middle = value(a, m);
    }
    ahead.add(new Piece(a, d, 0, start, m, middle));
    ahead.add(new Piece(a, d, m, middle, d, right));
    left = sign * waveform.valueAt(b);
    if (left != right && !last) {
      ahead.add(new Piece(a, d, d, right, d, left));
    }
  }

  /** Whether the parabola through three values turns within the piece, or nearly so. */
  private boolean mayTurn(double start, double bend, double right) {
    if (levels != null) {
      return true;
    }
    double vertex = 0.5 - (right - start) / (4 * bend);
    return vertex > -MARGIN_OF_TURN && vertex < 1 + MARGIN_OF_TURN;
  }

  private boolean anyWithin(double low, double high) {
    if (levels == null) {
      return true;
    }
    for (double level : levels) {
      if (level >= low && level <= high) {
        return true;
      }
    }
    return false;
  }

  private double turning(double a, double d, GoalType goal) {
    return new BrentOptimizer(1e-9, Math.max(Double.MIN_NORMAL, d * 1e-9))
        .optimize(
            new MaxEval(MAX_EVALUATIONS),
            new UnivariateObjectiveFunction(x -> value(a, x)),
            goal,
            new SearchInterval(0, d))
        .getPoint();
  }

  /**
   * When a piece reaches a level between its two ends.
   *
   * @param piece one of this walk
   * @param level volts, from v0 to v1
   * @return seconds after the piece's knot
   */
  public double crossing(Piece piece, double level) {
    if (piece.isJump() || piece.v1() == level) {
      return piece.x1();
    }
    double width = piece.x1() - piece.x0();
    BrentSolver solver =
        new BrentSolver(LAST_PLACE, Math.max(Double.MIN_NORMAL, SHARE_OF_PIECE * width), 0);
    return solver.solve(
        MAX_EVALUATIONS,
        x ->
            (x <= piece.x0() ? piece.v0() : x >= piece.x1() ? piece.v1() : value(piece.knot(), x))
                - level,
        piece.x0(),
        piece.x1());
  }

  /**
   * The slope of the waveform, by a parabola through three values within the piece's stretch, exact
   * to about 1e-8.
   *
   * @param piece one of this walk
   * @param x seconds after the piece's knot
   * @return V/s, not of the mirror image; infinite at a jump that is more than rounding
   */
  public double slope(Piece piece, double x) {
    double d = piece.length();
    if (piece.isJump()
        && (d == 0 || Math.abs(piece.v1() - piece.v0()) > JUMP * Math.abs(piece.v1()))) {
      return Math.copySign(Double.POSITIVE_INFINITY, sign * (piece.v1() - piece.v0()));
    }
    double h = SHARE_FOR_SLOPE * d;
    double c = Math.max(h, Math.min(d - 2 * h, x));
    double a = piece.knot();
    double f0 = value(a, c - h);
    double f1 = value(a, c);
    double f2 = value(a, c + h);
    return sign * ((f2 - f0) / (2 * h) + (x - c) * ((f2 - f1) - (f1 - f0)) / (h * h));
  }

  private double value(double knot, double x) {
    return sign * waveform.valueAt(knot, x);
  }
}
