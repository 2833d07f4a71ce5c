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

  /** Streams of the key: the white values, and the state at the first sample. */
  private static final long WHITE = 1;

  private static final long START = 2;

  private final NoiseSections sections;
  private final double[][] stateRoot;
  private final long white;
  private final long start;
  private final double[] state;
  private final double[] scratch;
  private final double[] block = new double[BLOCK];
  private final double[] sum = new double[BLOCK];
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
    for (int done = 0; done < count; done += BLOCK) {
      int n = Math.min(BLOCK, count - done);
      next(n);
      System.arraycopy(sum, 0, out, offset + done, n);
    }
  }

  /**
   * Adds the samples that come next to what is there.
   *
   * @param out gets {@code count} volts added
   * @param offset where in {@code out} the first goes
   * @param count how many
   * @throws IndexOutOfBoundsException if {@code out} does not hold them
   */
  public void add(double[] out, int offset, int count) {
    Objects.checkFromIndexSize(offset, count, Require.present("out", out).length);
    for (int done = 0; done < count; done += BLOCK) {
      int n = Math.min(BLOCK, count - done);
      next(n);
      int at = offset + done;
      for (int j = 0; j < n; j++) {
        out[at + j] += sum[j];
      }
    }
  }

  private void next(int n) {
    CounterRandom.gaussians(white, position, block, 0, n);
    position += n;
    double direct = sections.direct;
    for (int j = 0; j < n; j++) {
      sum[j] = direct * block[j];
    }
    if (sections.whole.length > 0) {
      whole(n);
      return;
    }
    int lone = sections.factor.length;
    int i = 0;
    for (; i + 1 < lone; i += 2) {
      twoLone(i, n);
    }
    if (i < lone) {
      oneLone(i, n);
    }
    int pairs = sections.factorRe.length;
    int p = 0;
    for (; p + 1 < pairs; p += 2) {
      twoPairs(p, lone + 2 * p, n);
    }
    if (p < pairs) {
      onePair(p, lone + 2 * p, n);
    }
  }

  private void oneLone(int i, int n) {
    double[] e = block;
    double[] s = sum;
    double a = sections.factor[i];
    double c = sections.weight[i];
    double x = state[i];
    for (int j = 0; j < n; j++) {
      s[j] = Math.fma(c, x, s[j]);
      x = Math.fma(a, x, e[j]);
    }
    state[i] = x;
  }

  /** Two at a time: each waits for its own last value, so they fill each other's gaps. */
  private void twoLone(int i, int n) {
    double[] e = block;
    double[] s = sum;
    double a0 = sections.factor[i];
    double a1 = sections.factor[i + 1];
    double c0 = sections.weight[i];
    double c1 = sections.weight[i + 1];
    double x0 = state[i];
    double x1 = state[i + 1];
    for (int j = 0; j < n; j++) {
      double u = e[j];
      s[j] = Math.fma(c0, x0, Math.fma(c1, x1, s[j]));
      x0 = Math.fma(a0, x0, u);
      x1 = Math.fma(a1, x1, u);
    }
    state[i] = x0;
    state[i + 1] = x1;
  }

  private void onePair(int p, int at, int n) {
    double[] e = block;
    double[] s = sum;
    double a = sections.factorRe[p];
    double b = sections.factorIm[p];
    double c = sections.weightRe[p];
    double d = sections.weightIm[p];
    double u = state[at];
    double v = state[at + 1];
    for (int j = 0; j < n; j++) {
      s[j] = Math.fma(c, u, Math.fma(-d, v, s[j]));
      double next = Math.fma(a, u, Math.fma(-b, v, e[j]));
      v = Math.fma(a, v, b * u);
      u = next;
    }
    state[at] = u;
    state[at + 1] = v;
  }

  private void twoPairs(int p, int at, int n) {
    double[] e = block;
    double[] s = sum;
    double a0 = sections.factorRe[p];
    double b0 = sections.factorIm[p];
    double c0 = sections.weightRe[p];
    double d0 = sections.weightIm[p];
    double a1 = sections.factorRe[p + 1];
    double b1 = sections.factorIm[p + 1];
    double c1 = sections.weightRe[p + 1];
    double d1 = sections.weightIm[p + 1];
    double u0 = state[at];
    double v0 = state[at + 1];
    double u1 = state[at + 2];
    double v1 = state[at + 3];
    for (int j = 0; j < n; j++) {
      double w = e[j];
      s[j] = Math.fma(c0, u0, Math.fma(-d0, v0, Math.fma(c1, u1, Math.fma(-d1, v1, s[j]))));
      double next0 = Math.fma(a0, u0, Math.fma(-b0, v0, w));
      double next1 = Math.fma(a1, u1, Math.fma(-b1, v1, w));
      v0 = Math.fma(a0, v0, b0 * u0);
      v1 = Math.fma(a1, v1, b1 * u1);
      u0 = next0;
      u1 = next1;
    }
    state[at] = u0;
    state[at + 1] = v0;
    state[at + 2] = u1;
    state[at + 3] = v1;
  }

  private void whole(int n) {
    double[] e = block;
    double[] s = sum;
    double[] x = state;
    double[] next = scratch;
    double[] in = sections.wholeIn;
    double[] out = sections.wholeOut;
    for (int j = 0; j < n; j++) {
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
