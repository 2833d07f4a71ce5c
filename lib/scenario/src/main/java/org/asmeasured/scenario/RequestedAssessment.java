package org.asmeasured.scenario;

import java.util.List;
import java.util.Optional;
import org.asmeasured.accuracy.Tolerances;
import org.asmeasured.advice.Choices;
import org.asmeasured.internal.Require;
import org.asmeasured.measure.Reading;
import org.asmeasured.uncertainty.Distribution;
import org.asmeasured.uncertainty.RuleOfThree;
import org.asmeasured.uncertainty.Tolerance;

/**
 * That a scenario asks how sure its readings are, and what is known for it.
 *
 * @param tolerances of the parameters of signal and setup, and further contributions
 * @param limits about which a decision is asked for, may be empty
 * @param digits of each standard uncertainty that are to be stable, 1 to 4
 * @param captures for the repeatability, 2 to 100 000
 * @param offers what the bench offers to choose from, if advice is asked for: about each reading
 *     that has a limit, or all if none has
 */
public record RequestedAssessment(
    Tolerances tolerances, List<Limit> limits, int digits, int captures, Optional<Choices> offers) {
  /** Digits of a request that states none. */
  public static final int USUAL_DIGITS = 2;

  /** Captures of a request that states none. */
  public static final int USUAL_CAPTURES = 100;

  /** The usual risk of a wrong decision. */
  public static final double USUAL_RISK = 0.05;

  private static final long MOST_TRIALS = 100_000;

  /**
   * A limit of a quantity.
   *
   * @param reading by which it is verified
   * @param tolerance what is allowed, in the reading's unit
   * @param risk the greatest risk of a wrong decision, 1e-9 to 0.5
   * @param production how the quantity is distributed over the items that are produced, in the
   *     reading's unit; empty where that is not known
   */
  public record Limit(
      Reading reading, Tolerance tolerance, double risk, Optional<Distribution> production) {
    /**
     * Checks the values.
     *
     * @param reading by which it is verified
     * @param tolerance what is allowed, in the reading's unit
     * @param risk the greatest risk of a wrong decision, 1e-9 to 0.5
     * @param production how the quantity is distributed over the items that are produced
     * @throws IllegalArgumentException if the risk is out of range
     * @throws NullPointerException if one is missing
     */
    public Limit {
      Require.present("reading", reading);
      Require.present("tolerance", tolerance);
      Require.inRange("risk", risk, "", 1e-9, 0.5);
      Require.present("production", production);
    }

    /**
     * A limit of one item, of whose production nothing is known.
     *
     * @param reading by which it is verified
     * @param tolerance what is allowed, in the reading's unit
     * @param risk the greatest risk of a wrong decision, 1e-9 to 0.5
     * @throws IllegalArgumentException if the risk is out of range
     * @throws NullPointerException if one is missing
     */
    public Limit(Reading reading, Tolerance tolerance, double risk) {
      this(reading, tolerance, risk, Optional.empty());
    }

    /**
     * How many trials decide about it: as many as show its risk ({@link RuleOfThree}), and 100 000
     * at most; a risk below 3e-5 stays undecided.
     *
     * @return 6 to 100 000
     */
    public long trials() {
      return Math.min(MOST_TRIALS, RuleOfThree.trials(risk));
    }
  }

  /**
   * Checks and copies.
   *
   * @param tolerances of the parameters of signal and setup, and further contributions
   * @param limits about which a decision is asked for, may be empty
   * @param digits of each standard uncertainty that are to be stable, 1 to 4
   * @param captures for the repeatability, 2 to 100 000
   * @param offers what the bench offers to choose from, may be empty
   * @throws IllegalArgumentException if a number is out of range, or a reading has two limits
   * @throws NullPointerException if one is missing
   */
  public RequestedAssessment {
    Require.present("tolerances", tolerances);
    limits = List.copyOf(Require.present("limits", limits));
    Require.inRange("digits", digits, 1, 4);
    Require.inRange("captures", captures, 2, 100_000);
    Require.present("offers", offers);
    long readings = limits.stream().map(Limit::reading).distinct().count();
    Require.that(readings == limits.size(), "limits: a reading must not have two of them");
  }

  /** How many trials decide about all limits; 1 without any. */
  long leastTrials() {
    return limits.stream().mapToLong(Limit::trials).max().orElse(1);
  }
}
