package org.asmeasured.uncertainty;

import java.util.List;
import org.asmeasured.internal.Require;
import org.asmeasured.measure.Measured;

/**
 * What trials say of an output.
 *
 * <p>Under a Sobol sequence mean and standard uncertainty are those of the straight part, exact,
 * and of what remains, from the trials: with the slopes b of the regression on the drawn inputs x,
 * whose means mu and covariance S are known, mean = mean of y - b (x - mu), variance = b' S b +
 * variance of the remainder. Where an output is missing in some trials they are plain.
 *
 * <p>Intervals are plain counts of all trials in order (JCGM 101, 7.7).
 */
public final class Simulated {
  private final double probability;
  private final double[] sorted;
  private final Measured mean;
  private final Measured uncertainty;
  private final Measured meanError;
  private final Measured uncertaintyError;
  private final Measured lowerError;
  private final Measured upperError;
  private final boolean stable;
  private final long missing;
  private final String reason;
  private final List<BudgetLine> budget;
  private final double remainingShare;

  Simulated(
      double probability,
      double[] sorted,
      Measured mean,
      Measured uncertainty,
      Measured meanError,
      Measured uncertaintyError,
      Measured lowerError,
      Measured upperError,
      boolean stable,
      long missing,
      String reason,
      List<BudgetLine> budget,
      double remainingShare) {
    this.probability = probability;
    this.sorted = sorted;
    this.mean = mean;
    this.uncertainty = uncertainty;
    this.meanError = meanError;
    this.uncertaintyError = uncertaintyError;
    this.lowerError = lowerError;
    this.upperError = upperError;
    this.stable = stable;
    this.missing = missing;
    this.reason = reason;
    this.budget = List.copyOf(budget);
    this.remainingShare = remainingShare;
  }

  /**
   * The estimate: the mean of the output (JCGM 101, 7.6).
   *
   * @return in the unit of the output; not taken if an input has no standard deviation
   */
  public Measured mean() {
    return mean;
  }

  /**
   * The standard uncertainty: the standard deviation of the output (7.6).
   *
   * @return in the unit of the output; not taken if an input has no standard deviation
   */
  public Measured standardUncertainty() {
    return uncertainty;
  }

  /**
   * The standard deviation of {@link #mean} from the scatter of the blocks.
   *
   * @return in the unit of the output; not taken of fewer than two whole blocks
   */
  public Measured meanError() {
    return meanError;
  }

  /**
   * The standard deviation of {@link #standardUncertainty} from the scatter of the blocks.
   *
   * @return in the unit of the output; not taken of fewer than two whole blocks
   */
  public Measured standardUncertaintyError() {
    return uncertaintyError;
  }

  /**
   * The standard deviation of the lower end of the symmetric interval from the scatter of the
   * blocks.
   *
   * @return in the unit of the output; not taken of fewer than two whole blocks, or if no interval
   *     was asked for
   */
  public Measured lowerError() {
    return lowerError;
  }

  /**
   * The standard deviation of the upper end of the symmetric interval from the scatter of the
   * blocks.
   *
   * @return in the unit of the output; not taken of fewer than two whole blocks, or if no interval
   *     was asked for
   */
  public Measured upperError() {
    return upperError;
  }

  /**
   * The coverage probability that was asked for.
   *
   * @return 0.5 to 0.9999
   */
  public double probability() {
    return probability;
  }

  /**
   * The probabilistically symmetric coverage interval: as many trials below it as above (7.7.2,
   * note 1).
   *
   * @return in the unit of the output
   */
  public Interval symmetric() {
    return Sorted.symmetric(sorted, probability);
  }

  /**
   * The shortest coverage interval (7.7.2, note 2); its ends are less sure than those of the
   * symmetric one, its length is surer.
   *
   * @return in the unit of the output
   */
  public Interval shortest() {
    return Sorted.shortest(sorted, probability);
  }

  /**
   * A value below which a share of the trials lies.
   *
   * @param share 0 to 1
   * @return in the unit of the output, between two trials by straight line
   * @throws IllegalArgumentException if it is out of range
   */
  public double quantile(double share) {
    Require.inRange("share", share, "", 0, 1);
    double place = Math.max(0, Math.min(sorted.length - 1.0, share * sorted.length - 0.5));
    int i = (int) place;
    return i + 1 < sorted.length
        ? sorted[i] + (place - i) * (sorted[i + 1] - sorted[i])
        : sorted[i];
  }

  /**
   * The share of the trials up to a value (7.5).
   *
   * @param value in the unit of the output, not NaN
   * @return 0 to 1
   * @throws IllegalArgumentException if it is NaN
   */
  public double cumulative(double value) {
    Require.that(!Double.isNaN(value), "value = NaN: must be a number");
    int low = 0;
    int high = sorted.length;
    while (low < high) {
      int middle = (low + high) >>> 1;
      if (sorted[middle] <= value) {
        low = middle + 1;
      } else {
        high = middle;
      }
    }
    return (double) low / sorted.length;
  }

  /**
   * What the trials say about the output, for a decision or as an input of another model.
   *
   * @return the distribution of the trials, straight between them
   * @throws IllegalStateException if there is no mean or no standard uncertainty
   */
  public Distribution distribution() {
    double estimate = mean.orThrow();
    double deviation = uncertainty.orThrow();
    return new Distribution() {
      @Override
      public String name() {
        return "distribution of " + sorted.length + " trials";
      }

      @Override
      public double quantile(double probability) {
        return Simulated.this.quantile(probability);
      }

      @Override
      public double cumulative(double value) {
        return Simulated.this.cumulative(value);
      }

      @Override
      public double estimate() {
        return estimate;
      }

      @Override
      public double standardDeviation() {
        return deviation;
      }
    };
  }

  /**
   * How many trials there are, with an output or without.
   *
   * @return at least 100
   */
  public long trials() {
    return sorted.length + missing;
  }

  /**
   * How many trials have no output; the figures are those of the others.
   *
   * @return 0 or more, less than half
   */
  public long trialsNotTaken() {
    return missing;
  }

  /**
   * Why the first trial without an output has none.
   *
   * @return the reason, "" if all have one
   */
  public String reasonNotTaken() {
    return reason == null ? "" : reason;
  }

  /**
   * Whether the figures are stable to the digits asked for (7.9.4).
   *
   * @return false if the trials ended first; true if no digits were asked for
   */
  public boolean isStable() {
    return stable;
  }

  /**
   * The sensitivities out of the same trials: the slopes of the regression of the output on the
   * inputs, over the whole of their distributions, in a budget whose standard uncertainties are
   * standard deviations. An input without a standard deviation has no line.
   *
   * @return an unchangeable list; empty if trials are missing or are fewer than 8 a slope
   */
  public List<BudgetLine> budget() {
    return budget;
  }

  /**
   * The share of the variance that is not of the straight part: of curvature, of interactions, of
   * what the model draws itself. The shares of the budget and this add up to 1.
   *
   * @return 0 to 1; NaN where there is no budget or no variance
   */
  public double remainingShare() {
    return remainingShare;
  }

  @Override
  public String toString() {
    return "mean " + mean + ", standard uncertainty " + uncertainty + ", " + trials() + " trials";
  }
}
