package org.asmeasured.linear;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import org.asmeasured.internal.Require;

/**
 * A response at work on a stream of samples, block by block, in constant memory.
 *
 * <p>Between samples the input is taken to run along straight lines (a first-order hold), and for
 * that input the output is exact at the instants of the samples: each mode of the response goes
 * from one sample to the next by {@code x(t+h) = e^{ph} x(t) + h (phi_1 - phi_2) b u(t) + h phi_2 b
 * u(t+h)}, {@code phi_1(z) = (e^z - 1)/z} and {@code phi_2(z) = (e^z - 1 - z)/z^2} at z = p h (G.
 * F. Franklin, J. D. Powell, M. Workman, <i>Digital Control of Dynamic Systems</i>, the triangle
 * hold). This is no approximation by a bilinear transform: poles beyond the Nyquist frequency are
 * as welcome as others. It equals what {@link Response#of} makes of {@link
 * org.asmeasured.signal.Signals#recorded(double, double, double[])} to 1e-9 of the largest input,
 * usually 1e-12, however long the stream is.
 *
 * <p>The output does not depend on how the stream was cut into blocks, bit for bit. Nothing is
 * allocated at work. For one thread.
 *
 * <p><b>Algorithm.</b> Modes that move within a few samples run as parallel sections of second
 * order. A mode that hardly moves from sample to sample would lose its rate to rounding in such a
 * section; so its state stays put over a segment of 512 samples, counted from the start of the
 * stream, during which it contributes e^{pjh} times that state and what has come in since; at the
 * end of the segment the state is brought forward by expm1 with a compensated sum. Poles that lie
 * together stay coupled.
 */
public final class StreamFilter {
  private static final int SEGMENT = Rows.BLOCK;

  /** Real part of a pole times the step, below which a mode is slow. */
  private static final double SLOW = 0x1p-7;

  /** Sine of a pole's angle in one step, below which a second-order section is ill-conditioned. */
  private static final double FLAT = 0x1p-7;

  /** Time constants in one step after which nothing is left. */
  private static final double DEAD = 80;

  private static final double MAX_VOLTS = 1e9;

  /** How a stream begins. */
  public enum Start {
    /** The first sample has been there for ever, and the response has settled at it. */
    SETTLED,
    /** There was nothing before the first sample, and the response is at rest. */
    AT_REST
  }

  private final Response response;
  private final double rateHz;
  private final Start start;
  private final double direct;
  private final boolean identity;

  private final double inputGain;
  private final Sections sections = new Sections();
  private final Slow[] slow;
  private final double[][] rows;
  private final double[] amplitudes;
  private final int[] until;

  private final double[] u = new double[SEGMENT];
  private final double[] y = new double[SEGMENT];
  private long count;

  /** A cluster whose state is held over a segment. */
  private static final class Slow {
    final FirstOrderHold hold;

    /** exp(J L h) - I over the segment. */
    final double[] onRe;

    final double[] onIm;

    /** The state at the start of the segment, and what rounding has left out of it. */
    final double[] re;

    final double[] im;
    final double[] restRe;
    final double[] restIm;

    /** What has come in since, real parts first; unless a section carries it. */
    final double[] since;

    /** The section that carries what has come in, or -1. */
    final int section;

    Slow(FirstOrderHold hold, int section) {
      this.hold = hold;
      this.section = section;
      int m = hold.cluster.size;
      double segment = SEGMENT * hold.stepSeconds;
      ChainExponential on = Chain.of(hold.cluster).exponential();
      if (hold.cluster.fastest * segment < 0.5) {
        on.lessIdentityAt(segment);
      } else {
        on.at(segment);
        for (int i = 0; i < m; i++) {
          on.re[i * m + i] -= 1;
        }
      }
      onRe = on.re;
      onIm = on.im;
      re = new double[m];
      im = new double[m];
      restRe = new double[m];
      restIm = new double[m];
      since = new double[2 * m];
    }

    void begin(double first, boolean settled) {
      for (int i = 0; i < re.length; i++) {
        re[i] = first * (settled ? hold.settledRe[i] : -hold.nowRe[i]);
        im[i] = first * (settled ? hold.settledIm[i] : -hold.nowIm[i]);
        restRe[i] = 0;
        restIm[i] = 0;
      }
      Arrays.fill(since, 0);
    }

    /** re, im += (exp(J L h) - I) (re, im) + since. */
    void endSegment() {
      int m = re.length;
      for (int i = 0; i < m; i++) {
        double addRe = since[i] + restRe[i];
        double addIm = since[m + i] + restIm[i];
        for (int k = i; k < m; k++) {
          addRe += onRe[i * m + k] * re[k] - onIm[i * m + k] * im[k];
          addIm += onRe[i * m + k] * im[k] + onIm[i * m + k] * re[k];
        }
        double nextRe = re[i] + addRe;
        double nextIm = im[i] + addIm;
        restRe[i] = lost(re[i], addRe, nextRe);
        restIm[i] = lost(im[i], addIm, nextIm);
        re[i] = Math.abs(nextRe) < Sections.VANISHED ? 0 : nextRe;
        im[i] = Math.abs(nextIm) < Sections.VANISHED ? 0 : nextIm;
      }
      Arrays.fill(since, 0);
    }

    /** What x + y left out (the two-sum of Knuth). */
    private static double lost(double x, double y, double sum) {
      double virtual = sum - x;
      return (x - (sum - virtual)) + (y - virtual);
    }
  }

  /**
   * A filter that starts settled at the first sample.
   *
   * @param response what the stream goes through
   * @param rateHz samples per second, 1e-9 to 1e15 Hz
   * @throws IllegalArgumentException if the rate is out of range
   * @throws NullPointerException if the response is missing
   */
  public StreamFilter(Response response, double rateHz) {
    this(response, rateHz, Start.SETTLED);
  }

  /**
   * A filter.
   *
   * @param response what the stream goes through
   * @param rateHz samples per second, 1e-9 to 1e15 Hz
   * @param start how the stream begins
   * @throws IllegalArgumentException if the rate is out of range
   * @throws NullPointerException if a value is missing
   */
  public StreamFilter(Response response, double rateHz, Start start) {
    this.response = Require.present("response", response);
    this.rateHz = Require.hertz("rateHz", rateHz);
    this.start = Require.present("start", start);
    identity = response.isIdentity();
    Modes modes = response.modes();
    direct = modes.direct;
    double gain = modes.direct;
    double step = 1 / rateHz;
    double dead = 0;
    boolean anyDead = false;
    List<Slow> held = new ArrayList<>();
    for (Cluster cluster : modes.clusters) {
      FirstOrderHold hold = new FirstOrderHold(cluster, step);
      gain += hold.nowRe[0];
      if (cluster.slowest * step > DEAD) {
        dead += hold.gRe[0];
        anyDead = true;
      } else if (turnsNot(cluster)) {
        int number = addReal(hold);
        if (isSlow(cluster, step)) {
          held.add(new Slow(hold, number));
        }
      } else if (cluster.size == 1 && suitsSection(cluster, step) && hold.gRe[0] != 0) {
        addPair(hold);
      } else {
        held.add(new Slow(hold, -1));
      }
    }
    if (anyDead) {
      // one step later it is all there, and another step later all gone
      sections.addReal(0, dead, start == Start.SETTLED ? 1 : 0);
    }
    sections.close();
    inputGain = gain;
    slow = held.toArray(Slow[]::new);
    List<double[]> tables = new ArrayList<>();
    Rows table = new Rows(rateHz);
    for (Slow s : slow) {
      Cluster cluster = s.hold.cluster;
      double[][] of =
          cluster.size == 1
              ? LoneRows.of(cluster.re[0], cluster.im[0], rateHz, Rows.BLOCK, Rows.LENGTH)
              : table.chain(Chain.of(cluster));
      for (int i = 0; i < of.length; i += turnsNot(cluster) ? 2 : 1) {
        tables.add(of[i]);
      }
    }
    rows = tables.toArray(double[][]::new);
    amplitudes = new double[rows.length];
    until = new int[rows.length];
    Arrays.fill(until, SEGMENT);
  }

  private static boolean isSlow(Cluster cluster, double step) {
    return cluster.slowest * step < SLOW;
  }

  /**
   * A lone pole on the real axis: its residue is real too, and what rounding has left of an
   * imaginary part is never seen.
   */
  private static boolean turnsNot(Cluster cluster) {
    return cluster.size == 1 && cluster.im[0] == 0;
  }

  private static boolean suitsSection(Cluster cluster, double step) {
    return !isSlow(cluster, step) && Math.abs(Math.sin(cluster.im[0] * step)) >= FLAT;
  }

  /** w' = e w + u, s = G w. A slow one carries only what has come in since its segment began. */
  private int addReal(FirstOrderHold hold) {
    double g = hold.gRe[0];
    double first = 0;
    if (!isSlow(hold.cluster, hold.stepSeconds)) {
      first =
          start == Start.SETTLED
              ? -1 / Math.expm1(hold.cluster.re[0] * hold.stepSeconds)
              : g == 0 ? 0 : -hold.nowRe[0] / g;
    }
    return sections.addReal(hold.e.re[0], g, first);
  }

  /**
   * With z = s/G, z' = e z + u; and z = w - e* w_before where w' = 2 Re e w - |e|^2 w_before + u.
   */
  private void addPair(FirstOrderHold hold) {
    double eRe = hold.e.re[0];
    double eIm = hold.e.im[0];
    double gRe = hold.gRe[0];
    double gIm = hold.gIm[0];
    double sRe = start == Start.SETTLED ? hold.settledRe[0] : -hold.nowRe[0];
    double sIm = start == Start.SETTLED ? hold.settledIm[0] : -hold.nowIm[0];
    double g2 = gRe * gRe + gIm * gIm;
    double zRe = (sRe * gRe + sIm * gIm) / g2;
    double zIm = (sIm * gRe - sRe * gIm) / g2;
    double before = zIm / eIm;
    sections.addPair(
        2 * eRe,
        -(eRe * eRe + eIm * eIm),
        gRe,
        -(gRe * eRe + gIm * eIm),
        zRe + eRe * before,
        before);
  }

  /**
   * What the stream goes through.
   *
   * @return the response
   */
  public Response response() {
    return response;
  }

  /**
   * The rate of the stream.
   *
   * @return samples per second
   */
  public double rateHz() {
    return rateHz;
  }

  /**
   * How the stream begins.
   *
   * @return settled or at rest
   */
  public Start start() {
    return start;
  }

  /**
   * How many samples have gone through since the start.
   *
   * @return 0 or more
   */
  public long count() {
    return count;
  }

  /** Forgets everything: the next sample is the first of a new stream. */
  public void reset() {
    count = 0;
  }

  /**
   * Takes the next samples, and writes the output at the same instants.
   *
   * <p>If a sample is refused, the whole block is, and the stream can go on with another block in
   * its place.
   *
   * @param in volts, -1e9 to 1e9
   * @param inOffset index of the first
   * @param out receives as many volts; may be the same array at the same offset
   * @param outOffset where in {@code out} the first goes
   * @param samples how many, 0 or more
   * @throws IndexOutOfBoundsException if an array does not hold them
   * @throws IllegalArgumentException if a sample is out of range, infinite or NaN; or if both
   *     places are in the same array and overlap without being the same
   */
  public void process(double[] in, int inOffset, double[] out, int outOffset, int samples) {
    Objects.checkFromIndexSize(inOffset, samples, Require.present("in", in).length);
    Objects.checkFromIndexSize(outOffset, samples, Require.present("out", out).length);
    if (in == out && inOffset != outOffset && Math.abs((long) inOffset - outOffset) < samples) {
      throw new IllegalArgumentException(
          "outOffset = "
              + outOffset
              + ": must be inOffset = "
              + inOffset
              + " or at least "
              + samples
              + " samples away from it in the same array");
    }
    check(in, inOffset, samples);
    if (samples == 0) {
      return;
    }
    if (identity) {
      System.arraycopy(in, inOffset, out, outOffset, samples);
      count += samples;
      return;
    }
    boolean fromRest = count == 0 && start == Start.AT_REST;
    double first = in[inOffset];
    if (count == 0) {
      begin(first);
    }
    for (int done = 0; done < samples; ) {
      int from = (int) (count % SEGMENT);
      int n = Math.min(SEGMENT - from, samples - done);
      int to = from + n;
      System.arraycopy(in, inOffset + done, u, from, n);
      run(from, to);
      System.arraycopy(y, from, out, outOffset + done, n);
      count += n;
      done += n;
      if (to == SEGMENT) {
        endSegment();
      }
    }
    if (fromRest) {
      // at rest the states are zero, and only what passes directly is there
      out[outOffset] = direct * first;
    }
  }

  /** The message is made only if there is something to say. */
  private static void check(double[] in, int offset, int samples) {
    for (int i = offset; i < offset + samples; i++) {
      if (!(Math.abs(in[i]) <= MAX_VOLTS)) {
        Require.volts("in[" + i + "]", in[i]);
      }
    }
  }

  private void begin(double first) {
    sections.begin(first);
    for (Slow s : slow) {
      s.begin(first, start == Start.SETTLED);
    }
    amplitudes();
  }

  private void run(int from, int to) {
    Kernels.sum(rows, amplitudes, until, rows.length, 0, y, from, to);
    StreamKernels.addInput(inputGain, u, y, from, to);
    sections.run(u, y, from, to);
    for (Slow s : slow) {
      FirstOrderHold h = s.hold;
      if (s.section >= 0) {
        continue;
      }
      if (h.cluster.size == 1) {
        StreamKernels.addLone(h.e.re[0], h.e.im[0], h.gRe[0], h.gIm[0], s.since, u, y, from, to);
      } else {
        StreamKernels.addChain(h.e.re, h.e.im, h.gRe, h.gIm, s.since, u, y, from, to);
      }
    }
  }

  private void endSegment() {
    for (Slow s : slow) {
      if (s.section >= 0) {
        s.since[0] = sections.take(s.section);
      }
      s.endSegment();
    }
    sections.clear();
    amplitudes();
  }

  private void amplitudes() {
    int r = 0;
    for (Slow s : slow) {
      for (int i = 0; i < s.re.length; i++) {
        amplitudes[r++] = s.re[i];
        if (!turnsNot(s.hold.cluster)) {
          amplitudes[r++] = s.im[i];
        }
      }
    }
  }

  @Override
  public String toString() {
    return "stream of "
        + org.asmeasured.internal.Quantity.of(rateHz, "samples/s")
        + " through "
        + response;
  }
}
