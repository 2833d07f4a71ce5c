package org.asmeasured.acquisition;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotSame;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.Random;
import java.util.stream.Stream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** What every decimation keeps, ours and anyone's. */
class DecimationContractTest {

  /** A decimation as a user would write it: the last raw sample of each interval. */
  private record PickLast(int factor) implements Decimation {
    @Override
    public double centre() {
      return factor - 1;
    }

    @Override
    public boolean isIdeal(int converterBits) {
      return factor == 1;
    }

    @Override
    public Reducer reducer() {
      int[] seen = {0};
      return (raw, offset, count, lower, upper, at) -> {
        int written = 0;
        for (int i = 0; i < count; i++) {
          if (++seen[0] % factor == 0) {
            lower[at + written++] = raw[offset + i];
          }
        }
        return written;
      };
    }
  }

  static Stream<Decimation> decimations() {
    return Stream.of(
        new Pick(1),
        new Pick(7),
        new PeakDetect(1),
        new PeakDetect(3),
        new PeakDetect(4),
        new PeakDetect(10),
        new PeakDetect(1000),
        Boxcar.of(1),
        Boxcar.of(2),
        Boxcar.of(7),
        Boxcar.of(10),
        Boxcar.of(256),
        Boxcar.of(257),
        Boxcar.of(1111),
        RollingBoxcar.of(1),
        RollingBoxcar.of(2),
        RollingBoxcar.of(7),
        RollingBoxcar.of(64),
        RollingBoxcar.of(1500),
        new PickLast(1),
        new PickLast(5));
  }

  private static final int POINTS = 9;

  private static double[] raws(Decimation decimation) {
    return new Random(20250104).doubles((int) decimation.rawSamples(POINTS), -1, 1).toArray();
  }

  /** Lower and upper points, one after the other. */
  private static double[][] reduced(Decimation decimation, double[] raw, Random blocks) {
    Reducer reducer = decimation.reducer();
    double[] lower = new double[POINTS];
    double[] upper = new double[POINTS];
    double[] untouched = raw.clone();
    int stored = 0;
    for (int at = 0; at < raw.length; ) {
      int count =
          blocks == null
              ? raw.length
              : Math.min(raw.length - at, blocks.nextInt(1 + raw.length / 5));
      int written =
          reducer.reduce(raw, at, count, lower, decimation.isEnvelope() ? upper : null, stored);
      assertTrue(
          written <= count / decimation.factor() + 1, "no more points than room was asked for");
      stored += written;
      at += count;
    }
    assertArrayEquals(untouched, raw, 0, "raw samples are left as they are");
    assertEquals(POINTS, stored, "the raw samples asked for complete the points");
    return new double[][] {lower, decimation.isEnvelope() ? upper : lower};
  }

  @ParameterizedTest
  @MethodSource("decimations")
  void geometryIsInOrder(Decimation decimation) {
    assertTrue(decimation.factor() >= 1);
    assertTrue(decimation.lead() >= 0);
    assertTrue(decimation.rawSamples(1) >= 1);
    assertTrue(decimation.rawSamples(3) - decimation.rawSamples(2) == decimation.factor());
    assertTrue(
        decimation.centre() >= 0 && decimation.centre() <= Math.max(1, decimation.factor() - 1));
    for (int bits = 1; bits <= 24; bits++) {
      int stored = decimation.storedBits(bits);
      assertTrue(stored >= 1 && stored <= 24, "stored bits " + stored);
    }
  }

  @ParameterizedTest
  @MethodSource("decimations")
  void idealIsTheIdentityBitForBit(Decimation decimation) {
    if (decimation.isIdeal(8)) {
      double[] raw = raws(decimation);
      assertArrayEquals(raw, reduced(decimation, raw, null)[0], 0);
      assertEquals(8, decimation.storedBits(8));
      assertEquals(0, decimation.centre());
      assertFalse(decimation.isEnvelope());
    } else {
      assertTrue(
          decimation.factor() > 1 || decimation.isEnvelope() || decimation.rawSamples(1) > 1);
    }
  }

  @ParameterizedTest
  @MethodSource("decimations")
  void blocksChangeNothing(Decimation decimation) {
    double[] raw = raws(decimation);
    double[][] whole = reduced(decimation, raw, null);
    for (int seed = 0; seed < 20; seed++) {
      double[][] blocks = reduced(decimation, raw, new Random(seed));
      assertArrayEquals(whole[0], blocks[0], 0, "seed " + seed);
      assertArrayEquals(whole[1], blocks[1], 0, "seed " + seed);
    }
    Reducer oneByOne = decimation.reducer();
    double[] lower = new double[POINTS];
    double[] upper = new double[POINTS];
    int stored = 0;
    for (int i = 0; i < raw.length; i++) {
      stored += oneByOne.reduce(raw, i, 1, lower, upper, stored);
      assertEquals(0, oneByOne.reduce(raw, i, 0, lower, upper, Math.min(stored, POINTS - 1)));
    }
    assertArrayEquals(whole[0], lower, 0);
    if (decimation.isEnvelope()) {
      assertArrayEquals(whole[1], upper, 0);
    }
  }

  /**
   * Exact in whole numbers; a decimation that chooses among samples commutes with any increasing
   * map.
   */
  @ParameterizedTest
  @MethodSource("decimations")
  void scalesWithItsSamples(Decimation decimation) {
    double[] raw =
        new Random(20250105)
            .ints((int) decimation.rawSamples(POINTS), -128, 128)
            .asDoubleStream()
            .toArray();
    double[][] once = reduced(decimation, raw, null);
    double[][] fourfold = reduced(decimation, Arrays.stream(raw).map(v -> 4 * v).toArray(), null);
    for (int side = 0; side < 2; side++) {
      for (int k = 0; k < POINTS; k++) {
        assertEquals(4 * once[side][k], fourfold[side][k]);
      }
    }
  }

  @ParameterizedTest
  @MethodSource("decimations")
  void aConstantStaysWhatItIs(Decimation decimation) {
    double[] raw = new double[(int) decimation.rawSamples(POINTS)];
    Arrays.fill(raw, -37);
    double[][] points = reduced(decimation, raw, null);
    for (int k = 0; k < POINTS; k++) {
      assertEquals(-37, points[0][k]);
      assertEquals(-37, points[1][k]);
    }
  }

  @ParameterizedTest
  @MethodSource("decimations")
  void notANumberSpoilsItsOwnPointsOnly(Decimation decimation) {
    double[] raw = raws(decimation);
    double[][] clean = reduced(decimation, raw, null);
    int spoilt = raw.length / 2;
    raw[spoilt] = Double.NaN;
    double[][] points = reduced(decimation, raw, null);
    long window = decimation.rawSamples(1);
    boolean picks = decimation instanceof Pick || decimation instanceof PickLast;
    for (int k = 0; k < POINTS; k++) {
      long begin = (long) k * decimation.factor();
      boolean within = spoilt >= begin && spoilt < begin + window;
      for (int side = 0; side < 2; side++) {
        double point = points[side][k];
        if (within) {
          // Who picks among samples may have passed it over; who combines them may not.
          assertTrue(Double.isNaN(point) || picks && point == clean[side][k], "point " + k);
        } else {
          assertEquals(clean[side][k], point, "point " + k);
        }
      }
    }
  }

  @ParameterizedTest
  @MethodSource("decimations")
  void eachAcquisitionHasItsOwnWorker(Decimation decimation) {
    if (!decimation.isIdeal(8)) {
      assertNotSame(decimation.reducer(), decimation.reducer());
    }
    assertFalse(decimation.toString().isBlank());
    assertFalse(decimation.toString().contains("@"));
  }
}
