package org.asmeasured.capture;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.SplittableRandom;
import org.asmeasured.acquisition.PeakDetect;
import org.asmeasured.digitizer.ConverterNoise;
import org.asmeasured.frontend.VerticalScale;
import org.asmeasured.signal.Signals;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** The first point beyond a level is the one that looking at every point finds. */
class RecordSearchTest {

  private static Record record(int bits, long seed) {
    Setup setup =
        Setup.ideal(1e6, 300)
            .vertical(VerticalScale.of(0.25).withOffset(0.3))
            .converterNoise(ConverterNoise.ofSteps(2, 8));
    return (bits == 0 ? setup : setup.bits(bits))
        .capture(Signals.sine(0.7, 7_000).plus(Signals.constant(0.4)), seed);
  }

  private static int naive(Record record, int from, double level, boolean above) {
    int i = from;
    while (i < record.size() && (above ? record.volts(i) < level : record.volts(i) > level)) {
      i++;
    }
    return i;
  }

  @ParameterizedTest
  @ValueSource(ints = {0, 1, 3, 8, 24})
  void findsWhatLookingAtEveryPointFinds(int bits) {
    SplittableRandom random = new SplittableRandom(bits);
    for (int run = 0; run < 200; run++) {
      Record record = record(bits, run);
      int from = random.nextInt(record.size() + 1);
      // on a value, next to one, between two, beyond all
      double value = record.volts(random.nextInt(record.size()));
      double level =
          switch (run % 5) {
            case 0 -> value;
            case 1 -> Math.nextUp(value);
            case 2 -> Math.nextDown(value);
            case 3 -> 3 * random.nextDouble() - 1.2;
            default ->
                (random.nextBoolean() ? 1 : -1) * (run % 2 == 0 ? 1e300 : Double.POSITIVE_INFINITY);
          };
      assertEquals(naive(record, from, level, true), record.firstAtOrAbove(from, level));
      assertEquals(naive(record, from, level, false), record.firstAtOrBelow(from, level));
    }
  }

  @Test
  void refusesWhatHasNoAnswer() {
    Record record = record(8, 0);
    for (int from : new int[] {-1, 301}) {
      assertThrows(IndexOutOfBoundsException.class, () -> record.firstAtOrAbove(from, 0));
      assertThrows(IndexOutOfBoundsException.class, () -> record.firstAtOrBelow(from, 0));
    }
    assertThrows(IllegalArgumentException.class, () -> record.firstAtOrAbove(0, Double.NaN));
    assertThrows(IllegalArgumentException.class, () -> record.firstAtOrBelow(0, Double.NaN));
    Record envelope =
        Setup.ideal(1e6, 30).decimation(new PeakDetect(10)).capture(Signals.sine(1, 7_000));
    assertThrows(IllegalStateException.class, () -> envelope.firstAtOrAbove(0, 0));
    assertThrows(IllegalStateException.class, () -> envelope.firstAtOrBelow(0, 0));
  }

  @Test
  void tellsTheRangeOfCodes() {
    for (int bits : new int[] {1, 8, 24}) {
      Record record = record(bits, 1);
      int least = Integer.MAX_VALUE;
      int greatest = Integer.MIN_VALUE;
      for (int i = 0; i < record.size(); i++) {
        least = Math.min(least, record.code(i));
        greatest = Math.max(greatest, record.code(i));
      }
      assertEquals(least, record.leastCode());
      assertEquals(greatest, record.greatestCode());
    }
    Record volts = record(0, 1);
    assertThrows(IllegalStateException.class, volts::leastCode);
    assertThrows(IllegalStateException.class, volts::greatestCode);
    Record envelope =
        Setup.ideal(1e6, 30)
            .vertical(VerticalScale.of(0.25))
            .bits(8)
            .decimation(new PeakDetect(10))
            .capture(Signals.sine(0.7, 7_000));
    assertEquals(envelope.minimum(), envelope.leastCode() * envelope.stepVolts());
    assertEquals(envelope.maximum(), envelope.greatestCode() * envelope.stepVolts());
    assertEquals(-90, envelope.leastCode());
    assertEquals(90, envelope.greatestCode());
  }
}
