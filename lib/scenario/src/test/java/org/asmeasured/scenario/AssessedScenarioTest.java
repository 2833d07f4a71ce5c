package org.asmeasured.scenario;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CancellationException;
import java.util.stream.Stream;
import org.asmeasured.accuracy.Tolerances;
import org.asmeasured.measure.Readings;
import org.asmeasured.scenario.RequestedAssessment.Limit;
import org.asmeasured.uncertainty.Distribution;
import org.asmeasured.uncertainty.Tolerance;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** How sure readings are, from a file to a result. */
class AssessedScenarioTest {

  private static String scenario(String assessment) {
    return """
    {"formatVersion": 1, "title": "t",
    "signal": {"kind": "constant", "volts": 2},
    "setup": {"vertical": {"voltsPerDivision": 1}, "sampling": {"rateHz": 1e6, "points": 10}},
    "readings": [{"kind": "mean"}],
    "assessment": %s}
    """
        .formatted(assessment);
  }

  private static Scenario read(String assessment) {
    return Scenarios.parse(scenario(assessment), Path.of(""));
  }

  private static JsonNode result(String assessment) {
    return JsonMapper.shared()
        .readTree(Results.toJson(ScenarioResult.of(read(assessment))))
        .at("/readings/0/assessment");
  }

  /** y = V (1 + g) + o F: u^2 = (V u_g)^2 + (F u_o)^2, F = 8 V. */
  @Test
  void closedFormFromFileToResult() {
    JsonNode node =
        result(
            """
            {"tolerances": [
              {"parameter": "gainError", "distribution":
                {"kind": "expanded", "estimate": 0, "expandedUncertainty": 0.02, "coverageFactor": 2}},
              {"parameter": "offsetError", "distribution":
                {"kind": "rectangular", "lower": -0.006, "upper": 0.006}}],
             "limits": [{"reading": {"kind": "mean"}, "upper": 2.5, "risk": 0.01}]}
            """);
    double u = Math.sqrt(0.02 * 0.02 + Math.pow(8 * 0.006, 2) / 3);
    assertEquals(u, node.at("/standardUncertainty/value").asDouble(), 1e-9);
    assertEquals(u, node.at("/lawOfPropagation/standardUncertainty").asDouble(), 1e-9);
    assertEquals(0, node.at("/repeatability/value").asDouble(), 0);
    assertEquals(2, node.at("/lawOfPropagation/budget").size());
    assertEquals("gain error", node.at("/lawOfPropagation/budget/0/name").asString());
    assertEquals(2, node.at("/lawOfPropagation/budget/0/sensitivity").asDouble(), 1e-9);
    assertEquals("passes", node.at("/limit/ruling").asString());
    assertTrue(node.at("/limit/smallestUpperVerified/value").asDouble() > 2 + 1.5 * u);
    assertTrue(node.at("/limit/lower").isMissingNode());
  }

  private static final String GAIN =
      """
      {"tolerances": [{"parameter": "gainError",
        "distribution": {"kind": "normal", "mean": 0, "standardDeviation": 0.01}}],
       "limits": [{"reading": {"kind": "mean"}, %s}]}
      """;

  /** u = 20 mV; as many trials as show the risk, 3/1e-4, in blocks of 1024; none show 1e-6. */
  @Test
  void trialsAreAsManyAsTheRiskNeeds() {
    JsonNode usual = result(GAIN.formatted("\"upper\": 2.1"));
    assertEquals(4096, usual.at("/trials/count").asInt());
    JsonNode rare = result(GAIN.formatted("\"upper\": 2.1, \"risk\": 1e-4"));
    assertEquals(30 * 1024, rare.at("/trials/count").asInt());
    assertEquals("passes", rare.at("/limit/ruling").asString());
    // 3.719 u by the normal quantile; the quantile of the outermost three scatters by 0.15 u
    assertEquals(2.0744, rare.at("/limit/smallestUpperVerified/value").asDouble(), 5 * 0.003);
    JsonNode unseen = result(GAIN.formatted("\"upper\": 2.2, \"risk\": 1e-6"));
    assertEquals("undecided", unseen.at("/limit/ruling").asString());
    String why = "too few trials for this risk: 100352 trials show no risk below 0.0030 %";
    assertEquals(why, unseen.at("/limit/reason").asString());
    assertEquals(why, unseen.at("/limit/smallestUpperVerified/notTaken").asString());
  }

  /** u = 20 mV: 1.960 u on either side of the truth, w = 1.645 u of limits 5 u away. */
  @Test
  void twoLimitsHaveOneToleranceAndAGuardBand() {
    JsonNode limit = result(GAIN.formatted("\"lower\": 1.9, \"upper\": 2.1")).at("/limit");
    assertEquals(2, limit.at("/nominal").asDouble());
    double t = limit.at("/smallestToleranceVerified/value").asDouble();
    assertEquals(1.95996 * 0.02, t, 4e-4);
    assertTrue(limit.at("/smallestUpperVerified").isMissingNode());
    assertTrue(limit.at("/greatestLowerVerified").isMissingNode());
    String exactly = "\"lower\": %s, \"upper\": %s".formatted(2 - t, 2 + t);
    assertEquals("passes", result(GAIN.formatted(exactly)).at("/limit/ruling").asString());
    double w = limit.at("/guardBand/value").asDouble();
    assertEquals(1.64485 * 0.02, w, 4e-4);
    assertEquals(1.9 + w, limit.at("/acceptance/lower").asDouble(), 1e-15);
    assertEquals(2.1 - w, limit.at("/acceptance/upper").asDouble(), 1e-15);
    JsonNode narrow = result(GAIN.formatted("\"lower\": 1.99, \"upper\": 2.01")).at("/limit");
    assertTrue(narrow.at("/guardBand/notTaken").asString().contains("too narrow"));
    assertTrue(narrow.at("/acceptance").isMissingNode());
  }

  /** A limit at the middle of a production of u_0 = u_m: a share of 1/8 is wrong either way. */
  @Test
  void aProductionHasItsRisks() {
    String stated =
        "\"upper\": 2.1, \"production\":"
            + " {\"kind\": \"normal\", \"mean\": 2.1, \"standardDeviation\": 0.02}";
    JsonNode limit = result(GAIN.formatted(stated)).at("/limit");
    JsonNode production = limit.at("/production");
    assertEquals(0.5, production.at("/conforming").asDouble(), 1e-12);
    assertEquals(0.125, production.at("/withoutGuardBand/consumersRisk").asDouble(), 1e-6);
    assertEquals(0.125, production.at("/withoutGuardBand/producersRisk").asDouble(), 1e-6);
    // readings of items: N(2.1, u sqrt 2); of those accepted the least sure lies at the guard band
    double consumers = production.at("/withGuardBand/consumersRisk").asDouble();
    double w = limit.at("/guardBand/value").asDouble();
    double accepted = Distribution.normal(0, 1).cumulative(-w / (0.02 * Math.sqrt(2)));
    assertTrue(consumers > 0 && consumers < accepted * accepted, "" + consumers);
    assertEquals(
        0.5 - (accepted - consumers),
        production.at("/withGuardBand/producersRisk").asDouble(),
        1e-6);
    assertTrue(result(GAIN.formatted("\"upper\": 2.1")).at("/limit/production").isMissingNode());
    JsonNode still = result("{\"limits\": [{\"reading\": {\"kind\": \"mean\"}, " + stated + "}]}");
    assertTrue(still.at("/limit/production/notTaken").asString().contains("nothing varies"));
  }

  @Test
  void theShortestIntervalIsNoLonger() {
    JsonNode trials = result(GAIN.formatted("\"upper\": 2.1")).at("/trials");
    double shortest =
        trials.at("/shortest/upper").asDouble() - trials.at("/shortest/lower").asDouble();
    double symmetric =
        trials.at("/readings/upper").asDouble() - trials.at("/readings/lower").asDouble();
    assertTrue(shortest > 0.97 * symmetric && shortest <= symmetric, shortest + " " + symmetric);
  }

  @Test
  void whereNothingVariesTheResultSaysSo() {
    JsonNode node = result("{\"limits\": [{\"reading\": {\"kind\": \"mean\"}, \"lower\": 1}]}");
    assertTrue(node.at("/standardUncertainty/notTaken").asString().contains("nothing varies"));
    assertTrue(node.at("/trials/notTaken").asString().contains("nothing varies"));
    assertTrue(node.at("/lawOfPropagation/notTaken").asString().contains("nothing varies"));
    assertTrue(node.at("/limit/notTaken").asString().contains("nothing varies"));
  }

  private static Stream<Arguments> wrong() {
    String normal =
        "\"distribution\": {\"kind\": \"normal\", \"mean\": 0, \"standardDeviation\": 0.01}";
    return Stream.of(
        Arguments.of("5", "an assessment = 5 is a number: must be an object."),
        Arguments.of("{\"tolerances\": []}", "tolerances has 0 entries: must have from 1 to 100."),
        Arguments.of(
            "{\"tolerances\": [{\"parameter\": \"gain\", " + normal + "}]}",
            "parameter = \"gain\": must be one of apertureJitterSeconds, "),
        Arguments.of(
            "{\"tolerances\": [{\"parameter\": \"gainError\"}]}",
            "key \"distribution\" is missing"),
        Arguments.of(
            "{\"tolerances\": [{\"parameter\": \"trimmerError\", " + normal + "}]}",
            "at /assessment/tolerances/0: probe = direct connection: must be a passive divider."),
        Arguments.of(
            "{\"tolerances\": [{\"parameter\": \"gainError\", \"relative\": true, "
                + normal
                + "}]}",
            "at /assessment/tolerances/0: gain error = 0: has no relative error."),
        Arguments.of(
            "{\"tolerances\": [{\"parameter\": \"gainError\", \"distribution\": {\"kind\":"
                + " \"rectangular\", \"lower\": 0, \"upper\": 1}}]}",
            "at /assessment/tolerances/0/distribution: gain error (rectangular from 0.0 to 1.0):"
                + " reaches 0.999999, where gainError = 0.999999: must be from -0.5 to 0.5."),
        Arguments.of(
            "{\"tolerances\": [{\"parameter\": \"gainError\", "
                + normal
                + "}, {\"parameter\": \"gainError\", "
                + normal
                + "}]}",
            "at /assessment/tolerances/1: name = gain error: must not come twice."),
        Arguments.of(
            "{\"contributions\": [{\"name\": \"c\", \"unit\": \"s\", " + normal + "}]}",
            "unit = \"s\": must be that of a reading of the scenario."),
        Arguments.of(
            "{\"correlations\": [{\"first\": \"a\", \"second\": \"b\", \"coefficient\": 0}]}",
            "name = a: must be that of an input."),
        Arguments.of(
            "{\"limits\": [{\"reading\": {\"kind\": \"rms\"}, \"upper\": 1}]}",
            "the reading \"RMS\" is not asked for: must be one of readings."),
        Arguments.of(
            "{\"limits\": [{\"reading\": {\"kind\": \"mean\"}}]}", "one of them must be finite."),
        Arguments.of(
            "{\"limits\": [{\"reading\": {\"kind\": \"mean\"}, \"upper\": 1}, {\"reading\":"
                + " {\"kind\": \"mean\"}, \"upper\": 2}]}",
            "a reading must not have two of them."),
        Arguments.of(
            "{\"limits\": [{\"reading\": {\"kind\": \"mean\"}, \"upper\": 1, \"risk\": 0.7}]}",
            "risk = 0.7: must be from 1.0E-9 to 0.5."),
        Arguments.of(
            "{\"limits\": [{\"reading\": {\"kind\": \"mean\"}, \"upper\": 1, \"production\":"
                + " {\"kind\": \"normal\", \"mean\": 1, \"standardDeviation\": -1}}]}",
            "at /assessment/limits/0/production/standardDeviation: standardDeviation = -1.0: must be"),
        Arguments.of(
            "{\"limits\": [{\"reading\": {\"kind\": \"mean\"}, \"upper\": 1, \"production\":"
                + " {\"kind\": \"normal\", \"mean\": 1}}]}",
            "key \"standardDeviation\" is missing"),
        Arguments.of(
            "{\"limits\": [{\"reading\": {\"kind\": \"mean\"}, \"upper\": 1, \"production\": 3}]}",
            "at /assessment/limits/0/production: "),
        Arguments.of(
            "{\"offers\": {\"averages\": []}}", "averages has 0 entries: must have from 1 to 100."),
        Arguments.of("{\"offers\": {\"averages\": [0]}}", "must be from 1 to 65536."),
        Arguments.of(
            "{\"offers\": {\"scales\": {\"leastVoltsPerDivision\": 1, \"greatestVoltsPerDivision\":"
                + " 0.1}}}",
            "greatest = 0.1 V: must be from 1.0 V to 1000000.0 V."),
        Arguments.of(
            "{\"offers\": {\"rates\": {\"rateHz\": [1e6, 0], \"mostPoints\": 9}}}",
            "at /assessment/offers/rates/rateHz/1: rateHz[1] = 0.0 Hz: must be from 1.0E-9 Hz to"
                + " 1.0E15 Hz."),
        Arguments.of(
            "{\"offers\": {\"rates\": {\"rateHz\": [1e6, 1e6], \"mostPoints\": 9}}}",
            "must not come twice."),
        Arguments.of(
            "{\"offers\": {\"rates\": {\"rateHz\": [], \"mostPoints\": 9}}}",
            "rateHz has 0 entries: must have from 1 to 100."),
        Arguments.of(
            "{\"offers\": {\"rates\": {\"rateHz\": [1e6], \"mostPoints\": 0}}}",
            "at /assessment/offers/rates/mostPoints: mostPoints = 0: must be from 1 to 268435456."),
        Arguments.of(
            "{\"offers\": {\"rates\": {\"rateHz\": [1e6]}}}", "key \"mostPoints\" is missing"),
        Arguments.of(
            "{\"offers\": {\"records\": [{\"rateHz\": 1e6, \"points\": 0}]}}",
            "at /assessment/offers/records/0/points: points = 0: must be from 1 to 268435456."),
        Arguments.of(
            "{\"offers\": {\"records\": [{\"rateHz\": 1e16, \"points\": 9}]}}",
            "at /assessment/offers/records/0/rateHz: rateHz = 1.0E16 Hz: must be from 1.0E-9 Hz to"
                + " 1.0E15 Hz."),
        Arguments.of(
            "{\"offers\": {\"records\": [{\"rateHz\": 1, \"points\": 9}, {\"rateHz\": 1,"
                + " \"points\": 9}]}}",
            "must not come twice."),
        Arguments.of(
            "{\"offers\": {\"records\": []}}", "records has 0 entries: must have from 1 to 100."),
        Arguments.of(
            "{\"offers\": {\"triggers\": [{\"levelVolts\": 0}, {\"levelVolts\": 1,"
                + " \"hysteresisVolts\": -1}]}}",
            "at /assessment/offers/triggers/1/hysteresisVolts: hysteresisVolts = -1.0 V: must be"
                + " from 0.0 V to 1.0E9 V."),
        Arguments.of(
            "{\"offers\": {\"triggers\": [{\"level\": 0}]}}",
            "unknown key \"level\" in trigger: it is given in V, as \"levelVolts\"."),
        Arguments.of("{\"digits\": 5}", "digits = 5: must be from 1 to 4."),
        Arguments.of("{\"captures\": 1}", "captures = 1: must be from 2 to 100000."));
  }

  @ParameterizedTest
  @MethodSource("wrong")
  void whatCannotBeIsRefusedAtItsPlace(String assessment, String words) {
    ScenarioException refused = assertThrows(ScenarioException.class, () -> read(assessment));
    assertTrue(refused.getMessage().contains(words), refused.getMessage());
    assertTrue(refused.getMessage().contains("line 5"), refused.getMessage());
  }

  @Test
  void aLimitIsOfAReadingThatIsAskedFor() {
    Scenario scenario = read("{}");
    RequestedAssessment request =
        new RequestedAssessment(
            Tolerances.none(),
            List.of(new Limit(Readings.rms(), Tolerance.atMost(1), 0.05)),
            2,
            100,
            Optional.empty());
    assertThrows(IllegalArgumentException.class, () -> scenario.withAssessment(request));
  }

  @Test
  void itCanBeCancelled() {
    Scenario scenario =
        read(
            "{\"contributions\": [{\"name\": \"c\", \"distribution\": {\"kind\": \"normal\","
                + " \"mean\": 0, \"standardDeviation\": 0.01}}]}");
    assertThrows(
        CancellationException.class, () -> ScenarioResult.of(scenario, (done, most) -> false));
  }

  /** The assessment, then the search and the assessment of what it advises: nothing goes back. */
  @Test
  void tellsHowFarItHasCome() {
    Scenario scenario =
        read(
            "{\"contributions\": [{\"name\": \"c\", \"distribution\": {\"kind\": \"normal\","
                + " \"mean\": 0, \"standardDeviation\": 0.01}}],"
                + " \"offers\": {\"scales\": {\"leastVoltsPerDivision\": 0.5,"
                + " \"greatestVoltsPerDivision\": 2}}}");
    List<Double> shares = new ArrayList<>();
    ScenarioResult.of(scenario, (done, most) -> shares.add((double) done / most));
    assertEquals(shares.stream().sorted().toList(), shares);
    for (double begins : new double[] {0, 0.5, 0.75}) {
      assertTrue(
          shares.stream().anyMatch(s -> s >= begins && s < begins + 0.25), shares.toString());
    }
    assertEquals(1, shares.get(shares.size() - 1), 0);
  }
}
