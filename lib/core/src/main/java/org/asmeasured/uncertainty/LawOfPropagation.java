package org.asmeasured.uncertainty;

import java.util.ArrayList;
import java.util.List;
import org.asmeasured.internal.Require;
import org.asmeasured.measure.Measured;
import org.asmeasured.measure.Outcome;

/**
 * The law of propagation of uncertainty (JCGM 100, clause 5): the model straightened at the
 * estimates.
 *
 * <p>Sensitivities are central differences, c_i = (f(x_i + h) - f(x_i - h))/(2 h), h = step u(x_i).
 * A step of one standard uncertainty is what 5.1.3, note 2, takes, and the default: it straightens
 * a model with steps of its own (a converter's) over the span that matters. A small step gives the
 * derivative itself.
 *
 * <p>Terms of the second order (5.1.2, note) are computed if a sensitivity is zero, or if asked
 * for, from differences over the same steps; they cost 2 N (N + 1) more evaluations. They hold for
 * inputs that are independent and symmetrically distributed.
 *
 * @param step in standard uncertainties of each input, 1e-6 to 3
 * @param alwaysSecondOrder whether the terms of the second order are computed in any case
 * @param seed of what the model itself draws, the same in every evaluation, so that differences are
 *     of the inputs alone
 */
public record LawOfPropagation(double step, boolean alwaysSecondOrder, long seed) {

  /**
   * Checks the settings.
   *
   * @param step in standard uncertainties of each input, 1e-6 to 3
   * @param alwaysSecondOrder whether the terms of the second order are computed in any case
   * @param seed of what the model itself draws, the same in every evaluation, so that differences
   *     are of the inputs alone
   * @throws IllegalArgumentException if a value is out of range
   */
  public LawOfPropagation {
    Require.inRange("step", step, "standard uncertainties", 1e-6, 3);
  }

  /**
   * Steps of one standard uncertainty, second order where a sensitivity is zero, seed 0.
   *
   * @return the settings
   */
  public static LawOfPropagation standard() {
    return new LawOfPropagation(1, false, 0);
  }

  /**
   * The same with another step.
   *
   * @param uncertainties in standard uncertainties of each input, 1e-6 to 3
   * @return the changed settings
   * @throws IllegalArgumentException if it is out of range
   */
  public LawOfPropagation withStep(double uncertainties) {
    return new LawOfPropagation(uncertainties, alwaysSecondOrder, seed);
  }

  /**
   * The same with terms of the second order in any case.
   *
   * @return the changed settings
   */
  public LawOfPropagation withSecondOrder() {
    return new LawOfPropagation(step, true, seed);
  }

  /**
   * The same with another seed.
   *
   * @param newSeed any
   * @return the changed settings
   */
  public LawOfPropagation withSeed(long newSeed) {
    return new LawOfPropagation(step, alwaysSecondOrder, newSeed);
  }

  /**
   * Propagates the uncertainty of the inputs through a model of one output.
   *
   * @param inputs in the order in which the model takes them
   * @param model the model
   * @return estimate, standard uncertainty and budget; or the reason, if the model has no output at
   *     one of the places needed
   * @throws IllegalArgumentException if the model refuses one of them, naming the inputs' values
   *     and distributions
   * @throws NullPointerException if an argument is missing
   */
  public Outcome<Propagated> of(Inputs inputs, Model model) {
    return ofEach(inputs, model).get(0);
  }

  /**
   * Propagates the uncertainty of the inputs through a model of several outputs.
   *
   * @param inputs in the order in which the model takes them
   * @param model the model
   * @return for each output what {@link #of} gives
   * @throws IllegalArgumentException if the model refuses a place that is needed
   * @throws NullPointerException if an argument is missing
   */
  public List<Outcome<Propagated>> ofEach(Inputs inputs, JointModel model) {
    Require.present("inputs", inputs);
    Require.present("model", model);
    Differences differences = new Differences(inputs, model, step, seed);
    List<Outcome<Propagated>> results = new ArrayList<>();
    for (int k = 0; k < differences.outputs(); k++) {
      results.add(one(inputs, differences, k));
    }
    return results;
  }

  private Outcome<Propagated> one(Inputs inputs, Differences f, int output) {
    try {
      int n = inputs.size();
      double y = f.at(output);
      double[] sensitivity = new double[n];
      boolean zero = false;
      for (int i = 0; i < n; i++) {
        sensitivity[i] = f.first(output, i);
        zero |= sensitivity[i] == 0;
      }
      Measured second = new Measured.NotTaken("not asked for, and no sensitivity is zero");
      if (zero || alwaysSecondOrder) {
        second =
            inputs.independent()
                ? new Measured.Value(secondOrder(inputs, f, output, sensitivity))
                : new Measured.NotTaken(
                    "inputs are correlated: the terms of JCGM 100, 5.1.2, note, hold for"
                        + " independent ones");
      }
      return new Outcome.Taken<>(Propagated.of(inputs, y, sensitivity, second));
    } catch (Differences.Missing missing) {
      return new Outcome.NotTaken<>(missing.reason());
    }
  }

  /** u^2 + sum over i, j of (f_ij^2/2 + f_i f_ijj) u_i^2 u_j^2. */
  private static double secondOrder(Inputs inputs, Differences f, int output, double[] c) {
    int n = inputs.size();
    double sum = 0;
    double first = 0;
    for (int i = 0; i < n; i++) {
      double ui = inputs.get(i).distribution().standardUncertainty();
      first += c[i] * ui * (c[i] * ui);
      for (int j = 0; j < n; j++) {
        double uj = inputs.get(j).distribution().standardUncertainty();
        double mixed = f.second(output, i, j) * ui * uj;
        double third = c[i] == 0 ? 0 : c[i] * ui * f.third(output, i, j) * ui * uj * uj;
        sum += 0.5 * mixed * mixed + third;
      }
    }
    return Math.sqrt(Math.max(0, first + sum));
  }
}
