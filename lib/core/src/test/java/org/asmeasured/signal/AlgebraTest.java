package org.asmeasured.signal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.SplittableRandom;
import org.asmeasured.internal.Cases;
import org.junit.jupiter.api.Test;

/** Sums, scaling and delay, on random members of the whole family. */
class AlgebraTest {
  private static final int CASES = 300;

  private static double instant(SplittableRandom random) {
    return random.nextDouble(-5e-6, 5e-6);
  }

  @Test
  void sumsAddValues() {
    Cases.check(
        1000,
        CASES,
        random -> {
          Signal a = RandomSignals.any(random);
          Signal b = RandomSignals.any(random);
          Signal c = RandomSignals.any(random);
          Signal sum = a.plus(b).plus(c);
          double bound = a.bound() + b.bound() + c.bound();
          for (int i = 0; i < 20; i++) {
            double t = instant(random);
            assertEquals(a.valueAt(t) + b.valueAt(t) + c.valueAt(t), sum.valueAt(t), 1e-14 * bound);
            assertEquals(
                a.valueBefore(t) + b.valueBefore(t) + c.valueBefore(t),
                sum.valueBefore(t),
                1e-14 * bound);
            assertEquals(a.valueAt(t) - b.valueAt(t), a.minus(b).valueAt(t), 1e-14 * bound);
          }
        });
  }

  @Test
  void scalingScalesValues() {
    Cases.check(
        2000,
        CASES,
        random -> {
          Signal a = RandomSignals.any(random);
          double k = Cases.signed(random, Cases.logUniform(random, 1e-6, 1e6));
          Signal scaled = a.times(k);
          for (int i = 0; i < 20; i++) {
            double t = instant(random);
            assertEquals(k * a.valueAt(t), scaled.valueAt(t), 1e-14 * Math.abs(k) * a.bound());
          }
          assertEquals(Math.abs(k) * a.bound(), scaled.bound(), 1e-12 * scaled.bound());
        });
  }

  @Test
  void delayMovesValues() {
    Cases.check(
        3000,
        CASES,
        random -> {
          Signal a = RandomSignals.any(random);
          // dyadic instants, so that t - d is exact and no jump is missed by rounding
          double d = random.nextInt(-1 << 20, 1 << 20) * 0x1p-40;
          Signal later = a.delayedBy(d);
          for (int i = 0; i < 20; i++) {
            double t = random.nextInt(-1 << 22, 1 << 22) * 0x1p-40;
            assertEquals(a.valueAt(t - d), later.valueAt(t), 1e-13 * a.bound(), "d = " + d);
            assertEquals(a.valueBefore(t - d), later.valueBefore(t), 1e-13 * a.bound());
          }
          Signal back = later.delayedBy(-d);
          double t = instant(random);
          assertEquals(a.valueAt(t), back.valueAt(t), 1e-13 * a.bound(), "there and back");
        });
  }

  @Test
  void stretchingMovesInstants() {
    Cases.check(
        3500,
        CASES,
        random -> {
          Signal a = RandomSignals.any(random);
          // powers of two and dyadic instants, so that no jump is missed by rounding
          double k = Math.scalb(1, random.nextInt(-8, 9));
          Signal slower = a.stretchedBy(k);
          for (int i = 0; i < 20; i++) {
            double t = random.nextInt(-1 << 22, 1 << 22) * 0x1p-40;
            assertEquals(a.valueAt(t), slower.valueAt(k * t), 1e-13 * a.bound(), "k = " + k);
            assertEquals(a.valueBefore(t), slower.valueBefore(k * t), 1e-13 * a.bound());
          }
          assertEquals(a.bound(), slower.bound(), 1e-13 * a.bound());
        });
  }

  /** Substitution in the integrals: means over k times the span are the same for any k. */
  @Test
  void stretchingKeepsMeansAndStretchesPeriods() {
    Cases.check(
        3600,
        CASES,
        random -> {
          Signal a = RandomSignals.any(random);
          double k = Cases.logUniform(random, 0.01, 100);
          Signal slower = a.stretchedBy(k);
          double from = instant(random);
          double to = from + Cases.logUniform(random, 1e-9, 1e-5);
          // 1e-12 of a span that begins 1e-5 s away from zero is a rounding of its ends
          double rounding = 1e-12 * a.bound() * Math.max(1, 1e-8 / (to - from));
          assertEquals(a.mean(from, to), slower.mean(k * from, k * to), rounding, "k = " + k);
          assertEquals(a.rms(from, to), slower.rms(k * from, k * to), 1e-9 * a.bound());
          a.periodSeconds()
              .ifPresent(
                  p -> assertEquals(k * p, slower.periodSeconds().getAsDouble(), 1e-14 * k * p));
          assertSame(a, a.stretchedBy(1));
        });
  }

  @Test
  void readingsAreLinear() {
    Cases.check(
        4000,
        100,
        random -> {
          Signal a = RandomSignals.any(random);
          Signal b = RandomSignals.any(random);
          double k = Cases.signed(random, random.nextDouble(0.1, 10));
          double from = instant(random);
          double to = from + Cases.logUniform(random, 1e-9, 1e-5);
          double bound = Math.abs(k) * a.bound() + b.bound();
          double mean = k * a.mean(from, to) + b.mean(from, to);
          assertEquals(mean, a.times(k).plus(b).mean(from, to), 1e-11 * bound, "mean");
          // RMS through the parallelogram rule: |a+b|^2 + |a-b|^2 = 2 |a|^2 + 2 |b|^2
          double plus = a.plus(b).rms(from, to);
          double minus = a.minus(b).rms(from, to);
          double ra = a.rms(from, to);
          double rb = b.rms(from, to);
          double scale = a.bound() + b.bound();
          assertEquals(
              2 * ra * ra + 2 * rb * rb,
              plus * plus + minus * minus,
              1e-11 * scale * scale,
              "parallelogram");
          // both are between the extremes
          double least = a.minimum(from, to);
          double most = a.maximum(from, to);
          double slack = 1e-11 * a.bound();
          assertTrue(a.mean(from, to) >= least - slack && a.mean(from, to) <= most + slack);
          assertTrue(ra <= Math.max(Math.abs(least), Math.abs(most)) + slack);
        });
  }

  @Test
  void extremesHoldAndAreReached() {
    Cases.check(
        5000,
        100,
        random -> {
          Signal a = RandomSignals.any(random).plus(RandomSignals.any(random));
          double from = instant(random);
          double to = from + Cases.logUniform(random, 1e-8, 3e-6);
          double most = a.maximum(from, to);
          double least = a.minimum(from, to);
          double slack = 1e-12 * a.bound();
          double seenMost = Double.NEGATIVE_INFINITY;
          double seenLeast = Double.POSITIVE_INFINITY;
          int n = 4000;
          for (int i = 0; i <= n; i++) {
            double t = from + (to - from) * i / n;
            double v = i == n ? a.valueBefore(to) : a.valueAt(t);
            seenMost = Math.max(seenMost, v);
            seenLeast = Math.min(seenLeast, v);
          }
          assertTrue(seenMost <= most + slack, () -> "maximum " + most);
          assertTrue(seenLeast >= least - slack, () -> "minimum " + least);
          for (double k : a.knots(from, to)) {
            seenMost = Math.max(seenMost, k < to ? a.valueAt(k) : a.valueBefore(k));
            seenMost = Math.max(seenMost, k > from ? a.valueBefore(k) : a.valueAt(k));
            seenLeast = Math.min(seenLeast, k < to ? a.valueAt(k) : a.valueBefore(k));
            seenLeast = Math.min(seenLeast, k > from ? a.valueBefore(k) : a.valueAt(k));
          }
          // a smooth crest between the places looked at lies little above them
          double swing = most - least;
          assertEquals(most, seenMost, slack + 0.02 * swing, "reached");
          assertEquals(least, seenLeast, slack + 0.02 * swing, "reached");
        });
  }

  @Test
  void nothingIsDoneWhereThereIsNothingToDo() {
    Signal s = Signals.step(1, 0);
    assertSame(s, s.times(1));
    assertSame(s, s.delayedBy(0));
    assertEquals(0, s.minus(s).valueAt(3));
    assertEquals(0, s.times(0).valueAt(3), 0.0);
    assertEquals(0, s.times(0).bound());
  }

  @Test
  void boundsHold() {
    assertEquals(3, Signals.constant(-3).bound());
    assertEquals(2, Signals.sine(2, 1).bound(), 1e-15);
    assertEquals(5, Signals.sine(2, 1).plus(3).bound(), 1e-15);
    assertEquals(4, Signals.square(-4, 3, 1, 0.5).bound());
    assertEquals(4, Signals.triangle(-4, 3, 1, 0.5).bound(), 1e-14);
    assertEquals(Double.POSITIVE_INFINITY, Signals.ramp(1, 0).bound());
    assertEquals(7, Signals.ramp(7, 0, 1).bound(), 1e-14);
    Cases.check(
        6000,
        200,
        random -> {
          Signal s = RandomSignals.any(random);
          for (int i = 0; i < 50; i++) {
            assertTrue(Math.abs(s.valueAt(instant(random))) <= s.bound() * (1 + 1e-12));
          }
        });
  }
}
