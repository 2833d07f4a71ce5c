package org.asmeasured.scenario;

import java.nio.file.Path;
import org.asmeasured.internal.Require;

/**
 * Reads sweeps from JSON.
 *
 * <p>The format is that of {@link #schema()}: a scenario, by the name of its file or as it is, and
 * 1 to 3 axes. An axis varies a number that stands in the scenario, named by its JSON pointer (RFC
 * 6901): over a list, or from one number to another in so many steps that are evenly spaced or
 * spaced by a ratio, rounded to 12 digits between the ends. Other numbers may move along with it.
 *
 * <pre>{@code
 * {
 *   "formatVersion": 1,
 *   "title": "How many bits the ripple needs",
 *   "scenario": "../scenarios/rail-with-ripple.json",
 *   "axes": [
 *     { "value": "/setup/converter/bits", "from": 6, "to": 14, "count": 9 },
 *     { "value": "/setup/vertical/voltsPerDivision", "name": "volts per division", "list": [0.2, 0.5, 1] }
 *   ],
 *   "readings": [{ "kind": "peakToPeak" }]
 * }
 * }</pre>
 *
 * <p>The scenario of every point is read and checked before the first is computed.
 */
public final class Sweeps {
  private static final String SCHEMA = "sweep.schema.json";

  private Sweeps() {}

  /**
   * Reads a sweep file. A scenario file that it names is looked for from its folder.
   *
   * @param file a JSON file in UTF-8
   * @return the sweep
   * @throws ScenarioException if the file cannot be read or says anything that is not allowed, the
   *     scenario included, as it stands and at each point
   */
  public static Sweep load(Path file) {
    Require.present("file", file);
    String text = TextFile.read(file, file.toString());
    return SweepReader.read(file.getFileName().toString(), text, file.toAbsolutePath().getParent());
  }

  /**
   * Reads a sweep from text.
   *
   * @param json the text of a sweep
   * @param folder from which a scenario file is looked for; for a scenario inside the text, where
   *     recorded waveforms are
   * @return the sweep
   * @throws ScenarioException if the text says anything that is not allowed
   */
  public static Sweep parse(String json, Path folder) {
    Require.present("json", json);
    Require.present("folder", folder);
    return SweepReader.read("sweep", json, folder);
  }

  /**
   * The JSON Schema (draft 2020-12) of a sweep. It refers to that of a scenario by its name, {@code
   * urn:asmeasured:scenario:1}.
   *
   * @return the text of the schema
   */
  public static String schema() {
    return Scenarios.resource(SCHEMA);
  }
}
