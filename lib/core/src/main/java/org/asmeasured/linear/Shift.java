package org.asmeasured.linear;

/**
 * How many derivatives each rate needs, so that instants shifted by up to a stated time come out
 * exactly: the least degree d for which {@code x^(d+1)/(d+1)!} falls below 1e-11, x being the rate
 * times the shift.
 *
 * <p>A mode that is gone within a sample of a segment's start does not bound the shift: samples so
 * near to a start are evaluated one by one, and the others do not see it.
 */
final class Shift {
  private static final double NEGLECTED = 1e-11;

  /** Beyond this turn a series takes too long; such instants are evaluated one by one. */
  private static final double MAX_TURN = 0.5;

  private static final int MAX_DEGREE = 8;

  /** After so many time constants a mode is gone: 1e-26 of it is left. */
  private static final double GONE = 60;

  static final Shift NONE = new Shift(0, 0, false);

  private final double maxSamples;
  final int maxDegree;
  private final boolean leavesOut;

  private Shift(double maxSamples, int maxDegree, boolean leavesOut) {
    this.maxSamples = maxSamples;
    this.maxDegree = maxDegree;
    this.leavesOut = leavesOut;
  }

  /**
   * Shifts of up to so many samples, beside rates per sample.
   *
   * @param fastest of all
   * @param lasting the fastest of those that are not gone within a sample
   */
  static Shift of(double maxSamples, double fastest, double lasting) {
    boolean leavesOut = maxSamples * fastest > MAX_TURN && lasting < fastest;
    double served = leavesOut ? lasting : fastest;
    double reach = Math.min(maxSamples, MAX_TURN / served);
    return new Shift(reach, new Shift(reach, MAX_DEGREE, false).degree(served), leavesOut);
  }

  /** Whether a mode of this real part, per sample, is gone within a sample. */
  static boolean isGoneAtOnce(double rePerSample) {
    return -rePerSample >= GONE;
  }

  /** For how many samples a mode is to be kept away from: 0 if its derivatives serve. */
  double keptAway(double rePerSample) {
    return leavesOut && isGoneAtOnce(rePerSample) ? GONE / -rePerSample : 0;
  }

  /** How many derivatives a mode needs; none where it is kept away from. */
  int degreeOfMode(double rePerSample, double imPerSample) {
    return maxDegree == 0 || keptAway(rePerSample) > 0
        ? 0
        : degree(Math.hypot(rePerSample, imPerSample));
  }

  /** Shifts up to this many samples are served. */
  double maxSamples() {
    return maxSamples;
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
