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
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CancellationException;
import org.asmeasured.accuracy.Caution;
import org.asmeasured.advice.BenchComparison;
import org.asmeasured.advice.Instrument;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** Limits put to a bench. All instruments are invented. */
class BenchQuestionTest {
  private static final SchemaRegistry REGISTRY =
      SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12);

  private static final String SCENARIO =
      """
      {"formatVersion": 1, "title": "t", "notes": ["Invented."],
       "signal": {"kind": "constant", "volts": 2},
       "setup": {"sourceOhms": 50, "probe": {"kind": "passiveDivider", "attenuation": 10},
                 "termination": {"ohms": 1e6, "farads": 15e-12},
                 "vertical": {"voltsPerDivision": 1},
                 "sampling": {"rateHz": 1e6, "points": 20}},
       "readings": [{"kind": "mean"}, {"kind": "peakToPeak"}],
       "assessment": {
         "tolerances": [
           {"parameter": "gainError", "distribution": {"kind": "normal", "mean": 0, "standardDeviation": 0.05}},
           {"parameter": "sourceOhms", "distribution": {"kind": "rectangular", "lower": 49, "upper": 51}}],
         "limits": [{"reading": {"kind": "mean"}, "lower": 1.9, "upper": 2.1, "risk": 0.05},
                    {"reading": {"kind": "peakToPeak"}, "upper": 0.5}],
         "captures": 2}}
      """;

  private static DescribedInstrument instrument(String name, double gain) {
    return Instruments.parse(
        """
        {"formatVersion": 1, "name": "%s", "notes": ["Invented."],
         "setup": {"termination": {"ohms": 1e6, "farads": 15e-12},
                   "vertical": {"voltsPerDivision": 1}, "converter": {"kind": "ideal", "bits": 12}},
         "mostRateHz": 1e6, "mostPoints": 1000,
         "tolerances": [{"parameter": "gainError",
           "distribution": {"kind": "normal", "mean": 0, "standardDeviation": %s}}]%s}
        """
            .formatted(
                name,
                gain,
                ",\"offers\": {\"scales\": {\"leastVoltsPerDivision\": 0.1, \"greatestVoltsPerDivision\": 1}}"));
  }

  private static final DescribedInstrument FINE = instrument("fine", 0.001);
  private static final DescribedInstrument COARSE = instrument("coarse", 0.1);
  private static final DescribedProbe DIRECT =
      Instruments.parseProbe(
          "{\"formatVersion\": 1, \"name\": \"direct\", \"notes\": [\"Invented.\"], \"probe\": {\"kind\": \"direct\"}}");

  private static Scenario scenario(String json) {
    return Scenarios.parse(json, Path.of("."));
  }

  private static BenchQuestion question(boolean asSet) {
    return new BenchQuestion(scenario(SCENARIO), List.of(COARSE, FINE), List.of(DIRECT), asSet);
  }

  private static List<String> complaints(String json) {
    Schema schema = REGISTRY.getSchema(BenchAnswers.schema(), InputFormat.JSON);
    return schema.validate(json, InputFormat.JSON).stream().map(Object::toString).toList();
  }

  @Test
  void isASchema() {
    Schema meta =
        REGISTRY.getSchema(SchemaLocation.of("https://json-schema.org/draft/2020-12/schema"));
    assertEquals(List.of(), meta.validate(BenchAnswers.schema(), InputFormat.JSON));
  }

  @Test
  void everyInstrumentByItselfAndWithEveryProbe() {
    List<Instrument> bench = question(false).bench();
    assertEquals(
        List.of("coarse", "coarse with direct", "fine", "fine with direct"),
        bench.stream().map(Instrument::name).toList());
    // the scenario's gain error is that of its own instrument, its source is everybody's
    assertEquals(
        List.of("gain error", "source resistance"),
        bench.get(2).tolerances().list().stream().map(t -> t.name()).toList());
  }

  /** 2 V to 0.1 % and to 10 %, allowed from 1.9 V to 2.1 V: half a sigma decides nothing. */
  @Test
  void theFineOneDecides() {
    for (boolean asSet : new boolean[] {false, true}) {
      BenchAnswer answer = BenchAnswer.of(question(asSet));
      assertEquals(2, answer.comparisons().size());
      assertTrue(answer.comparisons().get(0).rows().get(0).instrument().name().startsWith("fine"));
      for (int i = 0; i < 4; i++) {
        assertEquals(i < 2, answer.comparisons().get(0).rows().get(i).decides());
        assertEquals(asSet, answer.comparisons().get(0).rows().get(i).settings().isEmpty());
      }
      String json = BenchAnswers.toJson(answer);
      assertEquals(List.of(), complaints(json));
      assertEquals(json, BenchAnswers.toJson(BenchAnswer.of(question(asSet))), "same bits");
      JsonNode limit = JsonMapper.shared().readTree(json).at("/limits/0");
      assertEquals(2.1, limit.at("/upper").asDouble());
      assertEquals("passes", limit.at("/ranking/0/decision/ruling").asString());
      assertEquals("undecided", limit.at("/ranking/3/decision/ruling").asString());
      assertEquals(2, limit.at("/ranking/0/truth/value").asDouble());
      // 1.960 u, u = 2 mV, of two limits together, to half a step of 8 V in 12 bits
      double verified = limit.at("/ranking/0/smallestToleranceVerified/value").asDouble();
      assertEquals(1.96 * 0.002, verified, 4.0 / 4096);
      assertTrue(limit.at("/ranking/0/smallestUpperVerified").isMissingNode());
      for (int i = 0; i < 4; i++) {
        assertEquals(
            answer.comparisons().get(0).rows().get(i).correctedExpandedUncertainty().orThrow(),
            limit.at("/ranking/" + i + "/correctedExpandedUncertainty/value").asDouble());
      }
    }
  }

  /**
   * An input of a megohm behind a source of a megohm shows half of a change. 10 mV unsure of the
   * reading are 20 mV of the quantity, and U is 40 mV.
   */
  @Test
  void uncertaintyIsOfTheQuantity() {
    String weak =
        """
        {"formatVersion": 1, "title": "t", "notes": ["Invented."],
         "signal": {"kind": "constant", "volts": 2},
         "setup": {"sourceOhms": 1e6, "vertical": {"voltsPerDivision": 1},
                   "sampling": {"rateHz": 1e6, "points": 20}},
         "readings": [{"kind": "mean"}],
         "assessment": {
           "contributions": [{"name": "other", "unit": "V",
             "distribution": {"kind": "normal", "mean": 0, "standardDeviation": 0.01}}],
           "limits": [{"reading": {"kind": "mean"}, "upper": 2.1}],
           "captures": 2}}
        """;
    BenchAnswer answer =
        BenchAnswer.of(
            new BenchQuestion(scenario(weak), List.of(instrument("fine", 1e-5)), List.of(), true));
    String json = BenchAnswers.toJson(answer);
    assertEquals(List.of(), complaints(json));
    JsonNode row = JsonMapper.shared().readTree(json).at("/limits/0/ranking/0");
    // codes of 12 bits over 8 V: steps of 2 mV under moves of 0.4 V and more
    assertEquals(0.5, row.at("/sensitivity/value").asDouble(), 0.005);
    assertEquals(0.01, row.at("/standardUncertainty/value").asDouble(), 1e-4);
    assertEquals(0.04, row.at("/correctedExpandedUncertainty/value").asDouble(), 5e-4);
  }

  @Test
  void whoGivesNoReadingSaysWhy() {
    BenchQuestion q =
        new BenchQuestion(
            scenario(SCENARIO.replace("\"voltsPerDivision\": 1}", "\"voltsPerDivision\": 0.01}")),
            List.of(FINE),
            List.of(),
            true);
    String json = BenchAnswers.toJson(BenchAnswer.of(q));
    assertEquals(List.of(), complaints(json));
    assertTrue(json.contains("clipped"), json);
    assertFalse(complaints(json.replace("\"notTaken\"", "\"reason\"")).isEmpty());
  }

  /**
   * 230 V RMS put to an input of 50 ohm rated 5 V RMS, and through a divider of ten to a megohm of
   * 300 V: both are told that it can hurt, and the first may not be connected, however well it
   * would decide.
   */
  @Test
  void anInputBeyondItsRatingSaysSoAndStandsBehind() {
    DescribedInstrument low =
        Instruments.load(Path.of("../../examples/instruments/fast-8-bit-1-ghz.json"));
    DescribedInstrument high =
        Instruments.load(Path.of("../../examples/instruments/general-purpose-8-bit-200-mhz.json"));
    DescribedProbe divider =
        Instruments.loadProbe(Path.of("../../examples/probes/passive-x10.json"));
    Scenario mains =
        scenario(
            """
            {"formatVersion": 1, "title": "Mains, invented",
             "signal": {"kind": "sine", "amplitudeVolts": 325, "frequencyHz": 50},
             "setup": {"vertical": {"voltsPerDivision": 100}, "sampling": {"rateHz": 1e4, "points": 400}},
             "readings": [{"kind": "acRms"}],
             "assessment": {
               "limits": [{"reading": {"kind": "acRms"}, "lower": 200, "upper": 260}]}}
            """);
    BenchAnswer answer =
        BenchAnswer.of(new BenchQuestion(mains, List.of(low, high), List.of(divider), true));
    List<BenchComparison.Row> rows = answer.comparisons().get(0).rows();
    for (BenchComparison.Row row : rows) {
      boolean direct = row.instrument().name().equals("fast, 8 bit, 1 GHz");
      if (direct) {
        assertTrue(row.decides(), "it would decide: " + row);
        assertTrue(row.isBeyondRating());
        assertTrue(row.toString().contains("beyond its rating"), row.toString());
      }
      assertTrue(
          row.cautions().stream().anyMatch(c -> c.subject() == Caution.Subject.HAZARDOUS_VOLTAGE),
          row.toString());
    }
    assertFalse(rows.get(0).isBeyondRating(), rows.toString());
    boolean behind = false;
    for (BenchComparison.Row row : rows) {
      behind |= row.isBeyondRating();
      assertEquals(behind, row.isBeyondRating() || !row.assessment().isTaken(), rows.toString());
    }
    assertTrue(behind);
    assertEquals(Caution.Subject.HAZARDOUS_VOLTAGE, answer.cautions().get(0).caution().subject());
    assertEquals(List.of(0, 1, 2, 3), answer.cautions().get(0).places());
    String json = BenchAnswers.toJson(answer);
    assertEquals(List.of(), complaints(json));
    JsonNode root = JsonMapper.shared().readTree(json);
    assertEquals("hazardous voltage", root.at("/cautions/0/subject").asString());
    assertEquals(4, root.at("/cautions/0/instruments").size());
    assertTrue(root.at("/cautions/0/words").asString().contains("Local codes and licensed"));
    assertFalse(root.at("/limits/0/ranking/0/beyondRating").asBoolean());
  }

  @Test
  void canBeCancelled() {
    assertThrows(
        CancellationException.class, () -> BenchAnswer.of(question(false), (done, most) -> false));
    assertThrows(
        CancellationException.class, () -> BenchAnswer.of(question(true), (done, most) -> false));
  }

  @Test
  void refusesBadInput() {
    Scenario s = scenario(SCENARIO);
    Scenario without = new Scenario(s.title(), s.notes(), s.signal(), s.setup(), s.readings());
    List<DescribedInstrument> one = List.of(FINE);
    List<DescribedProbe> none = List.of();
    refused("limits = []", without, one, none);
    refused("instruments = []", s, List.of(), none);
    refused("instrument \"fine\": must not come twice", s, List.of(FINE, FINE), none);
    refused("probe \"direct\": must not come twice", s, one, List.of(DIRECT, DIRECT));
    assertThrows(NullPointerException.class, () -> new BenchQuestion(null, one, none, true));
    assertThrows(NullPointerException.class, () -> new BenchQuestion(s, null, none, true));
    assertThrows(NullPointerException.class, () -> new BenchQuestion(s, one, null, true));
    assertThrows(NullPointerException.class, () -> BenchAnswer.of(null));
    assertThrows(NullPointerException.class, () -> BenchAnswer.of(question(true), null));
    assertThrows(NullPointerException.class, () -> BenchAnswers.toJson(null));
    assertThrows(IllegalArgumentException.class, () -> new BenchAnswer(question(true), List.of()));
  }

  private static void refused(
      String words, Scenario s, List<DescribedInstrument> bench, List<DescribedProbe> probes) {
    String message =
        assertThrows(
                IllegalArgumentException.class, () -> new BenchQuestion(s, bench, probes, false))
            .getMessage();
    assertTrue(message.contains(words), message);
  }

  @Test
  void tellsHowFarItHasCome() {
    List<Double> shares = new ArrayList<>();
    BenchAnswer.of(question(false), (done, most) -> shares.add((double) done / most));
    assertEquals(shares.stream().sorted().toList(), shares);
    assertTrue(shares.contains(0.5), "one of two limits");
    assertEquals(1, shares.get(shares.size() - 1), 0);
  }
}
