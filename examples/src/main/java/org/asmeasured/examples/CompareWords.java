package org.asmeasured.examples;

import java.util.List;
import java.util.Locale;
import java.util.stream.Stream;
import org.asmeasured.accuracy.Assessment;
import org.asmeasured.accuracy.Verdict;
import org.asmeasured.advice.BenchComparison;
import org.asmeasured.measure.Measured;
import org.asmeasured.measure.Outcome;
import org.asmeasured.uncertainty.RuleOfThree;
import org.asmeasured.uncertainty.Tolerance;

/**
 * What the instruments of a bench come to about one limit, in words.
 *
 * @param heading reading, limit, risk
 * @param truth the true value; or why it is not known
 * @param rows the instruments, as ranked
 */
record CompareWords(String heading, String truth, List<Row> rows) {
  /** What stands in place of U where the reading does not follow the quantity. */
  static final String UNBOUNDED = "unbounded";

  /** What stands in the row of an instrument that may not be connected. */
  static final String BEYOND =
      "Beyond the rating of its probe or input: not to be connected; see the cautions.";

  /**
   * One instrument.
   *
   * @param instrument its name
   * @param reading the mean one; empty where there is none
   * @param uncertainty U of the quantity, with which it is decided; empty where there is none
   * @param decision about the limit; or why there is no reading
   * @param verifies the limits that it could verify; empty where there is no reading
   * @param settings that were advised, as one line; empty as set
   * @param follows how the reading follows the quantity; empty where it does as it should
   * @param beyond what is said of a rating that is exceeded; empty where none is
   */
  record Row(
      String instrument,
      String reading,
      String uncertainty,
      String decision,
      String verifies,
      String settings,
      String follows,
      String beyond) {
    boolean isTaken() {
      return !reading.isEmpty();
    }
  }

  static CompareWords of(BenchComparison comparison) {
    BenchComparison.Question asked = comparison.question();
    String unit = asked.reading().unit();
    String reading = asked.reading().toString();
    return new CompareWords(
        capitalised(reading)
            + " "
            + Sureness.limitText(asked.tolerance(), unit)
            + ", at a risk of "
            + percent(asked.risk()),
        truth(comparison, unit),
        comparison.rows().stream()
            .map(row -> row(row, middle(asked.tolerance(), unit), unit))
            .toList());
  }

  static String capitalised(String words) {
    return words.substring(0, 1).toUpperCase(Locale.ROOT) + words.substring(1);
  }

  static String percent(double share) {
    return String.format(Locale.ROOT, "%.3g", 100 * share).replaceFirst("\\.?0+$", "") + " %";
  }

  /** The signal is the same for all of them. */
  private static String truth(BenchComparison comparison, String unit) {
    return comparison.rows().stream()
        .flatMap(row -> taken(row).stream())
        .map(
            a ->
                a.truth() instanceof Measured.Value v
                    ? Scale.text(v.value(), unit)
                    : "" + a.truth())
        .findFirst()
        .orElse("not known: no instrument gives a reading");
  }

  private static List<Assessment> taken(BenchComparison.Row row) {
    return row.assessment() instanceof Outcome.Taken<Assessment> taken
        ? List.of(taken.result())
        : List.of();
  }

  /** What stands before the T of two limits. */
  private static String middle(Tolerance tolerance, String unit) {
    return tolerance.isTwoSided() ? Sureness.plain(tolerance.middle(), unit) + " +/- " : "";
  }

  private static Row row(BenchComparison.Row row, String middle, String unit) {
    String name = row.instrument().name();
    String beyond = row.isBeyondRating() ? BEYOND : "";
    if (row.assessment() instanceof Outcome.NotTaken<Assessment> missing) {
      return new Row(name, "", "", "no reading: " + first(missing.reason()), "", "", "", beyond);
    }
    Assessment a = row.assessment().orThrow();
    String reading =
        a.measured() instanceof Measured.Value m ? Scale.text(m.value(), unit) : "" + a.measured();
    String uncertainty = a.standardUncertainty().isTaken() ? UNBOUNDED : "";
    if (a.measured() instanceof Measured.Value m
        && row.correctedExpandedUncertainty() instanceof Measured.Value u) {
      FitWords.Pair pair = FitWords.Pair.of(m.value(), u.value(), unit);
      reading = pair.value();
      uncertainty = pair.uncertainty();
    }
    return new Row(
        name,
        reading,
        uncertainty,
        beyond.isEmpty()
            ? decision(row.verdict())
            : "beyond its rating (else: " + decision(row.verdict()) + ")",
        verifies(row, middle, unit),
        settings(row.settings()),
        Sureness.follows(a.sensitivity()),
        beyond);
  }

  /** Every trial has a reason of its own, and they are much alike. */
  private static String first(String reasons) {
    String[] all = reasons.split("; ");
    return all.length < 3 ? reasons : all[0] + "; and " + (all.length - 1) + " more reasons";
  }

  private static String decision(Outcome<Verdict> verdict) {
    if (!(verdict instanceof Outcome.Taken<Verdict> taken)) {
      return "no decision: " + ((Outcome.NotTaken<Verdict>) verdict).reason();
    }
    Verdict v = taken.result();
    String risk =
        v.riskIsBelowResolution()
            ? "risk below " + percent(RuleOfThree.leastRisk(v.trials()), 2)
            : "risk " + percent(v.risk(), 2);
    return switch (v.ruling()) {
      case PASSES -> "passes, " + risk;
      case FAILS -> "fails, " + risk;
      case UNDECIDED ->
          v.needsMoreTrials() ? "cannot decide: " + v.reason().orElseThrow() : "cannot decide";
    };
  }

  private static String percent(double share, int digits) {
    return String.format(Locale.ROOT, "%." + digits + "g %%", 100 * share);
  }

  private static String verifies(BenchComparison.Row row, String middle, String unit) {
    if (row.verdict() instanceof Outcome.Taken<Verdict> taken
        && taken.result().corrected().isEmpty()) {
      return "nothing";
    }
    return Stream.concat(
            row.smallestUpperLimit().map(m -> limit("at most ", m, unit)).stream(),
            row.greatestLowerLimit().map(m -> limit("at least ", m, unit)).stream())
        .findFirst()
        .orElseGet(() -> row.smallestTolerance().map(m -> limit(middle, m, unit)).orElse(""));
  }

  private static String limit(String before, Measured limit, String unit) {
    return limit instanceof Measured.Value v
        ? before + Scale.text(v.value(), unit)
        : "nothing: " + ((Measured.NotTaken) limit).reason();
  }

  private static String settings(List<String> settings) {
    return String.join(", ", settings);
  }
}
