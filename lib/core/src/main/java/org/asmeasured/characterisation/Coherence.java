package org.asmeasured.characterisation;

import org.asmeasured.internal.Require;

/**
 * How the samples of a record fall on the phases of a signal that repeats. Of whole cycles, their
 * number without a common factor with that of the points, each phase of the record is met once and
 * they are evenly spread.
 *
 * @param points of the record, M, 1 to 2<sup>31</sup> - 1
 * @param cycles of the signal in M intervals, above 0 to 1e30
 */
public record Coherence(int points, double cycles) {

  /**
   * Checks the numbers.
   *
   * @param points of the record
   * @param cycles in as many intervals
   * @throws IllegalArgumentException if one is out of range
   */
  public Coherence {
    Require.inRange("points", points, 1, Integer.MAX_VALUE);
    Require.above("cycles", cycles, "", 0, 1e30);
  }

  /**
   * What is left over of whole cycles.
   *
   * @return -0.5 to 0.5 cycles
   */
  public double leftOverCycles() {
    return cycles - Math.rint(cycles);
  }

  /**
   * Whether the record holds whole cycles, one at least, as nearly as matters: to half of the
   * distance of two neighbouring phases, 1/(2 M) of a cycle (IEEE Std 1241-2010 and 1057-2017,
   * choice of frequencies for coherent records, from memory: a relative 1/(2 J M) of the frequency
   * for J cycles).
   *
   * @return true if so
   */
  public boolean isWhole() {
    return cycles > 0.5 && Math.abs(leftOverCycles()) <= 0.5 / points;
  }

  /**
   * How often each phase is met: the greatest common factor of the points and the cycles.
   *
   * @return 1 or more; 1 of a record without whole cycles
   */
  public int passes() {
    if (!isWhole()) {
      return 1;
    }
    long a = points;
    long b = (long) (Math.rint(cycles) % points);
    while (b != 0) {
      long rest = a % b;
      a = b;
      b = rest;
    }
    return (int) a;
  }

  /**
   * By how much the share of samples below any level may be off because of what is left over.
   *
   * @return 0 for whole cycles; else the left over part over all cycles, at most 1
   */
  public double greatestShareError() {
    return isWhole() ? 0 : Math.min(1, Math.abs(leftOverCycles()) / cycles);
  }
}
