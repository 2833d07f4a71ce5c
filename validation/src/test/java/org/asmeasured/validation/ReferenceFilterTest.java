package org.asmeasured.validation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Collections;
import java.util.List;
import java.util.function.DoubleUnaryOperator;
import org.apache.commons.math3.analysis.solvers.BrentSolver;
import org.apache.commons.math3.complex.Complex;
import org.asmeasured.linear.Output;
import org.asmeasured.linear.Response;
import org.asmeasured.signal.Signals;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.Test;

/**
 * Filters against the tables under resources/reference, whose heads name the sources, to the digits
 * printed.
 */
class ReferenceFilterTest {
  /**
   * What rounding may do to a value of a step response of height 1: mode amplitudes reach some
   * hundreds.
   */
  private static final double STEP = 1e-12;

  private static final double F3 = 137e6;
  private static final double W3 = 2 * Math.PI * F3;

  static Response shape(String kind, int order, double hz) {
    return switch (kind) {
      case "singlePole" -> Response.singlePole(hz);
      case "butterworth" -> Response.butterworth(order, hz);
      case "bessel" -> Response.bessel(order, hz);
      case "gaussian" -> Response.gaussian(order, hz);
      default -> throw new IllegalArgumentException(kind);
    };
  }

  private static double solve(DoubleUnaryOperator f, double low, double high) {
    return new BrentSolver(1e-15, 1e-300, 0).solve(500, f::applyAsDouble, low, high);
  }

  /** First time at which a waveform that starts below it reaches a level. */
  private static double firstCrossing(Output y, double level, double span) {
    double[] knots = y.knots(0, span);
    for (int i = 1; i < knots.length; i++) {
      if (y.valueAt(knots[i]) >= level) {
        return solve(t -> y.valueAt(t) - level, knots[i - 1], knots[i]);
      }
    }
    throw new AssertionError("level " + level + " is not reached in " + span + " s");
  }

  @Test
  void poles() {
    for (Reference.Row row : Reference.rows("poles")) {
      Response r = shape(row.text("shape"), row.whole("order"), 1 / (2 * Math.PI));
      double re = row.number("real");
      double im = row.number("imaginary");
      assertEquals(row.whole("order"), r.poles().size());
      Complex nearest =
          Collections.min(
              r.poles(),
              (a, b) ->
                  Double.compare(
                      Math.hypot(a.getReal() - re, a.getImaginary() - im),
                      Math.hypot(b.getReal() - re, b.getImaginary() - im)));
      row.check("real", nearest.getReal(), 1e-15);
      row.check("imaginary", nearest.getImaginary(), 1e-15);
    }
  }

  @Test
  void characteristics() {
    for (Reference.Row row : Reference.rows("characteristics")) {
      Response r = shape(row.text("shape"), row.whole("order"), F3);
      Output step = r.of(Signals.step(1, 0));
      double span = 30 / W3;
      row.check("rise1090", r.riseTimeSeconds() * F3, STEP);
      row.check(
          "rise2080", (firstCrossing(step, 0.8, span) - firstCrossing(step, 0.2, span)) * F3, STEP);
      row.check("overshootPercent", 100 * Math.max(0, step.maximum(0, 2 * span) - 1), 100 * STEP);
      // a sum over pairs of modes: for Gaussian 8 its terms are 3e5 times their sum
      row.check("enbw", r.equivalentNoiseBandwidthHz() / F3, 1e-10);
      row.check("dcDelay", r.groupDelaySeconds(0) * W3, 1e-13);
      row.check("t50", firstCrossing(step, 0.5, span) * W3, STEP);
      row.check("levelAtTwice", 20 * Math.log10(r.magnitude(2 * F3)), 1e-12);
    }
  }

  @Test
  void halfPowerOfEveryShape() {
    for (String kind : List.of("butterworth", "bessel", "gaussian")) {
      for (int n = 1; n <= 10; n++) {
        for (double hz : new double[] {1e-3, 10, 20e6, 1.7e9, 1e14}) {
          Response r = shape(kind, n, hz);
          double found = r.halfPowerHz();
          double error = Math.abs(found / hz - 1);
          double power = r.magnitude(hz) * r.magnitude(hz);
          Worst.note("half power, found", error, 1e-9);
          Worst.note("half power, power less one half", Math.abs(power - 0.5), 1e-9);
          assertTrue(
              error <= 1e-9, kind + " " + n + " at " + hz + " Hz: half power at " + found + " Hz");
          assertEquals(0.5, power, 1e-9, kind + " " + n + " at " + hz + " Hz: |H|^2");
          assertEquals(1, r.dcGain(), 1e-12, kind + " " + n + ": gain at DC");
        }
      }
    }
  }

  @Test
  void equalPoles() {
    double fp = 3e6;
    for (Reference.Row row : Reference.rows("equal-poles")) {
      Response r = Response.identity();
      for (int i = 0; i < row.whole("n"); i++) {
        r = r.times(Response.singlePole(fp));
      }
      row.check("f3dB", r.halfPowerHz() / fp, STEP);
      row.check("rise1090fp", r.riseTimeSeconds() * fp, STEP);
      row.check("rise1090f3dB", r.riseTimeSeconds() * r.halfPowerHz(), STEP);
      row.check("enbw", r.equivalentNoiseBandwidthHz() / fp, STEP);
      Output step = r.of(Signals.step(1, 0));
      for (double x : new double[] {0.01, 0.3, 1, 3, 10, 40}) {
        double sum = 0;
        double term = 1;
        for (int k = 0; k < row.whole("n"); k++) {
          sum += term;
          term *= x / (k + 1);
        }
        double y = step.valueAt(x / (2 * Math.PI * fp));
        assertEquals(1 - Math.exp(-x) * sum, y, 1e-12, row.text("n") + " equal poles, x = " + x);
      }
    }
  }

  @Test
  void settledSquareThroughAcCoupling() {
    Response ac = Response.highPass(10);
    for (Reference.Row row : Reference.rows("ac-coupling-square")) {
      double f = row.number("hertz");
      double period = 1 / f;
      Output y = ac.of(Signals.square(-1, 1, period, 0.5));
      double start = y.valueAt(0);
      double end = y.valueBefore(period / 2);
      row.check("start", start, 1e-13);
      row.check("end", end, 1e-13);
      row.check("sag", 1 - end / start, 1e-13);
      row.check("tilt", (start - end) / 2, 1e-13);
      row.check("peakToPeak", (y.maximum(0, period) - y.minimum(0, period)) / 2, 1e-13);
      row.check("rms", y.rms(0, period), 1e-13);
      assertEquals(0, y.mean(0, period), 1e-13);
      assertEquals(-start, y.valueAt(period / 2), 1e-13);
    }
  }

  @Test
  void recordOfTwoMicrosecondsHasNoTransient() {
    // design, section 2: levels +/-A start at 2A/(1 + x) and end at that times x, x = exp(-T/(2
    // tau))
    double tau = 1 / (2 * Math.PI * 10);
    Output y = Response.highPass(10).of(Signals.square(-1, 1, 1e-3, 0.5));
    double x = Math.exp(-0.5e-3 / tau);
    for (int k = 0; k < 2000; k++) {
      double t = k * 1e-9;
      assertEquals(2 / (1 + x) * Math.exp(-t / tau), y.valueAt(t), 2e-9, "t = " + t + " s");
      assertEquals(
          2 / (1 + x) * Math.exp(-t / tau), y.valueAt(t), 1e-13, "t = " + t + " s, to rounding");
    }
  }

  @Test
  void sineThroughAcCoupling() {
    Response ac = Response.highPass(10);
    for (Reference.Row row : Reference.rows("ac-coupling-sine")) {
      double f = row.number("hertz");
      row.check("magnitude", ac.magnitude(f), 1e-15);
      row.check("amplitudeErrorPercent", 100 * (ac.magnitude(f) - 1), 1e-13);
      row.check("leadDegrees", Math.toDegrees(ac.phaseRadians(f)), 1e-13);
      row.check("leadSeconds", ac.phaseRadians(f) / (2 * Math.PI * f), 1e-17);
      Output y = ac.of(Signals.sine(1, f));
      double top = y.maximum(0, 1 / f);
      assertEquals(row.number("magnitude"), top, 1e-12, "peak of the settled sine at " + f + " Hz");
    }
  }

  @Test
  void dividerWithTrimmerError() {
    double r1 = 9e6;
    double r2 = 1e6;
    double c2 = 20e-12;
    for (Reference.Row row : Reference.rows("divider")) {
      double c1 = (1 + row.number("trimmerError")) * r2 * c2 / r1;
      double tau = r1 * r2 / (r1 + r2) * (c1 + c2);
      double direct = c1 / (c1 + c2);
      Response h =
          Response.of(
              List.of(new Complex(-1 / (r1 * c1), 0)), List.of(new Complex(-1 / tau, 0)), direct);
      Output step = h.of(Signals.step(1, 0));
      row.check("stepError", step.valueAt(0) / 0.1 - 1, 1e-14);
      row.check("at100Hz", h.magnitude(100) / 0.1, 1e-14);
      row.check("at1kHz", h.magnitude(1e3) / 0.1, 1e-14);
      row.check("at10kHz", h.magnitude(1e4) / 0.1, 1e-14);
      row.check("at100kHz", h.magnitude(1e5) / 0.1, 1e-14);
      row.check("at1MHz", h.magnitude(1e6) / 0.1, 1e-14);
      for (double t : new double[] {0, 1e-6, 20e-6, 100e-6}) {
        assertEquals(0.1 + (direct - 0.1) * Math.exp(-t / tau), step.valueAt(t), 1e-15);
      }
    }
  }

  private static Response secondOrder(double w0, double zeta) {
    double re = -zeta * w0;
    double im = w0 * Math.sqrt(1 - zeta * zeta);
    return Response.of(List.of(), List.of(new Complex(re, im), new Complex(re, -im)), w0 * w0);
  }

  @Test
  void groundLead() {
    for (Reference.Row row : Reference.rows("ground-lead")) {
      double l = row.number("nanohenries") * 1e-9;
      double c = row.number("picofarads") * 1e-12;
      double w0 = 1 / Math.sqrt(l * c);
      double zeta = 25 * Math.sqrt(c / l);
      Response h = secondOrder(w0, zeta);
      row.check("f0", w0 / (2 * Math.PI), 0);
      row.check("zeta", zeta, 0);
      row.check("peak", h.peakGain(), 1e-12);
      row.check("peak", h.magnitude(w0 / (2 * Math.PI) * Math.sqrt(1 - 2 * zeta * zeta)), 1e-12);
      row.check(
          "overshootPercent",
          100 * (h.of(Signals.step(1, 0)).maximum(0, 20 / (zeta * w0)) - 1),
          100 * STEP);
      double target = Math.sqrt(0.5);
      double f3 = solve(f -> h.magnitude(f) - target, w0 / (2 * Math.PI), 10 * w0);
      row.check("f3dB", f3, 0);
    }
  }

  @Test
  void secondOrderStep() {
    double w0 = 2e8;
    for (Reference.Row row : Reference.rows("second-order")) {
      // 0.7071067812 stands for 1/sqrt(2): the other figures of that row are those of the
      // Butterworth pair
      double zeta = row.text("zeta").equals("0.7071067812") ? Math.sqrt(0.5) : row.number("zeta");
      Response h = secondOrder(w0, zeta);
      Output step = h.of(Signals.step(1, 0));
      double wd = w0 * Math.sqrt(1 - zeta * zeta);
      double span = 40 / (zeta * w0);
      row.check("overshootPercent", 100 * (step.maximum(0, span) - 1), 100 * STEP);
      row.check(
          "nextUndershootPercent",
          100 * (1 - step.minimum(1.5 * Math.PI / wd, 2.5 * Math.PI / wd)),
          100 * STEP);
      row.check("t10", firstCrossing(step, 0.1, span) * w0, STEP);
      row.check("t50", firstCrossing(step, 0.5, span) * w0, STEP);
      row.check("rise1090", h.riseTimeSeconds() * w0, STEP);
      row.check("settle5", lastEntry(step, 0.05, span) * w0, 1e-11);
      row.check("settle2", lastEntry(step, 0.02, span) * w0, 1e-11);
      row.check("settle1", lastEntry(step, 0.01, span) * w0, 1e-11);
      double f0 = w0 / (2 * Math.PI);
      double target = Math.sqrt(0.5);
      row.check("f3dB", solve(f -> h.magnitude(f) - target, f0 / 3, 3 * f0) / f0, STEP);
    }
  }

  /** When a step response enters a band about 1 for good. */
  private static double lastEntry(Output step, double band, double span) {
    double[] knots = step.knots(0, span);
    for (int i = knots.length - 1; i > 0; i--) {
      double v = step.valueAt(knots[i - 1]) - 1;
      if (Math.abs(v) > band) {
        double level = 1 + Math.copySign(band, v);
        return solve(t -> step.valueAt(t) - level, knots[i - 1], knots[i]);
      }
    }
    throw new AssertionError("always within " + band);
  }

  @Test
  void linearEdgeThroughOnePole() {
    // reference: y = (t - (1 - e^-t))/r up to r, 1 - (e^r - 1) e^-t/r after; 10-90 % by root
    // finding on it
    double[][] table = {
      {0.5, 2.229169599156147},
      {1, 2.360726779398669},
      {2, 2.757263878340395},
      {5, 4.488095993794793}
    };
    double tau = 1e-9;
    Response pole = Response.singlePole(1 / (2 * Math.PI * tau));
    for (double[] row : table) {
      Output y = pole.of(Signals.ramp(1, 0, row[0] * tau));
      double rise = (firstCrossing(y, 0.9, 30 * tau) - firstCrossing(y, 0.1, 30 * tau)) / tau;
      Worst.note("linear edge through one pole", Math.abs(rise - row[1]), 1e-12);
      assertEquals(row[1], rise, 1e-12, "edge of " + row[0] + " tau");
    }
  }

  @AfterAll
  static void table() {
    Evidence.figures();
  }
}
