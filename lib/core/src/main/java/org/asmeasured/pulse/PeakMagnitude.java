package org.asmeasured.pulse;

import org.asmeasured.capture.Record;
import org.asmeasured.internal.OrderStatistics;
import org.asmeasured.signal.Waveform;

/** The least and the greatest value. */
enum PeakMagnitude implements StateLevels {
  ONE;

  @Override
  public States of(Record record) {
    double[] extremes = OrderStatistics.extremes(record.volts(), record.size());
    return new States(extremes[0], extremes[1]);
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
