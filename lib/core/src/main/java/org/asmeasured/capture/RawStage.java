package org.asmeasured.capture;

/**
 * A step between the analog output and the converter, on raw samples in place. What becomes of a
 * sample depends on its number and the samples before it, never on where a block ends.
 */
@FunctionalInterface
interface RawStage {
  /**
   * Works on the next raw samples.
   *
   * @param first number of the first; 0 is the one at the start of the record, the lead is negative
   * @param volts raw samples, changed in place
   * @param count how many, from index 0
   */
  void apply(long first, double[] volts, int count);
}
