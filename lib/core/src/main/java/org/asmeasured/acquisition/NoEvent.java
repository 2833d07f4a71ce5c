package org.asmeasured.acquisition;

import org.asmeasured.internal.Quantity;
import org.asmeasured.internal.Require;

/**
 * What is done when no event comes within a stated time of being ready for one: the recorder is
 * given up on, still waiting, or it records all the same. The record says which.
 *
 * @param afterSeconds the time, 1e-18 to 1e12 s
 * @param runsFree true to record then; false to give up with what there is
 */
public record NoEvent(double afterSeconds, boolean runsFree) {

  /**
   * Checks the time.
   *
   * @param afterSeconds the time, 1e-18 to 1e12 s
   * @param runsFree true to record then; false to give up with what there is
   * @throws IllegalArgumentException if the time is out of range
   */
  public NoEvent {
    Require.duration("afterSeconds", afterSeconds);
  }

  /**
   * Waits for an event, and is given up on after a time.
   *
   * @param seconds the time, 1e-18 to 1e12 s
   * @return what is done
   * @throws IllegalArgumentException if the time is out of range
   */
  public static NoEvent waitFor(double seconds) {
    return new NoEvent(Require.duration("seconds", seconds), false);
  }

  /**
   * Records without an event after a time. The recorder's own timing has nothing to do with the
   * signal's; so of a periodic signal, the phase at which it records is uniform, from the seed.
   *
   * @param seconds the time, 1e-18 to 1e12 s
   * @return what is done
   * @throws IllegalArgumentException if the time is out of range
   */
  public static NoEvent runFreeAfter(double seconds) {
    return new NoEvent(Require.duration("seconds", seconds), true);
  }

  @Override
  public String toString() {
    String time = Quantity.of(afterSeconds, "s");
    return runsFree ? "runs free after " + time : "waits for " + time;
  }
}
