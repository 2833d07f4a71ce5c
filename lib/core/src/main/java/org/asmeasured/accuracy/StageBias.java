package org.asmeasured.accuracy;

import org.asmeasured.internal.Require;
import org.asmeasured.measure.Measured;

/**
 * One row of a table of errors: what becomes of a reading when one stage is switched. Of several
 * captures, readings are means over those of which they were taken.
 *
 * @param stage the stage, in a few words
 * @param reading in order: with this stage and all before it; each alone ideal: with this stage
 *     ideal and all others as they are
 * @param bias what the stage changes the reading by: in order, against the last reading before it
 *     that could be taken; each alone ideal, the whole setup's reading less this one; or the reason
 *     why there is none
 * @param scatter the random part of this reading, and what the stage adds to it
 */
public record StageBias(String stage, Measured reading, Measured bias, Scatter scatter) {

  /**
   * Checks the values.
   *
   * @param stage the stage, in a few words
   * @param reading with the stage, or without it
   * @param bias what the stage changes it by, or the reason why there is none
   * @param scatter the random part
   * @throws NullPointerException if one is missing
   */
  public StageBias {
    Require.present("stage", stage);
    Require.present("reading", reading);
    Require.present("bias", bias);
    Require.present("scatter", scatter);
  }

  @Override
  public String toString() {
    return stage + ": " + bias;
  }
}
