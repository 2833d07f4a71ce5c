package org.asmeasured.scenario;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.asmeasured.acquisition.Trigger;
import org.asmeasured.capture.Setup;
import org.asmeasured.characterisation.Coherence;
import org.asmeasured.digitizer.Linearity;
import org.asmeasured.frontend.Bandwidth;
import org.asmeasured.frontend.Noise;
import org.asmeasured.measure.Readings;
import org.asmeasured.measure.Statistics;
import org.asmeasured.signal.Signals;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** What a scenario asks for beside its readings: their statistics, a test of the converter. */
class AskedForTest {
  private static final Path FOLDER = Path.of("src/test/resources/org/asmeasured/scenario");
  private static final Setup ONE_POINT =
      Setup.ideal(1e5, 1).bandwidth(Bandwidth.singlePole(1e5)).noise(Noise.white(1e-5));

  private static Scenario onePoint(int captures) {
    return new Scenario(
            "t", List.of(), Signals.constant(0.5), ONE_POINT, List.of(Readings.mean()), 3)
        .withCaptures(captures);
  }

  private static JsonNode json(ScenarioResult result) {
    return JsonMapper.shared().readTree(Results.toJson(result));
  }

  /** White noise through a single pole has the variance e^2 pi/2 f3dB. */
  @Test
  void scatterOfManyCaptures() {
    int captures = 20_000;
    JsonNode node = json(ScenarioResult.of(onePoint(captures))).at("/readings/0/statistics");
    double rms = 1e-5 * Math.sqrt(Math.PI / 2 * 1e5);
    assertEquals(captures, node.at("/captures").asInt());
    assertEquals(captures, node.at("/taken").asInt());
    // six standard deviations each: a false alarm in 10^9
    assertEquals(0.5, node.at("/mean/value").asDouble(), 6 * rms / Math.sqrt(captures));
    assertEquals(
        rms, node.at("/standardDeviation/value").asDouble(), 6 * rms / Math.sqrt(2.0 * captures));
    assertTrue(node.at("/minimum/value").asDouble() < 0.5 - 3 * rms);
    assertTrue(node.at("/maximum/value").asDouble() > 0.5 + 3 * rms);
    assertEquals(0, node.at("/notTaken").size());
  }

  @Test
  void sameFiguresOnOneThread() {
    Scenario scenario = onePoint(50);
    assertEquals(
        List.of(
            Statistics.over(
                Readings.mean(), scenario.signal(), scenario.setup(), scenario.seed(), 50, 1)),
        ScenarioResult.of(scenario).statistics());
  }

  @Test
  void nothingWhereNothingIsAskedFor() {
    ScenarioResult result = ScenarioResult.of(onePoint(0));
    assertEquals(List.of(), result.statistics());
    assertEquals(Optional.empty(), result.linearity());
    assertTrue(json(result).at("/readings/0/statistics").isMissingNode());
    assertTrue(json(result).at("/linearity").isMissingNode());
  }

  /** Every INL and DNL found lies within the test's own confidence about the converter's own. */
  @Test
  void findsWhatTheConverterHas() {
    for (String name : List.of("sine-histogram.json", "ramp-histogram.json")) {
      LinearityTest.Result result =
          ScenarioResult.of(Scenarios.load(FOLDER.resolve(name))).linearity().orElseThrow();
      Linearity.Line line = result.test().line();
      var found = result.found().orThrow();
      double[] deviation = found.inlDeviation(line, result.sampling());
      double[] expected = result.truth().orThrow().inl(line);
      double[] inl = found.linearity().inl(line);
      double greatest = 0;
      for (int i = 0; i < inl.length; i++) {
        // 255 levels, six deviations: a false alarm in 10^6
        assertEquals(expected[i], inl[i], 6 * deviation[i] + 1e-9, name + " " + i);
        greatest = Math.max(greatest, Math.abs(expected[i]));
      }
      assertTrue(greatest > 0.3, name + ": there is something to be found: " + greatest);
      assertEquals(
          List.of(20), java.util.Arrays.stream(found.linearity().missingCodes()).boxed().toList());
    }
  }

  @Test
  void testThatCannotBeDoneSaysWhy() {
    LinearityTest test = new LinearityTest(LinearityTest.Stimulus.SINE, Linearity.Line.END_POINTS);
    Scenario scenario =
        new Scenario(
                "t",
                List.of(),
                Signals.sine(1, 1e3),
                Setup.ideal(1e5, 100),
                List.of(Readings.mean()))
            .withLinearityTest(test);
    JsonNode infinite = json(ScenarioResult.of(scenario));
    for (String place : List.of("truth/greatestInlSteps", "found/missingCodes")) {
      assertEquals(
          "a converter of infinite resolution has no transition levels",
          infinite.at("/linearity/" + place + "/notTaken").asString());
    }
    Scenario small =
        new Scenario(
                "t",
                List.of(),
                Signals.sine(1, 1e3),
                Setup.ideal(1e5, 100).bits(8),
                List.of(Readings.mean()))
            .withLinearityTest(test);
    JsonNode tooSmall = json(ScenarioResult.of(small));
    assertTrue(
        tooSmall
            .at("/linearity/found/greatestDnlSteps/notTaken")
            .asString()
            .contains("the signal must go beyond both ends of the range"),
        tooSmall::toString);
    assertEquals(0, tooSmall.at("/linearity/truth/greatestInlSteps/value").asDouble(), 1e-12);
    assertEquals(
        "INL and DNL by the histogram of a sine, by end points",
        tooSmall.at("/linearity/description").asString());
  }

  @Test
  void refusesWhatIsOutOfRange() {
    for (int captures : new int[] {-1, 1, 10_000_001}) {
      IllegalArgumentException e =
          assertThrows(IllegalArgumentException.class, () -> onePoint(captures));
      assertEquals(
          "captures = " + captures + ": must be from 2 to 10000000", e.getMessage().strip());
    }
    assertThrows(NullPointerException.class, () -> onePoint(0).withLinearityTest(null));
    assertThrows(
        NullPointerException.class, () -> new LinearityTest(null, Linearity.Line.END_POINTS));
    assertThrows(
        NullPointerException.class, () -> new LinearityTest(LinearityTest.Stimulus.SINE, null));
    ScenarioResult plain = ScenarioResult.of(onePoint(0));
    assertThrows(
        IllegalArgumentException.class,
        () ->
            new ScenarioResult(onePoint(5), plain.record(), plain.predictions(), plain.cautions()));
  }

  private static final LinearityTest SINE =
      new LinearityTest(LinearityTest.Stimulus.SINE, Linearity.Line.LEAST_SQUARES);

  /** An ideal converter of 8 bits; a sine of so many cycles in 20 000 points. */
  private static LinearityTest.Result ofCycles(double cycles, int captures, boolean triggered) {
    int points = 20_000;
    Setup setup = Setup.ideal(1e6, points).scale(0.25).bits(8);
    setup = triggered ? setup.trigger(Trigger.at(0)) : setup;
    return SINE.of(Signals.sine(1.1, cycles * 1e6 / points), setup, 4, captures);
  }

  /** A broken cycle is told, with a bound that holds: the converter is ideal. */
  @Test
  void aBrokenCycleIsTold() {
    LinearityTest.Result whole = ofCycles(997, 1, false);
    assertEquals(List.of(), whole.caveats());
    assertTrue(whole.sampling().toString().startsWith("coherent records of 20000 points"));
    double bestInl = greatest(whole);
    LinearityTest.Result broken = ofCycles(7.4, 1, false);
    assertEquals(1, broken.caveats().size());
    assertTrue(broken.caveats().get(0).contains("7.4"), broken.caveats()::toString);
    assertTrue(broken.caveats().get(0).contains("no whole number"), broken.caveats()::toString);
    double bound = broken.found().orThrow().brokenCycleSteps(new Coherence(20_000, 7.4));
    assertTrue(greatest(broken) > 10 * bestInl, "it does look like nonlinearity");
    assertTrue(greatest(broken) <= 2 * bound, greatest(broken) + " against " + bound);
    assertTrue(ofCycles(0.7, 1, false).caveats().get(0).contains("no whole number"));
  }

  @Test
  void phasesThatAreMetAgainAreTold() {
    LinearityTest.Result shared = ofCycles(1000, 1, false);
    assertTrue(shared.caveats().get(0).contains("share the factor 1000: only 20 phases"));
    assertTrue(shared.sampling().toString().contains("each phase met 1000 times"));
    LinearityTest.Result tied = ofCycles(997, 3, true);
    assertTrue(tied.caveats().get(0).contains("begins at the same phase"));
    assertTrue(tied.sampling().toString().contains("60000 points, each phase met 3 times"));
    Setup setup = Setup.ideal(1e6, 5000).scale(0.25).bits(8);
    LinearityTest.Result never =
        SINE.of(Signals.sine(1.1, 7e3).plus(Signals.step(1e-3, 1e-3)).plus(0), setup, 4, 1);
    assertTrue(never.caveats().get(0).contains("does not repeat"), never.caveats()::toString);
    LinearityTest ramp = new LinearityTest(LinearityTest.Stimulus.RAMP, Linearity.Line.END_POINTS);
    LinearityTest.Result once = ramp.of(Signals.ramp(440, -2.5e-3, 2.5e-3), setup, 4, 1);
    assertEquals(List.of(), once.caveats());
  }

  /**
   * More captures, each from a phase of its own: what is found comes nearer, and stays within six
   * of its deviations (255 levels: a false alarm in 10^6).
   */
  @Test
  void moreCapturesSayMore() {
    double one = greatest(ofCycles(997, 1, false));
    LinearityTest.Result many = ofCycles(997, 64, false);
    assertEquals(List.of(), many.caveats());
    assertTrue(greatest(many) < one / 2, greatest(many) + " of " + one);
    double[] deviation =
        many.found().orThrow().inlDeviation(Linearity.Line.LEAST_SQUARES, many.sampling());
    double[] inl = many.found().orThrow().linearity().inl(Linearity.Line.LEAST_SQUARES);
    for (int k = 0; k < inl.length; k++) {
      assertEquals(0, inl[k], 6 * deviation[k], "level " + k);
    }
  }

  @Test
  void aScenariosCapturesGoIntoItsTest() {
    Scenario scenario =
        new Scenario(
                "t",
                List.of(),
                Signals.sine(1.1, 997e6 / 20_000),
                Setup.ideal(1e6, 20_000).scale(0.25).bits(8),
                List.of(Readings.mean()),
                4)
            .withLinearityTest(SINE)
            .withCaptures(5);
    ScenarioResult result = ScenarioResult.of(scenario);
    assertEquals(
        greatest(SINE.of(scenario.signal(), scenario.setup(), 4, 5)),
        greatest(result.linearity().orElseThrow()));
    JsonNode node = json(result).at("/linearity");
    assertTrue(node.at("/sampling").asString().startsWith("coherent records of 20000 points"));
    assertEquals(0, node.at("/caveats").size());
    for (int captures : new int[] {0, -1, 10_000_001}) {
      assertThrows(
          IllegalArgumentException.class,
          () -> SINE.of(scenario.signal(), scenario.setup(), 4, captures));
    }
    assertThrows(NullPointerException.class, () -> SINE.of(null, scenario.setup(), 4, 1));
    assertThrows(NullPointerException.class, () -> SINE.of(scenario.signal(), null, 4, 1));
  }

  private static double greatest(LinearityTest.Result result) {
    return java.util.Arrays.stream(result.found().orThrow().linearity().inl(result.test().line()))
        .map(Math::abs)
        .max()
        .orElseThrow();
  }
}
