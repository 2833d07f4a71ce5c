package org.asmeasured.examples;

import java.util.List;
import java.util.Locale;
import java.util.stream.Stream;
import org.asmeasured.accuracy.Assessment;
import org.asmeasured.accuracy.Verdict;
import org.asmeasured.measure.Measured;
import org.asmeasured.measure.Outcome;
import org.asmeasured.scenario.RequestedAssessment;
import org.asmeasured.uncertainty.Distribution;
import org.asmeasured.uncertainty.GlobalRisk;
import org.asmeasured.uncertainty.RuleOfThree;
import org.asmeasured.uncertainty.Tolerance;

/**
 * What stands behind a decision about a limit, in words; each empty where there is nothing to say.
 *
 * @param conformance how probable it is that the quantity conforms, read both ways
 * @param verifies the nearest limit that would pass
 * @param guardBand and the limits of acceptance
 * @param production the risks of one that is known
 */
record Deciding(String conformance, String verifies, String guardBand, String production) {
  static final Deciding NOTHING = new Deciding("", "", "", "");

  static Deciding of(
      Assessment assessment, RequestedAssessment.Limit limit, Outcome<Verdict> verdict) {
    if (!(verdict instanceof Outcome.Taken<Verdict> taken)) {
      return NOTHING;
    }
    String unit = assessment.reading().unit();
    Tolerance tolerance = limit.tolerance();
    Measured guard = assessment.guardBand(tolerance, limit.risk());
    return new Deciding(
        conformance(taken.result()),
        verifies(assessment, limit, unit),
        guardBand(tolerance, guard, unit),
        limit.production().map(p -> production(assessment, p, tolerance, guard)).orElse(""));
  }

  /** For a terminal: what has a line there. */
  List<String> lines() {
    String both = verifies.isEmpty() ? conformance : conformance + "; verifies " + verifies;
    return Stream.of(both, production).filter(line -> !line.isEmpty()).toList();
  }

  /** For a page. */
  List<String> sentences() {
    return Stream.of(
            conformance,
            verifies.isEmpty() ? "" : "verifies " + verifies,
            guardBand,
            production.isEmpty() ? "" : production + " (JCGM 106, 9.5)")
        .filter(sentence -> !sentence.isEmpty())
        .toList();
  }

  private static String conformance(Verdict v) {
    String asRead = "conformance probability " + probability(v.asRead(), v.trials()) + " as read";
    return v.corrected().isPresent()
        ? asRead + ", " + probability(v.corrected().getAsDouble(), v.trials()) + " corrected"
        : asRead;
  }

  /** Two digits of what is missing to 0 or to 1, and no more than the trials can tell. */
  static String probability(double p, long trials) {
    double least = Math.min(0.5, RuleOfThree.leastRisk(trials));
    double rest = Math.min(p, 1 - p);
    if (rest < least) {
      return p > 0.5 ? "above " + percent(1 - least, least) : "below " + percent(least, least);
    }
    return percent(p, rest);
  }

  private static String percent(double p, double rest) {
    int decimals = Math.max(0, 1 - (int) Math.floor(Math.log10(100 * rest)));
    return String.format(Locale.ROOT, "%." + decimals + "f %%", 100 * p);
  }

  private static String verifies(
      Assessment assessment, RequestedAssessment.Limit limit, String unit) {
    Tolerance tolerance = limit.tolerance();
    if (tolerance.isTwoSided()) {
      return nominal(
          tolerance, assessment.smallestTolerance(tolerance.middle(), limit.risk()), unit);
    }
    return tolerance.upper() < Double.POSITIVE_INFINITY
        ? oneSided("at most ", assessment.smallestUpperLimit(limit.risk()), unit)
        : oneSided("at least ", assessment.greatestLowerLimit(limit.risk()), unit);
  }

  /** Why there is none stands in the decision. */
  private static String oneSided(String before, Measured limit, String unit) {
    return limit instanceof Measured.Value v ? before + Scale.text(v.value(), unit) : "";
  }

  /** A tolerance about the middle of two limits; empty if there is none. */
  private static String nominal(Tolerance tolerance, Measured half, String unit) {
    return half instanceof Measured.Value t
        ? Sureness.plain(tolerance.middle(), unit) + " +/- " + Scale.text(t.value(), unit)
        : "";
  }

  private static String guardBand(Tolerance tolerance, Measured guard, String unit) {
    if (!(guard instanceof Measured.Value w)) {
      String reason = ((Measured.NotTaken) guard).reason();
      return reason.startsWith("no guard band") ? reason : "";
    }
    Tolerance accepted = tolerance.guarded(w.value());
    String limits =
        accepted.isTwoSided()
            ? "from "
                + Scale.text(accepted.lower(), unit)
                + " to "
                + Scale.text(accepted.upper(), unit)
            : accepted.upper() < Double.POSITIVE_INFINITY
                ? "of at most " + Scale.text(accepted.upper(), unit)
                : "of at least " + Scale.text(accepted.lower(), unit);
    return "guard band "
        + Scale.text(w.value(), unit)
        + ": to be accepted are readings "
        + limits
        + " (JCGM 106, 8.3.2)";
  }

  private static String production(
      Assessment assessment, Distribution production, Tolerance tolerance, Measured guard) {
    Outcome<GlobalRisk> simple = assessment.globalRisk(production, tolerance, tolerance);
    if (simple instanceof Outcome.NotTaken<GlobalRisk> missing) {
      return "no risks of the production: " + missing.reason();
    }
    String words = "production: " + risks(simple.orThrow());
    return guard instanceof Measured.Value w
        ? words
            + "; with the guard band "
            + risks(
                assessment
                    .globalRisk(production, tolerance, tolerance.guarded(w.value()))
                    .orThrow())
        : words;
  }

  private static String risks(GlobalRisk risk) {
    return "consumer's risk "
        + share(risk.consumersRisk())
        + ", producer's risk "
        + share(risk.producersRisk());
  }

  private static String share(double share) {
    return share < 1e-10 ? "below 1e-8 %" : String.format(Locale.ROOT, "%.2g %%", 100 * share);
  }
}
