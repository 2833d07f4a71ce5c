package org.asmeasured.acquisition;

/**
 * Which pulses count as events. A pulse is what the trigger's path does between crossing the level
 * and coming back: it begins where the path crosses the level, and ends where the path falls below
 * level minus hysteresis (of a falling slope, the mirror image). Its width is the time between.
 *
 * <p>Without a qualifier every pulse is an event at its beginning. With one, a pulse that meets the
 * condition is an event at its end, because no sooner can anybody know.
 */
public sealed interface Qualifier permits Unqualified, PulseWidth, Runt {

  /**
   * Every pulse counts, at its beginning: ideal.
   *
   * @return the qualifier
   */
  static Qualifier none() {
    return Unqualified.EVERY;
  }

  /**
   * Pulses shorter than a time.
   *
   * @param seconds the limit, 1e-18 to 1e12 s
   * @return the qualifier
   * @throws IllegalArgumentException if the time is out of range
   */
  static Qualifier shorterThan(double seconds) {
    return PulseWidth.shorterThan(seconds);
  }

  /**
   * Pulses longer than a time.
   *
   * @param seconds the limit, 1e-18 to 1e12 s
   * @return the qualifier
   * @throws IllegalArgumentException if the time is out of range
   */
  static Qualifier longerThan(double seconds) {
    return PulseWidth.longerThan(seconds);
  }

  /**
   * Pulses that cross the level but not another one beyond it.
   *
   * @param otherVolts the level they fail to reach, -1e9 to 1e9 V
   * @return the qualifier
   * @throws IllegalArgumentException if the level is out of range
   */
  static Qualifier runtBelow(double otherVolts) {
    return new Runt(otherVolts);
  }
}
