package org.asmeasured.accuracy;

import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import org.asmeasured.internal.Require;
import org.asmeasured.measure.Outcome;
import org.asmeasured.uncertainty.Decision;
import org.asmeasured.uncertainty.Distribution;
import org.asmeasured.uncertainty.RuleOfThree;
import org.asmeasured.uncertainty.Tolerance;

/**
 * What a setup decides about a limit. Two people may read the same record: one takes the reading as
 * it stands, the other corrects it for the predicted bias. Only where both come to the same, with
 * no more than the stated risk, is there a decision (conformance probability p_c: JCGM 106, 7.2;
 * specific risks: 9.3.2, 9.3.3; an uncorrected bias counted against the result: S. D. Phillips, K.
 * R. Eberhardt, B. Parry, Journal of Research of NIST 102 (1997) 577; clauses from memory). Where
 * the reading does not follow the quantity there is none, whatever the reading says; nor where the
 * risk allowed is less than so many trials can show ({@link RuleOfThree}).
 *
 * @param ruling what is decided
 * @param tolerance what is allowed
 * @param riskAllowed the greatest risk of a wrong decision
 * @param asRead p_c if the reading is taken as it stands
 * @param corrected p_c if the reading is corrected for the bias; empty where the reading does not
 *     follow the quantity, since then it can be anything
 * @param trials from which both are counted: a risk below 3/trials cannot be told from 0
 * @param sensitivity how the reading follows the quantity; or why that was not checked
 */
public record Verdict(
    Ruling ruling,
    Tolerance tolerance,
    double riskAllowed,
    double asRead,
    OptionalDouble corrected,
    long trials,
    Outcome<Sensitivity> sensitivity) {

  /** What is decided. */
  public enum Ruling {
    /** The item conforms. */
    PASSES,
    /** The item does not conform. */
    FAILS,
    /** This setup cannot say. */
    UNDECIDED
  }

  /**
   * Checks the values.
   *
   * @param ruling what is decided
   * @param tolerance what is allowed
   * @param riskAllowed the greatest risk of a wrong decision
   * @param asRead p_c if the reading is taken as it stands
   * @param corrected p_c if the reading is corrected for the bias
   * @param trials from which both are counted
   * @param sensitivity how the reading follows the quantity; or why that was not checked
   * @throws IllegalArgumentException if a value is out of range
   * @throws NullPointerException if one is missing
   */
  public Verdict {
    Require.present("ruling", ruling);
    Require.present("tolerance", tolerance);
    Require.inRange("riskAllowed", riskAllowed, "", 1e-9, 0.5);
    Require.inRange("asRead", asRead, "", 0, 1);
    Require.present("corrected", corrected);
    corrected.ifPresent(p -> Require.inRange("corrected", p, "", 0, 1));
    Require.that(
        corrected.isPresent() || ruling == Ruling.UNDECIDED,
        "ruling = " + ruling + ": must be undecided without a corrected reading");
    Require.inRange("trials", trials, 1, Long.MAX_VALUE);
    Require.that(
        ruling == Ruling.UNDECIDED || riskAllowed >= RuleOfThree.leastRisk(trials),
        "ruling = " + ruling + ": must be undecided where " + tooFew(trials));
    Require.present("sensitivity", sensitivity);
  }

  static Verdict of(
      Tolerance tolerance,
      double riskAllowed,
      Distribution asRead,
      Distribution corrected,
      long trials,
      Outcome<Sensitivity> sensitivity) {
    double stands = Decision.conformance(tolerance, asRead);
    double put = Decision.conformance(tolerance, corrected);
    Ruling ruling =
        riskAllowed < RuleOfThree.leastRisk(trials)
            ? Ruling.UNDECIDED
            : counted(stands, put, riskAllowed);
    return new Verdict(
        ruling, tolerance, riskAllowed, stands, OptionalDouble.of(put), trials, sensitivity);
  }

  /** What the trials say by their counts, be they enough or not. */
  private static Ruling counted(double asRead, double corrected, double riskAllowed) {
    if (Math.min(asRead, corrected) >= 1 - riskAllowed) {
      return Ruling.PASSES;
    }
    return Math.max(asRead, corrected) <= riskAllowed ? Ruling.FAILS : Ruling.UNDECIDED;
  }

  /** Of a reading that does not follow the quantity. */
  static Verdict ofStill(
      Tolerance tolerance,
      double riskAllowed,
      Distribution asRead,
      long trials,
      Outcome<Sensitivity> sensitivity) {
    return new Verdict(
        Ruling.UNDECIDED,
        tolerance,
        riskAllowed,
        Decision.conformance(tolerance, asRead),
        OptionalDouble.empty(),
        trials,
        sensitivity);
  }

  /**
   * The risk that the decision is wrong, the greater of both ways of reading. Without a decision,
   * that of the better one.
   *
   * @return 0 to 1; 1 where the reading does not follow the quantity, since nothing bounds it
   */
  public double risk() {
    if (corrected.isEmpty()) {
      return 1;
    }
    double pass = 1 - Math.min(asRead, corrected.getAsDouble());
    double fail = Math.max(asRead, corrected.getAsDouble());
    return switch (ruling) {
      case PASSES -> pass;
      case FAILS -> fail;
      case UNDECIDED -> Math.min(pass, fail);
    };
  }

  /**
   * Whether the risk is too small to be told from 0 by so many trials.
   *
   * @return true if it is below 3/trials
   */
  public boolean riskIsBelowResolution() {
    return risk() < RuleOfThree.leastRisk(trials);
  }

  /**
   * Whether more trials might decide: these are too few for the risk allowed, and do not speak
   * against a decision.
   *
   * @return true if so
   */
  public boolean needsMoreTrials() {
    return riskAllowed < RuleOfThree.leastRisk(trials)
        && corrected.isPresent()
        && counted(asRead, corrected.getAsDouble(), riskAllowed) != Ruling.UNDECIDED;
  }

  /**
   * Why there is no decision, where that is more than an uncertainty too large for the tolerance:
   * too few trials for the risk, or a reading that shows little of the quantity.
   *
   * @return a clause; empty where there is a decision, or nothing more to say
   */
  public Optional<String> reason() {
    if (needsMoreTrials()) {
      return Optional.of(tooFew(trials));
    }
    return ruling == Ruling.UNDECIDED
            && sensitivity instanceof Outcome.Taken<Sensitivity> taken
            && taken.result().isWeak()
        ? Optional.of(taken.result().toString())
        : Optional.empty();
  }

  static String tooFew(long trials) {
    return "too few trials for this risk: "
        + trials
        + " trials show no risk below "
        + percent(RuleOfThree.leastRisk(trials));
  }

  /** The decision as a person would say it. */
  @Override
  public String toString() {
    return switch (ruling) {
      case PASSES -> "passes, risk of a wrong pass " + riskWords() + unchecked();
      case FAILS -> "fails, risk of a wrong fail " + riskWords() + unchecked();
      case UNDECIDED ->
          (needsMoreTrials() ? "cannot be decided" : "cannot be decided with this setup")
              + reason().map(r -> ": " + r).orElse("");
    };
  }

  private String riskWords() {
    return riskIsBelowResolution()
        ? "below " + percent(RuleOfThree.leastRisk(trials))
        : percent(risk());
  }

  private String unchecked() {
    return sensitivity instanceof Outcome.NotTaken<Sensitivity> none
        ? " (not checked whether the reading follows the quantity: " + none.reason() + ")"
        : "";
  }

  private static String percent(double share) {
    return String.format(Locale.ROOT, "%.2g %%", 100 * share);
  }
}
