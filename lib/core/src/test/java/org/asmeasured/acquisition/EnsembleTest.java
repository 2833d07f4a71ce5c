package org.asmeasured.acquisition;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.math.BigDecimal;
import java.util.Random;
import org.asmeasured.frontend.Refused;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class EnsembleTest {

  @Test
  void countsAcquisitions() {
    assertTrue(Ensemble.single().isSingle());
    assertSame(Ensemble.single(), Ensemble.averageOf(1));
    assertFalse(Ensemble.averageOf(2).isSingle());
    assertEquals(65536, Ensemble.averageOf(65536).count());
    assertEquals(Ensemble.averageOf(16), Ensemble.averageOf(16));
    assertEquals(Ensemble.averageOf(16).hashCode(), Ensemble.averageOf(16).hashCode());
    assertEquals("mean of 16 acquisitions", Ensemble.averageOf(16).toString());
    assertEquals("single acquisition", Ensemble.single().toString());
    Refused.wholes("count", Ensemble::averageOf, 0, -1, 65537);
  }

  @ParameterizedTest
  @ValueSource(ints = {1, 2, 3, 5, 7, 8, 100})
  void codesAreSummedExactly(int count) {
    MeanAccumulator mean = MeanAccumulator.ofCodes(3);
    Random random = new Random(20250108);
    long[] sums = new long[3];
    for (int n = 0; n < count; n++) {
      int[] codes = random.ints(3, -(1 << 23), 1 << 23).toArray();
      for (int i = 0; i < 3; i++) {
        sums[i] += codes[i];
      }
      mean.add(codes);
    }
    double[] out = new double[3];
    mean.mean(out);
    assertEquals(count, mean.count());
    for (int i = 0; i < 3; i++) {
      assertEquals((double) sums[i] / count, out[i]);
    }
  }

  /** Pairwise sums err by at most about log2(n) units of the last place; a plain one would by n. */
  @ParameterizedTest
  @ValueSource(ints = {1, 2, 3, 6, 7, 1000, 65536})
  void voltsAreSummedPairwise(int count) {
    MeanAccumulator mean = MeanAccumulator.ofVolts(2);
    Random random = new Random(20250109);
    BigDecimal[] sums = {BigDecimal.ZERO, BigDecimal.ZERO};
    for (int n = 0; n < count; n++) {
      double[] volts = {1 + random.nextDouble(), 0.1};
      sums[0] = sums[0].add(new BigDecimal(volts[0]));
      sums[1] = sums[1].add(new BigDecimal(volts[1]));
      mean.add(volts);
    }
    double[] out = new double[2];
    mean.mean(out);
    for (int i = 0; i < 2; i++) {
      double exact =
          sums[i].divide(BigDecimal.valueOf(count), java.math.MathContext.DECIMAL128).doubleValue();
      assertEquals(exact, out[i], 18 * Math.ulp(exact));
    }
    if (Integer.bitCount(count) == 1) {
      assertEquals(0.1, out[1], "a power of two of equal values has exactly their mean");
    }
  }

  @Test
  void refusesWhatDoesNotFit() {
    Refused.message("points", "0", () -> MeanAccumulator.ofVolts(0));
    Refused.message("points", "-1", () -> MeanAccumulator.ofCodes(-1));
    MeanAccumulator codes = MeanAccumulator.ofCodes(2);
    MeanAccumulator volts = MeanAccumulator.ofVolts(2);
    assertThrows(IllegalStateException.class, () -> codes.mean(new double[2]));
    assertThrows(IllegalStateException.class, () -> codes.add(new double[2]));
    assertThrows(IllegalStateException.class, () -> volts.add(new int[2]));
    Refused.message("codes.length", "3", () -> codes.add(new int[3]));
    Refused.message("volts.length", "1", () -> volts.add(new double[1]));
    Refused.missing("codes", () -> codes.add((int[]) null));
    Refused.missing("volts", () -> volts.add((double[]) null));
    Refused.missing("out", () -> volts.mean(null));
    Refused.message("out.length", "1", () -> volts.mean(new double[1]));
  }

  @Test
  void meansMayBeAskedForInBetween() {
    MeanAccumulator mean = MeanAccumulator.ofVolts(1);
    double[] out = new double[1];
    mean.add(new double[] {1});
    mean.mean(out);
    assertArrayEquals(new double[] {1}, out);
    mean.add(new double[] {3});
    mean.add(new double[] {5});
    mean.mean(out);
    assertArrayEquals(new double[] {3}, out);
  }
}
