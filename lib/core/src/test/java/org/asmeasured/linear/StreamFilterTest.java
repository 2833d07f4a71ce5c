package org.asmeasured.linear;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Random;
import java.util.stream.Stream;
import org.apache.commons.math3.complex.Complex;
import org.asmeasured.signal.SampleClock;
import org.asmeasured.signal.Signals;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** The streaming filter against closed forms, and against the exact output of the same input. */
class StreamFilterTest {
  private static final double RATE = 1e9;

  /** A response and the rate it is streamed at: each lands in another part of the filter. */
  record Case(String name, Response response, double rateHz) {
    @Override
    public String toString() {
      return name;
    }
  }

  static Stream<Case> cases() {
    Response wide = Response.bessel(4, 200e6);
    Complex ringing = new Complex(-2 * Math.PI * 30, 2 * Math.PI * 110e6);
    Complex slowRinging = new Complex(-2 * Math.PI * 3, 2 * Math.PI * 900);
    return Stream.of(
        new Case("gain", Response.gain(-0.25), RATE),
        new Case("single pole", Response.singlePole(100e6), RATE),
        new Case("10 Hz high-pass", Response.highPass(10), RATE),
        new Case("a pole of microhertz", Response.highPass(1e-6), RATE),
        new Case("Bessel", wide, RATE),
        new Case("Bessel far below the rate", wide, 1e12),
        new Case("Bessel just above the threshold", Response.bessel(4, 1.25e6), RATE),
        new Case("Bessel far above the rate", wide, 1e6),
        new Case("Bessel about the rate", wide, 150e6),
        new Case("Butterworth of order 10", Response.butterworth(10, 170e6), RATE),
        new Case(
            "eight poles, nine decades",
            wide.times(Response.highPass(10))
                .times(Response.singlePole(1500))
                .times(Response.butterworth(2, 20e6)),
            RATE),
        new Case(
            "equal poles",
            Response.singlePole(50e6)
                .times(Response.singlePole(50e6))
                .times(Response.singlePole(50e6)),
            RATE),
        new Case(
            "equal slow poles",
            Response.singlePole(5e3).times(Response.singlePole(5e3)).times(wide),
            RATE),
        new Case("equal pairs", wide.times(wide), RATE),
        new Case(
            "nearly equal poles, dead in a sample",
            Response.singlePole(50e9).times(Response.singlePole(50.5e9)),
            RATE),
        new Case(
            "ringing of high quality",
            Response.of(
                List.of(), List.of(ringing, ringing.conjugate()), ringing.abs() * ringing.abs()),
            RATE),
        new Case(
            "slow ringing",
            Response.of(
                List.of(),
                List.of(slowRinging, slowRinging.conjugate()),
                slowRinging.abs() * slowRinging.abs()),
            RATE),
        new Case(
            "ringing at the Nyquist frequency",
            Response.of(
                List.of(),
                List.of(new Complex(-1e8, Math.PI * RATE), new Complex(-1e8, -Math.PI * RATE)),
                Math.pow(Math.PI * RATE, 2)),
            RATE));
  }

  static double[] random(long seed, int n) {
    Random random = new Random(seed);
    double[] u = new double[n];
    double level = 0.7;
    for (int i = 0; i < n; i++) {
      // wander, steps and idle stretches
      if (i % 700 < 500) {
        level += 0.1 * random.nextGaussian();
        level = random.nextInt(40) == 0 ? random.nextDouble() * 2 - 1 : 0.95 * level;
      }
      u[i] = level;
    }
    return u;
  }

  private static double[] streamed(StreamFilter filter, double[] u) {
    double[] out = new double[u.length];
    filter.process(u, 0, out, 0, u.length);
    return out;
  }

  @ParameterizedTest
  @MethodSource("cases")
  void settledStreamEqualsTheExactOutput(Case of) {
    double[] u = random(1, 5000);
    double[] want = new double[u.length];
    of.response
        .of(Signals.recorded(0, of.rateHz, u))
        .sample(new SampleClock(0, of.rateHz), 0, want, 0, u.length);
    double[] got = streamed(new StreamFilter(of.response, of.rateHz), u);
    double scale = 1 + Math.abs(want[0]);
    for (double v : want) {
      scale = Math.max(scale, Math.abs(v));
    }
    for (int k = 0; k < u.length; k++) {
      assertEquals(want[k], got[k], 1e-11 * scale, of + ", sample " + k);
    }
  }

  /** From rest, the same input with a zero held ahead of it, as steep a step as a double can be. */
  @ParameterizedTest
  @MethodSource("cases")
  void streamFromRestEqualsTheExactOutput(Case of) {
    double[] u = random(2, 3000);
    double[] want = new double[u.length];
    of.response
        .of(Signals.recorded(0, of.rateHz, u).startingAt(0))
        .sample(new SampleClock(0, of.rateHz), 0, want, 0, u.length);
    double[] got =
        streamed(new StreamFilter(of.response, of.rateHz, StreamFilter.Start.AT_REST), u);
    double scale = 1;
    for (double v : want) {
      scale = Math.max(scale, Math.abs(v));
    }
    for (int k = 0; k < u.length; k++) {
      assertEquals(want[k], got[k], 1e-11 * scale, of + ", sample " + k);
    }
  }

  @ParameterizedTest
  @MethodSource("cases")
  void blocksDoNotMatter(Case of) {
    double[] u = random(3, 3333);
    for (StreamFilter.Start start : StreamFilter.Start.values()) {
      StreamFilter filter = new StreamFilter(of.response, of.rateHz, start);
      double[] want = streamed(filter, u);
      for (int block : new int[] {1, 2, 7, 511, 512, 513, 1000}) {
        filter.reset();
        double[] got = u.clone();
        for (int k = 0; k < u.length; k += block) {
          filter.process(got, k, got, k, Math.min(block, u.length - k));
        }
        assertArrayEquals(want, got, of + ", blocks of " + block);
        assertEquals(u.length, filter.count());
      }
      Random random = new Random(4);
      filter.reset();
      double[] got = new double[u.length];
      for (int k = 0; k < u.length; ) {
        int n = Math.min(random.nextInt(900), u.length - k);
        filter.process(u, k, got, k, n);
        k += n;
      }
      assertArrayEquals(want, got, of + ", blocks of any size");
    }
  }

  @ParameterizedTest
  @MethodSource("cases")
  void aConstantStaysWhereItSettled(Case of) {
    double[] u = new double[20_000];
    java.util.Arrays.fill(u, 0.75);
    double want = 0.75 * of.response.dcGain();
    for (double v : streamed(new StreamFilter(of.response, of.rateHz), u)) {
      assertEquals(want, v, 2e-13, of.name);
    }
  }

  /** A slope through one pole: slope (t - tau (1 - exp(-t/tau))). Elementary. */
  @Test
  void slopeThroughOnePole() {
    double tau = 1 / (2 * Math.PI * 30e6);
    double[] u = new double[2000];
    for (int k = 0; k < u.length; k++) {
      u[k] = 1e-3 * k;
    }
    double[] got = streamed(new StreamFilter(Response.singlePole(30e6), RATE), u);
    for (int k = 0; k < u.length; k++) {
      double t = k / RATE;
      assertEquals(1e6 * (t + tau * Math.expm1(-t / tau)), got[k], 1e-14 * (1 + u[k]), "at " + k);
    }
  }

  /** A step from rest through a 10 Hz high-pass: exp(-w t), to sample ten million. Elementary. */
  @Test
  void slowHighPassHoldsOverTenMillionSamples() {
    StreamFilter filter = new StreamFilter(Response.highPass(10), RATE, StreamFilter.Start.AT_REST);
    double[] ones = new double[10_000];
    double[] out = new double[ones.length];
    java.util.Arrays.fill(ones, 1);
    for (int block = 0; block < 1000; block++) {
      filter.process(ones, 0, out, 0, ones.length);
      for (int j = 0; j < out.length; j += 999) {
        double t = (10_000.0 * block + j) / RATE;
        assertEquals(Math.exp(-2 * Math.PI * 10 * t), out[j], 1e-13, "block " + block);
      }
    }
  }

  /**
   * Ten million samples of a triangle whose corners lie on samples. Once the fast modes are gone,
   * the stream differs from the settled periodic output by one exponential of the 10 Hz pole.
   */
  @Test
  void nothingDriftsOverTenMillionSamples() {
    int half = 250;
    Response chain =
        Response.highPass(10).times(Response.bessel(4, 200e6)).times(Response.butterworth(2, 20e6));
    double[] period = new double[2 * half];
    for (int k = 0; k < period.length; k++) {
      period[k] = k <= half ? k * (1.0 / half) : 2 - k * (1.0 / half);
    }
    double[] want = new double[period.length];
    chain
        .of(Signals.triangle(0, 1, 2 * half / RATE, 0.5))
        .sample(new SampleClock(0, RATE), 0, want, 0, want.length);
    StreamFilter filter = new StreamFilter(chain, RATE);
    double[] out = new double[period.length];
    double early = 0;
    int periods = 20_000;
    for (int p = 0; p < periods; p++) {
      filter.process(period, 0, out, 0, out.length);
      if (p == 10) {
        early = out[0] - want[0];
      }
      if (p >= 10 && p % 1111 == 10 || p == periods - 1) {
        for (int j = 0; j < out.length; j++) {
          double t = (p - 10.0) * period.length + j;
          double difference = early * Math.exp(-2 * Math.PI * 10 * t / RATE);
          assertEquals(want[j] + difference, out[j], 1e-11, "period " + p + ", sample " + j);
        }
      }
    }
    assertTrue(Math.abs(early) > 0.1, "the start is seen");
  }

  @Test
  void idealIsTheIdentity() {
    double[] u = random(5, 1500);
    assertArrayEquals(u, streamed(new StreamFilter(Response.identity(), 1), u));
  }

  @Test
  void resetForgets() {
    StreamFilter filter = new StreamFilter(Response.bessel(3, 10e6), RATE);
    double[] u = random(6, 1300);
    double[] first = streamed(filter, u);
    filter.reset();
    assertEquals(0, filter.count());
    assertArrayEquals(first, streamed(filter, u));
  }

  @Test
  void silenceDoesNotSlowDown() {
    StreamFilter filter = new StreamFilter(Response.bessel(4, 200e6), RATE);
    double[] u = new double[4096];
    u[0] = 1;
    double[] out = streamed(filter, u);
    assertEquals(0.0, out[4095], "what has died away is zero, not subnormal");
  }

  @Test
  void emptyAndOneSample() {
    StreamFilter filter = new StreamFilter(Response.highPass(1e6), RATE);
    filter.process(new double[0], 0, new double[0], 0, 0);
    assertEquals(0, filter.count());
    double[] one = {3};
    filter.process(one, 0, one, 0, 1);
    assertEquals(0, one[0], 1e-15);
    assertEquals(1, filter.count());
  }

  @Test
  void badInputIsRefusedAndChangesNothing() {
    StreamFilter filter = new StreamFilter(Response.bessel(2, 10e6), RATE);
    double[] u = random(7, 1000);
    double[] want = streamed(filter, u);
    filter.reset();
    double[] got = new double[1000];
    filter.process(u, 0, got, 0, 600);
    double[] bad = u.clone();
    for (double v : new double[] {Double.NaN, Double.POSITIVE_INFINITY, -1.1e9}) {
      bad[987] = v;
      String message =
          assertThrows(
                  IllegalArgumentException.class, () -> filter.process(bad, 600, got, 600, 400))
              .getMessage();
      assertTrue(message.startsWith("in[987] = " + v + " V"), message);
      assertEquals(600, filter.count());
    }
    filter.process(u, 600, got, 600, 400);
    assertArrayEquals(want, got);
    assertThrows(
        IllegalArgumentException.class, () -> filter.process(got, 0, got, 5, 100), "overlap");
    assertThrows(IndexOutOfBoundsException.class, () -> filter.process(u, 901, got, 0, 100), "in");
    assertThrows(IndexOutOfBoundsException.class, () -> filter.process(u, 0, got, 901, 100), "out");
    assertThrows(NullPointerException.class, () -> filter.process(null, 0, got, 0, 1));
    assertThrows(NullPointerException.class, () -> filter.process(u, 0, null, 0, 1));
  }

  @Test
  void badParametersAreRefused() {
    Response pole = Response.singlePole(1);
    assertThrows(NullPointerException.class, () -> new StreamFilter(null, 1));
    assertThrows(NullPointerException.class, () -> new StreamFilter(pole, 1, null));
    for (double rate : new double[] {0, -1, Double.NaN, Double.POSITIVE_INFINITY, 1e16}) {
      String message =
          assertThrows(IllegalArgumentException.class, () -> new StreamFilter(pole, rate))
              .getMessage();
      assertTrue(message.startsWith("rateHz = " + rate + " Hz"), message);
    }
  }
}
