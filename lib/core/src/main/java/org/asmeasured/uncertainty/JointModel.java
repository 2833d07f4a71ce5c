package org.asmeasured.uncertainty;

import org.asmeasured.measure.Measured;

/**
 * A model of measurement with several outputs that come from one evaluation, such as several
 * readings of one capture; and one that may draw random numbers of its own, such as noise.
 *
 * <p>It is asked by several threads at once, and must give the same outputs for the same inputs and
 * the same seed, whatever was asked before. Inputs that it cannot accept it refuses by {@link
 * IllegalArgumentException}; an output that there is not is {@link Measured.NotTaken}.
 */
public interface JointModel {

  /**
   * How many outputs there are.
   *
   * @return at least 1
   */
  int outputs();

  /**
   * Evaluates the model.
   *
   * @param inputs the values of all inputs in order, valid during the call
   * @param seed of what the model itself draws; another one for each trial, the same one for all
   *     evaluations of a law of propagation
   * @param outputs receives the outputs
   * @throws IllegalArgumentException if the model cannot accept the inputs; {@link RefusedInput}
   *     where it knows which of them
   */
  void evaluate(double[] inputs, long seed, Measured[] outputs);
}
