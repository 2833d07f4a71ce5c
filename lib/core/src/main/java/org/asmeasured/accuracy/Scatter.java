package org.asmeasured.accuracy;

import java.util.Collections;
import java.util.Map;
import java.util.TreeMap;
import org.asmeasured.internal.Require;
import org.asmeasured.measure.Measured;
import org.asmeasured.measure.Statistics;

/**
 * How a reading scatters from capture to capture, and how sure a change of its mean is.
 *
 * <p>All rows of a table are read of the same captures with the same seeds. So the noise that two
 * rows have in common does not scatter their difference: with d the differences of n captures, the
 * standard error of their mean is s(d)/sqrt(n).
 *
 * @param captures how many were made, 1 to 10 000 000: one where nothing is random
 * @param taken of how many of them the reading was taken
 * @param notTaken why it was not of others, each reason with the number of captures that gave it;
 *     unmodifiable
 * @param randomPart the standard deviation of the reading over the captures of which it was taken,
 *     with n - 1, in the reading's unit; 0 where nothing is random yet
 * @param addedVariance the variance that the stage adds, in the square of the reading's unit: below
 *     0 where it takes scatter away, as averaging does
 * @param standardError of the bias that stands beside this, in the reading's unit: that of the
 *     differences of the captures of which both readings were taken
 */
public record Scatter(
    int captures,
    int taken,
    Map<String, Integer> notTaken,
    Measured randomPart,
    Measured addedVariance,
    Measured standardError) {

  /**
   * Checks and copies the values.
   *
   * @param captures 1 to 10 000 000
   * @param taken 0 to captures
   * @param notTaken why it was not of others
   * @param randomPart standard deviation
   * @param addedVariance in the square of the unit
   * @param standardError of the bias
   * @throws IllegalArgumentException if a number is out of range
   * @throws NullPointerException if one is missing
   */
  public Scatter {
    Require.inRange("captures", captures, 1, Statistics.MAX_ACQUISITIONS);
    Require.inRange("taken", taken, 0, captures);
    notTaken = Collections.unmodifiableMap(new TreeMap<>(Require.present("notTaken", notTaken)));
    Require.present("randomPart", randomPart);
    Require.present("addedVariance", addedVariance);
    Require.present("standardError", standardError);
  }
}
