package org.asmeasured.uncertainty;

import java.util.function.Consumer;
import org.asmeasured.internal.Require;
import org.asmeasured.measure.Measured;

/**
 * Tries the ends of every distribution, so that what a model refuses is refused before the long
 * work, whichever values are drawn later, and with the one distribution that reaches so far.
 *
 * <p>An end is the quantile of 10<sup>-6</sup>, about 4.75 standard deviations of a normal
 * distribution. What is refused beyond is met by one trial in a million, and refused there.
 */
public final class Extremities {
  private static final double TAIL = 1e-6;

  private Extremities() {}

  /**
   * Tries all estimates, and then each end of each input, the others at their estimates.
   *
   * @param inputs in the order in which the model takes them
   * @param model takes the values, which are valid during the call, and refuses those that it
   *     cannot accept by {@link IllegalArgumentException}
   * @throws RefusedInput if it refuses an end
   * @throws IllegalArgumentException if it refuses the estimates
   * @throws NullPointerException if an argument is missing
   */
  public static void require(Inputs inputs, Consumer<double[]> model) {
    Require.present("inputs", inputs);
    Require.present("model", model);
    double[] x = inputs.estimates();
    model.accept(x);
    tryEnds(inputs, x, model, model);
  }

  /** An end is to blame only if the estimates are accepted. */
  private static void tryEnds(
      Inputs inputs, double[] x, Consumer<double[]> model, Consumer<double[]> atEstimates) {
    for (int i = 0; i < x.length; i++) {
      double estimate = x[i];
      for (double p : new double[] {TAIL, 1 - TAIL}) {
        x[i] = inputs.get(i).distribution().quantile(p);
        try {
          model.accept(x);
        } catch (RefusedInput refused) {
          throw refused;
        } catch (IllegalArgumentException refused) {
          atEstimates.accept(inputs.estimates());
          throw new RefusedInput(inputs.get(i), x[i], refused);
        }
      }
      x[i] = estimate;
    }
  }

  /** The outputs with all inputs at their estimates, 0 where there is none. */
  static double[] of(Inputs inputs, JointModel model, int outputs, long seed) {
    Measured[] values = new Measured[outputs];
    double[] x = inputs.estimates();
    Consumer<double[]> named = at -> Evaluation.at(inputs, model, at, seed, values);
    tryEnds(inputs, x, ends -> Evaluation.of(model, ends, seed, values), named);
    named.accept(x);
    double[] references = new double[outputs];
    for (int k = 0; k < outputs; k++) {
      references[k] = values[k] instanceof Measured.Value value ? value.value() : 0;
    }
    return references;
  }
}
