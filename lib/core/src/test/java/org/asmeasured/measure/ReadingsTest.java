package org.asmeasured.measure;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import java.util.function.IntToDoubleFunction;
import org.apache.commons.math3.complex.Complex;
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

  /**
   * A record with known answers: rising through 10, 50, 90 % at 21, 25, 29; mean 0.45. Moved by a
   * fraction of a point, linear interpolation moves every instant by the same.
   */
  @Test
  void readsARecordWithKnownAnswers() {
    Record record = record(100, n -> trapeze(n));
    near(8, Readings.riseTime().of(record));
    near(0.45, Readings.mean().of(record));
    near(1, Readings.maximum().of(record));
    assertEquals(0, Readings.minimum().of(record).orThrow());
    near(1, Readings.peakToPeak().of(record));
    near(8, Readings.riseTime().of(record(100, n -> trapeze(n - 0.3))));
    near(4, Readings.riseTime(0, 0.5).of(record));
    near(8e-9, Readings.riseTime().of(Record.of(3, 1e9, record.volts())));
  }

  @Test
  void readsThePeriodOfARecord() {
    Record record =
        Setup.ideal(1e6, 1000).capture(Signals.trapezoid(-1, 1, 100e-6, 0.5, 20e-6, 20e-6));
    near(100e-6, Readings.period().of(record));
    // Both edges of a triangle are straight between points too, so that interpolation is exact.
    near(
        73.3e-6,
        Readings.period().of(Setup.ideal(1e6, 1000).capture(Signals.triangle(0, 1, 73.3e-6, 0.5))));
  }

  /** Crossings back and forth within the hysteresis count once. */
  @Test
  void hysteresisIgnoresChatter() {
    double[] cycle = {-1, -0.05, 0.05, -0.05, 0.05, 1, 0.05, -0.05, 0.05, -1};
    Record record = record(50, i -> cycle[i % 10]);
    near(10, Readings.period().of(record));
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
    near(0.2, Readings.period().of(sine, 0, 1));
    // 10-90 % of a sine from peak to peak: 2 asin(0.8) of phase
    near(Math.asin(0.8) / (5 * Math.PI), Readings.riseTime().of(sine, 0, 1));

    Signal trapezoid = Signals.trapezoid(0, 3, 10, 0.55, 1, 2);
    near(1.65, Readings.mean().of(trapezoid, 0, 10));
    near(2.121320343559643, Readings.rms().of(trapezoid, 0, 10));
    near(1.333229162597338, Readings.acRms().of(trapezoid, 0, 10));
    near(0.8, Readings.riseTime().of(trapezoid, 9, 19));
    near(10, Readings.period().of(trapezoid, -3, 28));

    near(1 / Math.sqrt(3), Readings.rms().of(Signals.triangle(-1, 1, 10, 0.3), 0, 20));
    Signal pulses = Signals.square(0, 4, 10, 0.25);
    near(2, Readings.rms().of(pulses, 0, 10));
    near(4 * Math.sqrt(0.25 * 0.75), Readings.acRms().of(pulses, 0, 10));
    near(10, Readings.period().of(pulses, -1, 31));
    assertEquals(0, Readings.riseTime().of(pulses, -1, 9).orThrow(), "an ideal edge takes no time");
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

  /**
   * RC step: ln 9 = 2.197224577336219 time constants between its levels; read against the level
   * that a record of n time constants ends at, 1.832500191401202 for 3 and 2.139099022579578 for 5.
   */
  @Test
  void truthOfAnRcStep() {
    Signal edge = Signals.exponentialEdge(1, 0, 1);
    near(2.197224577336219, Readings.riseTime(0, 1).of(edge, -1, 20));
    near(1.832500191401202, Readings.riseTime().of(edge, -1, 3));
    near(2.139099022579578, Readings.riseTime().of(edge, -1, 5));
    Record record = Setup.ideal(1000, 6001).startingAt(-1).capture(edge);
    // Interpolated over h, a level errs by h^2/8 of the curvature; curvature and slope are equal
    // here.
    assertEquals(2.139099022579578, Readings.riseTime().of(record).orThrow(), 2 * 1e-6 / 8);
  }

  /**
   * A linear edge of r through one pole of time constant 1: y = (t - (1 - e^-t))/r up to r, then 1
   * - (e^r - 1) e^-t/r; 10-90 % by root finding on the closed form (mpmath).
   */
  @ParameterizedTest
  @CsvSource({
    "0.5, 2.229169599156147",
    "1, 2.360726779398669",
    "2, 2.757263878340395",
    "5, 4.488095993794793"
  })
  void truthOfALinearEdgeThroughOnePole(double edgeSeconds, double expected) {
    Waveform output = Response.singlePole(1 / (2 * Math.PI)).of(Signals.ramp(1, 0, edgeSeconds));
    near(expected, Readings.riseTime(0, 1).of(output, -1, 30));
  }

  /**
   * Second-order step of damping z, times in 1/w: 10-90 %, and the overshoot exp(-pi z/sqrt(1 -
   * z^2)), textbook second-order system; times by root finding on the closed form (mpmath).
   */
  @ParameterizedTest
  @CsvSource({
    "0.1, 1.1041990327234, 72.924761428767",
    "0.2, 1.2034299009253, 52.66205993303",
    "0.5, 1.6375729473283, 16.303353482158",
    "0.8, 2.4674926329737, 1.5164619864547"
  })
  void truthOfASecondOrderStep(double damping, double riseTime, double overshootPercent) {
    double root = Math.sqrt(1 - damping * damping);
    var pole = new Complex(-damping, root);
    Response response = Response.of(List.of(), List.of(pole, pole.conjugate()), 1);
    Waveform step = response.of(Signals.step(1, 0));
    assertEquals(
        riseTime, Readings.riseTime(0, 1).of(step, -1, 60).orThrow(), 1e-12 * riseTime + 5e-14);
    assertEquals(1 + overshootPercent / 100, Readings.maximum().of(step, -1, 60).orThrow(), 1e-13);
  }

  /** Levels that a waveform reaches only by turning between two knots. */
  @Test
  void findsCrossingsAtATurningPoint() {
    Signal sine = Signals.sine(1, 1);
    // 90 % of the way from -1 to top lies 1e-6 below the peak, which stands at no knot in general.
    double high = (1 - 1e-6 + 1) / 0.9 - 1;
    double t90 = Math.asin(1 - 1e-6) / (2 * Math.PI);
    double t10 = Math.asin(-1 + 0.1 * (high + 1)) / (2 * Math.PI);
    for (double from : new double[] {-0.26, -0.3, -0.251, -0.4, -0.5}) {
      assertEquals(
          t90 - t10,
          Readings.riseTime(-1, high).of(sine, from, 1.2).orThrow(),
          1e-11,
          "from " + from);
    }
    double above = (1 + 1e-6 + 1) / 0.9 - 1;
    assertTrue(
        reason(Readings.riseTime(-1, above).of(sine, -0.3, 5))
            .contains("no whole rising transition"));
  }

  @Test
  void risesFromTheLastCrossing() {
    Record record = record(9, i -> new double[] {0, 0.5, 0, 0.2, 0.05, 0.5, 0.7, 1, 1}[i]);
    // 10 % is last crossed between points 4 and 5, at 4 + 0.05/0.45; 90 % between 6 and 7, at 6 +
    // 0.2/0.3.
    near(2 + 2 / 3.0 - 1 / 9.0, Readings.riseTime().of(record));
  }

  @Test
  void aReadingThatCannotBeTakenSaysWhy() {
    Record flat = record(5, i -> 2);
    Record one = record(1, i -> 2);
    Record falling = record(9, i -> -i);
    Record jump = record(4, i -> i < 2 ? 0 : 1);
    assertTrue(reason(Readings.period().of(flat)).contains("all values are equal"));
    assertTrue(reason(Readings.riseTime().of(flat)).contains("all values are equal"));
    assertTrue(reason(Readings.acRms().of(one)).contains("single point"));
    assertTrue(reason(Readings.peakToPeak().of(one)).contains("single point"));
    assertTrue(reason(Readings.riseTime().of(falling)).contains("no whole rising transition"));
    assertTrue(reason(Readings.riseTime().of(jump)).contains("less than 1 s"));
    assertTrue(reason(Readings.period().of(jump)).contains("only one rising crossing"));
    assertTrue(reason(Readings.period().of(falling)).contains("no rising crossing"));
    assertTrue(
        reason(Readings.period().of(Signals.constant(1), 0, 1)).contains("all values are equal"));
    assertTrue(
        reason(Readings.riseTime().of(Signals.constant(1), 0, 1)).contains("all values are equal"));
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
          reading == Readings.period()
              || reading == Readings.mean()
              || reading == Readings.rms()
              || reading == Readings.acRms();
      assertEquals(survives, reading.of(both).isTaken(), reading.name());
      assertEquals(
          survives || reading == Readings.minimum(), reading.of(high).isTaken(), reading.name());
    }
    assertTrue(reason(Readings.maximum().of(high)).contains("at the top"));
    assertTrue(reason(Readings.peakToPeak().of(both)).contains("at top and bottom"));
    near(1e-4, Readings.period().of(both));
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
        new Reading[] {Readings.rms(), Readings.acRms(), Readings.period(), Readings.riseTime()}) {
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

  @Test
  void levelsAreChecked() {
    Refused.values("lowVolts", v -> Readings.riseTime(v, 1), 2e9, 1, 2);
    Refused.values("highVolts", v -> Readings.riseTime(0, v), 2e9, -1, 0.0);
    assertEquals(Readings.riseTime(0, 1), Readings.riseTime(0, 1));
    assertEquals(Readings.riseTime(0, 1).hashCode(), Readings.riseTime(0, 1).hashCode());
    assertEquals("rise time between 0 V and 1 V", Readings.riseTime(0, 1).toString());
    assertEquals("rise time", Readings.riseTime().toString());
  }
}
