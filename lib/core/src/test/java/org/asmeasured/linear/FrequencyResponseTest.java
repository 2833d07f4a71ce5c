package org.asmeasured.linear;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import org.apache.commons.math3.complex.Complex;
import org.asmeasured.internal.Cases;
import org.junit.jupiter.api.Test;

/** Complex gain, magnitude, phase and group delay against their formulas. */
class FrequencyResponseTest {
  private static final double F0 = 100e6;

  @Test
  void singlePole() {
    Response h = Response.singlePole(F0);
    for (double f : new double[] {0, 1, 1e6, 50e6, 100e6, 500e6, 1e12}) {
      double x = f / F0;
      assertEquals(1 / Math.sqrt(1 + x * x), h.magnitude(f), 1e-15, "f " + f);
      assertEquals(-Math.atan(x), h.phaseRadians(f), 1e-15, "f " + f);
      double delay = 1 / (2 * Math.PI * F0) / (1 + x * x);
      assertEquals(delay, h.groupDelaySeconds(f), 1e-14 * delay, "f " + f);
      assertEquals(1 / (1 + x * x), h.at(f).getReal(), 1e-15);
      assertEquals(-x / (1 + x * x), h.at(f).getImaginary(), 1e-15);
    }
    assertEquals(1, h.dcGain());
    assertEquals(0, h.directGain());
  }

  /** Reference: a 10 Hz corner's magnitude, phase lead and time lead for sines (closed form). */
  @Test
  void highPass() {
    Response h = Response.highPass(10);
    double[][] table = {
      {10, 0.7071067811865475, 45},
      {20, 0.8944271909999159, 26.565051177078},
      {50, 0.9805806756909202, 11.3099324740202},
      {100, 0.9950371902099891, 5.71059313749964},
      {200, 0.9987523388778447, 2.86240522611175},
      {1000, 0.9999500037496875, 0.572938697683486}
    };
    for (double[] row : table) {
      assertEquals(row[1], h.magnitude(row[0]), 1e-15);
      assertEquals(row[2], Math.toDegrees(h.phaseRadians(row[0])), 1e-12);
    }
    assertEquals(0, h.dcGain());
    assertEquals(1, h.directGain());
    assertEquals(1, h.peakGain(), 1e-6);
    assertEquals(0, h.magnitude(0));
  }

  @Test
  void gainsAndIdentity() {
    assertTrue(Response.identity().isIdentity());
    assertTrue(Response.gain(1).isIdentity());
    Response half = Response.gain(-0.5);
    assertEquals(0.5, half.magnitude(1e9));
    assertEquals(Math.PI, half.phaseRadians(1e9));
    assertEquals(0, half.groupDelaySeconds(1e9));
    assertEquals(-0.5, half.dcGain());
    assertEquals(-0.5, half.directGain());
    assertEquals(0.5, half.peakGain());
  }

  @Test
  void butterworthMagnitudes() {
    for (int n = 1; n <= 10; n++) {
      Response h = Response.butterworth(n, F0);
      for (double x : new double[] {0, 0.1, 0.5, 1, 2, 10, 100}) {
        double expected = 1 / Math.sqrt(1 + Math.pow(x, 2 * n));
        assertEquals(expected, h.magnitude(x * F0), 2e-14 * expected, n + " at " + x);
      }
      assertEquals(1, h.dcGain(), 1e-15);
    }
  }

  /** 1 / sum_{k <= n} (c w^2)^k / k!, with c such that it is one half at w = 1. */
  @Test
  void gaussianMagnitudes() {
    double[] c = {
      1,
      0.7320508075688773,
      0.69888548984633,
      0.693903145629385,
      0.693232600617845,
      0.693155523032245,
      0.693147895993719,
      0.693147235213705
    };
    for (int n = 1; n <= 8; n++) {
      Response h = Response.gaussian(n, F0);
      for (double x : new double[] {0, 0.3, 1, 2, 5}) {
        double term = 1;
        double sum = 1;
        for (int k = 1; k <= n; k++) {
          term *= c[n - 1] * x * x / k;
          sum += term;
        }
        assertEquals(Math.sqrt(1 / sum), h.magnitude(x * F0), 1e-13, n + " at " + x);
      }
    }
  }

  /** theta_n(0) / theta_n(jw): Bessel of order 3 is 15 / (s^3 + 6 s^2 + 15 s + 15). */
  @Test
  void besselMagnitudes() {
    Response h = Response.bessel(3, F0);
    // half power of 225/((15 - 6 w^2)^2 + (15 w - w^3)^2)
    double w3 = 1.755672368681210;
    for (double x : new double[] {0.2, 1, 3}) {
      double w = w3 * x;
      double re = 15 - 6 * w * w;
      double im = 15 * w - w * w * w;
      assertEquals(15 / Math.hypot(re, im), h.magnitude(x * F0), 1e-14);
      double phase = Math.atan2(-im, re);
      assertEquals(phase, h.phaseRadians(x * F0), 1e-13);
    }
  }

  @Test
  void everyShapeIsHalfPowerAtItsBandwidth() {
    for (int n = 1; n <= 10; n++) {
      for (double f : new double[] {1e-9, 20e6}) {
        for (Response h :
            new Response[] {
              Response.butterworth(n, f), Response.bessel(n, f), Response.gaussian(n, f)
            }) {
          assertEquals(Math.sqrt(0.5), h.magnitude(f), 1e-14, h::toString);
          assertEquals(f, h.halfPowerHz(), 1e-12 * f, h::toString);
        }
      }
    }
  }

  /** Group delay at DC = -sum 1/p; reference values for half power at w = 1. */
  @Test
  void delayAtDirectCurrent() {
    double[] butterworth = {1, 1.4142135623731, 2.0, 2.61312592975275, 3.23606797749979};
    double[] bessel = {1, 1.36165412871613, 1.75567236868121, 2.11391767490422, 2.42741070215263};
    double[] gaussian = {1, 1.32940851057113, 1.65264577299138, 1.94225865451915, 2.20042577391833};
    double w = 2 * Math.PI * F0;
    for (int n = 1; n <= 5; n++) {
      assertEquals(butterworth[n - 1], w * Response.butterworth(n, F0).groupDelaySeconds(0), 1e-13);
      assertEquals(bessel[n - 1], w * Response.bessel(n, F0).groupDelaySeconds(0), 1e-13);
      assertEquals(gaussian[n - 1], w * Response.gaussian(n, F0).groupDelaySeconds(0), 1e-13);
    }
  }

  @Test
  void groupDelayIsTheSlopeOfThePhase() {
    Cases.check(
        1,
        300,
        random -> {
          Response h = RandomResponses.any(random);
          double f = Cases.logUniform(random, 1e5, 1e9);
          double d = 1e-4 * f;
          // Richardson: two central differences
          double coarse = slope(h, f, 2 * d);
          double fine = slope(h, f, d);
          double expected = -(4 * fine - coarse) / 3 / (2 * Math.PI);
          double scale = Math.abs(expected) + 1e-3 / f;
          assertEquals(expected, h.groupDelaySeconds(f), 1e-5 * scale, h::toString);
        });
  }

  private static double slope(Response h, double f, double d) {
    double step = h.phaseRadians(f + d) - h.phaseRadians(f - d);
    return (step - 2 * Math.PI * Math.rint(step / (2 * Math.PI))) / (2 * d);
  }

  @Test
  void groupDelayAtAZeroOnTheAxisIsNoNumber() {
    double w = 2 * Math.PI * 1e6;
    Response notch =
        Response.of(
            List.of(new Complex(0, w), new Complex(0, -w)),
            List.of(new Complex(-w, 0), new Complex(-w, 0)),
            1);
    assertEquals(0, notch.magnitude(1e6), 1e-15);
    assertEquals(Double.NaN, notch.groupDelaySeconds(1e6));
    assertEquals(Double.NaN, Response.highPass(10).groupDelaySeconds(0));
    // 2 w / (w^2 + v^2) of the two poles; the zeros add nothing but the jump
    assertEquals(2 / w / (1 + 4), notch.groupDelaySeconds(2e6), 1e-20);
  }

  @Test
  void polesAndZerosMultiplied() {
    Cases.check(
        2000,
        200,
        random -> {
          Response h = RandomResponses.any(random).times(RandomResponses.any(random));
          double f = Cases.logUniform(random, 1e4, 1e10);
          Complex s = new Complex(0, 2 * Math.PI * f);
          Complex product = new Complex(h.gain(), 0);
          List<Complex> zeros = new ArrayList<>(h.zeros());
          for (Complex p : h.poles()) {
            product = product.divide(s.subtract(p));
            if (!zeros.isEmpty()) {
              product = product.multiply(s.subtract(zeros.remove(0)));
            }
          }
          Complex at = h.at(f);
          double size = product.abs();
          assertEquals(product.getReal(), at.getReal(), 1e-13 * size);
          assertEquals(product.getImaginary(), at.getImaginary(), 1e-13 * size);
          assertEquals(size, h.magnitude(f), 1e-13 * size);
          assertEquals(Math.atan2(at.getImaginary(), at.getReal()), h.phaseRadians(f));
        });
  }

  @Test
  void conjugatePairsStayExact() {
    // within 1e-12 the pair is taken for one, and made exact
    Response h =
        Response.of(
            List.of(new Complex(-2, 1 + 1e-14), new Complex(-2, -1)),
            List.of(new Complex(-1, -2), new Complex(-3, 0), new Complex(-1, 2 * (1 + 1e-13))),
            1);
    for (List<Complex> roots : List.of(h.zeros(), h.poles())) {
      for (int i = 0; i < roots.size(); i++) {
        Complex r = roots.get(i);
        if (r.getImaginary() > 0) {
          assertEquals(r.conjugate(), roots.get(i + 1));
        }
      }
    }
    assertEquals(3, h.poles().size());
    assertEquals(0, h.at(0).getImaginary(), "real at DC");
    for (int n = 1; n <= 10; n++) {
      for (Response shape :
          new Response[] {
            Response.butterworth(n, F0), Response.bessel(n, F0), Response.gaussian(n, F0)
          }) {
        assertEquals(n, shape.poles().size());
        for (Complex p : shape.poles()) {
          assertTrue(shape.poles().contains(new Complex(p.getReal(), 0.0 - p.getImaginary())));
          assertTrue(p.getReal() < 0);
        }
      }
    }
  }

  /** A second-order peak of 1/(2 z sqrt(1 - z^2)) (Q about 1/2z), however narrow. */
  @Test
  void peaksHoweverNarrow() {
    for (double q : new double[] {1, 10, 1e3, 1e5}) {
      double z = 1 / (2 * q);
      Response h = resonance(1e6, q).times(Response.singlePole(1e12));
      double peak = 1 / (2 * z * Math.sqrt(1 - z * z));
      assertEquals(peak, h.peakGain(), 1e-10 * peak, "Q " + q);
    }
    // a broad resonance with a narrow one beside it
    Complex p = root(1.3141e5, 1e4);
    Complex zero = root(1.3141e5, 100);
    Response narrow =
        Response.of(List.of(zero, zero.conjugate()), List.of(p, p.conjugate()), 1)
            .times(resonance(1e6, 2))
            .times(Response.highPass(10));
    double at = narrow.magnitude(1.3141e5 / (2 * Math.PI));
    assertTrue(at > 100);
    assertEquals(at, narrow.peakGain(), 1e-6 * at);
  }

  private static Complex root(double w, double q) {
    double re = w / (2 * q);
    return new Complex(-re, Math.sqrt(w * w - re * re));
  }

  private static Response resonance(double w, double q) {
    Complex p = root(w, q);
    return Response.of(List.of(), List.of(p, p.conjugate()), w * w);
  }
}
