package org.asmeasured.pulse;

import org.asmeasured.capture.Record;
import org.asmeasured.signal.Waveform;

/** The least and the greatest value. */
enum PeakMagnitude implements StateLevels {
  ONE;

  @Override
  public States of(Record record) {
    double low = record.volts(0);
    double high = low;
    for (int i = 1; i < record.size(); i++) {
      double v = record.volts(i);
      low = Math.min(low, v);
      high = Math.max(high, v);
    }
    return new States(low, high);
  }

  @Override
  public States of(Waveform truth, double fromSeconds, double toSeconds) {
    return new States(truth.minimum(fromSeconds, toSeconds), truth.maximum(fromSeconds, toSeconds));
  }

  @Override
  public String toString() {
    return "least and greatest value";
  }
}
