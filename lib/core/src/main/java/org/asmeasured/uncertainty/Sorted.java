package org.asmeasured.uncertainty;

/** Ordered values of an output: intervals by plain counts (JCGM 101, 7.5, 7.7). */
final class Sorted {
  private Sorted() {}

  /** How many of n values an interval of this probability spans. */
  private static int span(int n, double probability) {
    return (int) Math.floor(probability * n + 0.5);
  }

  /** As many beyond either end. */
  static Interval symmetric(double[] values, double probability) {
    int n = values.length;
    int q = span(n, probability);
    int r = (n - q + 1) / 2;
    return new Interval(values[r - 1], values[Math.min(n, r + q) - 1]);
  }

  /** The shortest; the first of several. */
  static Interval shortest(double[] values, double probability) {
    int n = values.length;
    int q = span(n, probability);
    int best = 0;
    double length = Double.POSITIVE_INFINITY;
    for (int r = 0; r + q < n; r++) {
      double here = values[r + q] - values[r];
      if (here < length) {
        length = here;
        best = r;
      }
    }
    return new Interval(values[best], values[best + q]);
  }
}
