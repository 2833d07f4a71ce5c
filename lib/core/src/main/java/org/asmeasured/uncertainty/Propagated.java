package org.asmeasured.uncertainty;

import java.util.ArrayList;
import java.util.List;
import org.apache.commons.statistics.distribution.NormalDistribution;
import org.apache.commons.statistics.distribution.TDistribution;
import org.asmeasured.internal.Require;
import org.asmeasured.measure.Measured;

/** What the law of propagation says of an output: the uncertainty budget and its sums. */
public final class Propagated {
  private static final double MAX_DEGREES = 1e9;

  private final Inputs inputs;
  private final double estimate;
  private final double standardUncertainty;
  private final double degreesOfFreedom;
  private final Measured secondOrder;
  private final List<BudgetLine> budget;

  private Propagated(
      Inputs inputs,
      double estimate,
      double u,
      double nu,
      Measured second,
      List<BudgetLine> budget) {
    this.inputs = inputs;
    this.estimate = estimate;
    this.standardUncertainty = u;
    this.degreesOfFreedom = nu;
    this.secondOrder = second;
    this.budget = List.copyOf(budget);
  }

  static Propagated of(Inputs inputs, double estimate, double[] sensitivity, Measured second) {
    int n = inputs.size();
    double[] signed = new double[n];
    for (int i = 0; i < n; i++) {
      signed[i] = sensitivity[i] * inputs.get(i).distribution().standardUncertainty();
    }
    double variance = form(inputs, signed, signed);
    List<BudgetLine> budget = new ArrayList<>();
    for (int i = 0; i < n; i++) {
      double with = 0;
      for (int j = 0; j < n; j++) {
        with += inputs.correlation(i, j) * signed[j];
      }
      Distribution distribution = inputs.get(i).distribution();
      budget.add(
          new BudgetLine(
              inputs.get(i),
              distribution.estimate(),
              distribution.standardUncertainty(),
              sensitivity[i],
              Math.abs(signed[i]),
              variance > 0 ? signed[i] * with / variance : 0));
    }
    double nu = effective(inputs, signed, variance);
    return new Propagated(inputs, estimate, Math.sqrt(Math.max(0, variance)), nu, second, budget);
  }

  private static double form(Inputs inputs, double[] a, double[] b) {
    double sum = 0;
    for (int i = 0; i < a.length; i++) {
      for (int j = 0; j < b.length; j++) {
        sum += a[i] * inputs.correlation(i, j) * b[j];
      }
    }
    return sum;
  }

  /** Welch and Satterthwaite, inputs that hang together by correlation as one term. */
  private static double effective(Inputs inputs, double[] signed, double variance) {
    int n = signed.length;
    boolean[] done = new boolean[n];
    double sum = 0;
    for (int i = 0; i < n; i++) {
      if (done[i]) {
        continue;
      }
      double[] group = new double[n];
      double nu = gather(inputs, i, signed, group, done);
      double part = form(inputs, group, group);
      sum += part * part / nu;
    }
    return sum > 0 ? variance * variance / sum : Double.POSITIVE_INFINITY;
  }

  /** Marks all that hang on input i; returns the least degrees of freedom among them. */
  private static double gather(
      Inputs inputs, int i, double[] signed, double[] group, boolean[] done) {
    done[i] = true;
    group[i] = signed[i];
    double nu = inputs.get(i).degreesOfFreedom();
    for (int j = 0; j < signed.length; j++) {
      if (!done[j] && inputs.correlation(i, j) != 0) {
        nu = Math.min(nu, gather(inputs, j, signed, group, done));
      }
    }
    return nu;
  }

  /**
   * The estimate y: the model at the estimates of the inputs (4.1.4).
   *
   * @return in the unit of the output
   */
  public double estimate() {
    return estimate;
  }

  /**
   * The combined standard uncertainty u_c, of the first order (5.1.2, with correlations 5.2.2):
   * u_c^2 = sum over i, j of c_i c_j u_i u_j r_ij.
   *
   * @return in the unit of the output, not negative
   */
  public double standardUncertainty() {
    return standardUncertainty;
  }

  /**
   * The combined standard uncertainty with the terms of the second order, u_c^2 + sum over i, j of
   * (f_ij^2/2 + f_i f_ijj) u_i^2 u_j^2 (5.1.2, note).
   *
   * @return in the unit of the output, or the reason why it was not computed
   */
  public Measured secondOrderStandardUncertainty() {
    return secondOrder;
  }

  /**
   * The effective degrees of freedom by Welch and Satterthwaite (G.4.1, formula G.2b). Inputs that
   * are correlated with one another stand as one term, with the least of their degrees of freedom:
   * exact where all were read simultaneously, and cautious otherwise (the formula itself is for
   * independent inputs).
   *
   * @return at least 1, not rounded; positive infinity if all inputs' are, or none counts
   */
  public double effectiveDegreesOfFreedom() {
    return degreesOfFreedom;
  }

  /**
   * The coverage factor of the t distribution of the effective degrees of freedom, truncated to a
   * whole number as G.6.4 says.
   *
   * @param probability coverage probability, 0.01 to 0.9999
   * @return t_p(nu_eff)
   * @throws IllegalArgumentException if it is out of range
   */
  public double coverageFactor(double probability) {
    return coverageFactor(probability, degreesOfFreedom);
  }

  /**
   * The coverage factor t_p(nu) of JCGM 100, table G.2.
   *
   * @param probability coverage probability, 0.01 to 0.9999
   * @param degreesOfFreedom nu, 1 to positive infinity, truncated to a whole number
   * @return t_p(nu)
   * @throws IllegalArgumentException if a value is out of range
   */
  public static double coverageFactor(double probability, double degreesOfFreedom) {
    Require.inRange("probability", probability, "", 0.01, 0.9999);
    Require.inRange("degreesOfFreedom", degreesOfFreedom, "", 1 - 1e-12, Double.POSITIVE_INFINITY);
    double tail = 0.5 * (1 - probability);
    // a sum that is whole but for rounding is meant to be whole
    double whole = Math.floor(degreesOfFreedom * (1 + 1e-12));
    return whole > MAX_DEGREES
        ? NormalDistribution.of(0, 1).inverseSurvivalProbability(tail)
        : TDistribution.of(whole).inverseSurvivalProbability(tail);
  }

  /**
   * The expanded uncertainty U = k u_c (6.2.1), of the first order.
   *
   * @param probability coverage probability, 0.01 to 0.9999
   * @return in the unit of the output
   * @throws IllegalArgumentException if it is out of range
   */
  public double expandedUncertainty(double probability) {
    return coverageFactor(probability) * standardUncertainty;
  }

  /**
   * The coverage interval y - U to y + U.
   *
   * @param probability coverage probability, 0.01 to 0.9999
   * @return in the unit of the output
   * @throws IllegalArgumentException if it is out of range
   */
  public Interval interval(double probability) {
    double expanded = expandedUncertainty(probability);
    return new Interval(estimate - expanded, estimate + expanded);
  }

  /**
   * What the law of propagation holds about the output, for a decision: a t distribution of the
   * truncated effective degrees of freedom, or a normal one.
   *
   * @return the distribution
   * @throws IllegalArgumentException if the standard uncertainty is 0
   */
  public Distribution distribution() {
    return degreesOfFreedom < 1e6
        ? Distribution.studentT(
            estimate, standardUncertainty, Math.floor(degreesOfFreedom * (1 + 1e-12)))
        : Distribution.normal(estimate, standardUncertainty);
  }

  /**
   * The covariance with another output of the same inputs (JCGM 100, H.2.3, formula H.9).
   *
   * @param other what the law says of that output
   * @return in the product of both units
   * @throws IllegalArgumentException if it comes of other inputs
   * @throws NullPointerException if it is missing
   */
  public double covariance(Propagated other) {
    Require.present("other", other);
    Require.that(
        other.inputs == inputs, "other = " + other + ": must come of the same inputs as this");
    return form(inputs, signed(), other.signed());
  }

  /**
   * The correlation coefficient with another output of the same inputs.
   *
   * @param other what the law says of that output
   * @return -1 to 1; NaN if one of the two has no uncertainty
   * @throws IllegalArgumentException if it comes of other inputs
   * @throws NullPointerException if it is missing
   */
  public double correlation(Propagated other) {
    return covariance(other) / (standardUncertainty * other.standardUncertainty);
  }

  private double[] signed() {
    return budget.stream().mapToDouble(l -> l.sensitivity() * l.standardUncertainty()).toArray();
  }

  /**
   * The uncertainty budget, in the order of the inputs.
   *
   * @return an unchangeable list
   */
  public List<BudgetLine> budget() {
    return budget;
  }

  /**
   * The inputs of zero sensitivity: to the first order they do not count, which may be wrong (see
   * {@link #secondOrderStandardUncertainty}).
   *
   * @return their names in order
   */
  public List<String> insensitiveTo() {
    return budget.stream().filter(BudgetLine::insensitive).map(l -> l.input().name()).toList();
  }

  @Override
  public String toString() {
    return "estimate "
        + estimate
        + ", standard uncertainty "
        + standardUncertainty
        + ", effective degrees of freedom "
        + degreesOfFreedom;
  }
}
