package org.asmeasured.measure;

import java.util.Optional;
import org.asmeasured.acquisition.Reconstruction;
import org.asmeasured.capture.Record;
import org.asmeasured.internal.Require;
import org.asmeasured.measure.Measured.NotTaken;
import org.asmeasured.signal.Waveform;

/** A reading of the record with values between its points; of a waveform, the reading itself. */
record ReconstructedReading(Reading reading, Reconstruction reconstruction, int factor)
    implements Reading {
  private static final long MOST = 1 << 28;

  ReconstructedReading {
    Require.present("reading", reading);
    Require.present("reconstruction", reconstruction);
    Require.inRange("factor", factor, 1, Reconstruction.MAX_FACTOR);
  }

  @Override
  public String name() {
    return reading.name();
  }

  @Override
  public String unit() {
    return reading.unit();
  }

  @Override
  public Measured of(Record record) {
    Optional<Measured> empty = Spans.empty(record);
    if (empty.isPresent()) {
      return empty.get();
    }
    if (record.isEnvelope()) {
      return new NotTaken("between the pairs of an envelope nothing can be reconstructed");
    }
    int needed = 1 + 2 * reconstruction.margin();
    if (record.size() < needed) {
      return new NotTaken(
          reconstruction + " needs " + needed + " points, and the record has " + record.size());
    }
    if ((long) (record.size() - needed) * factor >= MOST) {
      return new NotTaken(
          record.size() + " points of " + factor + " values each are more than can be looked at");
    }
    return reading.of(record.reconstructed(reconstruction, factor));
  }

  @Override
  public Measured of(Waveform truth, double fromSeconds, double toSeconds) {
    return reading.of(truth, fromSeconds, toSeconds);
  }

  @Override
  public String toString() {
    return reading + " (" + reconstruction + ", " + factor + " values a point)";
  }
}
