package org.asmeasured.capture;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import org.asmeasured.acquisition.Decimation;
import org.asmeasured.acquisition.PeakDetect;
import org.asmeasured.acquisition.Pick;
import org.asmeasured.digitizer.Converter;
import org.asmeasured.digitizer.ConverterNoise;
import org.asmeasured.digitizer.IdealConverter;
import org.asmeasured.frontend.Bandwidth;
import org.asmeasured.frontend.Noise;
import org.asmeasured.signal.Signal;
import org.asmeasured.signal.Signals;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * An ideal converter behind a decimation that keeps samples as they are is run after it. The same
 * converter under another name is run on every raw sample, as any converter may ask for: both must
 * store the same codes and count the same clipped samples.
 */
class RoundingLastTest {
  private static final Signal SINE = Signals.sine(1, 3.1e6, 0.3);

  /** An ideal converter that a capture cannot know as one. */
  private record Unknown(IdealConverter ideal) implements Converter {
    @Override
    public int bits() {
      return ideal.bits();
    }

    @Override
    public void convert(double[] levels, int offset, int count) {
      ideal.convert(levels, offset, count);
    }
  }

  /** Fills the range to a little beyond where it should clip. */
  private static Setup setup(double fullScaleVolts, Decimation decimation) {
    return Setup.ideal(1e9, 777)
        .bandwidth(Bandwidth.bessel(3, 200e6))
        .scale(fullScaleVolts / 8)
        .decimation(decimation);
  }

  private static void check(Setup setup, int bits) {
    Record quick = setup.converter(new IdealConverter(bits)).capture(SINE, 5);
    Record slow = setup.converter(new Unknown(new IdealConverter(bits))).capture(SINE, 5);
    assertEquals(slow.clippedLow(), quick.clippedLow(), setup + ": clipped low");
    assertEquals(slow.clippedHigh(), quick.clippedHigh(), setup + ": clipped high");
    assertArrayEquals(slow.lower(), quick.lower(), setup.toString());
    assertArrayEquals(slow.upper(), quick.upper(), setup.toString());
  }

  @ParameterizedTest
  @ValueSource(ints = {1, 2, 3, 7, 10, 64, 2047, 2048, 2049, 3000})
  void sameCodesAndSameCounts(int factor) {
    for (double fullScale : new double[] {4, 2.02, 2, 1.99, 1.5}) {
      for (int bits : new int[] {1, 2, 8, 12}) {
        Setup peaks = setup(fullScale, new PeakDetect(factor));
        check(peaks, bits);
        check(peaks.converterNoise(ConverterNoise.ofSteps(0.4, bits)), bits);
        check(setup(fullScale, new Pick(factor)), bits);
      }
    }
  }

  @Test
  void oneNoiseAndSeveralAreAddedAlike() {
    Setup setup = setup(1.9, new PeakDetect(10));
    check(setup.noise(Noise.white(2e-6)), 8);
    check(setup.noise(Noise.white(2e-6)).converterNoise(ConverterNoise.ofSteps(0.5, 8)), 8);
  }

  @Test
  void clippedSamplesAreThoseBeyondHalfAStep() {
    // 2 V over 4 codes, -2 to 1: the range ends at 0.75 V and -1.25 V
    Setup setup = Setup.ideal(1e9, 1000).scale(0.25).bits(2);
    Signal sine = Signals.sine(1, 1e6, 0);
    int above = 0;
    for (int k = 0; k < 1000; k++) {
      above += Math.sin(2 * Math.PI * k / 1000) > 0.75 ? 1 : 0;
    }
    Record record = setup.capture(sine);
    assertEquals(above, record.clippedHigh());
    assertEquals(0, record.clippedLow());
  }

  @ParameterizedTest
  @ValueSource(ints = {1, 2, 3, 4, 5, 6, 7, 8, 9})
  void extremesOfVoltsAndCodes(int size) {
    for (int where = 0; where < size; where++) {
      double[] volts = new double[size];
      volts[where] = 3;
      volts[(where + 1) % size] -= 2;
      Record record = Record.of(0, 1, volts);
      double least = Double.POSITIVE_INFINITY;
      double greatest = Double.NEGATIVE_INFINITY;
      for (double v : volts) {
        least = Math.min(least, v);
        greatest = Math.max(greatest, v);
      }
      assertEquals(least, record.minimum());
      assertEquals(greatest, record.maximum());
    }
    Record coded = Setup.ideal(1e9, size).bits(8).capture(SINE);
    double least = Double.POSITIVE_INFINITY;
    double greatest = Double.NEGATIVE_INFINITY;
    for (double v : coded.volts()) {
      least = Math.min(least, v);
      greatest = Math.max(greatest, v);
    }
    assertEquals(least, coded.minimum());
    assertEquals(greatest, coded.maximum());
  }

  @Test
  void extremesOfAnEnvelopeAreItsOwn() {
    Record record = setup(4, new PeakDetect(10)).bits(8).capture(SINE);
    double least = Double.POSITIVE_INFINITY;
    double greatest = Double.NEGATIVE_INFINITY;
    for (int i = 0; i < record.size(); i++) {
      least = Math.min(least, record.lower(i));
      greatest = Math.max(greatest, record.upper(i));
    }
    assertEquals(least, record.minimum());
    assertEquals(greatest, record.maximum());
  }

  @Test
  void extremesOfNothingAreRefused() {
    Setup setup = Setup.ideal(1e9, 10);
    Record empty = Record.empty(setup, null);
    assertThrows(IllegalStateException.class, empty::minimum);
    assertThrows(IllegalStateException.class, empty::maximum);
  }
}
