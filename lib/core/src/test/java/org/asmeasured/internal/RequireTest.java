package org.asmeasured.internal;

import static org.junit.jupiter.api.Assertions.assertDoesNotThrow;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertThrows;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.function.Executable;

/** The checks at the door, word for word. */
class RequireTest {
  private static void says(String message, Executable call) {
    assertEquals(message, assertThrows(IllegalArgumentException.class, call).getMessage());
  }

  @Test
  void aValueWithItsUnitAndRange() {
    says(
        "gapVolts = -2.0 V: must be from -1.0 V to 1.0 V",
        () -> Require.inRange("gapVolts", -2, "V", -1, 1));
    says(
        "share = NaN: must be from 0.0 to 1.0",
        () -> Require.inRange("share", Double.NaN, "", 0, 1));
    says(
        "share = Infinity: must be from 0.0 to 1.0",
        () -> Require.inRange("share", Double.POSITIVE_INFINITY, "", 0, 1));
    says(
        "gapVolts = 0.0 V: must be above 0.0 V and at most 5.0 V",
        () -> Require.above("gapVolts", 0, "V", 0, 5));
    says(
        "gapVolts = NaN V: must be above 0.0 V and at most 5.0 V",
        () -> Require.above("gapVolts", Double.NaN, "V", 0, 5));
    says("bits = 25: must be from 1 to 24", () -> Require.inRange("bits", 25, 1, 24));
    says(
        "first = -9223372036854775808: must be from 0 to 5",
        () -> Require.inRange("first", Long.MIN_VALUE, 0, 5));
    says("a must be less than b", () -> Require.that(false, "a must be less than b"));
  }

  @Test
  void goodValuesComeBackAsTheyAre() {
    assertEquals(-1, Require.inRange("x", -1, "V", -1, 1));
    assertEquals(1, Require.inRange("x", 1, "V", -1, 1));
    assertEquals(5, Require.above("x", 5, "V", 0, 5));
    assertEquals(24, Require.inRange("x", 24, 1, 24));
    assertEquals(1L << 53, Require.inRange("x", 1L << 53, 0, 1L << 53));
    assertEquals(-1e9, Require.volts("x", -1e9));
    assertEquals(1e-300, Require.positiveVolts("x", 1e-300));
    assertEquals(1e15, Require.hertz("x", 1e15));
    assertEquals(-1e12, Require.instant("x", -1e12));
    assertEquals(1e-18, Require.duration("x", 1e-18));
    assertEquals(0, Require.durationOrZero("x", 0));
    assertEquals(0.0, Require.durationOrZero("x", -0.0), "a negative zero becomes a plain one");
    assertDoesNotThrow(() -> Require.that(true, "never"));
    Object given = new Object();
    assertSame(given, Require.present("x", given));
  }

  @Test
  void theNamedRanges() {
    Refusals.volts("v", v -> Require.volts("v", v));
    Refusals.refused("v", "V", v -> Require.positiveVolts("v", v), 0, -0.0, -1, 1.001e9);
    Refusals.hertz("f", f -> Require.hertz("f", f));
    Refusals.instant("t", t -> Require.instant("t", t));
    Refusals.duration("d", d -> Require.duration("d", d));
    Refusals.durationOrZero("d", d -> Require.durationOrZero("d", d));
    Refusals.absent("x", () -> Require.present("x", null));
  }
}
