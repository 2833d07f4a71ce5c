package org.asmeasured.validation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.apache.commons.math3.complex.Complex;
import org.asmeasured.capture.Record;
import org.asmeasured.capture.Setup;
import org.asmeasured.linear.Response;
import org.asmeasured.measure.Measured;
import org.asmeasured.measure.Reading;
import org.asmeasured.pulse.PulseAnalysis;
import org.asmeasured.pulse.PulseMethod;
import org.asmeasured.pulse.PulseQuantity;
import org.asmeasured.pulse.PulseReadings;
import org.asmeasured.pulse.ReferenceLevels;
import org.asmeasured.pulse.StateLevels;
import org.asmeasured.pulse.Summary;
import org.asmeasured.signal.Signal;
import org.asmeasured.signal.Signals;
import org.asmeasured.signal.Waveform;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.Test;

/** Pulse readings of the truth against published tables and textbook formulas. */
class PulseReferenceTest {
  private static final PulseMethod UNIT = PulseMethod.standard().levels(StateLevels.given(0, 1));

  private static Measured of(Waveform step, double from, double to, PulseQuantity quantity) {
    return PulseAnalysis.of(step, from, to, UNIT.region(20)).value(quantity, Summary.FIRST);
  }

  /**
   * Second-order step, textbook formulas; settling times are given from t = 0, the Standard counts
   * from the 50 % instant (IEEE Std 181, transition settling duration; clause from memory).
   */
  @Test
  void secondOrderStep() {
    int rows = 0;
    for (Reference.Row row : Reference.rows("second-order")) {
      // printed with ten digits, meant as the root of one half
      double z = row.text("zeta").startsWith("0.7071") ? Math.sqrt(0.5) : row.number("zeta");
      var pole = new Complex(-z, Math.sqrt(1 - z * z));
      Waveform step =
          Response.of(List.of(), List.of(pole, pole.conjugate()), 1).of(Signals.step(1, 0));
      PulseAnalysis pulses = PulseAnalysis.of(step, -5, 150, UNIT.region(20));
      double t50 = pulses.transitions().get(0).midSeconds() - 5;
      row.check("t50", t50, 2e-12);
      row.check("t10", pulses.transitions().get(0).low().orThrow() - 5, 2e-12);
      row.check("rise1090", of(step, -5, 150, PulseQuantity.RISE_TIME).orThrow(), 2e-12);
      row.check(
          "overshootPercent", of(step, -5, 150, PulseQuantity.OVERSHOOT_RISING).orThrow(), 1e-11);
      row.check(
          "nextUndershootPercent",
          of(step, -5, 150, PulseQuantity.UNDERSHOOT_RISING).orThrow(),
          1e-10);
      for (int percent : new int[] {5, 2, 1}) {
        Reading settling =
            PulseReadings.of(PulseQuantity.SETTLING_RISING, UNIT.settling(percent, 3));
        row.check("settle" + percent, t50 + settling.of(step, -5, 150).orThrow(), 1e-10);
      }
      rows++;
    }
    assertTrue(rows >= 5, "rows: " + rows);
  }

  /** Tables of filter shapes: Butterworth 1930, Thomson 1949, Zverev 1967 ch. 3 (from memory). */
  @Test
  void stepsOfFilters() {
    PulseMethod twenty = UNIT.references(ReferenceLevels.percent(20, 50, 80)).region(20);
    for (Reference.Row row : Reference.rows("characteristics")) {
      double f3 = 200e6;
      Response response = ReferenceFilterTest.shape(row.text("shape"), row.whole("order"), f3);
      Waveform step = response.of(Signals.step(1, 0));
      double end = 40 / f3;
      Measured rise = of(step, -1 / f3, end, PulseQuantity.RISE_TIME);
      row.check("rise1090", rise.orThrow() * f3, 1e-12);
      Reading inner = PulseReadings.of(PulseQuantity.RISE_TIME, twenty);
      row.check("rise2080", inner.of(step, -1 / f3, end).orThrow() * f3, 1e-12);
      double overshoot = of(step, -1 / f3, end, PulseQuantity.OVERSHOOT_RISING).orThrow();
      // rounding of the response, which for Gaussian 8 is a sum of terms 3e5 times as large
      row.check("overshootPercent", overshoot, 1e-8);
    }
  }

  /** Exponential edge: ln 9, ln 4, settling to 1 % from the 50 % instant ln 50 (elementary). */
  @Test
  void exponentialEdge() {
    double tau = 3e-9;
    Signal edge = Signals.exponentialEdge(1, 0, tau);
    double rise = of(edge, -tau, 60 * tau, PulseQuantity.RISE_TIME).orThrow();
    assertEquals(2.197224577336219, rise / tau, 1e-12);
    Reading inner =
        PulseReadings.of(
            PulseQuantity.RISE_TIME, UNIT.references(ReferenceLevels.percent(20, 50, 80)));
    assertEquals(1.386294361119891, inner.of(edge, -tau, 60 * tau).orThrow() / tau, 1e-12);
    Reading settling = PulseReadings.of(PulseQuantity.SETTLING_RISING, UNIT.settling(1, 3));
    assertEquals(3.912023005428146, settling.of(edge, -tau, 60 * tau).orThrow() / tau, 1e-11);
  }

  /** Over whole cycles, wherever the span begins: elementary integrals. */
  @Test
  void wholeCyclesOfPeriodicWaveforms() {
    double a = 1.7;
    double t = 1e-6;
    cycles(Signals.sine(a, 1 / t, 0.4), t, 0, 0.7071067811865475 * a);
    cycles(Signals.square(-a, a, t, 0.5), t, 0, a);
    cycles(Signals.square(0, a, t, 0.3), t, 0.3 * a, a * Math.sqrt(0.3));
    cycles(Signals.triangle(-a, a, t, 0.3), t, 0, 0.5773502691896258 * a);
    cycles(Signals.trapezoid(-a, a, t, 0.5, 0.1 * t, 0.1 * t), t, 0, a * Math.sqrt(1 - 4.0 / 30));
    cycles(Signals.pulseTrain(0, 3, 10, 5.5, 1, 2).delayedBy(2.2), 10, 1.65, 2.121320343559643);
    Reading duty = PulseReadings.of(PulseQuantity.DUTY_FACTOR);
    assertEquals(55, duty.of(Signals.pulseTrain(0, 3, 10, 5.5, 1, 2), 1.3, 38).orThrow(), 1e-11);
    assertEquals(30, duty.of(Signals.square(0, a, t, 0.3), 0.1 * t, 4.3 * t).orThrow(), 1e-11);
    assertEquals(50, duty.of(Signals.sine(a, 1 / t, 0.4), 0, 4.3 * t).orThrow(), 1e-10);
  }

  private static void cycles(Signal signal, double period, double mean, double rms) {
    for (double from : new double[] {0, 0.17 * period, -0.71 * period}) {
      double to = from + 3.6 * period;
      check(signal, from, to, PulseQuantity.PERIOD, period);
      check(signal, from, to, PulseQuantity.FREQUENCY, 1 / period);
      check(signal, from, to, PulseQuantity.CYCLE_MEAN, mean);
      check(signal, from, to, PulseQuantity.CYCLE_RMS, rms);
      check(signal, from, to, PulseQuantity.CYCLE_AC_RMS, Math.sqrt((rms - mean) * (rms + mean)));
    }
  }

  private static void check(
      Signal signal, double from, double to, PulseQuantity quantity, double expected) {
    double got = PulseReadings.of(quantity).of(signal, from, to).orThrow();
    double allowed = 2e-12 * Math.max(Math.abs(expected), quantity.unit().equals("V") ? 2 : 0);
    Worst.note("pulse: " + quantity.words() + " of the truth", Math.abs(got - expected), allowed);
    assertEquals(expected, got, allowed, quantity.words() + " of " + signal);
  }

  /**
   * A settled square through a first-order high-pass (Millman and Halkias, Integrated Electronics,
   * tilt of a square wave, from memory). A straight line in least squares falls by what the
   * exponential falls by, up to a sixtieth of the square of the share of a time constant.
   */
  @Test
  void tiltOfACoupledSquare() {
    int rows = 0;
    for (Reference.Row row : Reference.rows("ac-coupling-square")) {
      double hertz = row.number("hertz");
      Waveform output = Response.highPass(10).of(Signals.square(-1, 1, 1 / hertz, 0.5));
      PulseMethod method = PulseMethod.standard().levels(StateLevels.given(-1, 1)).flat(100);
      PulseAnalysis pulses = PulseAnalysis.of(output, 0.1 / hertz, 3.3 / hertz, method);
      double over = pulses.value(PulseQuantity.OVERSHOOT_RISING, Summary.FIRST).orThrow();
      row.check("start", 1 + 2 * over / 100, 1e-11);
      if (row.number("end") < 0.8) {
        // below 90 % the top is no state any more
        continue;
      }
      double share = Math.PI * 10 / hertz;
      double tilt = pulses.value(PulseQuantity.TILT_HIGH, Summary.MEAN).orThrow() / 100;
      row.check("tilt", tilt, tilt * share * share / 60 + 1e-12);
      double low = pulses.value(PulseQuantity.TILT_LOW, Summary.MEAN).orThrow() / 100;
      assertEquals(tilt, low, 1e-11);
      rows++;
    }
    assertTrue(rows >= 4, "rows: " + rows);
  }

  /** The record with known answers: rising 10, 50, 90 % at 21, 25, 29, falling at 62, 70, 78. */
  @Test
  void recordWithKnownAnswers() {
    double[] y = new double[100];
    for (int n = 0; n < 100; n++) {
      y[n] = n <= 60 ? Math.min(1, Math.max(0, (n - 20) / 10.0)) : Math.max(0, 1 - (n - 60) / 20.0);
    }
    Record record = Record.of(0, 1, y);
    assertEquals(8, PulseReadings.riseTime().of(record).orThrow(), 1e-12);
    assertEquals(16, PulseReadings.fallTime().of(record).orThrow(), 1e-12);
    assertEquals(45, PulseReadings.of(PulseQuantity.POSITIVE_DURATION).of(record).orThrow(), 1e-12);
    assertEquals(0, StateLevels.histogramMode().of(record).lowVolts(), 0);
    assertEquals(1, StateLevels.histogramMode().of(record).highVolts(), 0);
  }

  /** Linear interpolation errs by h^2/8 of the curvature over the slope: ln 9 of an RC step. */
  @Test
  void interpolationErrorIsAsStated() {
    Signal edge = Signals.exponentialEdge(1, 0, 1);
    for (double h : new double[] {0.1, 0.05, 0.03, 0.01}) {
      Record record = Setup.ideal(1 / h, (int) (45 / h)).startingAt(-1 - 0.37 * h).capture(edge);
      double rise = PulseReadings.riseTime(0, 1).of(record).orThrow();
      assertEquals(2.197224577336219, rise, 2 * h * h / 8 * 1.1, "interval " + h);
    }
  }

  @AfterAll
  static void table() {
    Evidence.figures();
  }
}
