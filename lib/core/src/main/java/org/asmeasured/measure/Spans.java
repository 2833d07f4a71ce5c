package org.asmeasured.measure;

import java.util.Optional;
import java.util.function.Supplier;
import java.util.stream.Collectors;
import org.asmeasured.capture.Record;
import org.asmeasured.internal.Require;
import org.asmeasured.measure.Measured.NotTaken;
import org.asmeasured.signal.Waveform;

/** Checks that readings have in common. */
final class Spans {
  private Spans() {}

  /**
   * The reading of a waveform; where the waveform refuses the span, with more pieces than it will
   * look at for one, the reason.
   */
  static Measured taken(
      Waveform truth, double fromSeconds, double toSeconds, Supplier<Measured> reading) {
    check(truth, fromSeconds, toSeconds);
    try {
      return reading.get();
    } catch (IllegalArgumentException e) {
      return new NotTaken(e.getMessage());
    }
  }

  private static void check(Waveform truth, double fromSeconds, double toSeconds) {
    Require.present("truth", truth);
    Require.instant("fromSeconds", fromSeconds);
    Require.instant("toSeconds", toSeconds);
    Require.that(
        fromSeconds < toSeconds,
        "fromSeconds = "
            + fromSeconds
            + " s, toSeconds = "
            + toSeconds
            + " s: the span must not be empty");
  }

  /** Why a record holds nothing at all, if so. */
  static Optional<Measured> empty(Record record) {
    Require.present("record", record);
    if (record.size() > 0) {
      return Optional.empty();
    }
    return Optional.of(
        new NotTaken(
            record.notes().entrySet().stream()
                .map(note -> note.getKey() + ": " + note.getValue())
                .collect(Collectors.joining("; ", "nothing was recorded (", ")"))));
  }

  /** Why nothing that rests on every value can be read, if so. */
  static Optional<Measured> spoilt(String name, Record record) {
    Optional<Measured> empty = empty(record);
    if (empty.isPresent()) {
      return empty;
    }
    if (record.isEnvelope()) {
      return Optional.of(
          new NotTaken(
              "an envelope stores the least and the greatest value of each interval, and says nothing of those between: "
                  + "no "
                  + name
                  + " follows from it"));
    }
    return Optional.empty();
  }

  static Optional<Measured> clipped(Record record, boolean low, boolean high) {
    long below = low ? record.clippedLow() : 0;
    long above = high ? record.clippedHigh() : 0;
    if (below + above == 0) {
      return Optional.empty();
    }
    String side = below == 0 ? "at the top" : above == 0 ? "at the bottom" : "at top and bottom";
    long count = below + above;
    return Optional.of(
        new NotTaken(
            "the record is clipped "
                + side
                + " ("
                + count
                + (count == 1 ? " raw sample" : " raw samples")
                + " beyond the range of the converter)"));
  }
}
