package org.asmeasured.scenario;

import java.nio.file.Path;
import org.asmeasured.internal.Require;

/**
 * Reads instruments and probes from JSON, one file for each on the bench.
 *
 * <p>The formats are those of {@link #schema()} and {@link #probeSchema()}; stages and tolerances
 * are said as in a scenario. Source, coupling, volts per division, record and trigger come from the
 * measurement that is asked for; {@code offers} says what can be set.
 *
 * <pre>{@code
 * {
 *   "formatVersion": 1,
 *   "name": "eight bits",
 *   "notes": ["Invented."],
 *   "setup": {
 *     "bandwidth": { "kind": "gaussian", "order": 4, "bandwidthHz": 200e6 },
 *     "vertical": { "voltsPerDivision": 1 },
 *     "converter": { "kind": "ideal", "bits": 8 }
 *   },
 *   "mostRateHz": 1e9,
 *   "mostPoints": 1000000,
 *   "tolerances": [{ "parameter": "gainError", "distribution": { "kind": "rectangular", "lower": -0.02, "upper": 0.02 } }],
 *   "offers": { "scales": { "leastVoltsPerDivision": 2e-3, "greatestVoltsPerDivision": 5 } }
 * }
 * }</pre>
 */
public final class Instruments {
  private Instruments() {}

  /**
   * Reads an instrument file.
   *
   * @param file a JSON file in UTF-8
   * @return the instrument
   * @throws ScenarioException if the file cannot be read or says anything that is not allowed
   * @throws NullPointerException if it is missing
   */
  public static DescribedInstrument load(Path file) {
    return InstrumentReader.instrument(json(file));
  }

  /**
   * Reads a probe file.
   *
   * @param file a JSON file in UTF-8
   * @return the probe
   * @throws ScenarioException if the file cannot be read or says anything that is not allowed
   * @throws NullPointerException if it is missing
   */
  public static DescribedProbe loadProbe(Path file) {
    return InstrumentReader.probe(json(file));
  }

  private static Json json(Path file) {
    Require.present("file", file);
    return Json.parse(file.getFileName().toString(), TextFile.read(file, file.toString()));
  }

  /**
   * Reads an instrument from text.
   *
   * @param json the text
   * @return the instrument
   * @throws ScenarioException if it says anything that is not allowed
   * @throws NullPointerException if it is missing
   */
  public static DescribedInstrument parse(String json) {
    return InstrumentReader.instrument(Json.parse("instrument", Require.present("json", json)));
  }

  /**
   * Reads a probe from text.
   *
   * @param json the text
   * @return the probe
   * @throws ScenarioException if it says anything that is not allowed
   * @throws NullPointerException if it is missing
   */
  public static DescribedProbe parseProbe(String json) {
    return InstrumentReader.probe(Json.parse("probe", Require.present("json", json)));
  }

  /**
   * The JSON Schema (draft 2020-12) of an instrument; it refers to that of a scenario.
   *
   * @return the text of the schema
   */
  public static String schema() {
    return Scenarios.resource("instrument.schema.json");
  }

  /**
   * The JSON Schema (draft 2020-12) of a probe; it refers to that of a scenario.
   *
   * @return the text of the schema
   */
  public static String probeSchema() {
    return Scenarios.resource("probe.schema.json");
  }
}
