package org.asmeasured.linear;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.SplittableRandom;
import org.asmeasured.internal.Cases;
import org.asmeasured.internal.ExtendedTime;
import org.asmeasured.signal.RandomSignals;
import org.asmeasured.signal.SampleClock;
import org.asmeasured.signal.Signal;
import org.junit.jupiter.api.Test;

/** What holds for any signal through any response: it is linear, and the same at any time. */
class OutputPropertyTest {
  private static final int COUNT = 120;

  private static double[] sampled(Output y, SampleClock clock, long first, int count) {
    double[] out = new double[count];
    y.sample(clock, first, out, 0, count);
    return out;
  }

  private static SampleClock clock(SplittableRandom random) {
    return new SampleClock(random.nextDouble(-3e-6, 1e-6), Cases.logUniform(random, 1e7, 5e9));
  }

  private static double scale(Response h) {
    return Math.max(1, h.peakGain());
  }

  @Test
  void sumsComeOutAsSums() {
    Cases.check(
        1,
        60,
        random -> {
          Signal a = RandomSignals.any(random);
          Signal b = RandomSignals.any(random);
          double k = Cases.signed(random, random.nextDouble(0.1, 10));
          Response h = RandomResponses.chain(random);
          SampleClock clock = clock(random);
          double[] ya = sampled(h.of(a), clock, -10, COUNT);
          double[] yb = sampled(h.of(b), clock, -10, COUNT);
          double[] y = sampled(h.of(a.times(k).plus(b)), clock, -10, COUNT);
          double tolerance = 1e-10 * scale(h) * (Math.abs(k) * a.bound() + b.bound());
          for (int i = 0; i < COUNT; i++) {
            assertEquals(k * ya[i] + yb[i], y[i], tolerance, "sample " + i);
          }
        });
  }

  @Test
  void aDelayComesOutAsADelay() {
    Cases.check(
        1000,
        60,
        random -> {
          Signal s = RandomSignals.any(random);
          Response h = RandomResponses.chain(random);
          Output y = h.of(s);
          double d = random.nextInt(-1 << 20, 1 << 20) * 0x1p-40;
          Output later = h.of(s.delayedBy(d));
          double tolerance = 1e-10 * scale(h) * s.bound();
          for (int i = 0; i < 40; i++) {
            double t = random.nextInt(-1 << 22, 1 << 22) * 0x1p-40;
            assertEquals(y.valueAt(t - d), later.valueAt(t), tolerance, "t " + t);
            assertEquals(y.valueBefore(t - d), later.valueBefore(t), tolerance, "t " + t);
          }
        });
  }

  @Test
  void aSettledOutputIsPeriodic() {
    Cases.check(
        2000,
        60,
        random -> {
          Signal s = RandomSignals.settled(random);
          if (s.periodSeconds().isEmpty()) {
            return;
          }
          double period = s.periodSeconds().orElseThrow();
          Response h = RandomResponses.chain(random);
          Output y = h.of(s);
          double tolerance = 1e-9 * scale(h) * s.bound();
          for (int i = 0; i < 10; i++) {
            double t = period * random.nextDouble(0.01, 0.19);
            // the exact instant a whole number of periods on, in two doubles
            double k = random.nextInt(-100, 100);
            double p = k * period;
            double lo = Math.fma(k, period, -p);
            double at = y.valueAt(t, 0);
            ExtendedTime moved = new ExtendedTime().set(p, lo).add(t);
            assertEquals(at, y.valueAt(moved.hi(), moved.lo()), tolerance, h::toString);
          }
        });
  }

  @Test
  void theIdealChainChangesNothing() {
    Cases.check(
        3000,
        100,
        random -> {
          Signal s = RandomSignals.any(random).plus(RandomSignals.any(random));
          Output y = Response.identity().of(s);
          SampleClock clock = clock(random);
          double[] direct = new double[COUNT];
          s.sample(clock, -10, direct, 0, COUNT);
          assertArrayEquals(direct, sampled(y, clock, -10, COUNT), "bit for bit");
          double t = random.nextDouble(-1e-6, 1e-6);
          assertEquals(s.valueAt(t), y.valueAt(t));
          assertEquals(s.valueBefore(t), y.valueBefore(t));
        });
  }

  @Test
  void samplesAreValues() {
    Cases.check(
        4000,
        60,
        random -> {
          Signal s = RandomSignals.any(random).plus(RandomSignals.any(random));
          Response h = RandomResponses.chain(random);
          Output y = h.of(s);
          SampleClock clock = clock(random);
          long first = random.nextLong(-2000, 2000);
          double[] v = sampled(y, clock, first, COUNT);
          double tolerance = 1e-10 * scale(h) * s.bound();
          ExtendedTime t = new ExtendedTime();
          for (int i = 0; i < COUNT; i++) {
            t.setQuotient(first + i, clock.rateHz()).add(clock.startSeconds());
            assertEquals(y.valueAt(t.hi(), t.lo()), v[i], tolerance, "sample " + (first + i));
          }
        });
  }

  @Test
  void theOrderOfReadsChangesNoBit() {
    Cases.check(
        5000,
        40,
        random -> {
          Signal s = RandomSignals.any(random).plus(RandomSignals.any(random));
          Output y = RandomResponses.chain(random).of(s);
          SampleClock clock = clock(random);
          int n = 1500;
          double[] whole = sampled(y, clock, -700, n);
          OutputSampler sampler = y.sampler(clock);
          for (int i = 0; i < 40; i++) {
            int from = random.nextInt(n);
            int count = 1 + random.nextInt(Math.min(n - from, 1 << random.nextInt(11)));
            double[] part = new double[count];
            sampler.read(from - 700L, part, 0, count);
            for (int j = 0; j < count; j++) {
              assertEquals(whole[from + j], part[j], "sample " + (from + j - 700));
            }
          }
        });
  }

  @Test
  void knotsHoldEveryJump() {
    Cases.check(
        6000,
        50,
        random -> {
          Signal s = RandomSignals.any(random).plus(RandomSignals.any(random));
          Output y = RandomResponses.chain(random).of(s);
          double from = random.nextDouble(-1e-6, 1e-6);
          double to = from + Cases.logUniform(random, 1e-8, 1e-6);
          double[] knots = y.knots(from, to);
          assertEquals(from, knots[0]);
          assertEquals(to, knots[knots.length - 1]);
          int k = 0;
          for (double t : s.knots(from, to)) {
            while (k < knots.length && knots[k] < t) {
              k++;
            }
            assertEquals(t, knots[k], "a knot of the signal is one of the output");
          }
        });
  }

  @Test
  void extremesHoldAndAreReached() {
    Cases.check(
        7000,
        40,
        random -> {
          Signal s = RandomSignals.any(random).plus(RandomSignals.any(random));
          Response h = RandomResponses.chain(random);
          Output y = h.of(s);
          double from = random.nextDouble(-2e-6, 2e-6);
          double to = from + Cases.logUniform(random, 1e-8, 1e-6);
          double most = y.maximum(from, to);
          double least = y.minimum(from, to);
          double slack = 1e-11 * scale(h) * s.bound();
          double seenMost = Double.NEGATIVE_INFINITY;
          double seenLeast = Double.POSITIVE_INFINITY;
          for (double[] places : new double[][] {even(from, to, 1000), y.knots(from, to)}) {
            for (double t : places) {
              double right = t < to ? y.valueAt(t) : y.valueBefore(t);
              double left = t > from ? y.valueBefore(t) : y.valueAt(t);
              seenMost = Math.max(seenMost, Math.max(left, right));
              seenLeast = Math.min(seenLeast, Math.min(left, right));
            }
          }
          assertTrue(seenMost <= most + slack, () -> "maximum " + most + " of " + y);
          assertTrue(seenLeast >= least - slack, () -> "minimum " + least + " of " + y);
          double swing = most - least;
          assertEquals(most, seenMost, slack + 0.02 * swing, "reached");
          assertEquals(least, seenLeast, slack + 0.02 * swing, "reached");
        });
  }

  private static double[] even(double from, double to, int count) {
    double[] places = new double[count + 1];
    for (int i = 0; i <= count; i++) {
      places[i] = i == count ? to : from + (to - from) * i / count;
    }
    return places;
  }
}
