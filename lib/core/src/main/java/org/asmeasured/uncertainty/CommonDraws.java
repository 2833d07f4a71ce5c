package org.asmeasured.uncertainty;

import java.util.Arrays;
import org.asmeasured.internal.CounterRandom;
import org.asmeasured.internal.Require;

/**
 * Draws of inputs that several models share, so that what differs between their figures comes from
 * the models and not from the draws. Immutable, for many threads.
 *
 * <p>Trial t is point t of one scrambled Sobol sequence, a pure function of the seed and t: a run
 * can be made longer at any time, best to a power of two.
 *
 * <p>Draws know no model: whoever takes them tries first, by {@link Extremities#require}, whether
 * each model accepts the ends of all distributions.
 */
public final class CommonDraws {
  private final Inputs inputs;
  private final long seed;
  private final SobolPoints points;
  private final double[] estimates;

  private CommonDraws(Inputs inputs, long seed) {
    this.inputs = inputs;
    this.seed = seed;
    this.points =
        SobolPoints.scrambled(
            SobolPoints.directions(inputs.size()), CounterRandom.key(seed, inputs.size()));
    this.estimates = inputs.estimates();
  }

  /**
   * Draws of inputs.
   *
   * @param inputs what is drawn; may be none
   * @param seed any; the same seed gives the same draws
   * @return the draws
   * @throws IllegalArgumentException if an input has no standard deviation, or no normal values can
   *     be correlated as these inputs need
   * @throws NullPointerException if the inputs are missing
   */
  public static CommonDraws of(Inputs inputs, long seed) {
    Require.present("inputs", inputs);
    inputs.requireDrawable();
    for (Input input : inputs.list()) {
      Require.that(
          input.distribution().standardDeviation() < Double.POSITIVE_INFINITY,
          "standard deviation of "
              + input.name()
              + " ("
              + input.distribution().name()
              + ") does not exist: such draws have no standard uncertainty");
    }
    return new CommonDraws(inputs, seed);
  }

  /**
   * The inputs.
   *
   * @return as they were given
   */
  public Inputs inputs() {
    return inputs;
  }

  /**
   * The values of all inputs in one trial.
   *
   * @param trial 0 to 2^30 - 1
   * @return a new array
   * @throws IllegalArgumentException if the number is out of range
   */
  public double[] values(int trial) {
    Require.inRange("trial", trial, 0, (1 << 30) - 1);
    double[] uniform = new double[estimates.length];
    double[] values = new double[estimates.length];
    points.point(trial, uniform);
    inputs.draw(uniform, new double[estimates.length], values);
    return values;
  }

  /**
   * The seed of what a model itself draws in one trial.
   *
   * @param trial 0 to 2^30 - 1
   * @return a seed
   */
  public long seed(int trial) {
    return CounterRandom.key(CounterRandom.key(~seed, 0), trial);
  }

  /**
   * Mean and standard uncertainty of a model's outputs, corrected by what the draws of the inputs
   * are known to be off (a linear control variate) where there are at least eight trials for each
   * slope.
   *
   * @param outputs those of trials 0, 1, ..., at least two, all finite
   * @return the figures
   * @throws IllegalArgumentException if there are fewer, or one is not finite
   * @throws NullPointerException if they are missing
   */
  public TrialFigures figures(double[] outputs) {
    int trials = Require.present("outputs", outputs).length;
    Require.inRange("outputs.length", trials, 2, 1 << 30);
    for (int t = 0; t < trials; t++) {
      Require.inRange("outputs[" + t + "]", outputs[t], "", -Double.MAX_VALUE, Double.MAX_VALUE);
    }
    double[][] deviations = new double[trials][];
    Moments moments = new Moments(estimates.length, 1);
    for (int t = 0; t < trials; t++) {
      deviations[t] = values(t);
      for (int i = 0; i < estimates.length; i++) {
        deviations[t][i] -= estimates[i];
      }
      moments.addInputs(deviations[t]);
      moments.addOutput(0, outputs[t] - outputs[0], deviations[t]);
    }
    Straight straight = Straight.of(inputs, moments, 0);
    return straight == null ? plain(outputs) : controlled(outputs, deviations, straight);
  }

  private static TrialFigures plain(double[] outputs) {
    int n = outputs.length;
    double sum = 0;
    for (double y : outputs) {
      sum += y - outputs[0];
    }
    double mean = outputs[0] + sum / n;
    double[] ofMean = Arrays.stream(outputs).map(y -> y - mean).toArray();
    double squares = Arrays.stream(ofMean).map(d -> d * d).sum();
    double u = Math.sqrt(squares / (n - 1));
    double[] ofUncertainty = new double[n];
    for (int t = 0; t < n && u > 0; t++) {
      ofUncertainty[t] = (ofMean[t] * ofMean[t] - squares / n) / (2 * u);
    }
    return new TrialFigures(mean, u, ofMean, ofUncertainty);
  }

  /**
   * y = mean + b (x - mu) + r. The mean is off by the mean of r; of u^2 = b' S b + var r the second
   * part by the mean of r^2 - var r, the first, by way of the slopes, by that of 2 b (x - mu) r.
   */
  private TrialFigures controlled(double[] outputs, double[][] deviations, Straight straight) {
    int n = outputs.length;
    double mean = outputs[0] + straight.meanShift;
    double u = Math.sqrt(straight.variance);
    double[] rest = new double[n];
    double[] line = new double[n];
    double squares = 0;
    for (int t = 0; t < n; t++) {
      for (int i = 0; i < straight.used.length; i++) {
        line[t] += straight.slopes[i] * deviations[t][straight.used[i]];
      }
      rest[t] = outputs[t] - outputs[0] - straight.meanShift - line[t];
      squares += rest[t] * rest[t];
    }
    double[] ofUncertainty = new double[n];
    for (int t = 0; t < n && u > 0; t++) {
      ofUncertainty[t] = (rest[t] * rest[t] - squares / n + 2 * line[t] * rest[t]) / (2 * u);
    }
    return new TrialFigures(mean, u, rest, ofUncertainty);
  }
}
