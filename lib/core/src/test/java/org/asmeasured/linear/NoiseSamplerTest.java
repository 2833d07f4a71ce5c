package org.asmeasured.linear;

import static org.asmeasured.internal.Refusals.absent;
import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.stream.IntStream;
import org.asmeasured.internal.CounterRandom;
import org.junit.jupiter.api.Test;

/**
 * Records that are drawn. Seeds are fixed; had they been drawn by lot, a check at five standard
 * deviations would fail by chance once in 1.7 million.
 */
class NoiseSamplerTest {
  private static final double ODDS = 5;
  private static final double RATE = 1e9;

  private static final List<Response> RESPONSES =
      List.of(
          Response.singlePole(1e8),
          Response.bessel(4, 2e8),
          Response.bessel(4, 2e8).times(Response.butterworth(2, 2e7)),
          equal(),
          NoiseFlicker.response(1e7, 1e5).times(Response.bessel(4, 2e8)));

  private static Response equal() {
    Response one = Response.singlePole(3e7);
    return Response.highPass(1e5).times(one).times(one).times(one);
  }

  private static NoiseProcess process(Response response) {
    return NoiseProcess.of(response, 1e-6, RATE, 1e-5);
  }

  @Test
  void sameBitsInAnyBlocks() {
    for (Response response : RESPONSES) {
      NoiseProcess p = process(response);
      double[] whole = new double[3000];
      p.sampler(7).read(whole, 0, whole.length);
      for (int block : new int[] {1, 2, 3, 7, 511, 512, 513, 1024, 2999}) {
        NoiseSampler s = p.sampler(7);
        double[] parts = new double[whole.length + 2];
        for (int at = 0; at < whole.length; at += block) {
          assertEquals(at, s.position());
          s.read(parts, at + 1, Math.min(block, whole.length - at));
        }
        assertArrayEquals(whole, java.util.Arrays.copyOfRange(parts, 1, whole.length + 1));
        assertEquals(0, parts[0] + parts[whole.length + 1]);
        s.reset();
        s.read(parts, 0, 10);
        assertEquals(whole[9], parts[9]);
      }
      double[][] others = new double[8][whole.length];
      IntStream.range(0, 8).parallel().forEach(t -> p.sampler(7).read(others[t], 0, 3000));
      for (double[] other : others) {
        assertArrayEquals(whole, other);
      }
    }
  }

  /** The same on Java 17 and 25, on x86-64; see {@link NoiseProcess} for what is promised. */
  @Test
  void digest() {
    long digest = 0;
    for (Response response : RESPONSES) {
      double[] out = new double[10_000];
      process(response).sampler(20261125).read(out, 0, out.length);
      for (double v : out) {
        digest = CounterRandom.mix(digest ^ Double.doubleToRawLongBits(v));
      }
    }
    assertEquals("b15c8ab477c370b1", Long.toHexString(digest));
  }

  /**
   * The mean of x(n) x(n + k) over N samples has the variance (1/N) sum over all m of R(m)^2 + R(m
   * + k) R(m - k) (M. Bartlett 1946).
   */
  @Test
  void autocovarianceOfALongRecord() {
    int n = 1 << 20;
    double[] x = new double[n];
    for (Response response : RESPONSES) {
      NoiseProcess p = process(response);
      p.sampler(3).read(x, 0, n);
      int reach = 1 << 15;
      double[] r = new double[2 * reach];
      for (int k = 0; k < r.length; k++) {
        r[k] = p.autocovariance(k);
      }
      for (int lag : new int[] {0, 1, 2, 3, 5, 10, 30, 100, 1000}) {
        double sum = 0;
        for (int i = 0; i + lag < n; i++) {
          sum += x[i] * x[i + lag];
        }
        double variance = 0;
        for (int m = -reach + lag + 1; m < reach - lag; m++) {
          variance += r[Math.abs(m)] * r[Math.abs(m)] + r[Math.abs(m + lag)] * r[Math.abs(m - lag)];
        }
        double sigma = Math.sqrt(variance / (n - lag));
        assertEquals(r[lag], sum / (n - lag), ODDS * sigma, response + " at lag " + lag);
      }
    }
  }

  /** Over many records: the variance and covariance at the first samples, and far from them. */
  @Test
  void firstSamplesAreAsStationaryAsTheLast() {
    int records = 10_000;
    int[] at = {0, 1, 2, 5, 600};
    double[] x = new double[602];
    for (Response response : RESPONSES) {
      NoiseProcess p = process(response);
      double r0 = p.autocovariance(0);
      double r1 = p.autocovariance(1);
      double[] squares = new double[at.length];
      double[] products = new double[at.length];
      double[] means = new double[at.length];
      for (int record = 0; record < records; record++) {
        p.sampler(CounterRandom.key(5, record)).read(x, 0, x.length);
        for (int i = 0; i < at.length; i++) {
          means[i] += x[at[i]];
          squares[i] += x[at[i]] * x[at[i]];
          products[i] += x[at[i]] * x[at[i] + 1];
        }
      }
      for (int i = 0; i < at.length; i++) {
        String said = response + " at sample " + at[i];
        assertEquals(0, means[i] / records, ODDS * Math.sqrt(r0 / records), said);
        assertEquals(r0, squares[i] / records, ODDS * r0 * Math.sqrt(2.0 / records), said);
        double sigma = Math.sqrt((r0 * r0 + r1 * r1) / records);
        assertEquals(r1, products[i] / records, ODDS * sigma, said);
      }
    }
  }

  @Test
  void keysAreIndependent() {
    int n = 200_000;
    NoiseProcess p = process(Response.singlePole(1e9));
    double[] a = new double[n];
    double[] b = new double[n];
    p.sampler(1).read(a, 0, n);
    p.sampler(2).read(b, 0, n);
    double sum = 0;
    for (int i = 0; i < n; i++) {
      sum += a[i] * b[i];
    }
    // the variance of the mean product: sum of R^2 over all lags
    double variance = 0;
    for (int k = -100; k <= 100; k++) {
      variance += p.autocovariance(k) * p.autocovariance(k);
    }
    assertEquals(0, sum / n, ODDS * Math.sqrt(variance / n));
  }

  /** The boxcar of ten sees correlated noise: its mean keeps (1/100) sum (10 - |k|) R(k). */
  @Test
  void boxcarSeesCorrelatedNoise() {
    NoiseProcess p = process(RESPONSES.get(2));
    double expected = 0;
    for (int k = -9; k <= 9; k++) {
      expected += (10 - Math.abs(k)) * p.autocovariance(k) / 100;
    }
    assertTrue(expected > 5 * p.rms() * p.rms() / 10, "white noise would fall to a tenth");
    int records = 10_000;
    double[] x = new double[10];
    double sum = 0;
    for (int record = 0; record < records; record++) {
      p.sampler(CounterRandom.key(9, record)).read(x, 0, 10);
      double mean = 0;
      for (double v : x) {
        mean += v / 10;
      }
      sum += mean * mean;
    }
    assertEquals(expected, sum / records, ODDS * expected * Math.sqrt(2.0 / records));
  }

  @Test
  void badRanges() {
    NoiseSampler s = process(RESPONSES.get(0)).sampler(1);
    double[] out = new double[4];
    absent("out", () -> s.read(null, 0, 0));
    assertThrows(IndexOutOfBoundsException.class, () -> s.read(out, 2, 3));
    assertThrows(IndexOutOfBoundsException.class, () -> s.read(out, -1, 2));
    assertEquals(0, s.position());
    s.read(out, 4, 0);
    assertEquals(0, s.position());
  }
}
