package org.asmeasured.linear;

import static org.asmeasured.internal.Refusals.mismatch;
import static org.asmeasured.internal.Refusals.refused;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

class NoiseFlickerTest {
  private static final double[][] CASES = {
    {1e3, 10},
    {1e5, 1},
    {1e5, 1e-3},
    {1e6, 1e3},
    {1e3, 1e3},
    {1e9, 2e-3},
    {1e-6, 1e-9},
    {1e12, 2},
    {1e3, 5e4}
  };

  private static double square(Response f, double hertz) {
    double m = f.magnitude(hertz);
    return m * m;
  }

  @Test
  void spectrum() {
    for (double[] c : CASES) {
      double corner = c[0];
      double lowest = c[1];
      double highest = 1000 * corner;
      Response f = NoiseFlicker.response(corner, lowest);
      for (double hertz = lowest / 100; hertz < 1e15; hertz *= 1.07) {
        double ratio = corner / hertz;
        double smooth =
            1 + ratio * 2 / Math.PI * (Math.atan(highest / hertz) - Math.atan(lowest / hertz));
        double s = square(f, hertz);
        assertEquals(1, s / smooth, hertz >= 3 * lowest ? 0.0101 : 0.06, "at " + hertz);
        if (hertz >= 3 * lowest && hertz <= highest / 3) {
          // 2/cosh(pi^2/d) with d = ln(10)/2; and the ends, d^2/(12 pi) of each by the midpoint
          // rule
          double allowed = 8e-4 + 0.04 * (lowest / hertz + hertz / highest);
          assertEquals(smooth, s, allowed * (s - 1) + 1e-9, "at " + hertz);
        }
        if (hertz >= 30 * lowest) {
          assertEquals(0, 10 * Math.log10(s / (1 + ratio)), 0.1, "at " + hertz);
        }
      }
      assertEquals(1, f.directGain());
    }
  }

  /** As a sum of first-order noises it would be: the definition, term by term. */
  @Test
  void sumOfFirstOrderNoises() {
    Response f = NoiseFlicker.response(1e5, 100);
    // 100 Hz to 100 MHz: six decades, twelve noises
    assertEquals(12, f.poles().size());
    double d = Math.log(1e6) / 12;
    for (double hertz : new double[] {0, 1, 100, 333, 1e4, 1e5, 7e6, 1e8}) {
      double sum = 1;
      for (int i = 0; i < 12; i++) {
        double at = 100 * Math.exp(d * (i + 0.5));
        sum += 2 / Math.PI * 1e5 * d * at / (hertz * hertz + at * at);
      }
      assertEquals(sum, square(f, hertz), 1e-12 * sum);
    }
  }

  /**
   * The power of the 1/f part is fc ln(fH/fL): through a single pole far above, against the same
   * pole alone.
   */
  @Test
  void power() {
    double corner = 1e4;
    double lowest = 10;
    Response pole = Response.singlePole(1e9);
    Response with = pole.times(NoiseFlicker.response(corner, lowest));
    double more = with.modes().impulseEnergy() / 2 - pole.modes().impulseEnergy() / 2;
    double expected = corner * Math.log(1000 * corner / lowest);
    assertEquals(expected, more, 3e-3 * expected);
  }

  @Test
  void refusals() {
    refused("cornerHz", "Hz", f -> NoiseFlicker.response(f, 1e-8), 0, -1, 0.99e-6, 1.01e12);
    refused("lowestHz", "Hz", f -> NoiseFlicker.response(1e3, f), 0, -1, 0.99e-9, 1.01e12);
    mismatch(
        () -> NoiseFlicker.response(1e3, 50_001), "lowestHz = 50001.0 Hz", "cornerHz = 1000.0 Hz");
    mismatch(() -> NoiseFlicker.response(1e9, 1e-4), "lowestHz = 1.0E-4 Hz", "cornerHz = 1.0E9 Hz");
    assertTrue(NoiseFlicker.response(1e9, 2e-3).poles().size() <= 30);
  }
}
