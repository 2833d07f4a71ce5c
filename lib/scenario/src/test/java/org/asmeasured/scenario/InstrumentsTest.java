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
import java.util.stream.Stream;
import org.asmeasured.accuracy.AssessmentMethod;
import org.asmeasured.accuracy.Measurement;
import org.asmeasured.advice.AdviceMethod;
import org.asmeasured.advice.BenchComparison;
import org.asmeasured.advice.Instrument;
import org.asmeasured.capture.Setup;
import org.asmeasured.measure.Readings;
import org.asmeasured.signal.Signals;
import org.asmeasured.uncertainty.MonteCarlo;
import org.asmeasured.uncertainty.Tolerance;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.function.Executable;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

class InstrumentsTest {
  private static final Path INSTRUMENTS = Path.of("../../examples/instruments");
  private static final Path PROBES = Path.of("../../examples/probes");
  private static final SchemaRegistry REGISTRY =
      SchemaRegistry.withDefaultDialect(
          SpecificationVersion.DRAFT_2020_12,
          b -> b.schemas(Map.of("urn:asmeasured:scenario:1", Scenarios.schema())));

  private static List<Path> files(Path folder) throws IOException {
    try (Stream<Path> files = Files.list(folder)) {
      return files.filter(f -> f.toString().endsWith(".json")).sorted().toList();
    }
  }

  private static List<String> complaints(String schema, String json) {
    Schema checked = REGISTRY.getSchema(schema, InputFormat.JSON);
    return checked.validate(json, InputFormat.JSON).stream().map(Object::toString).toList();
  }

  @Test
  void areSchemas() {
    Schema meta =
        SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12)
            .getSchema(SchemaLocation.of("https://json-schema.org/draft/2020-12/schema"));
    assertEquals(List.of(), meta.validate(Instruments.schema(), InputFormat.JSON));
    assertEquals(List.of(), meta.validate(Instruments.probeSchema(), InputFormat.JSON));
  }

  @Test
  void schemasAndReaderHaveTheSameKeys() {
    JsonNode instrument = JsonMapper.shared().readTree(Instruments.schema());
    same(instrument, InstrumentReader.REQUIRED, InstrumentReader.OPTIONAL);
    same(instrument.at("/properties/setup"), List.of("vertical"), InstrumentReader.SETUP);
    same(instrument.at("/properties/offers"), List.of(), OffersReader.KEYS);
    same(instrument.at("/properties/offers/properties/scales"), OffersReader.SCALES, List.of());
    same(
        JsonMapper.shared().readTree(Instruments.probeSchema()),
        InstrumentReader.PROBE,
        InstrumentReader.PROBE_OPTIONAL);
  }

  private static void same(JsonNode shape, List<String> required, List<String> optional) {
    Set<String> keys = new TreeSet<>(required);
    keys.addAll(optional);
    assertEquals(keys, new TreeSet<>(shape.get("properties").propertyNames()));
    Set<String> must = new TreeSet<>();
    if (shape.has("required")) {
      shape.get("required").forEach(key -> must.add(key.asString()));
    }
    assertEquals(new TreeSet<>(required), must);
    assertFalse(shape.get("additionalProperties").asBoolean(true));
  }

  /** Each is within its schema, can be read, and says that it is invented. */
  @Test
  void bundledOnesAreInvented() throws IOException {
    assertEquals(3, files(INSTRUMENTS).size());
    for (Path file : files(INSTRUMENTS)) {
      assertEquals(List.of(), complaints(Instruments.schema(), Files.readString(file)));
      DescribedInstrument i = Instruments.load(file);
      assertTrue(i.notes().get(0).startsWith("Invented."), file.toString());
      assertTrue(i.instrument().choices().combinations() > 10, file.toString());
      assertTrue(i.instrument().tolerances().list().size() >= 5, file.toString());
    }
    assertEquals(2, files(PROBES).size());
    for (Path file : files(PROBES)) {
      assertEquals(List.of(), complaints(Instruments.probeSchema(), Files.readString(file)));
      DescribedProbe p = Instruments.loadProbe(file);
      assertTrue(p.notes().get(0).startsWith("Invented."), file.toString());
    }
  }

  /** Three instruments with a x1 cable, 20 mV of ripple at 3.3 V: who verifies 24 mV? */
  @Test
  void aBenchFromFilesAnswersAQuestion() throws IOException {
    DescribedProbe cable = Instruments.loadProbe(PROBES.resolve("x1-cable.json"));
    List<Instrument> bench = new ArrayList<>();
    for (Path file : files(INSTRUMENTS)) {
      bench.add(cable.on(Instruments.load(file).instrument()));
    }
    Measurement ripple =
        new Measurement(
            Signals.sine(0.01, 240e3).plus(3.3), Setup.ideal(50e6, 1000).source(1).scale(0.5));
    BenchComparison c =
        BenchComparison.advised(
            bench,
            new BenchComparison.Question(
                Readings.peakToPeak(), ripple, Tolerance.atMost(0.024), 0.05),
            AdviceMethod.usual().withTrials(32, 256, 50_000),
            AssessmentMethod.usual().withTrials(MonteCarlo.ofTrials(0.95, 1000)).withCaptures(10));
    assertEquals(3, c.rows().size());
    assertEquals(
        "high resolution, 12 bit, 100 MHz with x1 cable", c.rows().get(0).instrument().name());
    assertTrue(c.rows().get(0).decides(), c.toString());
    assertTrue(c.rows().get(0).smallestUpperLimit().orElseThrow().orThrow() < 0.024);
  }

  private static final String SMALL =
      """
      {"formatVersion": 1, "name": "n", "notes": ["Invented."],
       "setup": {"vertical": {"voltsPerDivision": 1}}, "mostRateHz": 1e6, "mostPoints": 1000}
      """;

  @Test
  void theLeastThatAnInstrumentSays() {
    Instrument i = Instruments.parse(SMALL).instrument();
    assertEquals("n", i.name());
    assertEquals(1e6, i.mostRateHz());
    assertEquals(1000, i.mostPoints());
    assertEquals(1, i.choices().combinations());
    assertEquals(List.of(), i.tolerances().list());
    assertEquals(List.of(), complaints(Instruments.schema(), SMALL));
  }

  /** What the reader refuses, the schema refuses too, where it can say so. */
  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "\"formatVersion\": 1 | \"formatVersion\": 2 | must be 1",
        "[\"Invented.\"] | [] | notes has 0 entries",
        "[\"Invented.\"] | [\" \"] | at least one character",
        "\"mostRateHz\": 1e6 | \"mostRateHz\": 0 | mostRateHz = 0",
        "\"mostPoints\": 1000 | \"mostPoints\": 0 | mostPoints = 0",
        "\"mostPoints\": 1000 | \"mostPoints\": 1, \"points\": 1 | unknown key",
        "{\"voltsPerDivision\": 1} | {\"voltsPerDivision\": 1}, \"sourceOhms\": 1 | unknown key",
        "\"mostPoints\": 1000 | \"mostPoints\": 1, \"offers\": {\"averages\": [1.5]} | whole number",
        "\"mostPoints\": 1000 | \"mostPoints\": 1, \"offers\": {\"averages\": []} | 0 entries",
        "\"mostPoints\": 1000 | \"mostPoints\": 1, \"tolerances\": [{\"parameter\": \"gain\", "
            + "\"distribution\": {\"kind\": \"normal\", \"mean\": 0, \"standardDeviation\": 1}}] | must be one of"
      })
  void refusesWhatItCannotBe(String from, String to, String words) {
    String bad = SMALL.replace(from, to);
    assertFalse(bad.equals(SMALL));
    String message =
        assertThrows(ScenarioException.class, () -> Instruments.parse(bad)).getMessage();
    assertTrue(message.contains(words), message);
    assertFalse(complaints(Instruments.schema(), bad).isEmpty(), bad);
  }

  /**
   * Of a figure that it has, of one that it leaves to the measurement, and of a probe. The schema
   * cannot say it.
   */
  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "bandwidthHz   | false | 1e6   | 0.3e6 | bandwidth              | -4",
        "bandwidthHz   | true  | 0     | 0.3   | bandwidth              | -1.4",
        "limitHz       | true  | 0     | 0.25  | bandwidth limit        | -1.1",
        "triggerJitterSeconds | false | 1e-9 | 1e-9 | trigger jitter    | -3.",
        "sourceOhms    | false | 50    | 20    | source resistance      | -45.",
        "inputFarads   | true  | 0     | 0.25  | input capacitance      | -1.1",
        "cableFarads   | false | 1e-10 | 1e-10 | cable capacitance      | -3.",
        "groundLeadHenries | true | 0  | 0.25  | ground lead inductance | -1.1",
        "noiseDensityVoltsPerRootHz | false | 1e-9 | 1e-9 | amplifier noise density | -3.",
        "gainError     | false | 0     | 0.2   | gain error             | -0.95"
      })
  void refusesAToleranceThatReachesTooFar(
      String parameter, boolean relative, String mean, String deviation, String name, String to) {
    String tolerances =
        """
        ,
        "tolerances": [
         {"parameter": "offsetError", "distribution": {"kind": "rectangular", "lower": -0.01, "upper": 0.01}},
         {"parameter": "%s", "relative": %s,
          "distribution": {"kind": "normal", "mean": %s, "standardDeviation": %s}}]}
        """
            .formatted(parameter, relative, mean, deviation);
    String instrument =
        """
        {"formatVersion": 1, "name": "n", "notes": ["Invented."],
         "setup": {"vertical": {"voltsPerDivision": 1},
         "bandwidth": {"kind": "singlePole", "bandwidthHz": 1e6}}, "mostRateHz": 1e6, "mostPoints": 1000"""
            + tolerances;
    String probe =
        """
        {"formatVersion": 1, "name": "p",
         "notes": ["Invented."],
         "probe": {"kind": "direct"}"""
            + tolerances;
    assertEquals(List.of(), complaints(Instruments.schema(), instrument));
    for (Executable read :
        List.<Executable>of(
            () -> Instruments.parse(instrument), () -> Instruments.parseProbe(probe))) {
      String message = assertThrows(ScenarioException.class, read).getMessage();
      assertTrue(message.contains(", line 7, column "), message);
      assertTrue(message.contains(", at /tolerances/1/distribution: " + name + " ("), message);
      assertTrue(message.contains(": reaches " + to), message);
      assertFalse(message.contains("offset error"), message);
    }
  }

  /** What can be set cannot go beyond what the instrument has. */
  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "\"rates\": {\"rateHz\": [1e6, 2e6], \"mostPoints\": 9} | /offers/rates/rateHz/1: rateHz[1] = 2000000.0 Hz",
        "\"rates\": {\"rateHz\": [1e6], \"mostPoints\": 1001} | /offers/rates/mostPoints: mostPoints = 1001",
        "\"records\": [{\"rateHz\": 2e6, \"points\": 9}] | /offers/records/0/rateHz: rateHz = 2000000.0 Hz",
        "\"records\": [{\"rateHz\": 1e6, \"points\": 1001}] | /offers/records/0/points: points = 1001"
      })
  void offersNoMoreThanItHas(String offers, String words) {
    String bad = SMALL.replace("1000}", "1000, \n\"offers\": {" + offers + "}}");
    String message =
        assertThrows(ScenarioException.class, () -> Instruments.parse(bad)).getMessage();
    assertTrue(message.contains("line 3, column "), message);
    assertTrue(message.contains("at " + words), message);
    String good = bad.replace("2e6", "5e5").replace("1001", "1000");
    assertEquals(List.of(), complaints(Instruments.schema(), good));
    assertTrue(Instruments.parse(good).instrument().choices().combinations() >= 1);
  }

  @Test
  void refusesNothing() {
    assertThrows(NullPointerException.class, () -> Instruments.load(null));
    assertThrows(NullPointerException.class, () -> Instruments.loadProbe(null));
    assertThrows(NullPointerException.class, () -> Instruments.parse(null));
    assertThrows(NullPointerException.class, () -> Instruments.parseProbe(null));
    assertThrows(
        ScenarioException.class, () -> Instruments.load(Path.of("no-such-instrument.json")));
    DescribedProbe p =
        Instruments.parseProbe(
            "{\"formatVersion\": 1, \"name\": \"p\", \"notes\": [\"Invented.\"], \"probe\": {\"kind\": \"direct\"}}");
    assertEquals("n with p", p.on(Instruments.parse(SMALL).instrument()).name());
    assertThrows(NullPointerException.class, () -> p.on(null));
  }
}
