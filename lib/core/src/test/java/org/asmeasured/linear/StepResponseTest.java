package org.asmeasured.linear;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import org.apache.commons.math3.complex.Complex;
import org.asmeasured.signal.Signals;
import org.junit.jupiter.api.Test;

/** Step responses, their rise times and overshoots against closed forms and tables. */
class StepResponseTest {
  private static Response secondOrder(double w, double zeta) {
    Complex p = new Complex(-zeta * w, w * Math.sqrt(1 - zeta * zeta));
    return Response.of(List.of(), List.of(p, p.conjugate()), w * w);
  }

  @Test
  void firstOrder() {
    double tau = 1 / (2 * Math.PI * 1e6);
    Response low = Response.singlePole(1e6);
    Response high = Response.highPass(1e6);
    for (double x : new double[] {0, 1e-6, 0.1, 1, 5, 40}) {
      assertEquals(-Math.expm1(-x), low.stepResponse(x * tau), 1e-15, "x " + x);
      assertEquals(Math.exp(-x), high.stepResponse(x * tau), 1e-15, "x " + x);
    }
    assertEquals(0, low.stepResponse(-1e-9));
    assertEquals(0, high.stepResponse(-1e-9));
    assertEquals(1, high.stepResponse(0));
    assertEquals(-2, Response.gain(-2).stepResponse(0));
    assertEquals(0, Response.gain(-2).stepResponse(-1));
  }

  /** Compensated divider: k0 + (kinf - k0) e^{-t/tau} (elementary). */
  @Test
  void dividerThatIsNotQuiteCompensated() {
    double tau = 20.2e-6;
    double k0 = 0.1;
    double kInf = 0.1 * 1.0891089108910891;
    // H = kinf (s + k0/(kinf tau)) / (s + 1/tau)
    Response h =
        Response.of(
            List.of(new Complex(-k0 / (kInf * tau), 0)), List.of(new Complex(-1 / tau, 0)), kInf);
    for (double x : new double[] {0, 0.5, 2, 24.75}) {
      assertEquals(k0 + (kInf - k0) * Math.exp(-x), h.stepResponse(x * tau), 1e-15);
    }
  }

  /** 1 - e^{-zwt} (cos wd t + z/sqrt(1-z^2) sin wd t). */
  @Test
  void secondOrderAgainstItsFormula() {
    double w = 2 * Math.PI * 50e6;
    for (double z : new double[] {0.01, 0.1, 0.5, 0.70710678, 0.99}) {
      Response h = secondOrder(w, z);
      double root = Math.sqrt(1 - z * z);
      for (double x = 0; x < 30; x += 0.37) {
        double expected =
            1 - Math.exp(-z * x) * (Math.cos(root * x) + z / root * Math.sin(root * x));
        assertEquals(expected, h.stepResponse(x / w), 1e-13, "zeta " + z + ", wt " + x);
      }
    }
  }

  /** Zeta, overshoot %, next undershoot %, time of the peak, 10-90 % (times in 1/w), f3dB/f0. */
  @Test
  void secondOrderAgainstTheTable() {
    double[][] table = {
      {0.1, 72.924761428767, 53.1802082944, 3.1574194169983, 1.1041990327234, 1.5427711592634},
      {0.2, 52.66205993303, 27.7329255639, 3.2063745754047, 1.2034299009253, 1.5095770997591},
      {0.5, 16.303353482158, 2.65799334764, 3.6275987284684, 1.6375729473283, 1.2720196495141},
      {0.8, 1.5164619864547, 0.0229965695636, 5.235987755983, 2.4674926329737, 0.87089631923655}
    };
    double w = 2 * Math.PI * 1e6;
    for (double[] row : table) {
      Response h = secondOrder(w, row[0]);
      Output step = h.of(Signals.step(1, 0));
      assertEquals(1 + row[1] / 100, step.maximum(0, 100 / w), 1e-12, "zeta " + row[0]);
      double peak = row[3] / w;
      assertEquals(1 - row[2] / 100, step.minimum(peak, 100 / w), 1e-11, "zeta " + row[0]);
      assertEquals(1 + row[1] / 100, step.valueAt(peak), 1e-12);
      assertEquals(row[4], h.riseTimeSeconds() * w, 1e-11, "zeta " + row[0]);
      assertEquals(row[5], h.halfPowerHz() / 1e6, 1e-12, "zeta " + row[0]);
    }
  }

  /** 10-90 % times f3dB, overshoot %, ENBW/f3dB: the tables of the classical shapes. */
  @Test
  void shapesAgainstTheTable() {
    check(Response.butterworth(2, 1e6), 0.341870863939979, 4.32139182637722, 1.11072073453959);
    check(Response.butterworth(3, 1e6), 0.364489976968785, 8.14654414460067, 1.0471975511966);
    check(Response.butterworth(4, 1e6), 0.387129947236457, 10.8301508885374, 1.02617215297703);
    check(Response.butterworth(8, 1e6), 0.459519452726035, 16.3440590170736, 1.00645454279956);
    check(Response.bessel(2, 1e6), 0.342067557014657, 0.433342050998313, 1.15359421579103);
    check(Response.bessel(4, 1e6), 0.350129977417767, 0.835419951434914, 1.04636888698638);
    check(Response.bessel(8, 1e6), 0.346616064435948, 0.343940871032304, 1.04410575581691);
    check(Response.gaussian(2, 1e6), 0.342603400022569, 0.050828126530353, 1.18157535046925);
    check(Response.gaussian(4, 1e6), 0.343530767107796, 0.0334606607928528, 1.08198884103877);
    check(Response.gaussian(8, 1e6), 0.341716916030987, 0.00132460469291739, 1.06510595440389);
  }

  private static void check(Response h, double rise, double overshoot, double noise) {
    assertEquals(rise, h.riseTimeSeconds() * 1e6, 2e-10, h::toString);
    double most = h.of(Signals.step(1, 0)).maximum(0, 20e-6);
    assertEquals(overshoot, 100 * (most - 1), 2e-8, h::toString);
    assertEquals(noise, h.equivalentNoiseBandwidthHz() / 1e6, 1e-9, h::toString);
  }

  @Test
  void riseTimesOfGainsAndInversions() {
    assertEquals(0, Response.gain(3).riseTimeSeconds());
    double plain = Response.bessel(4, 1e6).riseTimeSeconds();
    assertEquals(plain, Response.bessel(4, 1e6).scaledBy(-7).riseTimeSeconds(), 1e-12 * plain);
    assertEquals(plain, Response.bessel(4, 1e9).riseTimeSeconds() * 1e3, 1e-12 * plain);
  }

  /** Reference: an edge of r ahead of one pole, tau = 1; 10-90 % of the output. */
  @Test
  void linearEdgeThroughOnePole() {
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
      double t10 = crossing(y, 0.1, 20 * tau);
      double t90 = crossing(y, 0.9, 20 * tau);
      assertEquals(row[1], (t90 - t10) / tau, 1e-12, "edge " + row[0]);
    }
  }

  private static double crossing(Output y, double level, double to) {
    double low = 0;
    double high = to;
    for (int i = 0; i < 200; i++) {
      double middle = (low + high) / 2;
      if (y.valueAt(middle) < level) {
        low = middle;
      } else {
        high = middle;
      }
    }
    return low;
  }
}
