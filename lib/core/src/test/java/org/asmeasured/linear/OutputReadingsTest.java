package org.asmeasured.linear;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.asmeasured.internal.Cases;
import org.asmeasured.signal.RandomSignals;
import org.asmeasured.signal.Signal;
import org.asmeasured.signal.Signals;
import org.junit.jupiter.api.Test;

/**
 * Mean, RMS and extremes of outputs against closed forms, and against the input's where they must
 * agree.
 */
class OutputReadingsTest {
  /**
   * Settled square under a 10 Hz high-pass; Millman and Halkias, Integrated Electronics (from
   * memory). Frequency; then start of the plateau, its end, and RMS, over the amplitude.
   */
  @Test
  void settledSquareUnderAcCoupling() {
    double[][] table = {
      {20, 1.65579420263267, 0.344205797367328, 0.913774103375655},
      {100, 1.15580032922162, 0.844199670778381, 0.995919525483165},
      {200, 1.07837872278611, 0.921621277213893, 0.998973920165621},
      {500, 1.03140559518897, 0.968594404811029, 0.999835557986189},
      {1000, 1.01570667146725, 0.984293328532751, 0.999958879861203}
    };
    for (double[] row : table) {
      double period = 1 / row[0];
      Output y = Response.highPass(10).of(Signals.square(-2, 2, period, 0.5));
      assertEquals(2 * row[1], y.valueAt(0), 2e-14, "start");
      assertEquals(2 * row[2], y.valueBefore(period / 2), 2e-14, "end");
      assertEquals(2 * row[1], y.maximum(0, period), 2e-14, "maximum");
      assertEquals(-2 * row[1], y.minimum(0, period), 2e-14, "minimum");
      assertEquals(2 * row[3], y.rms(0, period), 2e-14, "RMS");
      assertEquals(2 * row[3], y.rms(0, 5 * period), 2e-14, "RMS of five periods");
      assertEquals(0, y.mean(0, period), 1e-14, "mean");
      double u = Math.PI * 10 / (2 * row[0]);
      assertEquals(2 * Math.sqrt(Math.tanh(u) / u), y.rms(0.3 * period, 2.3 * period), 1e-13);
    }
  }

  /** Pulses 0 to A of duty D under AC coupling: A (1 - e^{-(1-D)T/tau}) / (1 - e^{-T/tau}). */
  @Test
  void pulsesUnderAcCoupling() {
    double tau = 1 / (2 * Math.PI * 10);
    for (double duty : new double[] {0.01, 0.25, 0.9}) {
      double period = 2e-3;
      Output y = Response.highPass(10).of(Signals.square(0, 5, period, duty));
      double start = 5 * Math.expm1(-(1 - duty) * period / tau) / Math.expm1(-period / tau);
      assertEquals(start, y.maximum(0, period), 5e-14);
      assertEquals(start - 5, y.valueBefore(0), 5e-14);
      assertEquals(0, y.mean(0, period), 5e-14);
    }
  }

  /**
   * A settled square through one pole: turns at +/- A tanh(T/4tau); RMS^2 = A^2 (1 - tanh(u)/u).
   */
  @Test
  void settledSquareThroughOnePole() {
    for (double ratio : new double[] {0.1, 1, 8, 100}) {
      double period = 1e-6;
      double tau = period / ratio;
      Output y =
          Response.singlePole(1 / (2 * Math.PI * tau)).of(Signals.square(-3, 3, period, 0.5));
      double u = ratio / 4;
      double peak = 3 * Math.tanh(u);
      assertEquals(peak, y.maximum(0, period), 1e-14 * 3, "T/tau " + ratio);
      assertEquals(-peak, y.minimum(0.2 * period, 1.3 * period), 1e-14 * 3);
      double square = 9 * (1 - Math.tanh(u) / u);
      assertEquals(Math.sqrt(square), y.rms(0, period), 1e-12, "T/tau " + ratio);
      assertEquals(0, y.mean(0.1 * period, 1.1 * period), 1e-14);
    }
  }

  @Test
  void sineThroughAnything() {
    Cases.check(
        1,
        100,
        random -> {
          Response h = RandomResponses.chain(random);
          double f = Cases.logUniform(random, 1e4, 1e9);
          Output y = h.of(Signals.sine(2, f, 0.4));
          double amplitude = 2 * h.magnitude(f);
          double from = random.nextDouble() / f;
          assertEquals(0, y.mean(from, from + 1 / f), 1e-13 * amplitude);
          assertEquals(
              amplitude / Math.sqrt(2), y.rms(from, from + 3 / f), 1e-13 * amplitude, h::toString);
          assertEquals(amplitude, y.maximum(from, from + 1 / f), 1e-13 * amplitude);
          assertEquals(-amplitude, y.minimum(from, from + 2 / f), 1e-13 * amplitude);
          double phase = 0.4 + h.phaseRadians(f);
          assertEquals(amplitude * Math.sin(phase), y.valueAt(0), 1e-13 * amplitude);
        });
  }

  @Test
  void theMeanOfASettledOutputIsTheGainAtDirectCurrentTimesTheInputs() {
    Cases.check(
        2000,
        60,
        random -> {
          Signal s = RandomSignals.settled(random);
          if (s.periodSeconds().isEmpty()) {
            return;
          }
          double period = s.periodSeconds().orElseThrow();
          Response h = RandomResponses.chain(random);
          double from = random.nextDouble(-1e-6, 1e-6);
          assertEquals(
              h.dcGain() * s.mean(0, period),
              h.of(s).mean(from, from + period),
              1e-10 * s.bound() * Math.max(1, h.peakGain()),
              h::toString);
        });
  }

  /**
   * Over all time a high-pass or low-pass step: energy of e^{-t/tau} is tau/2; mean deficit tau.
   */
  @Test
  void stepsFromRest() {
    double tau = 1e-6;
    Response low = Response.singlePole(1 / (2 * Math.PI * tau));
    Response high = Response.highPass(1 / (2 * Math.PI * tau));
    Signal step = Signals.step(2, 3e-6);
    double end = 103e-6;
    assertEquals(2 * (100e-6 - tau) / 103e-6, low.of(step).mean(0, end), 1e-13);
    assertEquals(2 * tau / 103e-6, high.of(step).mean(0, end), 1e-13);
    assertEquals(2 * Math.sqrt(tau / 2 / 103e-6), high.of(step).rms(0, end), 1e-13);
    // (1 - e^{-t})^2 over all but a transient: T - 2 + 1/2
    assertEquals(2 * Math.sqrt((100e-6 - 1.5 * tau) / 103e-6), low.of(step).rms(0, end), 1e-13);
    assertEquals(0, low.of(step).rms(-1, 2e-6), 0.0);
    assertEquals(2, high.of(step).maximum(0, end), 1e-15);
    assertEquals(0, high.of(step).minimum(0, end), 1e-15);
  }

  /** The last of many decades: a fast edge and a slow droop in one span. */
  @Test
  void fastAndSlowTogether() {
    Response h = Response.singlePole(1e9).times(Response.highPass(10));
    Output y = h.of(Signals.step(1, 0));
    double a = 2 * Math.PI * 10;
    double b = 2 * Math.PI * 1e9;
    // b/(b - a) (e^{-at} - e^{-bt}): mean over T
    double t = 0.1;
    double mean = b / (b - a) * (-Math.expm1(-a * t) / a - -Math.expm1(-b * t) / b) / t;
    assertEquals(mean, y.mean(0, t), 1e-12);
    double peakAt = Math.log(b / a) / (b - a);
    double peak = b / (b - a) * (Math.exp(-a * peakAt) - Math.exp(-b * peakAt));
    assertEquals(peak, y.maximum(0, t), 1e-12);
    assertTrue(peak < 1);
  }

  @Test
  void identityReadsAsTheSignalDoes() {
    Cases.check(
        3000,
        100,
        random -> {
          Signal s = RandomSignals.any(random).plus(RandomSignals.any(random));
          Output y = Response.identity().of(s);
          double from = random.nextDouble(-1e-6, 1e-6);
          double to = from + Cases.logUniform(random, 1e-8, 1e-6);
          double scale = s.bound();
          assertEquals(s.mean(from, to), y.mean(from, to), 1e-11 * scale);
          assertEquals(s.rms(from, to), y.rms(from, to), 1e-9 * scale);
          assertEquals(s.maximum(from, to), y.maximum(from, to), 1e-12 * scale);
          assertEquals(s.minimum(from, to), y.minimum(from, to), 1e-12 * scale);
          assertEquals(s.periodSeconds(), y.periodSeconds());
        });
  }

  @Test
  void whatItIs() {
    Signal s = Signals.step(1, 0);
    Response h = Response.singlePole(1e6);
    Output y = h.of(s);
    assertEquals(s, y.signal());
    assertEquals(h, y.response());
    assertEquals("step of 1 V at 0 s through single pole, -3 dB at 1 MHz", y.toString());
  }
}
