package org.asmeasured.signal;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;

/**
 * Mean, RMS and extremes against the handbook's closed forms over whole periods, and against
 * elementary integrals over parts.
 */
class SignalReadingsTest {
  private static final double TOLERANCE = 1e-12;

  private static void reads(
      Signal s, double from, double to, double mean, double rms, double min, double max) {
    double scale = Math.max(1, Math.max(Math.abs(min), Math.abs(max)));
    assertEquals(mean, s.mean(from, to), TOLERANCE * scale, "mean");
    assertEquals(rms, s.rms(from, to), TOLERANCE * scale, "rms");
    assertEquals(min, s.minimum(from, to), TOLERANCE * scale, "minimum");
    assertEquals(max, s.maximum(from, to), TOLERANCE * scale, "maximum");
  }

  /** Whole periods, wherever they begin, and moved elsewhere on both axes. */
  private static void overPeriods(
      Signal s, double period, double mean, double rms, double min, double max) {
    for (double start : new double[] {0, 0.3, -1.7, 12.345}) {
      reads(s, start * period, (start + 1) * period, mean, rms, min, max);
      reads(s, start * period, (start + 7) * period, mean, rms, min, max);
    }
    double raised = Math.sqrt(rms * rms + 2 * 2.5 * mean + 2.5 * 2.5);
    reads(
        s.plus(2.5).delayedBy(0.77 * period),
        0,
        3 * period,
        mean + 2.5,
        raised,
        min + 2.5,
        max + 2.5);
    reads(s.times(-3), 0, period, -3 * mean, 3 * rms, -3 * max, -3 * min);
  }

  @Test
  void sine() {
    overPeriods(Signals.sine(1, 50), 0.02, 0, Math.sqrt(0.5), -1, 1);
    overPeriods(Signals.sine(2, 1e9, 1.1), 1e-9, 0, 2 * 0.7071067811865475, -2, 2);
  }

  @Test
  void square() {
    overPeriods(Signals.square(-1, 1, 4, 0.5), 4, 0, 1, -1, 1);
    // pulse 0 to A of duty factor D: D A, A sqrt D
    overPeriods(Signals.square(0, 3, 1e-6, 0.2), 1e-6, 0.6, 3 * Math.sqrt(0.2), 0, 3);
  }

  @Test
  void triangleAndSawtooth() {
    for (double symmetry : new double[] {0, 0.1, 0.5, 0.9, 1}) {
      overPeriods(Signals.triangle(-1, 1, 4, symmetry), 4, 0, 0.5773502691896258, -1, 1);
    }
  }

  /** A(th + (tr + tf)/2)/T and A sqrt((th + (tr + tf)/3)/T), elementary. */
  @Test
  void trapezoid() {
    overPeriods(Signals.trapezoid(0, 3, 10, 0.55, 1, 2), 10, 1.65, 2.121320343559643, 0, 3);
    overPeriods(Signals.pulseTrain(0, 3, 10, 5.5, 1, 2), 10, 1.65, 3 * Math.sqrt(0.5), 0, 3);
    // symmetric, edges r each: A sqrt(1 - 4 r/(3 T))
    overPeriods(
        Signals.trapezoid(-2, 2, 10, 0.5, 1.5, 1.5), 10, 0, 2 * Math.sqrt(1 - 4 * 1.5 / 30), -2, 2);
  }

  /** A (tau/T)(1 - x) and A sqrt((tau/2T)(1 - x^2)), x = e^{-T/tau}, elementary. */
  @Test
  void exponentialSawtooth() {
    double tau = 3;
    double period = 5;
    double x = Math.exp(-period / tau);
    // A e^{-t/tau} in each period: a discharge from A, cut short by the next
    Signal discharge =
        Signals.constant(2).minus(Signals.exponentialEdge(2, 0, tau)).gated(0, period);
    overPeriods(
        discharge.repeatedEvery(period),
        period,
        2 * tau / period * (1 - x),
        2 * Math.sqrt(tau / (2 * period) * (1 - x * x)),
        2 * x,
        2);
  }

  @Test
  void rectifiedSines() {
    Signal half = Signals.sine(1, 1).gated(0, 0.5);
    overPeriods(half.repeatedEvery(1), 1, 1 / Math.PI, 0.5, 0, 1);
    overPeriods(half.repeatedEvery(0.5), 0.5, 2 / Math.PI, Math.sqrt(0.5), 0, 1);
  }

  @Test
  void sumsOfSines() {
    Signal s =
        Signals.multiTone(
            new double[] {3, 1, 0.5}, new double[] {1, 2, 5}, new double[] {0.1, 0.2, 0.3});
    double rms = Math.sqrt((9 + 1 + 0.25) / 2);
    assertEquals(0, s.mean(0.4, 3.4), TOLERANCE);
    assertEquals(rms, s.rms(0.4, 3.4), TOLERANCE);
    // equal frequencies add as phasors: 3 and 4 in quadrature make 5
    Signal five = Signals.sine(3, 7).plus(Signals.sine(4, 7, Math.PI / 2));
    reads(five, 0, 1, 0, 5 / Math.sqrt(2), -5, 5);
    // cos t + cos 3t: greatest 2, least -2
    Signal two = Signals.sine(1, 1, Math.PI / 2).plus(Signals.sine(1, 3, Math.PI / 2));
    reads(two, 0, 1, 0, 1, -2, 2);
    // sin t + sin 2t: greatest at cos t = (sqrt 33 - 1)/8
    double c = (Math.sqrt(33) - 1) / 8;
    double most = Math.sqrt(1 - c * c) * (1 + 2 * c);
    reads(Signals.sine(1, 1).plus(Signals.sine(1, 2)), 0.2, 1.2, 0, 1, -most, most);
  }

  @Test
  void partsOfPeriods() {
    Signal sine = Signals.sine(1, 1);
    // quarter cycle
    reads(sine, 0, 0.25, 2 / Math.PI, Math.sqrt(0.5), 0, 1);
    // from a to b: (cos a - cos b)/(b - a); square: 1/2 - (sin 2b - sin 2a)/(4(b - a))
    double a = 2 * Math.PI * 0.1;
    double b = 2 * Math.PI * 3.35;
    assertEquals((Math.cos(a) - Math.cos(b)) / (b - a), sine.mean(0.1, 3.35), TOLERANCE);
    assertEquals(
        Math.sqrt(0.5 - (Math.sin(2 * b) - Math.sin(2 * a)) / (4 * (b - a))),
        sine.rms(0.1, 3.35),
        TOLERANCE);
    // just short of the crest
    assertEquals(
        Math.sin(2 * Math.PI * 0.2), sine.maximum(0.05, 0.2), TOLERANCE, "greatest at the end");
    Signal square = Signals.square(-1, 3, 4, 0.25);
    reads(square, 0.5, 2.5, 0.25 * 3 - 0.75, Math.sqrt(0.25 * 9 + 0.75), -1, 3);
    reads(square, 1.5, 3.5, -1, 1, -1, -1);
    reads(square, 0.25, 0.75, 3, 3, 3, 3);
  }

  @Test
  void theSpanIsClosedAndItsJumpsCountOnBothSides() {
    Signal square = Signals.square(-1, 3, 4, 0.25);
    assertEquals(3, square.maximum(0, 1), "the edge at its end is seen from the left only");
    assertEquals(3, square.minimum(0, 1));
    assertEquals(-1, square.minimum(0, 1.5));
    assertEquals(3, square.maximum(0.5, 1.5));
    assertEquals(-1, square.maximum(1, 4), "the next edge is not part of it");
  }

  @Test
  void startingSignals() {
    // step: share of the span
    reads(Signals.step(2, 3), 1, 5, 1, Math.sqrt(2), 0, 2);
    reads(Signals.step(2, 3), -5, 2, 0, 0, 0, 0);
    // ramp 0 to 1 over a unit: mean 1/2, RMS 1/sqrt 3
    reads(Signals.ramp(1, 0, 1), 0, 1, 0.5, Math.sqrt(1 / 3.0), 0, 1);
    reads(Signals.ramp(2, 0), 0, 3, 3, 6 / Math.sqrt(3), 0, 6);
    // 1 - e^{-t}: mean 1 - (1 - e^{-T})/T
    double t = 4;
    double x = Math.exp(-t);
    reads(
        Signals.exponentialEdge(1, 0, 1),
        0,
        t,
        1 - (1 - x) / t,
        Math.sqrt(1 - 2 * (1 - x) / t + (1 - x * x) / (2 * t)),
        0,
        1 - x);
    // e^{-t} sin wt over all of its life: w/(1 + w^2); square: w^2/(4 (1 + w^2))
    double w = 2 * Math.PI * 3;
    Signal ring = Signals.dampedRinging(1, 3, 1, 0);
    assertEquals(w / (1 + w * w) / 60, ring.mean(0, 60), TOLERANCE);
    assertEquals(Math.sqrt(w * w / (4 * (1 + w * w)) / 60), ring.rms(0, 60), TOLERANCE);
    // first crest at tan wt = w
    double crest = Math.atan(w) / w;
    assertEquals(Math.exp(-crest) * Math.sin(Math.atan(w)), ring.maximum(0, 60), TOLERANCE);
    double dip = (Math.atan(w) + Math.PI) / w;
    assertEquals(-Math.exp(-dip) * Math.sin(Math.atan(w)), ring.minimum(0, 60), TOLERANCE);
    // whole cycles: amplitude/sqrt 2 while it lasts
    reads(Signals.burst(2, 5, 3, 0.1), 0, 1, 0, Math.sqrt(2 * 0.6), -2, 2);
  }

  @Test
  void runts() {
    // edges r of each pulse of top a: energy a^2 (w - r + 2r/3), w at mid level
    Signal s = Signals.runt(2, 0.5, 10, 4, 1, 3);
    double mean = (2 * 4 + 2 * 4 + 0.5 * 4) / 30;
    double square = (4 + 4 + 0.25) * (3 + 2 / 3.0) / 30;
    reads(s, 0, 30, mean, Math.sqrt(square), 0, 2);
    reads(s, 7.5, 97.5, mean, Math.sqrt(square), 0, 2);
    assertEquals(0.5, s.maximum(20, 29), TOLERANCE);
  }

  @Test
  void recordedPoints() {
    double[] v = {0, 2, -1, 3, 3};
    Signal s = Signals.recorded(0, 1, v);
    double sum = 0;
    double square = 0;
    for (int i = 0; i < 4; i++) {
      sum += (v[i] + v[i + 1]) / 2;
      square += (v[i] * v[i] + v[i] * v[i + 1] + v[i + 1] * v[i + 1]) / 3;
    }
    reads(s, 0, 4, sum / 4, Math.sqrt(square / 4), -1, 3);
    reads(s, -2, 6, (sum + 6) / 8, Math.sqrt((square + 18) / 8), -1, 3);
  }

  @Test
  void mixedPartsKeepTheirCrossTerms() {
    // (t + sin 2 pi t)^2 over [0, 1]: 1/3 + 1/2 - 1/pi
    Signal s = Signals.ramp(1, 0).plus(Signals.sine(1, 1));
    assertEquals(Math.sqrt(1 / 3.0 + 0.5 - 1 / Math.PI), s.rms(0, 1), TOLERANCE);
    // (e^{-t} + sin wt)^2 over [0, 1], w = 2 pi: (1 - e^{-2})/2 + 1/2 + 2 w (1 - e^{-1})/(1 + w^2)
    double w = 2 * Math.PI;
    Signal e = Signals.constant(1).minus(Signals.exponentialEdge(1, 0, 1)).plus(Signals.sine(1, 1));
    double expected = (1 - Math.exp(-2)) / 2 + 0.5 + 2 * w * (1 - Math.exp(-1)) / (1 + w * w);
    assertEquals(Math.sqrt(expected), e.rms(0, 1), TOLERANCE);
    // (t e^{-t}...) the product of slope and decay: (t + 1 - e^{-t})^2 over [0, 2]
    Signal r = Signals.ramp(1, 0).plus(Signals.exponentialEdge(1, 0, 1));
    double x = Math.exp(-2);
    double integral = 8 / 3.0 + 4 + 2 - 2 * (1 - 3 * x) - 2 * (1 - x) + (1 - x * x) / 2;
    assertEquals(Math.sqrt(integral / 2), r.rms(0, 2), TOLERANCE);
  }

  @Test
  void smallRippleOnALargeLevel() {
    // RMS^2 = level^2 + ripple^2; 1e-12 of the level is all that doubles hold
    Signal s = Signals.rippleOnRail(12, 0.02, 300e3, 0, 80e6, 30e-9);
    double period = 1 / 300e3;
    double ripple = 0.01 / Math.sqrt(3);
    assertEquals(12, s.mean(0, 30 * period), 1e-12 * 12);
    assertEquals(Math.sqrt(144 + ripple * ripple), s.rms(0, 30 * period), 1e-12 * 12);
    assertEquals(11.99, s.minimum(0, period), 1e-12 * 12);
    assertEquals(12.01, s.maximum(0, period), 1e-12 * 12);
    assertEquals(ripple, s.plus(-12).rms(0, 30 * period), 1e-12);
  }

  @Test
  void farFromTheOriginAndLong() {
    Signal sine = Signals.sine(1, 50);
    assertEquals(Math.sqrt(0.5), sine.rms(1e6, 1e6 + 3600), TOLERANCE, "an hour of mains");
    Signal s = Signals.square(0, 1, 1e-3, 0.25);
    assertEquals(1, s.maximum(1e6, 2e6));
    assertEquals(0, s.minimum(1e6, 2e6));
  }
}
