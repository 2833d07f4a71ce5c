package org.asmeasured.uncertainty;

import java.util.HashMap;
import java.util.Map;
import org.asmeasured.internal.Require;
import org.asmeasured.measure.Measured;

/**
 * A model's values around the estimates, each evaluated once, and the differences between them. A
 * place is the estimates with up to two inputs moved by whole steps.
 */
final class Differences {
  private final Inputs inputs;
  private final JointModel model;
  private final long seed;
  private final int outputs;
  private final double[] estimates;
  private final double[] steps;
  private final Map<Place, Measured[]> known = new HashMap<>();

  private record Place(int i, int stepsOfI, int j, int stepsOfJ) {}

  /** A place without an output; never leaves the package. */
  static final class Missing extends RuntimeException {
    private static final long serialVersionUID = 1;

    Missing(String reason) {
      super(reason, null, false, false);
    }

    String reason() {
      return getMessage();
    }
  }

  Differences(Inputs inputs, JointModel model, double step, long seed) {
    this.inputs = inputs;
    this.model = model;
    this.seed = seed;
    this.outputs = Require.inRange("outputs of the model", model.outputs(), 1, 100_000);
    this.estimates = inputs.estimates();
    this.steps = new double[inputs.size()];
    for (int i = 0; i < steps.length; i++) {
      double x = estimates[i];
      // the step that the sum really makes
      double h = x + step * inputs.get(i).distribution().standardUncertainty() - x;
      Require.that(
          h > 0,
          "standard uncertainty of "
              + inputs.get(i).name()
              + " = "
              + inputs.get(i).distribution().standardUncertainty()
              + ": must be more than the rounding of its estimate, "
              + x);
      steps[i] = h;
    }
  }

  int outputs() {
    return outputs;
  }

  double at(int output) {
    return value(output, 0, 0, 0, 0);
  }

  double first(int output, int i) {
    return (value(output, i, 1, i, 0) - value(output, i, -1, i, 0)) / (2 * steps[i]);
  }

  double second(int output, int i, int j) {
    if (i == j) {
      return (value(output, i, 1, i, 0) - 2 * at(output) + value(output, i, -1, i, 0))
          / (steps[i] * steps[i]);
    }
    return (value(output, i, 1, j, 1)
            - value(output, i, 1, j, -1)
            - value(output, i, -1, j, 1)
            + value(output, i, -1, j, -1))
        / (4 * steps[i] * steps[j]);
  }

  /** Once by i and twice by j. */
  double third(int output, int i, int j) {
    if (i == j) {
      return (value(output, i, 2, i, 0)
              - 2 * value(output, i, 1, i, 0)
              + 2 * value(output, i, -1, i, 0)
              - value(output, i, -2, i, 0))
          / (2 * steps[i] * steps[i] * steps[i]);
    }
    return (value(output, i, 1, j, 1)
            - 2 * value(output, i, 1, i, 0)
            + value(output, i, 1, j, -1)
            - value(output, i, -1, j, 1)
            + 2 * value(output, i, -1, i, 0)
            - value(output, i, -1, j, -1))
        / (2 * steps[i] * steps[j] * steps[j]);
  }

  private double value(int output, int i, int stepsOfI, int j, int stepsOfJ) {
    Place place =
        stepsOfJ == 0
            ? new Place(stepsOfI == 0 ? 0 : i, stepsOfI, 0, 0)
            : i < j ? new Place(i, stepsOfI, j, stepsOfJ) : new Place(j, stepsOfJ, i, stepsOfI);
    Measured[] values = known.get(place);
    if (values == null) {
      double[] x = estimates.clone();
      x[place.i] += place.stepsOfI * steps[place.i];
      x[place.j] += place.stepsOfJ * steps[place.j];
      values = new Measured[outputs];
      Evaluation.at(inputs, model, x, seed, values);
      known.put(place, values);
    }
    if (values[output] instanceof Measured.NotTaken missing) {
      throw new Missing(
          missing.reason()
              + (place.stepsOfI == 0
                  ? ", with all inputs at their estimates"
                  : ", with " + inputs.get(place.i).name() + " off its estimate"));
    }
    return values[output].orThrow();
  }
}
