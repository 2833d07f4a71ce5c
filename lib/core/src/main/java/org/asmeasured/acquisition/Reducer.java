package org.asmeasured.acquisition;

/**
 * Reduces the raw samples of one acquisition, block by block. It keeps its buffers, allocates
 * nothing at work, and is for one thread.
 */
public interface Reducer {

  /**
   * Takes the next raw samples, and writes the points that they complete.
   *
   * @param raw raw samples: codes as whole numbers, or volts; left as they are
   * @param offset index of the first
   * @param count how many, 0 or more
   * @param lower where to write the points; of an envelope, the least values. Not the same array as
   *     {@code raw}
   * @param upper where to write the greatest values of an envelope; otherwise not looked at, and
   *     may be null
   * @param at index of the first point to write
   * @return how many points were written: at most count/factor + 1
   */
  int reduce(double[] raw, int offset, int count, double[] lower, double[] upper, int at);
}
