package org.asmeasured.pulse;

import java.util.Optional;
import org.asmeasured.capture.Record;
import org.asmeasured.internal.Require;
import org.asmeasured.measure.Measured;
import org.asmeasured.measure.Reading;
import org.asmeasured.measure.Spans;
import org.asmeasured.signal.Waveform;

/** A quantity of pulses as a reading. */
record PulseReading(PulseQuantity quantity, PulseMethod method, Summary summary)
    implements Reading {
  PulseReading {
    Require.present("quantity", quantity);
    Require.present("method", method);
    Require.present("summary", summary);
  }

  @Override
  public String name() {
    return quantity.words();
  }

  @Override
  public String unit() {
    return quantity.unit();
  }

  @Override
  public Measured of(Record record) {
    Optional<Measured> spoilt = Spans.spoilt(name(), record);
    return spoilt.orElseGet(() -> PulseAnalysis.of(record, method).value(quantity, summary));
  }

  @Override
  public Measured of(Waveform truth, double fromSeconds, double toSeconds) {
    return Spans.taken(
        truth,
        fromSeconds,
        toSeconds,
        () -> PulseAnalysis.of(truth, fromSeconds, toSeconds, method).value(quantity, summary));
  }

  @Override
  public String toString() {
    StringBuilder words = new StringBuilder();
    if (summary != quantity.summary()) {
      words.append(summary.words()).append(" of ");
    }
    words.append(name());
    if (method.levels().areGiven()) {
      words.append(" between ").append(method.levels());
    } else if (!method.equals(PulseMethod.standard())) {
      words.append(" (").append(method).append(')');
    }
    return words.toString();
  }
}
