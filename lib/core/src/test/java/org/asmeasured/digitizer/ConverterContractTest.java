package org.asmeasured.digitizer;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.Random;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** What every converter keeps, ours and anyone's. */
class ConverterContractTest {

  /**
   * A converter as a user would write it: mid-riser, that is with its transitions at whole steps.
   */
  private record RoundsDown(int bits) implements Converter {
    @Override
    public void convert(double[] levels, int offset, int count) {
      for (int i = offset; i < offset + count; i++) {
        levels[i] = Math.min(highestCode(), Math.max(lowestCode(), Math.floor(levels[i])));
      }
    }
  }

  static Stream<Converter> converters() {
    return Stream.of(
        Converter.none(),
        new IdealConverter(1),
        new IdealConverter(8),
        new IdealConverter(12),
        new IdealConverter(24),
        new RoundsDown(6),
        TransitionConverter.of(1),
        TransitionConverter.of(1).withGainError(0.2).withOffsetError(0.1),
        TransitionConverter.of(2).withBow(0.4).withMissingCodes(0),
        TransitionConverter.of(8),
        TransitionConverter.of(8).withBow(0.8, -0.3).withRandomWalk(0.25, 42),
        TransitionConverter.of(10)
            .withRandomWalk(0.577, 43)
            .withMissingCodes(-511, -3, -2, -1, 17, 510)
            .withGainError(-0.02)
            .withOffsetError(2.5),
        TransitionConverter.of(3, new double[] {-3, -3, -1.5, -1.5, 0, 0.001, 3.9}),
        TransitionConverter.of(3, new double[] {-3, -2.99, -2.98, -2.97, -2.96, -2.95, 3}),
        TransitionConverter.of(16).withRandomWalk(0.1, 44));
  }

  private static double[] levels(Converter converter, int count) {
    double width = 1.2 * Math.scalb(1.0, converter.bits());
    return new Random(20250102).doubles(count, -0.5 * width, 0.5 * width).toArray();
  }

  @ParameterizedTest
  @MethodSource("converters")
  void idealIsTheIdentityBitForBit(Converter converter) {
    double[] levels = levels(converter, 1000);
    double[] converted = levels.clone();
    converter.convert(converted, 0, converted.length);
    assertEquals(converter.bits() == 0, converter.isIdeal());
    if (converter.isIdeal()) {
      assertArrayEquals(levels, converted, 0);
    }
  }

  @ParameterizedTest
  @MethodSource("converters")
  void voltsAreThoseOfTheCodes(Converter converter) {
    double[] levels = levels(converter, 1000);
    levels[17] = Double.POSITIVE_INFINITY;
    levels[18] = Double.NEGATIVE_INFINITY;
    levels[19] = -1e300;
    levels[20] = Double.NaN;
    double[] codes = levels.clone();
    if (!converter.isIdeal()) {
      converter.convert(codes, 0, codes.length);
    }
    double[] given = levels.clone();
    double[] volts = new double[1010];
    converter.toVolts(given, volts, 5, 900, -0.25, 0.1);
    assertArrayEquals(levels, given, 0);
    for (int i = 0; i < volts.length; i++) {
      assertEquals(i < 5 || i >= 905 ? 0 : -0.25 + codes[i] * 0.1, volts[i], 0);
    }
    converter.toVolts(given, given, 0, 1000, -0.25, 0.1);
    assertEquals(-0.25 + codes[999] * 0.1, given[999], 0);
    assertThrows(
        IndexOutOfBoundsException.class, () -> converter.toVolts(given, volts, 5, 996, 0, 1));
    assertThrows(
        IndexOutOfBoundsException.class, () -> converter.toVolts(volts, given, 5, 996, 0, 1));
    assertThrows(
        IndexOutOfBoundsException.class, () -> converter.toVolts(given, volts, -1, 3, 0, 1));
  }

  @ParameterizedTest
  @MethodSource("converters")
  void givesWholeCodesWithinItsRange(Converter converter) {
    if (converter.isIdeal()) {
      assertEquals(0, converter.lowestCode());
      assertEquals(0, converter.highestCode());
      return;
    }
    assertEquals(
        Math.scalb(1.0, converter.bits()), converter.highestCode() - converter.lowestCode() + 1.0);
    assertEquals(-1, converter.highestCode() + converter.lowestCode());
    double[] levels = levels(converter, 20000);
    converter.convert(levels, 0, levels.length);
    boolean lowest = false;
    boolean highest = false;
    for (double code : levels) {
      assertEquals(Math.rint(code), code);
      assertTrue(code >= converter.lowestCode() && code <= converter.highestCode(), "code " + code);
      lowest |= code == converter.lowestCode();
      highest |= code == converter.highestCode();
    }
    assertTrue(lowest && highest, "both end codes are reached");
  }

  /** Converters of which every code lies in its own step. */
  static Stream<Converter> straight() {
    return Stream.of(
        Converter.none(),
        new IdealConverter(1),
        new IdealConverter(8),
        new IdealConverter(24),
        new RoundsDown(6),
        TransitionConverter.of(1),
        TransitionConverter.of(8),
        TransitionConverter.of(8).withRandomWalk(0.02, 42));
  }

  @ParameterizedTest
  @MethodSource("straight")
  void convertingACodeKeepsItWhereItLiesInItsOwnStep(Converter converter) {
    double[] once = levels(converter, 1000);
    converter.convert(once, 0, once.length);
    double[] twice = once.clone();
    converter.convert(twice, 0, twice.length);
    assertArrayEquals(once, twice, 0);
  }

  @ParameterizedTest
  @MethodSource("converters")
  void codesNeverFallAsTheLevelRises(Converter converter) {
    double[] levels = levels(converter, 20000);
    Arrays.sort(levels);
    converter.convert(levels, 0, levels.length);
    for (int i = 1; i < levels.length; i++) {
      assertTrue(levels[i - 1] <= levels[i]);
    }
  }

  @ParameterizedTest
  @MethodSource("converters")
  void theRangeLiesAboutItsCodes(Converter converter) {
    assertTrue(converter.lowestLevel() < converter.highestLevel());
    if (!converter.isIdeal()) {
      double[] inside = {
        Math.nextUp(converter.lowestLevel()), Math.nextDown(converter.highestLevel())
      };
      converter.convert(inside, 0, 2);
      assertEquals(converter.lowestCode(), inside[0]);
      assertEquals(converter.highestCode(), inside[1]);
    }
  }

  @ParameterizedTest
  @MethodSource("converters")
  void threadsChangeNothing(Converter converter) {
    double[] levels = levels(converter, 8000);
    double[] whole = levels.clone();
    converter.convert(whole, 0, whole.length);
    IntStream.range(0, 16).parallel().forEach(p -> converter.convert(levels, 500 * p, 500));
    assertArrayEquals(whole, levels, 0);
  }

  @ParameterizedTest
  @MethodSource("converters")
  void blocksChangeNothing(Converter converter) {
    double[] whole = levels(converter, 5000);
    double[] blocks = whole.clone();
    converter.convert(whole, 0, whole.length);
    Random random = new Random(20250103);
    for (int at = 0; at < blocks.length; ) {
      int count = Math.min(blocks.length - at, random.nextInt(900));
      converter.convert(blocks, at, count);
      at += count;
    }
    assertArrayEquals(whole, blocks, 0);
  }

  @ParameterizedTest
  @MethodSource("converters")
  void takesNoneAndOneSample(Converter converter) {
    double[] levels = {0.75, 0.75, 0.75};
    converter.convert(levels, 1, 0);
    assertArrayEquals(new double[] {0.75, 0.75, 0.75}, levels);
    double[] alone = {0.75};
    converter.convert(alone, 0, 1);
    converter.convert(levels, 1, 1);
    assertArrayEquals(new double[] {0.75, alone[0], 0.75}, levels, 0);
  }

  @ParameterizedTest
  @MethodSource("converters")
  void notANumberStaysThat(Converter converter) {
    double[] levels = {0, Double.NaN, 1e300, Double.POSITIVE_INFINITY, Double.NEGATIVE_INFINITY};
    converter.convert(levels, 0, levels.length);
    double[] alone = {0};
    converter.convert(alone, 0, 1);
    assertEquals(alone[0], levels[0]);
    assertTrue(Double.isNaN(levels[1]));
    if (!converter.isIdeal()) {
      assertEquals(converter.highestCode(), levels[2]);
      assertEquals(converter.highestCode(), levels[3]);
      assertEquals(converter.lowestCode(), levels[4]);
    }
  }

  @ParameterizedTest
  @MethodSource("converters")
  void saysItself(Converter converter) {
    assertFalse(converter.toString().isBlank());
    assertFalse(converter.toString().contains("@"));
  }
}
