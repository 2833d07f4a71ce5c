package org.asmeasured.uncertainty;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.SplittableRandom;
import org.apache.commons.statistics.distribution.NormalDistribution;
import org.apache.commons.statistics.distribution.TDistribution;
import org.apache.commons.statistics.distribution.TrapezoidalDistribution;
import org.junit.jupiter.api.Test;

/** Every distribution against its closed form, Commons Statistics and its own moments. */
class DistributionTest {
  private static final List<Distribution> ALL =
      List.of(
          Distribution.normal(2, 0.5),
          Distribution.rectangular(-1, 3),
          Distribution.triangular(-1, 3),
          Distribution.trapezoidal(-1, 3, 0.3),
          Distribution.curvilinearTrapezoid(-1, 3, 0.4),
          Distribution.curvilinearTrapezoid(-1, 1, 0.999),
          Distribution.arcsine(-1, 3),
          Distribution.studentT(1, 0.5, 30),
          Distribution.ofReadings(1, 2, 4, 4, 5, 6, 7, 9, 9),
          Distribution.own("exponential", p -> -Math.log1p(-p)));

  /** Mean and standard deviation from the inverse, in the middles of 2^20 equal shares. */
  @Test
  void momentsAreThoseOfTheInverse() {
    int n = 1 << 20;
    for (Distribution d : ALL) {
      double sum = 0;
      double squares = 0;
      for (int i = 0; i < n; i++) {
        double x = d.quantile((i + 0.5) / n) - d.estimate();
        sum += x;
        squares += x * x;
      }
      double sigma = d.standardDeviation();
      assertEquals(0, sum / n, 1e-5 * sigma, d.name());
      assertEquals(sigma, Math.sqrt(squares / n), 2e-4 * sigma, d.name());
    }
  }

  /** JCGM 101, 6.4: standard uncertainties of half-width a. */
  @Test
  void closedForms() {
    assertEquals(2 / Math.sqrt(3), ALL.get(1).standardUncertainty(), 1e-15);
    assertEquals(2 / Math.sqrt(6), ALL.get(2).standardUncertainty(), 1e-15);
    assertEquals(2 * Math.sqrt(1.09 / 6), ALL.get(3).standardUncertainty(), 1e-15);
    assertEquals(Math.sqrt(4 / 3.0 + 0.16 / 9), ALL.get(4).standardUncertainty(), 1e-15);
    assertEquals(2 / Math.sqrt(2), ALL.get(6).standardUncertainty(), 1e-15);
    assertEquals(0.5, ALL.get(7).standardUncertainty());
    assertEquals(0.5 * Math.sqrt(30 / 28.0), ALL.get(7).standardDeviation(), 1e-15);
    assertEquals(30, ALL.get(7).degreesOfFreedom());
    assertEquals(1, ALL.get(9).estimate(), 1e-9);
    assertEquals(1, ALL.get(9).standardDeviation(), 1e-9);
  }

  @Test
  void inverseAndDistributionFunctionFit() {
    SplittableRandom random = new SplittableRandom(5);
    for (Distribution d : ALL) {
      double last = Double.NEGATIVE_INFINITY;
      for (int i = 1; i < 1000; i++) {
        double p = (i + random.nextDouble() - 0.5) / 1000;
        double x = d.quantile(p);
        assertTrue(x >= last, d.name());
        last = x;
        assertEquals(p, d.cumulative(x), 1e-9, d.name());
        assertEquals(x, d.atNormal(Normal.inverse(p)), 1e-12 * 10, d.name());
      }
    }
  }

  /** AS 241 against the inverse error function of Commons Statistics. */
  @Test
  void inverseNormal() {
    NormalDistribution standard = NormalDistribution.of(0, 1);
    for (int i = -2000; i <= 2000; i++) {
      double p = i < 0 ? Math.exp(i / 55.0) : (i + 0.5) / 2001;
      double z = standard.inverseCumulativeProbability(p);
      assertEquals(z, Normal.inverse(p), 2e-15 * Math.max(1, Math.abs(z)), () -> "at " + p);
    }
  }

  /** The table of t against Commons Statistics: the claims in StudentT. */
  @Test
  void studentT() {
    SplittableRandom random = new SplittableRandom(6);
    for (double nu : new double[] {1, 2, 3, 5, 9, 18.5, 100, 1e5}) {
      TDistribution t = TDistribution.of(nu);
      Distribution d = Distribution.studentT(0, 1, nu);
      for (int i = 0; i < 2000; i++) {
        double z = random.nextDouble(-8.2, 0);
        double value = d.atNormal(z);
        double tail = Normal.phi(z);
        // what a deviation of the value does to its probability, relative
        double error = (t.cumulativeProbability(value) - tail) / t.density(value);
        double allowed = (nu >= 5 && z > -6 ? 1e-10 : 1e-7) * Math.max(0.01, Math.abs(value));
        assertEquals(0, error, allowed, () -> "nu " + nu + " at z " + z);
      }
    }
  }

  @Test
  void trapezoidOfCommonsStatistics() {
    TrapezoidalDistribution t = TrapezoidalDistribution.of(-1, 0.4, 1.6, 3);
    for (int i = 0; i < 500; i++) {
      double p = (i + 0.5) / 500;
      assertEquals(t.inverseCumulativeProbability(p), ALL.get(3).quantile(p), 1e-12);
    }
  }

  /** Limits that are known as good as exactly: a rectangle. */
  @Test
  void curvilinearTrapezoidOfExactLimitsIsARectangle() {
    Distribution exact = Distribution.rectangular(-1, 3);
    for (double inexactness : new double[] {1e-30, 1e-12}) {
      Distribution d = Distribution.curvilinearTrapezoid(-1, 3, inexactness);
      for (double p : new double[] {1e-6, 0.1, 0.5, 0.9, 1 - 1e-6}) {
        assertEquals(exact.quantile(p), d.quantile(p), 1e-11);
      }
    }
  }

  /**
   * JCGM 101, 6.4.3.4: drawn by two random numbers as the clause says, a limit and then a value.
   */
  @Test
  void curvilinearTrapezoidIsAMixtureOfRectangles() {
    Distribution d = Distribution.curvilinearTrapezoid(-1, 3, 0.4);
    for (int i = -30; i <= 70; i++) {
      double x = i / 20.0;
      double mean = 0;
      int n = 4000;
      for (int k = 0; k < n; k++) {
        double lower = -1.4 + 0.8 * (k + 0.5) / n;
        double upper = 2 - lower;
        mean += Math.max(0, Math.min(1, (x - lower) / (upper - lower))) / n;
      }
      assertEquals(mean, d.cumulative(x), 1e-7, "at " + x);
    }
  }

  /** JCGM 101, 6.4.9.2, and what follows from three readings or fewer. */
  @Test
  void readings() {
    Distribution d = Distribution.ofReadings(4, 5, 6);
    assertEquals(5, d.estimate());
    assertEquals(1 / Math.sqrt(3), d.standardUncertainty(), 1e-15);
    assertEquals(2, d.degreesOfFreedom());
    assertEquals(Double.POSITIVE_INFINITY, d.standardDeviation());
    assertEquals(1e9 + 5, Distribution.ofReadings(1e9 + 4, 1e9 + 5, 1e9 + 6).estimate(), 0);
  }

  private static void refused(String words, org.junit.jupiter.api.function.Executable call) {
    String message = assertThrows(IllegalArgumentException.class, call).getMessage();
    assertTrue(message.contains(words), message);
  }

  @Test
  void badInput() {
    double nan = Double.NaN;
    refused("mean = NaN", () -> Distribution.normal(nan, 1));
    refused("standardDeviation = 0.0", () -> Distribution.normal(0, 0));
    refused("standardDeviation = Infinity", () -> Distribution.normal(0, 1 / 0.0));
    refused("upper = 1.0", () -> Distribution.rectangular(1, 1));
    refused("lower = NaN", () -> Distribution.triangular(nan, 1));
    refused("topRatio = 1.5", () -> Distribution.trapezoidal(0, 1, 1.5));
    refused("inexactness = 0.5", () -> Distribution.curvilinearTrapezoid(0, 1, 0.5));
    refused("inexactness = 0.0", () -> Distribution.curvilinearTrapezoid(0, 1, 0));
    refused("upper = -1.0", () -> Distribution.arcsine(1, -1));
    refused("scale = -1.0", () -> Distribution.studentT(0, -1, 3));
    refused("degreesOfFreedom = 0.5", () -> Distribution.studentT(0, 1, 0.5));
    refused("number of readings = 1", () -> Distribution.ofReadings(1));
    refused("readings[1] = NaN", () -> Distribution.ofReadings(1, nan));
    refused("must not all be the same", () -> Distribution.ofReadings(2, 2, 2));
    refused("must not fall", () -> Distribution.own("falling", p -> -p));
    refused("must vary", () -> Distribution.own("still", p -> 3));
    refused("at probability", () -> Distribution.own("broken", p -> 0 / 0.0));
    refused("name", () -> Distribution.own(" ", p -> p));
    assertThrows(NullPointerException.class, () -> Distribution.own("none", null));
  }
}
