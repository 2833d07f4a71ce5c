package org.asmeasured.uncertainty;

import java.util.function.ToDoubleFunction;
import org.asmeasured.internal.Require;
import org.asmeasured.measure.Measured;

/**
 * A model of measurement y = f(x_1, ..., x_N) (JCGM 200, 2.48; clause from memory), with one
 * output. It is asked by several threads at once, and must give the same output for the same
 * inputs.
 */
@FunctionalInterface
public interface Model extends JointModel {

  /**
   * Evaluates the model.
   *
   * @param inputs the values of all inputs in order, valid during the call
   * @return the output, or the reason why there is none
   * @throws IllegalArgumentException if the model cannot accept the inputs
   */
  Measured of(double[] inputs);

  @Override
  default int outputs() {
    return 1;
  }

  @Override
  default void evaluate(double[] inputs, long seed, Measured[] outputs) {
    outputs[0] = of(inputs);
  }

  /**
   * A model by a formula.
   *
   * @param formula the output from the inputs; what is not finite is not taken
   * @return the model
   * @throws NullPointerException if it is missing
   */
  static Model of(ToDoubleFunction<double[]> formula) {
    Require.present("formula", formula);
    return inputs -> {
      double y = formula.applyAsDouble(inputs);
      return Math.abs(y) <= Double.MAX_VALUE
          ? new Measured.Value(y)
          : new Measured.NotTaken("the formula gives " + y);
    };
  }
}
