package org.asmeasured.acquisition;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.Random;
import org.asmeasured.frontend.Refused;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class DecimationTest {

  private static double[] lower(Decimation decimation, int points, double... raw) {
    double[] lower = new double[points];
    assertEquals(
        points, decimation.reducer().reduce(raw, 0, raw.length, lower, new double[points], 0));
    return lower;
  }

  @Test
  void pickTakesTheFirstOfEach() {
    assertArrayEquals(new double[] {1, 4, 7}, lower(new Pick(3), 3, 1, 2, 3, 4, 5, 6, 7, 8, 9));
    assertEquals(0, new Pick(3).centre());
  }

  @ParameterizedTest
  @ValueSource(ints = {1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 64, 1000})
  void peakDetectAgreesWithASort(int factor) {
    double[] raw = new Random(20250106).doubles(5L * factor).toArray();
    double[] lower = new double[5];
    double[] upper = new double[5];
    new PeakDetect(factor).reducer().reduce(raw, 0, raw.length, lower, upper, 0);
    for (int k = 0; k < 5; k++) {
      double[] sorted = Arrays.copyOfRange(raw, k * factor, (k + 1) * factor);
      Arrays.sort(sorted);
      assertEquals(sorted[0], lower[k]);
      assertEquals(sorted[factor - 1], upper[k]);
    }
    assertEquals((factor - 1) / 2.0, new PeakDetect(factor).centre());
  }

  @Test
  void boxcarIsTheMeanOfEach() {
    assertArrayEquals(new double[] {2, 5}, lower(Boxcar.of(3), 2, 1, 2, 3, 4, 5, 6));
    assertEquals(1, Boxcar.of(3).centre());
    assertEquals(0.5, Boxcar.of(2).centre());
  }

  @Test
  void rollingBoxcarIsTheMeanOfTheLatest() {
    assertArrayEquals(new double[] {2, 3, 4, 5}, lower(RollingBoxcar.of(3), 4, 1, 2, 3, 4, 5, 6));
    assertEquals(1, RollingBoxcar.of(3).lead());
    assertEquals(0, RollingBoxcar.of(3).centre());
    assertEquals(1, RollingBoxcar.of(4).lead());
    assertEquals(0.5, RollingBoxcar.of(4).centre());
    assertEquals(12, RollingBoxcar.of(3).rawSamples(10));
  }

  /**
   * Sums of codes are exact, so the rolling mean must equal the mean of its window to the last bit.
   */
  @ParameterizedTest
  @ValueSource(ints = {1, 2, 3, 5, 8, 13, 100, 1023, 1024, 1025, 3000})
  void rollingBoxcarOfCodesIsExact(int length) {
    int points = 50;
    double[] raw =
        new Random(20250107)
            .ints(points + length - 1L, -(1 << 23), 1 << 23)
            .asDoubleStream()
            .toArray();
    double[] rolled = lower(RollingBoxcar.of(length), points, raw);
    for (int k = 0; k < points; k++) {
      long sum = 0;
      for (int j = 0; j < length; j++) {
        sum += (long) raw[k + j];
      }
      assertEquals((double) sum / length, rolled[k], "point " + k);
    }
  }

  /**
   * |H| = |sin(pi f M/fs)/(M sin(pi f/fs))| at f = fs/(10 M) and at fs/(2 M), computed with mpmath
   * from the closed form of the geometric sum.
   */
  @ParameterizedTest
  @CsvSource({
    "2, 0.9876883405951377, 0.7071067811865475",
    "4, 0.9846436270654023, 0.6532814824381883",
    "8, 0.9838845025131317, 0.6407288619353765",
    "10, 0.983793462635928, 0.6392453221499662",
    "16, 0.9836948494107235, 0.6376435773361455",
    "100, 0.983633261094528, 0.6366459530600056"
  })
  void boxcarsHaveTheirGainAndNoDelay(int length, double tenth, double half) {
    for (Decimation decimation : new Decimation[] {Boxcar.of(length), RollingBoxcar.of(length)}) {
      int points = 40;
      for (int share : new int[] {10, 2}) {
        double cyclesPerRaw = 1.0 / (share * length);
        double[] raw = new double[(int) decimation.rawSamples(points)];
        for (int i = 0; i < raw.length; i++) {
          raw[i] = Math.cos(2 * Math.PI * cyclesPerRaw * (i - decimation.lead()) + 0.4);
        }
        double[] out = lower(decimation, points, raw);
        double gain = share == 10 ? tenth : half;
        for (int k = 0; k < points; k++) {
          double instant = (double) k * decimation.factor() + decimation.centre();
          assertEquals(
              gain * Math.cos(2 * Math.PI * cyclesPerRaw * instant + 0.4),
              out[k],
              1e-12,
              decimation + ", point " + k);
        }
      }
    }
  }

  /**
   * A million equal volts that are no binary fraction. Lanes of 64 terms err by at most 63 units of
   * rounding, 7e-15 of the sum, and nothing is added to that; a plain sum is off by about 1e-11.
   */
  @Test
  void longBoxcarsDoNotDrift() {
    int factor = 1 << 20;
    double[] raw = new double[factor];
    Arrays.fill(raw, 0.1);
    assertEquals(0.1, lower(Boxcar.of(factor), 1, raw)[0], 0.1 * 63 * 0x1p-53);
  }

  @Test
  void meansGrowBits() {
    assertEquals(8, Boxcar.of(1).storedBits(8));
    assertEquals(9, Boxcar.of(2).storedBits(8));
    assertEquals(12, Boxcar.of(10).storedBits(8));
    assertEquals(12, Boxcar.of(16).storedBits(8));
    assertEquals(13, Boxcar.of(17).storedBits(8));
    assertEquals(24, Boxcar.of(1 << 20).storedBits(8));
    assertEquals(10, new Boxcar(16, 10).storedBits(8));
    assertEquals(12, RollingBoxcar.of(10).storedBits(8));
    assertEquals(8, new Pick(10).storedBits(8));
    assertEquals(8, new PeakDetect(10).storedBits(8));
    assertTrue(new Boxcar(1, 8).isIdeal(8));
    assertFalse(new Boxcar(1, 7).isIdeal(8));
    assertFalse(new RollingBoxcar(1, 7).isIdeal(8));
  }

  @Test
  void saysItselfAsAPersonWould() {
    assertEquals("every sample stored", new Pick(1).toString());
    assertEquals("one sample of 10 stored", new Pick(10).toString());
    assertEquals("least and greatest of 10 samples stored", new PeakDetect(10).toString());
    assertEquals("mean of 10 samples stored", Boxcar.of(10).toString());
    assertEquals("mean of 10 samples stored with 11 bits", new Boxcar(10, 11).toString());
    assertEquals("rolling mean of 10 samples stored", RollingBoxcar.of(10).toString());
  }

  @Test
  void refusesBadFactors() {
    int beyond = (1 << 20) + 1;
    Refused.wholes("factor", Pick::new, 0, -1, beyond);
    Refused.wholes("factor", PeakDetect::new, 0, -1, beyond);
    Refused.wholes("factor", Boxcar::of, 0, -1, beyond);
    Refused.wholes("factor", n -> new Boxcar(n, 8), 0, -1, beyond);
    Refused.wholes("storedBits", n -> new Boxcar(2, n), -1, 25);
    Refused.wholes("length", RollingBoxcar::of, 0, -1, 65537);
    Refused.wholes("length", n -> new RollingBoxcar(n, 8), 0, -1, 65537);
    Refused.wholes("storedBits", n -> new RollingBoxcar(2, n), -1, 25);
  }
}
