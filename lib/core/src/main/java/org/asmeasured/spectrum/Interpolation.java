package org.asmeasured.spectrum;

/** Where a tone stands between two lines. */
final class Interpolation {
  private static final int HALVINGS = 60;

  private Interpolation() {}

  /**
   * The distance from the stronger line to the tone, towards the weaker: where |W(1 - d)|/|W(d)| is
   * the ratio of the two. It grows from |W(1)|/|W(0)| to 1. Noise may leave a ratio below the
   * first, which no tone has: the tone then stands on the line.
   *
   * @param ratio weaker to stronger, 0 to 1
   * @return 0 to 0.5
   */
  static double offset(Window window, int points, double ratio) {
    double low = 0;
    double high = 0.5;
    if (excess(window, points, low, ratio) >= 0) {
      return low;
    }
    for (int i = 0; i < HALVINGS; i++) {
      double middle = (low + high) / 2;
      if (excess(window, points, middle, ratio) < 0) {
        low = middle;
      } else {
        high = middle;
      }
    }
    return (low + high) / 2;
  }

  private static double excess(Window window, int points, double offset, double ratio) {
    return window.modulus(1 - offset, points) - ratio * window.modulus(offset, points);
  }
}
