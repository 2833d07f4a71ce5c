package org.asmeasured.measure;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.math.BigDecimal;
import java.math.MathContext;
import org.asmeasured.capture.Record;
import org.asmeasured.capture.Setup;
import org.asmeasured.digitizer.ConverterNoise;
import org.asmeasured.frontend.VerticalScale;
import org.asmeasured.signal.Signals;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Mean, RMS and AC RMS of codes are those of the exact sums over offset + code x step. */
class MeansOfCodesTest {
  private static final MathContext DIGITS = new MathContext(40);

  @ParameterizedTest
  @CsvSource({
    "1, 1, 0",
    "8, 2, 0",
    "8, 1999, 0.3",
    "8, 2000, 3.3",
    "8, 2001, -3.3",
    "8, 100000, 1e3",
    "12, 30000, 5",
    "16, 5000, -1e4",
    "24, 30000, 0",
    "24, 40000, 7"
  })
  void areExact(int bits, int points, double offset) {
    Record record =
        Setup.ideal(1e6, points)
            .vertical(VerticalScale.of(0.25).withOffset(offset))
            .bits(bits)
            .converterNoise(ConverterNoise.ofSteps(0.4, bits))
            .capture(Signals.sine(0.7, 12_345).plus(Signals.constant(offset + 0.1)), bits);
    assertTrue(record.hasCodes());
    BigDecimal sum = BigDecimal.ZERO;
    BigDecimal squares = BigDecimal.ZERO;
    for (int i = 0; i < points; i++) {
      BigDecimal volts =
          new BigDecimal(record.offsetVolts())
              .add(new BigDecimal(record.stepVolts()).multiply(new BigDecimal(record.code(i))));
      sum = sum.add(volts);
      squares = squares.add(volts.multiply(volts));
    }
    BigDecimal n = new BigDecimal(points);
    BigDecimal mean = sum.divide(n, DIGITS);
    BigDecimal square = squares.divide(n, DIGITS);
    double rms = square.sqrt(DIGITS).doubleValue();
    // a mean near zero is no surer than the offset it is made of
    double size = Math.abs(offset) + 1;
    assertEquals(mean.doubleValue(), Readings.mean().of(record).orThrow(), 4e-16 * size);
    assertEquals(rms, Readings.rms().of(record).orThrow(), 4e-16 * size);
    if (points > 1) {
      BigDecimal variance = square.subtract(mean.multiply(mean));
      double acRms = variance.max(BigDecimal.ZERO).sqrt(DIGITS).doubleValue();
      // by codes the offset plays no part; so many of 24 bits are summed up in volts
      double tolerance = bits < 24 || points < 32_768 ? 4e-16 * acRms : 1e-14;
      assertEquals(acRms, Readings.acRms().of(record).orThrow(), tolerance);
    }
  }
}
