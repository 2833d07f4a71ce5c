package org.asmeasured.internal;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.HashSet;
import java.util.Set;
import java.util.stream.IntStream;
import org.apache.commons.math3.distribution.NormalDistribution;
import org.junit.jupiter.api.Test;

/**
 * Statistics use fixed seeds, so they pass or fail for good; had the seed been drawn by lot, each
 * two-sided check at {@value #ODDS} standard deviations would fail by chance once in 3.5 million.
 */
class CounterRandomTest {
  private static final double ODDS = 5.0;
  private static final int N = 4_000_000;
  private static final double[] VALUES = values(CounterRandom.key(20261125, 1));

  private static double[] values(long key) {
    double[] out = new double[N];
    CounterRandom.gaussians(key, 0, out, 0, N);
    return out;
  }

  @Test
  void sameBitsInAnyBlocksAndOrder() {
    long key = CounterRandom.key(7, 3);
    long first = -101;
    double[] whole = new double[1000];
    CounterRandom.gaussians(key, first, whole, 0, whole.length);
    for (int i = 0; i < whole.length; i++) {
      assertEquals(whole[i], CounterRandom.gaussian(key, first + i));
    }
    for (int block = 1; block < 20; block++) {
      double[] parts = new double[whole.length + 2];
      int blocks = (whole.length + block - 1) / block;
      for (int b = blocks - 1; b >= 0; b--) {
        int at = b * block;
        CounterRandom.gaussians(key, first + at, parts, at + 1, Math.min(block, whole.length - at));
      }
      assertArrayEquals(whole, Arrays.copyOfRange(parts, 1, whole.length + 1));
      assertEquals(0, parts[0]);
      assertEquals(0, parts[whole.length + 1]);
    }
    double[] threads = new double[whole.length];
    IntStream.range(0, 8)
        .parallel()
        .forEach(t -> CounterRandom.gaussians(key, first + 125L * t, threads, 125 * t, 125));
    assertArrayEquals(whole, threads);
  }

  /** Held on Java 17 and 25 alike: only exact operations and StrictMath are in it. */
  @Test
  void digest() {
    long digest = 0;
    for (double v : VALUES) {
      digest = CounterRandom.mix(digest ^ Double.doubleToRawLongBits(v));
    }
    for (int i = 0; i < 1000; i++) {
      double u = CounterRandom.uniform(CounterRandom.key(1, 2), i - 500);
      digest = CounterRandom.mix(digest ^ Double.doubleToRawLongBits(u));
    }
    assertEquals("1f56bba1d80965d3", Long.toHexString(digest));
  }

  @Test
  void moments() {
    double[] sums = new double[9];
    for (double v : VALUES) {
      double power = 1;
      for (int k = 1; k <= 8; k++) {
        power *= v;
        sums[k] += power;
      }
    }
    // E x^k = (k-1)!! for even k, 0 for odd; its estimate has the variance (E x^2k - (E x^k)^2)/n
    double[] even = {1, 1, 3, 15, 105, 945, 10395, 135135, 2027025};
    for (int k = 1; k <= 8; k++) {
      double expected = k % 2 == 0 ? even[k / 2] : 0;
      double sigma = Math.sqrt((even[k] - expected * expected) / N);
      assertEquals(expected, sums[k] / N, ODDS * sigma, "moment " + k);
    }
  }

  @Test
  void tails() {
    NormalDistribution normal = new NormalDistribution();
    for (double at : new double[] {0.2, 1, 2, 3, 3.5, 3.852046150368391, 3.8, 4, 4.3}) {
      double p = normal.cumulativeProbability(-at);
      double sigma = Math.sqrt(N * p * (1 - p));
      assertEquals(N * p, count(v -> v > at), ODDS * sigma, "above " + at);
      assertEquals(N * p, count(v -> v < -at), ODDS * sigma, "below " + -at);
    }
  }

  private static long count(java.util.function.DoublePredicate which) {
    return Arrays.stream(VALUES).filter(which).count();
  }

  /** Kolmogorov and Smirnov: the chance that sqrt(n) D exceeds d is 2 exp(-2 d^2); 3e-7 at 2.8. */
  @Test
  void distribution() {
    NormalDistribution normal = new NormalDistribution();
    double[] sorted = VALUES.clone();
    Arrays.sort(sorted);
    double most = 0;
    for (int i = 0; i < N; i++) {
      double p = normal.cumulativeProbability(sorted[i]);
      most = Math.max(most, Math.max(p - (double) i / N, (i + 1.0) / N - p));
    }
    assertTrue(Math.sqrt(N) * most < 2.8, "sqrt(n) D = " + Math.sqrt(N) * most);
    assertTrue(Math.sqrt(N) * most > 0.3, "suspiciously even: " + Math.sqrt(N) * most);
  }

  /**
   * Lag 1 within a pair shares a hash, lag 1 across pairs does not; squares see dependent sizes.
   */
  @Test
  void noCorrelation() {
    for (int lag : new int[] {1, 2, 3, 4, 5, 8, 64, 255, 256, 257, 4096, 65536}) {
      double plain = 0;
      double squares = 0;
      double within = 0;
      for (int i = 0; i + lag < N; i++) {
        double a = VALUES[i];
        double b = VALUES[i + lag];
        plain += a * b;
        squares += (a * a - 1) * (b * b - 1);
        within += (i & 1) == 0 ? a * b : 0;
      }
      double n = N - lag;
      assertEquals(0, plain / Math.sqrt(n), ODDS, "lag " + lag);
      assertEquals(0, squares / (2 * Math.sqrt(n)), ODDS, "squares at lag " + lag);
      assertEquals(0, within / Math.sqrt(n / 2), ODDS, "even places at lag " + lag);
    }
  }

  @Test
  void streamsAreApart() {
    Set<Long> keys = new HashSet<>();
    for (long seed = -3; seed <= 3; seed++) {
      for (long stream = -300; stream < 300; stream++) {
        assertTrue(keys.add(CounterRandom.key(seed, stream)));
      }
    }
    int n = 100_000;
    double[] a = new double[n];
    double[] b = new double[n];
    CounterRandom.gaussians(CounterRandom.key(5, 0), 0, a, 0, n);
    for (long other : new long[] {CounterRandom.key(5, 1), CounterRandom.key(6, 0)}) {
      CounterRandom.gaussians(other, 0, b, 0, n);
      double sum = 0;
      for (int i = 0; i < n; i++) {
        sum += a[i] * b[i];
      }
      assertEquals(0, sum / Math.sqrt(n), ODDS);
    }
  }

  @Test
  void uniform() {
    long key = CounterRandom.key(11, 0);
    int cells = 1000;
    int n = 1_000_000;
    int[] counts = new int[cells];
    double withNormal = 0;
    for (int i = 0; i < n; i++) {
      double u = CounterRandom.uniform(key, i);
      assertTrue(u > 0 && u < 1);
      counts[(int) (u * cells)]++;
      withNormal += (u - 0.5) * CounterRandom.gaussian(key, i);
    }
    double chiSquare = 0;
    for (int c : counts) {
      chiSquare += (c - (double) n / cells) * (c - (double) n / cells) / ((double) n / cells);
    }
    // mean 999, standard deviation 44.7
    assertEquals(cells - 1, chiSquare, ODDS * Math.sqrt(2.0 * (cells - 1)));
    assertEquals(0, withNormal * Math.sqrt(12.0 / n), ODDS);
  }

  @Test
  void badRanges() {
    double[] out = new double[4];
    assertThrows(IndexOutOfBoundsException.class, () -> CounterRandom.gaussians(1, 0, out, 2, 3));
    assertThrows(IndexOutOfBoundsException.class, () -> CounterRandom.gaussians(1, 0, out, -1, 3));
    CounterRandom.gaussians(1, 0, out, 4, 0);
  }
}
