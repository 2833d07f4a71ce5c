package org.asmeasured.signal;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;

/** Periods of signals and of their sums. */
class PeriodTest {
  private static void period(double seconds, Signal s) {
    assertEquals(seconds, s.periodSeconds().orElse(Double.NaN), 1e-15 * seconds, s::toString);
  }

  private static void none(Signal s) {
    assertEquals(OptionalDouble.empty(), s.periodSeconds(), s::toString);
  }

  @Test
  void ofOne() {
    period(0.02, Signals.sine(1, 50));
    period(1e-6, Signals.square(0, 1, 1e-6, 0.3));
    period(1e-6, Signals.trapezoid(0, 1, 1e-6, 0.3, 1e-9, 2e-9));
    period(7, Signals.triangle(0, 1, 7, 0));
    period(20, Signals.pulseTrain(0, 1, 20, 3, 0, 0));
    period(50, Signals.runt(1, 0.5, 10, 3, 1, 5));
    period(3, Signals.pulse(1, 0, 1, 0, 0).repeatedEvery(3));
    period(3, Signals.dampedRinging(1, 10, 1, 0).repeatedEvery(3));
    period(1 / 300e3, Signals.rippleOnRail(1, 0.1, 300e3, 0.1, 80e6, 1e-8));
  }

  @Test
  void ofNone() {
    none(Signals.constant(3));
    none(Signals.step(1, 0));
    none(Signals.ramp(1, 0));
    none(Signals.burst(1, 5, 10, 0));
    none(Signals.recorded(0, 1, new double[] {1, 2}));
    none(Signals.square(0, 1, 1, 0.5).gated(0, 10));
    none(Signals.sine(1, 1).startingAt(0));
    none(Signals.square(0, 1, 1, 0.5).plus(Signals.step(1, 0)));
  }

  @Test
  void whatIsNotThereDoesNotCount() {
    period(2, Signals.square(0, 1, 2, 0.5).plus(Signals.sine(0, 3.3)));
    period(2, Signals.square(0, 1, 2, 0.5).plus(Signals.step(0, 1)));
    period(2, Signals.square(0, 1, 2, 0.5).plus(7));
    none(Signals.sine(0, 5));
  }

  @Test
  void scalingAndDelayChangeNothing() {
    period(2, Signals.square(0, 1, 2, 0.5).times(-3).delayedBy(0.123));
    period(0.02, Signals.sine(1, 50).times(1e-6).delayedBy(-7));
  }

  @Test
  void ofSumsTheLeastCommonMultiple() {
    period(1, Signals.sine(1, 2).plus(Signals.sine(1, 3)));
    period(0.2, Signals.sine(1, 10).plus(Signals.sine(1, 15)));
    period(6, Signals.square(0, 1, 2, 0.5).plus(Signals.square(0, 1, 3, 0.5)));
    period(
        60,
        Signals.square(0, 1, 12, 0.5)
            .plus(Signals.triangle(0, 1, 20, 0.5))
            .plus(Signals.sine(1, 1 / 30.0)));
    period(1e-3, Signals.sine(1, 1e3).plus(Signals.sine(1, 7e3)).plus(Signals.sine(1, 1e6)));
    period(0.1, Signals.sine(1, 50).plus(Signals.sine(1, 60)));
    period(1, Signals.multiTone(new double[] {1, 1, 1}, new double[] {6, 10, 15}, new double[3]));
    // periods that are no doubles: 1/3 and 1/7 of a microsecond
    period(1e-6, Signals.square(0, 1, 1e-6 / 3, 0.5).plus(Signals.square(0, 1, 1e-6 / 7, 0.5)));
  }

  @Test
  void incommensurateSumsHaveNone() {
    none(Signals.sine(1, 1).plus(Signals.sine(1, Math.sqrt(2))));
    none(Signals.sine(1, 1).plus(Signals.sine(1, Math.PI)));
    none(Signals.square(0, 1, 1, 0.5).plus(Signals.sine(1, Math.E)));
    // commensurate only after ten thousand cycles: of no use to a reading
    none(Signals.sine(1, 10_000).plus(Signals.sine(1, 10_001)));
  }

  @Test
  void theValueReallyRepeats() {
    Signal s =
        Signals.sine(1, 6e6)
            .plus(Signals.square(-0.2, 0.4, 100e-9, 0.37))
            .plus(Signals.triangle(0, 0.3, 250e-9, 0.1));
    double period = s.periodSeconds().orElseThrow();
    assertEquals(500e-9, period, 1e-21);
    for (double t : new double[] {13.3e-9, 88.7e-9, 201.9e-9, 499.1e-9}) {
      for (int k : new int[] {-1000, -1, 1, 2, 1000}) {
        assertEquals(s.valueAt(t), s.valueAt(t + k * period), 1e-9, "t = " + t + ", k = " + k);
      }
    }
  }
}
