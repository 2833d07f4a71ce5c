package org.asmeasured.fitting;

import org.asmeasured.internal.Parallel;
import org.asmeasured.internal.Require;
import org.asmeasured.uncertainty.Progress;

/**
 * How a {@link ChainFit} is computed.
 *
 * @param mostSteps after which the search is given up, 1 to 10 000
 * @param sizeOfNoiseKnown true if the size of the noise is as stated; false if its shape alone is,
 *     and its size follows from what the fit leaves over
 * @param threads how many share the work, 1 to 1024; the figures do not depend on them
 * @param progress told of the steps, and asked whether to go on
 */
public record FitMethod(int mostSteps, boolean sizeOfNoiseKnown, int threads, Progress progress) {
  private static final int USUAL_STEPS = 100;

  /**
   * Checks the values.
   *
   * @param mostSteps after which the search is given up, 1 to 10 000
   * @param sizeOfNoiseKnown true if the size of the noise is as stated; false if its shape alone
   *     is, and its size follows from what the fit leaves over
   * @param threads how many share the work, 1 to 1024
   * @param progress told of the steps, and asked whether to go on
   * @throws IllegalArgumentException if a number is out of range
   * @throws NullPointerException if the progress is missing
   */
  public FitMethod {
    Require.inRange("mostSteps", mostSteps, 1, 10_000);
    Require.inRange("threads", threads, 1, Parallel.MAX_THREADS);
    Require.present("progress", progress);
  }

  /**
   * Up to 100 steps, noise as stated, on the caller's thread alone.
   *
   * @return the method
   */
  public static FitMethod usual() {
    return new FitMethod(USUAL_STEPS, true, 1, (done, most) -> true);
  }

  /**
   * The same with another number of steps.
   *
   * @param value 1 to 10 000
   * @return the changed method
   * @throws IllegalArgumentException if it is out of range
   */
  public FitMethod withMostSteps(int value) {
    return new FitMethod(value, sizeOfNoiseKnown, threads, progress);
  }

  /**
   * The same with noise of which the shape alone is known: its variance is that stated times the
   * reduced chi-squared, and the estimates are t distributed.
   *
   * @return the changed method
   */
  public FitMethod withSizeOfNoiseFromResiduals() {
    return new FitMethod(mostSteps, false, threads, progress);
  }

  /**
   * The same on another number of threads.
   *
   * @param value 1 to 1024
   * @return the changed method
   * @throws IllegalArgumentException if it is out of range
   */
  public FitMethod withThreads(int value) {
    return new FitMethod(mostSteps, sizeOfNoiseKnown, value, progress);
  }

  /**
   * The same, telling how far it has come.
   *
   * @param listener told of the steps, and asked whether to go on
   * @return the changed method
   * @throws NullPointerException if it is missing
   */
  public FitMethod withProgress(Progress listener) {
    return new FitMethod(mostSteps, sizeOfNoiseKnown, threads, listener);
  }
}
