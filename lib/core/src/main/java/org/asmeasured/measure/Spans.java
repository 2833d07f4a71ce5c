package org.asmeasured.measure;

import java.util.Optional;
import java.util.function.Supplier;
import java.util.stream.Collectors;
import org.asmeasured.capture.Record;
import org.asmeasured.internal.Require;
import org.asmeasured.measure.Measured.NotTaken;
import org.asmeasured.signal.Waveform;

/** What readings have in common: the reasons why a record or a span gives none. */
public final class Spans {
  private Spans() {}

  /**
   * The reading of a waveform; where the waveform refuses the span, with more pieces than it will
   * look at for one, the reason.
   *
   * @param truth the waveform
   * @param fromSeconds start of the span
   * @param toSeconds end of the span, after its start
   * @param reading takes the reading; may throw an IllegalArgumentException to refuse
   * @return the reading
   * @throws IllegalArgumentException if the span is empty or an end of it is not finite
   * @throws NullPointerException if the waveform is missing
   */
  public static Measured taken(
      Waveform truth, double fromSeconds, double toSeconds, Supplier<Measured> reading) {
    check(truth, fromSeconds, toSeconds);
    try {
      return reading.get();
    } catch (IllegalArgumentException e) {
      return new NotTaken(e.getMessage());
    }
  }

  static void check(Waveform truth, double fromSeconds, double toSeconds) {
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

  /**
   * Why a record holds nothing at all, if so.
   *
   * @param record the record
   * @return the reason, or empty
   * @throws NullPointerException if the record is missing
   */
  public static Optional<Measured> empty(Record record) {
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

  /**
   * Why nothing that rests on every value can be read, if so: the record is empty or an envelope.
   *
   * @param name of the reading
   * @param record the record
   * @return the reason, or empty
   * @throws NullPointerException if the record is missing
   */
  public static Optional<Measured> spoilt(String name, Record record) {
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

  /**
   * Why what rests on an extreme cannot be read, if so: it was cut off.
   *
   * @param record the record
   * @param low whether the reading rests on the least values
   * @param high whether it rests on the greatest
   * @return the reason, or empty
   */
  public static Optional<Measured> clipped(Record record, boolean low, boolean high) {
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
