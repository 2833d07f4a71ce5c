package org.asmeasured.examples;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.asmeasured.advice.Advice;
import org.asmeasured.advice.Candidate;
import org.asmeasured.advice.Rule;
import org.asmeasured.measure.Outcome;
import org.asmeasured.scenario.Advised;

/**
 * What would help a reading, in the words and numbers of a report.
 *
 * @param name name of the reading
 * @param best the best settings and the reading with them; or why there are none
 * @param decision about the limit with the best settings; empty without a limit
 * @param rows the best candidates, the first of them the best
 * @param search what was looked at, in a sentence; empty without advice
 */
record Helping(String name, String best, String decision, List<Row> rows, String search) {
  private static final int ROWS = 6;

  /**
   * A candidate: its settings, what it reads, what it costs, and the rules of practice that it
   * keeps and breaks, each by its name with the figure that it goes by.
   */
  record Row(
      String settings,
      String reading,
      String bias,
      String time,
      String bandwidth,
      List<String> kept,
      List<String> broken) {}

  static Helping of(String name, Advised advised) {
    if (!(advised.advice() instanceof Outcome.Taken<Advice> taken)) {
      return new Helping(
          name,
          "no advice: " + ((Outcome.NotTaken<Advice>) advised.advice()).reason(),
          "",
          List.of(),
          "");
    }
    Advice advice = taken.result();
    String unit = advised.reading().unit();
    Optional<Candidate> best = advice.best();
    if (best.isEmpty()) {
      return new Helping(
          name, "no settings that are offered can read it", "", List.of(), search(advice, unit));
    }
    List<Row> rows = new ArrayList<>();
    advice.ranking().stream().limit(ROWS).forEach(c -> rows.add(row(c, unit)));
    if (advice.asked() instanceof Outcome.Taken<Candidate> asked) {
      rows.add(row("as asked", asked.result(), unit));
    }
    return new Helping(
        name,
        settings(best.get()) + ": " + plusMinus(best.get(), unit),
        advised
            .verdict()
            .map(
                v ->
                    v instanceof Outcome.Taken<?> decided
                        ? decided.result().toString()
                        : "no decision: " + ((Outcome.NotTaken<?>) v).reason())
            .orElse(""),
        rows,
        search(advice, unit));
  }

  private static Row row(Candidate candidate, String unit) {
    return row(settings(candidate), candidate, unit);
  }

  private static Row row(String settings, Candidate candidate, String unit) {
    List<Rule.Finding> rules = candidate.rules();
    return new Row(
        settings,
        plusMinus(candidate, unit),
        Scale.signedText(candidate.bias(), unit),
        candidate.acquisitionSeconds().isPresent()
            ? Scale.text(candidate.acquisitionSeconds().getAsDouble(), "s")
            : "not known",
        candidate.bandwidthHz().isPresent()
            ? Scale.text(candidate.bandwidthHz().getAsDouble(), "Hz")
            : "not limited",
        of(rules, Rule.Status.KEPT),
        of(rules, Rule.Status.BROKEN));
  }

  private static List<String> of(List<Rule.Finding> rules, Rule.Status status) {
    return rules.stream()
        .filter(f -> f.status() == status)
        .map(f -> f.rule().words() + ": " + f.sentence())
        .toList();
  }

  private static String settings(Candidate candidate) {
    return candidate.settings().isEmpty() ? "as it is" : String.join(", ", candidate.settings());
  }

  /** The uncertainty with two digits, the reading with as many decimals (JCGM 100, 7.2.6). */
  private static String plusMinus(Candidate candidate, String unit) {
    double expanded = candidate.expandedUncertainty();
    Scale scale = Scale.of(Math.max(Math.abs(candidate.measured()), expanded), unit);
    int decimals =
        expanded > 0 ? scale.decimals(expanded, 2) : scale.decimals(candidate.measured(), 4);
    return scale.withUnit(scale.number(candidate.measured(), decimals))
        + " +/- "
        + scale.withUnit(scale.number(expanded, decimals));
  }

  private static String search(Advice advice, String unit) {
    String words =
        advice.lookedAt()
            + " of "
            + advice.combinations()
            + " combinations were looked at"
            + (advice.isExhaustive() ? "" : ", in stages")
            + ", with "
            + advice.trials()
            + " trials in all; ";
    int impossible = advice.skipped().values().stream().mapToInt(Integer::intValue).sum();
    if (impossible > 0) {
      words += impossible + " cannot be had; ";
    }
    if (!advice.dropped().isEmpty()) {
      words += advice.dropped().size() + " have no such reading; ";
    }
    return words
        + (advice.best().isEmpty()
            ? "none is left."
            : "the first is the best within "
                + Scale.text(advice.margin(), unit)
                + " of expanded uncertainty and bias"
                + (advice.isBudgetSpent() ? ", after as many trials as were allowed." : "."));
  }
}
