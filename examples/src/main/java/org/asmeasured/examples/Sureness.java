package org.asmeasured.examples;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.asmeasured.accuracy.Assessment;
import org.asmeasured.accuracy.Sensitivity;
import org.asmeasured.accuracy.Verdict;
import org.asmeasured.measure.Measured;
import org.asmeasured.measure.Outcome;
import org.asmeasured.scenario.RequestedAssessment;
import org.asmeasured.uncertainty.Agreement;
import org.asmeasured.uncertainty.BudgetLine;
import org.asmeasured.uncertainty.Interval;
import org.asmeasured.uncertainty.Propagated;
import org.asmeasured.uncertainty.Simulated;
import org.asmeasured.uncertainty.Tolerance;

/**
 * How sure a reading is, in the words and numbers of a report. Uncertainties have two digits, and
 * what they belong to as many decimals (JCGM 100, 7.2.6).
 *
 * @param name name of the reading
 * @param assessment figures
 * @param unit of the reading
 * @param limit what is allowed, in words; empty where nothing is stated
 * @param decision about the limit, in words; empty where nothing is stated
 * @param deciding what stands behind the decision
 */
record Sureness(
    String name,
    Assessment assessment,
    String unit,
    String limit,
    String decision,
    Deciding deciding) {
  /** An interval whose ends lie unevenly by more than this share of it is told by its ends. */
  private static final double UNEVEN = 0.05;

  /** A reading that shows a change by less or more than this share of it is told so. */
  private static final double OFF = 0.02;

  private static final int DIGITS = 2;
  private static final String NONE = "–";

  /** A row of a budget. */
  record Row(
      String name,
      String distribution,
      String deviation,
      String sensitivity,
      String contribution,
      String share) {}

  static Sureness of(
      String name,
      Assessment assessment,
      RequestedAssessment.Limit limit,
      Outcome<Verdict> verdict) {
    String unit = assessment.reading().unit();
    if (limit == null) {
      return new Sureness(name, assessment, unit, "", "", Deciding.NOTHING);
    }
    String decision =
        verdict instanceof Outcome.Taken<Verdict> taken
            ? taken.result().toString()
            : "no decision: " + ((Outcome.NotTaken<Verdict>) verdict).reason();
    return new Sureness(
        name,
        assessment,
        unit,
        limitText(limit.tolerance(), unit),
        decision,
        Deciding.of(assessment, limit, verdict));
  }

  static String limitText(Tolerance tolerance, String unit) {
    boolean lower = tolerance.lower() > Double.NEGATIVE_INFINITY;
    boolean upper = tolerance.upper() < Double.POSITIVE_INFINITY;
    if (lower && upper) {
      return "from " + plain(tolerance.lower(), unit) + " to " + plain(tolerance.upper(), unit);
    }
    return lower
        ? "at least " + plain(tolerance.lower(), unit)
        : "at most " + plain(tolerance.upper(), unit);
  }

  /** A stated limit without the zeros that nobody stated. */
  static String plain(double value, String unit) {
    Scale scale = Scale.of(value, unit);
    String number = scale.number(value, scale.decimals(value, 9));
    return scale.withUnit(
        number.contains(".") ? number.replaceFirst("0+$", "").replaceFirst("\\.$", "") : number);
  }

  boolean isTaken() {
    return assessment.standardUncertainty().isTaken()
        && assessment.measured().isTaken()
        && assessment.interval().isTaken();
  }

  /** Why there is no uncertainty. */
  String reason() {
    Measured missing =
        assessment.measured().isTaken() ? assessment.standardUncertainty() : assessment.measured();
    return missing.toString();
  }

  private Scale scale() {
    return Scale.of(Math.max(Math.abs(assessment.measured().orThrow()), deviation()), unit);
  }

  private double deviation() {
    return assessment.standardUncertainty().orThrow();
  }

  private int decimals() {
    return deviation() == 0
        ? scale().decimals(assessment.measured().orThrow(), 4)
        : scale().decimals(deviation(), DIGITS);
  }

  private String percent() {
    return Math.round(100 * trials().probability()) + " %";
  }

  Simulated trials() {
    return assessment.trials().orThrow();
  }

  Interval interval() {
    return assessment.interval().orThrow();
  }

  /** The mean reading and its interval: "47.1 mV +/- 3.9 mV (95 %)", or by both ends. */
  String readingText() {
    Scale scale = scale();
    double mean = assessment.measured().orThrow();
    double above = interval().upper() - mean;
    double below = mean - interval().lower();
    String middle = scale.number(mean, decimals());
    if (Math.abs(above - below) <= UNEVEN * (above + below)) {
      return scale.withUnit(middle)
          + " +/- "
          + scale.withUnit(scale.number(0.5 * (above + below), decimals()))
          + " ("
          + percent()
          + ")";
    }
    return scale.withUnit(middle)
        + ", from "
        + scale.number(interval().lower(), decimals())
        + " to "
        + scale.withUnit(scale.number(interval().upper(), decimals()))
        + " ("
        + percent()
        + ")";
  }

  /** The shortest interval, where that is another one. */
  String shortestText() {
    Scale scale = scale();
    Interval shortest = assessment.shortestInterval().orThrow();
    String lower = scale.number(shortest.lower(), decimals());
    String upper = scale.number(shortest.upper(), decimals());
    return "shortest interval from " + lower + " to " + scale.withUnit(upper);
  }

  /** Where the two methods disagree, the ends that differ; else empty. */
  String disagreement() {
    if (!(assessment.agreement() instanceof Outcome.Taken<Agreement> taken)
        || taken.result().agrees()) {
      return "";
    }
    Agreement a = taken.result();
    List<String> ends = new ArrayList<>();
    if (a.lowerDifference() > a.tolerance()) {
      ends.add("its lower end " + both(a, a.law().lower(), a.trials().lower()));
    }
    if (a.upperDifference() > a.tolerance()) {
      ends.add("its upper end " + both(a, a.law().upper(), a.trials().upper()));
    }
    return "law of propagation and trials disagree about the error (JCGM 101, clause 8): "
        + String.join(", ", ends);
  }

  /** With two digits of what may differ, so that the difference shows. */
  private String both(Agreement agreement, double law, double trials) {
    Scale scale = Scale.of(Math.max(Math.abs(law), Math.abs(trials)), unit);
    int decimals = scale.decimals(Math.max(agreement.tolerance(), Double.MIN_NORMAL), DIGITS);
    return scale.number(law, decimals) + " and " + scale.withUnit(scale.number(trials, decimals));
  }

  String deviationText() {
    return two(assessment.standardUncertainty());
  }

  String repeatabilityText() {
    return two(assessment.repeatability());
  }

  String reproducibilityText() {
    return two(assessment.reproducibility());
  }

  /** How it follows the quantity, where that is not plain or already said; else empty. */
  String followsText() {
    String words = isTaken() ? follows(assessment.sensitivity()) : "";
    return decision.contains(words) ? "" : words;
  }

  static String follows(Outcome<Sensitivity> sensitivity) {
    if (sensitivity instanceof Outcome.NotTaken<Sensitivity> none) {
      return "not checked whether the reading follows the quantity: " + none.reason();
    }
    Sensitivity s = sensitivity.orThrow();
    return s.follows() && Math.abs(s.value() - 1) <= OFF ? "" : s.toString();
  }

  private String two(Measured measured) {
    if (!(measured instanceof Measured.Value value)) {
      return NONE;
    }
    return twoDigits(value.value(), unit);
  }

  private static String twoDigits(double value, String unit) {
    Scale scale = Scale.of(value, unit);
    return scale.withUnit(scale.number(value, scale.decimals(value, DIGITS)));
  }

  /**
   * What makes the uncertainty, the largest first, as shares of the variance: of the law of
   * propagation, or where that does not hold, of the regression over the trials.
   */
  List<String> shares() {
    Map<String, Double> shares = new LinkedHashMap<>();
    boolean holds =
        assessment.agreement() instanceof Outcome.Taken<Agreement> taken && taken.result().agrees();
    if (holds) {
      for (BudgetLine line : assessment.law().orThrow().budget()) {
        shares.put(line.input().name(), line.share());
      }
    } else if (!trials().budget().isEmpty() && deviation() > 0) {
      for (BudgetLine line : trials().budget()) {
        shares.put(line.input().name(), line.share());
      }
      double captures =
          assessment.repeatability() instanceof Measured.Value value
              ? Math.pow(value.value() / deviation(), 2)
              : 0;
      captures = Math.min(captures, trials().remainingShare());
      shares.put("repeatability", captures);
      shares.put("converter steps and combined effects", trials().remainingShare() - captures);
    }
    return shares.entrySet().stream()
        .filter(e -> Math.abs(e.getValue()) >= 0.005)
        .sorted(Comparator.comparingDouble(e -> -Math.abs(e.getValue())))
        .map(e -> e.getKey() + " " + Math.round(100 * e.getValue()) + " %")
        .toList();
  }

  /** The budget of the law of propagation. */
  List<Row> budget() {
    List<Row> rows = new ArrayList<>();
    if (assessment.law() instanceof Outcome.Taken<Propagated> taken) {
      for (BudgetLine line : taken.result().budget()) {
        String of = line.input().unit();
        rows.add(
            new Row(
                line.input().name(),
                line.input().distribution().words(line.input().unit()),
                twoDigits(line.standardUncertainty(), of),
                sensitivity(line.sensitivity(), of),
                twoDigits(line.contribution(), unit),
                Math.round(1000 * line.share()) / 10.0 + " %"));
      }
    }
    return rows;
  }

  private String sensitivity(double value, String of) {
    String per = of.isEmpty() ? unit : unit.isEmpty() ? "1/" + of : unit + "/" + of;
    if (of.equals(unit)) {
      per = "";
    }
    String number =
        value == 0
            ? "0"
            : Math.abs(value) >= 1e-3 && Math.abs(value) < 1e5
                ? new Scale(0, "").number(value, new Scale(0, "").decimals(value, 3))
                : String.format(Locale.ROOT, "%.2e", value);
    return per.isEmpty() ? number : number + " " + per;
  }

  /** What stands below the budget. */
  String below() {
    StringBuilder words = new StringBuilder();
    if (assessment.law() instanceof Outcome.Taken<Propagated> taken) {
      Propagated law = taken.result();
      words.append("Law of propagation: standard uncertainty ");
      words.append(twoDigits(law.standardUncertainty(), unit));
      double degrees = law.effectiveDegreesOfFreedom();
      if (degrees < 1e4) {
        words.append(", effective degrees of freedom ").append((long) degrees);
      }
      double probability = trials().probability();
      words.append(", coverage factor ");
      words.append(String.format(Locale.ROOT, "%.2f", law.coverageFactor(probability)));
      words.append(", expanded uncertainty ");
      words.append(twoDigits(law.expandedUncertainty(probability), unit));
      words.append(" (").append(percent()).append("). ");
    }
    words.append("Trials: ").append(trials().trials()).append(", standard uncertainty ");
    words.append(deviationText());
    words.append(trials().isStable() ? "" : ", whose digits are not yet stable").append(". ");
    if (assessment.agreement().isTaken()) {
      words.append(
          disagreement().isEmpty()
              ? "Both agree to one digit (JCGM 101, clause 8)."
              : CompareWords.capitalised(disagreement()) + ": trust the trials.");
    }
    return words.toString().strip();
  }
}
