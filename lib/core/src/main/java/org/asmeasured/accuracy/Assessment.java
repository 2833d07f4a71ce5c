package org.asmeasured.accuracy;

import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CancellationException;
import java.util.function.DoubleSupplier;
import java.util.function.Function;
import java.util.function.Supplier;
import org.asmeasured.internal.Quantity;
import org.asmeasured.internal.Require;
import org.asmeasured.measure.Measured;
import org.asmeasured.measure.Measured.NotTaken;
import org.asmeasured.measure.Measured.Value;
import org.asmeasured.measure.Outcome;
import org.asmeasured.measure.Reading;
import org.asmeasured.measure.Statistics;
import org.asmeasured.uncertainty.Agreement;
import org.asmeasured.uncertainty.Decision;
import org.asmeasured.uncertainty.Distribution;
import org.asmeasured.uncertainty.GlobalRisk;
import org.asmeasured.uncertainty.Input;
import org.asmeasured.uncertainty.Inputs;
import org.asmeasured.uncertainty.Interval;
import org.asmeasured.uncertainty.LawOfPropagation;
import org.asmeasured.uncertainty.Model;
import org.asmeasured.uncertainty.Propagated;
import org.asmeasured.uncertainty.RuleOfThree;
import org.asmeasured.uncertainty.Simulated;
import org.asmeasured.uncertainty.Tolerance;

/**
 * How sure a reading is: its error as a quantity of which each trial draws one instrument (the
 * parameters, from their tolerances) and one capture (noise, jitter, trigger, from a seed of its
 * own). Immutable.
 *
 * <p>The measurand is the reading of the signal in closed form over the span of the record at the
 * estimates of all parameters. Where a parameter is one of the signal's own, the truth is taken
 * anew in each trial.
 *
 * <p>Two methods share this model: trials (JCGM 101) and the law of propagation (JCGM 100), the
 * latter over means of several captures with the same seeds at every place, and with the scatter of
 * single captures as one more input, "repeatability". {@link #agreement} says whether the two come
 * to the same.
 *
 * <p>An error small against a limit says nothing where the reading does not follow the quantity. So
 * each reading has a {@link Sensitivity}, from captures with seeds of their own, and what is known
 * of the quantity after a correction is as much less sure as the reading follows it less.
 *
 * <p>For many threads.
 */
public final class Assessment {
  private static final int DIGITS = 1;
  private static final double USUAL_RISK = 0.05;
  private static final String REPEATABILITY = "repeatability";

  private final Reading reading;
  private final Measured truth;
  private final Statistics repeated;
  private final boolean repeatable;
  private final Outcome<Simulated> trials;
  private final Outcome<Propagated> law;
  private final Supplier<Outcome<Sensitivity>> sensitivity;

  private Assessment(
      Reading reading,
      Measured truth,
      Statistics repeated,
      boolean repeatable,
      Outcome<Simulated> trials,
      Outcome<Propagated> law,
      Supplier<Outcome<Sensitivity>> sensitivity) {
    this.reading = reading;
    this.truth = truth;
    this.repeated = repeated;
    this.repeatable = repeatable;
    this.trials = trials;
    this.law = law;
    this.sensitivity = sensitivity;
  }

  /**
   * Assesses a reading in the usual way.
   *
   * @param reading what is read
   * @param measurement what is there and how it is captured
   * @param tolerances what is known of its parameters
   * @return the assessment
   * @throws IllegalArgumentException as the method for several readings does
   * @throws NullPointerException if an argument is missing
   */
  public static Assessment of(Reading reading, Measurement measurement, Tolerances tolerances) {
    return of(
            List.of(Require.present("reading", reading)),
            measurement,
            tolerances,
            AssessmentMethod.usual())
        .get(0);
  }

  /**
   * Assesses several readings of the same captures.
   *
   * @param readings what is read; used by several threads at once
   * @param measurement what is there and how it is captured
   * @param tolerances what is known of its parameters
   * @param method how much is computed, and from which seed
   * @return an assessment for each reading, in their order
   * @throws IllegalArgumentException if a tolerance reaches where the measurement cannot be, naming
   *     the parameter and its distribution; or a capture refuses
   * @throws CancellationException if the method's progress says so, or the thread is interrupted,
   *     which stays marked
   * @throws NullPointerException if an argument is missing
   */
  public static List<Assessment> of(
      List<Reading> readings,
      Measurement measurement,
      Tolerances tolerances,
      AssessmentMethod method) {
    return of(readings, measurement, measurement, tolerances, method);
  }

  /**
   * Assesses several readings of captures by one setup of what another one asks for.
   *
   * @param readings what is read; used by several threads at once
   * @param measurand the signal, and the setup over the span of whose record the truth is taken
   * @param measurement how it is captured, of the same signal
   * @param tolerances what is known of its parameters
   * @param method how much is computed, and from which seed
   * @return an assessment for each reading, in their order
   * @throws IllegalArgumentException if the signals differ, and as the method for one setup says
   * @throws CancellationException if the method's progress says so, or the thread is interrupted,
   *     which stays marked
   * @throws NullPointerException if an argument is missing
   */
  public static List<Assessment> of(
      List<Reading> readings,
      Measurement measurand,
      Measurement measurement,
      Tolerances tolerances,
      AssessmentMethod method) {
    List<Reading> asked = List.copyOf(Require.present("readings", readings));
    Require.that(!asked.isEmpty(), "readings = []: must name at least one reading");
    requireSameSignal(measurand, measurement);
    Require.present("tolerances", tolerances);
    Require.present("method", method);
    tolerances.requirePossible(measurement);
    boolean repeatable = tolerances.atEstimates(measurement).setup().isRepeatable();
    ErrorModel model =
        new ErrorModel(
            asked, measurand, measurement, tolerances, RepeatedErrors.seed(method.seed(), 0));
    Inputs inputs = tolerances.inputs();
    List<Outcome<Simulated>> trials =
        repeatable && inputs.size() == 0
            ? asked.stream().map(r -> nothingVaries()).toList()
            : method.settings().ofEach(inputs, model);
    RepeatedErrors errors =
        new RepeatedErrors(
            model, tolerances.parameters().size(), repeatable ? 1 : method.captures(), method);
    List<Statistics> repeated = errors.at(inputs.estimates());
    Once<List<Outcome<Sensitivity>>> sensitivities =
        new Once<>(
            () ->
                Sensitivities.of(
                    asked,
                    model.truths(),
                    tolerances
                        .concerning(measurand)
                        .atEstimates(measurand)
                        .withSignal(model.signal()),
                    tolerances.atEstimates(measurement).setup(),
                    method));
    List<Assessment> all = new ArrayList<>();
    for (int r = 0; r < asked.size(); r++) {
      int place = r;
      all.add(
          new Assessment(
              asked.get(r),
              model.truths().get(r),
              repeated.get(r),
              repeatable,
              trials.get(r),
              law(r, asked.get(r), model, tolerances, errors, repeated.get(r)),
              () -> sensitivities.get().get(place)));
    }
    return all;
  }

  static void requireSameSignal(Measurement measurand, Measurement measurement) {
    Require.present("measurand", measurand);
    Require.present("measurement", measurement);
    Require.that(
        measurand.signal() == measurement.signal(),
        "signal of the measurement = "
            + measurement.signal()
            + ": must be that of the measurand, "
            + measurand.signal());
  }

  private static Outcome<Simulated> nothingVaries() {
    return new Outcome.NotTaken<>("nothing varies: neither tolerances nor noise are stated");
  }

  private static Outcome<Propagated> law(
      int r,
      Reading reading,
      ErrorModel model,
      Tolerances tolerances,
      RepeatedErrors errors,
      Statistics repeated) {
    if (!errors.serveTheLaw()) {
      return new Outcome.NotTaken<>("the law of propagation was not asked for");
    }
    int parameters = tolerances.parameters().size();
    List<Input> inputs = new ArrayList<>();
    List<Integer> places = new ArrayList<>();
    for (int i = 0; i < parameters; i++) {
      inputs.add(tolerances.parameters().get(i).input());
      places.add(i);
    }
    for (int i = 0; i < tolerances.contributions().size(); i++) {
      if (tolerances.contributions().get(i).concerns(reading.unit())) {
        inputs.add(tolerances.contributions().get(i).input());
        places.add(parameters + i);
      }
    }
    boolean scatters =
        repeated.standardDeviation() instanceof Value deviation && deviation.value() > 0;
    if (scatters) {
      double deviation = repeated.standardDeviation().orThrow();
      inputs.add(
          Input.of(REPEATABILITY, reading.unit(), Distribution.normal(0, deviation))
              .withDegreesOfFreedom(repeated.count() - 1));
    }
    if (inputs.isEmpty()) {
      return new Outcome.NotTaken<>("nothing varies: neither tolerances nor noise are stated");
    }
    double[] all = tolerances.inputs().estimates();
    Model mean =
        x -> {
          double[] drawn = all.clone();
          for (int i = 0; i < places.size(); i++) {
            drawn[places.get(i)] = x[i];
          }
          Measured error = model.withContributions(r, errors.at(drawn).get(r).mean(), drawn);
          return scatters && error instanceof Value value
              ? new Value(value.value() + x[x.length - 1])
              : error;
        };
    return LawOfPropagation.standard().of(tolerances.inputs(inputs), mean);
  }

  /**
   * What is read.
   *
   * @return the reading
   */
  public Reading reading() {
    return reading;
  }

  /**
   * The measurand: the reading of the signal itself.
   *
   * @return in the reading's unit
   */
  public Measured truth() {
    return truth;
  }

  /**
   * The bias: the mean error over instruments and captures.
   *
   * @return in the reading's unit; of the captures at the estimates where nothing varies
   */
  public Measured bias() {
    return trials instanceof Outcome.Taken<Simulated> taken
        ? taken.result().mean()
        : repeated.mean();
  }

  /**
   * The mean reading over instruments and captures.
   *
   * @return truth + bias, in the reading's unit
   */
  public Measured measured() {
    return truth instanceof Value t && bias() instanceof Value b
        ? new Value(t.value() + b.value())
        : truth.isTaken() ? bias() : truth;
  }

  /**
   * The errors of all trials.
   *
   * @return in the reading's unit, or the reason why there are none
   */
  public Outcome<Simulated> trials() {
    return trials;
  }

  /**
   * The law of propagation: the error at the estimates and its budget.
   *
   * @return in the reading's unit, or the reason why it cannot be applied
   */
  public Outcome<Propagated> law() {
    return law;
  }

  /**
   * Whether the law of propagation and the trials agree (JCGM 101, clause 8), to one digit.
   *
   * @return the comparison; or the reason, if one of the two is missing
   */
  public Outcome<Agreement> agreement() {
    if (trials instanceof Outcome.Taken<Simulated> t
        && law instanceof Outcome.Taken<Propagated> l) {
      return new Outcome.Taken<>(Agreement.symmetric(l.result(), t.result(), DIGITS));
    }
    return new Outcome.NotTaken<>(
        trials instanceof Outcome.NotTaken<Simulated> missing
            ? missing.reason()
            : ((Outcome.NotTaken<Propagated>) law).reason());
  }

  /**
   * How the reading follows its quantity. Its captures are taken when it, a decision, a limit or a
   * corrected reading is first asked for, of all readings of the assessment together.
   *
   * @return the sensitivity; or the reason why it was not taken, such as that a duty factor cannot
   *     be moved by moving the signal
   * @throws CancellationException if the method's progress says so, or the thread is interrupted,
   *     which stays marked
   */
  public Outcome<Sensitivity> sensitivity() {
    return sensitivity.get();
  }

  /**
   * The standard uncertainty of the reading, from the trials.
   *
   * @return in the reading's unit
   */
  public Measured standardUncertainty() {
    return trials instanceof Outcome.Taken<Simulated> taken
        ? taken.result().standardUncertainty()
        : new NotTaken(((Outcome.NotTaken<Simulated>) trials).reason());
  }

  /**
   * The standard uncertainty of the quantity once the reading is corrected, as every decision takes
   * it: that of {@link #corrected()}, u/S.
   *
   * @return in the reading's unit; u where the {@link #sensitivity} was not taken; or the reason,
   *     if the reading has no uncertainty or does not follow the quantity
   */
  public Measured correctedStandardUncertainty() {
    return known(() -> corrected().standardDeviation());
  }

  /**
   * Where readings lie: the probabilistically symmetric coverage interval of the trials, about the
   * truth.
   *
   * @return in the reading's unit, or the reason why there is none
   */
  public Outcome<Interval> interval() {
    return about(Simulated::symmetric);
  }

  /**
   * The shortest interval that holds as many readings (JCGM 101, 7.7.2, note 2), about the truth:
   * what a skewed distribution is told by.
   *
   * @return in the reading's unit, or the reason why there is none
   */
  public Outcome<Interval> shortestInterval() {
    return about(Simulated::shortest);
  }

  private Outcome<Interval> about(Function<Simulated, Interval> of) {
    if (trials instanceof Outcome.Taken<Simulated> taken && truth instanceof Value t) {
      Interval errors = of.apply(taken.result());
      return new Outcome.Taken<>(
          new Interval(t.value() + errors.lower(), t.value() + errors.upper()));
    }
    return new Outcome.NotTaken<>(
        trials instanceof Outcome.NotTaken<Simulated> missing
            ? missing.reason()
            : ((NotTaken) truth).reason());
  }

  /**
   * The scatter from capture to capture of one setup at the estimates of its parameters (JCGM 200,
   * 2.20, repeatability condition; clause from memory), with the captures that it comes from.
   *
   * @return the statistics of the errors; of one capture where all are equal
   */
  public Statistics repeated() {
    return repeated;
  }

  /**
   * The standard deviation of {@link #repeated}.
   *
   * @return in the reading's unit; 0 where all captures are equal
   */
  public Measured repeatability() {
    return repeatable ? new Value(0) : repeated.standardDeviation();
  }

  /**
   * The scatter from instrument to instrument: what the tolerances add to the repeatability (JCGM
   * 200, 2.24, reproducibility condition; clause from memory), sqrt(u^2 - s_r^2).
   *
   * @return in the reading's unit; not taken where the scatter of captures is no less than the
   *     whole, within what so many captures and trials can tell
   */
  public Measured reproducibility() {
    if (!(standardUncertainty() instanceof Value whole)) {
      return standardUncertainty();
    }
    if (!(repeatability() instanceof Value captures)) {
      return repeatability();
    }
    double rest = (whole.value() - captures.value()) * (whole.value() + captures.value());
    return rest >= 0
        ? new Value(Math.sqrt(rest))
        : new NotTaken("the scatter of captures is no less than the whole");
  }

  /**
   * What is known of the quantity if the mean reading is taken as it stands: about that reading,
   * with the scatter of the errors.
   *
   * @return in the reading's unit
   * @throws IllegalStateException if there is no uncertainty
   */
  public Distribution asRead() {
    Distribution error = error();
    return new Reflected(measured().orThrow() + error.estimate(), error, 1);
  }

  /**
   * What is known of the quantity if the mean reading is corrected for the bias: about the truth,
   * with the scatter of the errors divided by the sensitivity S.
   *
   * @return in the reading's unit
   * @throws IllegalStateException if there is no uncertainty, or the reading does not follow the
   *     quantity
   */
  public Distribution corrected() {
    return corrected(measured().orThrow());
  }

  /**
   * What is known of the quantity after a reading of one's own, corrected for what the chain makes
   * of it:
   *
   * <pre>truth + (value - mean reading - (error - bias))/S = (value + (S - 1) truth - error)/S
   * </pre>
   *
   * <p>The scatter of the errors holds the uncertainty of the correction. Where the {@link
   * #sensitivity} was not taken, S = 1. Tolerances of the signal's own parameters are divided by S
   * as all others are, though they move the quantity too: with S below 1 that overstates them.
   *
   * @param value what was read, in the reading's unit
   * @return value - bias where S = 1
   * @throws IllegalArgumentException if the value is not finite
   * @throws IllegalStateException if there is no uncertainty, or the reading does not follow the
   *     quantity
   */
  public Distribution corrected(double value) {
    Require.inRange("value", value, reading.unit(), -Double.MAX_VALUE, Double.MAX_VALUE);
    if (whyStill() instanceof NotTaken still) {
      throw new IllegalStateException(still.reason());
    }
    double s = slope();
    return new Reflected(value + (s - 1) * truth.orThrow(), error(), s);
  }

  /** By what a change of the reading is divided to be one of the quantity. */
  private double slope() {
    return sensitivity() instanceof Outcome.Taken<Sensitivity> taken ? taken.result().value() : 1;
  }

  /** Not taken, with the reason, where the reading does not follow the quantity. */
  private Measured whyStill() {
    return sensitivity() instanceof Outcome.Taken<Sensitivity> taken && !taken.result().follows()
        ? new NotTaken(taken.result().toString())
        : new Value(slope());
  }

  private Distribution error() {
    if (trials instanceof Outcome.Taken<Simulated> taken) {
      return taken.result().distribution();
    }
    throw new IllegalStateException(standardUncertainty().toString());
  }

  /**
   * What this setup decides about the quantity, with a risk of 5 % at most.
   *
   * @param tolerance what is allowed, in the reading's unit
   * @return the verdict; or the reason, if the reading has no uncertainty
   * @throws NullPointerException if it is missing
   */
  public Outcome<Verdict> decide(Tolerance tolerance) {
    return decide(tolerance, USUAL_RISK);
  }

  /**
   * What this setup decides about the quantity.
   *
   * @param tolerance what is allowed, in the reading's unit
   * @param risk the greatest risk of a wrong decision, 1e-9 to 0.5
   * @return the verdict, undecided where the reading does not follow the quantity or the trials are
   *     too few for the risk ({@link RuleOfThree}); or the reason, if the reading has no
   *     uncertainty
   * @throws IllegalArgumentException if the risk is out of range
   * @throws NullPointerException if the tolerance is missing
   */
  public Outcome<Verdict> decide(Tolerance tolerance, double risk) {
    Require.present("tolerance", tolerance);
    Require.inRange("risk", risk, "", 1e-9, 0.5);
    if (whyNotKnown() instanceof NotTaken missing) {
      return new Outcome.NotTaken<>(missing.reason());
    }
    long count = counted();
    return new Outcome.Taken<>(
        whyStill().isTaken()
            ? Verdict.of(tolerance, risk, asRead(), corrected(), count, sensitivity())
            : Verdict.ofStill(tolerance, risk, asRead(), count, sensitivity()));
  }

  /** The trials that have a reading: those that probabilities are counted of. */
  private long counted() {
    Simulated taken = trials.orThrow();
    return taken.trials() - taken.trialsNotTaken();
  }

  /** Not taken, with the reason, where the reading or its uncertainty is missing. */
  private Measured whyNotKnown() {
    return measured().isTaken() ? standardUncertainty() : measured();
  }

  /**
   * The smallest upper limit that this setup verifies for this quantity, read as it stands and
   * corrected, at a risk.
   *
   * @param risk 1e-9 to 0.5
   * @return in the reading's unit; or the reason, if the reading has no uncertainty, does not
   *     follow the quantity, or the trials are too few for the risk ({@link RuleOfThree})
   * @throws IllegalArgumentException if the risk is out of range
   */
  public Measured smallestUpperLimit(double risk) {
    return atRisk(
        risk,
        () ->
            Math.max(
                Decision.smallestUpperLimit(asRead(), risk),
                Decision.smallestUpperLimit(corrected(), risk)));
  }

  /**
   * The greatest lower limit that this setup verifies for this quantity, read as it stands and
   * corrected, at a risk.
   *
   * @param risk 1e-9 to 0.5
   * @return in the reading's unit; or the reason, if the reading has no uncertainty, does not
   *     follow the quantity, or the trials are too few for the risk ({@link RuleOfThree})
   * @throws IllegalArgumentException if the risk is out of range
   */
  public Measured greatestLowerLimit(double risk) {
    return atRisk(
        risk,
        () ->
            Math.min(
                Decision.greatestLowerLimit(asRead(), risk),
                Decision.greatestLowerLimit(corrected(), risk)));
  }

  /**
   * The smallest tolerance nominal +/- T that this setup verifies for this quantity, read as it
   * stands and corrected, at a risk: beyond both of its limits together. Two limits that are each
   * verified at the risk are not, as the risks of both add up.
   *
   * @param nominal the middle of the tolerance, in the reading's unit, finite
   * @param risk 1e-9 to 0.5
   * @return T, in the reading's unit; or the reason, if the reading has no uncertainty, does not
   *     follow the quantity, or the trials are too few for the risk ({@link RuleOfThree})
   * @throws IllegalArgumentException if a value is out of range
   */
  public Measured smallestTolerance(double nominal, double risk) {
    Require.inRange("nominal", nominal, reading.unit(), -1e100, 1e100);
    return atRisk(
        risk,
        () ->
            Math.max(
                Decision.smallestTolerance(asRead(), nominal, risk),
                Decision.smallestTolerance(corrected(), nominal, risk)));
  }

  /**
   * The guard band with which readings by this setup, as they stand and corrected, are accepted
   * with no more than a risk for each (JCGM 106, 8.3.2): the limits of acceptance are {@link
   * Tolerance#guarded} by it. Errors near the limits are taken to scatter as they do here.
   *
   * @param tolerance what is allowed, in the reading's unit
   * @param risk 1e-9 to 0.5
   * @return w, in the reading's unit, 0 or more; or the reason, if the tolerance is too narrow for
   *     any, the reading has no uncertainty, does not follow the quantity, or the trials are too
   *     few for the risk ({@link RuleOfThree})
   * @throws IllegalArgumentException if the risk is out of range
   * @throws NullPointerException if the tolerance is missing
   */
  public Measured guardBand(Tolerance tolerance, double risk) {
    Require.present("tolerance", tolerance);
    Measured known = atRisk(risk, () -> 0);
    if (!known.isTaken()) {
      return known;
    }
    Measured asRead = Decision.guardBand(asRead(), tolerance, risk);
    Measured corrected = Decision.guardBand(corrected(), tolerance, risk);
    return asRead instanceof Value one && corrected instanceof Value other
        ? new Value(Math.max(one.value(), other.value()))
        : asRead.isTaken() ? corrected : asRead;
  }

  /**
   * The risks of a production whose items are read by this setup and corrected (JCGM 106, 9.5): the
   * measuring system is normal, of the {@link #correctedStandardUncertainty}, the same for all
   * items.
   *
   * @param production how the quantity is distributed over the items, in the reading's unit
   * @param tolerance what is allowed
   * @param acceptance what is accepted: the tolerance, or that {@link Tolerance#guarded} by a
   *     {@link #guardBand}
   * @return consumer's and producer's risk; or the reason, if the reading has no uncertainty or
   *     does not follow the quantity
   * @throws NullPointerException if an argument is missing
   */
  public Outcome<GlobalRisk> globalRisk(
      Distribution production, Tolerance tolerance, Tolerance acceptance) {
    Require.present("production", production);
    Require.present("tolerance", tolerance);
    Require.present("acceptance", acceptance);
    Measured uncertainty = correctedStandardUncertainty();
    if (uncertainty instanceof Value u) {
      return u.value() > 0
          ? new Outcome.Taken<>(GlobalRisk.of(production, u.value(), tolerance, acceptance))
          : new Outcome.NotTaken<>("the readings of items do not scatter");
    }
    return new Outcome.NotTaken<>(((NotTaken) uncertainty).reason());
  }

  /** A figure of what is known of the quantity at a risk that the trials show; or why none is. */
  private Measured atRisk(double risk, DoubleSupplier of) {
    Require.inRange("risk", risk, "", 1e-9, 0.5);
    Measured figure = known(of);
    return figure.isTaken() && risk < RuleOfThree.leastRisk(counted())
        ? new NotTaken(Verdict.tooFew(counted()))
        : figure;
  }

  /** A figure of what is known of the quantity; or why nothing is. */
  private Measured known(DoubleSupplier of) {
    if (whyNotKnown() instanceof NotTaken missing) {
      return missing;
    }
    return whyStill() instanceof NotTaken still ? still : new Value(of.getAsDouble());
  }

  @Override
  public String toString() {
    String unit = reading.unit();
    String words =
        reading.name()
            + ": true value "
            + truth.in(unit)
            + ", as measured "
            + measured().in(unit)
            + ", bias "
            + bias().in(unit)
            + ", standard uncertainty "
            + standardUncertainty().in(unit);
    return interval() instanceof Outcome.Taken<Interval> taken
        ? words
            + ", readings from "
            + Quantity.of(taken.result().lower(), unit)
            + " to "
            + Quantity.of(taken.result().upper(), unit)
        : words;
  }
}
