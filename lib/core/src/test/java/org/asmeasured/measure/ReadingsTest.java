package org.asmeasured.measure;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.function.IntToDoubleFunction;
import org.asmeasured.acquisition.PeakDetect;
import org.asmeasured.capture.Record;
import org.asmeasured.capture.Setup;
import org.asmeasured.frontend.Refused;
import org.asmeasured.linear.Response;
import org.asmeasured.measure.Measured.NotTaken;
import org.asmeasured.measure.Measured.Value;
import org.asmeasured.signal.Signal;
import org.asmeasured.signal.Signals;
import org.asmeasured.signal.Waveform;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ReadingsTest {
  /** Of the truth's own figure. */
  private static final double EXACT = 1e-12;

  private static void near(double expected, Measured measured) {
    double value = measured.orThrow();
    assertEquals(expected, value, EXACT * Math.max(Math.abs(expected), 1e-300));
  }

  private static String reason(Measured measured) {
    return ((NotTaken) measured).reason();
  }

  private static Record record(int size, IntToDoubleFunction volts) {
    double[] values = new double[size];
    for (int i = 0; i < size; i++) {
      values[i] = volts.applyAsDouble(i);
    }
    return Record.of(0, 1, values);
  }

  private static double trapeze(double n) {
    return n <= 60 ? Math.min(1, Math.max(0, (n - 20) / 10)) : Math.max(0, 1 - (n - 60) / 20);
  }

  /** A record with known answers: mean 0.45, from 0 to 1. */
  @Test
  void readsARecordWithKnownAnswers() {
    Record record = record(100, n -> trapeze(n));
    near(0.45, Readings.mean().of(record));
    near(1, Readings.maximum().of(record));
    assertEquals(0, Readings.minimum().of(record).orThrow());
    near(1, Readings.peakToPeak().of(record));
  }

  /**
   * Over whole periods: sine A/sqrt 2; trapezoid 0..A of T = 10, rise 1, fall 2, top 4, A = 3: mean
   * 1.65, RMS 3 sqrt(1/2), AC RMS 1.333229162597338; triangle A/sqrt 3; pulse A sqrt D and A sqrt(D
   * (1 - D)): elementary integrals.
   */
  @Test
  void truthOfPeriodicWaveforms() {
    Signal sine = Signals.sine(2, 5);
    assertEquals(0, Readings.mean().of(sine, 0, 1).orThrow(), 1e-15);
    near(Math.sqrt(2), Readings.rms().of(sine, 0, 1));
    near(Math.sqrt(2), Readings.acRms().of(sine, 0, 1));
    near(4, Readings.peakToPeak().of(sine, 0, 1));

    Signal trapezoid = Signals.trapezoid(0, 3, 10, 0.55, 1, 2);
    near(1.65, Readings.mean().of(trapezoid, 0, 10));
    near(2.121320343559643, Readings.rms().of(trapezoid, 0, 10));
    near(1.333229162597338, Readings.acRms().of(trapezoid, 0, 10));

    near(1 / Math.sqrt(3), Readings.rms().of(Signals.triangle(-1, 1, 10, 0.3), 0, 20));
    Signal pulses = Signals.square(0, 4, 10, 0.25);
    near(2, Readings.rms().of(pulses, 0, 10));
    near(4 * Math.sqrt(0.25 * 0.75), Readings.acRms().of(pulses, 0, 10));
  }

  /**
   * The AC RMS of a ripple far below its rail: sqrt(rms^2 - mean^2) would have lost all digits. The
   * bound is the rounding of the rail itself, 3.3 V x 2^-53 against the ripple.
   */
  @ParameterizedTest
  @CsvSource({"1e-2", "1e-4", "1e-6", "1e-8"})
  void acRmsOfARippleOnARail(double amplitude) {
    Signal rail = Signals.sine(amplitude, 1e5).plus(3.3);
    double expected = amplitude / Math.sqrt(2);
    assertEquals(expected, Readings.acRms().of(rail, 0, 1e-3).orThrow(), 1e-15);
    Record record = Setup.ideal(1e7, 1000).capture(rail);
    assertEquals(expected, Readings.acRms().of(record).orThrow(), 1e-15);
    Waveform output = Response.singlePole(1e5).of(rail);
    assertEquals(
        expected / Math.sqrt(2), Readings.acRms().of(output, 0, 1.05e-3 - 5e-5).orThrow(), 1e-15);
  }

  @Test
  void aReadingThatCannotBeTakenSaysWhy() {
    Record flat = record(5, i -> 2);
    Record one = record(1, i -> 2);
    assertTrue(reason(Readings.acRms().of(one)).contains("single point"));
    assertTrue(reason(Readings.peakToPeak().of(one)).contains("single point"));
    near(2, Readings.mean().of(one));
    near(2, Readings.rms().of(one));
    near(2, Readings.minimum().of(one));
  }

  @Test
  void clippingSpoilsWhatRestsOnIt() {
    Setup setup = Setup.ideal(1e6, 1000).scale(0.25).bits(8);
    Record high = setup.capture(Signals.sine(1, 1e4).plus(0.2));
    Record both = setup.capture(Signals.sine(3, 1e4));
    for (Reading reading : Readings.all()) {
      // sums are what they are; only what rests on a cut extreme is not
      boolean survives =
          reading == Readings.mean()
              || reading == Readings.rms()
              || reading == Readings.acRms()
              || Readings.isPercentile(reading);
      assertEquals(survives, reading.of(both).isTaken(), reading.name());
      assertEquals(
          survives || reading == Readings.minimum(), reading.of(high).isTaken(), reading.name());
    }
    assertTrue(reason(Readings.maximum().of(high)).contains("at the top"));
    assertTrue(reason(Readings.peakToPeak().of(both)).contains("at top and bottom"));
  }

  @Test
  void ofAnEnvelopeOnlyTheExtremesAreRead() {
    Record envelope =
        Setup.ideal(1e6, 100).decimation(new PeakDetect(10)).capture(Signals.sine(1, 1000));
    near(1, Readings.maximum().of(envelope));
    near(-1, Readings.minimum().of(envelope));
    near(2, Readings.peakToPeak().of(envelope));
    assertTrue(reason(Readings.mean().of(envelope)).contains("says nothing of those between"));
    for (Reading reading :
        new Reading[] {Readings.rms(), Readings.acRms(), Readings.percentile(10)}) {
      assertTrue(reason(reading.of(envelope)).contains("envelope"), reading.name());
    }
    Record single =
        Setup.ideal(1e6, 1).decimation(new PeakDetect(1000)).capture(Signals.sine(1, 1000));
    near(2, Readings.peakToPeak().of(single));
  }

  /** A plain sum of ten million equal values is off by 1e-9 of them. */
  @Test
  void sumsDoNotDrift() {
    double[] volts = new double[10_000_000];
    Arrays.fill(volts, 0.1);
    Record record = Record.of(0, 1, volts);
    assertEquals(0.1, Readings.mean().of(record).orThrow(), 1e-17);
    assertEquals(0.1, Readings.rms().of(record).orThrow(), 2e-17);
    assertEquals(0, Readings.acRms().of(record).orThrow(), 1e-17);
  }

  @Test
  void measuredValuesAreChecked() {
    Refused.message("value", "NaN", () -> new Value(Double.NaN));
    Refused.message("value", "Infinity", () -> new Value(Double.POSITIVE_INFINITY));
    Refused.message("value", "-Infinity", () -> new Value(Double.NEGATIVE_INFINITY));
    Refused.message("reason", "\"\"", () -> new NotTaken(""));
    Refused.missing("reason", () -> new NotTaken(null));
    assertEquals("not taken: no edge", new NotTaken("no edge").toString());
    assertEquals("not taken: no edge", new NotTaken("no edge").in("V"));
    assertEquals("12.5 mV", new Value(0.0125).in("V"));
  }
}
