package org.asmeasured.uncertainty;

import java.util.function.DoublePredicate;
import org.asmeasured.internal.Require;
import org.asmeasured.measure.Measured;

/**
 * A decision about one item from its measured value, and the risk that it is wrong (JCGM 106,
 * clauses 7 and 8).
 *
 * @param accepted whether the measured value lies within the limits of acceptance
 * @param conformanceProbability p_c, that the item conforms to the tolerance (7.2)
 */
public record Decision(boolean accepted, double conformanceProbability) {

  /**
   * Checks the probability.
   *
   * @param accepted whether the measured value lies within the limits of acceptance
   * @param conformanceProbability p_c, that the item conforms to the tolerance (7.2)
   * @throws IllegalArgumentException if the probability is not from 0 to 1
   */
  public Decision {
    Require.inRange("conformanceProbability", conformanceProbability, "", 0, 1);
  }

  /**
   * Decides.
   *
   * @param tolerance what is allowed
   * @param acceptance what is accepted: the tolerance itself (simple acceptance), or {@link
   *     Tolerance#guarded guarded}
   * @param measured the measured value
   * @param knowledge what is known about the item after the measurement
   * @return the decision
   * @throws IllegalArgumentException if the measured value is not finite
   * @throws NullPointerException if an argument is missing
   */
  public static Decision of(
      Tolerance tolerance, Tolerance acceptance, double measured, Distribution knowledge) {
    Require.present("acceptance", acceptance);
    Require.inRange("measured", measured, "", -Normal.MAX, Normal.MAX);
    return new Decision(acceptance.holds(measured), conformance(tolerance, knowledge));
  }

  /**
   * The conformance probability p_c: how probable it is that the quantity lies within the tolerance
   * (7.2 to 7.4; Phi((T_U - y)/u) - Phi((T_L - y)/u) for a normal one).
   *
   * @param tolerance what is allowed
   * @param knowledge what is known about the quantity
   * @return 0 to 1
   * @throws NullPointerException if an argument is missing
   */
  public static double conformance(Tolerance tolerance, Distribution knowledge) {
    Require.present("tolerance", tolerance);
    Require.present("knowledge", knowledge);
    double below =
        tolerance.lower() > Double.NEGATIVE_INFINITY ? knowledge.cumulative(tolerance.lower()) : 0;
    double upTo =
        tolerance.upper() < Double.POSITIVE_INFINITY ? knowledge.cumulative(tolerance.upper()) : 1;
    return Math.max(0, upTo - below);
  }

  /**
   * The specific consumer's risk (9.3.2): that the item, accepted, does not conform.
   *
   * @return 1 - p_c; 0 if it is rejected
   */
  public double consumersRisk() {
    return accepted ? 1 - conformanceProbability : 0;
  }

  /**
   * The specific producer's risk (9.3.3): that the item, rejected, conforms.
   *
   * @return p_c; 0 if it is accepted
   */
  public double producersRisk() {
    return accepted ? 0 : conformanceProbability;
  }

  /**
   * What is known after a reading of an item that comes from a known production (7.2.2, normal
   * both): the mean of both, weighted by 1/u^2.
   *
   * @param processMean y_0 of the production
   * @param processDeviation u_0 of the production, above 0
   * @param reading y_m
   * @param standardUncertainty u_m of the measuring system, above 0
   * @return a normal distribution, of u^-2 = u_0^-2 + u_m^-2
   * @throws IllegalArgumentException if a value is out of range
   */
  public static Distribution afterReading(
      double processMean, double processDeviation, double reading, double standardUncertainty) {
    Require.inRange("processMean", processMean, "", -Normal.MAX, Normal.MAX);
    Require.above("processDeviation", processDeviation, "", 0, Normal.MAX);
    Require.inRange("reading", reading, "", -Normal.MAX, Normal.MAX);
    Require.above("standardUncertainty", standardUncertainty, "", 0, Normal.MAX);
    double ratio = standardUncertainty / processDeviation;
    double share = 1 / (1 + ratio * ratio);
    return Distribution.normal(
        processMean + share * (reading - processMean), standardUncertainty * Math.sqrt(share));
  }

  /**
   * The guard band of one limit that keeps the specific consumer's risk of every accepted item at
   * or below a stated one (8.3.2): how far the estimate must lie within the limit.
   *
   * @param knowledge what is known about an item, about its own estimate
   * @param upperLimit whether the limit is an upper one
   * @param risk 1e-9 to 0.5
   * @return w: u times the normal quantile of 1 - risk for a normal distribution; 0 or more if that
   *     is symmetric
   * @throws IllegalArgumentException if the risk is out of range
   * @throws NullPointerException if the knowledge is missing
   */
  public static double guardBand(Distribution knowledge, boolean upperLimit, double risk) {
    return upperLimit
        ? smallestUpperLimit(knowledge, risk) - knowledge.estimate()
        : knowledge.estimate() - greatestLowerLimit(knowledge, risk);
  }

  /**
   * The guard band of a tolerance that keeps the specific consumer's risk of every accepted item at
   * or below a stated one (8.3.2), its item beyond the other of two limits included: an estimate
   * just within the {@link Tolerance#guarded guarded} limits has no more than the risk, and one
   * further inside has less. Other items are taken to be known as well as this one.
   *
   * <p>Of two limits the width is found by bisection. Where the tails of the distribution fall off
   * ever more slowly, as those of all common ones do, widths that keep the risk go on to half of
   * the tolerance, so that the least of them is found.
   *
   * @param knowledge what is known about an item, about its own estimate
   * @param tolerance what is allowed
   * @param risk 1e-9 to 0.5
   * @return w of {@link Tolerance#guarded}, 0 or more; or the reason, if the tolerance is too
   *     narrow for any
   * @throws IllegalArgumentException if the risk is out of range
   * @throws NullPointerException if an argument is missing
   */
  public static Measured guardBand(Distribution knowledge, Tolerance tolerance, double risk) {
    Require.present("knowledge", knowledge);
    Require.present("tolerance", tolerance);
    requireRisk(risk);
    double least = 0;
    if (tolerance.upper() < Double.POSITIVE_INFINITY) {
      least = Math.max(least, guardBand(knowledge, true, risk));
    }
    if (tolerance.lower() > Double.NEGATIVE_INFINITY) {
      least = Math.max(least, guardBand(knowledge, false, risk));
    }
    if (!tolerance.isTwoSided()) {
      return new Measured.Value(least);
    }
    double width = tolerance.upper() - tolerance.lower();
    double most = 0.5 * width * (1 - 1e-9);
    DoublePredicate keeps = w -> conformanceAtGuard(knowledge, width, w) >= 1 - risk;
    if (least > most || !keeps.test(most)) {
      return new Measured.NotTaken(
          "no guard band keeps the risk: the tolerance is too narrow for this uncertainty");
    }
    return new Measured.Value(keeps.test(least) ? least : Bisection.turn(least, most, keeps));
  }

  /** Of an estimate that lies w within a limit, the less probable of both. */
  private static double conformanceAtGuard(Distribution knowledge, double width, double w) {
    double y = knowledge.estimate();
    return Math.min(
        conformance(Tolerance.between(y - (width - w), y + w), knowledge),
        conformance(Tolerance.between(y - w, y + (width - w)), knowledge));
  }

  /**
   * The smallest upper limit that this knowledge verifies: the item lies above it with no more than
   * the risk.
   *
   * @param knowledge what is known about the item
   * @param risk 1e-9 to 0.5
   * @return the limit, in the unit of the quantity
   * @throws IllegalArgumentException if the risk is out of range
   * @throws NullPointerException if the knowledge is missing
   */
  public static double smallestUpperLimit(Distribution knowledge, double risk) {
    Require.present("knowledge", knowledge);
    requireRisk(risk);
    return outward(
        knowledge.atNormal(-Normal.inverse(risk)),
        1,
        limit -> conformance(Tolerance.atMost(limit), knowledge) >= 1 - risk);
  }

  /**
   * The greatest lower limit that this knowledge verifies: the item lies below it with no more than
   * the risk.
   *
   * @param knowledge what is known about the item
   * @param risk 1e-9 to 0.5
   * @return the limit, in the unit of the quantity
   * @throws IllegalArgumentException if the risk is out of range
   * @throws NullPointerException if the knowledge is missing
   */
  public static double greatestLowerLimit(Distribution knowledge, double risk) {
    Require.present("knowledge", knowledge);
    requireRisk(risk);
    return outward(
        knowledge.atNormal(Normal.inverse(risk)),
        -1,
        limit -> conformance(Tolerance.atLeast(limit), knowledge) >= 1 - risk);
  }

  /**
   * The smallest tolerance nominal +/- T that this knowledge verifies: the item lies outside with
   * no more than the risk.
   *
   * @param knowledge what is known about the item
   * @param nominal the middle of the tolerance, finite
   * @param risk 1e-9 to 0.5
   * @return T, in the unit of the quantity, to the rounding of the distribution function
   * @throws IllegalArgumentException if a value is out of range
   * @throws NullPointerException if the knowledge is missing
   */
  public static double smallestTolerance(Distribution knowledge, double nominal, double risk) {
    Require.present("knowledge", knowledge);
    Require.inRange("nominal", nominal, "", -Normal.MAX, Normal.MAX);
    requireRisk(risk);
    // each side alone may have the whole risk at most, and half of it at least
    double z = Normal.inverse(0.5 * risk);
    double most =
        Math.max(
            Math.abs(knowledge.atNormal(z) - nominal), Math.abs(knowledge.atNormal(-z) - nominal));
    return Bisection.turn(
        0,
        Math.nextUp(most),
        half ->
            knowledge.cumulative(nominal + half) - knowledge.cumulative(nominal - half)
                >= 1 - risk);
  }

  /**
   * A quantile, moved on to where the distribution function says the same: by rounding, or to the
   * next of the trials that a distribution counts.
   */
  private static double outward(double quantile, int sign, DoublePredicate verified) {
    if (verified.test(quantile)) {
      return quantile;
    }
    double step = Math.ulp(quantile);
    while (!verified.test(quantile + sign * step)) {
      step *= 2;
    }
    return quantile + sign * Bisection.turn(0, step, d -> verified.test(quantile + sign * d));
  }

  private static void requireRisk(double risk) {
    Require.inRange("risk", risk, "", 1e-9, 0.5);
  }
}
