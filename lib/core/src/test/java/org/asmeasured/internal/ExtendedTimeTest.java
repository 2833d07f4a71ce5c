package org.asmeasured.internal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

/** Instants in two doubles, against decimal arithmetic without rounding. */
class ExtendedTimeTest {
  /** Two doubles hold 106 bits; sums may lose a few of the last. */
  private static final double RELATIVE = 0x1p-102;

  private static final MathContext DIGITS = new MathContext(80);

  private static BigDecimal exact(ExtendedTime t) {
    return new BigDecimal(t.hi()).add(new BigDecimal(t.lo()));
  }

  private static void assertClose(BigDecimal expected, ExtendedTime t, double scale) {
    assertEquals(t.hi(), t.hi() + t.lo(), "the leading part is the nearest double");
    double error = exact(t).subtract(expected).doubleValue();
    assertTrue(Math.abs(error) <= RELATIVE * scale, () -> "off by " + error + ", scale " + scale);
  }

  private static double seconds(SplittableRandom random) {
    return Cases.signed(random, Cases.logUniform(random, 1e-15, 1e9));
  }

  @Test
  void sumsOfDoubles() {
    Cases.check(
        100,
        2000,
        random -> {
          double a = seconds(random);
          double b = seconds(random);
          double c = seconds(random);
          ExtendedTime t = new ExtendedTime().set(a, 0).add(b).add(c);
          assertClose(
              new BigDecimal(a).add(new BigDecimal(b)).add(new BigDecimal(c)),
              t,
              Math.abs(a) + Math.abs(b) + Math.abs(c));
        });
  }

  @Test
  void sumsOfPairs() {
    Cases.check(
        200,
        2000,
        random -> {
          double a = seconds(random);
          double al = Math.ulp(a) / 2 * random.nextDouble(-1, 1);
          double b = seconds(random);
          double bl = Math.ulp(b) / 2 * random.nextDouble(-1, 1);
          ExtendedTime t = new ExtendedTime().set(a, al).add(b, bl);
          BigDecimal expected =
              new BigDecimal(a)
                  .add(new BigDecimal(al))
                  .add(new BigDecimal(b))
                  .add(new BigDecimal(bl));
          assertClose(expected, t, Math.abs(a) + Math.abs(b));
        });
  }

  @Test
  void cancellingLeavesTheDifference() {
    // 3 s and a picosecond, less 3 s: a plain double would be left with 1.00008890058234e-12
    ExtendedTime t = new ExtendedTime().set(3, 1e-12).add(-3);
    assertEquals(1e-12, t.hi());
    assertEquals(0, t.lo());
  }

  @Test
  void cancellingPairsLeaveTheirSmallestParts() {
    ExtendedTime t = new ExtendedTime().set(3, 1e-17).add(-3, 1e-34);
    assertEquals(1e-17, t.hi());
    assertEquals(1e-34, t.lo());
  }

  @Test
  void quotients() {
    Cases.check(
        300,
        2000,
        random -> {
          long k = random.nextLong(-(1L << 53), (1L << 53) + 1) >> random.nextInt(50);
          double rate = Cases.logUniform(random, 1e-9, 1e15);
          BigDecimal expected = new BigDecimal(k).divide(new BigDecimal(rate), DIGITS);
          assertClose(
              expected, new ExtendedTime().setQuotient(k, rate), expected.abs().doubleValue());
        });
  }

  @Test
  void aThousandMillionthsOfASecond() {
    ExtendedTime t = new ExtendedTime().setQuotient(1_234_567_890L, 1e9);
    assertClose(new BigDecimal("1.23456789"), t, 1.3);
    assertTrue(t.lo() != 0, "1.23456789 is no double");
  }

  @Test
  void products() {
    Cases.check(
        400,
        2000,
        random -> {
          double a = Cases.signed(random, Cases.logUniform(random, 1, 1e12));
          double b = Cases.logUniform(random, 1e-15, 1e3);
          double c = seconds(random);
          ExtendedTime t = new ExtendedTime().set(c, 0).addProduct(a, b);
          BigDecimal product = new BigDecimal(a).multiply(new BigDecimal(b));
          assertClose(product.add(new BigDecimal(c)), t, Math.abs(a * b) + Math.abs(c));
        });
  }

  @Test
  void wholePeriodsAreTakenOut() {
    Cases.check(
        500,
        4000,
        random -> {
          double period = Cases.logUniform(random, 1e-12, 1e3);
          double periodLo =
              random.nextBoolean() ? 0 : Math.ulp(period) * random.nextDouble(-0.5, 0.5);
          long n = random.nextLong(-(1L << 50), 1L << 50) >> random.nextInt(50);
          // near a whole number of periods as often as not
          double off =
              random.nextBoolean()
                  ? period * random.nextDouble()
                  : Cases.signed(random, Cases.logUniform(random, 1e-30, 1) * period);
          ExtendedTime t =
              new ExtendedTime().addProduct(n, period).addProduct(n, periodLo).add(off);
          BigDecimal before = exact(t);
          BigDecimal whole = new BigDecimal(period).add(new BigDecimal(periodLo));
          double taken = t.removeWhole(period, periodLo);
          BigDecimal expected = before.divide(whole, 0, RoundingMode.FLOOR);
          // where 106 bits cannot tell the two sides of a whole number apart, either will do
          BigDecimal rest = before.subtract(expected.multiply(whole));
          double edge = Math.min(rest.doubleValue(), whole.subtract(rest).doubleValue());
          double resolution = RELATIVE * (Math.abs(n) + 2.0) * period;
          if (edge > resolution) {
            assertEquals(expected.doubleValue(), taken, "periods taken out");
            assertClose(rest, t, (Math.abs(n) + 2.0) * period);
          }
          assertTrue(t.hi() >= 0, "the rest is not negative");
          assertTrue((t.hi() - period) + (t.lo() - periodLo) < 0, "the rest is below the period");
        });
  }

  @Test
  void justBeforeAWholePeriod() {
    ExtendedTime t = new ExtendedTime().set(-1e-30, 0);
    assertEquals(-1, t.removeWhole(1e-3, 0));
    assertEquals(1e-3, t.hi());
    assertEquals(-1e-30, t.lo());
    t.set(5e-3, 0);
    double before = t.removeWhole(1e-3, 0);
    assertEquals(5, before);
    assertEquals(5e-3 - 5 * 1e-3, t.hi(), 1e-18);
  }

  @Test
  void fractionsOfCycles() {
    Cases.check(
        600,
        2000,
        random -> {
          double f = Cases.logUniform(random, 1e-3, 1e12);
          ExtendedTime t = new ExtendedTime().set(seconds(random), 0);
          t.add(t.hi() * 1e-17);
          if (f * Math.abs(t.hi()) > 0x1p80) {
            return;
          }
          BigDecimal cycles = exact(t).multiply(new BigDecimal(f));
          BigDecimal nearest = cycles.setScale(0, RoundingMode.HALF_EVEN);
          double expected = cycles.subtract(nearest).doubleValue();
          double actual = t.fractionOfCycles(f);
          // a whole number more or less is no difference
          double error = actual - expected;
          error -= Math.rint(error);
          double scale = Math.max(1, f * Math.abs(t.hi()) * 0x1p-52);
          assertEquals(0, error, 0x1p-52 * scale);
          double slack = Math.ulp(f * t.hi());
          assertTrue(Math.abs(actual) <= 0.5 + slack, "within half a cycle, as far as doubles go");
        });
  }

  @Test
  void theBillionthCycleOfAGigahertz() {
    // 123456789.25 cycles of 1 GHz
    ExtendedTime t = new ExtendedTime().setQuotient(12_345_678_925L, 1e11);
    assertEquals(0.25, t.fractionOfCycles(1e9), 1e-15);
  }
}
