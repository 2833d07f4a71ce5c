package org.asmeasured.validation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.apache.commons.statistics.distribution.GammaDistribution;
import org.asmeasured.uncertainty.Decision;
import org.asmeasured.uncertainty.Distribution;
import org.asmeasured.uncertainty.GlobalRisk;
import org.asmeasured.uncertainty.Tolerance;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.Test;

/**
 * Decisions against JCGM 106:2012: its examples as remembered, the figures computed from its
 * formulas with mpmath and SciPy.
 */
class UncertaintyDecisionTest {

  @AfterAll
  static void figures() {
    Evidence.figures();
  }

  private static void holds(String check, double expected, double found, double allowed) {
    double error = Math.abs(found - expected);
    Worst.note(check, error, allowed);
    assertTrue(
        error <= allowed,
        () -> check + ": expected " + expected + ", found " + found + ", off by " + error);
  }

  /** 7.3 and 7.4; the prints, from memory, are 0.92, 0.98 and 0.66. */
  @Test
  void conformanceProbability() {
    holds(
        "7.3 breakdown voltage",
        0.919243340766229,
        Decision.conformance(Tolerance.atMost(-5.40), Distribution.normal(-5.47, 0.05)),
        1e-13);
    holds(
        "7.3 burst pressure",
        0.9832066935515512,
        Decision.conformance(Tolerance.atLeast(490), Distribution.normal(507, 8)),
        1e-13);
    holds(
        "7.4 viscosity",
        0.6626297864953078,
        Decision.conformance(Tolerance.between(12.5, 16.3), Distribution.normal(13.6, 1.8)),
        1e-13);
  }

  /** Table 1: p_c of 0.80 to 0.999 at z = 0.84, 1.28, 1.64, 2.33, 3.09. */
  @Test
  void oneSidedTable() {
    double[][] rows = {{0.80, 0.84}, {0.90, 1.28}, {0.95, 1.64}, {0.99, 2.33}, {0.999, 3.09}};
    for (double[] row : rows) {
      double w = Decision.guardBand(Distribution.normal(7, 1), true, 1 - row[0]);
      assertEquals(row[1], Math.rint(100 * w) / 100);
      double pc = Decision.conformance(Tolerance.atMost(7 + w), Distribution.normal(7, 1));
      assertEquals(row[0], pc, 1e-12);
    }
    // 8.3.2.2: a guard band of U = 2 u keeps a risk of 2.3 %
    double risk = 1 - Decision.conformance(Tolerance.atMost(2), Distribution.normal(0, 1));
    assertEquals(0.023, Math.rint(1000 * risk) / 1000);
  }

  /** Resistors of 1500 ohm +/- 0.2 ohm, u_0 = 0.12 ohm, u_m = 0.04 ohm (9.5, from memory). */
  @Test
  void globalRisksOfResistors() {
    Distribution production = Distribution.normal(1500, 0.12);
    Tolerance tolerance = Tolerance.between(1499.8, 1500.2);
    double[][] rows = {
      {0, 0.018942206717, 0.0372078001781},
      {0.04, 0.00433407222182, 0.114656578408},
      {0.08, 0.00046863359887, 0.247669640201}
    };
    for (double[] row : rows) {
      GlobalRisk risk = GlobalRisk.of(production, 0.04, tolerance, tolerance.guarded(row[0]));
      holds("9.5 resistors conforming", 0.9044192954544, risk.conforming(), 1e-12);
      holds("9.5 resistors consumer", row[1], risk.consumersRisk(), 2e-12);
      holds("9.5 resistors producer", row[2], risk.producersRisk(), 2e-12);
      if (row[0] > 0) {
        double w = GlobalRisk.guardBand(production, 0.04, tolerance, row[1]);
        holds("9.5 resistors guard band", row[0], w, 1e-9);
      }
    }
  }

  /**
   * A production 95 % within +/- 1, simple acceptance, ratios of half the tolerance to U = 2 u_m.
   */
  @Test
  void globalRisksByRatio() {
    Distribution production = Distribution.normal(0, 1 / 1.959963984540054);
    Tolerance tolerance = Tolerance.between(-1, 1);
    double[][] rows = {
      {1, 0.0180115551536, 0.129571580695},
      {2, 0.0133734082821, 0.0417752957543},
      {4, 0.00858266480892, 0.0155365130306},
      {10, 0.00406016936986, 0.00516245549073}
    };
    for (double[] row : rows) {
      GlobalRisk risk = GlobalRisk.of(production, 0.5 / row[0], tolerance, tolerance);
      holds("global consumer", row[1], risk.consumersRisk(), 1e-12);
      holds("global producer", row[2], risk.producersRisk(), 1e-12);
    }
  }

  /** Of the shape of 9.5.4: production gamma(4, rate 4 per um), upper limit 2 um, u_m = 0.25 um. */
  @Test
  void globalRisksOfAGammaProduction() {
    GammaDistribution gamma = GammaDistribution.of(4, 0.25);
    Distribution production =
        Distribution.own("gamma, mean 1, sd 0.5", gamma::inverseCumulativeProbability);
    assertEquals(1, production.estimate(), 1e-8);
    assertEquals(0.5, production.standardDeviation(), 1e-8);
    Tolerance tolerance = Tolerance.atMost(2);
    GlobalRisk simple = GlobalRisk.of(production, 0.25, tolerance, tolerance);
    GlobalRisk guarded = GlobalRisk.of(production, 0.25, tolerance, tolerance.guarded(0.5));
    holds("9.5.4 conforming", 0.9576198880083, simple.conforming(), 1e-10);
    holds("9.5.4 consumer", 0.00801911188429, simple.consumersRisk(), 1e-10);
    holds("9.5.4 producer", 0.0174445692298, simple.producersRisk(), 1e-10);
    holds("9.5.4 consumer, guarded", 0.000199327882342, guarded.consumersRisk(), 1e-10);
    holds("9.5.4 producer, guarded", 0.130825873453, guarded.producersRisk(), 1e-10);
  }
}
