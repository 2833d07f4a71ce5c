package org.asmeasured.characterisation;

import java.util.Optional;
import java.util.stream.Collectors;
import org.asmeasured.capture.Record;

/** Why a record cannot be used, if so. */
final class Records {
  private Records() {}

  /** Nothing was recorded, or two values a point. */
  static Optional<String> noValues(String what, Record record) {
    if (record.size() == 0) {
      return Optional.of(
          record.notes().entrySet().stream()
              .map(note -> note.getKey() + ": " + note.getValue())
              .collect(Collectors.joining("; ", "nothing was recorded (", ")")));
    }
    if (record.isEnvelope()) {
      return Optional.of(
          "an envelope stores the least and the greatest value of each interval: no "
              + what.replaceFirst("^an? ", "")
              + " follows from it");
    }
    return Optional.empty();
  }
}
