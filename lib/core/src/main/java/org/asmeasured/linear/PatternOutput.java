package org.asmeasured.linear;

import org.asmeasured.internal.ExtendedTime;
import org.asmeasured.signal.Pattern;

/**
 * A pattern as it comes out of a response. The state at the start of every segment is worked out
 * once, in the settled state for a repeated pattern and from rest for one played once; after that,
 * any instant is reached from the start of its own segment, so the output is a pure function of
 * time and nothing drifts.
 */
final class PatternOutput {
  private static final int KEPT_PIECES = 4096;
  private static final double SMALL = 0.5;

  final Pattern pattern;
  final Modes modes;
  private final double[] states;
  private final Piece[] pieces;

  /** Below this amplitude a mode cannot be seen in the output. */
  final double unseen;

  PatternOutput(Pattern pattern, Modes modes) {
    this.pattern = pattern;
    this.modes = modes;
    int width = 2 * modes.states;
    int n = pattern.count();
    if ((long) width * n > Integer.MAX_VALUE - 8) {
      throw new IllegalArgumentException(
          "the signal has "
              + n
              + " segments and the response "
              + modes.states
              + " states: their product must be below 2^30");
    }
    states = new double[width * n];
    SegmentWork work = new SegmentWork(modes);
    Piece piece = new Piece(modes, work);
    if (pattern.isPeriodic()) {
      settle(piece, width, n);
    }
    pieces = n <= KEPT_PIECES ? new Piece[n] : null;
    for (int i = 0; i < n; i++) {
      if (pieces != null) {
        piece = i == 0 ? piece : new Piece(modes, work);
        pieces[i] = piece;
      }
      boolean last = i + 1 == n;
      if (pieces != null || !last) {
        piece.compute(pattern, i, states, i * width, last ? null : states, (i + 1) * width);
      }
    }
    double bound = pattern.bound();
    unseen = bound < Double.POSITIVE_INFINITY ? 0x1p-56 * bound * modes.weight : 0;
  }

  /**
   * Starts the first segment from the state that a whole period leads back to: (I - E) x = what a
   * period adds to rest.
   */
  private void settle(Piece piece, int width, int n) {
    double[] now = new double[width];
    double[] next = new double[width];
    for (int i = 0; i < n; i++) {
      piece.compute(pattern, i, now, 0, next, 0);
      double[] swap = now;
      now = next;
      next = swap;
    }
    int at = 0;
    for (Cluster cluster : modes.clusters) {
      int m = cluster.size;
      if (m == 1 && cluster.fastest * pattern.periodSeconds() >= SMALL) {
        settleLone(cluster, now, at);
        at += 2;
        continue;
      }
      // M = E - I, without cancellation where a period is short beside the cluster
      ChainExponential e = Chain.of(cluster).exponential();
      double period = pattern.periodSeconds();
      if (cluster.fastest * period < SMALL) {
        e.lessIdentityAt(period);
      } else {
        e.at(period);
        for (int i = 0; i < m; i++) {
          e.re[i * m + i] -= 1;
        }
      }
      for (int i = m - 1; i >= 0; i--) {
        double nr = now[at + 2 * i];
        double ni = now[at + 2 * i + 1];
        for (int j = i + 1; j < m; j++) {
          double xr = states[at + 2 * j];
          double xi = states[at + 2 * j + 1];
          nr += e.re[i * m + j] * xr - e.im[i * m + j] * xi;
          ni += e.re[i * m + j] * xi + e.im[i * m + j] * xr;
        }
        double dr = -e.re[i * m + i];
        double di = -e.im[i * m + i];
        double d2 = dr * dr + di * di;
        states[at + 2 * i] = (nr * dr + ni * di) / d2;
        states[at + 2 * i + 1] = (ni * dr - nr * di) / d2;
      }
      at += 2 * m;
    }
  }

  private void settleLone(Cluster cluster, double[] now, int at) {
    double period = pattern.periodSeconds();
    double e = Math.exp(cluster.re[0] * period);
    double dr = 1 - e * Math.cos(cluster.im[0] * period);
    double di = -e * Math.sin(cluster.im[0] * period);
    double d2 = dr * dr + di * di;
    states[at] = (now[at] * dr + now[at + 1] * di) / d2;
    states[at + 1] = (now[at + 1] * dr - now[at] * di) / d2;
  }

  /** The output on a segment; the scratch is used where pieces are too many to keep. */
  Piece piece(int segment, Piece scratch) {
    if (pieces != null) {
      return pieces[segment];
    }
    scratch.compute(pattern, segment, states, segment * 2 * modes.states, null, 0);
    return scratch;
  }

  /** Whether all pieces are kept. */
  boolean keepsPieces() {
    return pieces != null;
  }

  /**
   * A bound of the amplitude, real part and imaginary part together, that a lone mode has anywhere;
   * infinite where pieces are too many to keep.
   */
  double greatest(int cluster) {
    if (pieces == null) {
      return Double.POSITIVE_INFINITY;
    }
    double most = 0;
    for (Piece piece : pieces) {
      most = Math.max(most, Math.abs(piece.loneRe[cluster]) + Math.abs(piece.loneIm[cluster]));
    }
    // as the mode turns, the sum of its parts may grow by the square root of two
    return 2 * most;
  }

  /** The time since the origin, or since the start of the present period. */
  private ExtendedTime sinceOrigin(double hi, double lo) {
    ExtendedTime t = new ExtendedTime().set(hi, lo).add(-pattern.originHi(), -pattern.originLo());
    if (pattern.isPeriodic()) {
      t.removeWhole(pattern.periodSeconds(), pattern.periodLo());
    }
    return t;
  }

  double valueAt(double hi, double lo, boolean before) {
    ExtendedTime t = sinceOrigin(hi, lo);
    if (t.hi() < 0 || before && t.hi() == 0 && !pattern.isPeriodic()) {
      return 0;
    }
    int i;
    if (before && t.hi() == 0) {
      i = pattern.count() - 1;
      t.set(pattern.periodSeconds(), pattern.periodLo());
    } else {
      i = pattern.segmentAt(t.hi(), t.lo());
      if (before && t.hi() == pattern.startHi(i) && t.lo() == pattern.startLo(i)) {
        i--;
      }
    }
    t.add(-pattern.startHi(i), -pattern.startLo(i));
    return piece(i, pieces == null ? new Piece(modes) : null).valueAt(t.hi(), t.lo());
  }

  /** The greatest rate still alive at an instant, as the frequency of a sine that turns as fast. */
  double fastestAt(double timeSeconds, double timeConstants) {
    ExtendedTime t = sinceOrigin(timeSeconds, 0);
    if (t.hi() < 0) {
      return 0;
    }
    int i = pattern.segmentAt(t.hi(), t.lo());
    double u = t.hi() - pattern.startHi(i);
    double fastest = 0;
    for (int k = pattern.termFrom(i); k < pattern.termFrom(i + 1); k++) {
      if (-pattern.growth(k) * u < timeConstants) {
        fastest = Math.max(fastest, Math.max(pattern.frequencyHz(k), -pattern.growth(k) / 4));
      }
    }
    for (Cluster cluster : modes.clusters) {
      for (int k = 0; k < cluster.size; k++) {
        if (-cluster.re[k] * u < timeConstants) {
          fastest =
              Math.max(
                  fastest, Math.max(Math.abs(cluster.im[k]) / (2 * Math.PI), -cluster.re[k] / 4));
        }
      }
    }
    return fastest;
  }
}
