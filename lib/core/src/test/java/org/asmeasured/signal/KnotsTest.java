package org.asmeasured.signal;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import org.junit.jupiter.api.Test;

/** Knots: every jump and kink of the span, in order, and close enough together. */
class KnotsTest {
  private static double[] checked(Signal s, double from, double to) {
    double[] knots = s.knots(from, to);
    assertEquals(from, knots[0]);
    assertEquals(to, knots[knots.length - 1]);
    for (int i = 1; i < knots.length; i++) {
      assertTrue(knots[i] > knots[i - 1], "ascending at " + i);
    }
    return knots;
  }

  private static void has(double[] knots, double... instants) {
    for (double t : instants) {
      assertTrue(
          Arrays.stream(knots).anyMatch(k -> Math.abs(k - t) <= 2 * Math.ulp(t)),
          () -> t + " is not among " + Arrays.toString(knots));
    }
  }

  @Test
  void straightPiecesNeedNoMore() {
    assertArrayEquals(new double[] {-3, 5}, checked(Signals.constant(1), -3, 5));
    assertArrayEquals(new double[] {-3, 1, 5}, checked(Signals.step(1, 1), -3, 5));
    assertArrayEquals(new double[] {-3, 1, 2, 5}, checked(Signals.ramp(1, 1, 2), -3, 5));
    assertArrayEquals(
        new double[] {0, 0.5, 1, 1.5, 2}, checked(Signals.square(0, 1, 1, 0.5), 0, 2));
    assertArrayEquals(
        new double[] {1, 2, 3, 4},
        checked(Signals.recorded(new double[] {-1, 1, 2, 3, 9}, new double[5]), 1, 4));
  }

  @Test
  void everyCornerOfATrapezoid() {
    Signal s = Signals.trapezoid(0, 1, 10, 0.5, 1, 2).delayedBy(0.25);
    double[] knots = checked(s, -7, 13);
    assertEquals(10, knots.length);
    // rise 1, top until 1/2 + 5 - 1, fall 2
    for (int k = -1; k < 2; k++) {
      for (double corner : new double[] {0, 1, 4.5, 6.5}) {
        double t = 0.25 + 10 * k + corner;
        if (t > -7 && t < 13) {
          has(knots, t);
        }
      }
    }
  }

  @Test
  void everyPartOfASum() {
    double[] knots =
        checked(
            Signals.step(1, 0.3)
                .plus(Signals.pulse(1, 1, 0.5, 0, 0))
                .plus(Signals.burst(1, 4, 2, 2))
                .plus(Signals.square(0, 1, 3, 0.25)),
            0,
            4);
    has(knots, 0.3, 1, 1.5, 2, 2.5, 0.75, 3, 3.75);
  }

  @Test
  void anEighthOfACycleAtMost() {
    double f = 17;
    for (Signal s :
        new Signal[] {
          Signals.sine(1, f),
          Signals.sine(1, f).plus(Signals.sine(1, 1)),
          Signals.burst(1, f, 1000, 0),
          Signals.dampedRinging(1, f, 100, 0)
        }) {
      double[] knots = checked(s, 0, 2);
      for (int i = 1; i < knots.length; i++) {
        assertTrue(
            knots[i] - knots[i - 1] <= 0.25 / f, "step of " + (knots[i] - knots[i - 1]) + ": " + s);
      }
    }
  }

  @Test
  void whatHasDiedAwayNeedsNone() {
    // ringing at 1 GHz that lasts for microseconds does not cut hours into nanoseconds
    double[] knots = checked(Signals.dampedRinging(1, 1e9, 1e-8, 0), 0, 3600);
    assertTrue(knots.length < 10_000, knots.length + " knots");
    assertTrue(checked(Signals.exponentialEdge(1, 0, 1e-9), -10, 1e6).length < 1000);
  }
}
