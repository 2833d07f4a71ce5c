package org.asmeasured.linear;

import java.util.Objects;
import org.asmeasured.internal.CounterRandom;
import org.asmeasured.internal.Require;

/**
 * One record of a {@link NoiseProcess}, read in order in blocks of any size.
 *
 * <p>The first sample is as stationary as any: the state begins with a draw from its stationary
 * distribution. Sample number n of a key has the same bits whatever the blocks it was read in, and
 * on every thread; and on Java 17 and 25 alike on the same kind of processor, where a stored digest
 * holds it (the response's own poles may differ in the last bit on another). Nothing is allocated
 * by reading. For one thread; make one for each.
 */
public final class NoiseSampler {
  private static final int BLOCK = 512;

  /** Pairs that turn by less a sample would lose digits in x and the x before. */
  private static final double LEAST_TURN = 0x1p-6;

  /** Streams of the key: the white values, and the state at the first sample. */
  private static final long WHITE = 1;

  private static final long START = 2;

  private final NoiseSections sections;
  private final double[][] stateRoot;
  private final long white;
  private final long start;
  private final double[] state;
  private final double[] scratch;
  // a little longer than a block, as Rows.LENGTH says why
  private final double[] block = new double[BLOCK + 40];
  private final double[] sum = new double[BLOCK + 80];
  private long position;

  NoiseSampler(NoiseSections sections, double[][] stateRoot, long key) {
    this.sections = sections;
    this.stateRoot = stateRoot;
    white = CounterRandom.key(key, WHITE);
    start = CounterRandom.key(key, START);
    state = new double[stateRoot.length];
    scratch = new double[stateRoot.length];
    reset();
  }

  /** Goes back to the first sample. */
  public void reset() {
    position = 0;
    CounterRandom.gaussians(start, 0, scratch, 0, scratch.length);
    for (int i = 0; i < state.length; i++) {
      double x = 0;
      for (int j = 0; j < state.length; j++) {
        x += stateRoot[i][j] * scratch[j];
      }
      state[i] = x;
    }
  }

  /**
   * How many samples have been read.
   *
   * @return number of the sample that comes next
   */
  public long position() {
    return position;
  }

  /**
   * Reads the samples that come next.
   *
   * @param out receives {@code count} volts
   * @param offset where in {@code out} the first goes
   * @param count how many
   * @throws IndexOutOfBoundsException if {@code out} does not hold them
   */
  public void read(double[] out, int offset, int count) {
    Objects.checkFromIndexSize(offset, count, Require.present("out", out).length);
    int done = 0;
    while (done < count) {
      int used = (int) (position % BLOCK);
      if (used == 0) {
        block();
      }
      int n = Math.min(count - done, BLOCK - used);
      System.arraycopy(sum, used, out, offset + done, n);
      position += n;
      done += n;
    }
  }

  /** Blocks begin at fixed samples, so that samples do not depend on how they are asked for. */
  private void block() {
    CounterRandom.gaussians(white, position, block, 0, BLOCK);
    double direct = sections.direct;
    for (int j = 0; j < BLOCK; j++) {
      sum[j] = direct * block[j];
    }
    if (sections.whole.length > 0) {
      whole();
      return;
    }
    int lone = sections.factor.length;
    int pairs = sections.factorRe.length;
    int both = Math.min(lone, pairs);
    for (int i = 0; i < both; i++) {
      if (Math.abs(sections.factorIm[i]) >= LEAST_TURN) {
        loneAndPair(i, lone + 2 * i);
      } else {
        lone(i);
        pair(i, lone + 2 * i);
      }
    }
    for (int i = both; i < lone; i++) {
      lone(i);
    }
    for (int p = both; p < pairs; p++) {
      pair(p, lone + 2 * p);
    }
  }

  /**
   * Two samples a turn: a state is reached from the one before the last, so that the sums of one
   * turn need not wait for one another.
   */
  private void lone(int i) {
    double[] e = block;
    double[] s = sum;
    double a = sections.factor[i];
    double aa = a * a;
    double c = sections.weight[i];
    double x = state[i];
    for (int j = 0; j < BLOCK; j += 2) {
      double w = e[j];
      s[j] = Math.fma(c, x, s[j]);
      s[j + 1] = Math.fma(c, Math.fma(a, x, w), s[j + 1]);
      x = Math.fma(aa, x, Math.fma(a, w, e[j + 1]));
    }
    state[i] = x;
  }

  /**
   * A lone pole and a pair in one pass over the block. The pair runs as x_next = 2 a x - (a^2 +
   * b^2) x_before + e, of which its states are u = x - a x_before and v = b x_before: half the
   * operations of {@link #pair}, and only one of them waits for the sample before.
   */
  private void loneAndPair(int i, int at) {
    double[] e = block;
    double[] s = sum;
    double f = sections.factor[i];
    double g = sections.weight[i];
    double x = state[i];
    double a = sections.factorRe[i];
    double b = sections.factorIm[i];
    double now = 2 * a;
    double before = -Math.fma(a, a, b * b);
    double c = sections.weightRe[i];
    double d = -Math.fma(a, c, b * sections.weightIm[i]);
    double q = state[at + 1] / b;
    double p = Math.fma(a, q, state[at]);
    double ff = f * f;
    double nowTwo = Math.fma(now, now, before);
    double beforeTwo = now * before;
    for (int j = 0; j < BLOCK; j += 2) {
      double w = e[j];
      double w1 = e[j + 1];
      s[j] = Math.fma(c, p, Math.fma(d, q, Math.fma(g, x, s[j])));
      double x1 = Math.fma(f, x, w);
      double p1 = Math.fma(now, p, Math.fma(before, q, w));
      s[j + 1] = Math.fma(c, p1, Math.fma(d, p, Math.fma(g, x1, s[j + 1])));
      x = Math.fma(ff, x, Math.fma(f, w, w1));
      p = Math.fma(nowTwo, p, Math.fma(beforeTwo, q, Math.fma(now, w, w1)));
      q = p1;
    }
    state[i] = x;
    state[at] = Math.fma(-a, q, p);
    state[at + 1] = b * q;
  }

  private void pair(int p, int at) {
    double[] e = block;
    double[] s = sum;
    double a = sections.factorRe[p];
    double b = sections.factorIm[p];
    double aa = Math.fma(a, a, -b * b);
    double bb = 2 * a * b;
    double c = sections.weightRe[p];
    double d = -sections.weightIm[p];
    double u = state[at];
    double v = state[at + 1];
    for (int j = 0; j < BLOCK; j += 2) {
      double w = e[j];
      s[j] = Math.fma(c, u, Math.fma(d, v, s[j]));
      double u1 = Math.fma(a, u, Math.fma(-b, v, w));
      double v1 = Math.fma(a, v, b * u);
      s[j + 1] = Math.fma(c, u1, Math.fma(d, v1, s[j + 1]));
      double next = Math.fma(aa, u, Math.fma(-bb, v, Math.fma(a, w, e[j + 1])));
      v = Math.fma(aa, v, Math.fma(bb, u, b * w));
      u = next;
    }
    state[at] = u;
    state[at + 1] = v;
  }

  private void whole() {
    double[] e = block;
    double[] s = sum;
    double[] x = state;
    double[] next = scratch;
    double[] in = sections.wholeIn;
    double[] out = sections.wholeOut;
    for (int j = 0; j < BLOCK; j++) {
      double u = e[j];
      double y = s[j];
      for (int i = 0; i < x.length; i++) {
        double[] row = sections.whole[i];
        double t = in[i] * u;
        for (int k = 0; k < x.length; k++) {
          t = Math.fma(row[k], x[k], t);
        }
        next[i] = t;
        y = Math.fma(out[i], x[i], y);
      }
      s[j] = y;
      System.arraycopy(next, 0, x, 0, x.length);
    }
  }
}
