package org.asmeasured.internal;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.math.BigDecimal;
import java.util.Arrays;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

/** What is taken from many values block by block is what plain loops say. */
class KernelsOverBlocksTest {

  private static double[] drawn(SplittableRandom random) {
    double[] values = new double[1 + random.nextInt(12_000)];
    int kind = random.nextInt(4);
    double offset = random.nextInt(3) == 0 ? 1e9 * (random.nextDouble() - 0.5) : 0;
    for (int i = 0; i < values.length; i++) {
      double u = random.nextDouble() * 2 - 1;
      values[i] =
          offset
              + switch (kind) {
                case 0 -> u;
                case 1 -> Math.rint(4 * u);
                case 2 -> u * Math.exp(-100 * random.nextDouble());
                default -> (i % 100 < 50 ? 1 : -1) + 0.01 * u;
              };
    }
    return values;
  }

  private interface Add {
    void add(double[] block, int count);
  }

  private static void blocks(double[] values, int most, Add add) {
    double[] block = new double[most];
    for (int at = 0; at < values.length; at += most) {
      int n = Math.min(most, values.length - at);
      System.arraycopy(values, at, block, 0, n);
      add.add(block, n);
    }
  }

  @Test
  void extremesAreThoseOfAPlainLoop() {
    Cases.check(
        1,
        200,
        random -> {
          double[] values = drawn(random);
          RangeLanes range = new RangeLanes();
          blocks(values, 1 + random.nextInt(RangeLanes.BLOCK), range::add);
          assertEquals(Arrays.stream(values).min().orElseThrow(), range.least());
          assertEquals(Arrays.stream(values).max().orElseThrow(), range.greatest());
        });
    assertEquals(Double.POSITIVE_INFINITY, new RangeLanes().least());
    assertEquals(Double.NEGATIVE_INFINITY, new RangeLanes().greatest());
  }

  /** Exact sums of many digits; what remains is the rounding of the result. */
  @Test
  void sumsAreExactToTheLastPlace() {
    Cases.check(
        1,
        60,
        random -> {
          double[] values = drawn(random);
          double level = random.nextBoolean() ? 0 : values[0];
          LaneSums sums = new LaneSums();
          LaneSums squares = new LaneSums();
          int most = 1 + random.nextInt(LaneSums.BLOCK);
          blocks(values, most, sums::add);
          blocks(values, most, (block, n) -> squares.addSquares(block, n, level));
          BigDecimal sum = BigDecimal.ZERO;
          BigDecimal ofSquares = BigDecimal.ZERO;
          double moduli = 0;
          for (double v : values) {
            sum = sum.add(new BigDecimal(v));
            ofSquares = ofSquares.add(new BigDecimal((v - level) * (v - level)));
            moduli += Math.abs(v);
          }
          double exact = sum.doubleValue();
          assertEquals(exact, sums.total(), Math.ulp(exact) + 1e-28 * moduli);
          assertEquals(ofSquares.doubleValue(), squares.total(), Math.ulp(squares.total()));
        });
  }

  /** Each value in the bin of its place, or within a billionth of a bin in the next. */
  @Test
  void histogramCountsAndGathersTheSameBins() {
    Cases.check(
        1,
        200,
        random -> {
          double[] values = drawn(random);
          double[] range = OrderStatistics.extremes(values, values.length);
          int bins = 1 + random.nextInt(random.nextBoolean() ? 20 : 5000);
          double perUnit = bins / (range[1] - range[0]);
          if (!(perUnit <= Double.MAX_VALUE)) {
            return;
          }
          ValueHistogram histogram = new ValueHistogram(range[0], perUnit, bins);
          int most = 1 + random.nextInt(9000);
          blocks(values, most, histogram::add);
          int[] counts = histogram.counts();
          assertEquals(values.length, Arrays.stream(counts).sum());
          double[] sorted = values.clone();
          Arrays.sort(sorted);
          int at = 0;
          for (int b = 0; b < bins; b++) {
            for (int i = 0; i < counts[b]; i++, at++) {
              double place = (sorted[at] - range[0]) * perUnit;
              assertTrue(place >= b - 1e-8 && place <= b + 1 + 1e-8, b + ": " + place);
            }
          }
          int a = random.nextInt(bins);
          int b = Math.min(bins - 1, a + random.nextInt(4));
          int c = Math.min(bins - 1, b + random.nextInt(4) + (bins > b + 1 ? 1 : 0));
          int d = Math.min(bins - 1, c + random.nextInt(3));
          if (c <= b) {
            return;
          }
          int before = sum(counts, 0, a);
          int between = sum(counts, b + 1, c);
          double[][] out = {new double[values.length], new double[values.length]};
          int[] kept = new int[2];
          blocks(
              values,
              most,
              (block, n) -> histogram.gather(block, n, new int[] {a, b, c, d}, out, kept));
          double[] one = Arrays.copyOf(out[0], kept[0]);
          double[] other = Arrays.copyOf(out[1], kept[1]);
          Arrays.sort(one);
          Arrays.sort(other);
          int from = before + one.length + between;
          assertArrayEquals(Arrays.copyOfRange(sorted, before, before + one.length), one);
          assertEquals(sum(counts, a, b + 1), one.length);
          assertArrayEquals(Arrays.copyOfRange(sorted, from, from + other.length), other);
          assertEquals(sum(counts, c, d + 1), other.length);
          // in place
          double[] own = values.clone();
          int n = histogram.gather(own, own.length, a, b, own, 0);
          assertArrayEquals(Arrays.copyOf(out[0], kept[0]), Arrays.copyOf(own, n));
        });
  }

  private static int sum(int[] counts, int from, int to) {
    return Arrays.stream(counts, Math.min(from, to), to).sum();
  }

  @Test
  void histogramRefusesTooManyBins() {
    assertThrows(IllegalArgumentException.class, () -> new ValueHistogram(0, 1, 0));
    assertThrows(
        IllegalArgumentException.class,
        () -> new ValueHistogram(0, 1, ValueHistogram.MAX_BINS + 1));
  }
}
