package org.asmeasured.scenario;

import java.util.Optional;
import org.asmeasured.advice.Advice;
import org.asmeasured.advice.Candidate;
import org.asmeasured.advice.Rule;
import org.asmeasured.measure.Outcome;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/** Puts what would help a reading into JSON. */
final class AdviceWriter {
  /** So many candidates are told, the best first. */
  private static final int TOLD = 20;

  private AdviceWriter() {}

  static void write(ObjectNode node, Advised advised) {
    if (!(advised.advice() instanceof Outcome.Taken<Advice> taken)) {
      node.put("notTaken", ((Outcome.NotTaken<Advice>) advised.advice()).reason());
      return;
    }
    Advice advice = taken.result();
    node.put("combinations", advice.combinations());
    node.put("lookedAt", advice.lookedAt());
    node.put("exhaustive", advice.isExhaustive());
    node.put("trials", advice.trials());
    node.put("margin", advice.margin());
    ArrayNode ranking = node.putArray("ranking");
    advice.ranking().stream().limit(TOLD).forEach(c -> candidate(ranking.addObject(), c));
    ArrayNode dropped = node.putArray("withoutReading");
    advice.dropped().stream()
        .limit(TOLD)
        .forEach(
            d -> {
              ObjectNode one = dropped.addObject();
              d.settings().forEach(one.putArray("settings")::add);
              one.put("reason", d.reason());
            });
    ArrayNode skipped = node.putArray("impossible");
    advice
        .skipped()
        .forEach((reason, count) -> skipped.addObject().put("reason", reason).put("count", count));
    advised
        .withBest()
        .ifPresent(
            best -> AssessmentWriter.write(node.putObject("withBest"), best, Optional.empty()));
    advised
        .verdict()
        .ifPresent(
            verdict ->
                node.put(
                    "decision",
                    verdict instanceof Outcome.Taken<?> decided
                        ? decided.result().toString()
                        : ((Outcome.NotTaken<?>) verdict).reason()));
  }

  private static void candidate(ObjectNode node, Candidate candidate) {
    candidate.settings().forEach(node.putArray("settings")::add);
    node.put("measured", candidate.measured());
    node.put("bias", candidate.bias());
    node.put("standardUncertainty", candidate.standardUncertainty());
    node.put("expandedUncertainty", candidate.expandedUncertainty());
    node.put("score", candidate.score());
    node.put("scoreError", candidate.scoreError());
    node.put("trials", candidate.trials());
    candidate.acquisitionSeconds().ifPresent(s -> node.put("acquisitionSeconds", s));
    candidate.bandwidthHz().ifPresent(hz -> node.put("bandwidthHz", hz));
    ArrayNode rules = node.putArray("rules");
    for (Rule.Finding finding : candidate.rules()) {
      ObjectNode rule = rules.addObject();
      rule.put("rule", finding.rule().words());
      rule.put(
          "status",
          switch (finding.status()) {
            case KEPT -> "kept";
            case BROKEN -> "broken";
            case DOES_NOT_APPLY -> "does not apply";
          });
      rule.put("sentence", finding.sentence());
    }
  }
}
