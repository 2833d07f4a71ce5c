package org.asmeasured.linear;

import java.util.Arrays;

/** A constant and rows with amplitudes, in order of how many samples of the block they last. */
final class RowList {
  private double constant;
  private int live;
  private double[][] rows;
  private double[] amplitudes;
  private int[] until;

  /** For so many rows, or more. */
  RowList(int expected) {
    rows = new double[expected][];
    amplitudes = new double[expected];
    until = new int[expected];
  }

  void clear(double newConstant) {
    constant = newConstant;
    live = 0;
  }

  /** Changes the constant. */
  void constant(double value) {
    constant = value;
  }

  /** Where a row stands. */
  int indexOf(double[] row) {
    for (int i = 0; i < live; i++) {
      if (rows[i] == row) {
        return i;
      }
    }
    return -1;
  }

  int size() {
    return live;
  }

  double constant() {
    return constant;
  }

  double[] row(int index) {
    return rows[index];
  }

  /** From this sample of the block on a row cannot be seen any more. */
  int until(int index) {
    return until[index];
  }

  /** The amplitude of a row. */
  double amplitude(int index) {
    return amplitudes[index];
  }

  /** Changes the amplitude of a row. */
  void set(int index, double amplitude) {
    amplitudes[index] = amplitude;
  }

  void add(double[] row, double amplitude) {
    add(row, amplitude, Rows.BLOCK);
  }

  /** Adds a row that cannot be seen any more after so many samples. */
  void add(double[] row, double amplitude, int lasts) {
    if (live == rows.length) {
      int more = 2 * live + 2;
      rows = Arrays.copyOf(rows, more);
      amplitudes = Arrays.copyOf(amplitudes, more);
      until = Arrays.copyOf(until, more);
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

  /** Beyond this sample of the block the sum is zero. */
  int longest() {
    return constant != 0 ? Rows.BLOCK : live == 0 ? 0 : until[0];
  }

  void sum(double[] scratch, int from, int to) {
    int last = live == 0 ? from : Math.max(from, Math.min(to, until[0]));
    if (last > from) {
      Kernels.sum(rows, amplitudes, until, live, constant, scratch, from, last);
    }
    if (to > last) {
      Arrays.fill(scratch, last, to, constant);
    }
  }
}
