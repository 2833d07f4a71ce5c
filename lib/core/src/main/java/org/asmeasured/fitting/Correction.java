package org.asmeasured.fitting;

import java.util.OptionalDouble;
import org.asmeasured.accuracy.Assessment;
import org.asmeasured.accuracy.Sensitivity;
import org.asmeasured.internal.Quantity;
import org.asmeasured.internal.Require;
import org.asmeasured.measure.Measured;
import org.asmeasured.measure.Outcome;
import org.asmeasured.uncertainty.Distribution;
import org.asmeasured.uncertainty.Interval;
import org.asmeasured.uncertainty.Propagated;
import org.asmeasured.uncertainty.Simulated;

/**
 * One reading of the user's own, corrected for what an assessment predicts that the chain makes of
 * the quantity (JCGM 100, 3.2.3, 3.2.4; JCGM 200, 2.53, correction: compensation for an estimated
 * systematic effect; clauses from memory). Immutable.
 *
 * <pre>corrected = truth + (read - truth - bias)/S,     u^2 = u(correction)^2 + s(captures)^2</pre>
 *
 * <p>S is the {@link org.asmeasured.accuracy.Sensitivity} of the reading: of one that shows half of
 * a change, a volt more is two volts more of the quantity, and so is its uncertainty. With S = 1,
 * and where S was not taken, corrected = read - bias.
 *
 * <p>The uncertainty of the correction is what the tolerances make of it: how far one instrument
 * may be from the mean of all that they allow. The scatter of captures is what a single reading
 * adds by its noise.
 *
 * <p><b>Limits of validity.</b> Bias and S are those of the signal which the assessment takes for
 * given, of its form and its size: the correction is a straight line about it. A reading far from
 * where the assessment expects readings is of another signal, and its correction wrong: {@link
 * #isAsExpected} says so. What contributes to the reading and stands neither in the setup nor among
 * the tolerances is not corrected for and not in the uncertainty.
 */
public final class Correction {
  private final double value;
  private final Assessment assessment;
  private final Simulated errors;
  private final double sensitivity;

  private Correction(double value, Assessment assessment, Simulated errors, double sensitivity) {
    this.value = value;
    this.assessment = assessment;
    this.errors = errors;
    this.sensitivity = sensitivity;
  }

  /**
   * Corrects a reading.
   *
   * @param value what was read in one capture, in the reading's unit, finite
   * @param assessment of the same reading in the same measurement, such as one with the tolerances
   *     of a {@link ChainFit}
   * @return the correction; or the reason, if the assessment has no bias or no uncertainty, or the
   *     reading does not follow the quantity
   * @throws IllegalArgumentException if the value is not finite
   * @throws NullPointerException if the assessment is missing
   */
  public static Outcome<Correction> of(double value, Assessment assessment) {
    Require.present("assessment", assessment);
    Require.inRange(
        "value", value, assessment.reading().unit(), -Double.MAX_VALUE, Double.MAX_VALUE);
    if (assessment.bias() instanceof Measured.NotTaken none) {
      return new Outcome.NotTaken<>(none.reason());
    }
    if (assessment.standardUncertainty() instanceof Measured.NotTaken none) {
      return new Outcome.NotTaken<>(none.reason());
    }
    double slope = 1;
    if (assessment.sensitivity() instanceof Outcome.Taken<Sensitivity> taken) {
      if (!taken.result().follows()) {
        return new Outcome.NotTaken<>(taken.result().toString());
      }
      slope = taken.result().value();
    }
    double s = slope;
    return assessment
        .trials()
        .then(errors -> new Outcome.Taken<>(new Correction(value, assessment, errors, s)));
  }

  /**
   * What was read.
   *
   * @return in the reading's unit
   */
  public double value() {
    return value;
  }

  /**
   * What is added to the reading.
   *
   * @return corrected - value, in the reading's unit: less the bias where S = 1
   */
  public double correction() {
    double offTheMean = value - assessment.measured().orThrow();
    return offTheMean * (1 / sensitivity - 1) - errors.mean().orThrow();
  }

  /**
   * The corrected reading.
   *
   * @return value + correction, in the reading's unit
   */
  public double corrected() {
    return value + correction();
  }

  /**
   * The standard uncertainty of the corrected reading.
   *
   * @return in the reading's unit
   */
  public double standardUncertainty() {
    return assessment.correctedStandardUncertainty().orThrow();
  }

  /**
   * The part of it that is the correction's: what the tolerances leave open.
   *
   * @return in the reading's unit; not taken where the scatter of captures is no less than the
   *     whole, within what so many captures and trials can tell
   */
  public Measured uncertaintyOfCorrection() {
    return ofQuantity(assessment.reproducibility());
  }

  /**
   * The part of it that is the single capture's.
   *
   * @return in the reading's unit; 0 where all captures are equal
   */
  public Measured scatterOfCaptures() {
    return ofQuantity(assessment.repeatability());
  }

  private Measured ofQuantity(Measured ofReading) {
    return ofReading instanceof Measured.Value part
        ? new Measured.Value(part.value() / sensitivity)
        : ofReading;
  }

  /**
   * The effective degrees of freedom of the standard uncertainty (JCGM 100, G.4.1).
   *
   * @return positive infinity where nothing limits them; empty where the law of propagation cannot
   *     be applied
   */
  public OptionalDouble effectiveDegreesOfFreedom() {
    return assessment.law() instanceof Outcome.Taken<Propagated> law
        ? OptionalDouble.of(law.result().effectiveDegreesOfFreedom())
        : OptionalDouble.empty();
  }

  /**
   * What is known of the quantity after this reading.
   *
   * @return about the corrected reading, with the distribution of the errors
   */
  public Distribution distribution() {
    return assessment.corrected(value);
  }

  /**
   * Where the quantity lies with 95 % probability, as much below as above.
   *
   * @return about the corrected reading, in its unit
   */
  public Interval interval() {
    return interval(0.95);
  }

  /**
   * Where the quantity lies with a stated probability, as much below as above.
   *
   * @param probability 0.5 to 0.9999
   * @return about the corrected reading, in its unit
   * @throws IllegalArgumentException if it is out of range
   */
  public Interval interval(double probability) {
    Require.inRange("probability", probability, "", 0.5, 0.9999);
    Distribution known = distribution();
    return new Interval(
        known.quantile((1 - probability) / 2), known.quantile((1 + probability) / 2));
  }

  /**
   * Whether the reading lies where the assessment expects readings with 99.9 % probability. Where
   * it does not, the signal is another than that assumed, or the setup, and the correction is not
   * to be trusted.
   *
   * @return true if so
   */
  public boolean isAsExpected() {
    double error = value - assessment.truth().orThrow();
    return error >= errors.quantile(0.0005) && error <= errors.quantile(0.9995);
  }

  @Override
  public String toString() {
    String unit = assessment.reading().unit();
    return "read "
        + Quantity.of(value, unit)
        + ", correction "
        + Quantity.of(correction(), unit)
        + ", corrected "
        + Quantity.of(corrected(), unit)
        + ", standard uncertainty "
        + Quantity.of(standardUncertainty(), unit);
  }
}
