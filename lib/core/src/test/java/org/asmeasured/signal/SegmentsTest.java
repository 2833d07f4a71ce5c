package org.asmeasured.signal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import org.asmeasured.internal.Refusals;
import org.junit.jupiter.api.Test;

class SegmentsTest {
  @Test
  void playedOnceAndRepeated() {
    Segments segments =
        new Segments().add(0, 1, 2).add(0.5, -1, 0).term(0.25, 0.5, -3, 2).add(0.75, 0, 0);
    assertEquals(3, segments.count());
    Signal once = segments.once(10, "own");
    assertEquals(0, once.valueAt(9.9));
    assertEquals(1.5, once.valueAt(10.25), 1e-15);
    double u = 0.1;
    double want =
        -1
            + Math.exp(-3 * u)
                * (0.25 * Math.cos(4 * Math.PI * u) + 0.5 * Math.sin(4 * Math.PI * u));
    assertEquals(want, once.valueAt(10.6), 1e-14);
    assertEquals(0, once.valueAt(1e6));
    assertEquals("own", once.toString());
    Signal repeated = segments.repeated(10, 1, 0, "own, repeated");
    assertEquals(want, repeated.valueAt(-6.4), 1e-14);
    assertEquals(1, repeated.periodSeconds().orElseThrow());
  }

  @Test
  void theRestOfThePeriodKeepsLatePeriodsInPlace() {
    double rest = 1.0 / 3 * 0x1p-54;
    Signal s = new Segments().add(0, 0, 1).repeated(0, 1.0 / 3, rest, "saw");
    // 3e9 periods of a third are 1e9 seconds, and half a period more is a sixth
    assertEquals(1.0 / 6, s.valueAt(1e9 + 1.0 / 6), 2e-7);
  }

  @Test
  void badParametersAreRefused() {
    Refusals.refused("startSeconds", "s", v -> new Segments().add(0, 0, 0).add(v, 0, 0), -1, 2e12);
    Refusals.volts("levelVolts", v -> new Segments().add(0, v, 0));
    Refusals.refused(
        "slopeVoltsPerSecond", Double.NaN, "V/s", () -> new Segments().add(0, 0, 0.0 / 0));
    assertThrows(IllegalArgumentException.class, () -> new Segments().add(1, 0, 0));
    Segments one = new Segments().add(0, 0, 0);
    Refusals.volts("cosineVolts", v -> one.term(v, 0, 0, 0));
    Refusals.volts("sineVolts", v -> one.term(0, v, 0, 1));
    Refusals.refused("growthPerSecond", "1/s", v -> one.term(0, 0, v, 1), 1e-9, -2e18);
    Refusals.refused("frequencyHz", "Hz", v -> one.term(0, 0, 0, v), -1, 2e15);
    assertThrows(IllegalStateException.class, () -> new Segments().term(1, 0, 0, 0));
    assertThrows(IllegalStateException.class, () -> new Segments().once(0, "none"));
    assertThrows(IllegalStateException.class, () -> new Segments().repeated(0, 1, 0, "none"));
    assertThrows(
        IllegalArgumentException.class, () -> new Segments().add(0, 0, 0).add(0, 1, 0).once(0, ""));
    Segments two = new Segments().add(0, 0, 0).add(1, 1, 0);
    assertThrows(IllegalArgumentException.class, () -> two.repeated(0, 1, 0, "too short"));
    Refusals.instant("originSeconds", v -> two.once(v, ""));
    Refusals.duration("periodSeconds", v -> two.repeated(0, v, 0, ""));
    Refusals.refused("periodRest", "s", v -> two.repeated(0, 2, v, ""), 1e-15);
    assertThrows(NullPointerException.class, () -> two.once(0, null));
  }
}
