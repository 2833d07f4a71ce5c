package org.asmeasured.scenario;

import java.util.List;
import org.asmeasured.accuracy.Assessment;
import org.asmeasured.accuracy.Verdict;
import org.asmeasured.advice.BenchComparison;
import org.asmeasured.advice.Instrument;
import org.asmeasured.internal.Require;
import org.asmeasured.measure.Measured;
import org.asmeasured.measure.Outcome;
import org.asmeasured.uncertainty.Interval;
import org.asmeasured.uncertainty.Tolerance;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/**
 * Writes what instruments come to as JSON, in the format of {@link #schema()}. Numbers are SI units
 * and read back to the same double; the text depends on the answer alone.
 */
public final class BenchAnswers {
  private static final String SCHEMA = "compare-result.schema.json";
  private static final int FORMAT_VERSION = 1;

  private BenchAnswers() {}

  /**
   * The JSON Schema (draft 2020-12) of an answer.
   *
   * @return the text of the schema
   */
  public static String schema() {
    return Scenarios.resource(SCHEMA);
  }

  /**
   * An answer as JSON.
   *
   * @param answer what to write
   * @return the text, ending with a line feed
   * @throws NullPointerException if it is missing
   */
  public static String toJson(BenchAnswer answer) {
    Require.present("answer", answer);
    BenchQuestion question = answer.question();
    Scenario scenario = question.scenario();
    ObjectNode root = JsonNodeFactory.instance.objectNode();
    root.put("formatVersion", FORMAT_VERSION);
    root.put("title", scenario.title());
    scenario.notes().forEach(root.putArray("notes")::add);
    root.put("seed", scenario.seed());
    root.put("signal", scenario.signal().toString());
    root.put("setup", scenario.setup().toString());
    root.put("settings", question.asSet() ? "as set" : "advised");
    ArrayNode instruments = root.putArray("instruments");
    question
        .instruments()
        .forEach(i -> described(instruments.addObject(), i.instrument().name(), i.notes()));
    ArrayNode probes = root.putArray("probes");
    question.probes().forEach(p -> described(probes.addObject(), p.name(), p.notes()));
    ArrayNode known = root.putArray("tolerances");
    for (Instrument instrument : question.bench()) {
      ObjectNode node = known.addObject();
      node.put("instrument", instrument.name());
      ArrayNode names = node.putArray("of");
      instrument.tolerances().list().forEach(t -> names.add(t.name()));
    }
    List<String> names = question.bench().stream().map(Instrument::name).toList();
    ResultWriter.cautions(root, answer.cautions(), "instruments", names);
    ArrayNode limits = root.putArray("limits");
    answer.comparisons().forEach(c -> comparison(limits.addObject(), c));
    return ResultWriter.text(root);
  }

  private static void described(ObjectNode node, String name, List<String> notes) {
    node.put("name", name);
    notes.forEach(node.putArray("notes")::add);
  }

  private static void comparison(ObjectNode node, BenchComparison comparison) {
    BenchComparison.Question asked = comparison.question();
    Tolerance tolerance = asked.tolerance();
    node.put("reading", asked.reading().toString());
    node.put("unit", asked.reading().unit());
    if (tolerance.lower() > Double.NEGATIVE_INFINITY) {
      node.put("lower", tolerance.lower());
    }
    if (tolerance.upper() < Double.POSITIVE_INFINITY) {
      node.put("upper", tolerance.upper());
    }
    node.put("riskAllowed", asked.risk());
    ArrayNode rows = node.putArray("ranking");
    comparison.rows().forEach(row -> row(rows.addObject(), row));
  }

  private static void row(ObjectNode node, BenchComparison.Row row) {
    node.put("instrument", row.instrument().name());
    row.settings().forEach(node.putArray("settings")::add);
    node.put("beyondRating", row.isBeyondRating());
    if (row.assessment() instanceof Outcome.NotTaken<Assessment> missing) {
      node.put("notTaken", missing.reason());
      return;
    }
    Assessment a = row.assessment().orThrow();
    measured(node, "truth", a.truth());
    measured(node, "measured", a.measured());
    measured(node, "bias", a.bias());
    measured(node, "standardUncertainty", a.standardUncertainty());
    measured(node, "correctedExpandedUncertainty", row.correctedExpandedUncertainty());
    interval(node.putObject("readings"), a);
    AssessmentWriter.sensitivity(node.putObject("sensitivity"), a.sensitivity());
    decision(node.putObject("decision"), row.verdict());
    row.smallestUpperLimit().ifPresent(m -> measured(node, "smallestUpperVerified", m));
    row.greatestLowerLimit().ifPresent(m -> measured(node, "greatestLowerVerified", m));
    row.smallestTolerance().ifPresent(m -> measured(node, "smallestToleranceVerified", m));
    row.acquisitionSeconds().ifPresent(s -> node.put("acquisitionSeconds", s));
  }

  private static void interval(ObjectNode node, Assessment a) {
    if (a.interval() instanceof Outcome.Taken<Interval> taken) {
      node.put("lower", taken.result().lower());
      node.put("upper", taken.result().upper());
      node.put("probability", a.trials().orThrow().probability());
    } else {
      node.put("notTaken", ((Outcome.NotTaken<Interval>) a.interval()).reason());
    }
  }

  private static void decision(ObjectNode node, Outcome<Verdict> verdict) {
    if (!(verdict instanceof Outcome.Taken<Verdict> taken)) {
      node.put("notTaken", ((Outcome.NotTaken<Verdict>) verdict).reason());
      return;
    }
    Verdict decided = taken.result();
    node.put("ruling", AssessmentWriter.word(decided.ruling()));
    node.put("conformanceAsRead", decided.asRead());
    decided.corrected().ifPresent(p -> node.put("conformanceCorrected", p));
    node.put("risk", decided.risk());
    decided.reason().ifPresent(r -> node.put("reason", r));
    node.put("trials", decided.trials());
  }

  private static void measured(ObjectNode node, String key, Measured measured) {
    ResultWriter.measured(node.putObject(key), measured);
  }
}
