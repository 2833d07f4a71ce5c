package org.asmeasured.examples;

/**
 * A part of a record, worth a picture of its own.
 *
 * @param first number of its first stored point
 * @param last number of its last stored point
 */
record Window(int first, int last) {
  private static final int FEWEST_POINTS = 24;
  private static final int MOST_POINTS = 160;
  private static final int CYCLES = 3;

  int points() {
    return last - first + 1;
  }

  boolean isWhole(Comparison comparison) {
    return points() == comparison.size();
  }

  /**
   * A few cycles around the greatest error; the whole record where it has no more, or where nothing
   * repeats.
   */
  static Window cycles(Comparison comparison, int at) {
    double period = comparison.truth().periodSeconds().orElse(0);
    double points = CYCLES * period * comparison.rateHz();
    if (!(points > 0) || points >= comparison.size()) {
      return new Window(0, comparison.size() - 1);
    }
    return around(comparison, at, Math.max(FEWEST_POINTS, (int) Math.ceil(points - 1e-6) + 1));
  }

  /**
   * The greatest error, near enough to see the stored points: a few cycles, or fewer where they
   * hold too many points.
   */
  static Window closeUp(Comparison comparison, int at) {
    int points = Math.min(MOST_POINTS, cycles(comparison, at).points());
    return around(comparison, at, points);
  }

  private static Window around(Comparison comparison, int at, int points) {
    int count = Math.min(points, comparison.size());
    int first = Math.max(0, Math.min(comparison.size() - count, at - count / 2));
    return new Window(first, first + count - 1);
  }
}
