package org.asmeasured.uncertainty;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.function.ToDoubleFunction;
import java.util.stream.IntStream;
import org.asmeasured.internal.CounterRandom;
import org.junit.jupiter.api.Test;

class CommonDrawsTest {
  private static final Inputs TWO =
      Inputs.of(
          Input.of("a", "V", Distribution.normal(3, 0.2)),
          Input.of("b", "V", Distribution.rectangular(-1, 2)));

  private static double[] outputs(CommonDraws draws, int n, ToDoubleFunction<double[]> model) {
    return IntStream.range(0, n).mapToDouble(t -> model.applyAsDouble(draws.values(t))).toArray();
  }

  /** y = 2 a - 3 b: mean 6 - 1.5, u^2 = 4 x 0.04 + 9 x 9/12, from 24 trials. */
  @Test
  void aStraightModelIsExact() {
    CommonDraws draws = CommonDraws.of(TWO, 7);
    TrialFigures f = draws.figures(outputs(draws, 24, x -> 2 * x[0] - 3 * x[1]));
    assertEquals(4.5, f.mean(), 1e-12);
    assertEquals(Math.sqrt(0.16 + 6.75), f.standardUncertainty(), 1e-9);
    for (int t = 0; t < f.trials(); t++) {
      assertEquals(0, f.influenceOnMean(t), 1e-12);
      assertEquals(0, f.influenceOnUncertainty(t), 1e-9);
    }
  }

  /** Correlated by r: u^2 = 0.04 + 0.09 + 2 r 0.2 x 0.3. */
  @Test
  void correlationsAreThere() {
    Inputs inputs =
        Inputs.of(
                Input.of("a", "", Distribution.normal(0, 0.2)),
                Input.of("b", "", Distribution.normal(1, 0.3)))
            .correlated("a", "b", -0.6);
    CommonDraws draws = CommonDraws.of(inputs, 1);
    TrialFigures f = draws.figures(outputs(draws, 64, x -> x[0] + x[1]));
    assertEquals(1, f.mean(), 1e-12);
    assertEquals(Math.sqrt(0.13 - 0.072), f.standardUncertainty(), 1e-9);
  }

  /**
   * A model that draws all by itself, normal values of deviation s: over 2000 runs of 64 trials the
   * scatter of mean and uncertainty is what the influences say, s/sqrt(n) and s/sqrt(2 n). The
   * variance of a variance of 2000 is 2/2000; 5 standard deviations are 16 %, of a deviation 8 %
   * (false alarm below 1e-6), and 3 % are left for the second order.
   */
  @Test
  void influencesTellTheScatter() {
    int n = 64;
    int runs = 2000;
    double s = 0.7;
    CommonDraws draws = CommonDraws.of(Inputs.of(), 0);
    double[] ofMean = new double[runs];
    double[] ofUncertainty = new double[runs];
    double predictedMean = 0;
    double predictedUncertainty = 0;
    for (int r = 0; r < runs; r++) {
      long key = CounterRandom.key(99, r);
      TrialFigures f =
          draws.figures(
              IntStream.range(0, n).mapToDouble(t -> s * CounterRandom.gaussian(key, t)).toArray());
      ofMean[r] = f.mean();
      ofUncertainty[r] = f.standardUncertainty();
      for (int t = 0; t < n; t++) {
        predictedMean += f.influenceOnMean(t) * f.influenceOnMean(t) / n / n / runs;
        predictedUncertainty +=
            f.influenceOnUncertainty(t) * f.influenceOnUncertainty(t) / n / n / runs;
      }
    }
    assertEquals(s / Math.sqrt(n), deviation(ofMean), 0.08 * s / Math.sqrt(n));
    assertEquals(deviation(ofMean), Math.sqrt(predictedMean), 0.11 * s / Math.sqrt(n));
    assertEquals(s / Math.sqrt(2.0 * n), deviation(ofUncertainty), 0.11 * s / Math.sqrt(2.0 * n));
    assertEquals(
        deviation(ofUncertainty), Math.sqrt(predictedUncertainty), 0.11 * s / Math.sqrt(2.0 * n));
  }

  private static double deviation(double[] x) {
    double mean = IntStream.range(0, x.length).mapToDouble(i -> x[i]).sum() / x.length;
    double squares =
        IntStream.range(0, x.length).mapToDouble(i -> (x[i] - mean) * (x[i] - mean)).sum();
    return Math.sqrt(squares / (x.length - 1));
  }

  @Test
  void trialsArePureFunctionsOfSeedAndNumber() {
    CommonDraws a = CommonDraws.of(TWO, 5);
    CommonDraws b = CommonDraws.of(TWO, 5);
    assertArrayEquals(a.values(1000), b.values(1000));
    assertEquals(a.seed(3), b.seed(3));
    assertNotEquals(a.seed(3), a.seed(4));
    assertNotEquals(a.values(3)[0], CommonDraws.of(TWO, 6).values(3)[0]);
    assertEquals(TWO, a.inputs());
  }

  /** Every eighth of each input's probability gets its share of 8 k trials. */
  @Test
  void drawsAreEven() {
    CommonDraws draws = CommonDraws.of(TWO, 3);
    int[] counts = new int[8];
    for (int t = 0; t < 64; t++) {
      counts[(int) (8 * (draws.values(t)[1] + 1) / 3)]++;
    }
    assertArrayEquals(new int[] {8, 8, 8, 8, 8, 8, 8, 8}, counts);
  }

  @Test
  void refusesWhatItCannotTell() {
    Inputs endless = Inputs.of(Input.of("t", "", Distribution.studentT(0, 1, 2)));
    assertTrue(
        assertThrows(IllegalArgumentException.class, () -> CommonDraws.of(endless, 0))
            .getMessage()
            .contains("standard deviation of t"));
    assertThrows(NullPointerException.class, () -> CommonDraws.of(null, 0));
    CommonDraws draws = CommonDraws.of(TWO, 0);
    assertThrows(IllegalArgumentException.class, () -> draws.values(-1));
    assertThrows(IllegalArgumentException.class, () -> draws.figures(new double[] {1}));
    assertThrows(IllegalArgumentException.class, () -> draws.figures(new double[] {1, Double.NaN}));
    assertThrows(NullPointerException.class, () -> draws.figures(null));
  }
}
