package org.asmeasured.scenario;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.asmeasured.accuracy.Measurement;
import org.asmeasured.accuracy.Parameter;
import org.asmeasured.capture.Setup;
import org.asmeasured.fitting.ChainFit;
import org.asmeasured.fitting.FitMethod;
import org.asmeasured.fitting.RecordNoise;
import org.asmeasured.fitting.Recording;
import org.asmeasured.fitting.Unknown;
import org.asmeasured.measure.Reading;
import org.asmeasured.scenario.Json.Type;
import org.asmeasured.signal.Signal;

/** Reads a whole fit. */
final class BenchFitReader {
  static final List<String> REQUIRED =
      List.of("formatVersion", "title", "signal", "setup", "recordings", "unknowns");
  static final List<String> OPTIONAL = List.of("$schema", "notes", "sizeOfNoise", "readings");
  static final List<String> RECORDING = recordingKeys(false);
  static final List<String> RECORDING_OPTIONAL = recordingKeys(true);
  static final List<String> UNKNOWN = List.of("parameter", "lowest", "highest");
  static final List<String> UNKNOWN_OPTIONAL = List.of("start", "recording");
  static final List<String> READING = List.of("signal", "setup", "reading", "value");

  static final Kinds<RecordNoise> NOISES =
      new Kinds<RecordNoise>("noise of a recording")
          .add("asStated", "", f -> RecordNoise.asStated())
          .add("white", "rmsVolts", f -> RecordNoise.white(f.number("rmsVolts")));

  private static final Map<String, Boolean> SIZES =
      new TreeMap<>(Map.of("asStated", true, "fromResiduals", false));
  private static final int FORMAT_VERSION = 1;
  private static final int MOST = 100;

  private BenchFitReader() {}

  /** Those of a recorded file, and the noise. */
  private static List<String> recordingKeys(boolean optional) {
    List<String> keys = new ArrayList<>();
    for (String key : RecordedFile.KEYS.split(" ")) {
      if (key.endsWith("?") == optional) {
        keys.add(optional ? key.substring(0, key.length() - 1) : key);
      }
    }
    if (optional) {
      keys.add("noise");
    }
    return List.copyOf(keys);
  }

  static BenchFit read(Json root, Path folder) {
    return Fields.of(root, "a fit", REQUIRED, OPTIONAL).build(f -> fit(f, folder));
  }

  private static BenchFit fit(Fields fields, Path folder) {
    if (fields.whole("formatVersion") != FORMAT_VERSION) {
      Json version = fields.child("formatVersion");
      throw version.refused("formatVersion = " + version.shown() + ": must be " + FORMAT_VERSION);
    }
    if (fields.has("$schema")) {
      fields.text("$schema");
    }
    String title = fields.text("title");
    List<String> notes = new ArrayList<>();
    for (Json note : fields.has("notes") ? fields.list("notes") : List.<Json>of()) {
      if (note.type != Type.STRING || note.text.isBlank()) {
        throw note.refused(
            "notes: " + note.shown() + " must be a text with at least one character that shows");
      }
      notes.add(note.text);
    }
    Kinds<Signal> signals = SignalKinds.in(folder);
    Measurement measurement =
        new Measurement(
            signals.read(fields.child("signal")), SetupReader.read(fields.child("setup")));
    List<Recording> recordings = new ArrayList<>();
    for (Json item : items(fields, "recordings")) {
      recordings.add(
          Fields.of(item, "a recording", RECORDING, RECORDING_OPTIONAL)
              .build(f -> recording(f, folder, measurement)));
    }
    List<Unknown> unknowns = new ArrayList<>();
    for (Json item : items(fields, "unknowns")) {
      Unknown unknown =
          Fields.of(item, "an unknown", UNKNOWN, UNKNOWN_OPTIONAL)
              .build(f -> unknown(f, recordings.size(), measurement));
      if (unknowns.stream().anyMatch(u -> u.name().equals(unknown.name()))) {
        throw item.refused(unknown.name() + " is sought twice: must be sought once");
      }
      unknowns.add(unknown);
    }
    FitMethod method = FitMethod.usual();
    if (fields.has("sizeOfNoise") && !fields.oneOf("sizeOfNoise", SIZES)) {
      method = method.withSizeOfNoiseFromResiduals();
    }
    return new BenchFit(title, notes, recordings, unknowns, method, readings(fields, signals));
  }

  private static List<Json> items(Fields fields, String key) {
    List<Json> items = fields.list(key);
    int most = key.equals("unknowns") ? ChainFit.MAX_UNKNOWNS : MOST;
    if (items.isEmpty() || items.size() > most) {
      throw fields
          .child(key)
          .refused(key + " has " + items.size() + " entries: must have from 1 to " + most);
    }
    return items;
  }

  private static Recording recording(Fields fields, Path folder, Measurement measurement) {
    RecordNoise noise =
        fields.has("noise") ? NOISES.read(fields.child("noise")) : RecordNoise.asStated();
    Recording recording = new Recording(RecordedFile.record(fields, folder), measurement, noise);
    Setup setup = measurement.setup();
    try {
      noise.autocovariance(setup, 1);
    } catch (IllegalArgumentException e) {
      throw fields
          .node()
          .refused("noise of the recording: " + e.getMessage().replaceAll("\\.$", ""), e);
    }
    return recording;
  }

  private static Unknown unknown(Fields fields, int recordings, Measurement measurement) {
    Parameter parameter = fields.oneOf("parameter", ParameterNames.PARAMETERS);
    double stated = parameter.of(measurement);
    double lowest = fields.number("lowest");
    double highest = fields.number("highest");
    Unknown unknown = Unknown.of(parameter, lowest, highest);
    if (fields.has("recording")) {
      int number = fields.whole("recording");
      if (number < 1 || number > recordings) {
        throw fields
            .child("recording")
            .refused("recording = " + number + ": must be from 1 to " + recordings);
      }
      unknown = unknown.ofRecording(number - 1);
    }
    for (String key : Arrays.asList("lowest", "highest")) {
      try {
        parameter.with(measurement, fields.number(key));
      } catch (IllegalArgumentException e) {
        throw fields
            .child(key)
            .refused(
                key
                    + " = "
                    + fields.number(key)
                    + ": the setup cannot have it: "
                    + e.getMessage().replaceAll("\\.$", ""),
                e);
      }
    }
    // the start of a record is its own, which the setup does not say
    boolean placed = ParameterNames.PARAMETERS.get("startSeconds") == parameter;
    if (!fields.has("start") && !placed && !(stated >= lowest && stated <= highest)) {
      throw fields
          .node()
          .refused(
              "start is missing: must be given where the setup states "
                  + stated
                  + ", which is not from "
                  + lowest
                  + " to "
                  + highest);
    }
    return fields.has("start") ? unknown.from(fields.number("start")) : unknown;
  }

  private static List<BenchFit.Taken> readings(Fields fields, Kinds<Signal> signals) {
    List<BenchFit.Taken> readings = new ArrayList<>();
    if (!fields.has("readings")) {
      return readings;
    }
    for (Json item : items(fields, "readings")) {
      readings.add(
          Fields.of(item, "a reading to correct", READING, List.of())
              .build(
                  f -> {
                    Reading reading = ReadingKinds.READINGS.read(f.child("reading"));
                    return new BenchFit.Taken(
                        new Measurement(
                            signals.read(f.child("signal")), SetupReader.read(f.child("setup"))),
                        reading,
                        f.number("value"));
                  }));
    }
    return readings;
  }
}
