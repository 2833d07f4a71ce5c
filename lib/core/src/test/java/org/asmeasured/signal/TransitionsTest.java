package org.asmeasured.signal;

import static org.asmeasured.internal.Refusals.absent;
import static org.asmeasured.internal.Refusals.instant;
import static org.asmeasured.internal.Refusals.mismatch;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.asmeasured.internal.Cases;
import org.junit.jupiter.api.Test;

/** Displaced transitions, against signals that are built with the displacement in them. */
class TransitionsTest {
  private static final double ROUNDING = 1e-14;

  @Test
  void aStepIsMovedBothWays() {
    Signal step = Signals.step(2, 1e-6);
    for (double d : new double[] {3e-9, -3e-9}) {
      Signal changed = step.plus(Transitions.of(step).change(-1, 1, (part, n) -> d));
      Signal moved = Signals.step(2, 1e-6 + d);
      for (double t = 0.99e-6; t < 1.01e-6; t += 1e-10) {
        assertEquals(moved.valueAt(t), changed.valueAt(t), ROUNDING, "at " + t);
      }
    }
  }

  @Test
  void edgesOfAPulseMoveByThemselves() {
    Signal pulse = Signals.pulse(3, 1e-6, 0.5e-6, 20e-9, 40e-9);
    double[] d = {7e-9, -11e-9};
    Signal moved =
        Signals.ramp(3, 1e-6 + d[0], 1.02e-6 + d[0])
            .minus(Signals.ramp(3, 1.49e-6 + d[1], 1.53e-6 + d[1]));
    Transitions transitions = Transitions.of(pulse);
    Signal changed = pulse.plus(transitions.change(0, 1, (part, n) -> d[(int) n]));
    for (double t = 0.9e-6; t < 1.6e-6; t += 1e-9) {
      assertEquals(moved.valueAt(t), changed.valueAt(t), 1e-8, "at " + t);
    }
    assertEquals(40e-9, transitions.longestSeconds(), 1e-20);
    assertEquals(0.47e-6, transitions.shortestGapSeconds(), 1e-18);
    assertEquals(1 / 0.49e-6, transitions.perSecond(), 1);
  }

  @Test
  void numbersOfAPeriodicSignalGoOnBothWays() {
    Signal square = Signals.square(0, 1, 1e-6, 0.25);
    Transitions transitions = Transitions.of(square);
    // number n late by n nanoseconds: rises at k us + 2 k ns, falls at k us + 250 ns + (2 k + 1) ns
    Signal changed = square.plus(transitions.change(-20.5e-6, 20.5e-6, (part, n) -> n * 1e-9));
    for (int k = -20; k < 20; k++) {
      double rise = k * 1e-6 + 2 * k * 1e-9;
      double fall = k * 1e-6 + 250e-9 + (2 * k + 1) * 1e-9;
      assertEquals(0, changed.valueAt(rise - 1e-12), ROUNDING);
      assertEquals(1, changed.valueAt(rise + 1e-12), ROUNDING);
      assertEquals(1, changed.valueAt(fall - 1e-12), ROUNDING);
      assertEquals(0, changed.valueAt(fall + 1e-12), ROUNDING);
    }
    assertEquals(2e6, transitions.perSecond());
    assertEquals(0.25e-6, transitions.shortestGapSeconds(), 1e-18);
    assertEquals(-6, transitions.nearest(-3.001e-6, (part, n) -> n));
    assertEquals(1, transitions.nearest(0.2e-6, (part, n) -> n));
  }

  /** Where samples fall on the jumps themselves, not one of them may see the undisturbed edge. */
  @Test
  void samplesOnJumpsSeeTheDisplacedEdge() {
    double period = 1e-6;
    double rate = 1e9;
    Signal square = Signals.square(0, 1, period, 0.5).delayedBy(0.3e-6);
    double[] late = new double[100_000];
    double[] early = new double[100_000];
    SampleClock clock = new SampleClock(0, rate);
    Transitions transitions = Transitions.of(square);
    square
        .plus(transitions.change(-1e-6, 101e-6, (p, n) -> 0.4e-9))
        .sample(clock, 0, late, 0, late.length);
    square
        .plus(transitions.change(-1e-6, 101e-6, (p, n) -> -0.4e-9))
        .sample(clock, 0, early, 0, early.length);
    for (int k = 0; k < late.length; k++) {
      int within = Math.floorMod(k - 300, 1000);
      assertEquals(within >= 1 && within <= 500 ? 1 : 0, late[k], ROUNDING, "late, sample " + k);
      assertEquals(within < 500 ? 1 : 0, early[k], ROUNDING, "early, sample " + k);
    }
  }

  @Test
  void theChangeHasTheAreaOfTheDisplacements() {
    Cases.check(
        1,
        200,
        random -> {
          double width = 0.1 + 0.3 * random.nextDouble();
          double rise = 0.1 * random.nextDouble() + 1e-3;
          double fall = 0.1 * random.nextDouble() + 1e-3;
          double low = (4 * random.nextDouble() - 2);
          double high = (4 * random.nextDouble() - 2);
          Signal train = Signals.pulseTrain(low, high, 1, width, rise, fall);
          double[] d = new double[64];
          double area = 0;
          for (int i = 0; i < d.length; i++) {
            d[i] = 0.02 * (4 * random.nextDouble() - 2);
          }
          for (int n = 0; n < 20; n++) {
            area -= d[n] * (n % 2 == 0 ? high - low : low - high);
          }
          Signal change = Transitions.of(train).change(-0.01, 9.99, (part, n) -> d[(int) n]);
          assertEquals(area, change.mean(-5, 15) * 20, 1e-12 * Math.abs(high - low) + 1e-13);
          assertEquals(0, change.valueAt(11));
        });
  }

  @Test
  void anIdleSpanHasNoChange() {
    assertEquals(0, Transitions.of(Signals.step(1, 0)).change(1, 2, (p, n) -> 1).bound());
    assertEquals(0, Transitions.of(Signals.step(1, 0)).change(-1, 2, (p, n) -> 0).bound());
  }

  @Test
  void signalsWithoutTransitionsAreRefusedWithASentence() {
    mismatch(() -> Transitions.of(Signals.sine(1, 1e6)), "no transition between two levels");
    mismatch(() -> Transitions.of(Signals.constant(1)), "no transition between two levels");
    mismatch(() -> Transitions.of(Signals.square(1, 1, 1, 0.5)), "no transition");
    mismatch(
        () -> Transitions.of(Signals.triangle(0, 1, 1e-6, 0.5)), "does not lead from one level");
    mismatch(() -> Transitions.of(Signals.triangle(0, 1, 1e-6, 1)), "does not lead from one level");
    mismatch(() -> Transitions.of(Signals.ramp(1, 0)), "does not lead from one level");
    mismatch(() -> Transitions.of(Signals.exponentialEdge(1, 0, 1)), "exponentials or sines");
    mismatch(
        () -> Transitions.of(Signals.ramp(1, 0, 1).plus(Signals.dampedRinging(1, 1, 1, 0))),
        "exponentials or sines");
    absent("signal", () -> Transitions.of(null));
    // a constant and a sine beside transitions stay as they are
    Signal mixed = Signals.square(0, 1, 1, 0.5).plus(Signals.sine(1, 3)).plus(2);
    assertEquals(0.5, Transitions.of(mixed).shortestGapSeconds());
    assertEquals(Double.POSITIVE_INFINITY, Transitions.of(Signals.step(1, 0)).shortestGapSeconds());
  }

  @Test
  void badArguments() {
    Transitions t = Transitions.of(Signals.square(0, 1, 1e-6, 0.5));
    absent("displacement", () -> t.change(0, 1e-6, null));
    absent("displacement", () -> t.nearest(0, null));
    instant("seconds", s -> t.nearest(s, (p, n) -> 0));
    mismatch(() -> t.change(1, 1, (p, n) -> 0), "toSeconds = 1.0 s: must be after");
    mismatch(() -> t.change(0, 1, (p, n) -> 0), "more than 262144 transitions");
    mismatch(() -> t.change(0, 1e-6, (p, n) -> Double.NaN), "displacement = NaN s");
    assertTrue(t.longestSeconds() == 0);
  }
}
