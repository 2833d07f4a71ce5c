package org.asmeasured.measure;

import java.util.Arrays;
import java.util.OptionalDouble;
import org.asmeasured.acquisition.Slope;
import org.asmeasured.capture.Record;
import org.asmeasured.measure.Measured.NotTaken;
import org.asmeasured.measure.Measured.Value;
import org.asmeasured.signal.Waveform;

/**
 * The edges of one channel that a delay is measured at: their direction, and the level that they
 * cross; midway between the extremes if none is given.
 */
record Edges(Slope slope, OptionalDouble levelVolts) {
  /** How far beyond the level the value must have been, as a share of the peak to peak. */
  private static final double HYSTERESIS = 0.1;

  static Edges midway(Slope slope) {
    return new Edges(slope, OptionalDouble.empty());
  }

  /** Where the crossings are, or why there are none. */
  record Found(double[] seconds, Measured reason) {
    boolean isNone() {
      return reason != null;
    }
  }

  Found of(Record record) {
    if (levelVolts.isEmpty()) {
      var clipped = Spans.clipped(record, true, true);
      if (clipped.isPresent()) {
        return new Found(null, clipped.get());
      }
    }
    double low = Double.POSITIVE_INFINITY;
    double high = Double.NEGATIVE_INFINITY;
    for (int i = 0; i < record.size(); i++) {
      low = Math.min(low, record.volts(i));
      high = Math.max(high, record.volts(i));
    }
    double level = level(low, high);
    return low == high
        ? flat()
        : found(Crossings.of(record, slope, level, HYSTERESIS * (high - low)), level);
  }

  Found of(Waveform waveform, double from, double to) {
    double low = waveform.minimum(from, to);
    double high = waveform.maximum(from, to);
    double level = level(low, high);
    return low == high
        ? flat()
        : found(Crossings.of(waveform, from, to, slope, level, HYSTERESIS * (high - low)), level);
  }

  private double level(double low, double high) {
    return levelVolts.orElse(low + (high - low) / 2);
  }

  private static Found flat() {
    return new Found(null, new NotTaken("all values are equal: there is no crossing"));
  }

  private Found found(double[] seconds, double level) {
    return seconds.length > 0
        ? new Found(seconds, null)
        : new Found(null, new NotTaken("no " + slope + " crossing of " + new Value(level).in("V")));
  }

  /**
   * The mean of second less first over the crossings that are nearest to each other both ways; a
   * crossing near an end, whose partner is outside, has none.
   */
  static Measured delay(double[] first, double[] second) {
    double sum = 0;
    int pairs = 0;
    for (int i = 0; i < first.length; i++) {
      int j = nearest(second, first[i]);
      if (nearest(first, second[j]) == i) {
        sum += second[j] - first[i];
        pairs++;
      }
    }
    return pairs == 0 ? new NotTaken("no two crossings belong together") : new Value(sum / pairs);
  }

  /** Ascending instants; of two as near the earlier. */
  static int nearest(double[] instants, double to) {
    int at = Arrays.binarySearch(instants, to);
    if (at >= 0) {
      return at;
    }
    int after = -at - 1;
    if (after == 0 || after < instants.length && instants[after] - to < to - instants[after - 1]) {
      return after;
    }
    return after - 1;
  }
}
