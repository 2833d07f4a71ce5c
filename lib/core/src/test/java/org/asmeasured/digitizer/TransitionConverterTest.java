package org.asmeasured.digitizer;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.SplittableRandom;
import org.asmeasured.digitizer.Linearity.Line;
import org.asmeasured.frontend.Refused;
import org.asmeasured.internal.Cases;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class TransitionConverterTest {

  private static double[] converted(Converter converter, double... levels) {
    double[] codes = levels.clone();
    converter.convert(codes, 0, codes.length);
    return codes;
  }

  /** Also at ties, one place of a double above and below them, and far outside. */
  @ParameterizedTest
  @ValueSource(ints = {1, 2, 3, 8, 12, 16, 17})
  void withoutErrorsItIsTheIdealConverterBitForBit(int bits) {
    TransitionConverter converter = TransitionConverter.of(bits);
    IdealConverter ideal = new IdealConverter(bits);
    SplittableRandom random = new SplittableRandom(20250310);
    double width = Math.scalb(1.2, bits);
    double[] levels = new double[30_000];
    for (int i = 0; i < levels.length; i++) {
      double level = (random.nextDouble() - 0.5) * width;
      double tie = Math.rint(level) + 0.5;
      levels[i] =
          switch (i % 5) {
            case 0 -> tie;
            case 1 -> Math.nextUp(tie);
            case 2 -> Math.nextDown(tie);
            case 3 -> level * 1e10;
            default -> level;
          };
    }
    assertArrayEquals(converted(ideal, levels), converted(converter, levels), 0);
  }

  @Test
  void twentyFourBits() {
    TransitionConverter converter = TransitionConverter.of(24).withBow(3);
    SplittableRandom random = new SplittableRandom(20250311);
    for (int n = 0; n < 2000; n++) {
      int code = random.nextInt(converter.lowestCode() + 1, converter.highestCode() + 1);
      double level = converter.transitionLevel(code);
      double half = (Math.scalb(1.0, 24) - 2) / 2;
      double u = code / half;
      assertEquals(code - 0.5 + 3 * (1 - u * u), level, 1e-8);
      assertArrayEquals(
          new double[] {code - 1, code},
          converted(converter, Math.nextDown(level), Math.nextUp(level)));
    }
  }

  /**
   * The definition itself: the lowest code plus the transition levels below, over random tables.
   */
  @Test
  void countsTheTransitionLevelsBelow() {
    Cases.check(
        20250312,
        60,
        random -> {
          int bits = random.nextInt(1, 9);
          double[] t = new double[(1 << bits) - 1];
          double at = -Math.scalb(0.6, bits);
          for (int i = 0; i < t.length; i++) {
            // gaps of very different sizes, and none
            at += random.nextInt(4) == 0 ? 0 : Math.pow(random.nextDouble(), 6) * 7;
            t[i] = at;
          }
          TransitionConverter converter = TransitionConverter.of(bits, t);
          assertArrayEquals(t, converter.transitionLevels(), 0);
          for (int n = 0; n < 500; n++) {
            double level = t[0] - 1 + random.nextDouble() * (t[t.length - 1] - t[0] + 2);
            long below = Arrays.stream(t).filter(x -> x < level).count();
            assertEquals(
                converter.lowestCode() + below, converted(converter, level)[0], "" + level);
          }
          for (double tie : t) {
            double lower = converted(converter, Math.nextDown(tie))[0];
            double upper = converted(converter, Math.nextUp(tie))[0];
            boolean lowerAlone = lower % 2 == 0 && upper % 2 != 0;
            assertEquals(lowerAlone ? lower : upper, converted(converter, tie)[0], "tie " + tie);
          }
        });
  }

  /** Bow: (1 - u^2)(b0 + b1 u + ...), and by end points that is the INL. */
  @Test
  void theBowIsItsPolynomial() {
    TransitionConverter converter = TransitionConverter.of(10).withBow(2.5, -0.7, 0.4);
    double[] inl = Linearity.of(converter).inl(Line.END_POINTS);
    assertEquals(1023, inl.length);
    for (int i = 0; i < inl.length; i++) {
      double u = (i - 511) / 511.0;
      assertEquals((1 - u * u) * (2.5 - 0.7 * u + 0.4 * u * u), inl[i], 1e-12);
    }
    assertEquals(2.5, inl[511], 1e-12);
    assertEquals(0, inl[0]);
    assertEquals(0, inl[1022]);
  }

  @Test
  void gainAndOffsetReadTooLargeAndTooHighWhenPositive() {
    TransitionConverter converter =
        TransitionConverter.of(12).withGainError(0.01).withOffsetError(3);
    // level x reads 1.01 x + 3
    assertArrayEquals(new double[] {3, 1013, -1007}, converted(converter, 0, 1000, -1000));
    Linearity linearity = Linearity.of(converter);
    for (Line line : Line.values()) {
      assertEquals(0.01, linearity.gainError(line), 1e-14);
      assertEquals(3, linearity.offsetErrorSteps(line), 1e-11);
      assertEquals(0, Arrays.stream(linearity.inl(line)).map(Math::abs).max().getAsDouble(), 1e-11);
    }
    // the range: half a step beyond the end codes, as they are
    assertEquals((-2048.5 - 3) / 1.01, converter.lowestLevel(), 1e-9);
    assertEquals((2047.5 - 3) / 1.01, converter.highestLevel(), 1e-9);
  }

  /**
   * Widths of a stated deviation, fixed at both ends. 65534 uniform deviates: their sample variance
   * has a relative deviation of sqrt(0.8/65534) = 0.0035, five of which are exceeded once in 1.7
   * million seeds. The INL at the middle is Gaussian of deviation d sqrt(n)/2 = 12.8 steps: over
   * 200 converters of 8 bits its variance is tested likewise.
   */
  @Test
  void theWalkHasItsDeviationAndFixedEnds() {
    double d = 0.1;
    Linearity linearity = Linearity.of(TransitionConverter.of(16).withRandomWalk(d, 9));
    double[] dnl = linearity.dnl(Line.END_POINTS);
    double variance = Arrays.stream(dnl).map(w -> w * w).average().getAsDouble();
    assertEquals(d * d, variance, d * d * 5 * Math.sqrt(0.8 / dnl.length));
    double bound = d * Math.sqrt(3) * 1.01;
    assertTrue(Arrays.stream(dnl).allMatch(w -> Math.abs(w) < bound));
    double[] inl = linearity.inl(Line.END_POINTS);
    assertEquals(0, inl[0]);
    assertEquals(0, inl[inl.length - 1], 1e-9);
    double sum = 0;
    int converters = 400;
    for (int seed = 0; seed < converters; seed++) {
      double middle =
          Linearity.of(TransitionConverter.of(8).withRandomWalk(d, seed)).inl(Line.END_POINTS)[127];
      sum += middle * middle;
    }
    double expected = d * d * 254 / 4;
    assertEquals(expected, sum / converters, expected * 5 * Math.sqrt(2.0 / converters));
  }

  @Test
  void theSameSeedGivesTheSameConverter() {
    TransitionConverter a = TransitionConverter.of(9).withRandomWalk(0.2, 5);
    assertArrayEquals(
        a.transitionLevels(),
        TransitionConverter.of(9).withRandomWalk(0.2, 5).transitionLevels(),
        0);
    assertFalse(
        Arrays.equals(
            a.transitionLevels(),
            TransitionConverter.of(9).withRandomWalk(0.2, 6).transitionLevels()));
    // what a seed gives is a promise
    assertEquals(
        WALK_DIGEST,
        Arrays.stream(a.transitionLevels())
            .mapToLong(Double::doubleToLongBits)
            .reduce(17, (h, bits) -> h * 31 + bits));
  }

  private static final long WALK_DIGEST = -2517460483450585636L;

  @Test
  void missingCodesNeverAppearAndTheirNeighboursShareTheirWidth() {
    TransitionConverter converter = TransitionConverter.of(6).withMissingCodes(5, -3, 6, -32 + 1);
    assertArrayEquals(new int[] {-31, -3, 5, 6}, converter.missingCodes());
    assertArrayEquals(new int[] {-31, -3, 5, 6}, Linearity.of(converter).missingCodes());
    assertEquals(-3, converter.transitionLevel(-3));
    assertEquals(-3, converter.transitionLevel(-2));
    assertEquals(5.5, converter.transitionLevel(5));
    assertEquals(5.5, converter.transitionLevel(7));
    assertEquals(7.5, converter.transitionLevel(8));
    assertArrayEquals(
        new double[] {4, 4, 7, 7, 7, -4, -2, -32, -30},
        converted(converter, 4.6, 5.4, 5.6, 6.5, 7.4, -3.1, -2.9, -31.1, -30.9));
    double[] dnl = Linearity.of(converter).dnl(Line.END_POINTS);
    assertEquals(-1, dnl[5 + 31], 1e-12);
    assertEquals(-1, dnl[6 + 31], 1e-12);
    // a tie between 4 (even) and 7: the even one; between -4 and -2: the upper one
    assertArrayEquals(new double[] {4, -2}, converted(converter, 5.5, -3));
  }

  @Test
  void settingsAreReadBackAndCompared() {
    TransitionConverter a =
        TransitionConverter.of(8)
            .withBow(0.5)
            .withRandomWalk(0.1, 3)
            .withMissingCodes(4)
            .withGainError(0.01)
            .withOffsetError(-1);
    TransitionConverter b =
        TransitionConverter.of(8)
            .withOffsetError(-1)
            .withMissingCodes(4, 4)
            .withGainError(0.01)
            .withRandomWalk(0.1, 3)
            .withBow(0.5);
    assertEquals(a, b);
    assertEquals(a.hashCode(), b.hashCode());
    assertArrayEquals(a.transitionLevels(), b.transitionLevels(), 0);
    assertArrayEquals(new double[] {0.5}, a.bow());
    assertEquals(0.1, a.walkDeviation());
    assertEquals(3, a.walkSeed());
    assertEquals(0.01, a.gainError());
    assertEquals(-1, a.offsetErrorSteps());
    assertFalse(a.hasGivenLevels());
    assertNotEquals(a, b.withBow());
    assertNotEquals(a, b.withRandomWalk(0.1, 4));
    assertNotEquals(a, b.withMissingCodes());
    assertNotEquals(a, b.withGainError(0));
    assertNotEquals(a, b.withOffsetError(0));
    double[] levels = {-1, 0, 1};
    TransitionConverter given = TransitionConverter.of(2, levels);
    levels[0] = 7;
    assertArrayEquals(new double[] {-1, 0, 1}, given.givenLevels());
    assertTrue(given.hasGivenLevels());
    assertNotEquals(given, TransitionConverter.of(2));
    assertArrayEquals(new double[] {-1.5, -0.5, 0.5}, TransitionConverter.of(2).givenLevels());
  }

  @Test
  void refusesBadValues() {
    TransitionConverter eight = TransitionConverter.of(8);
    Refused.wholes("bits", TransitionConverter::of, 0, 25);
    Refused.wholes("bits", b -> TransitionConverter.of(b, new double[1]), 0, 25);
    Refused.missing("transitionLevels", () -> TransitionConverter.of(2, null));
    Refused.message("transitionLevels.length", "2", () -> TransitionConverter.of(2, new double[2]));
    Refused.values(
        "transitionLevels[1]", v -> TransitionConverter.of(2, new double[] {0, v, 1}), 1e8);
    Refused.message(
        "codes 0 and 1",
        "0.25 and 0.0",
        () -> TransitionConverter.of(2, new double[] {-1, 0.25, 0}));
    Refused.values("coefficientsSteps[0]", v -> eight.withBow(v), 1.1e6, -1.1e6);
    Refused.missing("coefficientsSteps", () -> eight.withBow((double[]) null));
    Refused.message("coefficientsSteps.length", "17", () -> eight.withBow(new double[17]));
    Refused.message("bits", "1", () -> TransitionConverter.of(1).withBow(0.1));
    // the slope of 70 u^3 (1 - u^2) at its ends is -140, over 127 codes
    Refused.message("codes -127 and -126", "must ascend", () -> eight.withBow(0, 0, 0, 70));
    Refused.values("deviationSteps", v -> eight.withRandomWalk(v, 0), -0.1, 0.578);
    Refused.missing("codes", () -> eight.withMissingCodes((int[]) null));
    Refused.wholes("codes[0]", eight::withMissingCodes, -128, 127);
    Refused.message("bits", "1", () -> TransitionConverter.of(1).withMissingCodes(0));
    Refused.values("gainError", eight::withGainError, -0.51, 0.51);
    Refused.values("offsetErrorSteps", eight::withOffsetError, -256.1, 256.1);
    Refused.wholes("code", c -> eight.transitionLevel(c), -128, 128);
  }

  @Test
  void saysItselfAsAPersonWould() {
    assertEquals("converter of 1 bit", TransitionConverter.of(1).toString());
    assertEquals(
        "converter of 8 bits, bow [0.5] steps, code widths +/- 0.1 steps (seed 3), missing codes "
            + "4, 9, gain error 0.01, offset -1.0 steps",
        TransitionConverter.of(8)
            .withBow(0.5)
            .withRandomWalk(0.1, 3)
            .withMissingCodes(9, 4)
            .withGainError(0.01)
            .withOffsetError(-1)
            .toString());
    assertEquals(
        "converter of 2 bits, transition levels given",
        TransitionConverter.of(2, new double[3]).toString());
  }
}
