package org.asmeasured.scenario;

import java.util.List;
import java.util.Optional;
import org.asmeasured.accuracy.Assessment;
import org.asmeasured.accuracy.Sensitivity;
import org.asmeasured.accuracy.Verdict;
import org.asmeasured.measure.Measured;
import org.asmeasured.measure.Outcome;
import org.asmeasured.uncertainty.Agreement;
import org.asmeasured.uncertainty.BudgetLine;
import org.asmeasured.uncertainty.Distribution;
import org.asmeasured.uncertainty.GlobalRisk;
import org.asmeasured.uncertainty.Interval;
import org.asmeasured.uncertainty.Propagated;
import org.asmeasured.uncertainty.Simulated;
import org.asmeasured.uncertainty.Tolerance;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/** Puts how sure a reading is into JSON. */
final class AssessmentWriter {
  private static final double USUAL_PROBABILITY = 0.95;

  private AssessmentWriter() {}

  /** A limit, and what is decided about it. */
  record Decided(RequestedAssessment.Limit limit, Outcome<Verdict> verdict) {}

  static void write(ObjectNode node, Assessment assessment, Optional<Decided> decided) {
    measured(node, "measured", assessment.measured());
    measured(node, "bias", assessment.bias());
    measured(node, "standardUncertainty", assessment.standardUncertainty());
    measured(node, "repeatability", assessment.repeatability());
    measured(node, "reproducibility", assessment.reproducibility());
    sensitivity(node.putObject("sensitivity"), assessment.sensitivity());
    trials(node.putObject("trials"), assessment);
    law(node.putObject("lawOfPropagation"), assessment);
    decided.ifPresent(d -> limit(node.putObject("limit"), d, assessment));
  }

  /** How a reading follows its quantity; or why that was not checked. */
  static void sensitivity(ObjectNode node, Outcome<Sensitivity> sensitivity) {
    if (!(sensitivity instanceof Outcome.Taken<Sensitivity> taken)) {
      node.put("notTaken", ((Outcome.NotTaken<Sensitivity>) sensitivity).reason());
      return;
    }
    Sensitivity s = taken.result();
    node.put("value", s.value());
    node.put("standardError", s.standardError());
    node.put("follows", s.follows());
    node.put("move", word(s.move()));
    node.put("moved", s.moved());
    node.put("pairs", s.pairs());
  }

  private static void trials(ObjectNode node, Assessment assessment) {
    if (!(assessment.trials() instanceof Outcome.Taken<Simulated> taken)) {
      node.put("notTaken", ((Outcome.NotTaken<Simulated>) assessment.trials()).reason());
      return;
    }
    Simulated trials = taken.result();
    node.put("count", trials.trials());
    node.put("withoutReading", trials.trialsNotTaken());
    node.put("stable", trials.isStable());
    measured(node, "standardUncertaintyError", trials.standardUncertaintyError());
    node.put("probability", trials.probability());
    interval(node.putObject("readings"), assessment.interval());
    interval(node.putObject("shortest"), assessment.shortestInterval());
    budget(node.putArray("budget"), trials.budget());
  }

  private static void interval(ObjectNode node, Outcome<Interval> interval) {
    if (interval instanceof Outcome.Taken<Interval> taken) {
      node.put("lower", taken.result().lower());
      node.put("upper", taken.result().upper());
    } else {
      node.put("notTaken", ((Outcome.NotTaken<Interval>) interval).reason());
    }
  }

  private static void law(ObjectNode node, Assessment assessment) {
    if (!(assessment.law() instanceof Outcome.Taken<Propagated> taken)) {
      node.put("notTaken", ((Outcome.NotTaken<Propagated>) assessment.law()).reason());
      return;
    }
    Propagated law = taken.result();
    node.put("error", law.estimate());
    node.put("standardUncertainty", law.standardUncertainty());
    measured(node, "secondOrderStandardUncertainty", law.secondOrderStandardUncertainty());
    double degrees = law.effectiveDegreesOfFreedom();
    if (degrees < Double.POSITIVE_INFINITY) {
      node.put("effectiveDegreesOfFreedom", degrees);
    }
    double probability =
        assessment.trials() instanceof Outcome.Taken<Simulated> trials
            ? trials.result().probability()
            : USUAL_PROBABILITY;
    node.put("coverageFactor", law.coverageFactor(probability));
    node.put("expandedUncertainty", law.expandedUncertainty(probability));
    budget(node.putArray("budget"), law.budget());
    if (assessment.agreement() instanceof Outcome.Taken<Agreement> agreement) {
      node.put("agreesWithTrials", agreement.result().agrees());
    }
  }

  private static void budget(ArrayNode array, List<BudgetLine> budget) {
    for (BudgetLine line : budget) {
      ObjectNode row = array.addObject();
      row.put("name", line.input().name());
      row.put("unit", line.input().unit());
      row.put("distribution", line.input().distribution().name());
      row.put("estimate", line.estimate());
      row.put("standardUncertainty", line.standardUncertainty());
      row.put("sensitivity", line.sensitivity());
      row.put("contribution", line.contribution());
      row.put("share", line.share());
    }
  }

  private static void limit(ObjectNode node, Decided decided, Assessment assessment) {
    RequestedAssessment.Limit limit = decided.limit();
    Tolerance tolerance = limit.tolerance();
    double risk = limit.risk();
    limits(node, tolerance);
    node.put("riskAllowed", risk);
    if (tolerance.isTwoSided()) {
      node.put("nominal", tolerance.middle());
      measured(
          node,
          "smallestToleranceVerified",
          assessment.smallestTolerance(tolerance.middle(), risk));
    } else if (tolerance.lower() > Double.NEGATIVE_INFINITY) {
      measured(node, "greatestLowerVerified", assessment.greatestLowerLimit(risk));
    } else {
      measured(node, "smallestUpperVerified", assessment.smallestUpperLimit(risk));
    }
    Measured guard = assessment.guardBand(tolerance, risk);
    measured(node, "guardBand", guard);
    if (guard instanceof Measured.Value w) {
      limits(node.putObject("acceptance"), tolerance.guarded(w.value()));
    }
    limit
        .production()
        .ifPresent(p -> production(node.putObject("production"), p, tolerance, guard, assessment));
    if (decided.verdict() instanceof Outcome.Taken<Verdict> taken) {
      Verdict verdict = taken.result();
      node.put("ruling", word(verdict.ruling()));
      node.put("conformanceAsRead", verdict.asRead());
      verdict.corrected().ifPresent(p -> node.put("conformanceCorrected", p));
      node.put("risk", verdict.risk());
      verdict.reason().ifPresent(r -> node.put("reason", r));
    } else {
      node.put("notTaken", ((Outcome.NotTaken<Verdict>) decided.verdict()).reason());
    }
  }

  private static void limits(ObjectNode node, Tolerance tolerance) {
    if (tolerance.lower() > Double.NEGATIVE_INFINITY) {
      node.put("lower", tolerance.lower());
    }
    if (tolerance.upper() < Double.POSITIVE_INFINITY) {
      node.put("upper", tolerance.upper());
    }
  }

  private static void production(
      ObjectNode node,
      Distribution production,
      Tolerance tolerance,
      Measured guard,
      Assessment assessment) {
    node.put("distribution", production.name());
    Outcome<GlobalRisk> simple = assessment.globalRisk(production, tolerance, tolerance);
    if (simple instanceof Outcome.NotTaken<GlobalRisk> missing) {
      node.put("notTaken", missing.reason());
      return;
    }
    node.put("conforming", simple.orThrow().conforming());
    risks(node.putObject("withoutGuardBand"), simple.orThrow());
    if (guard instanceof Measured.Value w) {
      risks(
          node.putObject("withGuardBand"),
          assessment.globalRisk(production, tolerance, tolerance.guarded(w.value())).orThrow());
    }
  }

  private static void risks(ObjectNode node, GlobalRisk risk) {
    node.put("consumersRisk", risk.consumersRisk());
    node.put("producersRisk", risk.producersRisk());
  }

  /** A move of the quantity as files say it. */
  static String word(Sensitivity.Move move) {
    return switch (move) {
      case SPREAD -> "spread";
      case SHIFT -> "shift";
      case STRETCH -> "stretch";
    };
  }

  /** A ruling as files say it. */
  static String word(Verdict.Ruling ruling) {
    return switch (ruling) {
      case PASSES -> "passes";
      case FAILS -> "fails";
      case UNDECIDED -> "undecided";
    };
  }

  private static void measured(ObjectNode node, String key, Measured measured) {
    ResultWriter.measured(node.putObject(key), measured);
  }
}
