package org.asmeasured.pulse;

import org.asmeasured.capture.Record;
import org.asmeasured.internal.LaneSums;
import org.asmeasured.internal.RangeLanes;
import org.asmeasured.signal.Dwell;
import org.asmeasured.signal.Waveform;

/** The mean of each half of the range. */
enum HistogramMean implements StateLevels {
  ONE;

  @Override
  public States of(Record record) {
    int size = record.size();
    RangeLanes range = new RangeLanes();
    double[] block = new double[Math.min(RangeLanes.BLOCK, size)];
    for (int at = 0; at < size; at += block.length) {
      int n = Math.min(block.length, size - at);
      record.volts(at, block, 0, n);
      range.add(block, n);
    }
    double low = range.least();
    double high = range.greatest();
    if (low == high) {
      return new States(low, high);
    }
    double middle = low + (high - low) / 2;
    Halves halves = new Halves(middle);
    for (int at = 0; at < size; at += LaneSums.BLOCK) {
      int n = Math.min(LaneSums.BLOCK, size - at);
      record.volts(at, halves.block, 0, n);
      halves.add(n);
    }
    double below = halves.countBelow.total();
    return new States(
        // of two neighbouring numbers the middle is one of them
        below == 0 ? low : clamp(middle + halves.below.total() / below, low, middle),
        clamp(middle + halves.above.total() / (size - below), middle, high));
  }

  /** Distances from the middle, those below it and those above, and how many are below. */
  private static final class Halves {
    final LaneSums below = new LaneSums();
    final LaneSums above = new LaneSums();
    final LaneSums countBelow = new LaneSums();
    final double[] block = new double[LaneSums.BLOCK];
    private final double[] part = new double[LaneSums.BLOCK];
    private final double middle;

    Halves(double middle) {
      this.middle = middle;
    }

    void add(int count) {
      above(block, count, middle, part);
      above.add(part, count);
      below(block, count, middle, part);
      below.add(part, count);
      ones(part, count);
      countBelow.add(part, count);
    }

    private static void above(double[] v, int count, double middle, double[] out) {
      for (int i = 0; i < count; i++) {
        out[i] = Math.max(v[i] - middle, 0);
      }
    }

    private static void below(double[] v, int count, double middle, double[] out) {
      for (int i = 0; i < count; i++) {
        out[i] = Math.min(v[i] - middle, 0);
      }
    }

    /** One for each value below zero. */
    private static void ones(double[] v, int count) {
      for (int i = 0; i < count; i++) {
        v[i] = Math.ceil(Math.min(-v[i], 1));
      }
    }
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
