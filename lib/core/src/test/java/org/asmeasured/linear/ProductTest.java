package org.asmeasured.linear;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import org.apache.commons.math3.complex.Complex;
import org.asmeasured.internal.Cases;
import org.asmeasured.signal.SampleClock;
import org.asmeasured.signal.Signal;
import org.asmeasured.signal.Signals;
import org.junit.jupiter.api.Test;

/** Products of responses: the algebra, any order, any size. */
class ProductTest {
  private static Response product(List<Response> factors) {
    Response product = Response.identity();
    for (Response f : factors) {
      product = product.times(f);
    }
    return product;
  }

  @Test
  void identityChangesNothing() {
    Response pole = Response.singlePole(1e6);
    assertSame(pole, pole.times(Response.identity()));
    assertSame(pole, Response.identity().times(pole));
    assertSame(pole, pole.scaledBy(1));
    assertSame(Response.identity(), Response.identity().times(Response.identity()));
  }

  @Test
  void gainsMultiplyAndRootsGather() {
    Cases.check(
        1,
        200,
        random -> {
          Response a = RandomResponses.any(random);
          Response b = RandomResponses.any(random);
          Response ab = a.times(b);
          assertEquals(a.poles().size() + b.poles().size(), ab.poles().size());
          assertEquals(a.zeros().size() + b.zeros().size(), ab.zeros().size());
          assertTrue(ab.poles().containsAll(a.poles()) && ab.poles().containsAll(b.poles()));
          double f = Cases.logUniform(random, 1e3, 1e10);
          Complex expected = a.at(f).multiply(b.at(f));
          Complex at = ab.at(f);
          assertEquals(0, at.subtract(expected).abs(), 2e-14 * expected.abs());
          assertEquals(a.dcGain() * b.dcGain(), ab.dcGain(), 1e-14);
          assertEquals(a.directGain() * b.directGain(), ab.directGain(), 1e-14);
          double delay = a.groupDelaySeconds(f) + b.groupDelaySeconds(f);
          double scale = Math.abs(a.groupDelaySeconds(f)) + Math.abs(b.groupDelaySeconds(f));
          assertEquals(delay, ab.groupDelaySeconds(f), 1e-13 * scale);
          Response scaled = ab.scaledBy(-3);
          assertEquals(0, scaled.at(f).add(at.multiply(3)).abs(), 1e-14 * scaled.magnitude(f));
        });
  }

  @Test
  void theOrderDoesNotMatter() {
    Cases.check(
        1000,
        25,
        random -> {
          List<Response> factors = new ArrayList<>();
          for (int i = 0; i < 4; i++) {
            factors.add(RandomResponses.any(random));
          }
          Response one = product(factors);
          Collections.shuffle(factors, new Random(random.nextLong()));
          Response other = product(factors);
          for (double f : new double[] {0, 1e4, 3.3e6, 7e7, 2e9}) {
            Complex a = one.at(f);
            assertEquals(0, other.at(f).subtract(a).abs(), 1e-14 * a.abs(), "f " + f);
          }
          Signal signal = Signals.trapezoid(-1, 1, 1e-7, 0.5, 1e-9, 2e-9);
          SampleClock clock = new SampleClock(0, 1e9);
          double[] a = new double[200];
          double[] b = new double[200];
          one.of(signal).sample(clock, 0, a, 0, 200);
          other.of(signal).sample(clock, 0, b, 0, 200);
          double scale = Math.max(1, one.peakGain());
          for (int i = 0; i < 200; i++) {
            assertEquals(a[i], b[i], 1e-10 * scale, "sample " + i);
          }
        });
  }

  @Test
  void manyFastPolesDoNotOverflow() {
    // 1e11^30 = 1e330 is beyond a double
    Response pole = Response.singlePole(1e11 / (2 * Math.PI));
    Response thirty = product(Collections.nCopies(30, pole));
    assertEquals(1, thirty.dcGain(), 1e-14);
    double f = 1e9;
    double one = pole.magnitude(f);
    assertEquals(Math.pow(one, 30), thirty.magnitude(f), 1e-13);
    assertEquals(30 * pole.groupDelaySeconds(0), thirty.groupDelaySeconds(0), 1e-23);
    // far above: (1e11/(2 pi 1e15))^30 is 1e-144
    double far = Math.pow(pole.magnitude(1e15), 30);
    assertEquals(far, thirty.magnitude(1e15), 1e-12 * far);
    // Erlang of order 30: 1 - e^{-x} sum_{k<30} x^k/k!
    for (double x : new double[] {10, 30, 50}) {
      double term = 1;
      double sum = 0;
      for (int k = 0; k < 30; k++) {
        sum += term;
        term *= x / (k + 1);
      }
      assertEquals(1 - Math.exp(-x) * sum, thirty.stepResponse(x / 1e11), 1e-9, "x " + x);
    }
    Response steep = product(Collections.nCopies(3, Response.butterworth(10, 20e9)));
    assertEquals(1, steep.dcGain(), 1e-13);
    assertEquals(Math.pow(0.5, 1.5), steep.magnitude(20e9), 1e-13);
  }

  @Test
  void manySlowPolesDoNotVanish() {
    Response slow = product(Collections.nCopies(4, Response.butterworth(10, 1e-9)));
    assertEquals(1, slow.dcGain(), 1e-13);
    assertEquals(0.25, slow.magnitude(1e-9), 1e-13);
  }

  /** n identical poles: half power at sqrt(2^{1/n} - 1); 10-90 % and ENBW times fp. */
  @Test
  void identicalPoles() {
    double[][] table = {
      {1, 1, 0.3496991525660598, 1.570796326794897},
      {2, 0.6435942529055826, 0.5344277460097901, 0.7853981633974483},
      {3, 0.5098245285339586, 0.6716744458837692, 0.5890486225480862},
      {4, 0.4349794420460823, 0.78559094855769, 0.4908738521234052},
      {8, 0.3008450309798346, 1.132354997793908, 0.32903887900147}
    };
    double fp = 100e6;
    for (double[] row : table) {
      int n = (int) row[0];
      Response h = product(Collections.nCopies(n, Response.singlePole(fp)));
      assertEquals(row[1], h.halfPowerHz() / fp, 1e-13, n + " poles");
      assertEquals(Math.sqrt(Math.pow(2, 1.0 / n) - 1), h.halfPowerHz() / fp, 1e-13);
      assertEquals(row[2], h.riseTimeSeconds() * fp, 1e-12, n + " poles");
      assertEquals(row[3], h.equivalentNoiseBandwidthHz() / fp, 1e-12, n + " poles");
    }
  }

  /** Two real poles a, b: ENBW = (pi/2) a b/(a + b); half power from the quadratic in w^2. */
  @Test
  void twoDifferentPoles() {
    for (double ratio : new double[] {1.0001, 1.5, 10, 1e4}) {
      double a = 20e6;
      double b = a * ratio;
      Response h = Response.singlePole(a).times(Response.singlePole(b));
      assertEquals(
          Math.PI / 2 * a * b / (a + b), h.equivalentNoiseBandwidthHz(), 1e-11 * a, "b/a " + ratio);
      assertEquals(
          9 * Math.PI / 2 * a * b / (a + b),
          h.scaledBy(3).squaredGainIntegralHz(),
          1e-10 * a,
          "a gain of 3 counts");
      double sum = a * a + b * b;
      // the root of the quadratic, without cancelling
      double half = 2 * a * a * b * b / (sum + Math.sqrt(sum * sum + 4 * a * a * b * b));
      assertEquals(Math.sqrt(half), h.halfPowerHz(), 1e-12 * a, "b/a " + ratio);
      double wa = 2 * Math.PI * a;
      double wb = 2 * Math.PI * b;
      double t = 1 / wa;
      double step = 1 - (wb * Math.exp(-wa * t) - wa * Math.exp(-wb * t)) / (wb - wa);
      assertEquals(step, h.stepResponse(t), 1e-11, "b/a " + ratio);
    }
  }

  @Test
  void aHighPassTakesItsShareOfTheNoise() {
    // s/(s + a) over b/(s + b): peak b/(a + b); energy b^2/(2 (a + b)), so ENBW = pi (a + b)/2 Hz
    double a = 1e5;
    double b = 3e6;
    Response h = Response.highPass(a).times(Response.singlePole(b));
    assertEquals(b / (a + b), h.peakGain(), 1e-8, "peak");
    assertEquals(
        Math.PI / 2 * (a + b), h.equivalentNoiseBandwidthHz(), 1e-6 * (a + b), "in step with it");
    assertEquals(Math.PI / 2 * b * b / (a + b), h.squaredGainIntegralHz(), 1e-12 * b);
  }
}
