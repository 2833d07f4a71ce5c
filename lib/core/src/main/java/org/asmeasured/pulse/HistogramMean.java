package org.asmeasured.pulse;

import org.asmeasured.capture.Record;
import org.asmeasured.internal.OrderStatistics;
import org.asmeasured.signal.Dwell;
import org.asmeasured.signal.Waveform;

/** The mean of each half of the range. */
enum HistogramMean implements StateLevels {
  ONE;

  private static final int BLOCK = 1024;

  @Override
  public States of(Record record) {
    double[] volts = record.volts();
    double[] extremes = OrderStatistics.extremes(volts, volts.length);
    double low = extremes[0];
    double high = extremes[1];
    if (low == high) {
      return new States(low, high);
    }
    double middle = low + (high - low) / 2;
    double below = 0;
    double above = 0;
    long countBelow = 0;
    for (int at = 0; at < volts.length; at += BLOCK) {
      double sumBelow = 0;
      double sumAbove = 0;
      int n = 0;
      int end = Math.min(at + BLOCK, volts.length);
      for (int i = at; i < end; i++) {
        double distance = volts[i] - middle;
        sumBelow += Math.min(distance, 0);
        sumAbove += Math.max(distance, 0);
        n += distance < 0 ? 1 : 0;
      }
      below += sumBelow;
      above += sumAbove;
      countBelow += n;
    }
    return new States(
        clamp(middle + below / countBelow, low, middle),
        clamp(middle + above / (volts.length - countBelow), middle, high));
  }

  /** Rounding must not carry a mean beyond what it is a mean of. */
  private static double clamp(double value, double low, double high) {
    return Math.min(high, Math.max(low, value));
  }

  @Override
  public States of(Waveform truth, double fromSeconds, double toSeconds) {
    Dwell dwell = Dwell.of(truth, fromSeconds, toSeconds);
    double low = dwell.minimum();
    double high = dwell.maximum();
    if (low == high) {
      return new States(low, high);
    }
    double middle = low + (high - low) / 2;
    return new States(
        clamp(dwell.mean(middle, true), low, middle),
        clamp(dwell.mean(middle, false), middle, high));
  }

  @Override
  public String toString() {
    return "means of the two halves of the range";
  }
}
