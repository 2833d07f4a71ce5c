package org.asmeasured.scenario;

import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.asmeasured.accuracy.Caution;
import org.asmeasured.accuracy.PairPrediction;
import org.asmeasured.accuracy.Prediction;
import org.asmeasured.accuracy.Scatter;
import org.asmeasured.accuracy.StageBias;
import org.asmeasured.capture.Channel;
import org.asmeasured.capture.Record;
import org.asmeasured.digitizer.Linearity;
import org.asmeasured.measure.Measured;
import org.asmeasured.measure.Measured.NotTaken;
import org.asmeasured.measure.Measured.Value;
import org.asmeasured.measure.Outcome;
import org.asmeasured.measure.Reading;
import org.asmeasured.measure.Statistics;
import tools.jackson.core.StreamWriteFeature;
import tools.jackson.core.json.JsonFactory;
import tools.jackson.core.util.DefaultIndenter;
import tools.jackson.core.util.DefaultPrettyPrinter;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/** Puts a result into JSON. */
final class ResultWriter {
  private static final int FORMAT_VERSION = 1;

  // Java 17's own Double.toString does not always give the shortest digits, Java 25's does; the
  // mapper's own gives the
  // same on both. So do line feeds in place of the system's line ends.
  private static final JsonMapper MAPPER =
      JsonMapper.builder(
              JsonFactory.builder().enable(StreamWriteFeature.USE_FAST_DOUBLE_WRITER).build())
          .build();
  private static final DefaultPrettyPrinter LAYOUT =
      new DefaultPrettyPrinter().withObjectIndenter(new DefaultIndenter("  ", "\n"));

  private ResultWriter() {}

  static String toJson(ScenarioResult result) {
    ObjectNode root = JsonNodeFactory.instance.objectNode();
    root.put("formatVersion", FORMAT_VERSION);
    root.put("title", result.scenario().title());
    strings(root.putArray("notes"), result.scenario().notes());
    root.put("signal", result.scenario().signal().toString());
    root.put("setup", result.scenario().setup().toString());
    root.put("seed", result.scenario().seed());
    record(root.putObject("record"), result.record());
    ArrayNode readings = root.putArray("readings");
    for (int r = 0; r < result.predictions().size(); r++) {
      ObjectNode node = readings.addObject();
      prediction(node, result, r);
      if (!result.statistics().isEmpty()) {
        statistics(
            node.putObject("statistics"), result.scenario().captures(), result.statistics().get(r));
      }
      if (!result.assessments().isEmpty()) {
        Reading reading = result.predictions().get(r).reading();
        AssessmentWriter.write(
            node.putObject("assessment"), result.assessments().get(r), verdict(result, reading));
        result.advice().stream()
            .filter(advised -> advised.reading().equals(reading))
            .findFirst()
            .ifPresent(advised -> AdviceWriter.write(node.putObject("advice"), advised));
      }
    }
    result.linearity().ifPresent(found -> linearity(root.putObject("linearity"), found));
    strings(root.putArray("cautions"), result.cautions());
    result.scenario().channels().ifPresent(channels -> channels(root, channels, result));
    if (!result.scenario().rareEvents().isEmpty()) {
      rareEvents(root, result);
    }
    return text(root);
  }

  /** Each caution once, with what it holds for. */
  static void cautions(
      ObjectNode root, List<SaidCaution> cautions, String key, List<String> places) {
    ArrayNode nodes = root.putArray("cautions");
    for (SaidCaution one : cautions) {
      ObjectNode node = nodes.addObject();
      caution(node, one.caution());
      ArrayNode of = node.putArray(key);
      one.places().forEach(place -> of.add(places.get(place)));
    }
  }

  static void caution(ObjectNode node, Caution caution) {
    node.put("subject", caution.subject().toString());
    node.put("words", caution.words());
  }

  /** A text as a tree. */
  static JsonNode tree(String json) {
    return MAPPER.readTree(json);
  }

  /** A tree as text, the same bytes on any machine. */
  static String text(ObjectNode root) {
    return MAPPER.writer().with(LAYOUT).writeValueAsString(root) + "\n";
  }

  /** A tree as one line of text. */
  static String oneLine(ObjectNode root) {
    return MAPPER.writeValueAsString(root);
  }

  private static Optional<AssessmentWriter.Decided> verdict(
      ScenarioResult result, Reading reading) {
    List<RequestedAssessment.Limit> limits =
        result.scenario().assessment().map(RequestedAssessment::limits).orElse(List.of());
    for (int i = 0; i < limits.size(); i++) {
      if (limits.get(i).reading().equals(reading)) {
        return Optional.of(new AssessmentWriter.Decided(limits.get(i), result.verdicts().get(i)));
      }
    }
    return Optional.empty();
  }

  private static void strings(ArrayNode array, Iterable<String> strings) {
    strings.forEach(array::add);
  }

  private static void record(ObjectNode node, Record record) {
    node.put("description", record.toString());
    node.put("points", record.size());
    node.put("startSeconds", record.startSeconds());
    node.put("rateHz", record.rateHz());
    node.put("spanSeconds", record.spanSeconds());
    node.put("stepVolts", record.stepVolts());
    node.put("envelope", record.isEnvelope());
    node.put("clippedLowSamples", record.clippedLow());
    node.put("clippedHighSamples", record.clippedHigh());
    ArrayNode flags = node.putArray("flags");
    record
        .notes()
        .forEach(
            (flag, reason) -> flags.addObject().put("flag", flag.toString()).put("reason", reason));
  }

  private static void prediction(ObjectNode node, ScenarioResult result, int number) {
    Prediction prediction = result.predictions().get(number);
    boolean repeated = result.scenario().captures() > 0;
    node.put("name", prediction.reading().name());
    node.put("description", prediction.reading().toString());
    node.put("unit", prediction.reading().unit());
    measured(node.putObject("truth"), prediction.truth());
    measured(node.putObject("measured"), prediction.measured());
    measured(node.putObject("bias"), prediction.bias());
    scatter(node, prediction.scatter(), repeated);
    rows(node.putArray("byStageInOrder"), prediction.byStage(), repeated);
    if (!result.idealStages().isEmpty()) {
      rows(node.putArray("eachStageAloneIdeal"), result.idealStages().get(number).rows(), repeated);
    }
  }

  private static void statistics(ObjectNode node, int captures, Statistics statistics) {
    node.put("captures", captures);
    node.put("taken", statistics.count());
    measured(node.putObject("mean"), statistics.mean());
    measured(node.putObject("standardDeviation"), statistics.standardDeviation());
    measured(node.putObject("minimum"), statistics.minimum());
    measured(node.putObject("maximum"), statistics.maximum());
    reasons(node.putArray("notTaken"), statistics.notTaken());
  }

  private static void reasons(ArrayNode reasons, Map<String, Integer> notTaken) {
    notTaken.forEach(
        (reason, count) -> reasons.addObject().put("reason", reason).put("count", count));
  }

  private static void linearity(ObjectNode node, LinearityTest.Result result) {
    Linearity.Line line = result.test().line();
    node.put("description", result.test().toString());
    Outcome<Linearity> found = result.found().then(h -> new Outcome.Taken<>(h.linearity()));
    figures(node.putObject("truth"), result.truth(), line);
    figures(node.putObject("found"), found, line);
    node.put("sampling", result.sampling().toString());
    strings(node.putArray("caveats"), result.caveats());
    ObjectNode deviation = node.putObject("greatestStandardDeviation");
    measured(
        deviation.putObject("inlSteps"),
        result.found().read(h -> greatest(h.inlDeviation(line, result.sampling()))));
    measured(
        deviation.putObject("dnlSteps"),
        result.found().read(h -> greatest(h.dnlDeviation(line, result.sampling()))));
  }

  private static void figures(ObjectNode node, Outcome<Linearity> linearity, Linearity.Line line) {
    measured(node.putObject("greatestInlSteps"), linearity.read(l -> greatest(l.inl(line))));
    measured(node.putObject("greatestDnlSteps"), linearity.read(l -> greatest(l.dnl(line))));
    measured(
        node.putObject("missingCodes"), linearity.read(l -> new Value(l.missingCodes().length)));
  }

  /** The greatest modulus; 0 of none. */
  private static Measured greatest(double[] values) {
    return new Value(Arrays.stream(values).map(Math::abs).max().orElse(0));
  }

  private static void rows(ArrayNode table, List<StageBias> rows, boolean repeated) {
    for (StageBias stage : rows) {
      ObjectNode row = table.addObject();
      row.put("stage", stage.stage());
      measured(row.putObject("reading"), stage.reading());
      measured(row.putObject("bias"), stage.bias());
      scatter(row, stage.scatter(), repeated);
    }
  }

  /** Of a single capture nothing is known about it. */
  private static void scatter(ObjectNode row, Scatter scatter, boolean repeated) {
    if (!repeated) {
      return;
    }
    ObjectNode node = row.putObject("scatter");
    node.put("captures", scatter.captures());
    node.put("taken", scatter.taken());
    measured(node.putObject("randomPart"), scatter.randomPart());
    measured(node.putObject("addedVariance"), scatter.addedVariance());
    measured(node.putObject("standardErrorOfBias"), scatter.standardError());
    reasons(node.putArray("notTaken"), scatter.notTaken());
  }

  private static void channels(ObjectNode root, FurtherChannels channels, ScenarioResult result) {
    root.put("channelName", channels.set().channels().get(0).name());
    ArrayNode further = root.putArray("furtherChannels");
    for (int c = 1; c < channels.signals().size(); c++) {
      Channel channel = channels.set().channels().get(c);
      ObjectNode node = further.addObject();
      node.put("name", channel.name());
      node.put("signal", channels.signals().get(c).toString());
      node.put("setup", channel.setup().toString());
      node.put("skewSeconds", channel.skewSeconds());
      record(node.putObject("record"), result.furtherRecords().get(c - 1));
    }
    ArrayNode pairs = root.putArray("pairReadings");
    for (int r = 0; r < result.pairPredictions().size(); r++) {
      PairPrediction p = result.pairPredictions().get(r);
      ObjectNode node = pairs.addObject();
      node.put("first", p.first());
      node.put("second", p.second());
      node.put("name", p.reading().name());
      node.put("description", p.reading().toString());
      node.put("unit", p.reading().unit());
      boolean repeated = result.scenario().captures() > 0;
      measured(node.putObject("truth"), p.truth());
      measured(node.putObject("measured"), p.measured());
      measured(node.putObject("bias"), p.bias());
      measured(node.putObject("standardUncertainty"), p.standardUncertainty());
      scatter(node, p.scatter(), repeated);
      rows(node.putArray("byStageInOrder"), p.byStage(), repeated);
      if (!result.pairStatistics().isEmpty()) {
        statistics(
            node.putObject("statistics"),
            result.scenario().captures(),
            result.pairStatistics().get(r));
      }
    }
  }

  private static void rareEvents(ObjectNode root, ScenarioResult result) {
    result
        .liveTime()
        .ifPresent(
            live -> {
              ObjectNode node = root.putObject("liveTime");
              node.put("recordedSeconds", live.spanSeconds());
              node.put("deadSeconds", live.deadSeconds());
              node.put("share", live.share());
              node.put("acquisitionsPerSecond", live.rateHz());
            });
    ArrayNode events = root.putArray("rareEvents");
    for (RareEvent event : result.scenario().rareEvents()) {
      ObjectNode node = events.addObject();
      node.put("eventsPerSecond", event.eventsPerSecond());
      node.put("observedSeconds", event.observedSeconds());
      measured(node.putObject("chance"), event.chance(result.liveTime()));
    }
  }

  static void measured(ObjectNode node, Measured measured) {
    if (measured instanceof Value taken) {
      node.put("value", taken.value());
    } else if (measured instanceof NotTaken not) {
      node.put("notTaken", not.reason());
    }
  }
}
