package org.asmeasured.accuracy;

import org.asmeasured.internal.Require;
import org.asmeasured.measure.Measured;

/**
 * One row of a table of errors: what a reading becomes when one more stage is switched in.
 *
 * @param stage the stage, in a few words
 * @param reading with this stage and all before it
 * @param bias the change against the last reading before it that could be taken, or the reason why
 *     there is none
 */
public record StageBias(String stage, Measured reading, Measured bias) {

  /**
   * Checks the values.
   *
   * @param stage the stage, in a few words
   * @param reading with this stage and all before it
   * @param bias the change against the last reading before it that could be taken, or the reason
   *     why there is none
   * @throws NullPointerException if one is missing
   */
  public StageBias {
    Require.present("stage", stage);
    Require.present("reading", reading);
    Require.present("bias", bias);
  }

  @Override
  public String toString() {
    return stage + ": " + bias;
  }
}
