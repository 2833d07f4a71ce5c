package org.asmeasured.validation;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.SplittableRandom;
import java.util.function.LongFunction;
import org.asmeasured.linear.Output;
import org.asmeasured.linear.OutputSampler;
import org.asmeasured.linear.Response;
import org.asmeasured.signal.SampleClock;
import org.asmeasured.signal.Signal;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.Test;

/**
 * Properties that hold for every signal of the family through every chain, over a seeded stream of
 * random cases. A failure prints the seed of its case: {@code new RandomChains(seed)} makes the
 * same one again.
 */
class ChainPropertyTest {
  private static final int CASES = 500;
  private static final double TOLERANCE = 1e-9;

  /** What one case has to say: the error in units of its full scale, or a complaint. */
  private record Outcome(double error, String what) {}

  private static void forAll(String property, long stream, LongFunction<Outcome> one) {
    SplittableRandom seeds = new SplittableRandom(stream);
    int failed = 0;
    StringBuilder failures = new StringBuilder();
    for (int i = 0; i < CASES; i++) {
      long seed = seeds.nextLong();
      Outcome outcome;
      try {
        outcome = one.apply(seed);
      } catch (RuntimeException e) {
        outcome = new Outcome(Double.NaN, e.toString());
      }
      if (outcome.error <= TOLERANCE) {
        Worst.note("property: " + property, outcome.error, TOLERANCE);
      } else if (++failed <= 10) {
        failures.append("\n  seed ").append(seed).append("L: ").append(outcome.error);
        failures.append(" of full scale; ").append(outcome.what);
      }
    }
    int count = failed;
    assertTrue(
        failed == 0, () -> property + ": " + count + " of " + CASES + " cases fail" + failures);
  }

  /**
   * The scale that errors are measured by: the input's bound through the greatest gain, at least 1
   * V.
   */
  private static double scale(Signal x, Response h) {
    double gain = h.poles().isEmpty() ? Math.abs(h.gain()) : h.peakGain();
    return Math.max(1, x.bound() * Math.max(1, gain));
  }

  private static SampleClock clock(RandomChains r) {
    return new SampleClock(r.instant(1e-6), r.logUniform(1e6, 5e9));
  }

  private static double[] sampled(Output y, SampleClock clock, int n) {
    double[] out = new double[n];
    y.sample(clock, 0, out, 0, n);
    return out;
  }

  private static Outcome worst(double[] a, double[] b, double scale, String what) {
    double worst = 0;
    int at = -1;
    for (int i = 0; i < a.length; i++) {
      double e = Math.abs(a[i] - b[i]) / scale;
      if (!(e <= worst)) {
        worst = e;
        at = i;
      }
    }
    return new Outcome(
        worst, "sample " + at + (at < 0 ? "" : ": " + a[at] + " and " + b[at]) + "; " + what);
  }

  private static boolean sameBits(double a, double b) {
    return Double.doubleToRawLongBits(a) == Double.doubleToRawLongBits(b);
  }

  private static Outcome bits(double[] a, double[] b, String what) {
    for (int i = 0; i < a.length; i++) {
      if (!sameBits(a[i], b[i])) {
        return new Outcome(
            Double.POSITIVE_INFINITY, "sample " + i + ": " + a[i] + " and " + b[i] + "; " + what);
      }
    }
    return new Outcome(0, what);
  }

  @Test
  void linear() {
    forAll(
        "linearity",
        1,
        seed -> {
          RandomChains r = new RandomChains(seed);
          Signal x1 = r.any();
          Signal x2 = r.any();
          double a = r.volts();
          double b = r.volts();
          Response h = r.response();
          SampleClock clock = clock(r);
          int n = 300;
          double[] whole = sampled(h.of(x1.times(a).plus(x2.times(b))), clock, n);
          double[] y1 = sampled(h.of(x1), clock, n);
          double[] y2 = sampled(h.of(x2), clock, n);
          double[] parts = new double[n];
          for (int i = 0; i < n; i++) {
            parts[i] = a * y1[i] + b * y2[i];
          }
          double scale = Math.abs(a) * scale(x1, h) + Math.abs(b) * scale(x2, h) + 1;
          return worst(
              whole, parts, scale, a + " (" + x1 + ") + " + b + " (" + x2 + ") through " + h);
        });
  }

  @Test
  void timeShift() {
    forAll(
        "time shift",
        2,
        seed -> {
          RandomChains r = new RandomChains(seed);
          Signal x = r.any();
          Response h = r.response();
          double d = r.instant(3e-6);
          Output early = h.of(x);
          Output late = h.of(x.delayedBy(d));
          int n = 100;
          double[] a = new double[n];
          double[] b = new double[n];
          for (int i = 0; i < n; i++) {
            // on the grid of RandomChains, so that t + d is exact
            double t = r.instant(8e-6);
            a[i] = early.valueAt(t);
            b[i] = late.valueAt(t + d);
          }
          return worst(a, b, scale(x, h), "delay " + d + " s; " + x + " through " + h);
        });
  }

  @Test
  void identityBitForBit() {
    forAll(
        "ideal chain is the identity, bit for bit",
        3,
        seed -> {
          RandomChains r = new RandomChains(seed);
          Signal x = r.any();
          SampleClock clock = clock(r);
          int n = 700;
          double[] plain = new double[n];
          x.sample(clock, 0, plain, 0, n);
          Output y = Response.identity().of(x);
          Outcome sampled = bits(plain, sampled(y, clock, n), x.toString());
          if (sampled.error > 0) {
            return sampled;
          }
          for (int i = 0; i < n; i++) {
            double t = r.instant(5e-6);
            if (!sameBits(x.valueAt(t), y.valueAt(t))
                || !sameBits(x.valueBefore(t), y.valueBefore(t))) {
              return new Outcome(Double.POSITIVE_INFINITY, "t = " + t + " s: " + x);
            }
          }
          return sampled;
        });
  }

  @Test
  void blocksAndOrderChangeNothing() {
    forAll(
        "block size and order change nothing, bit for bit",
        4,
        seed -> {
          RandomChains r = new RandomChains(seed);
          Signal x = r.any();
          Response h = r.response();
          SampleClock clock = clock(r);
          long first = r.below(3) == 0 ? (long) r.logUniform(1, 1e12) : -r.below(2000);
          int n = 2000;
          Output y = h.of(x);
          double[] whole = new double[n];
          y.sample(clock, first, whole, 0, n);
          double[] pieces = new double[n];
          int at = 0;
          while (at < n) {
            int count = Math.min(n - at, 1 + r.below(r.below(2) == 0 ? 7 : 900));
            y.sample(clock, first + at, pieces, at, count);
            at += count;
          }
          String what = "first " + first + ", " + clock + "; " + x + " through " + h;
          Outcome outcome = bits(whole, pieces, "in pieces; " + what);
          if (outcome.error > 0) {
            return outcome;
          }
          OutputSampler sampler = h.of(x).sampler(clock);
          double[] jumps = new double[n];
          sampler.read(first, jumps, 0, n);
          outcome = bits(whole, jumps, "by the sampler; " + what);
          if (outcome.error > 0) {
            return outcome;
          }
          for (int k = 0; k < 40; k++) {
            int from = r.below(n);
            int count = 1 + r.below(Math.min(n - from, 700));
            sampler.read(first + from, jumps, from, count);
          }
          return bits(whole, jumps, "by the sampler, out of order; " + what);
        });
  }

  @Test
  void settledIsPeriodic() {
    forAll(
        "periodic start is periodic",
        5,
        seed -> {
          RandomChains r = new RandomChains(seed);
          Signal x = r.periodic().plus(r.periodic().delayedBy(r.instant(1e-6)));
          Response h = r.response();
          Output y = h.of(x);
          int n = 60;
          double[] a = new double[n];
          double[] b = new double[n];
          for (int i = 0; i < n; i++) {
            double t = r.instant(8e-6);
            a[i] = y.valueAt(t);
            // whole periods of every part; exact in doubles, because t is on the grid
            b[i] = y.valueAt(t + (1 - 2 * r.below(2)) * (1 + r.below(20)) * 0x1p-16);
          }
          Outcome outcome = worst(a, b, scale(x, h), x + " through " + h);
          double period = y.periodSeconds().orElse(Double.NaN);
          double whole = 0x1p-16 / period;
          if (!(Math.abs(whole - Math.rint(whole)) < 1e-9 * whole)) {
            return new Outcome(Double.NaN, "period " + period + " s does not divide 2^-16 s; " + x);
          }
          return outcome;
        });
  }

  @Test
  void samplesAreValues() {
    forAll(
        "samples are values at their instants",
        6,
        seed -> {
          RandomChains r = new RandomChains(seed);
          Signal x = r.any();
          Response h = r.response();
          Output y = h.of(x);
          // a clock whose instants are doubles
          SampleClock clock = new SampleClock(r.instant(1e-6), Math.scalb(1.0, 20 + r.below(12)));
          int n = 200;
          double[] sampled = sampled(y, clock, n);
          double[] values = new double[n];
          for (int i = 0; i < n; i++) {
            values[i] = y.valueAt(clock.startSeconds() + i / clock.rateHz());
          }
          return worst(sampled, values, scale(x, h), clock + "; " + x + " through " + h);
        });
  }

  @AfterAll
  static void table() {
    System.out.println(Worst.table("property"));
    Evidence.figures();
  }
}
