package org.asmeasured.pulse;

import java.util.Arrays;
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
    halves.flush();
    double below = halves.countBelow.total();
    return new States(
        // of two neighbouring numbers the middle is one of them
        below == 0 ? low : clamp(middle + halves.below.total() / below, low, middle),
        clamp(middle + halves.above.total() / (size - below), middle, high));
  }

  /**
   * Distances from the middle, those below it and those above, and how many are below: in lanes,
   * which go into compensated sums before their roundings add up.
   */
  private static final class Halves {
    private static final int BLOCKS = 32;

    final LaneSums below = new LaneSums();
    final LaneSums above = new LaneSums();
    final LaneSums countBelow = new LaneSums();
    final double[] block = new double[LaneSums.BLOCK];
    private final double[] low = new double[LaneSums.BLOCK];
    private final double[] high = new double[LaneSums.BLOCK];
    private final double[] ones = new double[LaneSums.BLOCK];
    private final double middle;
    private int blocks;

    Halves(double middle) {
      this.middle = middle;
    }

    void add(int count) {
      split(block, count, middle, low, high, ones);
      if (++blocks == BLOCKS) {
        flush();
      }
    }

    void flush() {
      flush(low, below);
      flush(high, above);
      flush(ones, countBelow);
      blocks = 0;
    }

    private static void flush(double[] lanes, LaneSums sums) {
      sums.add(lanes, lanes.length);
      Arrays.fill(lanes, 0);
    }

    private static void split(
        double[] v, int count, double middle, double[] low, double[] high, double[] ones) {
      for (int i = 0; i < count; i++) {
        double distance = v[i] - middle;
        double part = Math.min(distance, 0);
        low[i] += part;
        high[i] += distance - part;
        ones[i] += Math.ceil(Math.min(-part, 1));
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
