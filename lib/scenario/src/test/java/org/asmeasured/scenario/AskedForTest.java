package org.asmeasured.scenario;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.asmeasured.capture.Setup;
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
}
