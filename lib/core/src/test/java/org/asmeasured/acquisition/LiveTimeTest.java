package org.asmeasured.acquisition;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.asmeasured.internal.Refusals;
import org.junit.jupiter.api.Test;

class LiveTimeTest {

  /** Reference values, section 7: 0.1/s, 10 us recorded of 1 ms, 60 s; computed to 30 digits. */
  @Test
  void rareEventsAreSeenAtTheirChance() {
    LiveTime live = new LiveTime(10e-6, 990e-6);
    assertEquals(0.01, live.share(), 1e-17);
    assertEquals(1000, live.rateHz(), 1e-10);
    assertEquals(0.05823546641575129, live.chanceOfSeeing(0.1, 60), 1e-16);
    assertEquals(2995.73227355, live.secondsForChance(0.1, 0.95), 1e-8);
    assertEquals(0.95, live.chanceOfSeeing(0.1, live.secondsForChance(0.1, 0.95)), 1e-15);
    assertEquals("10 us recorded of every 1 ms", live.toString());
  }

  /** A small chance keeps its digits: to first order it is lambda T L. */
  @Test
  void smallChancesAreExact() {
    LiveTime live = new LiveTime(1e-9, 1e-3);
    assertEquals(1e-15, live.chanceOfSeeing(1e-9, 1) * 1.000001, 1e-27);
    assertEquals(1, new LiveTime(1, 0).chanceOfSeeing(1000, 1));
    assertEquals(1, new LiveTime(1, 0).share());
  }

  @Test
  void refusesBadValues() {
    Refusals.duration("spanSeconds", v -> new LiveTime(v, 0));
    Refusals.durationOrZero("deadSeconds", v -> new LiveTime(1, v));
    LiveTime live = new LiveTime(1, 1);
    Refusals.bounded("eventsPerSecond", "Hz", 1e-15, 1e15, v -> live.chanceOfSeeing(v, 1));
    Refusals.bounded("eventsPerSecond", "Hz", 1e-15, 1e15, v -> live.secondsForChance(v, 0.5));
    Refusals.duration("observedSeconds", v -> live.chanceOfSeeing(1, v));
    Refusals.bounded("chance", "", 1e-9, 1 - 1e-9, v -> live.secondsForChance(1, v));
  }
}
