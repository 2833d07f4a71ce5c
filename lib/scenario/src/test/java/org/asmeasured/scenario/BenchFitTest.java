package org.asmeasured.scenario;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.networknt.schema.InputFormat;
import com.networknt.schema.Schema;
import com.networknt.schema.SchemaLocation;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.concurrent.CancellationException;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.asmeasured.capture.Record;
import org.asmeasured.fitting.ChainFit;
import org.asmeasured.fitting.Correction;
import org.asmeasured.fitting.FitMethod;
import org.asmeasured.fitting.Recording;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

class BenchFitTest {
  private static final Path FOLDER = Path.of("../../examples/fits");
  private static final Path BENCH = FOLDER.resolve("bench-from-two-steps.json");
  private static final JsonMapper MAPPER = JsonMapper.shared();
  private static final Schema FIT = schema(BenchFits.schema());
  private static final Schema RESULT = schema(BenchFitResults.schema());

  /** The fit's schema refers to the scenario's by name. */
  private static Schema schema(String text) {
    return SchemaRegistry.withDefaultDialect(
            SpecificationVersion.DRAFT_2020_12,
            b -> b.schemas(Map.of("urn:asmeasured:scenario:1", Scenarios.schema())))
        .getSchema(text, InputFormat.JSON);
  }

  static List<Path> bundled() throws IOException {
    try (Stream<Path> files = Files.list(FOLDER)) {
      return files.filter(f -> f.toString().endsWith(".json")).sorted().toList();
    }
  }

  @ParameterizedTest
  @MethodSource("bundled")
  void bundledFitsAndTheirResultsAreAsTheirSchemasSay(Path file) throws IOException {
    assertEquals(List.of(), Schemas.complaints(FIT, Files.readString(file)));
    BenchFitResult result = BenchFitResult.of(BenchFits.load(file));
    String json = BenchFitResults.toJson(result);
    assertEquals(List.of(), Schemas.complaints(RESULT, json));
    JsonNode root = MAPPER.readTree(json);
    ChainFit fit = result.fit().orThrow();
    for (int j = 0; j < fit.unknowns().size(); j++) {
      JsonNode one = root.at("/fit/unknowns/" + j);
      assertEquals(fit.estimate(j), one.get("estimate").asDouble(), 0);
      assertEquals(fit.standardUncertainty(j), one.get("standardUncertainty").asDouble(), 0);
    }
    assertEquals(json, BenchFitResults.toJson(BenchFitResult.of(BenchFits.load(file))));
  }

  /** The metaschema of the draft, as the validator ships it. */
  @Test
  void theSchemasAreSchemas() {
    Schema meta =
        SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12)
            .getSchema(SchemaLocation.of("https://json-schema.org/draft/2020-12/schema"));
    assertEquals(List.of(), meta.validate(BenchFits.schema(), InputFormat.JSON));
    assertEquals(List.of(), meta.validate(BenchFitResults.schema(), InputFormat.JSON));
  }

  @Test
  void schemaAndReaderHaveTheSameKeys() {
    JsonNode schema = MAPPER.readTree(BenchFits.schema());
    sameKeys(schema, BenchFitReader.REQUIRED, BenchFitReader.OPTIONAL);
    sameKeys(
        schema.at("/properties/recordings/items"),
        BenchFitReader.RECORDING,
        BenchFitReader.RECORDING_OPTIONAL);
    sameKeys(
        schema.at("/properties/unknowns/items"),
        BenchFitReader.UNKNOWN,
        BenchFitReader.UNKNOWN_OPTIONAL);
    sameKeys(schema.at("/properties/readings/items"), BenchFitReader.READING, List.of());
    Set<String> names = new TreeSet<>();
    schema
        .at("/properties/unknowns/items/properties/parameter/enum")
        .forEach(n -> names.add(n.asString()));
    assertEquals(new TreeSet<>(ParameterNames.PARAMETERS.keySet()), names);
    List<String> kinds = new ArrayList<>();
    for (JsonNode kind : schema.at("/properties/recordings/items/properties/noise/oneOf")) {
      String name = kind.at("/properties/kind/const").asString();
      kinds.add(name);
      sameKeys(
          kind,
          BenchFitReader.NOISES.kind(name).required(),
          BenchFitReader.NOISES.kind(name).optional());
    }
    assertEquals(List.copyOf(BenchFitReader.NOISES.names()), kinds);
  }

  private static void sameKeys(JsonNode shape, List<String> required, List<String> optional) {
    Set<String> keys = new TreeSet<>(required);
    keys.addAll(optional);
    assertEquals(keys, new TreeSet<>(shape.get("properties").propertyNames()));
    Set<String> must = new TreeSet<>();
    shape.get("required").forEach(key -> must.add(key.asString()));
    assertEquals(new TreeSet<>(required), must);
    assertFalse(shape.get("additionalProperties").asBoolean(true));
  }

  /**
   * The bundled records were computed by SciPy from figures that their file states: each comes back
   * within 5 standard uncertainties (false alarm below 1e-6 each), and so does the corrected
   * reading.
   */
  @Test
  void theInventedBenchComesBack() {
    BenchFitResult result = BenchFitResult.of(BenchFits.load(BENCH));
    ChainFit fit = result.fit().orThrow();
    double[] invented = {17.2e6, 0.018, -0.005, -200e-9 + 3.1e-9, -200e-9 - 1.4e-9};
    for (int j = 0; j < invented.length; j++) {
      String name = fit.unknowns().get(j).name();
      assertEquals(invented[j], fit.estimate(j), 5 * fit.standardUncertainty(j), name);
    }
    assertTrue(fit.standardUncertainty(0) < 0.02 * 17.2e6, fit.toString());
    assertTrue(fit.probability().orThrow() > 1e-6, fit.toString());
    assertEquals(List.of(), fit.notes());
    Correction c = result.corrections().get(0).orThrow();
    // 0.4 V/sqrt 2 ahead of the bench; the value in the file is what its figures make of it
    assertEquals(0.4 / Math.sqrt(2), c.corrected(), 5 * c.standardUncertainty());
    assertTrue(c.isAsExpected(), c.toString());
    assertTrue(c.correction() > 0.02, c.toString());
  }

  /**
   * Odd and even points, and the one record and the other, tell the same within 5 uncertainties.
   */
  @Test
  void halvesOfTheDataAgree() {
    BenchFit asked = BenchFits.load(BENCH);
    List<ChainFit> fits = new ArrayList<>();
    for (int half = 0; half < 2; half++) {
      List<Recording> recordings = new ArrayList<>();
      for (Recording r : asked.recordings()) {
        double[] all = r.record().volts();
        double[] some = new double[all.length / 2];
        for (int i = 0; i < some.length; i++) {
          some[i] = all[2 * i + half];
        }
        Record record = Record.of(r.record().timeSeconds(half), r.record().rateHz() / 2, some);
        recordings.add(new Recording(record, r.measurement(), r.noise()));
      }
      fits.add(ChainFit.of(recordings, asked.unknowns(), FitMethod.usual()).orThrow());
    }
    agree(fits.get(0), fits.get(1), 3);

    fits.clear();
    for (int i = 0; i < 2; i++) {
      fits.add(
          ChainFit.of(
                  asked.recordings().subList(i, i + 1),
                  List.of(
                      asked.unknowns().get(0),
                      asked.unknowns().get(1),
                      asked.unknowns().get(2),
                      asked.unknowns().get(3)),
                  FitMethod.usual())
              .orThrow());
    }
    agree(fits.get(0), fits.get(1), 3);
  }

  private static void agree(ChainFit a, ChainFit b, int unknowns) {
    for (int j = 0; j < unknowns; j++) {
      double u = Math.hypot(a.standardUncertainty(j), b.standardUncertainty(j));
      assertEquals(a.estimate(j), b.estimate(j), 5 * u, a.unknowns().get(j).name());
    }
  }

  private static ScenarioException refused(String change, String into) throws IOException {
    String text = Files.readString(BENCH);
    assertTrue(text.contains(change), change);
    return assertThrows(
        ScenarioException.class,
        () ->
            BenchFitResult.of(
                BenchFits.parse(
                    text.replaceFirst(Pattern.quote(change), Matcher.quoteReplacement(into)),
                    FOLDER)));
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '`',
      value = {
        "\"formatVersion\": 1 | \"formatVersion\": 2 | formatVersion = 2: must be 1",
        "\"lowest\": 2e6 | \"lowest\": -1 | lowest = -1.0: the setup cannot have it",
        "\"lowest\": 2e6 | \"lowest\": 3e8 | highest of bandwidth = 2.0E8 Hz: must be above",
        "\"highest\": 200e6 | \"highest\": 10e6 | start is missing",
        "\"bandwidthHz\", \"lowest\" | \"width\", \"lowest\" | parameter = \"width\": must be one of",
        "\"bandwidthHz\", \"lowest\" | \"triggerLevelVolts\", \"lowest\" | the setup has none",
        "\"recording\": 2 | \"recording\": 3 | recording = 3: must be from 1 to 2",
        "\"recording\": 2 | \"recording\": 1 | is sought twice",
        "\"first_V\" | \"third_V\" | has no column",
        "data/bench | ../bench | must be a path beside",
        "\"voltsPerUnit\": 1 } | \"voltsPerUnit\": 1, \"noise\": { \"kind\": \"pink\" } } | must be one of",
        "\"voltsPerUnit\": 1 } | \"voltsPerUnit\": 1, \"noise\": { \"kind\": \"white\", \"rmsVolts\": 0 } } | rmsVolts = 0.0 V",
        "\"value\": 0.2589 | \"value\": \"x\" | value = \"x\"",
        "\"signal\" | \"signals\" | unknown key \"signals\"",
      })
  void whatIsNotAllowedIsRefusedWithItsPlace(String change, String into, String said)
      throws IOException {
    String message = refused(change, into).getMessage();
    if (!said.equals("has no column")) {
      assertTrue(message.startsWith("fit, line "), message);
    }
    assertTrue(message.contains(said), message);
  }

  @Test
  void noiseThatTheSetupDoesNotTellIsRefused() throws IOException {
    String text = Files.readString(BENCH);
    String bare =
        text.replace("\"converterNoise\": { \"rmsOfFullScale\": 0.003125 },", "")
            .replace("\"converter\": { \"kind\": \"ideal\", \"bits\": 8 },", "");
    ScenarioException e =
        assertThrows(ScenarioException.class, () -> BenchFits.parse(bare, FOLDER));
    assertTrue(e.getMessage().contains("noise of the recording: "), e.getMessage());
    assertTrue(e.getMessage().contains("states no noise and no converter"), e.getMessage());
  }

  @Test
  void unevenTimesAreRefused() throws IOException {
    Path folder = Files.createTempDirectory("uneven");
    try {
      Files.createDirectory(folder.resolve("data"));
      Files.writeString(
          folder.resolve("data/bench-step.csv"), "time_ns,first_V,second_V\n0,0,0\n1,0,0\n3,0,0\n");
      ScenarioException e =
          assertThrows(
              ScenarioException.class, () -> BenchFits.parse(Files.readString(BENCH), folder));
      assertTrue(
          e.getMessage()
              .contains(
                  "row 2 is -0.33333333333333337 intervals off: the times of a record must be even"),
          e.getMessage());
    } finally {
      Files.deleteIfExists(folder.resolve("data/bench-step.csv"));
      Files.deleteIfExists(folder.resolve("data"));
      Files.deleteIfExists(folder);
    }
  }

  /** At a bound nothing is known to correct with. */
  @Test
  void whereTheFitSaysNothingOfItsUncertaintyNothingIsCorrected() throws IOException {
    String text = Files.readString(BENCH);
    BenchFitResult bound =
        BenchFitResult.of(
            BenchFits.parse(text.replace("\"lowest\": 2e6", "\"lowest\": 19e6"), FOLDER));
    assertEquals(List.of("bandwidth"), bound.fit().orThrow().atBounds());
    assertEquals(
        "not taken: bandwidth: at a bound of the fit, where nothing is known of it",
        bound.corrections().get(0).toString());
    String json = BenchFitResults.toJson(bound);
    assertEquals(List.of(), Schemas.complaints(RESULT, json));
    assertTrue(json.contains("\"atBound\" : true"), json);
  }

  /**
   * A step of 100 V, and a recorded level of 100 V where the step was taken for 1 V: both can hurt,
   * and each is said once for the records that it holds for. The reading of 0.4 V cannot.
   */
  @Test
  void warnsOfTheSignalAndOfTheLevelThatWasRecorded() throws IOException {
    String text = Files.readString(BENCH);
    assertEquals(List.of(), BenchFitResult.of(BenchFits.load(BENCH)).cautions());
    String[] from = {"\"volts\": 1,", "\"voltsPerUnit\": 1 "};
    String[] into = {"\"volts\": 200,", "\"voltsPerUnit\": 200 "};
    String[] said = {"Hazardous voltage at the tip: ", "Hazardous voltage as recorded: "};
    for (int i = 0; i < 2; i++) {
      assertTrue(text.contains(from[i]), from[i]);
      BenchFitResult result =
          BenchFitResult.of(BenchFits.parse(text.replace(from[i], into[i]), FOLDER));
      SaidCaution first = result.cautions().get(0);
      assertTrue(first.caution().words().startsWith(said[i]), first.toString());
      assertTrue(first.caution().words().contains("Local codes and licensed practice decide"));
      String json = BenchFitResults.toJson(result);
      assertEquals(List.of(), Schemas.complaints(RESULT, json));
      String of = MAPPER.readTree(json).at("/cautions").toString();
      assertTrue(of.contains("recording 1") && of.contains("recording 2"), of);
      assertFalse(of.contains("reading 1"), of);
    }
  }

  /** A fit that cannot be done says why, and so do the corrections. */
  @Test
  void aFitThatCannotBeDoneSaysWhy() throws IOException {
    String text =
        Files.readString(BENCH)
            .replace(
                "{ \"parameter\": \"gainError\", \"lowest\": -0.2, \"highest\": 0.2 },",
                "{ \"parameter\": \"gainError\", \"lowest\": -0.2, \"highest\": 0.2 },"
                    + " { \"parameter\": \"signalFactor\", \"lowest\": 0.5, \"highest\": 2 },");
    BenchFitResult result = BenchFitResult.of(BenchFits.parse(text, FOLDER));
    assertFalse(result.fit().isTaken());
    assertFalse(result.corrections().get(0).isTaken());
    String json = BenchFitResults.toJson(result);
    assertEquals(List.of(), Schemas.complaints(RESULT, json));
    assertTrue(json.contains("the records do not tell gain error from signal factor"), json);
  }

  /** The fit is a part of the whole, each correction another; nothing goes back. */
  @Test
  void tellsHowFarItHasComeAndCanBeCancelled() {
    BenchFit asked = BenchFits.load(BENCH);
    List<Double> shares = new ArrayList<>();
    BenchFitResult.of(asked, (done, most) -> shares.add((double) done / most));
    assertEquals(shares.stream().sorted().toList(), shares);
    assertEquals(0, shares.get(0), 0);
    assertEquals(1, shares.get(shares.size() - 1), 0);
    double parts = 1 + asked.readings().size();
    for (double end : new double[] {0, 0.5 / parts, 1 / parts, 0.9}) {
      assertThrows(
          CancellationException.class,
          () -> BenchFitResult.of(asked, (done, most) -> (double) done / most < end));
    }
    assertThrows(NullPointerException.class, () -> BenchFitResult.of(asked, null));
    assertThrows(NullPointerException.class, () -> BenchFitResult.of(null, (d, m) -> true));
  }
}
