package org.asmeasured.scenario;

import java.util.Optional;
import org.asmeasured.acquisition.LiveTime;
import org.asmeasured.internal.Require;
import org.asmeasured.measure.Measured;

/**
 * Something that seldom happens, at random, and for how long it is looked for: what is the chance
 * that a record shows it?
 *
 * @param eventsPerSecond its mean rate, 1e-15 to 1e15 Hz
 * @param observedSeconds for how long is looked, 1e-18 to 1e12 s
 */
public record RareEvent(double eventsPerSecond, double observedSeconds) {

  /**
   * Checks the values.
   *
   * @param eventsPerSecond its mean rate, 1e-15 to 1e15 Hz
   * @param observedSeconds for how long is looked, 1e-18 to 1e12 s
   * @throws IllegalArgumentException if one is out of range
   */
  public RareEvent {
    Require.inRange("eventsPerSecond", eventsPerSecond, "Hz", 1e-15, 1e15);
    Require.duration("observedSeconds", observedSeconds);
  }

  /**
   * The chance that it is seen at least once.
   *
   * @param liveTime of the acquisitions, if there is any
   * @return 0 to 1, or the reason why there is no figure
   * @throws NullPointerException if the live time is missing
   */
  public Measured chance(Optional<LiveTime> liveTime) {
    return Require.present("liveTime", liveTime)
        .<Measured>map(
            live -> new Measured.Value(live.chanceOfSeeing(eventsPerSecond, observedSeconds)))
        .orElseGet(
            () ->
                new Measured.NotTaken(
                    "fewer than two acquisitions say nothing about the time between them"));
  }
}
