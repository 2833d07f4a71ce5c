package org.asmeasured.digitizer;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.SplittableRandom;
import org.asmeasured.frontend.Refused;
import org.asmeasured.internal.CounterRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ConverterNoiseTest {

  @Test
  void noneIsTheIdentityBitForBit() {
    double[] volts = {0.1, -0.0, Double.NaN, 3};
    double[] same = volts.clone();
    ConverterNoise.none().add(1, 0, 8, same, 0, 4, new double[0]);
    assertArrayEquals(volts, same, 0);
    assertTrue(ConverterNoise.none().isIdeal());
  }

  @Test
  void addsSigmaTimesTheStreamsDeviates() {
    ConverterNoise noise = ConverterNoise.ofSteps(0.5, 8);
    assertEquals(0.5 / 256, noise.rmsOfFullScale());
    double[] volts = new double[1000];
    noise.add(99, -400, 2.56, volts, 0, 1000, new double[1000]);
    for (int i = 0; i < 1000; i++) {
      assertEquals(CounterRandom.gaussian(99, i - 400) * (0.5 * 2.56 / 256), volts[i], 1e-18);
    }
  }

  @Test
  void blocksChangeNothing() {
    ConverterNoise noise = new ConverterNoise(0.01);
    double[] whole = new double[5000];
    noise.add(7, -1000, 4, whole, 0, 5000, new double[5000]);
    double[] blocks = new double[5000];
    double[] work = new double[800];
    SplittableRandom random = new SplittableRandom(20250303);
    for (int at = 0; at < 5000; ) {
      int count = Math.min(5000 - at, random.nextInt(800));
      noise.add(7, at - 1000, 4, blocks, at, count, work);
      at += count;
    }
    assertArrayEquals(whole, blocks, 0);
  }

  /**
   * Mean of a quantised value under Gaussian noise: B. Widrow and I. Kollar, Quantization Noise
   * (2008); the figures, to 15 digits, are the sum over codes of code x probability, computed with
   * mpmath. 10^6 samples: the mean scatters by sqrt(var/10^6); five of those are exceeded once in
   * 1.7 million runs.
   */
  @ParameterizedTest
  @CsvSource({
    "0.1, -0.2437903346742558",
    "0.2, -0.1444386434131192",
    "0.3, -0.05386583278176264",
    "0.5, -0.002289247572440189"
  })
  void meanOfCodesUnderNoise(double sigmaSteps, double bias) {
    int n = 1 << 20;
    double[] levels = new double[n];
    java.util.Arrays.fill(levels, 0.25);
    // in steps: a full scale of 2^8 of them
    ConverterNoise.ofSteps(sigmaSteps, 8).add(20250304, 0, 256, levels, 0, n, new double[n]);
    new IdealConverter(8).convert(levels, 0, n);
    double sum = 0;
    double square = 0;
    for (double code : levels) {
      sum += code;
      square += code * code;
    }
    double mean = sum / n;
    double scatter = Math.sqrt((square / n - mean * mean) / n);
    assertEquals(0.25 + bias, mean, 5 * scatter);
  }

  @Test
  void refusesBadValues() {
    Refused.values("rmsOfFullScale", ConverterNoise::new, -0.1, 1.1);
    Refused.values("rmsSteps", v -> ConverterNoise.ofSteps(v, 8), -0.1, 256.1);
    Refused.wholes("bits", b -> ConverterNoise.ofSteps(0.1, b), 0, 25);
    ConverterNoise noise = new ConverterNoise(0.1);
    Refused.missing("volts", () -> noise.add(0, 0, 1, null, 0, 0, new double[0]));
    Refused.missing("work", () -> noise.add(0, 0, 1, new double[1], 0, 1, null));
    assertThrows(
        IndexOutOfBoundsException.class,
        () -> noise.add(0, 0, 1, new double[4], 1, 4, new double[4]));
    assertThrows(
        IndexOutOfBoundsException.class,
        () -> noise.add(0, 0, 1, new double[4], 0, 4, new double[3]));
  }

  @Test
  void saysItselfAsAPersonWould() {
    assertEquals("no converter noise", ConverterNoise.none().toString());
    assertEquals("converter noise of 0.001 of full scale", new ConverterNoise(0.001).toString());
  }
}
