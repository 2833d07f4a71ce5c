package org.asmeasured.accuracy;

import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;
import org.asmeasured.capture.Setup;
import org.asmeasured.internal.Require;
import org.asmeasured.measure.Measured;
import org.asmeasured.measure.Outcome;
import org.asmeasured.measure.Reading;
import org.asmeasured.uncertainty.CommonDraws;

/**
 * The errors of one reading by several setups, trial by trial, with common random numbers: in trial
 * t each of them meets the same deviations of its parameters and the same seed of its noise. So
 * setups can be compared by far fewer trials than their uncertainties take. Immutable, for many
 * threads.
 *
 * <p>There is one measurand for all: the reading of the signal over the span of the record that is
 * asked for. A setup with another span is off by what that makes of it. A tolerance of a parameter
 * that a setup does not have, such as of a limit that is switched off, does not concern it.
 */
public final class ErrorTrials {
  private final Measurement asked;
  private final Tolerances tolerances;
  private final CommonDraws draws;
  private final ErrorModel ofAsked;
  private final Reading reading;
  private final long seed;

  private ErrorTrials(
      Reading reading,
      Measurement asked,
      Tolerances tolerances,
      long seed,
      CommonDraws draws,
      ErrorModel ofAsked) {
    this.reading = reading;
    this.seed = seed;
    this.asked = asked;
    this.tolerances = tolerances;
    this.draws = draws;
    this.ofAsked = ofAsked;
  }

  /**
   * Trials of a reading.
   *
   * @param reading what is read; used by several threads at once
   * @param asked the signal, and the setup over the span of whose record the truth is taken
   * @param tolerances what is known of parameters
   * @param seed of all that is random
   * @return the trials
   * @throws IllegalArgumentException if a tolerance has no standard deviation, or reaches where the
   *     setup cannot be, naming the parameter and its distribution
   * @throws NullPointerException if an argument is missing
   */
  public static ErrorTrials of(
      Reading reading, Measurement asked, Tolerances tolerances, long seed) {
    Require.present("reading", reading);
    Require.present("asked", asked);
    Require.present("tolerances", tolerances);
    tolerances.concerning(asked).requirePossible(asked);
    CommonDraws draws = CommonDraws.of(tolerances.inputs(), seed);
    return new ErrorTrials(
        reading,
        asked,
        tolerances,
        seed,
        draws,
        new ErrorModel(List.of(reading), asked, asked, tolerances, draws.seed(0)));
  }

  /**
   * The measurand.
   *
   * @return in the reading's unit
   */
  public Measured truth() {
    return ofAsked.truths().get(0);
  }

  /**
   * The draws that all setups share.
   *
   * @return the draws
   */
  public CommonDraws draws() {
    return draws;
  }

  /**
   * Whether all trials of a setup are equal.
   *
   * @param measurement how the signal is captured
   * @return true if no tolerance concerns it and its captures are all alike
   * @throws NullPointerException if it is missing
   */
  public boolean isRepeatable(Measurement measurement) {
    Tolerances own = tolerances.concerning(measurement);
    return own.list().isEmpty() && measurement.setup().isRepeatable();
  }

  /**
   * The errors of one setup.
   *
   * @param measurement how the signal is captured, of the same signal
   * @return the errors by trial
   * @throws IllegalArgumentException if the signal is another, a tolerance reaches where the setup
   *     cannot be, or is stated for another figure than the setup has
   * @throws NullPointerException if it is missing
   */
  public Of of(Measurement measurement) {
    Assessment.requireSameSignal(asked, measurement);
    Tolerances own = tolerances.concerning(measurement);
    for (Tolerances.Toleranced p : own.parameters()) {
      requireMeant(p, measurement);
    }
    own.requirePossible(measurement);
    List<String> names = tolerances.list().stream().map(i -> i.name()).toList();
    int[] places = own.list().stream().mapToInt(i -> names.indexOf(i.name())).toArray();
    return new Of(ofAsked.by(measurement, own), places, own.atEstimates(measurement).setup());
  }

  /** A tolerance stated about 20 MHz says nothing of a limit of 100 MHz. */
  private void requireMeant(Tolerances.Toleranced p, Measurement measurement) {
    double figure = p.parameter().of(measurement);
    double meant =
        Tolerances.has(asked, p.parameter())
            ? p.parameter().of(asked)
            : p.input().distribution().estimate();
    Require.that(
        Math.abs(figure - meant) <= 1e-9 * Math.abs(meant),
        p.input().name()
            + " = "
            + figure
            + " "
            + p.input().unit()
            + ": its tolerance is stated for "
            + meant
            + " "
            + p.input().unit()
            + ", state it relative to the figure");
  }

  /** The errors of one setup by trial. Immutable, for many threads. */
  public final class Of {
    private final ErrorModel model;
    private final int[] places;
    private final Setup atEstimates;

    private Of(ErrorModel model, int[] places, Setup atEstimates) {
      this.model = model;
      this.places = places;
      this.atEstimates = atEstimates;
    }

    /**
     * How the reading follows its quantity by this setup, at the estimates of its parameters. It
     * takes captures of its own, with seeds that all setups share.
     *
     * @param pairs how many pairs of captures, 2 to 100 000; at least 8 are made
     * @param threads how many share the work, 1 to 1024; the figures do not depend on them
     * @return the sensitivity; or the reason why it was not taken
     * @throws IllegalArgumentException if a number is out of range
     */
    public Outcome<Sensitivity> sensitivity(int pairs, int threads) {
      return Sensitivities.of(
              List.of(reading),
              model.truths(),
              tolerances.concerning(asked).atEstimates(asked).withSignal(model.signal()),
              atEstimates,
              AssessmentMethod.usual().withCaptures(pairs).withSeed(seed).withThreads(threads))
          .get(0);
    }

    /**
     * The error of a trial: reading less truth, contributions included.
     *
     * @param trial 0 to 2^30 - 1
     * @return in the reading's unit
     * @throws IllegalArgumentException if the setup refuses what was drawn
     */
    public Measured error(int trial) {
      double[] drawn = draws.values(trial);
      Measured[] error = new Measured[1];
      model.evaluate(
          Arrays.stream(places).mapToDouble(i -> drawn[i]).toArray(), draws.seed(trial), error);
      return error[0];
    }

    /**
     * The errors of the first trials, as numbers.
     *
     * @param count 1 to 2^30
     * @return a new array
     * @throws IllegalArgumentException if the setup refuses what was drawn
     * @throws IllegalStateException if the reading is not taken in one of them
     */
    public double[] errors(int count) {
      return IntStream.range(0, count).mapToDouble(t -> error(t).orThrow()).toArray();
    }
  }
}
