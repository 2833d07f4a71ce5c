package org.asmeasured.measure;

import org.asmeasured.capture.Record;
import org.asmeasured.internal.Require;
import org.asmeasured.measure.Measured.NotTaken;
import org.asmeasured.measure.Measured.Value;
import org.asmeasured.signal.Waveform;

/** The least and the greatest value, and how far they are apart. */
final class ExtremeReading implements Reading {

  enum Which {
    MINIMUM("minimum"),
    MAXIMUM("maximum"),
    PEAK_TO_PEAK("peak to peak");

    private final String words;

    Which(String words) {
      this.words = words;
    }
  }

  private final Which which;

  ExtremeReading(Which which) {
    this.which = which;
  }

  @Override
  public String name() {
    return which.words;
  }

  @Override
  public String unit() {
    return "V";
  }

  @Override
  public Measured of(Record record) {
    Require.present("record", record);
    return Spans.empty(record)
        .or(() -> Spans.clipped(record, which != Which.MAXIMUM, which != Which.MINIMUM))
        .orElseGet(() -> taken(record));
  }

  private Measured taken(Record record) {
    switch (which) {
      case MINIMUM:
        return new Value(record.minimum());
      case MAXIMUM:
        return new Value(record.maximum());
      default:
        if (record.size() < 2 && !record.isEnvelope()) {
          return new NotTaken("a single point has no peak to peak");
        }
        return new Value(record.maximum() - record.minimum());
    }
  }

  @Override
  public Measured of(Waveform truth, double fromSeconds, double toSeconds) {
    return Spans.taken(truth, fromSeconds, toSeconds, () -> taken(truth, fromSeconds, toSeconds));
  }

  private Measured taken(Waveform truth, double fromSeconds, double toSeconds) {
    switch (which) {
      case MINIMUM:
        return new Value(truth.minimum(fromSeconds, toSeconds));
      case MAXIMUM:
        return new Value(truth.maximum(fromSeconds, toSeconds));
      default:
        return new Value(
            truth.maximum(fromSeconds, toSeconds) - truth.minimum(fromSeconds, toSeconds));
    }
  }

  @Override
  public String toString() {
    return name();
  }
}
