package org.asmeasured.measure;

import java.util.Optional;
import java.util.function.Supplier;
import org.asmeasured.capture.Record;
import org.asmeasured.internal.Require;
import org.asmeasured.measure.Measured.NotTaken;
import org.asmeasured.signal.Waveform;

/** Checks that readings between two channels have in common. */
final class Pairs {
  private Pairs() {}

  /** The reading of two waveforms; where one of them refuses the span, the reason. */
  static Measured taken(
      Waveform first,
      Waveform second,
      double fromSeconds,
      double toSeconds,
      Supplier<Measured> reading) {
    Require.present("first", first);
    Require.present("second", second);
    return Spans.taken(first, fromSeconds, toSeconds, reading);
  }

  /** Why nothing can be read of two records, if so. */
  static Optional<Measured> spoilt(String name, Record first, Record second) {
    Require.present("first", first);
    Require.present("second", second);
    return Spans.spoilt(name, first)
        .map(reason -> of("the first", reason))
        .or(() -> Spans.spoilt(name, second).map(reason -> of("the second", reason)))
        .or(() -> unequal(first, second));
  }

  private static Optional<Measured> unequal(Record first, Record second) {
    if (first.size() == second.size()
        && first.startSeconds() == second.startSeconds()
        && first.rateHz() == second.rateHz()
        && first.timeSeconds(0) == second.timeSeconds(0)) {
      return Optional.empty();
    }
    return Optional.of(
        new NotTaken("the two records have not the same points: " + first + "; " + second));
  }

  /** A reason, with the record that it is about. */
  static Measured of(String which, Measured reason) {
    return new NotTaken(which + " of the two: " + ((NotTaken) reason).reason());
  }
}
