package org.asmeasured.linear;

import java.util.Arrays;
import org.asmeasured.internal.ExtendedTime;
import org.asmeasured.signal.SampleClock;

/**
 * Tones at uniform instants: the phase at each block from the absolute sample number, the rest from
 * tables.
 */
final class TonesReader {
  private final Output.TonesOutput tones;
  private final SampleClock clock;
  private final double[][] rows;
  private final double[] amplitudes;
  private final int[] until;
  private final double[] scratch = new double[Rows.BLOCK];
  private final ExtendedTime time = new ExtendedTime();
  private long block = Long.MIN_VALUE;

  TonesReader(Output.TonesOutput tones, SampleClock clock, Rows table) {
    this.tones = tones;
    this.clock = clock;
    int n = tones.frequencyHz.length;
    rows = new double[2 * n][];
    amplitudes = new double[2 * n];
    until = new int[2 * n];
    Arrays.fill(until, Rows.BLOCK);
    for (int i = 0; i < n; i++) {
      double[][] pair = table.term(0, tones.frequencyHz[i]);
      rows[2 * i] = pair[0];
      rows[2 * i + 1] = pair[1];
    }
  }

  void read(long first, double[] out, int offset, int count, boolean add) {
    long k = first;
    int done = 0;
    while (done < count) {
      long b = Math.floorDiv(k, (long) Rows.BLOCK);
      int from = (int) (k - b * Rows.BLOCK);
      int to = Math.min(Rows.BLOCK, from + count - done);
      if (b != block) {
        prepare(b);
      }
      Kernels.sum(rows, amplitudes, until, amplitudes.length, tones.level, scratch, from, to);
      if (add) {
        Kernels.add(scratch, from, to, out, offset + done);
      } else {
        System.arraycopy(scratch, from, out, offset + done, to - from);
      }
      done += to - from;
      k += to - from;
    }
  }

  private void prepare(long b) {
    time.setQuotient(b * Rows.BLOCK, clock.rateHz()).add(clock.startSeconds());
    for (int i = 0; i < tones.frequencyHz.length; i++) {
      double angle = 2 * Math.PI * time.fractionOfCycles(tones.frequencyHz[i]);
      double cos = Math.cos(angle);
      double sin = Math.sin(angle);
      amplitudes[2 * i] = tones.re[i] * cos - tones.im[i] * sin;
      amplitudes[2 * i + 1] = tones.re[i] * sin + tones.im[i] * cos;
    }
    block = b;
  }
}
