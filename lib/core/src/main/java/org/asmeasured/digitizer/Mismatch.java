package org.asmeasured.digitizer;

/** The loop over one core's samples, a method of its own. */
final class Mismatch {
  private Mismatch() {}

  static void apply(
      double[] volts, int from, int to, int stride, double centre, double gain, double shift) {
    for (int i = from; i < to; i += stride) {
      volts[i] += (volts[i] - centre) * gain + shift;
    }
  }
}
