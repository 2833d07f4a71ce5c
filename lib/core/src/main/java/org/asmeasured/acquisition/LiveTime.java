package org.asmeasured.acquisition;

import org.asmeasured.internal.Quantity;
import org.asmeasured.internal.Require;

/**
 * How much of the time a recorder looks at the signal, and so the chance that it sees something
 * that seldom happens.
 *
 * <p>Of every cycle of an acquisition, w + d, the record spans w; the live share is L = w/(w + d).
 * Something that happens at random (Poisson) with a rate lambda is seen at least once within a time
 * T with the chance 1 - exp(-lambda T L). This supposes that what happens does not itself make the
 * event that is waited for, that its own duration is short against the record, and that T is long
 * against a cycle.
 *
 * @param spanSeconds w: the span of a record, 1e-18 to 1e12 s
 * @param deadSeconds d: the time from the end of a record to the start of the next, mean rearm and
 *     waiting time together, 0 or 1e-18 to 1e12 s
 */
public record LiveTime(double spanSeconds, double deadSeconds) {

  /**
   * Checks the times.
   *
   * @param spanSeconds w: the span of a record, 1e-18 to 1e12 s
   * @param deadSeconds d: the time from the end of a record to the start of the next, mean rearm
   *     and waiting time together, 0 or 1e-18 to 1e12 s
   * @throws IllegalArgumentException if one is out of range
   */
  public LiveTime {
    Require.duration("spanSeconds", spanSeconds);
    deadSeconds = Require.durationOrZero("deadSeconds", deadSeconds);
  }

  /**
   * The share of the time that is recorded.
   *
   * @return w/(w + d), above 0 and up to 1
   */
  public double share() {
    return spanSeconds / (spanSeconds + deadSeconds);
  }

  /**
   * Acquisitions per second.
   *
   * @return 1/(w + d) in Hz
   */
  public double rateHz() {
    return 1 / (spanSeconds + deadSeconds);
  }

  /**
   * The chance that a rare event is seen at least once.
   *
   * @param eventsPerSecond lambda, its mean rate, 1e-15 to 1e15 Hz
   * @param observedSeconds T, for how long is looked, 1e-18 to 1e12 s
   * @return 1 - exp(-lambda T L), 0 to 1
   * @throws IllegalArgumentException if one is out of range
   */
  public double chanceOfSeeing(double eventsPerSecond, double observedSeconds) {
    rate(eventsPerSecond);
    Require.duration("observedSeconds", observedSeconds);
    return -Math.expm1(-eventsPerSecond * observedSeconds * share());
  }

  /**
   * For how long to look, so that a rare event is seen with a wanted chance.
   *
   * @param eventsPerSecond lambda, its mean rate, 1e-15 to 1e15 Hz
   * @param chance wanted, 1e-9 to 1 - 1e-9
   * @return -ln(1 - chance)/(lambda L) in seconds
   * @throws IllegalArgumentException if one is out of range
   */
  public double secondsForChance(double eventsPerSecond, double chance) {
    rate(eventsPerSecond);
    Require.inRange("chance", chance, "", 1e-9, 1 - 1e-9);
    return -Math.log1p(-chance) / (eventsPerSecond * share());
  }

  private static void rate(double eventsPerSecond) {
    Require.inRange("eventsPerSecond", eventsPerSecond, "Hz", 1e-15, 1e15);
  }

  @Override
  public String toString() {
    return Quantity.of(spanSeconds, "s")
        + " recorded of every "
        + Quantity.of(spanSeconds + deadSeconds, "s");
  }
}
