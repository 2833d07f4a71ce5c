package org.asmeasured.signal;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.asmeasured.internal.Cases;
import org.junit.jupiter.api.Test;

/** Gated signals are themselves inside and zero outside. */
class GatingTest {
  @Test
  void insideItselfOutsideNothing() {
    Cases.check(
        100,
        300,
        random -> {
          Signal s = RandomSignals.any(random).plus(RandomSignals.any(random));
          double from = random.nextInt(-1 << 20, 1 << 20) * 0x1p-40;
          double to = from + random.nextInt(1, 1 << 22) * 0x1p-40;
          Signal gated = s.gated(from, to);
          double slack = 1e-12 * s.bound();
          assertEquals(0, gated.valueBefore(from), slack);
          assertEquals(s.valueAt(from), gated.valueAt(from), slack);
          assertEquals(s.valueBefore(to), gated.valueBefore(to), slack);
          assertEquals(0, gated.valueAt(to), slack);
          for (int i = 0; i < 30; i++) {
            double t = random.nextInt(-1 << 22, 1 << 22) * 0x1p-40;
            assertEquals(t < from || t >= to ? 0 : s.valueAt(t), gated.valueAt(t), slack, "t " + t);
            assertEquals(
                t <= from || t > to ? 0 : s.valueBefore(t), gated.valueBefore(t), slack, "t " + t);
          }
          double mean = s.mean(from, to) * (to - from);
          assertEquals(mean / 1e-4, gated.mean(-5e-5, 5e-5), slack, "area");
        });
  }

  @Test
  void startingLeavesTheRestAsItIs() {
    Signal s = Signals.sine(2, 3, 0.5).plus(1);
    Signal started = s.startingAt(0.7);
    assertEquals(0, started.valueBefore(0.7));
    for (double t : new double[] {0.7, 0.8, 3, 1e3}) {
      assertEquals(s.valueAt(t), started.valueAt(t), 1e-11);
    }
    assertEquals(0, started.valueAt(-3));
    Signal ramp = Signals.ramp(2, 0).startingAt(4);
    assertEquals(0, ramp.valueBefore(4));
    assertEquals(8, ramp.valueAt(4), 1e-14);
    assertEquals(20, ramp.valueAt(10), 1e-13);
    // before the signal itself begins there is nothing to cut
    Signal early = Signals.step(3, 5).startingAt(-2);
    assertEquals(0, early.valueAt(0));
    assertEquals(0, early.valueBefore(5));
    assertEquals(3, early.valueAt(5));
  }

  @Test
  void gatesWithinGates() {
    Signal twice = Signals.sine(1, 5).gated(0, 3).gated(1, 7);
    Signal once = Signals.sine(1, 5).gated(1, 3);
    for (double t = -1; t < 8; t += 0.015625) {
      assertEquals(once.valueAt(t), twice.valueAt(t), 1e-13, "t = " + t);
    }
    assertEquals(0, Signals.sine(1, 5).gated(0, 1).gated(2, 3).bound(), 1e-12);
  }

  @Test
  void bothHalvesMakeTheWhole() {
    Signal s = Signals.trapezoid(-1, 2, 1, 0.5, 0.25, 0.125).plus(Signals.sine(0.5, 3));
    Signal halves = s.gated(-4, 0.3125).plus(s.gated(0.3125, 5));
    for (double t = -4; t < 5; t += 0.0078125) {
      assertEquals(s.valueAt(t), halves.valueAt(t), 1e-13, "t = " + t);
    }
  }

  @Test
  void aGatedSquareFarFromTheOrigin() {
    Signal s = Signals.square(0, 1, 1e-6, 0.5).gated(3, 3 + 1e-5);
    // 3 s is a whole number of periods only as far as doubles tell: stay clear of the edges
    for (int k = 0; k < 10; k++) {
      assertEquals(1, s.valueAt(3 + k * 1e-6 + 0.25e-6), "period " + k);
      assertEquals(0, s.valueAt(3 + k * 1e-6 + 0.75e-6), "period " + k);
    }
    assertEquals(0, s.valueAt(3 + 1.025e-5));
    assertEquals(0, s.valueAt(2.99999975));
  }
}
