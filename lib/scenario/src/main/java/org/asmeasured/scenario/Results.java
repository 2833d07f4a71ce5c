package org.asmeasured.scenario;

import java.nio.file.Path;
import org.asmeasured.internal.Require;

/**
 * Writes results as JSON, in the format of {@link #schema()}.
 *
 * <p>Numbers are SI units, with the unit in the key or beside the value, and read back to the same
 * double. A reading that could not be taken says why instead, and a flag of the record says why it
 * was raised. The text depends on the result alone: no date, no name of a machine.
 */
public final class Results {
  private static final String SCHEMA = "result.schema.json";

  private Results() {}

  /**
   * A result as JSON.
   *
   * @param result what to write
   * @return the text, ending with a line feed
   */
  public static String toJson(ScenarioResult result) {
    return ResultWriter.toJson(Require.present("result", result));
  }

  /**
   * Writes a result to a file, whole or not at all: the text goes to a new file in the same folder,
   * which then takes the place of {@code file}.
   *
   * @param result what to write
   * @param file where to; its folder must exist; a file that is there already is replaced
   * @throws ScenarioException if the file cannot be written; {@code file} is then as it was
   */
  public static void write(ScenarioResult result, Path file) {
    Require.present("file", file);
    TextFile.write(file, toJson(result));
  }

  /**
   * The JSON Schema (draft 2020-12) of a result.
   *
   * @return the text of the schema
   */
  public static String schema() {
    return Scenarios.resource(SCHEMA);
  }
}
