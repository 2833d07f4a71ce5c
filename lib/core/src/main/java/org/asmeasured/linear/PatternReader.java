package org.asmeasured.linear;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.List;
import org.asmeasured.internal.ExtendedTime;
import org.asmeasured.signal.Pattern;
import org.asmeasured.signal.SampleClock;

/**
 * A pattern's output at uniform instants, or at instants shifted a little from them. A segment's
 * samples are cut into blocks from its first sample on, and each block is a sum of tabulated rows
 * whose amplitudes follow from the segment's start alone. For shifted instants the same rows, with
 * other amplitudes, give the derivatives, and Taylor's polynomial the rest.
 */
final class PatternReader {
  /** Segments of at most so many samples are read from tables. */
  private static final double SHORT = 32;

  private static final int MAX_CELLS = 4096;

  /** After so many blocks amplitudes are worked out from the segment's start again. */
  private static final int ANCHORED = 16;

  private static final double LN2 = Math.log(2);

  /** Of a thread's readers whose rows are short. What it holds means nothing to the next. */
  private static final ThreadLocal<double[][]> SHARED =
      ThreadLocal.withInitial(() -> new double[1][Rows.LENGTH]);

  private final PatternOutput output;
  private final Rows table;
  private final double interval;
  private final SegmentCursor cursor;
  private final ExtendedTime position = new ExtendedTime();

  private final int[] loneCluster;
  private final double[][][] loneRows;
  private final double[] loneRe;
  private final double[] loneIm;
  private final EdgeTable edges;
  private final PieceTable[] tables;
  private final Shift shift;

  /** Samples that fall so soon after a segment's start, in samples, are evaluated one by one. */
  private final double keptAway;

  /**
   * The rows of a segment's first block, kept where the segment comes back and has nothing but lone
   * modes.
   */
  private final FirstBlock[] firsts;

  private Piece piece;
  private final Piece scratchPiece;
  private long block = -1;
  private boolean curved;
  private RowList[] current;

  /** Entry m sums to the m-th derivative over m factorial, per sample to the power m. */
  private final RowList[] lists;

  /**
   * Sums of a level each. Beside long rows a reader has its own, made just after them, so that it
   * lies well to them; beside short ones that would take longer than the sums.
   */
  private double[][] scratch;

  private boolean sharesScratch;

  private final TaylorRows taylor;
  private final double[] shiftBlock;
  // Lone modes at a block after the first, and what a block multiplies them by.
  private long laterFirst = Long.MIN_VALUE;
  private long laterBlock;
  private double[] laterRe;
  private double[] laterIm;
  private double[] blockRe;
  private double[] blockIm;
  private double[] chainRe = {};
  private double[] chainIm = {};

  PatternReader(PatternOutput output, SampleClock clock, Rows table, Shift shift) {
    this.output = output;
    this.table = table;
    this.shift = shift;
    double rate = clock.rateHz();
    interval = 1 / rate;
    cursor = new SegmentCursor(output.pattern, clock);
    scratchPiece = output.keepsPieces() ? null : new Piece(output.modes);
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
      loneRe[q] = c.re[0] * interval;
      loneIm[q] = c.im[0] * interval;
    }
    double away = 0;
    for (double re : loneRe) {
      away = Math.max(away, shift.keptAway(re));
    }
    keptAway = away;
    edges = new EdgeTable(lone, rate);
    tables = tables(rate);
    makeRows(lone, rate);
    firsts = new FirstBlock[output.pattern.isPeriodic() ? output.pattern.count() : 0];
    lists = new RowList[shift.maxDegree + 1];
    taylor = shift == Shift.NONE ? null : new TaylorRows(Rows.RAMP);
    shiftBlock = new double[shift == Shift.NONE ? 0 : Rows.LENGTH];
    if (!sharesScratch) {
      scratch = new double[shift.maxDegree + 1][Rows.LENGTH];
    }
    for (int m = 0; m < lists.length; m++) {
      lists[m] = new RowList(firsts.length > 0 ? 0 : 8);
    }
  }

  /** Tables for the short segments of a repeated pattern, as long as they stay small. */
  private PieceTable[] tables(double rate) {
    Pattern pattern = output.pattern;
    int n = pattern.count();
    PieceTable[] made = new PieceTable[n];
    if (!pattern.isPeriodic() || n > MAX_CELLS) {
      return made;
    }
    double fastest = 0;
    for (Cluster c : output.modes.clusters) {
      fastest = Math.max(fastest, c.fastest);
    }
    double all = 0;
    // segments of one length, as two edges often are, share this
    double lastSeconds = 0;
    double lastCells = 0;
    CellModes modes = null;
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
        double cells = PieceTable.cells(length, rateOfChange);
        all += cells;
        if (all > MAX_CELLS) {
          return made;
        }
        double cellSeconds = length / cells;
        if (cellSeconds != lastSeconds || cells > lastCells) {
          lastSeconds = cellSeconds;
          lastCells = cells;
          modes = PieceTable.modes(output.modes.clusters, cellSeconds, (int) cells);
        }
        made[i] = new PieceTable(output.piece(i, scratchPiece), modes, length, (int) cells, rate);
      }
    }
    return made;
  }

  void startAt(double startSeconds) {
    cursor.startAt(startSeconds);
    block = -1;
    laterFirst = Long.MIN_VALUE;
  }

  /**
   * Reads or adds samples.
   *
   * @param shifts how many samples later than its place each is wanted, or null; entry {@code j}
   *     for sample {@code from + j}
   */
  void read(long from, double[] shifts, double[] out, int offset, int count, boolean add) {
    if (sharesScratch) {
      scratch = SHARED.get();
    }
    long k = from;
    int done = 0;
    while (done < count) {
      place(k);
      int most = (int) Math.min(count - done, cursor.end - k);
      if (cursor.segment < 0) {
        if (!add) {
          Arrays.fill(out, offset + done, offset + done + most, 0);
        }
      } else if (tables[cursor.segment] != null) {
        tables[cursor.segment].read(
            cursor.delay, k - cursor.first, shifts, done, out, offset + done, most, add);
      } else {
        long b = (k - cursor.first) / Rows.BLOCK;
        int at = (int) (k - cursor.first - b * Rows.BLOCK);
        most = Math.min(most, Rows.BLOCK - at);
        if (b != block) {
          prepare(b);
        }
        evaluate(b, at, at + most, shifts, done);
        if (add) {
          Kernels.add(scratch[0], at, at + most, out, offset + done);
        } else {
          System.arraycopy(scratch[0], at, out, offset + done, most);
        }
      }
      done += most;
      k += most;
    }
  }

  /**
   * Marks the samples that their shifts carry off their segment, or that see a mode which is gone
   * soon after its start: only those near its ends can be.
   */
  void strays(long from, double[] shifts, double most, int count, BitSet into) {
    long k = from;
    long last = from + count;
    while (k < last) {
      place(k);
      long stop = Math.min(last, cursor.end);
      double since = cursor.segment < 0 ? Double.POSITIVE_INFINITY : cursor.delay - cursor.first;
      double reach = most + keptAway;
      long head = since + k >= reach ? k : Math.min(stop, (long) Math.ceil(reach - since));
      for (long i = k; i < head; i++) {
        double shifted = shifts[(int) (i - from)];
        if (since + i + shifted < 0
            || cursor.delay + (i - cursor.first) + Math.min(0, shifted) < keptAway) {
          into.set((int) (i - from));
        }
      }
      for (long i = stop - 1; i >= k && cursor.untilEnd(i) <= most; i--) {
        if (shifts[(int) (i - from)] >= cursor.untilEnd(i)) {
          into.set((int) (i - from));
        }
      }
      k = stop;
    }
  }

  private void place(long k) {
    if (!cursor.holds(k)) {
      cursor.locate(k);
      piece = cursor.segment < 0 ? null : output.piece(cursor.segment, scratchPiece);
      block = -1;
    }
  }

  private void evaluate(long b, int at, int to, double[] shifts, int skipped) {
    double start = (cursor.delay + (double) b * Rows.BLOCK) * interval;
    if (shifts == null || shift == Shift.NONE) {
      current[0].sum(scratch[0], at, to);
      if (curved) {
        Kernels.addPolynomial(piece.polynomial, start, interval, Rows.RAMP, scratch[0], at, to);
      }
      return;
    }
    System.arraycopy(shifts, skipped, shiftBlock, at, to - at);
    if (at < taylor.from()) {
      levels(at, Math.min(to, taylor.from()));
    }
    if (to > taylor.from()) {
      taylor.sum(shiftBlock, scratch[0], Math.max(at, taylor.from()), to);
    }
    if (curved) {
      for (int j = at; j < to; j++) {
        scratch[0][j] += piece.polynomialAt(start + (j + shifts[skipped + j - at]) * interval);
      }
    }
  }

  /** One pass for every derivative, each over what it lasts, and Horner's rule. */
  private void levels(int at, int to) {
    current[0].sum(scratch[0], at, to);
    int top = 0;
    while (top + 1 < current.length && current[top + 1].longest() > at) {
      top++;
      current[top].sum(scratch[top], at, Math.min(to, current[top].longest()));
    }
    for (int m = top; m > 0; m--) {
      Kernels.horner(
          scratch[m], shiftBlock, scratch[m - 1], at, Math.min(to, current[m].longest()));
    }
  }

  // Amplitudes of a block.

  private void prepare(long b) {
    if (b == 0 && firsts.length > 0 && piece.terms == 0 && piece.chains.isEmpty()) {
      if (firsts[cursor.segment] == null) {
        firsts[cursor.segment] = new FirstBlock();
      }
      firsts[cursor.segment].prepare();
    } else {
      prepareAny(b);
      current = lists;
    }
    if (shift != Shift.NONE) {
      taylor.set(current);
    }
    block = b;
  }

  /**
   * A first block differs from one visit of its segment to the next by how late its first sample
   * is, and no more: the same rows, with amplitudes that are functions of that delay, tabulated
   * here.
   */
  private final class FirstBlock {
    private final RowList[] kept = new RowList[lists.length];

    /**
     * Amplitude of row i of level 0: polynomials one after another, at each place where the segment
     * has begun.
     */
    private final double[][] amplitudes = new double[EdgeTable.PLACES][];

    /** How many rows the table of edges serves; of each its mode, and where it stands. */
    private final int rows;

    private final int[] modeOf = new int[2 * loneCluster.length];
    private final int[] rowAt = new int[2 * loneCluster.length];
    private final Slot[] fast;
    private final Slot[] derivatives;

    /**
     * Where a mode's row pair stands at one level and at level 0, and what the mode's amplitude is
     * multiplied by there.
     */
    private record Slot(
        int q,
        RowList list,
        int at,
        int atImaginary,
        int from,
        int fromImaginary,
        double re,
        double im) {

      void set(double wRe, double wIm) {
        list.set(at, wRe * re - wIm * im);
        if (atImaginary >= 0) {
          list.set(atImaginary, wRe * im + wIm * re);
        }
      }
    }

    FirstBlock() {
      for (int m = 0; m < kept.length; m++) {
        kept[m] = new RowList(2 * loneCluster.length + 1);
        kept[m].clear(0);
      }
      if (piece.degree <= 1 && piece.polynomial[1] != 0) {
        kept[0].add(Rows.RAMP, piece.polynomial[1] * interval);
        if (kept.length > 1) {
          kept[1].constant(piece.polynomial[1] * interval);
        }
      }
      for (int q = 0; q < loneCluster.length; q++) {
        double size =
            Math.abs(piece.loneRe[loneCluster[q]]) + Math.abs(piece.loneIm[loneCluster[q]]);
        if (size > output.unseen) {
          addPlaces(q, lasts(q, size));
        }
      }
      // looked up once all rows have found their places
      List<Slot> ownExponentials = new ArrayList<>(0);
      List<Slot> higher = new ArrayList<>(0);
      int served = 0;
      for (int q = 0; q < loneCluster.length; q++) {
        int first = kept[0].indexOf(loneRows[q][0]);
        if (first < 0) {
          continue;
        }
        int second = kept[0].indexOf(loneRows[q][1]);
        if (!edges.serves(q)) {
          ownExponentials.add(new Slot(q, kept[0], first, second, first, second, 1, 0));
        } else {
          modeOf[served] = 2 * q;
          rowAt[served++] = first;
          if (second >= 0) {
            modeOf[served] = 2 * q + 1;
            rowAt[served++] = second;
          }
        }
        addDerivatives(q, first, second, higher);
      }
      rows = served;
      fast = ownExponentials.toArray(Slot[]::new);
      derivatives = higher.toArray(Slot[]::new);
    }

    private double[] amplitudesAt(int place) {
      double[] made = amplitudes[place];
      if (made == null) {
        made = new double[rows * EdgeTable.ORDER];
        for (int i = 0; i < rows; i++) {
          int q = modeOf[i] / 2;
          double wRe = piece.loneRe[loneCluster[q]];
          double wIm = piece.loneIm[loneCluster[q]];
          boolean second = modeOf[i] % 2 == 1;
          edges.scaled(
              q, place, second ? wIm : wRe, second ? wRe : -wIm, made, i * EdgeTable.ORDER);
        }
        amplitudes[place] = made;
      }
      return made;
    }

    private void addPlaces(int q, int lasts) {
      int degree = shift.degreeOfMode(loneRe[q], loneIm[q]);
      for (int m = 0; m <= degree; m++) {
        kept[m].add(loneRows[q][0], 0, lasts);
        if (loneIm[q] != 0) {
          kept[m].add(loneRows[q][1], 0, lasts);
        }
      }
    }

    private void addDerivatives(int q, int first, int second, List<Slot> into) {
      double re = loneRe[q];
      double im = loneIm[q];
      for (int m = 1; m < kept.length; m++) {
        int at = kept[m].indexOf(loneRows[q][0]);
        if (at < 0) {
          return;
        }
        int atImaginary = kept[m].indexOf(loneRows[q][1]);
        into.add(new Slot(q, kept[m], at, atImaginary, first, second, re, im));
        double next = (re * loneRe[q] - im * loneIm[q]) / (m + 1);
        im = (re * loneIm[q] + im * loneRe[q]) / (m + 1);
        re = next;
      }
    }

    void prepare() {
      double d = cursor.delay;
      curved = piece.degree > 1;
      RowList plain = kept[0];
      plain.constant(curved ? 0 : Math.fma(piece.polynomial[1], d * interval, piece.polynomial[0]));
      int place = EdgeTable.place(d);
      double f = EdgeTable.beyond(d, place);
      double[] t = amplitudesAt(place);
      for (int i = 0; i < rows; i++) {
        plain.set(rowAt[i], EdgeTable.polynomial(t, i * EdgeTable.ORDER, f));
      }
      for (Slot slot : fast) {
        double wRe = piece.loneRe[loneCluster[slot.q]];
        double wIm = piece.loneIm[loneCluster[slot.q]];
        double eRe = edges.re(slot.q, place, f, d);
        double eIm = edges.im(slot.q, place, f, d);
        slot.set(wRe * eRe - wIm * eIm, wRe * eIm + wIm * eRe);
      }
      for (Slot slot : derivatives) {
        slot.set(
            plain.amplitude(slot.from),
            slot.fromImaginary < 0 ? 0 : plain.amplitude(slot.fromImaginary));
      }
      current = kept;
    }
  }

  private void prepareAny(long b) {
    double samples = (double) b * Rows.BLOCK;
    double u = (cursor.delay + samples) * interval;
    for (RowList list : lists) {
      list.clear(0);
    }
    curved = piece.degree > 1;
    if (!curved) {
      double slope = piece.polynomial[1];
      lists[0].clear(Math.fma(slope, u, piece.polynomial[0]));
      if (slope != 0) {
        lists[0].add(Rows.RAMP, slope * interval);
        if (lists.length > 1) {
          lists[1].clear(slope * interval);
        }
      }
    }
    for (int t = 0; t < piece.terms; t++) {
      addTerm(t, samples, u);
    }
    if (b == 0) {
      firstLone();
    } else {
      laterLone(b);
    }
    for (int i = 0; i < piece.chains.size(); i++) {
      addChain(piece.chains.get(i), u);
    }
  }

  private void firstLone() {
    double d = cursor.delay;
    int place = EdgeTable.place(d);
    double f = EdgeTable.beyond(d, place);
    for (int q = 0; q < loneCluster.length; q++) {
      double wRe = piece.loneRe[loneCluster[q]];
      double wIm = piece.loneIm[loneCluster[q]];
      if (Math.abs(wRe) + Math.abs(wIm) > output.unseen) {
        double eRe = edges.re(q, place, f, d);
        double eIm = edges.im(q, place, f, d);
        addMode(q, wRe * eRe - wIm * eIm, wRe * eIm + wIm * eRe);
      }
    }
  }

  /**
   * From block to block by one multiplication; anew from the segment's start every so often, at
   * fixed places.
   */
  private void laterLone(long b) {
    long anchor = b - b % ANCHORED;
    if (laterFirst != cursor.first || laterBlock > b || laterBlock < anchor) {
      laterFirst = cursor.first;
      laterBlock = anchor;
      if (laterRe == null) {
        laterRe = new double[loneCluster.length];
        laterIm = new double[loneCluster.length];
      }
      double samples = cursor.delay + (double) anchor * Rows.BLOCK;
      for (int q = 0; q < loneCluster.length; q++) {
        double wRe = piece.loneRe[loneCluster[q]];
        double wIm = piece.loneIm[loneCluster[q]];
        double e = Math.exp(loneRe[q] * samples);
        double angle = loneIm[q] * samples;
        double cos = e == 0 ? 0 : e * Math.cos(angle);
        double sin = e == 0 ? 0 : e * Math.sin(angle);
        laterRe[q] = wRe * cos - wIm * sin;
        laterIm[q] = wRe * sin + wIm * cos;
      }
    }
    if (blockRe == null && laterBlock < b) {
      blockRe = new double[laterRe.length];
      blockIm = new double[laterRe.length];
      for (int q = 0; q < blockRe.length; q++) {
        double e = Math.exp(loneRe[q] * Rows.BLOCK);
        blockRe[q] = e * Math.cos(loneIm[q] * Rows.BLOCK);
        blockIm[q] = e * Math.sin(loneIm[q] * Rows.BLOCK);
      }
    }
    for (; laterBlock < b; laterBlock++) {
      for (int q = 0; q < laterRe.length; q++) {
        double re = laterRe[q] * blockRe[q] - laterIm[q] * blockIm[q];
        laterIm[q] = laterRe[q] * blockIm[q] + laterIm[q] * blockRe[q];
        laterRe[q] = re;
      }
    }
    for (int q = 0; q < laterRe.length; q++) {
      if (Math.abs(laterRe[q]) + Math.abs(laterIm[q]) > output.unseen) {
        addMode(q, laterRe[q], laterIm[q]);
      }
    }
  }

  private void addMode(int q, double re, double im) {
    addRows(
        loneRows[q],
        re,
        im,
        loneRe[q],
        loneIm[q],
        shift.degreeOfMode(loneRe[q], loneIm[q]),
        lasts(q, Math.abs(re) + Math.abs(im)));
  }

  /**
   * A row pair and, as far as its rate asks for them, its derivatives: each one more factor of the
   * rate.
   */
  private void addRows(
      double[][] pair, double re, double im, double rateRe, double rateIm, int degree, int lasts) {
    double a = re;
    double b = im;
    for (int m = 0; ; m++) {
      lists[m].add(pair[0], a, lasts);
      if (rateIm != 0) {
        lists[m].add(pair[1], b, lasts);
      }
      if (m == degree) {
        return;
      }
      double next = (a * rateRe - b * rateIm) / (m + 1);
      b = (a * rateIm + b * rateRe) / (m + 1);
      a = next;
    }
  }

  /** After how many samples of the block a mode can no longer be seen. */
  private int lasts(int q, double amplitude) {
    double ratio = amplitude / output.unseen;
    if (!(ratio < Double.POSITIVE_INFINITY)) {
      return Rows.BLOCK;
    }
    double samples = (Math.getExponent(ratio) + 1) * LN2 / -loneRe[q];
    return samples < Rows.BLOCK ? (int) samples + 1 : Rows.BLOCK;
  }

  /**
   * The rows of lone modes, as far as they can ever be seen. Where they stand beside rows that last
   * the whole block, they are as long as those, if only with zeros.
   */
  private void makeRows(List<Cluster> lone, double rate) {
    int[] seen = new int[lone.size()];
    int longest = 1;
    for (int q = 0; q < seen.length; q++) {
      double most = output.greatest(loneCluster[q]);
      seen[q] = most == 0 ? 0 : lasts(q, most);
      longest = Math.max(longest, seen[q]);
    }
    int length = longest < Rows.BLOCK && shift == Shift.NONE && alone() ? longest : Rows.LENGTH;
    sharesScratch = length < Rows.LENGTH;
    for (int q = 0; q < seen.length; q++) {
      Cluster c = lone.get(q);
      loneRows[q] = LoneRows.of(c.re[0], c.im[0], rate, seen[q], length);
    }
  }

  /** Whether no segment that is read by rows has any but those of lone modes. */
  private boolean alone() {
    if (!output.keepsPieces()) {
      return false;
    }
    for (int i = 0; i < tables.length; i++) {
      Piece p = output.piece(i, scratchPiece);
      boolean straight = p.degree <= 1 && p.polynomial[1] == 0;
      if (tables[i] == null && !(straight && p.isPlain())) {
        return false;
      }
    }
    return true;
  }

  private void addTerm(int t, double samples, double u) {
    double growth = piece.growth[t];
    double e = Math.exp(growth * u);
    double re = piece.termRe[t];
    double im = piece.termIm[t];
    if ((Math.abs(re) + Math.abs(im)) * e <= output.unseen) {
      return;
    }
    double f = piece.frequencyHz[t];
    double[][] pair = table.term(growth, f);
    if (f == 0) {
      double rate = growth * interval;
      addRows(pair, re * e, 0, rate, 0, shift.degree(Math.abs(rate)), Rows.BLOCK);
      return;
    }
    position.set(cursor.delay, 0).add(samples);
    double angle = 2 * Math.PI * cycles(f);
    double cos = e * Math.cos(angle);
    double sin = e * Math.sin(angle);
    double rateRe = growth * interval;
    double rateIm = 2 * Math.PI * f * interval;
    addRows(
        pair,
        re * cos - im * sin,
        re * sin + im * cos,
        rateRe,
        rateIm,
        shift.degree(Math.hypot(rateRe, rateIm)),
        Rows.BLOCK);
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
    Chain chain = part.chain();
    int n = chain.size();
    double most = 0;
    for (int j = 0; j < n; j++) {
      most = Math.max(most, Math.abs(part.re()[j]) + Math.abs(part.im()[j]));
    }
    // beyond any growth by polynomials of u
    if (most == 0 || chain.slowest() * u > 120) {
      return;
    }
    if (chainRe.length < n) {
      chainRe = new double[n];
      chainIm = new double[n];
    }
    System.arraycopy(part.re(), 0, chainRe, 0, n);
    System.arraycopy(part.im(), 0, chainIm, 0, n);
    ChainExponential e = table.exponential(chain);
    e.at(u);
    e.apply(chainRe, chainIm, 0);
    double[][] pairs = table.chain(chain);
    int degree = shift.degree(chain.fastest() * interval);
    for (int m = 0; ; m++) {
      for (int j = 0; j < n; j++) {
        if (chainRe[j] != 0) {
          lists[m].add(pairs[2 * j], chainRe[j]);
        }
        if (chainIm[j] != 0) {
          lists[m].add(pairs[2 * j + 1], chainIm[j]);
        }
      }
      if (m == degree) {
        return;
      }
      chain.differentiate(chainRe, chainIm, interval / (m + 1));
    }
  }
}
