package org.asmeasured.scenario;

import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CancellationException;
import org.asmeasured.accuracy.AssessmentMethod;
import org.asmeasured.accuracy.Measurement;
import org.asmeasured.advice.AdviceMethod;
import org.asmeasured.advice.BenchComparison;
import org.asmeasured.advice.Instrument;
import org.asmeasured.internal.Require;
import org.asmeasured.uncertainty.MonteCarlo;
import org.asmeasured.uncertainty.Progress;

/**
 * What the instruments of a bench come to. Immutable, and a function of the {@link BenchQuestion}
 * alone, the seed of its scenario included: the same bits on any machine.
 *
 * @param question what was asked
 * @param comparisons one for each limit, in order
 */
public record BenchAnswer(BenchQuestion question, List<BenchComparison> comparisons) {
  /** At the least: a risk of 5 % is then known to one per cent (binomial, one sigma). */
  private static final long TRIALS = 512;

  private static final double PROBABILITY = 0.95;

  /** First trials of a candidate, its most, and all of a search. */
  private static final int FIRST = 16;

  private static final int MOST = 64;
  private static final long BUDGET = 3000;

  /**
   * Checks and copies.
   *
   * @param question what was asked
   * @param comparisons one for each limit, in order
   * @throws NullPointerException if one is missing
   * @throws IllegalArgumentException if there is not one comparison for each limit
   */
  public BenchAnswer {
    Require.present("question", question);
    comparisons = List.copyOf(Require.present("comparisons", comparisons));
    Require.that(
        comparisons.size() == question.limits().size(),
        "comparisons has "
            + comparisons.size()
            + " entries: must have one for each of the "
            + question.limits().size()
            + " limits");
  }

  /**
   * Puts the question to every instrument.
   *
   * @param question what is asked
   * @return the answer
   * @throws NullPointerException if it is missing
   */
  public static BenchAnswer of(BenchQuestion question) {
    return of(question, (done, most) -> true);
  }

  /**
   * Puts the question to every instrument, telling how far its trials have come.
   *
   * @param question what is asked
   * @param progress told of the trials of all searches and assessments, as shares of the whole, and
   *     asked whether to go on
   * @return the answer
   * @throws NullPointerException if one is missing
   * @throws CancellationException if the progress says so, or the thread is interrupted
   */
  public static BenchAnswer of(BenchQuestion question, Progress progress) {
    Require.present("question", question);
    Require.present("progress", progress);
    Scenario scenario = question.scenario();
    RequestedAssessment request = scenario.assessment().orElseThrow();
    Measurement asked = new Measurement(scenario.signal(), scenario.setup());
    AssessmentMethod method =
        AssessmentMethod.usual()
            .byTrialsAlone()
            .withCaptures(request.captures())
            .withSeed(scenario.seed())
            .withThreads(ScenarioResult.threads());
    AdviceMethod search =
        AdviceMethod.usual()
            .withTrials(FIRST, MOST, BUDGET)
            .withSeed(scenario.seed())
            .withThreads(ScenarioResult.threads());
    List<Instrument> bench = question.bench();
    List<BenchComparison> comparisons = new ArrayList<>();
    for (RequestedAssessment.Limit limit : request.limits()) {
      BenchComparison.Question one =
          new BenchComparison.Question(limit.reading(), asked, limit.tolerance(), limit.risk());
      Progress part = progress.part(comparisons.size(), request.limits().size());
      AssessmentMethod sized =
          method
              .withTrials(MonteCarlo.ofTrials(PROBABILITY, Math.max(TRIALS, limit.trials())))
              .withProgress(part);
      comparisons.add(
          question.asSet()
              ? BenchComparison.asSet(bench, one, sized)
              : BenchComparison.advised(bench, one, search.withProgress(part), sized));
    }
    return new BenchAnswer(question, comparisons);
  }

  /**
   * What whoever would connect an instrument must be warned of, whatever the limit.
   *
   * @return each caution once, with the numbers of those of {@link BenchQuestion#bench} that it
   *     holds for; empty where there is nothing to warn of
   */
  public List<SaidCaution> cautions() {
    return SaidCaution.once(
        question.bench().stream()
            .map(
                one ->
                    comparisons.stream()
                        .flatMap(c -> c.rows().stream())
                        .filter(row -> row.instrument().name().equals(one.name()))
                        .flatMap(row -> row.cautions().stream())
                        .toList())
            .toList());
  }
}
