package org.asmeasured.advice;

import java.util.function.Consumer;
import org.asmeasured.internal.Parallel;
import org.asmeasured.internal.Require;
import org.asmeasured.uncertainty.Progress;

/**
 * How advice is searched for.
 *
 * @param coverageFactor k of the expanded uncertainty U = k u, 1 to 10 (2: about 95 % of a normal
 *     distribution; JCGM 100, 6.3.3)
 * @param margin differences of the score below this share of the least one do not matter, 1e-6 to 1
 * @param confidence with which what is said about the ranking holds for all candidates together,
 *     0.5 to 0.9999
 * @param firstTrials of every candidate, 16 to 2^16; those that are not clearly worse get twice as
 *     many, and so on
 * @param mostTrials of one candidate, not below firstTrials, up to 2^20
 * @param budget trials of all candidates together, 1000 to 10^9; the search ends when the next
 *     stage would go beyond. Up to 1024 of what is advised and of what was asked come on top
 * @param mostCombinations which are looked at one and all, 1 to 10^6; of more, settings are chosen
 *     group by group, and two by two
 * @param seed of all that is random
 * @param threads how many share the work, 1 to 1024; the advice does not depend on them
 * @param progress told of the trials, and asked whether to go on
 */
public record AdviceMethod(
    double coverageFactor,
    double margin,
    double confidence,
    int firstTrials,
    int mostTrials,
    long budget,
    int mostCombinations,
    long seed,
    int threads,
    Progress progress) {

  /**
   * Checks the values.
   *
   * @param coverageFactor k of the expanded uncertainty, 1 to 10
   * @param margin of the score that does not matter, a share, 1e-6 to 1
   * @param confidence of the ranking, 0.5 to 0.9999
   * @param firstTrials of every candidate, 16 to 2^16
   * @param mostTrials of one candidate, not below firstTrials, up to 2^20
   * @param budget trials of all candidates together, 1000 to 10^9
   * @param mostCombinations which are looked at one and all, 1 to 10^6
   * @param seed of all that is random
   * @param threads how many share the work, 1 to 1024
   * @param progress told of the trials, and asked whether to go on
   * @throws IllegalArgumentException if a number is out of range
   * @throws NullPointerException if the progress is missing
   */
  public AdviceMethod {
    Require.inRange("coverageFactor", coverageFactor, "", 1, 10);
    Require.inRange("margin", margin, "", 1e-6, 1);
    Require.inRange("confidence", confidence, "", 0.5, 0.9999);
    Require.inRange("firstTrials", firstTrials, 16, 1 << 16);
    Require.inRange("mostTrials", mostTrials, firstTrials, 1 << 20);
    Require.inRange("budget", budget, 1000, 1_000_000_000);
    Require.inRange("mostCombinations", mostCombinations, 1, 1_000_000);
    Require.inRange("threads", threads, 1, Parallel.MAX_THREADS);
    Require.present("progress", progress);
  }

  /**
   * k = 2, a margin of 5 %, 95 % confidence, 32 to 4096 trials of a candidate and 200 000 in all,
   * up to 1000 combinations one and all, seed 0, on the caller's thread alone.
   *
   * @return the method
   */
  public static AdviceMethod usual() {
    return new AdviceMethod(2, 0.05, 0.95, 32, 4096, 200_000, 1000, 0, 1, (done, most) -> true);
  }

  /** All values, some of them about to be others. */
  private static final class Draft {
    private double coverageFactor;
    private double margin;
    private double confidence;
    private int firstTrials;
    private int mostTrials;
    private long budget;
    private int mostCombinations;
    private long seed;
    private int threads;
    private Progress progress;
  }

  private AdviceMethod with(Consumer<Draft> change) {
    Draft d = new Draft();
    d.coverageFactor = coverageFactor;
    d.margin = margin;
    d.confidence = confidence;
    d.firstTrials = firstTrials;
    d.mostTrials = mostTrials;
    d.budget = budget;
    d.mostCombinations = mostCombinations;
    d.seed = seed;
    d.threads = threads;
    d.progress = progress;
    change.accept(d);
    return new AdviceMethod(
        d.coverageFactor,
        d.margin,
        d.confidence,
        d.firstTrials,
        d.mostTrials,
        d.budget,
        d.mostCombinations,
        d.seed,
        d.threads,
        d.progress);
  }

  /**
   * The same with another coverage factor.
   *
   * @param value k, 1 to 10
   * @return the changed method
   * @throws IllegalArgumentException if it is out of range
   */
  public AdviceMethod withCoverageFactor(double value) {
    return with(d -> d.coverageFactor = value);
  }

  /**
   * The same with another margin.
   *
   * @param value share of the least score, 1e-6 to 1
   * @return the changed method
   * @throws IllegalArgumentException if it is out of range
   */
  public AdviceMethod withMargin(double value) {
    return with(d -> d.margin = value);
  }

  /**
   * The same with other numbers of trials.
   *
   * @param first of every candidate, 16 to 2^16
   * @param most of one candidate, not below the first, up to 2^20
   * @param all of all candidates together, 1000 to 10^9
   * @return the changed method
   * @throws IllegalArgumentException if one is out of range
   */
  public AdviceMethod withTrials(int first, int most, long all) {
    return with(
        d -> {
          d.firstTrials = first;
          d.mostTrials = most;
          d.budget = all;
        });
  }

  /**
   * The same with another number of combinations that are looked at one and all.
   *
   * @param value 1 to 10^6
   * @return the changed method
   * @throws IllegalArgumentException if it is out of range
   */
  public AdviceMethod withMostCombinations(int value) {
    return with(d -> d.mostCombinations = value);
  }

  /**
   * The same with another seed.
   *
   * @param value any number
   * @return the changed method
   */
  public AdviceMethod withSeed(long value) {
    return with(d -> d.seed = value);
  }

  /**
   * The same on another number of threads.
   *
   * @param value 1 to 1024
   * @return the changed method
   * @throws IllegalArgumentException if it is out of range
   */
  public AdviceMethod withThreads(int value) {
    return with(d -> d.threads = value);
  }

  /**
   * The same, telling how far it has come.
   *
   * @param listener told of the trials, and asked whether to go on
   * @return the changed method
   * @throws NullPointerException if it is missing
   */
  public AdviceMethod withProgress(Progress listener) {
    return with(d -> d.progress = listener);
  }
}
