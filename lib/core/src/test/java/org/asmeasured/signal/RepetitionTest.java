package org.asmeasured.signal;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.SplittableRandom;
import org.asmeasured.internal.Cases;
import org.junit.jupiter.api.Test;

/** Repeated signals are the sum of all their copies, the endless tail included. */
class RepetitionTest {
  /** Sum of the copies that began within {@code copies} periods before t, and of those to come. */
  private static double summed(Signal once, double period, double t, int copies) {
    double sum = 0;
    for (int k = copies; k >= -copies; k--) {
      sum += once.valueAt(t - k * period);
    }
    return sum;
  }

  @Test
  void aPulseRepeatedIsAPulseTrain() {
    Signal train = Signals.pulse(2, 0, 4, 1, 2).repeatedEvery(10);
    Signal built = Signals.pulseTrain(0, 2, 10, 4, 1, 2);
    for (double t = -30; t < 30; t += 0.0625) {
      assertEquals(built.valueAt(t), train.valueAt(t), 1e-14, "t = " + t);
      assertEquals(built.valueBefore(t), train.valueBefore(t), 1e-14, "t = " + t);
    }
  }

  @Test
  void overlappingPulsesAddUp() {
    Signal once = Signals.pulse(1, 0.125, 3.5, 0, 0);
    Signal train = once.repeatedEvery(1);
    // three or four copies at a time
    assertEquals(3, train.valueAt(0));
    assertEquals(4, train.valueAt(0.125));
    assertEquals(4, train.valueAt(0.5));
    assertEquals(3, train.valueAt(0.625));
    assertEquals(4, train.valueBefore(0.625));
    assertEquals(3, train.valueBefore(7.125));
    assertEquals(4, train.valueAt(7.125));
    assertEquals(3.5, train.mean(0, 1), 1e-15);
  }

  /** sum e^{-(u + kT)/tau} = e^{-u/tau} / (1 - e^{-T/tau}). */
  @Test
  void theTailOfADecayIsAGeometricSeries() {
    for (double ratio : new double[] {0.01, 0.3, 1, 10, 1000}) {
      double period = 0.75;
      double tau = period * ratio;
      // starts at 1 and decays: a unit step less a charging curve
      Signal decay = Signals.step(1, 0).minus(Signals.exponentialEdge(1, 0, tau));
      Signal train = decay.repeatedEvery(period);
      for (double share : new double[] {0, 0.25, 0.5, 0.999}) {
        double expected = Math.exp(-share * period / tau) / -Math.expm1(-period / tau);
        assertEquals(expected, train.valueAt(share * period), 1e-12 * expected, "tau/T = " + ratio);
        assertEquals(
            expected, train.valueAt((share + 5) * period), 1e-11 * expected, "five periods on");
      }
    }
  }

  /** Im of e^{su} / (1 - e^{sT}), s = -1/tau + j w. */
  @Test
  void theTailOfARingingIsAGeometricSeries() {
    double f = 3.3;
    for (double tau : new double[] {0.02, 0.5, 40}) {
      double period = 1.1;
      Signal train = Signals.dampedRinging(2, f, tau, 0).repeatedEvery(period);
      double w = 2 * Math.PI * f;
      double x = Math.exp(-period / tau);
      double re = 1 - x * Math.cos(w * period);
      double im = -x * Math.sin(w * period);
      for (double u : new double[] {0, 0.1, 0.5, 1.0999}) {
        double e = Math.exp(-u / tau);
        double expected =
            2 * e * (Math.sin(w * u) * re - Math.cos(w * u) * im) / (re * re + im * im);
        assertEquals(expected, train.valueAt(u), 1e-12 * Math.max(1, tau), "tau " + tau);
        assertEquals(expected, train.valueAt(u - 7 * period), 1e-11 * Math.max(1, tau));
      }
    }
  }

  @Test
  void aRingingInStepWithItsPeriodGrowsToItsGeometricSum() {
    // whole cycles in a period: copies add in phase, 1/(1 - e^{-T/tau}) times one
    Signal once = Signals.dampedRinging(1, 4, 25, 0);
    Signal train = once.repeatedEvery(0.5);
    double gain = 1 / -Math.expm1(-0.5 / 25);
    assertEquals(gain * Math.exp(-0.0625 / 25), train.valueAt(0.0625), 1e-11 * gain);
  }

  /** Settled charge and discharge between 0 and 1, x = e^{-T/2tau}: turns at x/(1+x), 1/(1+x). */
  @Test
  void chargeAndDischargeWhoseTailsCancel() {
    double tau = 4e-9;
    double period = 29e-9;
    double high = 12e-9;
    Signal s =
        Signals.exponentialEdge(1, 0, tau)
            .plus(Signals.exponentialEdge(-1, high, tau))
            .repeatedEvery(period);
    // settled: a at the start of the charge, b at its end
    double xh = Math.exp(-high / tau);
    double xl = Math.exp(-(period - high) / tau);
    double b = (1 - xh) / (1 - xh * xl);
    double a = b * xl;
    for (int k = -2; k < 3; k++) {
      assertEquals(a, s.valueAt(k * period), 1e-9);
      assertEquals(b, s.valueAt(k * period + high), 1e-9);
    }
    assertEquals(a, s.valueAt(0), 1e-13);
    assertEquals(b, s.valueAt(high), 1e-13);
    assertEquals(1 - (1 - a) * Math.exp(-5e-9 / tau), s.valueAt(5e-9), 1e-13);
    assertEquals(b * Math.exp(-3e-9 / tau), s.valueAt(15e-9), 1e-13);
    assertEquals(high / period, s.mean(0, period), 1e-13, "the area of the drive");
    assertEquals(b, s.maximum(0, period), 1e-13);
    assertEquals(a, s.minimum(0, period), 1e-13);
  }

  @Test
  void stepsAndRampsThatCancel() {
    Signal square = Signals.step(2, 1).plus(Signals.step(-2, 2.5)).repeatedEvery(4);
    Signal built = Signals.square(0, 2, 4, 0.375).delayedBy(1);
    Signal trapezoid = Signals.ramp(3, 0, 1).plus(Signals.ramp(-3, 5, 7)).repeatedEvery(10);
    Signal builtTrapezoid = Signals.trapezoid(0, 3, 10, 0.55, 1, 2);
    for (double t = -20; t < 20; t += 0.125) {
      assertEquals(built.valueAt(t), square.valueAt(t), 1e-14, "t = " + t);
      assertEquals(built.valueBefore(t), square.valueBefore(t), 1e-14, "t = " + t);
      assertEquals(builtTrapezoid.valueAt(t), trapezoid.valueAt(t), 1e-13, "t = " + t);
    }
  }

  @Test
  void aGatedTrainRepeatsAsBunches() {
    // five of six pulses, over and over: a repetition of a gated repetition
    Signal pulses = Signals.pulse(1, 0, 0.5, 0.125, 0.125).repeatedEvery(1);
    Signal bunches = pulses.gated(0, 5).repeatedEvery(6);
    for (double t = -12; t < 12; t += 0.03125) {
      double within = t - 6 * Math.floor(t / 6);
      assertEquals(within < 5 ? pulses.valueAt(t) : 0, bunches.valueAt(t), 1e-14, "t = " + t);
    }
    Signal superbunches = bunches.gated(0, 12).repeatedEvery(20);
    for (double t = -20; t < 40; t += 0.03125) {
      double within = t - 20 * Math.floor(t / 20);
      assertEquals(
          within < 12 ? bunches.valueAt(within) : 0, superbunches.valueAt(t), 1e-13, "t = " + t);
    }
  }

  @Test
  void anyOneShotIsTheSumOfItsCopies() {
    Cases.check(
        100,
        150,
        random -> {
          double tau = Cases.logUniform(random, 3e-9, 3e-7);
          Signal once = decaying(random, tau);
          double period = Cases.logUniform(random, 3e-8, 3e-6);
          Signal train = once.repeatedEvery(period);
          int copies = (int) Math.ceil((45 * tau + 8e-6) / period) + 1;
          double scale = once.bound() * (1 + tau / period + 5e-6 / period);
          for (int i = 0; i < 10; i++) {
            double t = random.nextDouble(-2e-6, 2e-6);
            assertEquals(summed(once, period, t, copies), train.valueAt(t), 1e-10 * scale);
          }
          double mean = once.mean(-1e-5, 1e-5 + 45 * tau) * (2e-5 + 45 * tau) / period;
          double from = random.nextDouble(-1e-6, 1e-6);
          assertEquals(mean, train.mean(from, from + 2 * period), 1e-10 * scale, "mean");
        });
  }

  private static Signal decaying(SplittableRandom random, double tau) {
    double at = random.nextDouble(-1e-6, 1e-6);
    double v = Cases.signed(random, Cases.logUniform(random, 1e-2, 10));
    double f = Cases.logUniform(random, 5e5, 3e7);
    return switch (random.nextInt(5)) {
      case 0 -> Signals.dampedRinging(v, f, tau, at);
      case 1 -> Signals.pulse(v, at, tau, 0.5 * tau, 0.25 * tau);
      case 2 -> Signals.burst(v, f, 1 + random.nextInt(3), at);
      case 3 ->
          Signals.exponentialEdge(v, at, tau).plus(Signals.exponentialEdge(-v, at + 2 * tau, tau));
      default ->
          Signals.dampedRinging(v, f, tau, at).plus(Signals.pulse(-v, at + tau, 2 * tau, 0, tau));
    };
  }

  @Test
  void nothingRepeatedIsNothing() {
    assertEquals(0, Signals.constant(0).repeatedEvery(1).valueAt(0.3));
    assertEquals(0, Signals.pulse(0, 0, 1, 0, 0).repeatedEvery(3).valueAt(0.3));
  }
}
