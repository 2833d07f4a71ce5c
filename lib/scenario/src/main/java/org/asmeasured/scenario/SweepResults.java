package org.asmeasured.scenario;

import java.nio.file.Path;
import org.asmeasured.internal.Require;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/**
 * Writes what sweeps come to as JSON, in the format of {@link #schema()}. Numbers are SI units and
 * read back to the same double; the text depends on the result alone. A row stands there as {@link
 * SweepRow#toJson} writes it without its cautions: each of these is said once, with its points.
 */
public final class SweepResults {
  private static final String SCHEMA = "sweep-result.schema.json";
  private static final int FORMAT_VERSION = 1;

  private SweepResults() {}

  /**
   * The JSON Schema (draft 2020-12) of a sweep's result.
   *
   * @return the text of the schema
   */
  public static String schema() {
    return Scenarios.resource(SCHEMA);
  }

  /**
   * A result as JSON.
   *
   * @param result what to write
   * @return the text, ending with a line feed
   * @throws NullPointerException if it is missing
   */
  public static String toJson(SweepResult result) {
    Require.present("result", result);
    Sweep sweep = result.sweep();
    ObjectNode root = JsonNodeFactory.instance.objectNode();
    root.put("formatVersion", FORMAT_VERSION);
    root.put("title", sweep.title());
    sweep.notes().forEach(root.putArray("notes")::add);
    ObjectNode scenario = root.putObject("scenario");
    scenario.put("title", sweep.scenario().title());
    sweep.scenario().notes().forEach(scenario.putArray("notes")::add);
    scenario.put("signal", sweep.scenario().signal().toString());
    scenario.put("setup", sweep.scenario().setup().toString());
    scenario.put("seed", sweep.scenario().seed());
    root.put("seedPerPoint", sweep.isSeedPerPoint());
    ArrayNode axes = root.putArray("axes");
    sweep.axes().forEach(axis -> axis(axes.addObject(), axis));
    ArrayNode cautions = root.putArray("cautions");
    for (SaidCaution one : result.cautions()) {
      ObjectNode node = cautions.addObject();
      ResultWriter.caution(node, one.caution());
      one.places().forEach(node.putArray("points")::add);
    }
    ArrayNode rows = root.putArray("rows");
    result.rows().forEach(row -> SweepRowJson.write(rows.addObject(), row.withoutCautions()));
    return ResultWriter.text(root);
  }

  private static void axis(ObjectNode node, SweepAxis axis) {
    node.put("ratio", axis.isRatio());
    ArrayNode values = node.putArray("values");
    for (SweptValue value : axis.values()) {
      ObjectNode one = values.addObject();
      one.put("value", value.pointer());
      one.put("name", value.name());
      one.put("unit", value.unit());
      ArrayNode numbers = one.putArray("numbers");
      value.numbers().forEach(numbers::add);
      if (value.isWhole()) {
        ArrayNode labels = one.putArray("labels");
        ArrayNode wholes = one.putArray("wholes");
        for (SweptValue.Whole whole : value.wholes()) {
          labels.add(whole.label());
          wholes.add(ResultWriter.tree(whole.json()));
        }
      }
    }
  }

  /**
   * Writes a result to a file, whole or not at all, as {@link Results#write} does.
   *
   * @param result what to write
   * @param file where to; its folder must exist; a file that is there already is replaced
   * @throws ScenarioException if the file cannot be written; {@code file} is then as it was
   * @throws NullPointerException if one is missing
   */
  public static void write(SweepResult result, Path file) {
    Require.present("file", file);
    TextFile.write(file, toJson(result));
  }
}
