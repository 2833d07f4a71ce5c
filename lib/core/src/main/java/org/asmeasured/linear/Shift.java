package org.asmeasured.linear;

/**
 * How many derivatives each rate needs, so that instants shifted by up to a stated time come out
 * exactly: the least degree d for which {@code x^(d+1)/(d+1)!} falls below 1e-11, x being the rate
 * times the shift.
 */
final class Shift {
  private static final double NEGLECTED = 1e-11;

  /** Beyond this turn a series takes too long; such instants are evaluated one by one. */
  private static final double MAX_TURN = 0.5;

  private static final int MAX_DEGREE = 8;

  static final Shift NONE = new Shift(0, 0);

  private final double maxSamples;
  final int maxDegree;

  private Shift(double maxSamples, int maxDegree) {
    this.maxSamples = maxSamples;
    this.maxDegree = maxDegree;
  }

  /** Shifts of up to so many samples, beside rates (per sample) of up to {@code fastest}. */
  static Shift of(double maxSamples, double fastest) {
    double reach = Math.min(maxSamples, MAX_TURN / fastest);
    return new Shift(reach, new Shift(reach, MAX_DEGREE).degree(fastest));
  }

  /** Shifts up to this many samples are served. */
  double maxSamples() {
    return maxSamples;
  }

  /** Of a complex rate. */
  int degree(double re, double im) {
    return maxDegree == 0 ? 0 : degree(Math.hypot(re, im));
  }

  int degree(double ratePerSample) {
    double x = ratePerSample * maxSamples;
    double rest = x;
    int degree = 0;
    while (rest > NEGLECTED && degree < maxDegree) {
      degree++;
      rest *= x / (degree + 1);
    }
    return degree;
  }
}
