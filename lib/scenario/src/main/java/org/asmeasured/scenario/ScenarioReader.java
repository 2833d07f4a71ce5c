package org.asmeasured.scenario;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.asmeasured.measure.Reading;
import org.asmeasured.scenario.Json.Type;

/** Reads a whole scenario. */
final class ScenarioReader {
  static final List<String> REQUIRED =
      List.of("formatVersion", "title", "signal", "setup", "readings");
  static final List<String> OPTIONAL = List.of("$schema", "notes", "seed");

  private static final int FORMAT_VERSION = 1;
  private static final int MAX_READINGS = 100;

  private ScenarioReader() {}

  static Scenario read(Json root, Path folder) {
    return Fields.of(root, "scenario", REQUIRED, OPTIONAL).build(f -> scenario(f, folder));
  }

  private static Scenario scenario(Fields fields, Path folder) {
    if (fields.whole("formatVersion") != FORMAT_VERSION) {
      Json version = fields.child("formatVersion");
      throw version.refused("formatVersion = " + version.shown() + ": must be " + FORMAT_VERSION);
    }
    if (fields.has("$schema")) {
      fields.text("$schema");
    }
    return new Scenario(
        fields.text("title"),
        fields.has("notes") ? notes(fields) : List.of(),
        SignalKinds.in(folder).read(fields.child("signal")),
        SetupReader.read(fields.child("setup")),
        readings(fields),
        fields.has("seed") ? fields.seed("seed") : Scenario.USUAL_SEED);
  }

  private static List<String> notes(Fields fields) {
    List<String> notes = new ArrayList<>();
    for (Json note : fields.list("notes")) {
      if (note.type != Type.STRING || note.text.isBlank()) {
        throw note.refused(
            "notes: " + note.shown() + " must be a text with at least one character that shows");
      }
      notes.add(note.text);
    }
    return notes;
  }

  private static List<Reading> readings(Fields fields) {
    List<Json> items = fields.list("readings");
    if (items.isEmpty() || items.size() > MAX_READINGS) {
      throw fields
          .child("readings")
          .refused(
              "readings has " + items.size() + " entries: must have from 1 to " + MAX_READINGS);
    }
    List<Reading> readings = new ArrayList<>();
    for (Json item : items) {
      Reading reading = ReadingKinds.READINGS.read(item);
      if (readings.contains(reading)) {
        throw item.refused(
            "the reading \"" + reading + "\" is asked for twice: must be asked for once");
      }
      readings.add(reading);
    }
    return readings;
  }
}
