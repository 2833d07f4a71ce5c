package org.asmeasured.linear;

import java.util.Arrays;

/**
 * Sections of second and of first order in parallel. A section of second order has y = c w + d
 * w_before and w_next = a w + b w_before + u; one of first order has b = d = 0.
 */
final class Sections {
  /** Far below any voltage, and far above where arithmetic slows down. */
  static final double VANISHED = 1e-200;

  private int pairs;
  private int reals;
  private int count;
  double[] a = {};
  double[] b = {};
  double[] c = {};
  double[] d = {};
  double[] now = {};
  double[] before = {};

  /** States under a first sample of 1. */
  private double[] firstNow = {};

  private double[] firstBefore = {};
  private boolean[] isReal = {};

  /** Place of each section in the order in which they were added. */
  private int[] place = {};

  /** Adds a section of first order, and says its number. */
  int addReal(double one, double gain, double first) {
    reals++;
    return add(true, one, 0, gain, 0, first, 0);
  }

  /** Adds a section of second order. */
  void addPair(
      double one, double two, double gain, double earlier, double first, double beforeFirst) {
    pairs++;
    add(false, one, two, gain, earlier, first, beforeFirst);
  }

  private int add(
      boolean real,
      double one,
      double two,
      double gain,
      double earlier,
      double first,
      double beforeFirst) {
    int n = count + 1;
    a = Arrays.copyOf(a, n);
    b = Arrays.copyOf(b, n);
    c = Arrays.copyOf(c, n);
    d = Arrays.copyOf(d, n);
    firstNow = Arrays.copyOf(firstNow, n);
    firstBefore = Arrays.copyOf(firstBefore, n);
    isReal = Arrays.copyOf(isReal, n);
    a[count] = one;
    b[count] = two;
    c[count] = gain;
    d[count] = earlier;
    firstNow[count] = first;
    firstBefore[count] = beforeFirst;
    isReal[count] = real;
    count = n;
    return n - 1;
  }

  /** Sorts pairs to the front and fills up with empty sections; nothing can be added after that. */
  void close() {
    place = new int[count];
    int size = 0;
    int[] order = new int[count + 3];
    Arrays.fill(order, -1);
    for (int pass = 0; pass < 2; pass++) {
      for (int i = 0; i < count; i++) {
        if (isReal[i] == (pass == 1)) {
          place[i] = size;
          order[size++] = i;
        }
      }
      boolean three = pairs % 4 == 3 && reals > 0;
      if (pass == 0 && pairs % 2 == 1 && !three) {
        size++;
        pairs++;
      } else if (pass == 1 && reals % 2 == 1) {
        size++;
        reals++;
      }
    }
    a = sorted(a, order, size);
    b = sorted(b, order, size);
    c = sorted(c, order, size);
    d = sorted(d, order, size);
    firstNow = sorted(firstNow, order, size);
    firstBefore = sorted(firstBefore, order, size);
    now = new double[size];
    before = new double[size];
  }

  private static double[] sorted(double[] values, int[] order, int size) {
    double[] out = new double[size];
    for (int i = 0; i < size; i++) {
      out[i] = order[i] < 0 ? 0 : values[order[i]];
    }
    return out;
  }

  void begin(double first) {
    for (int i = 0; i < now.length; i++) {
      now[i] = firstNow[i] * first;
      before[i] = firstBefore[i] * first;
    }
  }

  /** Adds the outputs to y over from <= j < to. */
  void run(double[] u, double[] y, int from, int to) {
    int p = 0;
    int r = pairs;
    for (; pairs - p >= 4; p += 4) {
      StreamKernels.pairs4(this, p, u, y, from, to);
    }
    if (pairs - p == 3) {
      StreamKernels.pairs3Reals2(this, p, r, u, y, from, to);
      r += 2;
    } else if (pairs - p == 2) {
      StreamKernels.pairs2(this, p, u, y, from, to);
    }
    for (; r < now.length; r += 2) {
      StreamKernels.reals2(this, r, u, y, from, to);
    }
  }

  /** Output of a section of first order at the next sample; it starts again from zero. */
  double take(int number) {
    int i = place[number];
    double output = c[i] * now[i];
    now[i] = 0;
    return output;
  }

  /** What has died away is zero, before arithmetic slows down. */
  void clear() {
    for (int i = 0; i < now.length; i++) {
      if (Math.abs(now[i]) < VANISHED && Math.abs(before[i]) < VANISHED) {
        now[i] = 0;
        before[i] = 0;
      }
    }
  }
}
