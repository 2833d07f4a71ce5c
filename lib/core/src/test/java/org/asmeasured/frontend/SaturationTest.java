package org.asmeasured.frontend;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Random;
import org.apache.commons.math3.complex.Complex;
import org.asmeasured.internal.ExtendedTime;
import org.asmeasured.internal.Refusals;
import org.asmeasured.linear.Response;
import org.asmeasured.signal.SampleClock;
import org.asmeasured.signal.Signal;
import org.asmeasured.signal.Signals;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Saturation against closed forms that can be written down. */
class SaturationTest {
  private static final Response FLAT = Response.identity();

  /**
   * Sine of amplitude A clipped at +/- c (reference values, section 4): clipped fraction 1 - (2/pi)
   * asin r, fundamental (2/pi)(asin r + r sqrt(1-r^2)), RMS, THD; r = c/A. Elementary, also by
   * quadrature with mpmath.
   */
  @ParameterizedTest
  @CsvSource({
    "1.01, 1.00880731123806, 0.713337342285668, 0.282756776341",
    "1.1, 1.06430355650853, 0.753117806291579, 3.79432760981",
    "1.2, 1.10447402301851, 0.783107672898712, 7.38470673789",
    "1.5, 1.17134694387443, 0.837966950476631, 15.3487858227"
  })
  void clippedSine(double overdrive, double fundamental, double rms, double thdPercent) {
    double f = 1.7e6;
    Signal sine = Signals.sine(overdrive, f);
    SaturatedOutput y = Saturation.at(1).of(sine, FLAT, FLAT, 0, 1);
    assertTrue(y.isOverloaded());
    assertEquals(2, y.overloads());
    assertEquals(rms, y.rms(0, 1 / f), 1e-12);
    assertEquals(rms, y.rms(0.1 / f, 7.1 / f), 1e-12, "over whole cycles");
    assertEquals(0, y.mean(0, 1 / f), 1e-13);
    assertEquals(1, y.maximum(0, 1 / f), 1e-11);
    assertEquals(-1, y.minimum(0, 1 / f), 1e-11);
    double[] v = new double[1000];
    y.sampler(new SampleClock(0, 1000 * f)).read(0, v, 0, v.length);
    for (int k = 0; k < v.length; k++) {
      double x = overdrive * Math.sin(2 * Math.PI * k / 1000);
      assertEquals(Math.max(-1, Math.min(1, x)), v[k], 3e-12, "sample " + k);
    }
    // the roll-off passes the fundamental alone: amplitude and phase of H(f) on it
    Response narrow =
        Response.of(
            List.of(new Complex(0, 0)),
            List.of(
                new Complex(-2e-7 * f, 2 * Math.PI * f), new Complex(-2e-7 * f, -2 * Math.PI * f)),
            4e-7 * f);
    SaturatedOutput tuned = Saturation.at(1).of(sine, FLAT, narrow, 0, 1);
    assertEquals(fundamental, tuned.maximum(0, 1 / f), 1e-6, "through a very narrow band-pass");
    double thd = 100 * Math.sqrt(2 * rms * rms / (fundamental * fundamental) - 1);
    assertEquals(thdPercent, thd, 1e-9);
  }

  /** Fourier coefficients by the record of a settled clipped sine behind one pole. */
  @Test
  void harmonicsOfTheClippedSineComeThroughTheRollOff() {
    double f = 10e6;
    double a = 1.5;
    Response pole = Response.singlePole(25e6);
    SaturatedOutput y = Saturation.at(1).of(Signals.sine(a, f), FLAT, pole, 0, 1);
    // b_n of a clipped sine, n odd: from the clipped arc and the rest, elementary integrals
    double theta = Math.asin(1 / a);
    double[] t = {0.013e-6, 0.0777e-6, 3.21e-6, 1e-3 + 0.04e-6};
    for (double at : t) {
      double sum = 0;
      // the harmonics fall as n^-2 / n through the pole; sum far enough, smoothly
      for (int n = 1; n < 40_000; n += 2) {
        double bn =
            n == 1
                ? 2 / Math.PI * a * (theta - Math.sin(2 * theta) / 2)
                    + 4 / Math.PI * Math.cos(theta)
                : 4
                    / Math.PI
                    * (a
                            * (Math.sin((n - 1) * theta) / (2 * (n - 1))
                                - Math.sin((n + 1) * theta) / (2 * (n + 1)))
                        + Math.cos(n * theta) / n);
        sum +=
            bn
                * pole.magnitude(n * f)
                * Math.sin(
                    2 * Math.PI * ExtendedTime.fractionOfCycles(n * f, at, 0)
                        + pole.phaseRadians(n * f));
      }
      assertEquals(sum, y.valueAt(at), 1e-9, "at " + at + " s");
    }
  }

  /**
   * A pulse of 3 V for 40 ns into +/-1 V, through one pole of tau: while it is there 1 -
   * exp(-t/tau); then that decays, and the tail of 0.1 x 2 V with tau_r adds 0.2 tau_r/(tau_r -
   * tau) (exp(-u/tau_r) - exp(-u/tau)). Elementary.
   */
  @Test
  void saturatedPulseWithRecovery() {
    double tau = 1 / (2 * Math.PI * 100e6);
    double tauR = 25e-9;
    double width = 40e-9;
    Signal pulse = Signals.step(3, 0).minus(Signals.step(3, width));
    SaturatedOutput y =
        Saturation.at(1)
            .withRecovery(0.1, tauR)
            .of(pulse, FLAT, Response.singlePole(100e6), -10e-9, 300e-9);
    assertEquals(1, y.overloads());
    double[] v = new double[300];
    y.sampler(new SampleClock(0, 1e9)).read(0, v, 0, v.length);
    for (int k = 0; k < v.length; k++) {
      double at = k * 1e-9;
      double want;
      if (at <= width) {
        want = -Math.expm1(-at / tau);
      } else {
        double u = at - width;
        want =
            -Math.expm1(-width / tau) * Math.exp(-u / tau)
                + 0.2 * tauR / (tauR - tau) * (Math.exp(-u / tauR) - Math.exp(-u / tau));
      }
      assertEquals(want, v[k], 1e-11, "sample " + k);
      assertEquals(v[k], y.valueAt(at), 1e-12);
    }
    assertEquals(0, y.valueAt(-5e-9), 1e-15);
  }

  /** Tails of a clipped square add up over all earlier periods. Elementary: a geometric series. */
  @Test
  void tailsOfARepeatedOverloadSettle() {
    double period = 1e-6;
    double tau = 0.7e-6;
    // 0.5 V and 3 V: high for a quarter
    Signal square = Signals.square(0.5, 3, period, 0.25);
    SaturatedOutput y = new Saturation(-1, 1, 0.05, tau).of(square, FLAT, FLAT, 0, period);
    double settled = 0.05 * 2 / -Math.expm1(-period / tau);
    for (double u : new double[] {0.01e-6, 0.4e-6, 0.74e-6, 0.76e-6, 0.9e-6}) {
      double level = u < 0.75e-6 ? 0.5 : 1;
      double want = level + settled * Math.exp(-u / tau);
      assertEquals(want, y.valueAt(0.25e-6 + u), 1e-11);
      assertEquals(want, y.valueAt(0.25e-6 + u + 1000 * period), 1e-9);
    }
  }

  /** A ramp limited at its level through one pole: two ramps. Elementary. */
  @Test
  void saturatedRampThroughOnePole() {
    double tau = 1 / (2 * Math.PI * 30e6);
    Response pole = Response.singlePole(30e6);
    SaturatedOutput y =
        new Saturation(Double.NEGATIVE_INFINITY, 1, 0, 1)
            .of(Signals.ramp(2e7, 0), FLAT, pole, 0, 500e-9);
    for (double t = 1e-9; t < 500e-9; t += 7e-9) {
      double want = 2e7 * (t + tau * Math.expm1(-t / tau));
      double after = t - 50e-9;
      if (after > 0) {
        want -= 2e7 * (after + tau * Math.expm1(-after / tau));
      }
      assertEquals(want, y.valueAt(t), 1e-11, "at " + t);
    }
  }

  /** Through chains ahead with repeated and slow poles, against the clipped output of the chain. */
  @Test
  void whatTheChainAheadMakesIsClipped() {
    Response pole = Response.singlePole(80e6);
    Response ahead = pole.times(pole).times(pole).times(Response.highPass(10));
    Signal signal =
        Signals.trapezoid(-2, 2, 97e-9, 0.4, 1e-12, 8e-9).plus(Signals.sine(0.3, 10 / 97e-9));
    SaturatedOutput y = new Saturation(-0.9, 1.3, 0, 1).of(signal, ahead, FLAT, 0, 1e-6);
    Random random = new Random(1);
    for (int i = 0; i < 2000; i++) {
      double t = random.nextDouble() * 300e-9;
      double x = ahead.of(signal).valueAt(t);
      assertEquals(Math.max(-0.9, Math.min(1.3, x)), y.valueAt(t), 2e-11, "at " + t);
    }
    assertTrue(y.isOverloaded());
  }

  /** The same event seen once and repeated must agree once the start is forgotten. */
  @Test
  void onceAndRepeatedAgree() {
    Response behind = Response.bessel(4, 100e6);
    Signal settled = Signals.sine(1.4, 3e6);
    Signal started = Signals.burst(1.4, 3e6, 100, 0);
    Saturation saturation = new Saturation(-1, 0.8, 0.02, 50e-9);
    SaturatedOutput a = saturation.of(settled, FLAT, behind, 0, 10e-6);
    SaturatedOutput b = saturation.of(started, FLAT, behind, 0, 10e-6);
    for (double t = 3e-6; t < 10e-6; t += 13.7e-9) {
      assertEquals(a.valueAt(t), b.valueAt(t), 3e-11, "at " + t);
    }
  }

  @Test
  void noSaturationIsTheIdentity() {
    Response ahead = Response.highPass(1e3);
    Response behind = Response.bessel(3, 50e6);
    Signal signal = Signals.trapezoid(-1, 1, 1e-6, 0.5, 1e-8, 2e-8);
    double[] want = new double[3000];
    SampleClock clock = new SampleClock(1e-7, 1e9);
    ahead.times(behind).of(signal).sample(clock, -5, want, 0, want.length);
    for (Saturation s : new Saturation[] {Saturation.none(), Saturation.at(1.6)}) {
      SaturatedOutput y = s.of(signal, ahead, behind, 0, 1e-5);
      assertFalse(y.isOverloaded());
      double[] got = new double[want.length];
      y.sampler(clock).read(-5, got, 0, got.length);
      assertArrayEquals(want, got);
      assertEquals(ahead.times(behind).of(signal).rms(0, 1e-6), y.rms(0, 1e-6));
    }
    double[] got = new double[want.length];
    signal.sample(clock, -5, want, 0, want.length);
    Saturation.at(1).of(signal, FLAT, FLAT, 0, 1).sampler(clock).read(-5, got, 0, got.length);
    assertArrayEquals(want, got, "just touching the levels");
  }

  @Test
  void shiftedSamplesAreTheValuesThere() {
    SaturatedOutput y =
        Saturation.at(1)
            .withRecovery(0.1, 20e-9)
            .of(Signals.sine(2, 7e6), FLAT, Response.bessel(2, 90e6), 0, 1);
    double[] shifts = new double[5000];
    Random random = new Random(2);
    for (int k = 0; k < shifts.length; k++) {
      shifts[k] = 3e-12 * random.nextGaussian();
    }
    double[] v = new double[shifts.length];
    y.sampler(new SampleClock(0, 1e9)).read(10, shifts, v, 0, v.length);
    for (int k = 0; k < v.length; k += 17) {
      assertEquals(y.valueAt((10 + k) / 1e9 + shifts[k]), v[k], 1e-10, "sample " + k);
    }
  }

  @Test
  void alwaysOverloadedIsConstant() {
    SaturatedOutput y =
        Saturation.at(1).withRecovery(0.5, 1).of(Signals.sine(0.5, 1e6).plus(3), FLAT, FLAT, 0, 1);
    assertEquals(1, y.valueAt(0.3e-6), 1e-11);
    assertEquals(0, y.overloads());
    assertEquals(1, y.mean(0, 1), 1e-11);
    SaturatedOutput constant = Saturation.at(1).of(Signals.constant(-7), FLAT, FLAT, 0, 1);
    assertEquals(-1, constant.valueAt(0.5), 1e-11);
  }

  @Test
  void badParametersAreRefused() {
    Refusals.refused("lowVolts", -1.1e9, "V", () -> new Saturation(-1.1e9, 1, 0, 1));
    Refusals.refused("highVolts", 1.1e9, "V", () -> new Saturation(-1, 1.1e9, 0, 1));
    Refusals.refused("volts", "V", Saturation::at, 0, -1, 1.1e9);
    Refusals.refused("recoveryFraction", "", v -> Saturation.at(1).withRecovery(v, 1), -0.01, 1.01);
    Refusals.duration("recoverySeconds", v -> Saturation.at(1).withRecovery(0.1, v));
    assertThrows(IllegalArgumentException.class, () -> new Saturation(1, 1, 0, 1));
    assertThrows(IllegalArgumentException.class, () -> new Saturation(Double.NaN, 1, 0, 1));
    assertThrows(IllegalArgumentException.class, () -> new Saturation(0, Double.NaN, 0, 1));
    Signal sine = Signals.sine(2, 1);
    Saturation s = Saturation.at(1);
    assertThrows(NullPointerException.class, () -> s.of(null, FLAT, FLAT, 0, 1));
    assertThrows(NullPointerException.class, () -> s.of(sine, null, FLAT, 0, 1));
    assertThrows(NullPointerException.class, () -> s.of(sine, FLAT, null, 0, 1));
    assertThrows(IllegalArgumentException.class, () -> s.of(sine, FLAT, FLAT, 1, 1));
    SaturatedOutput once = s.of(Signals.step(2, 0), FLAT, FLAT, 0, 1);
    assertThrows(IllegalArgumentException.class, () -> once.valueAt(1.1));
    assertThrows(IllegalArgumentException.class, () -> once.mean(-0.1, 1));
    assertEquals(
        "saturation below -1 V and above 1 V, recovery from 2.5 % of the excess with 10 ns",
        s.withRecovery(0.025, 1e-8).toString());
    assertEquals("no saturation", Saturation.none().toString());
  }
}
