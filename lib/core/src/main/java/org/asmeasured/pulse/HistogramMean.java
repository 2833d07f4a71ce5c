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
    int size = record.size();
    double[] block = new double[Math.min(BLOCK, size)];
    double[] lowHigh = {record.volts(0), record.volts(0)};
    for (int at = 0; at < size; at += block.length) {
      int n = Math.min(block.length, size - at);
      record.volts(at, block, 0, n);
      OrderStatistics.extremes(block, n, lowHigh);
    }
    double low = lowHigh[0];
    double high = lowHigh[1];
    if (low == high) {
      return new States(low, high);
    }
    double middle = low + (high - low) / 2;
    double[] sums = new double[2];
    long countBelow = 0;
    for (int at = 0; at < size; at += block.length) {
      int n = Math.min(block.length, size - at);
      record.volts(at, block, 0, n);
      countBelow += add(block, n, middle, sums);
    }
    return new States(
        // of two neighbouring numbers the middle is one of them
        countBelow == 0 ? low : clamp(middle + sums[0] / countBelow, low, middle),
        clamp(middle + sums[1] / (size - countBelow), middle, high));
  }

  /** Distances from the middle, those below it and those above; returns how many are below. */
  private static int add(double[] volts, int count, double middle, double[] sums) {
    double below = 0;
    double above = 0;
    int n = 0;
    for (int i = 0; i < count; i++) {
      double distance = volts[i] - middle;
      below += Math.min(distance, 0);
      above += Math.max(distance, 0);
      n += distance < 0 ? 1 : 0;
    }
    sums[0] += below;
    sums[1] += above;
    return n;
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
