package org.asmeasured.measure;

import org.asmeasured.capture.Record;
import org.asmeasured.measure.Measured.Value;
import org.asmeasured.signal.Waveform;

/** The mean. */
final class MeanReading implements Reading {
  @Override
  public String name() {
    return "mean";
  }

  @Override
  public String unit() {
    return "V";
  }

  @Override
  public Measured of(Record record) {
    return Spans.spoilt(name(), record).orElseGet(() -> new Value(Sums.mean(record)));
  }

  @Override
  public Measured of(Waveform truth, double fromSeconds, double toSeconds) {
    return Spans.taken(
        truth, fromSeconds, toSeconds, () -> new Value(truth.mean(fromSeconds, toSeconds)));
  }

  @Override
  public String toString() {
    return name();
  }
}
