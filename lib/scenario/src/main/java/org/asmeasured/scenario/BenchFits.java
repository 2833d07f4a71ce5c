package org.asmeasured.scenario;

import java.nio.file.Path;
import org.asmeasured.internal.Require;

/**
 * Reads fits of a chain to recorded data from JSON, in the format of {@link #schema()}. Signal and
 * setup are said as in a {@link Scenarios scenario}; records are CSV files beside the fit.
 *
 * <pre>{@code
 * {
 *   "formatVersion": 1,
 *   "title": "A step through the input of channel one",
 *   "signal": { "kind": "step", "volts": 1, "atSeconds": 0 },
 *   "setup": {
 *     "bandwidth": { "kind": "singlePole", "bandwidthHz": 20e6 },
 *     "sampling": { "rateHz": 500e6, "points": 1000 }
 *   },
 *   "recordings": [{
 *     "file": "step.csv", "valueColumn": "v", "voltsPerUnit": 1, "rateHz": 500e6,
 *     "noise": { "kind": "white", "rmsVolts": 0.004 }
 *   }],
 *   "unknowns": [{ "parameter": "bandwidthHz", "lowest": 1e6, "highest": 1e8 }]
 * }
 * }</pre>
 */
public final class BenchFits {
  private static final String SCHEMA = "fit.schema.json";

  private BenchFits() {}

  /**
   * Reads a fit file. Records that it names are looked for beside it, or in folders below.
   *
   * @param file a JSON file in UTF-8
   * @return the fit, not yet computed
   * @throws ScenarioException if the file cannot be read or says anything that is not allowed
   */
  public static BenchFit load(Path file) {
    Require.present("file", file);
    Json root = Json.parse(file.getFileName().toString(), TextFile.read(file, file.toString()));
    return BenchFitReader.read(root, file.toAbsolutePath().getParent());
  }

  /**
   * Reads a fit from text.
   *
   * @param json the text of a fit
   * @param folder where records that it names are looked for
   * @return the fit, not yet computed
   * @throws ScenarioException if the text says anything that is not allowed
   */
  public static BenchFit parse(String json, Path folder) {
    Require.present("json", json);
    Require.present("folder", folder);
    return BenchFitReader.read(Json.parse("fit", json), folder);
  }

  /**
   * The JSON Schema (draft 2020-12) of a fit. It refers to that of a scenario for signals, setups
   * and readings.
   *
   * @return the text of the schema
   */
  public static String schema() {
    return Scenarios.resource(SCHEMA);
  }
}
