package org.asmeasured.capture;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Map;
import java.util.Set;
import java.util.SplittableRandom;
import org.asmeasured.acquisition.LiveTime;
import org.asmeasured.acquisition.NoEvent;
import org.asmeasured.acquisition.Qualifier;
import org.asmeasured.acquisition.Slope;
import org.asmeasured.acquisition.Trigger;
import org.asmeasured.internal.Cases;
import org.asmeasured.internal.Refusals;
import org.asmeasured.signal.Signal;
import org.asmeasured.signal.Signals;
import org.asmeasured.signal.Waveform;
import org.junit.jupiter.api.Test;

/** Event, record, rearm time and holdoff, one after another. */
class ScheduleTest {
  private static final double RATE_HZ = 1e9;
  private static final long SEED = 20250801;

  private static Schedule of(Trigger trigger, Waveform path, double span, int count) {
    return Schedule.of(trigger, path, 0, 0, RATE_HZ, span, count, SEED);
  }

  /** Rising edges of a 1 MHz square are at whole microseconds. */
  @Test
  void nextEventComesAfterRecordRearmAndFilling() {
    Signal square = Signals.square(0, 1, 1e-6, 0.5);
    Trigger trigger = Trigger.at(0.5).armedAt(0.3e-6).preTrigger(0);
    // from the event: 2.5 us of record: the events at 1, 4, 7, ... us
    check(of(trigger, square, 2.5e-6, 4), 0, 1, 4, 7, 10);
    // and 0.6 us of rearm: at 3.1 us after the event
    check(of(trigger.rearm(0.6e-6), square, 2.5e-6, 4), 0, 1, 5, 9, 13);
    // all of the record before the event: ready 2.5 us after the end, which is the event
    check(of(trigger.preTrigger(1), square, 2.5e-6, 3), -2.5, 1, 4, 7);
    check(of(trigger.preTrigger(0.4), square, 2.5e-6, 3), -1, 1, 4, 7);
    // a delay of 10 us: over 12.5 us after the event
    check(of(trigger.delay(10e-6), square, 2.5e-6, 3), 10, 1, 14, 27);
    // holdoff runs from the event
    check(of(trigger.holdoff(5.2e-6), square, 2.5e-6, 3), 0, 1, 7, 13);
    check(of(trigger.holdoff(1e-6), square, 2.5e-6, 3), 0, 1, 4, 7);
    // an event at the very instant of being ready counts
    check(of(trigger, square, 3e-6, 3), 0, 1, 4, 7);
    check(of(trigger.holdoff(7e-6), square, 3e-6, 3), 0, 1, 8, 15);
    check(of(trigger.armedAt(2e-6), square, 3e-6, 3), 0, 2, 5, 8);
    check(of(trigger.armedAt(-2.5e-6), square, 3e-6, 3), 0, -2, 1, 4);
  }

  private static void check(Schedule schedule, double offsetMicros, double... eventMicros) {
    assertEquals(eventMicros.length, schedule.size());
    assertEquals((eventMicros[0] + offsetMicros) * 1e-6, schedule.startSeconds(), 1e-20);
    for (int a = 0; a < schedule.size(); a++) {
      assertEquals(eventMicros[a] * 1e-6, schedule.eventSeconds(a), 1e-20);
      assertEquals(0, schedule.shiftSeconds(a), 1e-21, "whole periods make no shift");
      assertFalse(schedule.ranFree(a));
    }
    assertEquals(Map.of(), schedule.notes());
  }

  /** Edges that are not periodic: at 1, 1 + 2, 1 + 2 + 4, ... us. */
  @Test
  void followsASignalThatDoesNotRepeat() {
    Signal signal = Signals.constant(0);
    for (double at : new double[] {1, 3, 7, 15, 31}) {
      signal = signal.plus(Signals.pulse(1, at * 1e-6, 0.5e-6, 1e-9, 1e-9));
    }
    Trigger trigger = Trigger.at(0.5).preTrigger(0).noEvent(NoEvent.waitFor(1e-3));
    Schedule all = of(trigger, signal, 1e-6, 5);
    double[] events = {1, 3, 7, 15, 31};
    assertEquals(5, all.size());
    for (int a = 0; a < 5; a++) {
      // half way up an edge of 1 ns that begins at the instant
      assertEquals(events[a] * 1e-6 + 0.5e-9, all.eventSeconds(a), 1e-18);
      assertEquals((events[a] - 1) * 1e-6, all.shiftSeconds(a), 1e-18);
    }
    Schedule some = of(trigger.rearm(3e-6), signal, 1e-6, 5);
    assertEquals(4, some.size());
    assertEquals(Set.of(Flag.TOO_FEW_EVENTS), some.notes().keySet());
    String why = some.notes().get(Flag.TOO_FEW_EVENTS);
    assertTrue(why.startsWith("4 of 5 acquisitions, then no event within 1 ms"), why);
  }

  @Test
  void waitsInVainAndSaysWhy() {
    Signal sine = Signals.sine(1, 1e6);
    Schedule none = of(Trigger.at(1.2), sine, 1e-6, 1);
    assertEquals(0, none.size());
    assertEquals(Set.of(Flag.NO_TRIGGER), none.notes().keySet());
    String why = none.notes().get(Flag.NO_TRIGGER);
    assertTrue(why.contains("does not cross 1.2 V"), why);
    assertTrue(none.liveTime().isEmpty());
    assertThrows(IndexOutOfBoundsException.class, () -> none.eventSeconds(0));
    // there are events, but not so soon
    Schedule hasty =
        of(Trigger.at(0).armedAt(0.1e-6).noEvent(NoEvent.waitFor(0.5e-6)), sine, 1e-6, 1);
    assertEquals(0, hasty.size());
    why = hasty.notes().get(Flag.NO_TRIGGER);
    assertTrue(why.contains("there is one in every 1 us"), why);
    Schedule early =
        of(
            Trigger.at(0.5).noEvent(NoEvent.waitFor(1)),
            Signals.step(1, 1.5).plus(Signals.pulse(1, 0.2, 0.1, 0.1, 0.1)),
            0.9,
            2);
    assertEquals(2, early.size(), "0.2 s, and 1.5 s");
  }

  @Test
  void runsFreeWhenToldSo() {
    Signal sine = Signals.sine(1, 1e6);
    Trigger trigger = Trigger.at(1.2).armedAt(0).preTrigger(0).noEvent(NoEvent.runFreeAfter(10e-6));
    Schedule free = of(trigger, sine, 1e-6, 1000);
    assertEquals(1000, free.size());
    assertEquals(Set.of(Flag.RAN_FREE), free.notes().keySet());
    String why = free.notes().get(Flag.RAN_FREE);
    assertTrue(why.startsWith("1000 of 1000 acquisitions without an event within 10 us"), why);
    double mean = 0;
    for (int a = 0; a < free.size(); a++) {
      assertTrue(free.ranFree(a));
      double phase = free.eventSeconds(a) * 1e6;
      mean += (phase - Math.floor(phase)) / 1000;
      double wait = free.eventSeconds(a) - (a == 0 ? 0 : free.eventSeconds(a - 1) + 1e-6);
      assertTrue(wait >= 10e-6 * (1 - 1e-9) && wait <= 11e-6, "wait " + wait);
    }
    // uniform: 4 standard errors of 1/sqrt(12 x 1000) are passed by chance once in 16 000
    assertEquals(0.5, mean, 4 / Math.sqrt(12_000));
    // mean wait 10.5 us beside 1 us of record
    assertEquals(1 / 11.5, free.liveTime().get().share(), 0.01 / 11.5);
    // a signal that does not repeat is met exactly when the wait is over
    Schedule exact = of(trigger, Signals.step(1, 1), 1e-6, 3);
    assertEquals(10e-6, exact.eventSeconds(0), 1e-20);
    assertEquals(21e-6, exact.eventSeconds(1), 1e-20);
    assertEquals(11e-6, exact.shiftSeconds(1), 1e-20);
    // only those without an event run free
    Schedule mixed = of(trigger.level(0.5), Signals.pulse(1, 3e-6, 1e-6, 1e-9, 1e-9), 1e-6, 2);
    assertFalse(mixed.ranFree(0));
    assertTrue(mixed.ranFree(1));
    assertTrue(mixed.notes().get(Flag.RAN_FREE).startsWith("1 of 2 acquisitions"));
  }

  /** The arming instant is uniform over the period: chi-square over its quarters. */
  @Test
  void armsUniformlyOverThePeriod() {
    // events every quarter of a period: which comes first shows where the arming fell
    Signal signal =
        Signals.multiTone(new double[] {1, 1e-3}, new double[] {4e6, 1e6}, new double[] {0, 0});
    int[] seen = new int[4];
    int n = 4000;
    for (int seed = 0; seed < n; seed++) {
      Schedule s = Schedule.of(Trigger.at(0), signal, 0, 0, RATE_HZ, 1e-7, 1, seed);
      int quarter = (int) Math.floor(s.eventSeconds(0) * 4e6 + 0.25);
      seen[quarter & 3]++;
    }
    double chi = 0;
    for (int k : seen) {
      chi += (k - n / 4.0) * (k - n / 4.0) / (n / 4.0);
    }
    // chi-square with 3 degrees of freedom exceeds 21.1 once in 1e4
    assertTrue(chi < 21.1, "chi-square " + chi);
  }

  @Test
  void dependsOnTheSeedAlone() {
    Signal sine = Signals.sine(1, 1.37e6);
    Trigger trigger = Trigger.at(0.2).jitter(1e-9).resolution(1);
    Schedule a = Schedule.of(trigger, sine, 0.01, 0, RATE_HZ, 1e-6, 100, 7);
    Schedule b = Schedule.of(trigger, sine, 0.01, 0, RATE_HZ, 1e-6, 200, 7);
    Schedule c = Schedule.of(trigger, sine, 0.01, 0, RATE_HZ, 1e-6, 100, 8);
    assertEquals(a.startSeconds(), b.startSeconds());
    for (int i = 0; i < 100; i++) {
      assertEquals(a.shiftSeconds(i), b.shiftSeconds(i));
      assertNotEquals(a.shiftSeconds(i), c.shiftSeconds(i));
    }
  }

  /** Standard deviations add in squares: jitter, noise over slope, and r/sqrt(12) intervals. */
  @Test
  void shiftsHaveTheirStandardDeviations() {
    Signal ramped = Signals.trapezoid(0, 1, 1e-6, 0.5, 100e-9, 100e-9);
    int n = 40_000;
    double slope = 1 / 100e-9;
    double[][] cases = {{1e-9, 0, 0}, {0, 0.02, 0}, {0, 0, 1}, {0, 0, 0.3}, {0.5e-9, 0.01, 1}};
    for (double[] c : cases) {
      Trigger trigger = Trigger.at(0.5).jitter(c[0]).resolution(c[2]);
      Schedule s = Schedule.of(trigger, ramped, c[1], 0, RATE_HZ, 1e-7, n, SEED);
      double variance = c[0] * c[0] + c[1] * c[1] / slope / slope + c[2] * c[2] * 1e-18 / 12;
      double sum = 0;
      double squares = 0;
      double most = 0;
      for (int a = 0; a < n; a++) {
        sum += s.shiftSeconds(a);
        squares += s.shiftSeconds(a) * s.shiftSeconds(a);
        most = Math.max(most, Math.abs(s.shiftSeconds(a)));
      }
      // 4.5 standard errors: by chance once in 1.5e5, ten checks
      assertEquals(0, sum / n, 4.5 * Math.sqrt(variance / n));
      assertEquals(1, squares / n / variance, 4.5 * Math.sqrt(2.0 / n));
      if (c[0] + c[1] == 0) {
        assertTrue(most <= c[2] * 0.5e-9 && most > c[2] * 0.49e-9, "uniform over +-r/2");
      }
    }
  }

  /** Errors of a jump cannot come from noise; on a crest they are beyond first order. */
  @Test
  void noiseIsConvertedBySlope() {
    Schedule jump =
        Schedule.of(Trigger.at(0.5), Signals.square(0, 1, 1e-6, 0.5), 0.1, 0, 1e9, 1e-6, 9, SEED);
    for (int a = 0; a < jump.size(); a++) {
      assertEquals(0, jump.shiftSeconds(a), 1e-21);
    }
    Schedule steep = Schedule.of(Trigger.at(0), Signals.sine(1, 1e6), 0.01, 0, 1e9, 1e-6, 9, SEED);
    assertEquals(Map.of(), steep.notes());
    Schedule crest =
        Schedule.of(Trigger.at(0.99999), Signals.sine(1, 1e6), 0.01, 0, 1e9, 1e-6, 9, SEED);
    assertEquals(Set.of(Flag.SLOW_EDGE), crest.notes().keySet());
    assertTrue(crest.notes().get(Flag.SLOW_EDGE).startsWith("9 of 9 events"));
  }

  /** A runt train: the schedule goes by the pattern; holdoff locks to it. */
  @Test
  void holdoffLocksToAPattern() {
    Signal train = Signals.runt(1, 0.5, 1e-6, 0.3e-6, 10e-9, 3);
    Trigger trigger = Trigger.at(0.25).preTrigger(0.2);
    Schedule every = of(trigger, train, 0.8e-6, 9);
    double span = 0;
    for (int a = 0; a < 9; a++) {
      span = Math.max(span, Math.abs(every.shiftSeconds(a)));
    }
    assertEquals(1e-6, span, 1e-8, "different pulses of the pattern");
    Schedule locked = of(trigger.holdoff(2.5e-6), train, 0.8e-6, 9);
    for (int a = 0; a < 9; a++) {
      assertEquals(0, locked.shiftSeconds(a), 1e-20);
    }
  }

  /**
   * Live share of a periodic trigger: w/(T ceil((w + d)/T)), and not w/(w + d), by arithmetic in
   * whole numbers; seeds 20250810 and on.
   */
  @Test
  void periodicTriggersHaveTheirExactLiveShare() {
    Cases.check(
        20250810,
        300,
        random -> {
          int period = 1 + random.nextInt(50);
          int span = 1 + random.nextInt(200);
          int rearm = random.nextInt(100);
          int holdoff = random.nextInt(300);
          int pre = random.nextInt(span + 1);
          int ready = Math.max(span + rearm, holdoff);
          int cycle = period * ((ready + period - 1) / period);
          Trigger trigger =
              Trigger.at(0.5)
                  .rearm(rearm * 1e-9)
                  .holdoff(holdoff * 1e-9)
                  .preTrigger((double) pre / span);
          Signal square = Signals.square(0, 1, period * 1e-9, 0.5);
          LiveTime live = of(trigger, square, span * 1e-9, 1).liveTime().get();
          assertEquals((double) span / cycle, live.share(), 1e-9);
          assertEquals(1e9 / cycle, live.rateHz(), 1e-9 * 1e9 / cycle);
        });
  }

  /** Two events a period, at 0 and 0.3 T: a walk by hand. */
  @Test
  void liveShareOfAPatternIsOverItsCycle() {
    Signal train =
        Signals.square(0, 1, 10e-6, 0.1).plus(Signals.square(0, 1, 10e-6, 0.1).delayedBy(3e-6));
    Trigger trigger = Trigger.at(0.5).preTrigger(0).armedAt(0);
    // record of 2 us: every event, 2 in 10 us
    assertEquals(0.4, of(trigger, train, 2e-6, 1).liveTime().get().share(), 1e-12);
    // record of 4 us: 0, then 10, ...
    assertEquals(0.4, of(trigger, train, 4e-6, 1).liveTime().get().share(), 1e-12);
    // record of 8 us: 0, 10, ...; of 11 us: 0, 13, 30, 43, ... : 2 in 30 us
    assertEquals(0.8, of(trigger, train, 8e-6, 1).liveTime().get().share(), 1e-12);
    assertEquals(22.0 / 30, of(trigger, train, 11e-6, 1).liveTime().get().share(), 1e-12);
    // the same from the events of an ensemble of which the cycle is no part
    Schedule s = of(trigger, train, 11e-6, 5);
    assertEquals(43e-6, s.eventSeconds(3), 1e-18);
  }

  /**
   * Rare events at random against the closed form: in each of 2000 trials, Poisson glitches at 0.5
   * in T, records of 3 us on every 10 us.
   */
  @Test
  void rareEventsAreSeenAsOftenAsPredicted() {
    Signal square = Signals.square(0, 1, 5e-6, 0.5);
    Trigger trigger = Trigger.at(0.5).rearm(3e-6);
    int acquisitions = 50;
    Schedule s = of(trigger, square, 3e-6, acquisitions);
    LiveTime live = s.liveTime().get();
    assertEquals(0.3, live.share(), 1e-12);
    double observed = 10e-6 * acquisitions;
    double rate = 2 / observed;
    double chance = live.chanceOfSeeing(rate, observed);
    assertEquals(-Math.expm1(-0.6), chance, 1e-12);
    SplittableRandom random = new SplittableRandom(20250820);
    int n = 20_000;
    int seen = 0;
    double begin = s.eventSeconds(0) - 1.5e-6;
    for (int trial = 0; trial < n; trial++) {
      boolean found = false;
      double t = 0;
      while (true) {
        t -= Math.log(1 - random.nextDouble()) / rate;
        if (t > observed) {
          break;
        }
        int a = (int) (t / 10e-6);
        double within = begin + t - (s.eventSeconds(a) - 1.5e-6);
        found |= within >= 0 && within < 3e-6;
      }
      seen += found ? 1 : 0;
    }
    // 4 standard errors: by chance once in 16 000
    assertEquals(chance, (double) seen / n, 4 * Math.sqrt(chance * (1 - chance) / n));
  }

  /** After 1e12 periods still the same phase: no time is kept in one double. */
  @Test
  void staysInPhaseForEver() {
    Signal signal = Signals.sine(1, 1e9 / 7).plus(Signals.sine(0.3, 3e9 / 7));
    Trigger trigger = Trigger.at(0.1).rearm(100);
    Schedule s = of(trigger, signal, 1e-6, 60);
    assertEquals(6000, s.eventSeconds(59), 200);
    for (int a = 0; a < s.size(); a++) {
      assertEquals(0, s.shiftSeconds(a), 1e-20);
    }
  }

  @Test
  void mirrorImageIsTheSame() {
    Signal signal = Signals.runt(1, 0.5, 1e-6, 0.3e-6, 10e-9, 3);
    Trigger rising = Trigger.at(0.3).hysteresis(0.1).qualifier(Qualifier.runtBelow(0.8));
    Trigger falling =
        Trigger.at(-0.3).hysteresis(0.1).slope(Slope.FALLING).qualifier(Qualifier.runtBelow(-0.8));
    Schedule a = of(rising, signal, 1e-6, 5);
    Schedule b = of(falling, signal.times(-1), 1e-6, 5);
    for (int i = 0; i < 5; i++) {
      assertEquals(a.eventSeconds(i), b.eventSeconds(i), 1e-19);
    }
  }

  @Test
  void refusesBadValues() {
    Signal sine = Signals.sine(1, 1e6);
    Trigger t = Trigger.at(0);
    Refusals.absent("trigger", () -> Schedule.of(null, sine, 0, 0, 1e9, 1e-6, 1, 0));
    Refusals.absent("path", () -> Schedule.of(t, null, 0, 0, 1e9, 1e-6, 1, 0));
    Refusals.bounded(
        "pathNoiseVolts", "V", 0, 1e9, v -> Schedule.of(t, sine, v, 0, 1e9, 1e-6, 1, 0));
    Refusals.instant("startSeconds", v -> Schedule.of(t, sine, 0, v, 1e9, 1e-6, 1, 0));
    Refusals.hertz("rateHz", v -> Schedule.of(t, sine, 0, 0, v, 1e-6, 1, 0));
    Refusals.duration("spanSeconds", v -> Schedule.of(t, sine, 0, 0, 1e9, v, 1, 0));
    Refusals.refused("count", v -> Schedule.of(t, sine, 0, 0, 1e9, 1e-6, v, 0), 0, -1, 65_537);
    Schedule one = of(t, sine, 1e-6, 1);
    for (int bad : new int[] {-1, 1}) {
      assertThrows(IndexOutOfBoundsException.class, () -> one.eventSeconds(bad));
      assertThrows(IndexOutOfBoundsException.class, () -> one.shiftSeconds(bad));
      assertThrows(IndexOutOfBoundsException.class, () -> one.ranFree(bad));
    }
    assertThrows(UnsupportedOperationException.class, () -> one.notes().clear());
    assertEquals("1 of 1 acquisition", one.toString());
  }
}
