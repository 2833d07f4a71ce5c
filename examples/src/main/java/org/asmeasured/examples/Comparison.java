package org.asmeasured.examples;

import org.asmeasured.signal.Waveform;

/**
 * A record beside the true signal: what the pictures are drawn from.
 *
 * @param startSeconds start of the record
 * @param rateHz stored points per second
 * @param centreSeconds from the start of a point's interval to the instant that it stands for; a
 *     pair of an envelope watches for twice as long
 * @param lower the stored points, or the lower ones of an envelope, in volts
 * @param upper the same array, or the upper points of an envelope, in volts
 * @param stepVolts step of the stored points; 0 where they have none
 * @param range what the converter spans; null where nothing was clipped
 * @param truth the signal at the tip
 * @param removedVolts the constant part that the chain takes off by design (AC coupling), and the
 *     pictures with it; else 0
 * @param unit V, or A where a current is recorded
 */
record Comparison(
    double startSeconds,
    double rateHz,
    double centreSeconds,
    double[] lower,
    double[] upper,
    double stepVolts,
    Range range,
    Waveform truth,
    double removedVolts,
    String unit) {

  /** A voltage. */
  Comparison(
      double startSeconds,
      double rateHz,
      double centreSeconds,
      double[] lower,
      double[] upper,
      double stepVolts,
      Range range,
      Waveform truth,
      double removedVolts) {
    this(
        startSeconds,
        rateHz,
        centreSeconds,
        lower,
        upper,
        stepVolts,
        range,
        truth,
        removedVolts,
        "V");
  }

  /** What the unit measures. */
  String quantity() {
    return unit.equals("A") ? "Current" : "Voltage";
  }

  /** Two levels, in volts. */
  record Range(double low, double high) {}

  boolean isEnvelope() {
    return lower != upper;
  }

  int size() {
    return lower.length;
  }

  /** The instant that a point stands for. */
  double timeSeconds(int i) {
    return startSeconds + i / rateHz + centreSeconds;
  }

  double endSeconds() {
    return startSeconds + size() / rateHz;
  }

  /**
   * Record less truth at every stored point, lower and upper; one array twice where the record is
   * no envelope.
   */
  double[][] errors() {
    double[] low = new double[size()];
    double[] high = isEnvelope() ? new double[size()] : low;
    for (int i = 0; i < low.length; i++) {
      if (isEnvelope() && centreSeconds > 0) {
        double from = startSeconds + i / rateHz;
        double to = from + 2 * centreSeconds;
        low[i] = lower[i] - (truth.minimum(from, to) - removedVolts);
        high[i] = upper[i] - (truth.maximum(from, to) - removedVolts);
      } else {
        double volts = truth.valueAt(timeSeconds(i)) - removedVolts;
        low[i] = lower[i] - volts;
        high[i] = upper[i] - volts;
      }
    }
    return new double[][] {low, high};
  }
}
