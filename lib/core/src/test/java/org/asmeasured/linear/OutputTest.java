package org.asmeasured.linear;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import org.apache.commons.math3.complex.Complex;
import org.asmeasured.signal.SampleClock;
import org.asmeasured.signal.Signal;
import org.asmeasured.signal.Signals;
import org.junit.jupiter.api.Test;

/** The exact core against closed forms that can be written down in a line. */
class OutputTest {
  private static final double TAU = 1 / (2 * Math.PI * 100e6);

  private static double[] sampled(Output output, SampleClock clock, long first, int count) {
    double[] out = new double[count];
    output.sample(clock, first, out, 0, count);
    return out;
  }

  @Test
  void stepThroughSinglePole() {
    Output y = Response.singlePole(100e6).of(Signals.step(1, 3.3e-10));
    SampleClock clock = new SampleClock(0, 1e9);
    double[] v = sampled(y, clock, 0, 2000);
    for (int k = 0; k < v.length; k++) {
      double t = k / 1e9 - 3.3e-10;
      assertEquals(t < 0 ? 0 : -Math.expm1(-t / TAU), v[k], 1e-13, "sample " + k);
    }
  }

  @Test
  void exponentialEdgeOnThePoleItself() {
    // 1 - (1 + t/tau) e^{-t/tau}: two equal poles
    for (double apart : new double[] {0, 1e-14, 1e-12, 1e-9, 1e-6}) {
      Output y = Response.singlePole(100e6).of(Signals.exponentialEdge(1, 0, TAU * (1 + apart)));
      double[] v = sampled(y, new SampleClock(0, 1e9), 0, 100);
      for (int k = 0; k < v.length; k++) {
        double x = k / 1e9 / TAU;
        assertEquals(1 - (1 + x) * Math.exp(-x), v[k], 1e-12 + apart, "sample " + k);
        assertEquals(v[k], y.valueAt(k / 1e9), 1e-13);
      }
    }
  }

  @Test
  void identicalPolesAreErlang() {
    for (int n = 1; n <= 8; n++) {
      for (double apart : new double[] {0, 1e-13, 1e-10}) {
        List<Complex> poles = new ArrayList<>();
        double gain = 1;
        for (int i = 0; i < n; i++) {
          double p = 1 / TAU * (1 + i * apart);
          poles.add(new Complex(-p, 0));
          gain *= p;
        }
        Output y = Response.of(List.of(), poles, gain).of(Signals.step(1, 0.25e-9));
        double[] v = sampled(y, new SampleClock(0, 1e9), 0, 700);
        for (int k = 1; k < v.length; k++) {
          double x = (k / 1e9 - 0.25e-9) / TAU;
          double term = 1;
          double sum = 0;
          for (int i = 0; i < n; i++) {
            sum += term;
            term *= x / (i + 1);
          }
          assertEquals(
              1 - Math.exp(-x) * sum, v[k], 1e-12 + 10 * n * apart, n + " poles, sample " + k);
          assertEquals(v[k], y.valueAt(k / 1e9), 1e-12);
        }
      }
    }
  }

  /**
   * Millman and Halkias, Integrated Electronics (from memory): the settled tilt of a square under
   * AC coupling.
   */
  @Test
  void settledSquareUnderAcCoupling() {
    double period = 1e-3;
    Output y = Response.highPass(10).of(Signals.square(-1, 1, period, 0.5));
    double x = Math.exp(-Math.PI * 10 * period);
    assertEquals(2 / (1 + x), y.valueAt(0), 1e-13);
    assertEquals(2 * x / (1 + x), y.valueBefore(0.5e-3), 1e-13);
    // a 2 us record in the middle of the plateau, with no transient in it
    double[] v = sampled(y, new SampleClock(100e-6, 1e9), 0, 2000);
    for (int k = 0; k < v.length; k++) {
      double t = 100e-6 + k / 1e9;
      assertEquals(2 / (1 + x) * Math.exp(-2 * Math.PI * 10 * t), v[k], 1e-12);
    }
  }

  @Test
  void sineAtAnyInstant() {
    double f = 123_456_789.0;
    Response h = Response.bessel(4, 200e6).times(Response.highPass(10));
    Output y = h.of(Signals.sine(1, f, 0.3));
    double[] v = sampled(y, new SampleClock(0, 1e9), 1_000_000_000L, 3000);
    Complex g = h.at(f);
    for (int k = 0; k < v.length; k++) {
      // f / rate is 123456789 / 10^9 exactly: reduce in whole numbers
      long cycles = 123_456_789L * (1_000_000_000L + k) % 1_000_000_000L;
      double angle = 2 * Math.PI * (cycles / 1e9) + 0.3;
      double expected = g.getReal() * Math.sin(angle) + g.getImaginary() * Math.cos(angle);
      assertEquals(expected, v[k], 1e-12, "sample " + k);
    }
  }

  /**
   * Superposition of corners, H(0) = 0: sum over corners of slope change times sum of c_i (e^{p_i
   * t} - 1).
   */
  @Test
  void trapezoidFromRestThroughEightPoles() {
    Response h = chain();
    double period = 987.654321e-9;
    double edge = 3e-9;
    List<double[]> corners = new ArrayList<>();
    Signal signal = null;
    for (int k = 0; k < 4; k++) {
      double start = k * 1.3 * period;
      corners.add(new double[] {start, 1 / edge});
      corners.add(new double[] {start + edge, -1 / edge});
      corners.add(new double[] {start + period / 2, -1 / edge});
      corners.add(new double[] {start + period / 2 + edge, 1 / edge});
      Signal pulse = Signals.pulse(1, start, period / 2, edge, edge);
      signal = signal == null ? pulse : signal.plus(pulse);
    }
    Output y = h.of(signal);
    double[] v = sampled(y, new SampleClock(0, 1e9), 0, 6000);
    List<Complex> p = h.poles();
    Complex[] c = new Complex[p.size()];
    for (int i = 0; i < c.length; i++) {
      c[i] = new Complex(1, 0);
      int z = 0;
      for (int k = 0; k < c.length; k++) {
        if (k != i) {
          c[i] = c[i].divide(p.get(i).subtract(p.get(k)));
          if (z < h.zeros().size()) {
            c[i] = c[i].multiply(p.get(i).subtract(h.zeros().get(z++)));
          } else {
            c[i] = c[i].multiply(1e9);
          }
        }
      }
      c[i] =
          c[i].multiply(h.gain() / Math.pow(1e9, c.length - 1 - h.zeros().size()))
              .divide(p.get(i).multiply(p.get(i)));
    }
    for (int k = 0; k < v.length; k++) {
      double sum = 0;
      for (double[] corner : corners) {
        double t = k / 1e9 - corner[0];
        if (t > 0) {
          for (int i = 0; i < c.length; i++) {
            Complex e = p.get(i).multiply(t);
            double er =
                p.get(i).getImaginary() == 0 ? Math.expm1(e.getReal()) : e.exp().getReal() - 1;
            sum += corner[1] * (c[i].getReal() * er - c[i].getImaginary() * e.exp().getImaginary());
          }
        }
      }
      assertEquals(sum, v[k], 1e-11, "sample " + k);
      assertEquals(v[k], y.valueAt(k / 1e9), 1e-12, "sample " + k);
    }
  }

  private static Response chain() {
    double r1c1 = 9e6 * (108e-12 / 9 * 1.05);
    double tau = 9e6 * 1e6 / 1e7 * (108e-12 / 9 * 1.05 + 108e-12);
    Response probe =
        Response.of(
            List.of(new Complex(-1 / r1c1, 0)), List.of(new Complex(-1 / tau, 0)), r1c1 / tau);
    return probe
        .times(Response.highPass(10))
        .times(Response.bessel(4, 200e6))
        .times(Response.butterworth(2, 20e6));
  }

  @Test
  void anyBlocksGiveTheSameBits() {
    SplittableRandom random = new SplittableRandom(7);
    Signal signal =
        Signals.trapezoid(-1, 1, 987.654321e-9, 0.4, 3e-9, 5e-9)
            .plus(Signals.sine(0.1, 3.21e6))
            .plus(Signals.dampedRinging(0.3, 40e6, 80e-9, 1e-6))
            .plus(Signals.burst(0.2, 11e6, 30, 2e-6));
    Output y = chain().of(signal);
    SampleClock clock = new SampleClock(-1.7e-6, 1.25e9);
    int n = 10_000;
    double[] whole = sampled(y, clock, -2000, n);
    OutputSampler sampler = y.sampler(clock);
    for (int i = 0; i < 2000; i++) {
      int from = random.nextInt(n);
      int count = Math.min(n - from, 1 + random.nextInt(random.nextInt(1, 1500)));
      double[] part = new double[count];
      sampler.read(from - 2000L, part, 0, count);
      for (int j = 0; j < count; j++) {
        assertEquals(whole[from + j], part[j], "sample " + (from + j));
      }
    }
    for (int k = 0; k < n; k += 7) {
      assertEquals(whole[k], y.valueAt(clock.timeSeconds(k - 2000)), 1e-7);
    }
  }

  @Test
  void recordedPolylineThroughIdentityAndBack() {
    double[] v = new double[1000];
    SplittableRandom random = new SplittableRandom(3);
    for (int i = 0; i < v.length; i++) {
      v[i] = random.nextDouble(-1, 1);
    }
    Signal signal = Signals.recorded(0, 360, v);
    double[] out = sampled(Response.identity().of(signal), new SampleClock(0, 360), 0, 1000);
    for (int i = 0; i < v.length; i++) {
      assertEquals(v[i], out[i], 1e-12);
    }
    Output y = Response.butterworth(2, 40).of(signal);
    assertTrue(Math.abs(y.valueAt(100) - v[999]) < 1e-12);
  }
}
