package org.asmeasured.measure;

import org.asmeasured.capture.Record;
import org.asmeasured.measure.Measured.Value;
import org.asmeasured.signal.Waveform;

/** The root of the mean square. */
final class RmsReading implements Reading {
  @Override
  public String name() {
    return "RMS";
  }

  @Override
  public String unit() {
    return "V";
  }

  @Override
  public Measured of(Record record) {
    return Spans.spoilt(name(), record)
        .orElseGet(() -> new Value(Math.sqrt(Sums.meanSquare(record))));
  }

  @Override
  public Measured of(Waveform truth, double fromSeconds, double toSeconds) {
    return Spans.taken(
        truth, fromSeconds, toSeconds, () -> new Value(truth.rms(fromSeconds, toSeconds)));
  }

  @Override
  public String toString() {
    return name();
  }
}
