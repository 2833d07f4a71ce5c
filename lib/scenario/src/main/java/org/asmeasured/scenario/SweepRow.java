package org.asmeasured.scenario;

import java.util.List;
import org.asmeasured.internal.Require;

/**
 * What came of one point of a sweep.
 *
 * @param number of the point, from 0, the last axis running fastest
 * @param coordinates what each swept value is set to, in its unit, in the order of the axes
 * @param readings one for each reading asked for, in their order, those between channels last
 */
public record SweepRow(int number, List<Double> coordinates, List<SweptReading> readings) {

  /**
   * Checks and copies.
   *
   * @param number from 0
   * @param coordinates what each swept value is set to
   * @param readings one for each reading asked for
   * @throws IllegalArgumentException if the number is negative
   * @throws NullPointerException if one is missing
   */
  public SweepRow {
    Require.inRange("number", number, 0, Integer.MAX_VALUE);
    coordinates = List.copyOf(Require.present("coordinates", coordinates));
    readings = List.copyOf(Require.present("readings", readings));
  }
}
