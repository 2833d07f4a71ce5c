package org.asmeasured.linear;

/**
 * The output on one short segment as piecewise polynomials of the time since its start, for
 * patterns that come back to the segment again and again: where an edge comes every few samples, a
 * sample costs one polynomial, whatever the number of poles.
 *
 * <p>Each cell is short beside the fastest rate (|p| cell below a quarter), and interpolated at
 * eight Chebyshev points: the remainder is below 2e-14 of the mode's amplitude. A cell is worked
 * out when a sample first falls into it. Of lone modes that is a Taylor polynomial of degree 10,
 * whose last three powers are interpolated at those points; of all else, values at the points.
 */
final class PieceTable {
  /** Coefficients of a cell's polynomial. */
  static final int POINTS = 8;

  private static final int HIGHEST = 10;
  private static final double TURN = 0.25;
  private static final double[] NODES = new double[POINTS];
  private static final double[][] TO_POWERS = new double[POINTS][];

  /** The powers 8, 9 and 10 as polynomials of degree 7. */
  private static final double[][] HIGHER = new double[HIGHEST + 1 - POINTS][POINTS];

  static {
    for (int i = 0; i < POINTS; i++) {
      NODES[i] = 0.5 * Math.cos(Math.PI * (i + 0.5) / POINTS);
    }
    // coefficients of the Lagrange basis in powers of x, |x| <= 1/2
    for (int i = 0; i < POINTS; i++) {
      double[] c = new double[POINTS];
      c[0] = 1;
      int degree = 0;
      for (int k = 0; k < POINTS; k++) {
        if (k != i) {
          double scale = NODES[i] - NODES[k];
          for (int n = ++degree; n >= 0; n--) {
            c[n] = ((n > 0 ? c[n - 1] : 0) - NODES[k] * c[n]) / scale;
          }
        }
      }
      TO_POWERS[i] = c;
      for (int h = 0; h < HIGHER.length; h++) {
        for (int n = 0; n < POINTS; n++) {
          HIGHER[h][n] += Math.pow(NODES[i], POINTS + h) * c[n];
        }
      }
    }
  }

  private final Piece piece;
  private final CellModes modes;
  private final double cellSeconds;
  private final double cellsPerSample;
  private final int last;

  /** The coefficients of each cell, null until a sample falls into it. */
  private final double[][] cells;

  /**
   * A table without a cell worked out.
   *
   * @param modes of the piece, over cells of this length
   */
  PieceTable(Piece piece, CellModes modes, double length, int cells, double rateHz) {
    this.piece = piece;
    this.modes = modes;
    cellSeconds = length / cells;
    cellsPerSample = cells / (length * rateHz);
    last = cells - 1;
    this.cells = new double[cells][];
  }

  private double[] made(int cell) {
    double[] c = new double[POINTS];
    if (piece.isPlain()) {
      piece.taylor(modes, cell, cellSeconds, c);
    } else {
      for (int i = 0; i < POINTS; i++) {
        double v = piece.valueAt((cell + 0.5 + NODES[i]) * cellSeconds, 0);
        for (int n = 0; n < POINTS; n++) {
          c[n] += v * TO_POWERS[i][n];
        }
      }
    }
    cells[cell] = c;
    return c;
  }

  /** Modes over so many cells, for tables of pieces whose cells are as long. */
  static CellModes modes(Cluster[] clusters, double cellSeconds, int cells) {
    return new CellModes(clusters, cellSeconds, cells, HIGHER);
  }

  /** How many cells a segment of this length takes at this rate of change. */
  static double cells(double lengthSeconds, double fastestPerSecond) {
    return Math.max(1, Math.ceil(lengthSeconds * fastestPerSecond / TURN));
  }

  /** The output so many samples after the segment's start. */
  private double at(double samples) {
    double y = samples * cellsPerSample;
    int cell = Math.min((int) y, last);
    double x = y - cell - 0.5;
    double[] c = cells[cell];
    if (c == null) {
      c = made(cell);
    }
    double x2 = x * x;
    double a = Math.fma(c[1], x, c[0]);
    double b = Math.fma(c[3], x, c[2]);
    double e = Math.fma(c[5], x, c[4]);
    double f = Math.fma(c[7], x, c[6]);
    return Math.fma(Math.fma(Math.fma(f, x2, e), x2, b), x2, a);
  }

  /**
   * Reads samples {@code first}, {@code first + 1}, ... of the segment, of which sample 0 lies d
   * after its start; each later by its shift, if there are any.
   */
  void read(
      double d,
      long first,
      double[] shifts,
      int skip,
      double[] out,
      int offset,
      int count,
      boolean add) {
    if (shifts == null && !add) {
      for (int j = 0; j < count; j++) {
        out[offset + j] = at(d + (first + j));
      }
      return;
    }
    for (int j = 0; j < count; j++) {
      double samples = d + (first + j);
      double v = at(shifts == null ? samples : Math.max(0, samples + shifts[skip + j]));
      out[offset + j] = add ? out[offset + j] + v : v;
    }
  }
}
