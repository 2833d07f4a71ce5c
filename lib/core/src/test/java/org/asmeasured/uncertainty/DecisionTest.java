package org.asmeasured.uncertainty;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.function.Executable;

class DecisionTest {

  @Test
  void oneItem() {
    Tolerance tolerance = Tolerance.atMost(10);
    Distribution near = Distribution.normal(9.5, 0.25);
    Decision simple = Decision.of(tolerance, tolerance, 9.5, near);
    assertTrue(simple.accepted());
    assertEquals(0.9772498680518208, simple.conformanceProbability(), 1e-14);
    assertEquals(1 - 0.9772498680518208, simple.consumersRisk(), 1e-14);
    assertEquals(0, simple.producersRisk());
    Decision guarded = Decision.of(tolerance, tolerance.guarded(0.6), 9.5, near);
    assertFalse(guarded.accepted());
    assertEquals(0, guarded.consumersRisk());
    assertEquals(0.9772498680518208, guarded.producersRisk(), 1e-14);
  }

  /** What is verified at a risk is verified at that risk, whatever is known. */
  @Test
  void smallestLimits() {
    SplittableRandom random = new SplittableRandom(8);
    for (int i = 0; i < 200; i++) {
      long seed = random.nextLong();
      SplittableRandom r = new SplittableRandom(seed);
      double y = r.nextDouble(-5, 5);
      double u = r.nextDouble(0.01, 2);
      Distribution d =
          switch (r.nextInt(4)) {
            case 0 -> Distribution.normal(y, u);
            case 1 -> Distribution.studentT(y, u, r.nextInt(1, 30));
            case 2 -> Distribution.rectangular(y - u, y + u);
            default -> Distribution.triangular(y - u, y + u);
          };
      double risk = Math.pow(10, r.nextDouble(-4, -0.31));
      String what = "seed " + seed + ", " + d.name() + ", risk " + risk;
      double upper = Decision.smallestUpperLimit(d, risk);
      assertEquals(1 - risk, Decision.conformance(Tolerance.atMost(upper), d), 1e-9, what);
      double lower = Decision.greatestLowerLimit(d, risk);
      assertEquals(1 - risk, Decision.conformance(Tolerance.atLeast(lower), d), 1e-9, what);
      assertEquals(
          Decision.guardBand(d, true, risk),
          Decision.guardBand(d, false, risk),
          1e-9 * Math.abs(upper - y) + 1e-12,
          what);
      double nominal = y + r.nextDouble(-1, 1);
      double half = Decision.smallestTolerance(d, nominal, risk);
      assertEquals(
          1 - risk,
          Decision.conformance(Tolerance.between(nominal - half, nominal + half), d),
          1e-9,
          what);
    }
  }

  @Test
  void afterReading() {
    Distribution d = Decision.afterReading(10, 3, 14, 4);
    assertEquals((10 / 9.0 + 14 / 16.0) / (1 / 9.0 + 1 / 16.0), d.estimate(), 1e-13);
    assertEquals(1 / Math.sqrt(1 / 9.0 + 1 / 16.0), d.standardDeviation(), 1e-14);
  }

  /** A rectangular production across one limit, in closed form: R_C = R_P = u_m phi-integral. */
  @Test
  void globalRiskOfARectangularProduction() {
    // far from both ends of the production: integral over t > 0 of (1 - Phi(t/u)) dt = u/sqrt(2 pi)
    double um = 0.01;
    GlobalRisk risk =
        GlobalRisk.of(
            Distribution.rectangular(-1, 1), um, Tolerance.atMost(0.25), Tolerance.atMost(0.25));
    double expected = um / Math.sqrt(2 * Math.PI) / 2;
    assertEquals(0.625, risk.conforming(), 1e-13);
    assertEquals(expected, risk.consumersRisk(), 1e-13);
    assertEquals(expected, risk.producersRisk(), 1e-13);
  }

  /** Counted: 400 000 items drawn and measured; 4.5 standard deviations. */
  @Test
  void globalRiskByCounting() {
    SplittableRandom random = new SplittableRandom(12);
    Tolerance tolerance = Tolerance.between(-1, 2);
    Tolerance acceptance = tolerance.guarded(0.1);
    Distribution production = Distribution.triangular(-1.5, 2.5);
    GlobalRisk risk = GlobalRisk.of(production, 0.2, tolerance, acceptance);
    int n = 400_000;
    int consumers = 0;
    int producers = 0;
    for (int i = 0; i < n; i++) {
      double x = production.quantile(random.nextDouble());
      boolean accepted = acceptance.holds(x + 0.2 * random.nextGaussian());
      consumers += accepted && !tolerance.holds(x) ? 1 : 0;
      producers += !accepted && tolerance.holds(x) ? 1 : 0;
    }
    assertEquals(
        risk.consumersRisk(), consumers / (double) n, 4.5 * Math.sqrt(risk.consumersRisk() / n));
    assertEquals(
        risk.producersRisk(), producers / (double) n, 4.5 * Math.sqrt(risk.producersRisk() / n));
  }

  /** Q(w/u) + Q((2h - w)/u) = risk, by the normal tails; a limit alone w = u z. */
  @Test
  void guardBandOfBothLimits() {
    Distribution d = Distribution.normal(7, 0.1);
    assertEquals(
        0.1644853626951473, Decision.guardBand(d, Tolerance.atMost(9), 0.05).orThrow(), 1e-12);
    assertEquals(
        0.1644853626951473, Decision.guardBand(d, Tolerance.between(0, 9), 0.05).orThrow(), 1e-12);
    for (double half : new double[] {0.1961, 0.2, 0.25, 0.4}) {
      double w = Decision.guardBand(d, Tolerance.between(-half, half), 0.05).orThrow();
      double tails = Normal.survival(w / 0.1) + Normal.survival((2 * half - w) / 0.1);
      assertEquals(0.05, tails, 1e-9, "half = " + half);
      assertTrue(w < half);
    }
    // 1.960 u on either side of an estimate in the middle
    assertFalse(Decision.guardBand(d, Tolerance.between(-0.1959, 0.1959), 0.05).isTaken());
    assertEquals(0, Decision.guardBand(d, Tolerance.between(0, 9), 0.5).orThrow(), 1e-12);
    refused("risk = 0.6", () -> Decision.guardBand(d, Tolerance.atMost(1), 0.6));
    assertThrows(
        NullPointerException.class, () -> Decision.guardBand(null, Tolerance.atMost(1), 0.1));
    assertThrows(NullPointerException.class, () -> Decision.guardBand(d, null, 0.1));
    assertEquals(4, Tolerance.between(3, 5).middle());
    assertFalse(Tolerance.atMost(3).isTwoSided());
    assertThrows(IllegalStateException.class, () -> Tolerance.atLeast(3).middle());
  }

  @Test
  void guardBandForARisk() {
    Distribution production = Distribution.normal(0, 1);
    assertEquals(0, GlobalRisk.guardBand(production, 0.1, Tolerance.between(-9, 9), 1e-3));
    Tolerance one = Tolerance.atMost(1.5);
    double w = GlobalRisk.guardBand(production, 0.2, one, 1e-3);
    assertEquals(1e-3, GlobalRisk.of(production, 0.2, one, one.guarded(w)).consumersRisk(), 1e-9);
  }

  private static void refused(String words, Executable call) {
    String message = assertThrows(IllegalArgumentException.class, call).getMessage();
    assertTrue(message.contains(words), message);
  }

  @Test
  void badInput() {
    Distribution d = Distribution.normal(0, 1);
    Tolerance t = Tolerance.between(-1, 1);
    refused("upper = 1.0", () -> Tolerance.between(1, 1));
    refused("lower = NaN", () -> Tolerance.atLeast(Double.NaN));
    refused("upper = NaN", () -> Tolerance.atMost(Double.NaN));
    refused("one of them must be finite", () -> Tolerance.atMost(Double.POSITIVE_INFINITY));
    refused("width = 1.0", () -> t.guarded(1));
    refused("width = NaN", () -> t.guarded(Double.NaN));
    refused("measured = NaN", () -> Decision.of(t, t, Double.NaN, d));
    refused("risk = 0.0", () -> Decision.smallestUpperLimit(d, 0));
    refused("risk = 0.6", () -> Decision.smallestTolerance(d, 0, 0.6));
    refused("nominal = NaN", () -> Decision.smallestTolerance(d, Double.NaN, 0.1));
    refused("standardUncertainty = 0.0", () -> GlobalRisk.of(d, 0, t, t));
    refused("processDeviation = -1.0", () -> Decision.afterReading(0, -1, 0, 1));
    refused("consumersRisk = 0.0", () -> GlobalRisk.guardBand(d, 1, t, 0));
    refused("conformanceProbability = 1.5", () -> new Decision(true, 1.5));
    assertThrows(NullPointerException.class, () -> Decision.conformance(null, d));
    assertThrows(NullPointerException.class, () -> Decision.conformance(t, null));
    assertThrows(NullPointerException.class, () -> GlobalRisk.of(null, 1, t, t));
  }
}
