package org.asmeasured.validation;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import org.asmeasured.accuracy.IdealStages;
import org.asmeasured.accuracy.Prediction;
import org.asmeasured.accuracy.StageBias;
import org.asmeasured.acquisition.Boxcar;
import org.asmeasured.capture.Setup;
import org.asmeasured.digitizer.ConverterNoise;
import org.asmeasured.measure.Measured;
import org.asmeasured.measure.Reading;
import org.asmeasured.measure.Readings;
import org.asmeasured.signal.Signal;
import org.asmeasured.signal.Signals;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.Test;

/**
 * Means and random parts by stage against tables of order statistics, the variance of a quantiser's
 * error and the deviation of a mean. What scatters is allowed five standard errors, a false alarm
 * in 1.7 million for each figure, with a fixed seed.
 */
class RandomPartReferenceTest {
  /** Volts of noise; the converter's span is 8 V. */
  private static final double SIGMA = 0.05;

  @AfterAll
  static void figures() {
    Evidence.figures();
  }

  private static Setup noisy(int points, double sigmaVolts) {
    return Setup.ideal(1e6, points).converterNoise(ConverterNoise.ofSteps(sigmaVolts * 256 / 8, 8));
  }

  private static StageBias row(List<StageBias> rows, String stage) {
    return rows.stream().filter(r -> r.stage().equals(stage)).findFirst().orElseThrow();
  }

  private static void holds(String check, double expected, double actual, double allowed) {
    Worst.note(check, Math.abs(actual - expected), allowed);
    assertEquals(expected, actual, allowed, check);
  }

  /** Noise alone makes the maximum of n points of a constant too high by d2/2 sigma. */
  @Test
  void maximumOfNoisyPoints() {
    int captures = 20_000;
    for (Reference.Row expected : Reference.rows("normal-maximum")) {
      int n = expected.whole("n");
      double mean = expected.number("meanOfMaximum");
      double deviation = expected.number("deviationOfMaximum");
      assertEquals(expected.number("d2Printed"), 2 * mean, 5.1e-4);
      List<Reading> maximum = List.of(Readings.maximum());
      Signal still = Signals.constant(1);
      Prediction p = Prediction.of(maximum, still, noisy(n, SIGMA), 20, captures, 2).get(0);
      StageBias noise = row(p.byStage(), "converter noise");
      double error = deviation * SIGMA / Math.sqrt(captures);
      holds("bias of a maximum by noise, V", mean * SIGMA, noise.bias().orThrow(), 5 * error);
      // A sample variance scatters by sqrt((kurtosis - 1)/n) of it, and no maximum here has more
      // than 3.7.
      holds(
          "random part of a maximum, V",
          deviation * SIGMA,
          noise.scatter().randomPart().orThrow(),
          5 * deviation * SIGMA / 2 * Math.sqrt(2.7 / captures));
      holds(
          "standard error of a bias, V",
          error,
          noise.scatter().standardError().orThrow(),
          5 * error / 2 * Math.sqrt(2.7 / captures));
    }
  }

  /** Means of n points by the boxcar have sigma/sqrt(n); without it, sigma (JCGM 100, 4.2.3). */
  @Test
  void deviationOfAMean() {
    int captures = 10_000;
    double allowed = 5 * Math.sqrt(2.0 / captures);
    for (int n : new int[] {4, 25, 100}) {
      Setup setup = noisy(1, SIGMA).decimation(Boxcar.of(n));
      // One point: its minimum is the point.
      List<Reading> point = List.of(Readings.minimum());
      Prediction p = Prediction.of(point, Signals.constant(1), setup, 5, captures, 2).get(0);
      double variance = SIGMA * SIGMA / n;
      double found = p.scatter().randomPart().orThrow();
      holds("variance of a mean over sigma^2/n", 1, found * found / variance, allowed);
    }
  }

  /**
   * Sheppard's corrections: quantising noise much larger than a step leaves the mean alone and adds
   * q^2/12 (B. Widrow, I. Kollar, Quantization Noise, 2008, from memory). At sigma = 0.8 q what is
   * left beside it is 4 sigma^2 exp(-2 pi^2 sigma^2/q^2) = 8e-6 q^2. The added variance is s^2(e) +
   * 2 cov(x, e) of captures that share their noise, which scatters by 2 sigma q/sqrt(12 n).
   */
  @Test
  void quantisingAddsATwelfthOfAStepSquared() {
    int captures = 40_000;
    double step = 8.0 / 256;
    double sigma = 0.8 * step;
    List<Reading> mean = List.of(Readings.mean());
    for (double volts : new double[] {0, 0.3 * step, 0.5 * step}) {
      Signal still = Signals.constant(volts);
      Setup setup = noisy(1, sigma).bits(8);
      Prediction p = Prediction.of(mean, still, setup, 3, captures, 2).get(0);
      StageBias quantisation = row(p.byStage(), "quantisation");
      double scatter = 2 * sigma * step / Math.sqrt(12.0 * captures);
      holds(
          "variance that quantising adds, V^2",
          step * step / 12,
          quantisation.scatter().addedVariance().orThrow(),
          5 * scatter);
      double error = step / Math.sqrt(12.0 * captures);
      holds("bias of quantised noise, V", 0, quantisation.bias().orThrow(), 5 * error);
      // The differences that share their noise scatter by q/sqrt(12), the readings by more.
      holds(
          "standard error of quantising, V",
          error,
          quantisation.scatter().standardError().orThrow(),
          0.02 * error);
      Measured alone =
          row(IdealStages.of(mean, still, setup, 3, captures, 2).get(0).rows(), "quantisation")
              .scatter()
              .addedVariance();
      assertEquals(quantisation.scatter().addedVariance().orThrow(), alone.orThrow(), 1e-18);
    }
  }
}
