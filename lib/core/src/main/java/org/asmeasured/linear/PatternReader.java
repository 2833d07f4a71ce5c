package org.asmeasured.linear;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.asmeasured.internal.ExtendedTime;
import org.asmeasured.signal.Pattern;
import org.asmeasured.signal.SampleClock;

/**
 * A pattern's output at uniform instants. Positions are counted in samples, in two doubles each; a
 * segment's samples are cut into blocks from its first sample on, and each block is a sum of
 * tabulated rows whose amplitudes follow from the segment's start alone.
 */
final class PatternReader {
  /** Segments of at most so many samples are read from tables. */
  private static final double SHORT = 32;

  private static final int MAX_CELLS = 4096;

  /** Beyond any sample number, and far from overflow. */
  private static final long FAR = 1L << 60;

  private static final double LN2 = Math.log(2);

  private final PatternOutput output;
  private final Pattern pattern;
  private final Rows table;
  private final double interval;
  private final ExtendedTime position = new ExtendedTime();

  /** Origin after the clock's start, period and segment starts, in samples. */
  private final double originHi;

  private final double originLo;
  private final double periodHi;
  private final double periodLo;
  private final double[] startHi;
  private final double[] startLo;

  private final int[] loneCluster;
  private final double[][][] loneRows;
  private final double[] loneRe;
  private final double[] loneIm;
  private final EdgeTable edges;
  private final PieceTable[] tables;

  // The segment at hand: its samples are first <= k < end, the first of them d samples after its
  // start.
  private double cycle;
  private int segment = -2;
  private long first;
  private long end;
  private double d;
  private double nextD;
  private Piece piece;
  private final Piece scratchPiece;

  // The block at hand.
  private long block = -1;
  private int live;
  private double constant;
  private boolean curved;
  private double[][] rows = new double[16][];
  private double[] amplitudes = new double[16];
  private int[] until = new int[16];
  private final double[] scratch = new double[Rows.BLOCK];
  private double[] chainRe = new double[8];
  private double[] chainIm = new double[8];

  PatternReader(PatternOutput output, SampleClock clock, Rows table) {
    this.output = output;
    this.pattern = output.pattern;
    this.table = table;
    double rate = clock.rateHz();
    interval = 1 / rate;
    scale(position.set(pattern.originHi(), pattern.originLo()).add(-clock.startSeconds()), rate);
    originHi = position.hi();
    originLo = position.lo();
    if (pattern.isPeriodic()) {
      scale(position.set(pattern.periodSeconds(), pattern.periodLo()), rate);
    } else {
      position.set(0, 0);
    }
    periodHi = position.hi();
    periodLo = position.lo();
    int n = pattern.count();
    startHi = new double[n];
    startLo = new double[n];
    for (int i = 0; i < n; i++) {
      scale(position.set(pattern.startHi(i), pattern.startLo(i)), rate);
      startHi[i] = position.hi();
      startLo[i] = position.lo();
    }
    scratchPiece = new Piece(output.modes);
    List<Cluster> lone = new ArrayList<>();
    Cluster[] clusters = output.modes.clusters;
    int[] index = new int[clusters.length];
    for (int c = 0; c < clusters.length; c++) {
      if (clusters[c].size == 1) {
        index[lone.size()] = c;
        lone.add(clusters[c]);
      }
    }
    loneCluster = Arrays.copyOf(index, lone.size());
    loneRows = new double[lone.size()][][];
    loneRe = new double[lone.size()];
    loneIm = new double[lone.size()];
    for (int q = 0; q < loneRows.length; q++) {
      Cluster c = lone.get(q);
      loneRows[q] = table.mode(c.re[0], c.im[0]);
      loneRe[q] = c.re[0] * interval;
      loneIm[q] = c.im[0] * interval;
    }
    edges = new EdgeTable(lone, rate);
    tables = tables(rate);
  }

  /** Tables for the short segments of a repeated pattern, as long as they stay small. */
  private PieceTable[] tables(double rate) {
    int n = pattern.count();
    PieceTable[] made = new PieceTable[n];
    if (!pattern.isPeriodic() || n > MAX_CELLS) {
      return made;
    }
    double fastest = 0;
    for (Cluster c : output.modes.clusters) {
      fastest = Math.max(fastest, c.fastest);
    }
    double cells = 0;
    for (int i = 0; i < n; i++) {
      double length = pattern.length(i);
      if (length * rate <= SHORT) {
        double rateOfChange = fastest;
        for (int k = pattern.termFrom(i); k < pattern.termFrom(i + 1); k++) {
          rateOfChange =
              Math.max(
                  rateOfChange,
                  Math.hypot(pattern.growth(k), 2 * Math.PI * pattern.frequencyHz(k)));
        }
        cells += PieceTable.cells(length, rateOfChange);
        if (cells > MAX_CELLS) {
          return made;
        }
        made[i] = PieceTable.of(output.piece(i, scratchPiece), length, rateOfChange, rate);
      }
    }
    return made;
  }

  private static void scale(ExtendedTime t, double rate) {
    double hi = t.hi();
    double lo = t.lo();
    t.set(0, 0).addProduct(hi, rate).addProduct(lo, rate);
  }

  void read(long from, double[] out, int offset, int count, boolean add) {
    long k = from;
    int done = 0;
    while (done < count) {
      if (k < first || k >= end || segment == -2) {
        locate(k);
      }
      int most = (int) Math.min(count - done, end - k);
      if (segment < 0) {
        if (!add) {
          Arrays.fill(out, offset + done, offset + done + most, 0);
        }
        done += most;
        k += most;
        continue;
      }
      PieceTable tabulated = tables[segment];
      if (tabulated != null) {
        tabulated.read(d, k - first, out, offset + done, most, add);
        done += most;
        k += most;
        continue;
      }
      long b = (k - first) / Rows.BLOCK;
      int at = (int) (k - first - b * Rows.BLOCK);
      int to = Math.min(Rows.BLOCK, at + most);
      if (b != block) {
        prepare(b);
      }
      Kernels.sum(rows, amplitudes, until, live, constant, scratch, at, to);
      if (curved) {
        Kernels.addPolynomial(
            piece.polynomial,
            (d + (double) b * Rows.BLOCK) * interval,
            interval,
            table.ramp,
            scratch,
            at,
            to);
      }
      if (add) {
        Kernels.add(scratch, at, to, out, offset + done);
      } else {
        System.arraycopy(scratch, at, out, offset + done, to - at);
      }
      done += to - at;
      k += to - at;
    }
  }

  // ---- where a sample is
  // -------------------------------------------------------------------------------------------

  private void locate(long k) {
    if (segment == -2 || k < first || k - end > 4L * Rows.BLOCK) {
      seek(k);
    }
    while (k >= end) {
      next();
    }
    piece = segment < 0 ? null : output.piece(segment, scratchPiece);
    block = -1;
  }

  private void seek(long k) {
    position.set(k, 0).add(-originHi, -originLo);
    cycle = 0;
    if (pattern.isPeriodic()) {
      cycle = position.removeWhole(periodHi, periodLo);
    }

    if (position.hi() < 0) {
      segment = -1;
      first = -FAR;
      boundary(0, 0);
      end = boundarySample;
      nextD = boundaryD;
      return;
    }
    int low = 0;
    int high = startHi.length - 1;
    while (low < high) {
      int middle = (low + high + 1) >>> 1;
      if ((startHi[middle] - position.hi()) + (startLo[middle] - position.lo()) <= 0) {
        low = middle;
      } else {
        high = middle - 1;
      }
    }
    segment = low;
    boundary(cycle, low);
    first = boundarySample;
    d = boundaryD;
    findEnd();
  }

  private void next() {
    segment++;
    if (segment == startHi.length) {
      segment = 0;
      cycle++;
    }
    first = end;
    d = nextD;
    findEnd();
  }

  private void findEnd() {
    if (segment + 1 < startHi.length) {
      boundary(cycle, segment + 1);
    } else if (pattern.isPeriodic()) {
      boundary(cycle + 1, 0);
    } else {
      end = FAR;
      return;
    }
    end = boundarySample;
    nextD = boundaryD;
  }

  private long boundarySample;
  private double boundaryD;

  /** The first sample at or after a segment's start, and by how much after, in samples. */
  private void boundary(double cycleNumber, int i) {
    position.set(originHi, originLo).add(startHi[i], startLo[i]);
    if (cycleNumber != 0) {
      position.addProduct(cycleNumber, periodHi).addProduct(cycleNumber, periodLo);
    }
    double c = Math.ceil(position.hi());
    double after = (c - position.hi()) - position.lo();
    if (after < 0) {
      c++;
      after += 1;
    } else if (after >= 1) {
      c--;
      after -= 1;
    }
    boundarySample = (long) c;
    boundaryD = after;
  }

  // ---- a block
  // -----------------------------------------------------------------------------------------------------

  private void prepare(long b) {
    double samples = (double) b * Rows.BLOCK;
    double u = (d + samples) * interval;
    live = 0;
    curved = piece.degree > 1;
    if (curved) {
      constant = 0;
    } else {
      constant = Math.fma(piece.polynomial[1], u, piece.polynomial[0]);
      if (piece.polynomial[1] != 0) {
        addRow(table.ramp, piece.polynomial[1] * interval);
      }
    }
    for (int t = 0; t < piece.terms; t++) {
      addTerm(t, samples, u);
    }
    if (b == 0) {
      firstLone();
    } else {
      laterLone(d + samples);
    }
    for (int i = 0; i < piece.chains.size(); i++) {
      addChain(piece.chains.get(i), u);
    }
    block = b;
  }

  private void firstLone() {
    int place = edges.place(d);
    double f = edges.beyond(d);
    for (int q = 0; q < loneCluster.length; q++) {
      double wRe = piece.loneRe[loneCluster[q]];
      double wIm = piece.loneIm[loneCluster[q]];
      if (Math.abs(wRe) + Math.abs(wIm) <= output.unseen) {
        continue;
      }
      if (edges.serves[q]) {
        double eRe = edges.re(q, place, f);
        if (loneIm[q] == 0) {
          addRow(loneRows[q][0], wRe * eRe, lasts(q, wRe * eRe));
        } else {
          double eIm = edges.im(q, place, f);
          addPair(q, wRe * eRe - wIm * eIm, wRe * eIm + wIm * eRe);
        }
      } else {
        addLone(q, wRe, wIm, d);
      }
    }
  }

  private void laterLone(double samples) {
    for (int q = 0; q < loneCluster.length; q++) {
      double wRe = piece.loneRe[loneCluster[q]];
      double wIm = piece.loneIm[loneCluster[q]];
      if (Math.abs(wRe) + Math.abs(wIm) > output.unseen) {
        addLone(q, wRe, wIm, samples);
      }
    }
  }

  private void addLone(int q, double wRe, double wIm, double samples) {
    double e = Math.exp(loneRe[q] * samples);
    if ((Math.abs(wRe) + Math.abs(wIm)) * e <= output.unseen) {
      return;
    }
    if (loneIm[q] == 0) {
      addRow(loneRows[q][0], wRe * e, lasts(q, wRe * e));
      return;
    }
    double angle = loneIm[q] * samples;
    double cos = e * Math.cos(angle);
    double sin = e * Math.sin(angle);
    addPair(q, wRe * cos - wIm * sin, wRe * sin + wIm * cos);
  }

  private void addPair(int q, double re, double im) {
    int lasts = lasts(q, Math.abs(re) + Math.abs(im));
    addRow(loneRows[q][0], re, lasts);
    addRow(loneRows[q][1], im, lasts);
  }

  /** After how many samples of the block a mode can no longer be seen. */
  private int lasts(int q, double amplitude) {
    double ratio = Math.abs(amplitude) / output.unseen;
    if (!(ratio < Double.POSITIVE_INFINITY)) {
      return Rows.BLOCK;
    }
    double samples = (Math.getExponent(ratio) + 1) * LN2 / -loneRe[q];
    return samples < Rows.BLOCK ? (int) samples + 1 : Rows.BLOCK;
  }

  private void addTerm(int t, double samples, double u) {
    double e = Math.exp(piece.growth[t] * u);
    double re = piece.termRe[t];
    double im = piece.termIm[t];
    if ((Math.abs(re) + Math.abs(im)) * e <= output.unseen) {
      return;
    }
    double f = piece.frequencyHz[t];
    double[][] pair = table.term(piece.growth[t], f);
    if (f == 0) {
      addRow(pair[0], re * e);
      return;
    }
    position.set(d, 0).add(samples);
    double angle = 2 * Math.PI * cycles(f);
    double cos = e * Math.cos(angle);
    double sin = e * Math.sin(angle);
    addRow(pair[0], re * cos - im * sin);
    addRow(pair[1], re * sin + im * cos);
  }

  /** Cycles of f in the samples held by the position, less the nearest whole number. */
  private double cycles(double f) {
    double hi = f / table.rateHz;
    double lo = Math.fma(-hi, table.rateHz, f) / table.rateHz;
    double x = position.hi();
    double p = hi * x;
    return (p - Math.rint(p)) + Math.fma(lo, x, Math.fma(hi, position.lo(), Math.fma(hi, x, -p)));
  }

  private void addChain(Piece.ChainPart part, double u) {
    int n = part.chain().size();
    double most = 0;
    for (int j = 0; j < n; j++) {
      most = Math.max(most, Math.abs(part.re()[j]) + Math.abs(part.im()[j]));
    }
    // beyond any growth by polynomials of u
    if (part.chain().slowest() * u > 120) {
      return;
    }
    if (most == 0) {
      return;
    }
    if (chainRe.length < n) {
      chainRe = new double[n];
      chainIm = new double[n];
    }
    System.arraycopy(part.re(), 0, chainRe, 0, n);
    System.arraycopy(part.im(), 0, chainIm, 0, n);
    ChainExponential e = table.exponential(part.chain());
    e.at(u);
    e.apply(chainRe, chainIm, 0);
    double[][] pairs = table.chain(part.chain());
    for (int j = 0; j < n; j++) {
      if (chainRe[j] != 0) {
        addRow(pairs[2 * j], chainRe[j]);
      }
      if (chainIm[j] != 0) {
        addRow(pairs[2 * j + 1], chainIm[j]);
      }
    }
  }

  private void addRow(double[] row, double amplitude) {
    addRow(row, amplitude, Rows.BLOCK);
  }

  /** Keeps the rows in order of how long they last. */
  private void addRow(double[] row, double amplitude, int lasts) {
    if (live == rows.length) {
      rows = Arrays.copyOf(rows, 2 * live);
      amplitudes = Arrays.copyOf(amplitudes, 2 * live);
      until = Arrays.copyOf(until, 2 * live);
    }
    int at = live++;
    while (at > 0 && until[at - 1] < lasts) {
      rows[at] = rows[at - 1];
      amplitudes[at] = amplitudes[at - 1];
      until[at] = until[at - 1];
      at--;
    }
    rows[at] = row;
    amplitudes[at] = amplitude;
    until[at] = lasts;
  }
}
