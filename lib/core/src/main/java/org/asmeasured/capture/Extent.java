package org.asmeasured.capture;

/**
 * The least and the greatest of many volts. Four are looked for side by side, which no longer wait
 * for one another; none may be NaN.
 */
final class Extent {
  private Extent() {}

  static double least(double[] x) {
    double a = x[0];
    double b = a;
    double c = a;
    double d = a;
    int i = 0;
    for (; i + 3 < x.length; i += 4) {
      a = x[i] < a ? x[i] : a;
      b = x[i + 1] < b ? x[i + 1] : b;
      c = x[i + 2] < c ? x[i + 2] : c;
      d = x[i + 3] < d ? x[i + 3] : d;
    }
    for (; i < x.length; i++) {
      a = Math.min(a, x[i]);
    }
    return Math.min(Math.min(a, b), Math.min(c, d));
  }

  static double greatest(double[] x) {
    double a = x[0];
    double b = a;
    double c = a;
    double d = a;
    int i = 0;
    for (; i + 3 < x.length; i += 4) {
      a = x[i] > a ? x[i] : a;
      b = x[i + 1] > b ? x[i + 1] : b;
      c = x[i + 2] > c ? x[i + 2] : c;
      d = x[i + 3] > d ? x[i + 3] : d;
    }
    for (; i < x.length; i++) {
      a = Math.max(a, x[i]);
    }
    return Math.max(Math.max(a, b), Math.max(c, d));
  }
}
