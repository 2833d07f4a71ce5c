package org.asmeasured.uncertainty;

import java.util.List;
import java.util.concurrent.CancellationException;
import java.util.function.Consumer;
import org.asmeasured.internal.CounterRandom;
import org.asmeasured.internal.Require;
import org.asmeasured.measure.Outcome;

/**
 * Propagation of distributions by trials (JCGM 101).
 *
 * <p>Trials come in blocks. By default a block is a scrambled Sobol sequence of its own, and mean
 * and standard uncertainty are corrected by what the block's draws of the inputs are known to be
 * off (a linear control variate, see {@link Simulated}); blocks are independent, so that their
 * scatter says how sure the figures are. Plain draws are there for comparison, and where the model
 * draws much of its own.
 *
 * <p>Adaptive runs end when the figures are stable to the stated digits (7.9.4): twice the standard
 * deviation of the mean over the blocks is below delta for the mean, the standard uncertainty and,
 * for intervals, both ends of the symmetric one; delta = 10^l/2 where u = c 10^l and c has the
 * stated number of digits (7.9.2).
 *
 * <p>The same seed gives the same figures, on any number of threads.
 */
public final class MonteCarlo {
  /** Enough for figures of a standard uncertainty to about 1 % from each block. */
  private static final int MOMENT_BLOCK = 1024;

  private static final int INTERVAL_BLOCK = 1 << 14;
  private static final long MAX_TRIALS = 100_000_000;
  static final int LEAST_BLOCKS = 4;

  final double probability;
  final boolean intervals;

  /** 0: as many trials as said. */
  final int digits;

  final boolean sobol;
  final int block;
  final long trials;

  /** An adaptive run does not end before. */
  final long least;

  final long seed;
  final int threads;
  final Progress progress;

  private MonteCarlo(
      double probability,
      boolean intervals,
      int digits,
      boolean sobol,
      int block,
      long trials,
      long least,
      long seed,
      int threads,
      Progress progress) {
    this.probability = probability;
    this.intervals = intervals;
    this.digits = digits;
    this.sobol = sobol;
    this.block = block;
    this.trials = trials;
    this.least = least;
    this.seed = seed;
    this.threads = threads;
    this.progress = progress;
  }

  /**
   * Mean and standard uncertainty, adaptive, from blocks of 1024 trials, at least 4 and up to 10^6
   * trials; intervals too are there in the end, but nothing is claimed about their digits.
   *
   * @param digits of the standard uncertainty that are to be stable, 1 to 4
   * @return the settings
   * @throws IllegalArgumentException if it is out of range
   */
  public static MonteCarlo forStandardUncertainty(int digits) {
    Require.inRange("digits", digits, 1, 4);
    return new MonteCarlo(
        0.95, false, digits, true, MOMENT_BLOCK, 1_000_000, 0, 0, 1, MonteCarlo::quietly);
  }

  /**
   * Coverage intervals, adaptive, from blocks of 2^14 trials or more: the block is no smaller than
   * the greater of 100/(1 - p) and 10^4 (7.9.4 b); up to 10^7 trials.
   *
   * @param probability coverage probability p, 0.5 to 0.9999
   * @param digits of the standard uncertainty that are to be stable, 1 to 4
   * @return the settings
   * @throws IllegalArgumentException if a value is out of range
   */
  public static MonteCarlo forInterval(double probability, int digits) {
    requireProbability(probability);
    Require.inRange("digits", digits, 1, 4);
    int block = INTERVAL_BLOCK;
    while (block < 100 / (1 - probability)) {
      block *= 2;
    }
    return new MonteCarlo(
        probability, true, digits, true, block, 10_000_000, 0, 0, 1, MonteCarlo::quietly);
  }

  /**
   * A stated number of trials: one block of up to 2^14, or several of 2^14 and what is left.
   *
   * @param probability coverage probability p of the intervals, 0.5 to 0.9999
   * @param trials 100 to 10^8
   * @return the settings
   * @throws IllegalArgumentException if a value is out of range
   */
  public static MonteCarlo ofTrials(double probability, long trials) {
    requireProbability(probability);
    Require.inRange("trials", trials, 100, MAX_TRIALS);
    return new MonteCarlo(
        probability,
        true,
        0,
        true,
        (int) Math.min(trials, INTERVAL_BLOCK),
        trials,
        0,
        0,
        1,
        MonteCarlo::quietly);
  }

  private static void requireProbability(double probability) {
    Require.inRange("probability", probability, "", 0.5, 0.9999);
  }

  private static boolean quietly(long done, long most) {
    return true;
  }

  /** All values, some of them about to be others. */
  private static final class Draft {
    private double probability;
    private boolean intervals;
    private int digits;
    private boolean sobol;
    private int block;
    private long trials;
    private long least;
    private long seed;
    private int threads;
    private Progress progress;
  }

  private MonteCarlo with(Consumer<Draft> change) {
    Draft d = new Draft();
    d.probability = probability;
    d.intervals = intervals;
    d.digits = digits;
    d.sobol = sobol;
    d.block = block;
    d.trials = trials;
    d.least = least;
    d.seed = seed;
    d.threads = threads;
    d.progress = progress;
    change.accept(d);
    return new MonteCarlo(
        d.probability,
        d.intervals,
        d.digits,
        d.sobol,
        d.block,
        d.trials,
        d.least,
        d.seed,
        d.threads,
        d.progress);
  }

  /**
   * The same with plain random draws and no control variate, as JCGM 101 describes it.
   *
   * @return the changed settings
   */
  public MonteCarlo plain() {
    return with(d -> d.sobol = false);
  }

  /**
   * The same from another seed.
   *
   * @param newSeed any; the same seed gives the same figures
   * @return the changed settings
   */
  public MonteCarlo withSeed(long newSeed) {
    return with(d -> d.seed = newSeed);
  }

  /**
   * The same on several threads; the figures do not depend on how many.
   *
   * @param number 1 (the caller's alone, the default) to 1024
   * @return the changed settings
   * @throws IllegalArgumentException if it is out of range
   */
  public MonteCarlo withThreads(int number) {
    Require.inRange("threads", number, 1, 1024);
    return with(d -> d.threads = number);
  }

  /**
   * The same in blocks of another size.
   *
   * @param trialsPerBlock 16 to 2^20; a power of two serves a Sobol sequence best
   * @return the changed settings
   * @throws IllegalArgumentException if it is out of range
   */
  public MonteCarlo withBlock(int trialsPerBlock) {
    Require.inRange("trialsPerBlock", trialsPerBlock, 16, 1 << 20);
    return with(d -> d.block = trialsPerBlock);
  }

  /**
   * The same with another number of trials: of all, or at most if adaptive.
   *
   * @param number 100 to 10^8; the last block may be smaller than the others, and of an adaptive
   *     run is then left out
   * @return the changed settings
   * @throws IllegalArgumentException if it is out of range
   */
  public MonteCarlo withTrials(long number) {
    Require.inRange("trials", number, 100, MAX_TRIALS);
    return with(d -> d.trials = number);
  }

  /**
   * The same with no fewer trials than these, however soon the figures are stable: what a small
   * risk needs ({@link RuleOfThree}). Where fewer are asked for, these become the most, in whole
   * blocks if adaptive.
   *
   * @param number 1 to 10^8
   * @return the changed settings
   * @throws IllegalArgumentException if it is out of range
   */
  public MonteCarlo withAtLeast(long number) {
    Require.inRange("trials", number, 1, MAX_TRIALS);
    long whole = digits == 0 ? number : (number + block - 1) / block * block;
    return with(
        d -> {
          d.least = number;
          d.trials = Math.max(trials, whole);
        });
  }

  /**
   * The same, telling how far it has come.
   *
   * @param listener told as trials are done, and at their end
   * @return the changed settings
   * @throws NullPointerException if it is missing
   */
  public MonteCarlo withProgress(Progress listener) {
    Require.present("listener", listener);
    return with(d -> d.progress = listener);
  }

  /**
   * Draws trials of a model of one output.
   *
   * @param inputs in the order in which the model takes them
   * @param model the model
   * @return the figures; or the reason, if the model has no output in too many trials to say any
   * @throws IllegalArgumentException if the model refuses inputs that can be drawn, naming their
   *     values and distributions; the ends of each distribution are tried before the first trial,
   *     and the one that reaches too far is named alone ({@link RefusedInput}). Or if no normal
   *     values can be correlated as these inputs need
   * @throws CancellationException if {@link Progress} says so, or the thread is interrupted, which
   *     stays marked
   * @throws NullPointerException if an argument is missing
   */
  public Outcome<Simulated> of(Inputs inputs, Model model) {
    return ofEach(inputs, model).get(0);
  }

  /**
   * Draws trials of a model of several outputs; adaptive runs end when all of them are stable.
   *
   * @param inputs in the order in which the model takes them
   * @param model the model
   * @return for each output what {@link #of} gives
   * @throws IllegalArgumentException if the model refuses inputs that can be drawn, or no normal
   *     values can be correlated as these inputs need
   * @throws CancellationException if {@link Progress} says so, or the thread is interrupted
   * @throws NullPointerException if an argument is missing
   */
  public List<Outcome<Simulated>> ofEach(Inputs inputs, JointModel model) {
    Require.present("inputs", inputs);
    Require.present("model", model);
    inputs.requireDrawable();
    int outputs = Require.inRange("outputs of the model", model.outputs(), 1, 100_000);
    double[] atEstimates = Extremities.of(inputs, model, outputs, CounterRandom.key(~seed, 1));
    return new Run(this, inputs, model, atEstimates).results();
  }

  /**
   * How many trials there are, or at most if adaptive.
   *
   * @return 100 to 10^8
   */
  public long mostTrials() {
    return trials;
  }

  /**
   * The coverage probability of the intervals.
   *
   * @return 0.5 to 0.9999
   */
  public double probability() {
    return probability;
  }

  /** Ten trials outside an interval, less the rounding of the probability. */
  long leastTrials() {
    return (long) Math.ceil(10 / (1 - probability) - 1e-6);
  }
}
