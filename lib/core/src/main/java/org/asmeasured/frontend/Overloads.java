package org.asmeasured.frontend;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.apache.commons.math3.analysis.solvers.BrentSolver;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.ArrayRealVector;
import org.apache.commons.math3.linear.LUDecomposition;
import org.apache.commons.math3.optim.MaxEval;
import org.apache.commons.math3.optim.nonlinear.scalar.GoalType;
import org.apache.commons.math3.optim.univariate.BrentOptimizer;
import org.apache.commons.math3.optim.univariate.SearchInterval;
import org.apache.commons.math3.optim.univariate.UnivariateObjectiveFunction;
import org.asmeasured.internal.Require;
import org.asmeasured.signal.Segments;
import org.asmeasured.signal.Waveform;

/**
 * Finds where a waveform lies outside two levels, by its crossings of them, and describes what lies
 * outside in segments of the family that a linear system maps to itself.
 *
 * <p>On a short piece the excess is interpolated by a constant, a slope and three harmonics of a
 * frequency below one cycle of the piece, at eight Chebyshev nodes; a piece is halved until places
 * between the nodes agree to 1e-12 of the levels or the excess, whichever is larger. Eight such
 * functions do on a short piece what a polynomial of degree seven does, and stay in the family.
 */
final class Overloads {
  private static final int MAX_SEGMENTS = 1 << 20;
  private static final double TOLERANCE = 1e-12;
  private static final int NODES = 8;
  private static final int HARMONICS = 3;
  private static final int MAX_HALVINGS = 40;

  /** Shorter pieces would ask for frequencies that no signal has. */
  private static final double SLIVER_SECONDS = 4e-15;

  private static final BrentSolver ROOTS = new BrentSolver(0x1p-52, 0x1p-1022, 0x1p-52);

  private final Waveform x;
  private final double low;
  private final double high;
  private final double base;

  /** Ascending starts after the base, ends, and which level is exceeded: +1 or -1. */
  private final List<double[]> stretches = new ArrayList<>();

  private final Segments segments = new Segments();
  private double described;

  /** Ends of overloads after the base, and the greatest excess of each. */
  final List<double[]> ends = new ArrayList<>();

  Overloads(Waveform x, double low, double high, double from, double to) {
    this.x = x;
    this.low = low;
    this.high = high;
    base = from;
    find(from, to);
    describe(to);
  }

  boolean isEmpty() {
    return stretches.isEmpty();
  }

  /** What lies outside, from the base on. */
  Segments segments() {
    return segments;
  }

  private int side(double v) {
    return v > high ? 1 : v < low ? -1 : 0;
  }

  // Where.

  private void find(double from, double to) {
    double[] knots = x.knots(from, to);
    for (int i = 0; i + 1 < knots.length; i++) {
      double p = knots[i];
      double q = knots[i + 1];
      double vp = x.valueAt(p);
      double vq = x.valueBefore(q);
      double m = p + (q - p) / 2;
      if (!(m > p && m < q)) {
        monotone(p, q, vp, vq);
        continue;
      }
      double vm = x.valueAt(m);
      double bend = Math.abs(vp - 2 * vm + vq);
      double most = Math.max(vm, Math.max(vp, vq)) + bend;
      double least = Math.min(vm, Math.min(vp, vq)) - bend;
      if (side(most) == side(least) && side(most) == 0) {
        continue;
      }
      // a parabola through the three has its vertex inside if it bends more than a quarter of its
      // rise; beyond that the piece is monotone
      if (4 * bend > 0.5 * Math.abs(vq - vp)) {
        boolean up = vm > vp + (vq - vp) / 2;
        double vertex = turn(p, q, up);
        if (vertex > p && vertex < q) {
          double v = x.valueAt(vertex);
          monotone(p, vertex, vp, v);
          monotone(vertex, q, v, vq);
          continue;
        }
      }
      monotone(p, q, vp, vq);
    }
  }

  private double turn(double p, double q, boolean up) {
    return new BrentOptimizer(1e-9, Math.max(Double.MIN_NORMAL, (q - p) * 1e-9))
        .optimize(
            new MaxEval(300),
            new UnivariateObjectiveFunction(x::valueAt),
            up ? GoalType.MAXIMIZE : GoalType.MINIMIZE,
            new SearchInterval(p, q))
        .getPoint();
  }

  private void monotone(double p, double q, double vp, double vq) {
    double at = p;
    double value = vp;
    int side = side(vp);
    int last = side(vq);
    while (side != last) {
      // leave the present side, towards the last
      double level = side == 0 ? (last > 0 ? high : low) : side > 0 ? high : low;
      double crossing = crossing(at, q, value, vq, level);
      add(at, crossing, side, value, level);
      at = crossing;
      value = level;
      side += Integer.signum(last - side);
    }
    add(at, q, side, value, vq);
  }

  private double crossing(double p, double q, double vp, double vq, double level) {
    if (vp == level || !(q > p)) {
      return p;
    }
    double middle = p + (q - p) / 2;
    // between neighbouring doubles there is nothing to find
    if (vq == level || !(middle > p && middle < q)) {
      return q;
    }
    return ROOTS.solve(200, t -> (t >= q ? vq : t <= p ? vp : x.valueAt(t)) - level, p, q, middle);
  }

  private void add(double from, double to, int side, double first, double last) {
    if (side != 0 && to > from) {
      double level = side > 0 ? high : low;
      double most = Math.max(side * (first - level), side * (last - level));
      stretches.add(new double[] {from - base, to - base, side, most});
    }
  }

  // What.

  private void describe(double to) {
    if (stretches.isEmpty()) {
      return;
    }
    double end = to - base;
    double most = 0;
    for (int i = 0; i < stretches.size(); i++) {
      double[] s = stretches.get(i);
      if (s[0] > described || segments.count() == 0 && s[0] > 0) {
        silence();
      }
      fit(s[0], s[1], s[2] > 0 ? high : low, 0);
      described = s[1];
      most = Math.max(most, s[3]);
      boolean goesOn =
          i + 1 < stretches.size()
              && stretches.get(i + 1)[0] == s[1]
              && stretches.get(i + 1)[2] == s[2];
      if (!goesOn) {
        if (s[1] < end) {
          ends.add(new double[] {s[1], s[2] * most});
        }
        most = 0;
      }
    }
    if (described < end) {
      silence();
    }
  }

  private void silence() {
    segments.add(described, 0, 0);
  }

  private void fit(double start, double end, double level, int halvings) {
    double length = end - start;
    if (length < SLIVER_SECONDS) {
      line(start, length, level);
      return;
    }
    // a power of two, so that many pieces share few frequencies
    double turn = Math.scalb(1.0, (int) Math.floor(Math.log(1.2 / length) / Math.log(2)));
    double[][] rows = new double[NODES][];
    double[] want = new double[NODES];
    for (int k = 0; k < NODES; k++) {
      double u = length * (0.5 - 0.5 * Math.cos(Math.PI * (k + 0.5) / NODES));
      rows[k] = basis(u, length, turn);
      want[k] = x.valueAt(base + (start + u)) - level;
    }
    double[] c =
        new LUDecomposition(new Array2DRowRealMatrix(rows, false), 0)
            .getSolver()
            .solve(new ArrayRealVector(want, false))
            .toArray();
    double scale = Double.MIN_NORMAL;
    for (double v : want) {
      scale = Math.max(scale, Math.abs(v) + Math.abs(level));
    }
    double middle = start + length / 2;
    boolean halves = halvings < MAX_HALVINGS && middle > start && middle < end;
    if (halves && !agrees(c, start, length, level, turn, TOLERANCE * scale)) {
      fit(start, middle, level, halvings + 1);
      fit(middle, end, level, halvings + 1);
      return;
    }
    Require.that(
        segments.count() < MAX_SEGMENTS,
        "more than " + MAX_SEGMENTS + " segments of overload from " + base + " s: ask for less");
    segments.add(start, c[0], c[1] / length);
    double hertz = turn / (2 * Math.PI);
    for (int n = 1; n <= HARMONICS; n++) {
      segments.term(c[2 * n], c[2 * n + 1], 0, n * hertz);
    }
  }

  /** Between a knot and a crossing that all but meet: straight. */
  private void line(double start, double length, double level) {
    double a = x.valueAt(base + (start + length / 4)) - level;
    double b = x.valueAt(base + (start + length * 3 / 4)) - level;
    segments.add(start, a - (b - a) / 2, (b - a) / (length / 2));
  }

  private static double[] basis(double u, double length, double turn) {
    double[] b = new double[NODES];
    b[0] = 1;
    b[1] = u / length;
    for (int n = 1; n <= HARMONICS; n++) {
      b[2 * n] = Math.cos(n * turn * u);
      b[2 * n + 1] = Math.sin(n * turn * u);
    }
    return b;
  }

  private boolean agrees(
      double[] c, double start, double length, double level, double turn, double tolerance) {
    for (int k = 1; k < NODES; k++) {
      double u = length * (0.5 - 0.5 * Math.cos(Math.PI * k / NODES));
      double[] b = basis(u, length, turn);
      double sum = 0;
      for (int i = 0; i < NODES; i++) {
        sum += b[i] * c[i];
      }
      if (!(Math.abs(sum - (x.valueAt(base + (start + u)) - level)) <= tolerance)) {
        return false;
      }
    }
    return true;
  }

  /** The greatest instant described, after the base. */
  double[] endInstants() {
    return ends.stream().mapToDouble(e -> e[0]).toArray();
  }

  @Override
  public String toString() {
    return stretches.size() + " stretches, " + Arrays.toString(endInstants());
  }
}
