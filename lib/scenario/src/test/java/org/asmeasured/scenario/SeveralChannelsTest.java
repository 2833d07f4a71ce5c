package org.asmeasured.scenario;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.asmeasured.accuracy.PairPrediction;
import org.asmeasured.acquisition.LiveTime;
import org.asmeasured.capture.Channel;
import org.asmeasured.capture.ChannelSet;
import org.asmeasured.capture.Record;
import org.asmeasured.measure.ChannelPair;
import org.asmeasured.measure.Measured;
import org.asmeasured.measure.PairReadings;
import org.asmeasured.measure.Statistics;
import org.asmeasured.signal.Signal;
import org.asmeasured.signal.Signals;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.function.Executable;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** A scenario of several channels is what the library makes of it, and says so in its result. */
class SeveralChannelsTest {
  private static final Path OURS = Path.of("src/test/resources/org/asmeasured/scenario");
  private static final Path BUNDLED = Path.of("../../examples/scenarios");

  @Test
  void saysWhatTheLibraryMakes() {
    Scenario scenario = Scenarios.load(OURS.resolve("two-channels.json"));
    FurtherChannels channels = scenario.channels().orElseThrow();
    assertEquals(
        List.of("voltage", "current", "plain"),
        channels.set().channels().stream().map(Channel::name).toList());
    assertFalse(channels.set().hasOneSampler());
    assertEquals(2e-9, channels.set().channels().get(1).skewSeconds());
    assertEquals(1, scenario.setup().frontEnd().sourceJitter().device());
    ScenarioResult result = ScenarioResult.of(scenario);
    List<Record> records = channels.set().capture(channels.signals(), scenario.seed());
    assertArrayEquals(records.get(0).volts(), result.record().volts(), 0.0);
    assertEquals(2, result.furtherRecords().size());
    assertArrayEquals(records.get(1).volts(), result.furtherRecords().get(0).volts(), 0.0);
    JsonNode json = JsonMapper.shared().readTree(Results.toJson(result));
    assertEquals("voltage", json.at("/channelName").asString());
    assertEquals("current", json.at("/furtherChannels/0/name").asString());
    assertEquals(2e-9, json.at("/furtherChannels/0/skewSeconds").asDouble());
    assertEquals(2500, json.at("/furtherChannels/1/record/points").asInt());
    assertEquals(9, json.at("/pairReadings").size());
    assertEquals("W", json.at("/pairReadings/4/unit").asString());
    // the mean over the captures that the scenario asks for
    assertEquals(
        result.pairStatistics().get(4).mean().orThrow(),
        json.at("/pairReadings/4/measured/value").asDouble(),
        1e-15);
    assertEquals(
        Statistics.between(
            channels.readings(), channels.signals(), channels.set(), scenario.seed(), 4, 1),
        result.pairStatistics());
    assertEquals(4, json.at("/pairReadings/4/statistics/captures").asInt());
    assertEquals(4, json.at("/pairReadings/4/statistics/taken").asInt());
    assertEquals(
        result.pairStatistics().get(4).mean().orThrow(),
        json.at("/pairReadings/4/statistics/mean/value").asDouble());
    LiveTime live = result.liveTime().orElseThrow();
    assertEquals(live.share(), json.at("/liveTime/share").asDouble());
    // 2.5 us recorded, 10 us to rearm, then the next event of a 1 us period
    assertEquals(2.5 / 13, live.share(), 1e-9);
    assertEquals(
        -Math.expm1(-0.01 * 60 * live.share()),
        json.at("/rareEvents/0/chance/value").asDouble(),
        1e-15);
  }

  @Test
  void oneEventSaysNothingOfTheLiveTime() {
    Scenario scenario = Scenarios.load(OURS.resolve("once-only.json"));
    ScenarioResult result = ScenarioResult.of(scenario);
    assertTrue(result.liveTime().isEmpty());
    JsonNode json = JsonMapper.shared().readTree(Results.toJson(result));
    assertTrue(json.at("/liveTime").isMissingNode());
    assertTrue(
        json.at("/rareEvents/0/chance/notTaken")
            .asString()
            .contains("fewer than two acquisitions"));
  }

  /** The bundled switch: the truth by hand, and most of what is missing is the skew's. */
  @Test
  void theTurnOnLossByHand() {
    ScenarioResult result = ScenarioResult.of(Scenarios.load(BUNDLED.resolve("turn-on-loss.json")));
    PairPrediction energy = result.pairPredictions().get(0);
    double overlap = 0.5 * 48 * 2 * 15e-9 + (48 + 0.2) / 2 * 2 * 20e-9;
    double start = Math.IEEEremainder(result.record().startSeconds(), 4e-6);
    double end = start + result.record().spanSeconds();
    assertEquals(overlap + 0.2 * 2 * (end - 35e-9), energy.truth().orThrow(), 1e-15);
    double skew =
        energy.byStage().stream()
            .filter(s -> s.stage().equals("skew"))
            .findFirst()
            .orElseThrow()
            .bias()
            .orThrow();
    assertTrue(skew < -0.25e-6, "skew: " + skew);
    assertTrue(energy.bias().orThrow() < -0.3e-6, energy.toString());
    for (JsonNode pair : JsonMapper.shared().readTree(Results.toJson(result)).get("pairReadings")) {
      assertEquals(
          "readings between channels are predicted without tolerances, decision or advice",
          pair.at("/standardUncertainty/notTaken").asString());
    }
    PairPrediction delay = result.pairPredictions().get(2);
    assertEquals(15e-9 + 20e-9 * 24 / 47.8 - 7.5e-9, delay.truth().orThrow(), 1e-15);
  }

  private static void mismatch(Executable call, String words) {
    String message = assertThrows(IllegalArgumentException.class, call).getMessage();
    assertTrue(message.contains(words), () -> "\"" + words + "\" is not in: " + message);
  }

  @Test
  void badValues() {
    Scenario scenario = Scenarios.load(OURS.resolve("two-channels.json"));
    FurtherChannels good = scenario.channels().orElseThrow();
    ChannelSet one = ChannelSet.of(good.set().channels().get(0));
    Signal signal = good.signals().get(0);
    mismatch(
        () -> new FurtherChannels(one, List.of(signal), List.of()),
        "set.channels.size = 1: must be from 2 to 64");
    mismatch(
        () -> new FurtherChannels(good.set(), List.of(signal), List.of()),
        "signals.size = 1: must be 3");
    mismatch(
        () ->
            new FurtherChannels(
                good.set(),
                good.signals(),
                List.of(new ChannelPair(PairReadings.skew(), "voltage", "x"))),
        "must be one of voltage, current, plain");
    ChannelSet turned =
        ChannelSet.of(
            good.set().channels().get(1),
            good.set().channels().get(0),
            good.set().channels().get(2));
    mismatch(
        () -> new FurtherChannels(turned, good.signals(), List.of()),
        "the first channel of a scenario feeds the trigger");
    mismatch(() -> new ChannelPair(PairReadings.skew(), "a", "a"), "second = \"a\"");
    mismatch(() -> new RareEvent(0, 1), "eventsPerSecond = 0.0 Hz");
    mismatch(() -> new RareEvent(1, 0), "observedSeconds = 0.0 s");
    mismatch(
        () ->
            new Scenario(
                "t",
                List.of(),
                Signals.constant(1),
                scenario.setup(),
                scenario.readings(),
                0,
                scenario.channels(),
                List.of()),
        "the first of them must have the scenario's own");
    ScenarioResult result = ScenarioResult.of(scenario);
    mismatch(
        () ->
            new ScenarioResult(scenario, result.record(), result.predictions(), result.cautions()),
        "furtherRecords has 0 entries: must have 2");
    assertThrows(NullPointerException.class, () -> new RareEvent(1, 1).chance(null));
    assertEquals(
        new Measured.Value(-Math.expm1(-1)),
        new RareEvent(1, 1).chance(Optional.of(new LiveTime(1, 0))));
  }
}
