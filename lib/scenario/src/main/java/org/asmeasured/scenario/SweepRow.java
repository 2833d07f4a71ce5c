package org.asmeasured.scenario;

import java.util.List;
import org.asmeasured.accuracy.Caution;
import org.asmeasured.internal.Require;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/**
 * What came of one point of a sweep. Immutable; it goes through JSON and back unchanged, so that
 * rows can be computed elsewhere.
 *
 * @param number of the point, from 0, the last axis running fastest
 * @param coordinates what each swept value is set to, in its unit, in the order of the axes
 * @param readings one for each reading asked for, in their order, those between channels last
 * @param cautions what whoever would do this at a bench must be warned of; empty where there is
 *     nothing to warn of
 */
public record SweepRow(
    int number, List<Double> coordinates, List<SweptReading> readings, List<Caution> cautions) {

  /**
   * Checks and copies.
   *
   * @param number from 0
   * @param coordinates what each swept value is set to
   * @param readings one for each reading asked for
   * @param cautions may be empty
   * @throws IllegalArgumentException if the number is negative
   * @throws NullPointerException if one is missing
   */
  public SweepRow {
    Require.inRange("number", number, 0, Integer.MAX_VALUE);
    coordinates = List.copyOf(Require.present("coordinates", coordinates));
    readings = List.copyOf(Require.present("readings", readings));
    cautions = List.copyOf(Require.present("cautions", cautions));
  }

  /** The same without its cautions, where they are said elsewhere. */
  SweepRow withoutCautions() {
    return new SweepRow(number, coordinates, readings, List.of());
  }

  /**
   * This row as JSON, as it stands in {@link SweepResults} but for its cautions, which are said
   * there once for all points.
   *
   * @return the text, on one line
   */
  public String toJson() {
    ObjectNode node = JsonNodeFactory.instance.objectNode();
    SweepRowJson.write(node, this);
    return ResultWriter.oneLine(node);
  }

  /**
   * A row from its JSON.
   *
   * @param json what {@link #toJson} gave
   * @return an equal row
   * @throws ScenarioException if it is no such text
   * @throws NullPointerException if it is missing
   */
  public static SweepRow parse(String json) {
    return SweepRowJson.read(Json.parse("row of a sweep", Require.present("json", json)));
  }
}
