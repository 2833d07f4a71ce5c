package org.asmeasured.measure;

import org.asmeasured.capture.Record;
import org.asmeasured.internal.OrderStatistics;
import org.asmeasured.internal.Quantity;
import org.asmeasured.internal.Require;
import org.asmeasured.measure.Measured.Value;
import org.asmeasured.signal.Dwell;
import org.asmeasured.signal.Waveform;

/** The value that a share of the others lies below. */
record PercentileReading(double percent) implements Reading {

  PercentileReading {
    Require.inRange("percent", percent, "%", 0, 100);
  }

  @Override
  public String name() {
    return "percentile";
  }

  @Override
  public String unit() {
    return "V";
  }

  @Override
  public Measured of(Record record) {
    return Spans.spoilt(name(), record).orElseGet(() -> taken(record));
  }

  private Measured taken(Record record) {
    double[] volts = record.volts();
    int n = volts.length;
    double[] extremes = OrderStatistics.extremes(volts, n);
    double place = percent / 100 * (n - 1);
    int below = (int) Math.min(place, n - 1);
    double share = place - below;
    double value = OrderStatistics.select(volts, n, below);
    if (share > 0) {
      value += share * (after(record, value, below) - value);
    }
    // clipping moves values to an end of the range and no further: others keep their rank
    boolean low = value <= extremes[0];
    boolean high = value >= extremes[1];
    double taken = value;
    return Spans.clipped(record, low, high).orElseGet(() -> new Value(taken));
  }

  /** The value of the next rank after one that has a value. */
  private static double after(Record record, double value, int rank) {
    int upTo = 0;
    double next = Double.POSITIVE_INFINITY;
    for (int i = 0; i < record.size(); i++) {
      double v = record.volts(i);
      upTo += v <= value ? 1 : 0;
      next = Math.min(next, v > value ? v : Double.POSITIVE_INFINITY);
    }
    return upTo > rank + 1 ? value : next;
  }

  @Override
  public Measured of(Waveform truth, double fromSeconds, double toSeconds) {
    return Spans.taken(
        truth,
        fromSeconds,
        toSeconds,
        () -> new Value(Dwell.of(truth, fromSeconds, toSeconds).quantile(percent / 100)));
  }

  @Override
  public String toString() {
    return name() + " " + Quantity.of(percent, "%");
  }
}
