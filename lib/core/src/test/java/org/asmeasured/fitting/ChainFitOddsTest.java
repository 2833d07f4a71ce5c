package org.asmeasured.fitting;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.ArrayRealVector;
import org.apache.commons.math3.linear.LUDecomposition;
import org.apache.commons.math3.linear.RealMatrix;
import org.apache.commons.math3.linear.RealVector;
import org.apache.commons.statistics.distribution.ChiSquaredDistribution;
import org.asmeasured.accuracy.Measurement;
import org.asmeasured.accuracy.Parameters;
import org.asmeasured.acquisition.Boxcar;
import org.asmeasured.acquisition.RollingBoxcar;
import org.asmeasured.capture.Setup;
import org.asmeasured.digitizer.ConverterNoise;
import org.asmeasured.frontend.Bandwidth;
import org.asmeasured.frontend.Coupling;
import org.asmeasured.frontend.Noise;
import org.asmeasured.frontend.VerticalScale;
import org.asmeasured.signal.Signals;
import org.junit.jupiter.api.Test;

/**
 * Whether parameters come back from captures within the covariance that is stated. For every 200
 * captures the sum of d' C^-1 d, d the errors of p estimates and C their covariance, is chi-squared
 * of 200 p degrees if C is right; held to the range that it leaves with a probability of 1e-6.
 * Covariances too small by 12 % in the uncertainties would fail (p = 4). The same for the sums of
 * squares that are left over.
 */
class ChainFitOddsTest {
  private static final int CAPTURES = 200;
  private static final double FALSE_ALARM = 1e-6;

  private static final Unknown[] EDGE = {
    Unknown.of(Parameters.bandwidth(), 1e6, 1e8),
    Unknown.of(Parameters.gainError(), -0.3, 0.3),
    Unknown.of(Parameters.offsetError(), -0.3, 0.3),
    Unknown.of(Parameters.start(), -1e-7, 1e-7)
  };

  private static Measurement edge(Setup setup) {
    return new Measurement(Signals.step(1, 300e-9), setup.bandwidth(Bandwidth.gaussian(4, 10e6)));
  }

  private static void recovered(Measurement m, int captures, long firstSeed, Unknown... unknowns) {
    int p = unknowns.length;
    double[] truth = new double[p];
    for (int j = 0; j < p; j++) {
      truth[j] = unknowns[j].parameter().of(m);
    }
    double sum = 0;
    double left = 0;
    double freedom = 0;
    for (int i = 0; i < captures; i++) {
      ChainFit fit =
          ChainFit.of(m.setup().capture(m.signal(), firstSeed + i), m, unknowns).orThrow();
      RealMatrix c = new Array2DRowRealMatrix(p, p);
      RealVector d = new ArrayRealVector(p);
      for (int j = 0; j < p; j++) {
        // in standard uncertainties, or the matrix spans forty decades
        d.setEntry(j, (fit.estimate(j) - truth[j]) / fit.standardUncertainty(j));
        for (int k = 0; k < p; k++) {
          c.setEntry(j, k, fit.correlation(j, k));
        }
      }
      sum += d.dotProduct(new LUDecomposition(c).getSolver().solve(d));
      left += fit.reducedChiSquared() * fit.degreesOfFreedom();
      freedom += fit.degreesOfFreedom();
    }
    within("errors over their covariance", sum, (double) captures * p);
    within("residuals over the noise", left, freedom);
  }

  private static void within(String what, double sum, double freedom) {
    ChiSquaredDistribution odds = ChiSquaredDistribution.of(freedom);
    double low = odds.inverseCumulativeProbability(FALSE_ALARM / 2);
    double high = odds.inverseSurvivalProbability(FALSE_ALARM / 2);
    assertTrue(
        sum >= low && sum <= high,
        () -> what + ": " + sum + ", must be from " + low + " to " + high);
  }

  @Test
  void aStepInWhiteNoise() {
    Setup setup = Setup.ideal(500e6, 500).converterNoise(new ConverterNoise(0.002));
    recovered(edge(setup), CAPTURES, 1000, EDGE);
  }

  @Test
  void aSineInWhiteNoise() {
    Measurement m =
        new Measurement(
            Signals.sine(1, 3.1e6),
            Setup.ideal(100e6, 400)
                .converterNoise(new ConverterNoise(0.002))
                .bandwidth(Bandwidth.singlePole(20e6)));
    recovered(
        m,
        CAPTURES,
        2000,
        Unknown.of(Parameters.signalFactor(), 0.5, 2),
        Unknown.of(Parameters.offsetError(), -0.3, 0.3),
        Unknown.of(Parameters.start(), -5e-8, 5e-8),
        Unknown.of(Parameters.clockError(), -1e-2, 1e-2));
  }

  /** Samples fifty times faster than the noise: a covariance for white noise is far too small. */
  @Test
  void aStepInNoiseShapedByTheBandwidth() {
    Setup setup = Setup.ideal(500e6, 500).noise(Noise.white(3e-6));
    recovered(edge(setup), CAPTURES, 3000, EDGE);

    Measurement m = edge(setup);
    ChainFit shaped = ChainFit.of(m.setup().capture(m.signal(), 1), m, EDGE).orThrow();
    ChainFit white =
        ChainFit.of(
                List.of(
                    new Recording(
                        m.setup().capture(m.signal(), 1),
                        m,
                        RecordNoise.white(shaped.expectedRmsVolts(0)))),
                List.of(EDGE),
                FitMethod.usual())
            .orThrow();
    assertTrue(shaped.standardUncertainty(1) > 3 * white.standardUncertainty(1));
    assertTrue(shaped.degreesOfFreedom() < 100, "freedom " + shaped.degreesOfFreedom());
  }

  /** 50 captures: 23 % in the uncertainties would fail. */
  @Test
  void aStepInFlickerNoise() {
    Setup setup = Setup.ideal(500e6, 500).noise(Noise.white(1e-6).withCorner(20e6));
    recovered(edge(setup), 50, 4000, EDGE);
  }

  @Test
  void aSineInShapedNoiseWithAMeanOfTen() {
    Measurement m =
        new Measurement(
            Signals.sine(1, 0.31e6),
            Setup.ideal(100e6, 400)
                .noise(Noise.white(3e-6))
                .converterNoise(new ConverterNoise(0.002))
                .decimation(Boxcar.of(10))
                .coupling(Coupling.ac(1e4))
                .bandwidth(Bandwidth.singlePole(5e6)));
    recovered(
        m,
        CAPTURES,
        5000,
        Unknown.of(Parameters.signalFactor(), 0.5, 2),
        Unknown.of(Parameters.start(), -5e-7, 5e-7),
        Unknown.of(Parameters.clockError(), -1e-2, 1e-2));
  }

  @Test
  void aStepByARollingMean() {
    Setup setup =
        Setup.ideal(500e6, 500)
            .converterNoise(new ConverterNoise(0.005))
            .decimation(new RollingBoxcar(7, 0));
    recovered(edge(setup), CAPTURES, 6000, EDGE);
  }

  /** 8 bits with noise of three quarters of a step, averaged over four captures. */
  @Test
  void aQuantisedStepAveraged() {
    Setup setup =
        Setup.ideal(500e6, 500)
            .vertical(VerticalScale.of(0.5).withOffset(0.5))
            .converterNoise(ConverterNoise.ofSteps(0.75, 8))
            .bits(8)
            .averaging(4);
    recovered(edge(setup), CAPTURES, 7000, EDGE);
  }

  /** Of a mean the covariance is the mean of all covariances within it: R(0) = s^2/M. */
  @Test
  void meansHaveTheirClosedAutocovariance() {
    double s2 = 64 * 1e-6;
    Setup white = Setup.ideal(1e6, 50).converterNoise(new ConverterNoise(0.001));
    assertCovariance(white, s2);
    assertCovariance(white.averaging(5), s2 / 5);
    assertCovariance(white.decimation(Boxcar.of(10)), s2 / 10);
    double[] rolling = new double[4];
    for (int k = 0; k < 4; k++) {
      rolling[k] = s2 * (4 - k) / 16;
    }
    assertCovariance(white.decimation(new RollingBoxcar(4, 0)), rolling);
    double step = 8.0 / 256;
    assertCovariance(white.bits(8), s2 + step * step / 12);
    // eight values: the stored mean is exact; ten: rounded to a sixteenth of a step
    assertCovariance(white.bits(8).decimation(Boxcar.of(8)), (s2 + step * step / 12) / 8);
    assertCovariance(
        white.bits(8).decimation(Boxcar.of(10)),
        (s2 + step * step / 12) / 10 + step * step / 256 / 12);
  }

  /** e^2 (pi/2) fc exp(-2 pi fc t) behind a single pole. */
  @Test
  void aPoleHasItsClosedAutocovariance() {
    Setup setup =
        Setup.ideal(1e6, 50).bandwidth(Bandwidth.singlePole(3e4)).noise(Noise.white(1e-5));
    double[] r = RecordNoise.asStated().autocovariance(setup, 50);
    for (int k = 0; k < 50; k++) {
      double closed = 1e-10 * Math.PI / 2 * 3e4 * Math.exp(-2 * Math.PI * 3e4 * k / 1e6);
      assertEquals(closed, r[k], 1e-12 * r[0]);
    }
  }

  private static void assertCovariance(Setup setup, double... closed) {
    double[] r = RecordNoise.asStated().autocovariance(setup, setup.points());
    for (int k = 0; k < r.length || k < closed.length; k++) {
      double seen = k < r.length ? r[k] : 0;
      assertEquals(k < closed.length ? closed[k] : 0, seen, 1e-14 * r[0], setup + " lag " + k);
    }
  }
}
