package org.asmeasured.signal;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.SplittableRandom;
import org.asmeasured.internal.Cases;
import org.junit.jupiter.api.Test;

/** Instants are meant exactly, however far from the origin. */
class SharpnessTest {
  private static double sampled(Signal s, SampleClock clock, long index) {
    double[] out = new double[1];
    s.sample(clock, index, out, 0, 1);
    return out[0];
  }

  @Test
  void aPicosecondEdgeAtThreeSeconds() {
    Signal s = Signals.pulse(1, 3, 1, 1e-12, 1e-12);
    // instants as a double and what it leaves over: a double alone is 4.4e-16 s coarse there
    for (double share : new double[] {0, 0.001, 0.1, 0.5, 0.9, 0.999}) {
      assertEquals(share, s.valueAt(3, share * 1e-12), 1e-13);
    }
    assertEquals(0, s.valueAt(3, -1e-15));
    assertEquals(1, s.valueAt(3, 1.001e-12));
  }

  @Test
  void aPicosecondEdgeSeenBySamples() {
    // samples of 3 s + k x 1/3 ps: 0, 1/3, 2/3, 1 of the edge
    Signal s = Signals.pulse(1, 3, 1, 1e-12, 1e-12);
    SampleClock clock = new SampleClock(3, 3e12);
    assertEquals(0, sampled(s, clock, 0));
    assertEquals(1 / 3.0, sampled(s, clock, 1), 1e-13);
    assertEquals(2 / 3.0, sampled(s, clock, 2), 1e-13);
    assertEquals(1, sampled(s, clock, 3), 1e-13);
    // the same from the origin, at sample nine million million
    SampleClock far = new SampleClock(0, 3e12);
    assertEquals(1 / 3.0, sampled(s, far, 9_000_000_000_001L), 1e-13);
    assertEquals(2 / 3.0, sampled(s, far, 9_000_000_000_002L), 1e-13);
  }

  @Test
  void aSlowStartsFastEdgeOfATrain() {
    // 1 ps edges half a millisecond into a period, thousands of periods on
    Signal s = Signals.trapezoid(0, 1, 1e-3, 0.5, 1e-12, 1e-12);
    SampleClock clock = new SampleClock(0, 1e13);
    BigDecimal period = new BigDecimal(1e-3);
    long k = 30_000_000_000_003L; // 3 s and 0.3 ps
    BigDecimal t = new BigDecimal(k).divide(new BigDecimal(1e13), MathContext.DECIMAL128);
    BigDecimal within = t.subtract(period.multiply(new BigDecimal(3000)));
    // 1e-3 as a double is 2e-20 too long: 3000 periods are 6e-17 s late
    assertEquals(within.doubleValue() / 1e-12, sampled(s, clock, k), 1e-11);
  }

  @Test
  void edgesAgainstDecimalArithmetic() {
    Cases.check(
        10,
        500,
        random -> {
          double period = Cases.logUniform(random, 1e-8, 1e-2);
          double rise = Cases.logUniform(random, 1e-12, 1e-9);
          double rate = Cases.logUniform(random, 1e6, 1e11);
          double delay = random.nextDouble(-1, 1) * 1e-3;
          double start = random.nextDouble(-1, 1);
          Signal s = Signals.trapezoid(0, 1, period, 0.5, rise, rise).delayedBy(delay);
          SampleClock clock = new SampleClock(start, rate);
          // a sample on or near the edge of a period far away
          long n = random.nextLong(-1_000_000, 1_000_000);
          long k = Math.round((n * period + delay - start + rise * random.nextDouble()) * rate);
          if (Math.abs(k) > 1L << 52) {
            return;
          }
          BigDecimal t =
              new BigDecimal(k)
                  .divide(new BigDecimal(rate), new MathContext(60))
                  .add(new BigDecimal(start))
                  .subtract(new BigDecimal(delay));
          assertEquals(trapezoid(t, period, rise), sampled(s, clock, k), 1e-9, "sample " + k);
        });
  }

  private static double trapezoid(BigDecimal t, double period, double rise) {
    BigDecimal p = new BigDecimal(period);
    BigDecimal whole = t.divide(p, 0, java.math.RoundingMode.FLOOR);
    BigDecimal u = t.subtract(whole.multiply(p));
    double begin = u.doubleValue();
    if (begin < rise) {
      return begin / rise;
    }
    BigDecimal half = p.multiply(new BigDecimal("0.5"));
    double fall = u.subtract(half).doubleValue();
    return fall <= 0 ? 1 : fall >= rise ? 0 : 1 - fall / rise;
  }

  @Test
  void tonesAtTheBillionthSample() {
    // f/rate = 123456789/10^9 in whole numbers
    Signal s = Signals.sine(1, 123_456_789, 0.25);
    SampleClock clock = new SampleClock(0, 1e9);
    SplittableRandom random = new SplittableRandom(5);
    for (int i = 0; i < 200; i++) {
      long k = 1_000_000_000L + random.nextInt(1_000_000);
      long cycles = 123_456_789L * (k % 1_000_000_000L) % 1_000_000_000L;
      assertEquals(
          Math.sin(2 * Math.PI * (cycles / 1e9) + 0.25), sampled(s, clock, k), 1e-14, "k " + k);
    }
  }

  @Test
  void samplesAreValues() {
    Cases.check(
        500,
        150,
        random -> {
          Signal s = RandomSignals.any(random).plus(RandomSignals.any(random));
          SampleClock clock =
              new SampleClock(random.nextDouble(-1e-6, 1e-6), Cases.logUniform(random, 1e6, 1e10));
          double[] out = new double[50];
          s.sample(clock, -20, out, 5, 40);
          for (int i = 0; i < 40; i++) {
            assertEquals(
                sampled(s, clock, i - 20L), out[5 + i], "a sample depends on its number alone");
          }
          for (int i : new int[] {0, 4, 45, 49}) {
            assertEquals(0, out[i], "untouched");
          }
        });
  }

  @Test
  void clockInstants() {
    SampleClock clock = new SampleClock(-1e-6, 1e9);
    assertEquals(-1e-6, clock.timeSeconds(0));
    assertEquals(0, clock.timeSeconds(1000), 1e-22);
    assertEquals(1e-9, clock.intervalSeconds());
    assertEquals(-2e-6, clock.timeSeconds(-1000), 1e-21);
  }
}
