package org.asmeasured.scenario;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import org.asmeasured.accuracy.Measurement;
import org.asmeasured.capture.Setup;
import org.asmeasured.digitizer.Linearity;
import org.asmeasured.measure.Reading;
import org.asmeasured.measure.Statistics;
import org.asmeasured.scenario.Json.Type;
import org.asmeasured.signal.Signal;

/** Reads a whole scenario. */
final class ScenarioReader {
  static final List<String> REQUIRED =
      List.of("formatVersion", "title", "signal", "setup", "readings");
  static final List<String> OPTIONAL = optional();
  static final List<String> RARE_EVENT = List.of("eventsPerSecond", "observedSeconds");

  static final Kinds<LinearityTest> LINEARITY_TESTS =
      new Kinds<LinearityTest>("linearity test")
          .add("sineHistogram", "line?", f -> linearityTest(f, LinearityTest.Stimulus.SINE))
          .add("rampHistogram", "line?", f -> linearityTest(f, LinearityTest.Stimulus.RAMP));

  private static final Map<String, Linearity.Line> LINES =
      new TreeMap<>(
          Map.of(
              "endPoints", Linearity.Line.END_POINTS,
              "leastSquares", Linearity.Line.LEAST_SQUARES));
  private static final int FORMAT_VERSION = 1;
  static final int MAX_READINGS = 100;
  private static final int MAX_RARE_EVENTS = 100;

  private ScenarioReader() {}

  private static List<String> optional() {
    List<String> keys =
        new ArrayList<>(
            List.of(
                "$schema",
                "notes",
                "seed",
                "captures",
                "linearityTest",
                "rareEvents",
                AssessmentReader.KEY));
    keys.addAll(ChannelsReader.KEYS);
    return List.copyOf(keys);
  }

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
    String title = fields.text("title");
    List<String> notes = fields.has("notes") ? notes(fields) : List.of();
    Kinds<Signal> kinds = SignalKinds.in(folder);
    Signal signal = kinds.read(fields.child("signal"));
    Setup setup = SetupReader.read(fields.child("setup"));
    List<Reading> readings = readings(fields);
    return new Scenario(
        title,
        notes,
        signal,
        setup,
        readings,
        fields.has("seed") ? fields.seed("seed") : Scenario.USUAL_SEED,
        ChannelsReader.read(fields, kinds, signal, setup),
        rareEvents(fields, setup),
        captures(fields),
        fields.has("linearityTest")
            ? Optional.of(LINEARITY_TESTS.read(fields.child("linearityTest")))
            : Optional.empty(),
        AssessmentReader.read(fields, new Measurement(signal, setup), readings));
  }

  private static LinearityTest linearityTest(Fields fields, LinearityTest.Stimulus stimulus) {
    return new LinearityTest(
        stimulus, fields.has("line") ? fields.oneOf("line", LINES) : Linearity.Line.END_POINTS);
  }

  private static int captures(Fields fields) {
    if (!fields.has("captures")) {
      return 0;
    }
    int captures = fields.whole("captures");
    if (captures < 2) {
      throw fields
          .child("captures")
          .refused("captures = " + captures + ": must be from 2 to " + Statistics.MAX_ACQUISITIONS);
    }
    return captures;
  }

  private static List<RareEvent> rareEvents(Fields fields, Setup setup) {
    List<RareEvent> events = new ArrayList<>();
    if (!fields.has("rareEvents")) {
      return events;
    }
    List<Json> items = fields.list("rareEvents");
    if (items.isEmpty() || items.size() > MAX_RARE_EVENTS) {
      throw fields
          .child("rareEvents")
          .refused(
              "rareEvents has "
                  + items.size()
                  + " entries: must have from 1 to "
                  + MAX_RARE_EVENTS);
    }
    for (Json item : items) {
      events.add(
          Fields.of(item, "a rare event", RARE_EVENT, List.of())
              .build(f -> new RareEvent(f.number("eventsPerSecond"), f.number("observedSeconds"))));
    }
    if (setup.trigger().isEmpty()) {
      throw fields
          .child("rareEvents")
          .refused(
              "key \"trigger\" is missing in setup: how often a record is taken follows from the trigger");
    }
    return events;
  }

  static List<String> notes(Fields fields) {
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
