package org.asmeasured.scenario;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import org.asmeasured.internal.Require;

/**
 * Reads scenarios from JSON.
 *
 * <p>The format is that of {@link #schema()}: an object with {@code formatVersion}, {@code title},
 * {@code notes}, {@code seed}, {@code signal}, {@code setup} and {@code readings}. Signals and
 * stages are told apart by their {@code kind}; the unit of a number is the end of its key ({@code
 * amplitudeVolts}, {@code frequencyHz}, {@code ohms}, {@code farads}), always the SI unit without a
 * prefix. The reader holds more than a schema can: it also refuses repeated keys, text after the
 * end, numbers that no double can hold, and whatever a signal or a stage refuses by itself.
 *
 * <pre>{@code
 * {
 *   "formatVersion": 1,
 *   "title": "A square wave through 100 MHz",
 *   "signal": { "kind": "square", "lowVolts": 0, "highVolts": 1, "periodSeconds": 1e-6, "dutyFactor": 0.5 },
 *   "setup": {
 *     "bandwidth": { "kind": "singlePole", "bandwidthHz": 100e6 },
 *     "vertical": { "voltsPerDivision": 0.2, "offsetVolts": 0.5 },
 *     "converter": { "kind": "ideal", "bits": 8 },
 *     "sampling": { "rateHz": 1e9, "points": 2000 }
 *   },
 *   "readings": [{ "kind": "riseTime" }]
 * }
 * }</pre>
 *
 * <p>A reading is told by its {@code kind}, and takes its parameters beside it: {@code { "kind":
 * "settlingRising", "settlingPercent": 5 }}, {@code { "kind": "thd", "window": { "kind": "hann" },
 * "highestOrder": 5 }}. {@code captures} asks for the statistics of the readings over so many
 * captures, {@code linearityTest} for INL and DNL of the converter by histogram.
 *
 * <p>A function that exists in code only ({@link org.asmeasured.signal.Signals#fitted}) has no form
 * in a file; its points have, as a recorded waveform.
 */
public final class Scenarios {
  private static final String SCHEMA = "scenario.schema.json";

  private Scenarios() {}

  /**
   * Reads a scenario file. Recorded waveforms that it names are looked for beside it, or in folders
   * below.
   *
   * @param file a JSON file in UTF-8
   * @return the scenario
   * @throws ScenarioException if the file cannot be read or says anything that is not allowed
   */
  public static Scenario load(Path file) {
    Require.present("file", file);
    String text = TextFile.read(file, file.toString());
    Json root = Json.parse(file.getFileName().toString(), text);
    return ScenarioReader.read(root, file.toAbsolutePath().getParent());
  }

  /**
   * Reads a scenario from text.
   *
   * @param json the text of a scenario
   * @param folder where recorded waveforms that it names are looked for
   * @return the scenario
   * @throws ScenarioException if the text says anything that is not allowed
   */
  public static Scenario parse(String json, Path folder) {
    Require.present("json", json);
    Require.present("folder", folder);
    return ScenarioReader.read(Json.parse("scenario", json), folder);
  }

  /**
   * The JSON Schema (draft 2020-12) of a scenario.
   *
   * @return the text of the schema
   */
  public static String schema() {
    return resource(SCHEMA);
  }

  static String resource(String name) {
    try (InputStream in = Scenarios.class.getResourceAsStream(name)) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
