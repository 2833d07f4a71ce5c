package org.asmeasured.measure;

import java.util.Optional;
import java.util.OptionalDouble;
import org.asmeasured.capture.Record;
import org.asmeasured.internal.Quantity;
import org.asmeasured.measure.Measured.NotTaken;
import org.asmeasured.measure.Measured.Value;
import org.asmeasured.signal.Waveform;

/** The mean over whole cycles between rising crossings of the mid level, with hysteresis. */
final class PeriodReading implements Reading {
  /** How far below the mid level the value must have been, as a share of the peak to peak. */
  private static final double HYSTERESIS = 0.1;

  @Override
  public String name() {
    return "period";
  }

  @Override
  public String unit() {
    return "s";
  }

  @Override
  public Measured of(Record record) {
    Optional<Measured> empty = Spans.empty(record);
    if (empty.isPresent()) {
      return empty.get();
    }
    if (record.isEnvelope()) {
      return new NotTaken("an envelope does not say when within an interval a level is crossed");
    }
    double low = ExtremeReading.minimum(record);
    double high = ExtremeReading.maximum(record);
    if (low == high) {
      return new NotTaken("all values are equal: there is no crossing");
    }
    return period(new RecordPath(record), low, high, 1 / record.rateHz());
  }

  @Override
  public Measured of(Waveform truth, double fromSeconds, double toSeconds) {
    return Spans.taken(truth, fromSeconds, toSeconds, () -> taken(truth, fromSeconds, toSeconds));
  }

  private Measured taken(Waveform truth, double fromSeconds, double toSeconds) {
    double low = truth.minimum(fromSeconds, toSeconds);
    double high = truth.maximum(fromSeconds, toSeconds);
    if (low == high) {
      return new NotTaken("all values are equal: there is no crossing");
    }
    WaveformPath path =
        new WaveformPath(truth, fromSeconds, toSeconds, middle(low, high), armed(low, high));
    return period(path, low, high, 1);
  }

  private static double middle(double low, double high) {
    return low + (high - low) / 2;
  }

  private static double armed(double low, double high) {
    return middle(low, high) - HYSTERESIS * (high - low);
  }

  private static Measured period(Path path, double low, double high, double secondsPerUnit) {
    double middle = middle(low, high);
    double below = armed(low, high);
    boolean armed = false;
    long crossings = 0;
    OptionalDouble first = OptionalDouble.empty();
    Path.Piece last = null;
    while (path.next()) {
      armed |= path.startVolts <= below;
      if (armed && path.risesThrough(middle)) {
        armed = false;
        crossings++;
        last = path.piece();
        if (first.isEmpty()) {
          first = OptionalDouble.of(path.instant(last, middle));
        }
      }
      armed |= path.endVolts <= below;
    }
    if (crossings < 2) {
      String found = crossings == 0 ? "no rising crossing" : "only one rising crossing";
      return new NotTaken(
          found + " of " + Quantity.of(middle, "V") + ": no whole cycle in the span");
    }
    return new Value(
        (path.instant(last, middle) - first.getAsDouble()) / (crossings - 1) * secondsPerUnit);
  }

  @Override
  public String toString() {
    return name();
  }
}
