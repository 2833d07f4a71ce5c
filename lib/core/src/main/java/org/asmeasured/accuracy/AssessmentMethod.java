package org.asmeasured.accuracy;

import org.asmeasured.internal.Parallel;
import org.asmeasured.internal.Require;
import org.asmeasured.uncertainty.MonteCarlo;
import org.asmeasured.uncertainty.Progress;

/**
 * How an {@link Assessment} is computed.
 *
 * @param trials when there are enough of them; seed, threads and progress are those below
 * @param captures at each place that the law of propagation needs, for the repeatability, and in
 *     pairs for the sensitivity (eight at least); a setup whose captures are all equal needs one, 2
 *     to 100 000
 * @param lawOfPropagation whether it is applied beside the trials; its places, at the least two for
 *     each parameter, may cost more captures than the trials
 * @param seed of all that is random
 * @param threads how many share the work, 1 to 1024; the figures do not depend on them
 * @param progress told of the trials, and asked whether to go on
 */
public record AssessmentMethod(
    MonteCarlo trials,
    int captures,
    boolean lawOfPropagation,
    long seed,
    int threads,
    Progress progress) {
  private static final int USUAL_CAPTURES = 100;
  private static final int MOST_CAPTURES = 100_000;

  /**
   * Checks the values.
   *
   * @param trials when there are enough of them; seed, threads and progress are those below
   * @param captures at each place that the law of propagation needs, for the repeatability, and in
   *     pairs for the sensitivity (eight at least); a setup whose captures are all equal needs one,
   *     2 to 100 000
   * @param lawOfPropagation whether it is applied beside the trials
   * @param seed of all that is random
   * @param threads how many share the work, 1 to 1024; the figures do not depend on them
   * @param progress told of the trials, and asked whether to go on
   * @throws IllegalArgumentException if a number is out of range
   * @throws NullPointerException if one is missing
   */
  public AssessmentMethod {
    Require.present("trials", trials);
    Require.inRange("captures", captures, 2, MOST_CAPTURES);
    Require.inRange("threads", threads, 1, Parallel.MAX_THREADS);
    Require.present("progress", progress);
  }

  /**
   * Trials until two digits of the standard uncertainty are stable and the law of propagation, 100
   * captures at each place, seed 0, on the caller's thread alone.
   *
   * @return the method
   */
  public static AssessmentMethod usual() {
    return new AssessmentMethod(
        MonteCarlo.forStandardUncertainty(2), USUAL_CAPTURES, true, 0, 1, (done, most) -> true);
  }

  /**
   * The same with other trials.
   *
   * @param value when there are enough of them
   * @return the changed method
   * @throws NullPointerException if it is missing
   */
  public AssessmentMethod withTrials(MonteCarlo value) {
    return new AssessmentMethod(value, captures, lawOfPropagation, seed, threads, progress);
  }

  /**
   * The same with another number of captures.
   *
   * @param value 2 to 100 000
   * @return the changed method
   * @throws IllegalArgumentException if it is out of range
   */
  public AssessmentMethod withCaptures(int value) {
    return new AssessmentMethod(trials, value, lawOfPropagation, seed, threads, progress);
  }

  /**
   * The same without the law of propagation: no budget, and nothing to compare the trials with.
   *
   * @return the changed method
   */
  public AssessmentMethod byTrialsAlone() {
    return new AssessmentMethod(trials, captures, false, seed, threads, progress);
  }

  /**
   * The same with another seed.
   *
   * @param value any number
   * @return the changed method
   */
  public AssessmentMethod withSeed(long value) {
    return new AssessmentMethod(trials, captures, lawOfPropagation, value, threads, progress);
  }

  /**
   * The same on another number of threads.
   *
   * @param value 1 to 1024
   * @return the changed method
   * @throws IllegalArgumentException if it is out of range
   */
  public AssessmentMethod withThreads(int value) {
    return new AssessmentMethod(trials, captures, lawOfPropagation, seed, value, progress);
  }

  /**
   * The same, telling how far it has come.
   *
   * @param listener told of the trials, and asked whether to go on
   * @return the changed method
   * @throws NullPointerException if it is missing
   */
  public AssessmentMethod withProgress(Progress listener) {
    return new AssessmentMethod(trials, captures, lawOfPropagation, seed, threads, listener);
  }

  MonteCarlo settings() {
    return trials.withSeed(seed).withThreads(threads).withProgress(progress);
  }
}
