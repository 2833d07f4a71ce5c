package org.asmeasured.uncertainty;

/**
 * Mean and standard uncertainty of a run of {@link CommonDraws}, and what each trial has to do with
 * their errors. Immutable.
 *
 * <p>To the first order the error of each figure is the mean of one number a trial. Of two models
 * that share their draws these numbers can be subtracted trial by trial, so that the error of a
 * difference is told without what both have in common.
 */
public final class TrialFigures {
  private final double mean;
  private final double standardUncertainty;
  private final double[] ofMean;
  private final double[] ofUncertainty;

  TrialFigures(double mean, double standardUncertainty, double[] ofMean, double[] ofUncertainty) {
    this.mean = mean;
    this.standardUncertainty = standardUncertainty;
    this.ofMean = ofMean;
    this.ofUncertainty = ofUncertainty;
  }

  /**
   * The mean of the output.
   *
   * @return in its unit
   */
  public double mean() {
    return mean;
  }

  /**
   * The standard uncertainty of the output.
   *
   * @return in its unit, 0 or more
   */
  public double standardUncertainty() {
    return standardUncertainty;
  }

  /**
   * How many trials there were.
   *
   * @return 2 or more
   */
  public int trials() {
    return ofMean.length;
  }

  /**
   * What a trial has to do with the error of the mean.
   *
   * @param trial 0 to trials - 1
   * @return a number of which the mean over the trials is about the error
   * @throws IndexOutOfBoundsException if there is no such trial
   */
  public double influenceOnMean(int trial) {
    return ofMean[trial];
  }

  /**
   * What a trial has to do with the error of the standard uncertainty.
   *
   * @param trial 0 to trials - 1
   * @return a number of which the mean over the trials is about the error
   * @throws IndexOutOfBoundsException if there is no such trial
   */
  public double influenceOnUncertainty(int trial) {
    return ofUncertainty[trial];
  }

  @Override
  public String toString() {
    return "mean " + mean + ", standard uncertainty " + standardUncertainty;
  }
}
