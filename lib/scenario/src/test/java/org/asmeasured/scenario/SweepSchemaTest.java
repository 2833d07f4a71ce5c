package org.asmeasured.scenario;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.networknt.schema.InputFormat;
import com.networknt.schema.OutputFormat;
import com.networknt.schema.Schema;
import com.networknt.schema.SchemaLocation;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** The published schema of sweeps and their reader say the same. */
class SweepSchemaTest {
  private static final JsonNode SCHEMA = JsonMapper.shared().readTree(Sweeps.schema());
  private static final Path FOLDER =
      Path.of("src/test/resources/org/asmeasured/scenario/sweeps").toAbsolutePath();

  /** Against the metaschema of the draft, as the validator ships it. */
  @Test
  void isASchema() {
    Schema meta =
        SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12)
            .getSchema(SchemaLocation.of("https://json-schema.org/draft/2020-12/schema"));
    assertEquals(List.of(), meta.validate(Sweeps.schema(), InputFormat.JSON));
  }

  @Test
  void objectsHaveTheSameKeys() {
    SchemaTest.sameKeys("sweep", SCHEMA, SweepReader.REQUIRED, SweepReader.OPTIONAL);
    JsonNode axis = SCHEMA.at("/properties/axes/items");
    SchemaTest.sameKeys("axis", axis, SweepReader.VALUE, SweepReader.AXIS_OPTIONAL);
    SchemaTest.sameKeys(
        "value that moves along",
        axis.at("/properties/together/items"),
        SweepReader.VALUE,
        SweepReader.VALUE_OPTIONAL);
  }

  /**
   * Each value of each sweep in turn is replaced by something else, or left out; an inline scenario
   * is the other test's business. What the schema refuses the reader refuses; what the schema lets
   * pass the reader lets pass too, unless it is a rule that relates the sweep to its scenario or
   * two values to one another, which a schema cannot say.
   */
  @Test
  void readerAndSchemaAgree() throws Exception {
    List<String> wrong = new ArrayList<>();
    Set<String> seen = new TreeSet<>();
    int refused = 0;
    for (Path file : Schemas.sweeps()) {
      JsonNode whole = JsonMapper.shared().readTree(Files.readString(file));
      List<String> pointers = new ArrayList<>();
      SchemaTest.collect(whole, "", pointers);
      for (String pointer : pointers) {
        if (pointer.startsWith("/scenario/")) {
          continue;
        }
        for (String replacement : SchemaTest.replacements(whole.at(pointer))) {
          String text = SchemaTest.replaced(whole, pointer, replacement);
          if (!seen.add(text)) {
            continue;
          }
          boolean valid = Schemas.SWEEP.validate(text, InputFormat.JSON, OutputFormat.BOOLEAN);
          String complaint = complaint(text);
          if (valid ? complaint != null && !relates(complaint) : complaint == null) {
            wrong.add(
                pointer
                    + " = "
                    + replacement
                    + (valid
                        ? ": only the reader refuses: " + complaint
                        : ": only the schema refuses"));
          }
          refused += valid ? 0 : 1;
        }
      }
    }
    assertEquals("", String.join("\n", wrong));
    assertTrue(refused > 100, refused + " refused");
  }

  private static boolean relates(String complaint) {
    return Stream.of(
            "there is no such file",
            "the scenario has no such value",
            "it is ", // what stands there is no number
            "is given to two values",
            "as many as",
            "must have labels beside it",
            "the label ",
            "numbers of 12 digits differ",
            "must be one of the scenario's readings",
            "/setup/", // a number that the scenario refuses in its place
            "/signal/periodSeconds = ",
            "/furtherChannels/0/skewSeconds = ")
        .anyMatch(complaint::contains);
  }

  private static String complaint(String text) {
    try {
      Sweeps.parse(text, FOLDER);
      return null;
    } catch (ScenarioException e) {
      BadScenarioTest.assertOneSentence(e);
      return e.getMessage();
    }
  }
}
