package org.asmeasured.uncertainty;

import org.asmeasured.measure.Measured;

/** Tries the ends of every distribution, so that a model's refusal comes before the long work. */
final class Extremities {
  /** About 4.75 sigma. */
  private static final double TAIL = 1e-6;

  private Extremities() {}

  /** The outputs with all inputs at their estimates, 0 where there is none. */
  static double[] of(Inputs inputs, JointModel model, int outputs, long seed) {
    Measured[] values = new Measured[outputs];
    double[] x = inputs.estimates();
    for (int i = 0; i < x.length; i++) {
      double estimate = x[i];
      for (double p : new double[] {TAIL, 1 - TAIL}) {
        x[i] = inputs.get(i).distribution().quantile(p);
        Evaluation.at(inputs, model, x, seed, values);
      }
      x[i] = estimate;
    }
    Evaluation.at(inputs, model, x, seed, values);
    double[] references = new double[outputs];
    for (int k = 0; k < outputs; k++) {
      references[k] = values[k] instanceof Measured.Value value ? value.value() : 0;
    }
    return references;
  }
}
