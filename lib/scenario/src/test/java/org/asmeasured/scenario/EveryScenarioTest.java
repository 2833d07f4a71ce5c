package org.asmeasured.scenario;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/**
 * Every scenario in the examples and in the test resources loads, is valid, runs, and yields a
 * valid result.
 */
class EveryScenarioTest {
  static Stream<Path> all() {
    return Schemas.all().stream();
  }

  @ParameterizedTest
  @MethodSource("all")
  void loadsAndRuns(Path file) throws IOException {
    assertEquals(List.of(), Schemas.complaints(Schemas.SCENARIO, Files.readString(file)));
    Scenario scenario = Scenarios.load(file);
    ScenarioResult result = ScenarioResult.of(scenario);
    String json = Results.toJson(result);
    assertEquals(List.of(), Schemas.complaints(Schemas.RESULT, json));
    assertEquals(scenario.readings().size(), result.predictions().size());
    addsUp(json);
  }

  /**
   * The rows of a table by stage are the bias: they add up to it, where every reading was taken. So
   * do the variances that they add, where the captures are several.
   */
  private static void addsUp(String json) {
    JsonNode root = JsonMapper.shared().readTree(json);
    List<JsonNode> readings = new ArrayList<>();
    root.at("/readings").forEach(readings::add);
    root.at("/pairReadings").forEach(readings::add);
    for (JsonNode reading : readings) {
      if (reading.at("/bias/value").isMissingNode()) {
        continue;
      }
      double sum = 0;
      for (JsonNode row : reading.at("/byStageInOrder")) {
        sum += row.at("/bias/value").asDouble(0);
      }
      assertEquals(reading.at("/bias/value").asDouble(), sum, 1e-12, reading::toString);
      if (root.at("/readings/0/statistics").isMissingNode()) {
        assertTrue(reading.at("/scatter").isMissingNode(), reading::toString);
        continue;
      }
      double variance = 0;
      double greatest = 0;
      for (JsonNode row : reading.at("/byStageInOrder")) {
        double added = row.at("/scatter/addedVariance/value").asDouble(0);
        variance += added;
        greatest = Math.max(greatest, Math.abs(added));
      }
      assertEquals(
          reading.at("/scatter/addedVariance/value").asDouble(),
          variance,
          1e-13 * greatest,
          reading::toString);
    }
  }

  @Test
  void sameTextEachTime() {
    Path file = Schemas.all().get(0);
    String once = Results.toJson(ScenarioResult.of(Scenarios.load(file)));
    assertEquals(once, Results.toJson(ScenarioResult.of(Scenarios.load(file))));
  }

  @Test
  void someAreBundled() {
    List<String> names =
        Schemas.bundled().stream().map(file -> file.getFileName().toString()).toList();
    assertTrue(
        names.containsAll(
            List.of(
                "glitch-under-peak-detect.json",
                "glitch-under-pick.json",
                "mistrimmed-probe.json",
                "noisy-sine.json",
                "ringing-edge.json",
                "distorted-sine.json",
                "converter-by-histogram.json",
                "rail-with-ripple.json",
                "turn-on-loss.json",
                "recorded-heartbeat.json")),
        names::toString);
  }

  /** A kind that no scenario says is a kind that nobody has tried. */
  @Test
  void sayEveryKind() throws IOException {
    Set<String> known = new TreeSet<>();
    known.addAll(SignalKinds.in(Path.of("")).names());
    known.addAll(ResponseKinds.RESPONSES.names());
    known.addAll(ResponseKinds.BANDWIDTHS.names());
    known.addAll(FrontEndReader.COUPLINGS.names());
    known.addAll(ConverterKinds.CONVERTERS.names());
    known.addAll(SetupReader.DECIMATIONS.names());
    known.addAll(SetupReader.ENSEMBLES.names());
    known.addAll(ProbeKinds.PROBES.names());
    known.addAll(NetworkKinds.ELEMENTS.names());
    known.addAll(TriggerReader.PATHS.names());
    known.addAll(TriggerReader.QUALIFIERS.names());
    known.addAll(TriggerReader.NO_EVENTS.names());
    known.addAll(NoiseKinds.SOURCES.names());
    known.addAll(PairReadingKinds.READINGS.names());
    known.addAll(ReadingKinds.READINGS.names());
    known.addAll(ScenarioReader.LINEARITY_TESTS.names());
    known.addAll(PulseReadingKinds.STATE_LEVELS.names());
    known.addAll(PulseReadingKinds.REFERENCE_LEVELS.names());
    known.addAll(SpectrumReadingKinds.WINDOWS.names());
    known.addAll(DistributionKinds.DISTRIBUTIONS.names());
    Set<String> said = new TreeSet<>();
    Set<String> keys = new TreeSet<>();
    for (Path file : Schemas.all()) {
      collect(Json.parse(file.toString(), Files.readString(file)), said, keys);
    }
    assertEquals(known, said);
    assertTrue(keys.containsAll(SetupReader.OPTIONAL), keys::toString);
    assertTrue(keys.containsAll(List.of("captures", "linearityTest", "line")), keys::toString);
    assertTrue(keys.containsAll(AssessmentReader.OPTIONAL), keys::toString);
    for (String kind : ReadingKinds.READINGS.names()) {
      assertTrue(keys.containsAll(ReadingKinds.READINGS.kind(kind).optional()), kind);
    }
  }

  private static void collect(Json node, Set<String> kinds, Set<String> keys) {
    node.items().forEach(item -> collect(item, kinds, keys));
    node.members()
        .forEach(
            (key, value) -> {
              keys.add(key);
              if (key.equals("kind")) {
                kinds.add(value.text);
              }
              collect(value, kinds, keys);
            });
  }
}
