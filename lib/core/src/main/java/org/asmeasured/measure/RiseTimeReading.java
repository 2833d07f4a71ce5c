package org.asmeasured.measure;

import org.asmeasured.capture.Record;
import org.asmeasured.internal.Quantity;
import org.asmeasured.internal.Require;
import org.asmeasured.measure.Measured.NotTaken;
import org.asmeasured.measure.Measured.Value;
import org.asmeasured.signal.Waveform;

/** The 10-90 % time of the first whole rising transition. */
final class RiseTimeReading implements Reading {
  private final boolean given;
  private final double lowVolts;
  private final double highVolts;

  RiseTimeReading() {
    given = false;
    lowVolts = 0;
    highVolts = 0;
  }

  RiseTimeReading(double lowVolts, double highVolts) {
    given = true;
    this.lowVolts = Require.volts("lowVolts", lowVolts);
    this.highVolts = Require.volts("highVolts", highVolts);
    Require.that(
        lowVolts < highVolts,
        "lowVolts = "
            + lowVolts
            + " V, highVolts = "
            + highVolts
            + " V: the second must be above the first");
  }

  @Override
  public String name() {
    return "rise time";
  }

  @Override
  public String unit() {
    return "s";
  }

  @Override
  public Measured of(Record record) {
    return Spans.spoilt(name(), record)
        .or(() -> Spans.clipped(record, true, true))
        .orElseGet(() -> taken(record));
  }

  private Measured taken(Record record) {
    double low = given ? lowVolts : ExtremeReading.minimum(record);
    double high = given ? highVolts : ExtremeReading.maximum(record);
    double interval = 1 / record.rateHz();
    return low == high ? flat() : riseTime(new RecordPath(record), low, high, interval);
  }

  @Override
  public Measured of(Waveform truth, double fromSeconds, double toSeconds) {
    return Spans.taken(truth, fromSeconds, toSeconds, () -> taken(truth, fromSeconds, toSeconds));
  }

  private Measured taken(Waveform truth, double fromSeconds, double toSeconds) {
    double low = given ? lowVolts : truth.minimum(fromSeconds, toSeconds);
    double high = given ? highVolts : truth.maximum(fromSeconds, toSeconds);
    if (low == high) {
      return flat();
    }
    WaveformPath path =
        new WaveformPath(
            truth, fromSeconds, toSeconds, level(low, high, 0.1), level(low, high, 0.9));
    return riseTime(path, low, high, 1);
  }

  private static Measured flat() {
    return new NotTaken("all values are equal: there is no transition");
  }

  private static double level(double low, double high, double share) {
    return low + share * (high - low);
  }

  private static Measured riseTime(Path path, double low, double high, double secondsPerUnit) {
    double level10 = level(low, high, 0.1);
    double level90 = level(low, high, 0.9);
    Path.Piece begin = null;
    while (path.next()) {
      if (path.risesThrough(level10)) {
        begin = path.piece();
      } else if (path.fallsBelow(level10)) {
        begin = null;
      }
      if (begin != null && path.risesThrough(level90)) {
        Path.Piece end = path.piece();
        if (path instanceof RecordPath && begin.equals(end)) {
          return new NotTaken(
              "the edge lies between two neighbouring points: it takes less than "
                  + Quantity.of(secondsPerUnit, "s")
                  + ", and no more can be said");
        }
        return new Value(
            (path.instant(end, level90) - path.instant(begin, level10)) * secondsPerUnit);
      }
    }
    return new NotTaken(
        "no whole rising transition from "
            + Quantity.of(level10, "V")
            + " to "
            + Quantity.of(level90, "V")
            + " in the span");
  }

  @Override
  public boolean equals(Object other) {
    return other instanceof RiseTimeReading that
        && given == that.given
        && Double.compare(lowVolts, that.lowVolts) == 0
        && Double.compare(highVolts, that.highVolts) == 0;
  }

  @Override
  public int hashCode() {
    return Double.hashCode(lowVolts) * 31 + Double.hashCode(highVolts);
  }

  @Override
  public String toString() {
    return given
        ? name() + " between " + Quantity.of(lowVolts, "V") + " and " + Quantity.of(highVolts, "V")
        : name();
  }
}
