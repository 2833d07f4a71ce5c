package org.asmeasured.uncertainty;

import org.asmeasured.measure.Measured;

/** One evaluation of a model; what it refuses is said with the distributions it came from. */
final class Evaluation {
  private Evaluation() {}

  static void at(Inputs inputs, JointModel model, double[] x, long seed, Measured[] outputs) {
    try {
      of(model, x, seed, outputs);
    } catch (RefusedInput refused) {
      throw refused;
    } catch (IllegalArgumentException refused) {
      throw new IllegalArgumentException(words(inputs, x) + ": " + refused.getMessage(), refused);
    }
  }

  /** As it is refused, without words. */
  static void of(JointModel model, double[] x, long seed, Measured[] outputs) {
    model.evaluate(x, seed, outputs);
    for (int k = 0; k < outputs.length; k++) {
      if (outputs[k] == null) {
        throw new NullPointerException(
            "outputs[" + k + "] of the model = null: must be a value or a reason");
      }
    }
  }

  private static String words(Inputs inputs, double[] x) {
    StringBuilder words = new StringBuilder("the model refuses ");
    for (int i = 0; i < x.length; i++) {
      Input input = inputs.get(i);
      words.append(i == 0 ? "" : ", ").append(input.name()).append(" = ").append(x[i]);
      words.append(input.unit().isEmpty() ? "" : " " + input.unit());
      words.append(" (").append(input.distribution().name()).append(')');
    }
    return words.toString();
  }
}
