package org.asmeasured.linear;

import org.asmeasured.internal.ExtendedTime;
import org.asmeasured.signal.SampleClock;

/**
 * Tones at uniform instants, or at instants shifted a little from them: the phase at each block
 * from the absolute sample number, the rest from tables.
 */
final class TonesReader {
  private final Output.TonesOutput tones;
  private final double rateHz;
  private final double[][][] pairs;
  private final Shift shift;
  private final RowList[] lists;
  private final double[][] scratch;
  private final double[] shiftBlock;
  private final ExtendedTime time = new ExtendedTime();
  private double startSeconds;
  private long block = Long.MIN_VALUE;

  TonesReader(Output.TonesOutput tones, SampleClock clock, Rows table, Shift shift) {
    this.tones = tones;
    this.shift = shift;
    shiftBlock = new double[shift == Shift.NONE ? 0 : Rows.LENGTH];
    rateHz = clock.rateHz();
    startSeconds = clock.startSeconds();
    int n = tones.frequencyHz.length;
    pairs = new double[n][][];
    for (int i = 0; i < n; i++) {
      pairs[i] = table.term(0, tones.frequencyHz[i]);
    }
    lists = new RowList[shift.maxDegree + 1];
    for (int m = 0; m < lists.length; m++) {
      lists[m] = new RowList(2 * n);
    }
    scratch = new double[lists.length][Rows.LENGTH];
  }

  void startAt(double newStartSeconds) {
    startSeconds = newStartSeconds;
    block = Long.MIN_VALUE;
  }

  void read(long first, double[] shifts, double[] out, int offset, int count, boolean add) {
    long k = first;
    int done = 0;
    while (done < count) {
      long b = Math.floorDiv(k, (long) Rows.BLOCK);
      int from = (int) (k - b * Rows.BLOCK);
      int to = Math.min(Rows.BLOCK, from + count - done);
      if (b != block) {
        prepare(b);
      }
      lists[0].sum(scratch[0], from, to);
      if (shifts != null && shift != Shift.NONE) {
        System.arraycopy(shifts, done, shiftBlock, from, to - from);
        for (int m = 1; m < lists.length; m++) {
          lists[m].sum(scratch[m], from, to);
        }
        for (int m = lists.length - 2; m >= 0; m--) {
          Kernels.horner(scratch[m + 1], shiftBlock, scratch[m], from, to);
        }
      }
      if (add) {
        Kernels.add(scratch[0], from, to, out, offset + done);
      } else {
        System.arraycopy(scratch[0], from, out, offset + done, to - from);
      }
      done += to - from;
      k += to - from;
    }
  }

  private void prepare(long b) {
    time.setQuotient(b * Rows.BLOCK, rateHz).add(startSeconds);
    for (int m = 0; m < lists.length; m++) {
      lists[m].clear(m == 0 ? tones.level : 0);
    }
    for (int i = 0; i < pairs.length; i++) {
      double angle = 2 * Math.PI * time.fractionOfCycles(tones.frequencyHz[i]);
      double cos = Math.cos(angle);
      double sin = Math.sin(angle);
      double re = tones.re[i] * cos - tones.im[i] * sin;
      double im = tones.re[i] * sin + tones.im[i] * cos;
      double turn = 2 * Math.PI * tones.frequencyHz[i] / rateHz;
      int degree = shift.degree(turn);
      for (int m = 0; ; m++) {
        lists[m].add(pairs[i][0], re);
        lists[m].add(pairs[i][1], im);
        if (m == degree) {
          break;
        }
        double next = -im * turn / (m + 1);
        im = re * turn / (m + 1);
        re = next;
      }
    }
    block = b;
  }
}
