package org.asmeasured.pulse;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.function.IntToDoubleFunction;
import org.apache.commons.math3.complex.Complex;
import org.asmeasured.acquisition.PeakDetect;
import org.asmeasured.capture.Record;
import org.asmeasured.capture.Setup;
import org.asmeasured.frontend.Refused;
import org.asmeasured.linear.Response;
import org.asmeasured.measure.Measured;
import org.asmeasured.measure.Measured.NotTaken;
import org.asmeasured.measure.Reading;
import org.asmeasured.measure.Statistics;
import org.asmeasured.signal.Signal;
import org.asmeasured.signal.Signals;
import org.asmeasured.signal.Waveform;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

class PulseReadingsTest {
  /** Of the figure itself. */
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

  private static Reading by(StateLevels levels, PulseQuantity quantity) {
    return PulseReadings.of(quantity, PulseMethod.standard().levels(levels));
  }

  private static Reading peakRise() {
    return by(StateLevels.peakMagnitude(), PulseQuantity.RISE_TIME);
  }

  private static double trapeze(double n) {
    return n <= 60 ? Math.min(1, Math.max(0, (n - 20) / 10)) : Math.max(0, 1 - (n - 60) / 20);
  }

  /**
   * A record with known answers: states 0 and 1 (41 and 31 points); rising through 10, 50, 90 % at
   * 21, 25, 29, falling through 90, 50, 10 % at 62, 70, 78. Moved by a fraction of a point, linear
   * interpolation moves every instant by the same.
   */
  @ParameterizedTest
  @CsvSource({"0", "0.3", "0.77"})
  void readsARecordWithKnownAnswers(double shift) {
    Record record = record(100, n -> trapeze(n - shift));
    PulseAnalysis pulses = PulseAnalysis.of(record);
    assertEquals(new States(0, 1), pulses.states().orElseThrow());
    List<Transition> transitions = pulses.transitions();
    assertEquals(2, transitions.size());
    Transition up = transitions.get(0);
    assertTrue(up.rising());
    assertEquals(21 + shift, up.low().orThrow(), 1e-12);
    assertEquals(25 + shift, up.midSeconds(), 1e-12);
    assertEquals(29 + shift, up.high().orThrow(), 1e-12);
    near(8, up.duration());
    Transition down = transitions.get(1);
    assertFalse(down.rising());
    assertEquals(62 + shift, down.high().orThrow(), 1e-12);
    assertEquals(70 + shift, down.midSeconds(), 1e-12);
    assertEquals(78 + shift, down.low().orThrow(), 1e-12);
    near(16, PulseReadings.fallTime().of(record));
    near(45, PulseReadings.of(PulseQuantity.POSITIVE_DURATION).of(record));
    near(8, PulseReadings.riseTime().of(record));
    if (shift == 0) {
      // moved, the kink at the foot lies between a point and the level
      near(4, PulseReadings.riseTime(0, 0.5).of(record));
    }
    near(8e-9, PulseReadings.riseTime().of(Record.of(3, 1e9, record.volts())));
    near(1, PulseReadings.amplitude().of(record));
    for (PulseQuantity none :
        List.of(
            PulseQuantity.OVERSHOOT_RISING,
            PulseQuantity.UNDERSHOOT_RISING,
            PulseQuantity.PRESHOOT_RISING,
            PulseQuantity.OVERSHOOT_FALLING,
            PulseQuantity.UNDERSHOOT_FALLING,
            PulseQuantity.PRESHOOT_FALLING)) {
      assertEquals(0, PulseReadings.of(none).of(record).orThrow(), 1e-12, none.words());
    }
    Reading error =
        PulseReadings.of(
            PulseQuantity.SETTLING_ERROR_RISING, PulseMethod.standard().settling(2, 1.5));
    assertEquals(0, error.of(record).orThrow(), 1e-12);
    assertTrue(
        reason(PulseReadings.of(PulseQuantity.SETTLING_ERROR_RISING).of(record))
            .contains("comes within the delay"));
    if (shift == 0) {
      // from 50 % to 98 % of ten points, of twenty points
      near(4.8, PulseReadings.of(PulseQuantity.SETTLING_RISING).of(record));
      near(9.6, PulseReadings.of(PulseQuantity.SETTLING_FALLING).of(record));
    }
    assertTrue(reason(PulseReadings.period().of(record)).contains("no whole cycle"));
  }

  /** The same of the truth, of which the record holds points. */
  @Test
  void truthOfATrapezoid() {
    Signal train = Signals.pulseTrain(0, 3, 10, 5.5, 1, 2);
    PulseAnalysis pulses = PulseAnalysis.of(train, -2, 48);
    assertEquals(0, pulses.states().orElseThrow().lowVolts(), 1e-14);
    assertEquals(3, pulses.states().orElseThrow().highVolts(), 1e-14);
    for (Measured rise : pulses.all(PulseQuantity.RISE_TIME)) {
      near(0.8, rise);
    }
    for (Measured fall : pulses.all(PulseQuantity.FALL_TIME)) {
      near(1.6, fall);
    }
    Statistics period = pulses.statistics(PulseQuantity.PERIOD);
    assertEquals(4, period.count());
    near(10, period.mean());
    assertEquals(0, period.standardDeviation().orThrow(), 1e-12);
    near(0.1, PulseReadings.frequency().of(train, -2, 48));
    near(5.5, PulseReadings.of(PulseQuantity.POSITIVE_DURATION).of(train, -2, 48));
    near(4.5, PulseReadings.of(PulseQuantity.NEGATIVE_DURATION).of(train, -2, 48));
    near(55, PulseReadings.of(PulseQuantity.DUTY_FACTOR).of(train, -2, 48));
    near(1.65, PulseReadings.of(PulseQuantity.CYCLE_MEAN).of(train, -2, 48));
    near(2.121320343559643, PulseReadings.of(PulseQuantity.CYCLE_RMS).of(train, -2, 48));
    near(1.333229162597338, PulseReadings.of(PulseQuantity.CYCLE_AC_RMS).of(train, -2, 48));
    near(0.48, PulseReadings.of(PulseQuantity.SETTLING_RISING).of(train, -2, 48));
  }

  @Test
  void readsThePeriodOfARecord() {
    Record record =
        Setup.ideal(1e6, 1000).capture(Signals.trapezoid(-1, 1, 100e-6, 0.5, 20e-6, 20e-6));
    near(100e-6, PulseReadings.period().of(record));
    // Both edges of a triangle are straight between points too, so that interpolation is exact.
    near(
        73.3e-6,
        PulseReadings.period()
            .of(Setup.ideal(1e6, 1000).capture(Signals.triangle(0, 1, 73.3e-6, 0.5))));
  }

  /**
   * RC step: ln 9 = 2.197224577336219 time constants between its levels; read against the level
   * that a record of n time constants ends at, 1.832500191401202 for 3 and 2.139099022579578 for 5.
   */
  @Test
  void truthOfAnRcStep() {
    Signal edge = Signals.exponentialEdge(1, 0, 1);
    near(2.197224577336219, PulseReadings.riseTime(0, 1).of(edge, -1, 20));
    near(1.832500191401202, peakRise().of(edge, -1, 3));
    near(2.139099022579578, peakRise().of(edge, -1, 5));
    Record record = Setup.ideal(1000, 6001).startingAt(-1).capture(edge);
    // Interpolated over h, a level errs by h^2/8 of the curvature; curvature and slope are equal
    // here.
    assertEquals(2.139099022579578, peakRise().of(record).orThrow(), 2 * 1e-6 / 8);
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
    near(expected, PulseReadings.riseTime(0, 1).of(output, -1, 30));
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
        riseTime,
        PulseReadings.riseTime(0, 1).of(step, -1, 60).orThrow(),
        1e-12 * riseTime + 5e-14);
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
          PulseReadings.riseTime(-1, high).of(sine, from, 1.2).orThrow(),
          1e-11,
          "from " + from);
    }
    double above = (1 + 1e-6 + 1) / 0.9 - 1;
    assertTrue(
        reason(PulseReadings.riseTime(-1, above).of(sine, -0.3, 5)).contains("does not reach"));
  }

  @Test
  void risesFromTheLastCrossing() {
    Record record = record(9, i -> new double[] {0, 0.5, 0, 0.2, 0.05, 0.5, 0.7, 1, 1}[i]);
    // 10 % is last crossed between points 4 and 5, at 4 + 0.05/0.45; 90 % between 6 and 7, at 6 +
    // 0.2/0.3.
    near(2 + 2 / 3.0 - 1 / 9.0, peakRise().of(record));
  }

  @Test
  void levelsAreChecked() {
    Refused.values("lowVolts", v -> PulseReadings.riseTime(v, 1), 2e9, 1, 2);
    Refused.values("highVolts", v -> PulseReadings.riseTime(0, v), 2e9, -1, 0.0);
    assertEquals(PulseReadings.riseTime(0, 1), PulseReadings.riseTime(0, 1));
    assertEquals(PulseReadings.riseTime(0, 1).hashCode(), PulseReadings.riseTime(0, 1).hashCode());
    assertEquals("rise time between 0 V and 1 V", PulseReadings.riseTime(0, 1).toString());
    assertEquals("rise time", PulseReadings.riseTime().toString());
  }

  /** Crossings back and forth within the hysteresis count once. */
  @Test
  void hysteresisIgnoresChatter() {
    double[] cycle = {-1, -0.05, 0.05, -0.05, 0.05, 1, 0.05, -0.05, 0.05, -1};
    Record record = record(50, i -> cycle[i % 10]);
    near(10, by(StateLevels.peakMagnitude(), PulseQuantity.PERIOD).of(record));
  }

  private static Waveform secondOrderStep(double damping) {
    var pole = new Complex(-damping, Math.sqrt(1 - damping * damping));
    return Response.of(List.of(), List.of(pole, pole.conjugate()), 1).of(Signals.step(1, 0));
  }

  /**
   * Second-order step, textbook formulas: overshoot exp(-pi z/sqrt(1 - z^2)), the next undershoot
   * its square; 10 %, 50 % and settling by root finding on the closed form (mpmath), here from the
   * 50 % instant.
   */
  @ParameterizedTest
  @CsvSource({
    "0.1, 72.924761428767, 53.1802082944, 1.0884188869441, 28.967853935521, 38.383280486941, 44.805358171899",
    "0.2, 52.66205993303, 27.7329255639, 1.1332665410141, 13.744436418271, 19.601903730437, 22.933151073543",
    "0.5, 16.303353482158, 2.65799334764, 1.2940394615476, 5.2890932203043, 8.076348973928, 8.7805647238759",
    "0.8, 1.5164619864547, 0.0229965695636, 1.5045895395266, 3.3853503913823, 3.7558413053096, 6.3532773404106"
  })
  void aberrationsOfASecondOrderStep(
      double z, double over, double under, double t50, double five, double two, double one) {
    Waveform step = secondOrderStep(z);
    PulseMethod method = PulseMethod.standard().levels(StateLevels.given(0, 1)).region(12);
    PulseAnalysis pulses = PulseAnalysis.of(step, -2, 120, method);
    assertEquals(
        over, pulses.value(PulseQuantity.OVERSHOOT_RISING, Summary.FIRST).orThrow(), 1e-10);
    assertEquals(
        under, pulses.value(PulseQuantity.UNDERSHOOT_RISING, Summary.FIRST).orThrow(), 1e-9);
    assertEquals(0, pulses.value(PulseQuantity.PRESHOOT_RISING, Summary.FIRST).orThrow());
    assertEquals(2 + t50, pulses.transitions().get(0).midSeconds(), 1e-11);
    double[][] bands = {{5, five}, {2, two}, {1, one}};
    for (double[] band : bands) {
      Reading settling =
          PulseReadings.of(PulseQuantity.SETTLING_RISING, method.settling(band[0], 3));
      assertEquals(band[1] - t50, settling.of(step, -2, 120).orThrow(), 1e-9, band[0] + " %");
    }
    // the state found, not given: the ringing has died away long before the end
    States found = PulseAnalysis.of(step, -60, 500).states().orElseThrow();
    assertEquals(0, found.lowVolts(), 1e-12);
    assertEquals(1, found.highVolts(), 1e-9);
  }

  /** From the 50 % instant to within 1 %: ln 50; the error after three durations is e^-3 ln 9/2. */
  @Test
  void settlingOfAnRcStep() {
    Signal edge = Signals.exponentialEdge(1, 0, 1);
    PulseMethod method = PulseMethod.standard().levels(StateLevels.given(0, 1)).settling(1, 2);
    PulseAnalysis pulses = PulseAnalysis.of(edge, -3, 40, method);
    near(Math.log(50), pulses.value(PulseQuantity.SETTLING_RISING, Summary.FIRST));
    assertEquals(
        100 * 0.5 * Math.exp(-2 * Math.log(9)),
        pulses.value(PulseQuantity.SETTLING_ERROR_RISING, Summary.FIRST).orThrow(),
        1e-11);
    assertTrue(
        reason(
                PulseReadings.of(
                        PulseQuantity.SETTLING_RISING,
                        PulseMethod.standard().levels(StateLevels.given(0, 1)))
                    .of(edge, -3, 3))
            .contains("does not stay"));
  }

  /**
   * A pulse whose top falls by 30 % in a straight line, and rises before it begins: tilt and
   * preshoot as drawn.
   */
  @Test
  void tiltAndPreshootAsDrawn() {
    double[] times = {0, 8, 9, 10, 12, 32, 34, 60};
    double[] volts = {0, 0, -0.2, -0.2, 1.15, 0.85, 0, 0};
    Signal drawn = Signals.recorded(times, volts);
    PulseMethod method = PulseMethod.standard().levels(StateLevels.given(0, 1));
    PulseAnalysis pulses = PulseAnalysis.of(drawn, 0, 60, method);
    double t50 = 10 + 2 * 0.7 / 1.35;
    double end = 32 + 2 * 0.35 / 0.85;
    near(end - t50, pulses.value(PulseQuantity.POSITIVE_DURATION, Summary.MEAN));
    near(20, pulses.value(PulseQuantity.PRESHOOT_RISING, Summary.FIRST));
    near(15, pulses.value(PulseQuantity.OVERSHOOT_RISING, Summary.FIRST));
    double slope = 0.3 / 20;
    double tilt = pulses.value(PulseQuantity.TILT_HIGH, Summary.MEAN).orThrow();
    assertEquals(100 * slope * (end - t50), tilt, 1e-9);
    Record record = Setup.ideal(100, 6000).capture(drawn);
    assertEquals(
        tilt, PulseReadings.of(PulseQuantity.TILT_HIGH, method).of(record).orThrow(), 1e-9);
    assertEquals(
        20, PulseReadings.of(PulseQuantity.PRESHOOT_RISING, method).of(record).orThrow(), 1e-9);
  }

  @Test
  void periodsOfWaveforms() {
    near(0.2, PulseReadings.period().of(Signals.sine(2, 5), 0, 1));
    near(10, PulseReadings.period().of(Signals.square(0, 4, 10, 0.25), -1, 31));
    assertEquals(0, PulseReadings.riseTime().of(Signals.square(0, 4, 10, 0.25), -1, 9).orThrow());
    // 10-90 % of a sine from peak to peak: 2 asin(0.8) of phase
    near(Math.asin(0.8) / (5 * Math.PI), peakRise().of(Signals.sine(2, 5), 0, 1));
  }

  /** Over whole cycles a sine is A/sqrt 2 and 0, however the span lies. */
  @ParameterizedTest
  @CsvSource({"0, 1", "0.03, 1.11", "-0.4, 0.77"})
  void wholeCyclesOfASine(double from, double to) {
    Signal sine = Signals.sine(2, 5).plus(0.5);
    near(0.5, PulseReadings.of(PulseQuantity.CYCLE_MEAN).of(sine, from, to));
    near(Math.sqrt(2), PulseReadings.of(PulseQuantity.CYCLE_AC_RMS).of(sine, from, to));
    near(1.5, PulseReadings.of(PulseQuantity.CYCLE_RMS).of(sine, from, to));
    Record record = Setup.ideal(1e4, (int) (1e4 * (to - from))).startingAt(from).capture(sine);
    // trapezoidal rule: the ends are cut off at h f'/12 at most
    assertEquals(0.5, PulseReadings.of(PulseQuantity.CYCLE_MEAN).of(record).orThrow(), 1e-5);
    assertEquals(
        Math.sqrt(2), PulseReadings.of(PulseQuantity.CYCLE_AC_RMS).of(record).orThrow(), 1e-5);
  }

  @Test
  void aReadingThatCannotBeTakenSaysWhy() {
    Record flat = record(5, i -> 2);
    Record falling = record(9, i -> -i);
    Record jump = record(4, i -> i < 2 ? 0 : 1);
    for (Waveform constant : List.of(Signals.constant(1))) {
      for (Reading reading : PulseReadings.all()) {
        Measured ofRecord = reading.of(flat);
        Measured ofTruth = reading.of(constant, 0, 1);
        if (reading.name().endsWith("state level") && !reading.name().startsWith("tilt")) {
          near(2, ofRecord);
          near(1, ofTruth);
        } else {
          assertTrue(reason(ofRecord).contains("all values are equal"), reading.name());
          assertTrue(reason(ofTruth).contains("all values are equal"), reading.name());
        }
      }
    }
    assertTrue(reason(PulseReadings.riseTime().of(falling)).contains("no such transition"));
    assertTrue(reason(PulseReadings.riseTime().of(jump)).contains("less than 1 s"));
    assertTrue(reason(PulseReadings.period().of(jump)).contains("only one crossing"));
    assertTrue(reason(PulseReadings.fallTime().of(jump)).contains("no falling crossing"));
    assertTrue(
        reason(PulseReadings.of(PulseQuantity.TILT_HIGH).of(jump)).contains("no whole pulse"));
    Reading scatter =
        PulseReadings.of(
            PulseQuantity.RISE_TIME, PulseMethod.standard(), Summary.STANDARD_DEVIATION);
    assertTrue(reason(scatter.of(record(40, i -> trapeze(i)))).contains("single reading"));
  }

  @Test
  void clippingSpoilsWhatRestsOnIt() {
    Setup setup = Setup.ideal(1e6, 1000).scale(0.25).bits(8);
    Record both = setup.capture(Signals.sine(3, 1e4));
    for (PulseQuantity quantity : PulseQuantity.values()) {
      boolean survives =
          List.of(
                  PulseQuantity.PERIOD,
                  PulseQuantity.FREQUENCY,
                  PulseQuantity.CYCLE_MEAN,
                  PulseQuantity.CYCLE_RMS,
                  PulseQuantity.CYCLE_AC_RMS)
              .contains(quantity);
      Measured reading = PulseReadings.of(quantity).of(both);
      assertEquals(survives, reading.isTaken(), quantity.words());
      assertTrue(survives || reason(reading).contains("clipped"), quantity.words());
    }
    near(1e-4, PulseReadings.period().of(both));
    Record high = setup.capture(Signals.sine(0.7, 1e4).plus(0.5));
    assertTrue(PulseReadings.of(PulseQuantity.LOW_LEVEL).of(high).isTaken());
    assertTrue(reason(PulseReadings.of(PulseQuantity.HIGH_LEVEL).of(high)).contains("at the top"));
    // between levels that are given and lie inside, an edge is not spoilt
    assertTrue(PulseReadings.riseTime(-0.2, 0.8).of(high).isTaken());
  }

  @ParameterizedTest
  @EnumSource(PulseQuantity.class)
  void anEnvelopeDoesNotSayWhen(PulseQuantity quantity) {
    Record envelope =
        Setup.ideal(1e6, 100).decimation(new PeakDetect(10)).capture(Signals.sine(1, 1000));
    assertTrue(reason(PulseReadings.of(quantity).of(envelope)).contains("envelope"));
    PulseAnalysis pulses = PulseAnalysis.of(envelope);
    assertTrue(pulses.states().isEmpty());
    assertEquals(List.of(), pulses.transitions());
    assertEquals(List.of(), pulses.cycles());
    assertEquals(0, pulses.referenceVolts().length);
  }

  @Test
  void settingsAreChecked() {
    PulseMethod method = PulseMethod.standard();
    Refused.values("hysteresisPercent", method::hysteresis, -1, 50);
    Refused.values("regionDurations", method::region, -1, 2e6);
    Refused.values("settlingPercent", v -> method.settling(v, 1), 0.0, -1, 50);
    Refused.values("settlingDelayDurations", v -> method.settling(1, v), -1, 2e6);
    Refused.values("flatPercent", method::flat, 0.5, 101);
    Refused.values("low", v -> ReferenceLevels.percent(v, 50, 90), 50, 60, -2000);
    Refused.values("mid", v -> ReferenceLevels.percent(10, v, 90), 10, 90, 2000);
    Refused.values("high", v -> ReferenceLevels.volts(1, 2, v), 2, 1, 2e9);
    Refused.wholes("bins", StateLevels::histogramMode, 0, 1, 65_537);
    Refused.missing("levels", () -> method.levels(null));
    Refused.missing("references", () -> method.references(null));
    Refused.missing("method", () -> PulseReadings.of(PulseQuantity.PERIOD, null));
    Refused.missing("quantity", () -> PulseReadings.of(null));
    Refused.missing("summary", () -> PulseReadings.of(PulseQuantity.PERIOD, method, null));
    Refused.missing("record", () -> PulseAnalysis.of(null));
    Refused.values("lowVolts", v -> new States(v, 2e31), 1e31);
    Refused.values("highVolts", v -> new States(0, v), -1);
  }

  @Test
  void tellsItsMethod() {
    PulseMethod method = PulseMethod.standard().hysteresis(5);
    assertEquals(
        java.util.Optional.of(method),
        PulseReadings.methodOf(PulseReadings.of(PulseQuantity.RISE_TIME, method)));
    assertEquals(
        java.util.Optional.empty(), PulseReadings.methodOf(org.asmeasured.measure.Readings.mean()));
  }
}
