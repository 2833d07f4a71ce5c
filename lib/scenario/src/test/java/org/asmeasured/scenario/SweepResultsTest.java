package org.asmeasured.scenario;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.networknt.schema.InputFormat;
import com.networknt.schema.OutputFormat;
import com.networknt.schema.Schema;
import com.networknt.schema.SchemaLocation;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.asmeasured.accuracy.Caution;
import org.asmeasured.accuracy.Sensitivity;
import org.asmeasured.accuracy.Sensitivity.Move;
import org.asmeasured.accuracy.Verdict;
import org.asmeasured.measure.Measured;
import org.asmeasured.measure.Outcome;
import org.asmeasured.scenario.SweptReading.Sureness;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ObjectNode;

/** Results of sweeps as JSON, against their schema and there and back. */
class SweepResultsTest {
  private static final JsonMapper MAPPER = JsonMapper.shared();
  private static final JsonNode SHAPE = MAPPER.readTree(SweepResults.schema());
  private static final Schema RESULT = Schemas.of(SweepResults.schema());

  /** The row's part of the schema, by itself. */
  private static final Schema ROW = row();

  @TempDir Path temp;

  private static Schema row() {
    ObjectNode row = (ObjectNode) SHAPE.at("/$defs/row").deepCopy();
    row.set("$defs", SHAPE.get("$defs"));
    return Schemas.of(row.toString());
  }

  private static SweepResult run(Path file) {
    return SweepResult.of(Sweeps.load(file), 2, (done, most) -> true);
  }

  static Stream<Path> all() {
    return Schemas.sweeps().stream();
  }

  @ParameterizedTest
  @MethodSource("all")
  void everySweepGoesThroughJsonAndBack(Path file) throws IOException {
    SweepResult result = run(file);
    String json = SweepResults.toJson(result);
    assertEquals(List.of(), Schemas.complaints(RESULT, json));
    JsonNode root = MAPPER.readTree(json);
    assertEquals(result.sweep().title(), root.get("title").asString());
    assertEquals(result.sweep().isSeedPerPoint(), root.get("seedPerPoint").asBoolean());
    List<SweptValue> values = new ArrayList<>();
    for (JsonNode axis : root.get("axes")) {
      for (JsonNode value : axis.get("values")) {
        List<Double> numbers = new ArrayList<>();
        value.get("numbers").forEach(n -> numbers.add(n.asDouble()));
        List<SweptValue.Whole> wholes = new ArrayList<>();
        for (int i = 0; value.has("wholes") && i < numbers.size(); i++) {
          wholes.add(
              new SweptValue.Whole(
                  value.at("/labels/" + i).asString(), value.at("/wholes/" + i).toString()));
        }
        values.add(
            new SweptValue(
                value.get("value").asString(),
                value.get("name").asString(),
                value.get("unit").asString(),
                numbers,
                wholes));
      }
    }
    assertEquals(result.sweep().values().stream().map(SweepResultsTest::compact).toList(), values);
    List<SweepRow> rows = new ArrayList<>();
    for (JsonNode row : root.get("rows")) {
      rows.add(SweepRow.parse(row.toString()));
    }
    for (JsonNode one : root.get("cautions")) {
      String caution =
          "{\"subject\":" + one.get("subject") + ",\"words\":" + one.get("words") + "}";
      for (JsonNode point : one.get("points")) {
        SweepRow row = rows.get(point.asInt());
        List<Caution> cautions = new ArrayList<>(row.cautions());
        cautions.addAll(SweepRow.parse(ROW_WITH.formatted(caution)).cautions());
        rows.set(
            row.number(), new SweepRow(row.number(), row.coordinates(), row.readings(), cautions));
      }
    }
    assertEquals(result, new SweepResult(result.sweep(), rows));
    for (SweepRow row : result.rows()) {
      assertEquals(1, row.toJson().lines().count());
      assertEquals(List.of(), Schemas.complaints(ROW, row.toJson()));
      assertEquals(row, SweepRow.parse(row.toJson()));
    }
    Path written = temp.resolve("written.json");
    SweepResults.write(result, written);
    assertEquals(json, Files.readString(written));
  }

  private static SweptValue compact(SweptValue value) {
    return new SweptValue(
        value.pointer(),
        value.name(),
        value.unit(),
        value.numbers(),
        value.wholes().stream()
            .map(one -> new SweptValue.Whole(one.label(), MAPPER.readTree(one.json()).toString()))
            .toList());
  }

  private static Sweep mains(String axis) {
    return Sweeps.parse(
        """
        {"formatVersion": 1, "title": "Mains on a low input, invented",
         "scenario": {"formatVersion": 1, "title": "Mains",
           "signal": {"kind": "sine", "amplitudeVolts": 1, "frequencyHz": 50},
           "setup": {"sourceOhms": 1, "termination": {"ohms": 50, "farads": 0},
                     "inputRating": {"rmsVolts": 5},
                     "sampling": {"rateHz": 1e4, "points": 400}},
           "readings": [{"kind": "rms"}]},
         "axes": [%s]}
        """
            .formatted(axis),
        Path.of("."));
  }

  /**
   * 230 V RMS on an input of 50 ohm that is rated 5 V RMS: each caution once with its points, the
   * rows by themselves with their own, and the table with a word for each.
   */
  @Test
  void cautionsAreSaidOnceWithTheirPoints() {
    Sweep sweep =
        mains(
            "{\"value\": \"/signal/amplitudeVolts\", \"list\": [1, 325]},"
                + " {\"value\": \"/setup/sampling/points\", \"list\": [200, 400, 600]}");
    SweepResult result = SweepResult.of(sweep, 2, (done, most) -> true);
    List<Caution.Subject> all =
        List.of(
            Caution.Subject.HAZARDOUS_VOLTAGE,
            Caution.Subject.INPUT_RATING,
            Caution.Subject.INPUT_POWER);
    assertEquals(all, result.cautions().stream().map(c -> c.caution().subject()).toList());
    for (SaidCaution one : result.cautions()) {
      assertEquals(List.of(3, 4, 5), one.places());
    }
    assertTrue(
        result.cautions().get(1).caution().words().contains("licensed practice decide"),
        result.cautions().toString());
    assertEquals(List.of(), result.rows().get(2).cautions());
    SweepRow last = result.rows().get(5);
    assertEquals(all, last.cautions().stream().map(Caution::subject).toList());
    assertEquals(List.of(), Schemas.complaints(ROW, last.toJson()));
    assertEquals(last, SweepRow.parse(last.toJson()));
    assertEquals(last, SweepPoint.parse(sweep.point(5).toJson()).run());
    String json = SweepResults.toJson(result);
    assertEquals(List.of(), Schemas.complaints(RESULT, json));
    JsonNode said = MAPPER.readTree(json).get("cautions");
    assertEquals("input rating", said.at("/1/subject").asString());
    assertEquals("[3,4,5]", said.at("/1/points").toString());
    assertEquals(1, json.split("Beyond the rating of the instrument's input", -1).length - 1);
    List<String> table = result.toCsv().lines().toList();
    assertTrue(table.get(0).endsWith(",cautions"), table.get(0));
    assertTrue(table.get(1).endsWith(","), table.get(1));
    assertTrue(
        table.get(6).endsWith(",hazardous voltage; input rating; input power"), table.get(6));
  }

  /** Against the metaschema of the draft, as the validator ships it. */
  @Test
  void isASchema() {
    Schema meta =
        SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12)
            .getSchema(SchemaLocation.of("https://json-schema.org/draft/2020-12/schema"));
    assertEquals(List.of(), meta.validate(SweepResults.schema(), InputFormat.JSON));
  }

  @Test
  void objectsHaveTheSameKeys() {
    SchemaTest.sameKeys("row", SHAPE.at("/$defs/row"), SweepRowJson.ROW, SweepRowJson.ROW_OPTIONAL);
    SchemaTest.sameKeys(
        "caution",
        SHAPE.at("/$defs/row/properties/cautions/items"),
        SweepRowJson.CAUTION,
        List.of());
    JsonNode reading = SHAPE.at("/$defs/reading");
    SchemaTest.sameKeys("reading", reading, SweepRowJson.READING, SweepRowJson.READING_OPTIONAL);
    SchemaTest.sameKeys(
        "sureness",
        reading.at("/properties/sureness"),
        SweepRowJson.SURENESS,
        SweepRowJson.SURENESS_OPTIONAL);
    SchemaTest.sameKeys(
        "sensitivity", SHAPE.at("/$defs/sensitivity/oneOf/0"), SweepRowJson.SENSITIVITY, List.of());
  }

  private static final String ROW_WITH =
      "{\"number\":0,\"coordinates\":[],\"readings\":[],\"cautions\":[%s]}";

  private static SweptReading reading(Measured measured, Optional<Sureness> sure) {
    return new SweptReading("RMS", "V", new Measured.Value(0.1), measured, sure);
  }

  private static Optional<Sureness> sure(Optional<Outcome<Verdict.Ruling>> ruling) {
    return Optional.of(
        new Sureness(
            new Measured.Value(0.3),
            new Measured.Value(4.9e-324),
            new Measured.NotTaken("too few"),
            new Measured.Value(-0.0),
            new Outcome.Taken<>(new Sensitivity(Move.SHIFT, 0.42, 0.1, 8, 4.9e-324, "V")),
            ruling));
  }

  /** A reading of a unit that no move moves, and readings moved in other ways. */
  private static List<SweptReading> otherwiseMoved() {
    List<SweptReading> all = new ArrayList<>();
    List<Outcome<Sensitivity>> moved =
        List.of(
            new Outcome.NotTaken<>("no move, \"none\""),
            new Outcome.Taken<>(new Sensitivity(Move.SPREAD, -1.5, 0, 100_000, 1e-9, "%")),
            new Outcome.Taken<>(new Sensitivity(Move.STRETCH, 1e-10, 0, 2, 1, "%")));
    for (Outcome<Sensitivity> one : moved) {
      Measured figure = new Measured.Value(40);
      Sureness sure = new Sureness(figure, figure, figure, figure, one, Optional.empty());
      all.add(new SweptReading("duty factor", "%", figure, figure, Optional.of(sure)));
    }
    return all;
  }

  /** Each kind of what a row may hold. */
  private static List<SweepRow> rows() {
    List<SweepRow> rows = new ArrayList<>();
    Measured read = new Measured.Value(0.1 + 0.2);
    Measured none = new Measured.NotTaken("clipped, \"both\" ends");
    for (Verdict.Ruling ruling : Verdict.Ruling.values()) {
      rows.add(
          new SweepRow(
              rows.size(),
              List.of(1.0, -1e-30),
              List.of(
                  reading(read, sure(Optional.of(new Outcome.Taken<>(ruling)))),
                  reading(none, Optional.empty())),
              List.of()));
    }
    rows.add(
        new SweepRow(
            7,
            List.of(),
            List.of(
                reading(none, sure(Optional.of(new Outcome.NotTaken<>("no uncertainty")))),
                new SweptReading("RMS, once more", "V", none, read, sure(Optional.empty()))),
            List.of(
                new Caution(Caution.Subject.INPUT_RATING, "Beyond the rating."),
                new Caution(Caution.Subject.GROUND_CLIP, "On \"earth\"."))));
    rows.add(new SweepRow(8, List.of(), otherwiseMoved(), List.of()));
    return rows;
  }

  @Test
  void everyKindOfRowGoesThroughJsonAndBack() {
    for (SweepRow row : rows()) {
      assertEquals(List.of(), Schemas.complaints(ROW, row.toJson()));
      assertEquals(row, SweepRow.parse(row.toJson()));
    }
  }

  /**
   * Each value of each row in turn is replaced by something else, or left out: what the schema
   * refuses the reader refuses, and the other way round but for what must follow from other values.
   */
  @Test
  void readerAndSchemaAgree() {
    List<String> wrong = new ArrayList<>();
    Set<String> seen = new TreeSet<>();
    int refused = 0;
    for (SweepRow row : rows()) {
      JsonNode whole = MAPPER.readTree(row.toJson());
      List<String> pointers = new ArrayList<>();
      SchemaTest.collect(whole, "", pointers);
      for (String pointer : pointers) {
        for (String replacement : SchemaTest.replacements(whole.at(pointer))) {
          String text = SchemaTest.replaced(whole, pointer, replacement);
          if (!seen.add(text)) {
            continue;
          }
          boolean valid = ROW.validate(text, InputFormat.JSON, OutputFormat.BOOLEAN);
          String complaint = complaint(text);
          if (valid ? complaint != null && !relates(complaint) : complaint == null) {
            wrong.add(pointer + " = " + replacement + ": " + complaint);
          }
          refused += valid ? 0 : 1;
        }
      }
    }
    assertEquals("", String.join("\n", wrong));
    assertTrue(refused > 100, refused + " refused");
  }

  private static boolean relates(String complaint) {
    return complaint.contains("must be measured less truth")
        || complaint.contains("must be what value and standardError say");
  }

  private static String complaint(String text) {
    try {
      assertNotNull(SweepRow.parse(text));
      return null;
    } catch (ScenarioException e) {
      BadScenarioTest.assertOneSentence(e);
      return e.getMessage();
    }
  }

  @Test
  void refusesBadInput() {
    assertThrows(NullPointerException.class, () -> SweepResults.toJson(null));
    assertThrows(NullPointerException.class, () -> SweepResults.write(null, temp));
    assertThrows(NullPointerException.class, () -> SweepRow.parse(null));
    assertThrows(NullPointerException.class, () -> new SweepRow(0, List.of(), List.of(), null));
    Caution caution = new Caution(Caution.Subject.INPUT_POWER, "Hot.");
    assertThrows(IllegalArgumentException.class, () -> new SaidCaution(caution, List.of()));
    assertThrows(NullPointerException.class, () -> new SaidCaution(null, List.of(1)));
    Measured v = new Measured.Value(1);
    assertThrows(
        NullPointerException.class, () -> new Sureness(v, v, v, v, null, Optional.empty()));
    Optional<Sureness> ofVolts = sure(Optional.empty());
    assertTrue(
        assertThrows(
                IllegalArgumentException.class,
                () -> new SweptReading("period", "s", v, v, ofVolts))
            .getMessage()
            .contains("unit of the sensitivity = \"V\": must be that of the reading, \"s\""));
    String row = rows().get(0).toJson();
    assertTrue(row.contains("\"follows\":true"), row);
    assertTrue(
        assertThrows(
                ScenarioException.class,
                () -> SweepRow.parse(row.replace("\"follows\":true", "\"follows\":false")))
            .getMessage()
            .contains("follows = false: must be what value and standardError say, true"));
    SweepResult result = run(Schemas.bundledSweeps().get(0));
    assertThrows(NullPointerException.class, () -> SweepResults.write(result, null));
    Path nowhere = temp.resolve("none").resolve("sweep.json");
    assertThrows(ScenarioException.class, () -> SweepResults.write(result, nowhere));
    assertFalse(Files.exists(nowhere));
    for (String bad : List.of("", "{}", "[]", "{\"number\": 0}", rows().get(0).toJson() + "{}")) {
      BadScenarioTest.assertOneSentence(
          assertThrows(ScenarioException.class, () -> SweepRow.parse(bad)));
    }
  }
}
