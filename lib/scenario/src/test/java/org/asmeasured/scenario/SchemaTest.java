package org.asmeasured.scenario;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.networknt.schema.InputFormat;
import com.networknt.schema.OutputFormat;
import com.networknt.schema.Schema;
import com.networknt.schema.SchemaLocation;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import java.io.IOException;
import java.io.UncheckedIOException;
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
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/** The published schema and the reader say the same. */
class SchemaTest {
  private static final JsonMapper MAPPER = JsonMapper.shared();
  // As digits, because the validator takes large floating numbers for whole ones and then fails to
  // convert them.
  private static final String HUGE = "1" + "0".repeat(25);
  private static final JsonNode SCHEMA = MAPPER.readTree(Scenarios.schema());

  /** Against the metaschema of the draft, as the validator ships it. */
  @Test
  void areSchemas() {
    Schema meta =
        SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12)
            .getSchema(SchemaLocation.of("https://json-schema.org/draft/2020-12/schema"));
    assertEquals(List.of(), meta.validate(Scenarios.schema(), InputFormat.JSON));
    assertEquals(List.of(), meta.validate(Results.schema(), InputFormat.JSON));
  }

  @Test
  void kindsHaveTheSameKeys() {
    same("/$defs/signal/oneOf", SignalKinds.in(Path.of("")));
    same("/$defs/response/oneOf", ResponseKinds.RESPONSES);
    same("/$defs/bandwidth/oneOf", ResponseKinds.BANDWIDTHS);
    same("/$defs/setup/properties/coupling/oneOf", FrontEndReader.COUPLINGS);
    same("/$defs/setup/properties/converter/oneOf", ConverterKinds.CONVERTERS);
    same("/$defs/setup/properties/decimation/oneOf", SetupReader.DECIMATIONS);
    same("/$defs/setup/properties/ensemble/oneOf", SetupReader.ENSEMBLES);
    same("/$defs/probe/oneOf", ProbeKinds.PROBES);
    same("/$defs/element/oneOf", NetworkKinds.ELEMENTS);
    same("/$defs/setup/properties/sourceNoise/oneOf", NoiseKinds.SOURCES);
    same("/$defs/trigger/properties/path/oneOf", TriggerReader.PATHS);
    same("/$defs/trigger/properties/qualifier/oneOf", TriggerReader.QUALIFIERS);
    same("/$defs/trigger/properties/noEvent/oneOf", TriggerReader.NO_EVENTS);
    same("/$defs/reading/oneOf", ReadingKinds.READINGS);
    same("/properties/linearityTest/oneOf", ScenarioReader.LINEARITY_TESTS);
    same("/$defs/distribution/oneOf", DistributionKinds.DISTRIBUTIONS);
    same("/$defs/stateLevels/oneOf", PulseReadingKinds.STATE_LEVELS);
    same("/$defs/referenceLevels/oneOf", PulseReadingKinds.REFERENCE_LEVELS);
    same("/$defs/window/oneOf", SpectrumReadingKinds.WINDOWS);
    same("/$defs/pairReading/oneOf", PairReadingKinds.READINGS);
  }

  @Test
  void objectsHaveTheSameKeys() {
    sameKeys("scenario", SCHEMA, ScenarioReader.REQUIRED, ScenarioReader.OPTIONAL);
    JsonNode setup = SCHEMA.at("/$defs/setup");
    sameKeys("setup", setup, SetupReader.REQUIRED, SetupReader.OPTIONAL);
    JsonNode trigger = SCHEMA.at("/$defs/trigger");
    sameKeys("trigger", trigger, TriggerReader.REQUIRED, TriggerReader.OPTIONAL);
    JsonNode stages = setup.get("properties");
    sameKeys("noise", stages.get("noise"), List.of(), NoiseKinds.AMPLIFIER);
    sameKeys("converterNoise", stages.get("converterNoise"), NoiseKinds.CONVERTER, List.of());
    sameKeys("saturation", stages.get("saturation"), List.of(), FrontEndReader.SATURATION);
    sameKeys("sampler", stages.get("sampler"), List.of(), SamplerReader.OPTIONAL);
    sameKeys(
        "sourceJitter", stages.get("sourceJitter"), NoiseKinds.JITTER, NoiseKinds.JITTER_OPTIONAL);
    JsonNode channel = SCHEMA.at("/$defs/channel");
    sameKeys("channel", channel, ChannelsReader.REQUIRED, ChannelsReader.OPTIONAL);
    JsonNode own = channel.at("/properties/setup");
    sameKeys("setup of a channel", own, List.of(), SetupReader.FURTHER);
    JsonNode rare = SCHEMA.at("/properties/rareEvents/items");
    sameKeys("rare event", rare, ScenarioReader.RARE_EVENT, List.of());
    JsonNode assessment = SCHEMA.at("/properties/assessment");
    sameKeys("assessment", assessment, List.of(), AssessmentReader.OPTIONAL);
    sameKeys("offers", SCHEMA.at("/$defs/offers"), List.of(), OffersReader.KEYS);
    sameKeys(
        "scales", SCHEMA.at("/$defs/offers/properties/scales"), OffersReader.SCALES, List.of());
    sameKeys("rates", SCHEMA.at("/$defs/offers/properties/rates"), OffersReader.RATES, List.of());
    sameKeys(
        "records",
        SCHEMA.at("/$defs/offers/properties/records/items"),
        OffersReader.RECORD,
        List.of());
    JsonNode tolerance = assessment.at("/properties/tolerances/items");
    sameKeys(
        "tolerance", tolerance, AssessmentReader.TOLERANCE, AssessmentReader.TOLERANCE_OPTIONAL);
    Set<String> parameters = new TreeSet<>();
    tolerance.at("/properties/parameter/enum").forEach(name -> parameters.add(name.asString()));
    assertEquals(ParameterNames.PARAMETERS.keySet(), parameters);
    sameKeys(
        "contribution",
        assessment.at("/properties/contributions/items"),
        AssessmentReader.CONTRIBUTION,
        AssessmentReader.CONTRIBUTION_OPTIONAL);
    sameKeys(
        "correlation",
        assessment.at("/properties/correlations/items"),
        AssessmentReader.CORRELATION,
        List.of());
    sameKeys(
        "limit",
        assessment.at("/properties/limits/items"),
        AssessmentReader.LIMIT,
        AssessmentReader.LIMIT_OPTIONAL);
    JsonNode core = stages.at("/sampler/properties/cores/items");
    sameKeys("core", core, List.of(), SamplerReader.CORE);
  }

  private static void same(String pointer, Kinds<?> kinds) {
    List<String> names = new ArrayList<>();
    for (JsonNode shape : SCHEMA.at(pointer)) {
      JsonNode named = shape.at("/properties/kind");
      for (JsonNode one : named.has("enum") ? named.get("enum") : List.of(named.get("const"))) {
        String name = one.asString();
        names.add(name);
        assertTrue(kinds.names().contains(name), name);
        sameKeys(name, shape, kinds.kind(name).required(), kinds.kind(name).optional());
      }
    }
    assertEquals(List.copyOf(new TreeSet<>(kinds.names())), List.copyOf(new TreeSet<>(names)));
    assertEquals(kinds.names().size(), names.size());
  }

  static void sameKeys(String name, JsonNode shape, List<String> required, List<String> optional) {
    Set<String> keys = new TreeSet<>(required);
    keys.addAll(optional);
    assertEquals(keys, new TreeSet<>(shape.get("properties").propertyNames()), name);
    Set<String> must = new TreeSet<>();
    shape.get("required").forEach(key -> must.add(key.asString()));
    assertEquals(new TreeSet<>(required), must, name);
    assertFalse(shape.get("additionalProperties").asBoolean(true), name);
  }

  /**
   * The scenarios, and in place of a long sum its parts one by one: a short text is validated
   * faster.
   */
  static Stream<JsonNode> texts() {
    return Schemas.all().stream().map(SchemaTest::read).flatMap(SchemaTest::parts);
  }

  private static JsonNode read(Path file) {
    try {
      return MAPPER.readTree(Files.readString(file));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static Stream<JsonNode> parts(JsonNode scenario) {
    if (!scenario.at("/signal/kind").asString().equals("sum")) {
      return Stream.of(scenario);
    }
    List<JsonNode> parts = new ArrayList<>();
    for (JsonNode part : scenario.at("/signal/signals")) {
      ObjectNode alone = (ObjectNode) scenario.deepCopy();
      alone.set("signal", part);
      if (!parts.isEmpty()) {
        alone.set("readings", MAPPER.readTree("[{\"kind\": \"mean\"}]"));
        alone.set("setup", MAPPER.readTree("{\"sampling\": {\"rateHz\": 1, \"points\": 1}}"));
      }
      parts.add(alone);
    }
    ObjectNode two = (ObjectNode) parts.get(1).deepCopy();
    two.set("signal", MAPPER.readTree("{\"kind\": \"sum\", \"signals\": []}"));
    ArrayNode signals = (ArrayNode) two.at("/signal/signals");
    signals.add(parts.get(0).get("signal")).add(parts.get(1).get("signal"));
    parts.add(two);
    return parts.stream();
  }

  /**
   * Each value of each scenario in turn is replaced by something else, or left out. What the schema
   * refuses the reader refuses; what the schema lets pass the reader lets pass too, unless it is a
   * rule that relates two values or a number and a file, which a schema cannot say.
   */
  @Test
  void readerAndSchemaAgree() {
    Path folder = Path.of("src/test/resources/org/asmeasured/scenario").toAbsolutePath();
    List<String> wrong = new ArrayList<>();
    Set<String> seen = new TreeSet<>();
    int refused = 0;
    for (JsonNode whole : texts().toList()) {
      List<String> pointers = new ArrayList<>();
      boolean small = whole.at("/setup").size() == 1;
      collect(small ? whole.get("signal") : whole, small ? "/signal" : "", pointers);
      for (String pointer : pointers) {
        for (String replacement : replacements(whole.at(pointer))) {
          String text = replaced(whole, pointer, replacement);
          if (!seen.add(text)) {
            continue;
          }
          boolean valid = Schemas.SCENARIO.validate(text, InputFormat.JSON, OutputFormat.BOOLEAN);
          String complaint = complaint(text, folder);
          if (valid ? complaint != null && !relates(complaint) : complaint == null) {
            wrong.add(
                text
                    + (valid
                        ? ": only the reader refuses: " + complaint
                        : ": only the schema refuses"));
          }
          refused += valid ? 0 : 1;
        }
      }
    }
    assertEquals("", String.join("\n", wrong));
    assertTrue(refused > 1000, refused + " refused");
  }

  static List<String> replacements(JsonNode value) {
    if (value.isNumber()) {
      return List.of("5.5", "-1", "0", HUGE, "-" + HUGE, "1e-30", "\"5\"", "null", "[]", "");
    }
    return value.isString()
        ? List.of("\" \"", "\"5\"", "5", "true", "")
        : List.of("[]", "{}", "5", "\"5\"", "");
  }

  /** Rules between values, and files that are not there. */
  private static boolean relates(String complaint) {
    return Stream.of(
            "must be after",
            "and at most 1.0E100", // one limit of a distribution against the other
            ": reaches ",
            "inexactness = ",
            "greatest = ",
            "must be above lower",
            "correlation of ",
            "must be that of an input",
            "must be that of a reading",
            "is not asked for",
            "has no stated half-power frequency",
            "has no corner of its own",
            "must be a passive divider",
            " x periodSeconds",
            "toSeconds - fromSeconds",
            "the time from point",
            "have lengths",
            "there is no such file",
            "has no column",
            "must fit in",
            "their time constant",
            "must be above the first",
            "must come with its conjugate",
            "must have a negative real part",
            "modulus",
            "must not exceed",
            "must ascend",
            "gate it first",
            "must be a finite number",
            "is missing",
            "asked for twice",
            "must be true where a column",
            "must be 0 F with sourceOhms",
            "must both be 0 with henries",
            "an element needs two different nodes",
            "must be one of [",
            "the source is shorted",
            "must have the nodes",
            "no unique solution",
            "a series resistance is missing",
            "loop has no loss",
            "must be from 1.0E-9 ohm to 1.0E18 ohm", // a resistor made of two
            "the first must be above the second",
            "the first must be below the second",
            "to be a corner of",
            "must be above lowVolts",
            "each must be above the one before",
            ": with a window ", // the more points the more terms it has
            "must be the name of a channel",
            "another channel has that name",
            "must be another channel",
            "must be from 1e-12 of cornerHz",
            "has length",
            "transitionLevels.length")
        .anyMatch(complaint::contains);
  }

  private static String complaint(String text, Path folder) {
    try {
      Scenarios.parse(text, folder);
      return null;
    } catch (ScenarioException e) {
      BadScenarioTest.assertOneSentence(e);
      return e.getMessage();
    }
  }

  static void collect(JsonNode node, String pointer, List<String> pointers) {
    if (!pointer.isEmpty()) {
      pointers.add(pointer);
    }
    if (node.isObject()) {
      node.propertyNames().forEach(key -> collect(node.get(key), pointer + "/" + key, pointers));
    }
    for (int i = 0; node.isArray() && i < node.size(); i++) {
      collect(node.get(i), pointer + "/" + i, pointers);
    }
  }

  static String replaced(JsonNode whole, String pointer, String replacement) {
    JsonNode copy = whole.deepCopy();
    int slash = pointer.lastIndexOf('/');
    JsonNode parent = copy.at(pointer.substring(0, slash));
    String step = pointer.substring(slash + 1);
    if (parent instanceof ObjectNode object) {
      if (replacement.isEmpty()) {
        object.remove(step);
      } else {
        object.set(step, MAPPER.readTree(replacement));
      }
    } else if (parent instanceof ArrayNode array) {
      int index = Integer.parseInt(step);
      if (replacement.isEmpty()) {
        array.remove(index);
      } else {
        array.set(index, MAPPER.readTree(replacement));
      }
    }
    return copy.toString();
  }
}
