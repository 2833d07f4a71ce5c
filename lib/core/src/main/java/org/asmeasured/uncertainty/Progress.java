package org.asmeasured.uncertainty;

import org.asmeasured.internal.Require;

/**
 * Told how far long work has come; may end it. The work says what it counts: trials, the points of
 * a sweep, the steps of a search.
 */
@FunctionalInterface
public interface Progress {

  /**
   * Called after every piece of the work, one call at a time; by the thread that started it, unless
   * the work says otherwise.
   *
   * @param done how much is done, 0 or more
   * @param most how much there will be at most
   * @return true to go on, false to cancel
   */
  boolean goOn(long done, long most);

  /**
   * A listener for one of several pieces of work that come one after the other and weigh the same:
   * what it is told, this one is told as a share of the whole.
   *
   * @param number which of them, from 0
   * @param count how many there are, 1 or more
   * @return (number + done/most)/count, told to this one in whole numbers
   * @throws IllegalArgumentException if a number is out of range
   */
  default Progress part(int number, int count) {
    Require.inRange("count", count, 1, Integer.MAX_VALUE);
    Require.inRange("number", number, 0, count - 1);
    return (done, most) -> goOn(number * most + Math.min(done, most), count * most);
  }
}
