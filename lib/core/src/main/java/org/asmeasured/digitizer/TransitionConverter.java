package org.asmeasured.digitizer;

import java.util.Arrays;
import java.util.Objects;
import org.asmeasured.internal.CounterRandom;
import org.asmeasured.internal.Require;

/**
 * A converter that is told where it changes code: with nonlinearity, missing codes, gain and offset
 * error. Immutable.
 *
 * <p><b>Transition levels.</b> T<sub>k</sub>, in ideal steps from the middle of the range, is where
 * code k - 1 gives way to code k; k runs from the lowest code + 1 to the highest. The code of a
 * level is the lowest code plus the number of transition levels below it. A level exactly on a
 * transition gets the even code of its two neighbours, as of an ideal converter; where both
 * neighbours are even or both odd, because the codes between them are missing, the upper one. With
 * every error zero, this converter gives the same codes as {@link IdealConverter}, bit for bit.
 *
 * <pre>
 * t_k = k - 1/2 + bow(u_k) + walk_k          u_k = -1 at the first transition ... 1 at the last
 * T_k = (t_k - offsetError)/(1 + gainError)  after missing codes have been taken out of the t_k
 * </pre>
 *
 * <p><b>Bow</b>: a polynomial that vanishes at both ends, (1 - u<sup>2</sup>)(b<sub>0</sub> +
 * b<sub>1</sub> u + b<sub>2</sub> u<sup>2</sup> + ...): b<sub>0</sub> is the bow in the middle,
 * b<sub>1</sub> an S. The INL by end points is the polynomial itself.
 *
 * <p><b>Random walk</b>: the width of every code between the end codes is drawn from a uniform
 * distribution about one step, of the stated standard deviation; all widths are then scaled by one
 * factor so that the first and the last transition stay where they belong. The INL is a random walk
 * tied at both ends, of standard deviation d sqrt(k (n - k)/n) at the k-th of n widths. A width is
 * never negative, because a uniform distribution has bounds.
 *
 * <p><b>Missing codes</b>: both transitions of a missing code (of a run of them, all) lie together,
 * half-way between the outermost; so its neighbours share its width. The end codes, which have one
 * transition each, cannot be missing.
 *
 * <p><b>Order.</b> Transition levels must ascend; equal ones make a missing code. Levels out of
 * order are refused, with the first code concerned: a bow steeper than the code widths is one way
 * to get there.
 *
 * <p>Each converter holds 24 bytes for each code, 20 above 16 bits: 1.5 MB at 16 bits, 320 MB at
 * 24. A conversion takes one look into a table of places and as many comparisons as there are
 * transitions in a step at most, without branches.
 */
public final class TransitionConverter implements Converter {
  /** 1/sqrt(3): the standard deviation of a uniform distribution from 0 to 2 steps. */
  private static final double MAX_WALK = 0.577;

  private static final double MAX_BOW = 1e6;
  private static final int MAX_COEFFICIENTS = 16;
  private static final double MAX_LEVEL = Math.scalb(1.0, MAX_BITS + 1);

  private final int bits;
  private final double[] given;
  private final double[] bow;
  private final double walk;
  private final long walkSeed;
  private final int[] missing;
  private final double gainError;
  private final double offsetErrorSteps;
  private final double[] transitions;

  /** Made at the first conversion; two threads may make the same one twice. */
  private volatile TransitionTable table;

  private TransitionConverter(
      int bits,
      double[] given,
      double[] bow,
      double walk,
      long walkSeed,
      int[] missing,
      double gainError,
      double offsetErrorSteps) {
    this.bits = bits;
    this.given = given;
    this.bow = bow;
    this.walk = walk;
    this.walkSeed = walkSeed;
    this.missing = missing;
    this.gainError = gainError;
    this.offsetErrorSteps = offsetErrorSteps;
    transitions = transitions();
  }

  /**
   * A converter without errors yet.
   *
   * @param bits 1 to 24
   * @return the converter
   * @throws IllegalArgumentException if the number is out of range
   */
  public static TransitionConverter of(int bits) {
    Require.inRange("bits", bits, 1, MAX_BITS);
    return new TransitionConverter(bits, null, new double[0], 0, 0, new int[0], 0, 0);
  }

  /**
   * A converter whose transition levels were measured.
   *
   * @param bits 1 to 24
   * @param transitionLevels 2<sup>bits</sup> - 1 levels in ideal steps from the middle of the range
   *     (an ideal converter's are k - 1/2), ascending, equal ones for a missing code; within 2
   *     <sup>25</sup> steps of zero; copied
   * @return the converter
   * @throws IllegalArgumentException if their number is wrong, one is out of range or out of order
   * @throws NullPointerException if they are missing
   */
  public static TransitionConverter of(int bits, double[] transitionLevels) {
    Require.inRange("bits", bits, 1, MAX_BITS);
    Require.present("transitionLevels", transitionLevels);
    int count = (1 << bits) - 1;
    Require.that(
        transitionLevels.length == count,
        "transitionLevels.length = "
            + transitionLevels.length
            + ": must be "
            + count
            + " for "
            + bits
            + " bits");
    double[] copy = transitionLevels.clone();
    for (int i = 0; i < count; i++) {
      if (!(Math.abs(copy[i]) <= MAX_LEVEL)) {
        Require.inRange("transitionLevels[" + i + "]", copy[i], "", -MAX_LEVEL, MAX_LEVEL);
      }
    }
    return new TransitionConverter(bits, copy, new double[0], 0, 0, new int[0], 0, 0);
  }

  /**
   * With a bow, in place of any there was.
   *
   * @param coefficientsSteps b<sub>0</sub>, b<sub>1</sub>, ... in steps; none for no bow, at most
   *     16, each -1e6 to 1e6; copied
   * @return the converter
   * @throws IllegalArgumentException if one is out of range, there are too many, there is one bit
   *     only (and so no place for a bow), or transition levels come out of order
   * @throws NullPointerException if the array is missing
   */
  public TransitionConverter withBow(double... coefficientsSteps) {
    Require.present("coefficientsSteps", coefficientsSteps);
    Require.inRange("coefficientsSteps.length", coefficientsSteps.length, 0, MAX_COEFFICIENTS);
    double[] copy = coefficientsSteps.clone();
    for (int i = 0; i < copy.length; i++) {
      Require.inRange("coefficientsSteps[" + i + "]", copy[i], "", -MAX_BOW, MAX_BOW);
    }
    Require.that(
        bits >= 2 || copy.length == 0,
        "coefficientsSteps.length = "
            + copy.length
            + ", bits = "
            + bits
            + ": a bow needs 2 bits or more");
    return new TransitionConverter(
        bits, given, copy, walk, walkSeed, missing, gainError, offsetErrorSteps);
  }

  /**
   * With code widths that differ at random, in place of any that did.
   *
   * @param deviationSteps standard deviation of a width, 0 to 0.577 steps
   * @param seed which converter of its kind
   * @return the converter
   * @throws IllegalArgumentException if the deviation is out of range or transition levels come out
   *     of order
   */
  public TransitionConverter withRandomWalk(double deviationSteps, long seed) {
    Require.inRange("deviationSteps", deviationSteps, "", 0, MAX_WALK);
    return new TransitionConverter(
        bits, given, bow, deviationSteps, seed, missing, gainError, offsetErrorSteps);
  }

  /**
   * With codes that never appear, in place of any there were.
   *
   * @param codes each from the lowest code + 1 to the highest - 1, in any order; copied
   * @return the converter
   * @throws IllegalArgumentException if one is out of range
   * @throws NullPointerException if the array is missing
   */
  public TransitionConverter withMissingCodes(int... codes) {
    int[] sorted = Require.present("codes", codes).clone();
    for (int i = 0; i < sorted.length; i++) {
      Require.that(
          bits >= 2, "codes.length = " + codes.length + ", bits = 1: there are end codes alone");
      Require.inRange("codes[" + i + "]", sorted[i], lowestCode() + 1, highestCode() - 1);
    }
    sorted = Arrays.stream(sorted).sorted().distinct().toArray();
    return new TransitionConverter(
        bits, given, bow, walk, walkSeed, sorted, gainError, offsetErrorSteps);
  }

  /**
   * With another gain error.
   *
   * @param value gain - 1 about the middle of the range, -0.5 to 0.5; positive reads too large
   * @return the converter
   * @throws IllegalArgumentException if it is out of range
   */
  public TransitionConverter withGainError(double value) {
    Require.inRange("gainError", value, "", -0.5, 0.5);
    return new TransitionConverter(
        bits, given, bow, walk, walkSeed, missing, value, offsetErrorSteps);
  }

  /**
   * With another offset error.
   *
   * @param steps up to the number of codes either way; positive reads too high
   * @return the converter
   * @throws IllegalArgumentException if it is out of range
   */
  public TransitionConverter withOffsetError(double steps) {
    double most = Math.scalb(1.0, bits);
    Require.inRange("offsetErrorSteps", steps, "", -most, most);
    return new TransitionConverter(bits, given, bow, walk, walkSeed, missing, gainError, steps);
  }

  private double[] transitions() {
    int count = (1 << bits) - 1;
    int low = lowestCode();
    double[] t = new double[count];
    for (int i = 0; i < count; i++) {
      t[i] = given == null ? low + i + 0.5 : given[i];
    }
    if (bow.length > 0) {
      addBow(t);
    }
    if (walk > 0 && count > 2) {
      addWalk(t);
    }
    for (int i = 1; i < count; i++) {
      if (!(t[i - 1] <= t[i])) {
        throw new IllegalArgumentException(
            "transition levels of codes "
                + (low + i)
                + " and "
                + (low + i + 1)
                + " = "
                + t[i - 1]
                + " and "
                + t[i]
                + ": must ascend");
      }
    }
    merge(t);
    if (gainError != 0 || offsetErrorSteps != 0) {
      for (int i = 0; i < count; i++) {
        t[i] = (t[i] - offsetErrorSteps) / (1 + gainError);
      }
    }
    return t;
  }

  private void addBow(double[] t) {
    double half = (t.length - 1) / 2.0;
    for (int i = 0; i < t.length; i++) {
      double u = (i - half) / half;
      double p = 0;
      for (int c = bow.length - 1; c >= 0; c--) {
        p = p * u + bow[c];
      }
      t[i] += (1 - u) * (1 + u) * p;
    }
  }

  private void addWalk(double[] t) {
    int widths = t.length - 1;
    double spread = 2 * Math.sqrt(3) * walk;
    double[] at = new double[t.length];
    for (int i = 1; i <= widths; i++) {
      at[i] = at[i - 1] + 1 + spread * (CounterRandom.uniform(walkSeed, i) - 0.5);
    }
    double scale = widths / at[widths];
    for (int i = 1; i < widths; i++) {
      t[i] += at[i] * scale - i;
    }
  }

  private void merge(double[] t) {
    int low = lowestCode();
    for (int i = 0; i < missing.length; ) {
      int run = i + 1;
      while (run < missing.length && missing[run] == missing[run - 1] + 1) {
        run++;
      }
      int from = missing[i] - low - 1;
      int to = missing[run - 1] - low;
      double middle = t[from] + (t[to] - t[from]) / 2;
      Arrays.fill(t, from, to + 1, middle);
      i = run;
    }
  }

  @Override
  public int bits() {
    return bits;
  }

  /**
   * Where the converter changes code.
   *
   * @param code the code that begins there, lowest + 1 to highest
   * @return the level in ideal steps from the middle of the range
   * @throws IllegalArgumentException if no transition leads to this code
   */
  public double transitionLevel(int code) {
    Require.inRange("code", code, lowestCode() + 1, highestCode());
    return transitions[code - lowestCode() - 1];
  }

  /**
   * All transition levels.
   *
   * @return a new array, ascending, of 2<sup>bits</sup> - 1 levels in ideal steps
   */
  public double[] transitionLevels() {
    return transitions.clone();
  }

  /**
   * Whether transition levels were given one by one.
   *
   * @return true if made by {@link #of(int, double[])}
   */
  public boolean hasGivenLevels() {
    return given != null;
  }

  /**
   * The transition levels as they were given, ahead of bow, walk, missing codes, gain and offset.
   *
   * @return a new array in ideal steps; of an ideal converter, if none were given
   */
  public double[] givenLevels() {
    return given == null ? of(bits).transitionLevels() : given.clone();
  }

  /**
   * The coefficients of the bow.
   *
   * @return a new array in steps, empty for no bow
   */
  public double[] bow() {
    return bow.clone();
  }

  /**
   * The standard deviation of the code widths.
   *
   * @return steps, 0 for equal widths
   */
  public double walkDeviation() {
    return walk;
  }

  /**
   * The seed of the code widths.
   *
   * @return any
   */
  public long walkSeed() {
    return walkSeed;
  }

  /**
   * The codes that were taken out.
   *
   * @return a new array, ascending
   */
  public int[] missingCodes() {
    return missing.clone();
  }

  /**
   * The gain error.
   *
   * @return gain - 1
   */
  public double gainError() {
    return gainError;
  }

  /**
   * The offset error.
   *
   * @return steps
   */
  public double offsetErrorSteps() {
    return offsetErrorSteps;
  }

  @Override
  public double lowestLevel() {
    return transitions[0] - meanWidth();
  }

  @Override
  public double highestLevel() {
    return transitions[transitions.length - 1] + meanWidth();
  }

  /** What an end code is wide, which has one transition only. */
  private double meanWidth() {
    return transitions.length == 1
        ? 1 / (1 + gainError)
        : (transitions[transitions.length - 1] - transitions[0]) / (transitions.length - 1);
  }

  @Override
  public void convert(double[] levels, int offset, int count) {
    Objects.checkFromIndexSize(offset, count, Require.present("levels", levels).length);
    TransitionTable prepared = table;
    if (prepared == null) {
      prepared = new TransitionTable(lowestCode(), transitions);
      table = prepared;
    }
    prepared.convert(levels, offset, offset + count);
  }

  @Override
  public boolean equals(Object other) {
    return other instanceof TransitionConverter that
        && bits == that.bits
        && Arrays.equals(given, that.given)
        && Arrays.equals(bow, that.bow)
        && walk == that.walk
        && walkSeed == that.walkSeed
        && Arrays.equals(missing, that.missing)
        && gainError == that.gainError
        && offsetErrorSteps == that.offsetErrorSteps;
  }

  @Override
  public int hashCode() {
    return Objects.hash(
        bits, Arrays.hashCode(given), Arrays.hashCode(bow), walkSeed, Arrays.hashCode(missing));
  }

  @Override
  public String toString() {
    StringBuilder words = new StringBuilder("converter of ");
    words.append(bits).append(bits == 1 ? " bit" : " bits");
    if (given != null) {
      words.append(", transition levels given");
    }
    if (bow.length > 0) {
      words.append(", bow ").append(Arrays.toString(bow)).append(" steps");
    }
    if (walk > 0) {
      words.append(", code widths +/- ").append(walk).append(" steps (seed ");
      words.append(walkSeed).append(")");
    }
    if (missing.length > 0) {
      words.append(", missing ").append(missing.length == 1 ? "code " : "codes ");
      if (missing.length <= 8) {
        String list = Arrays.toString(missing);
        words.append(list, 1, list.length() - 1);
      } else {
        words.append(missing.length).append(" in number");
      }
    }
    if (gainError != 0) {
      words.append(", gain error ").append(gainError);
    }
    if (offsetErrorSteps != 0) {
      words.append(", offset ").append(offsetErrorSteps).append(" steps");
    }
    return words.toString();
  }
}
