package org.asmeasured.measure;

import static org.asmeasured.internal.Refusals.absent;
import static org.asmeasured.internal.Refusals.mismatch;
import static org.asmeasured.internal.Refusals.volts;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.stream.Stream;
import org.apache.commons.math3.complex.Complex;
import org.asmeasured.acquisition.PeakDetect;
import org.asmeasured.acquisition.Slope;
import org.asmeasured.capture.Channel;
import org.asmeasured.capture.ChannelSet;
import org.asmeasured.capture.Record;
import org.asmeasured.capture.Setup;
import org.asmeasured.frontend.CurrentProbe;
import org.asmeasured.frontend.VerticalScale;
import org.asmeasured.internal.Cases;
import org.asmeasured.linear.Response;
import org.asmeasured.measure.Measured.NotTaken;
import org.asmeasured.measure.Measured.Value;
import org.asmeasured.signal.Signal;
import org.asmeasured.signal.Signals;
import org.asmeasured.signal.Waveform;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Readings between two channels against closed forms, and what all of them keep. */
class PairReadingsTest {
  private static final double MAINS_HZ = 50;
  private static final double OMEGA = 2 * Math.PI * MAINS_HZ;

  /** Of apparent power, for the integral of a product. */
  private static final double INTEGRAL = 1e-12;

  private static final Signal VOLTAGE = Signals.sine(325, MAINS_HZ);

  private static Signal current(double lag) {
    return Signals.sine(2.5, MAINS_HZ, -lag);
  }

  private static double truth(PairReading reading, Waveform a, Waveform b, double from, double to) {
    return reading.of(a, b, from, to).orThrow();
  }

  @ParameterizedTest
  @ValueSource(doubles = {0, 0.3, 1.2, Math.PI / 2, 1.5707, 2.5, Math.PI, -0.7})
  void sinesOfKnownPhase(double lag) {
    double apparent = 325 * 2.5 / 2;
    for (double from : new double[] {0, 0.0123, 777.0031}) {
      double to = from + 0.1;
      Signal i = current(lag);
      double p = truth(PairReadings.meanPower(), VOLTAGE, i, from, to);
      // the span of whole cycles is right to the rounding of its ends
      double ends = 10 * Math.ulp(to) * OMEGA * apparent;
      assertEquals(apparent * Math.cos(lag), p, INTEGRAL * apparent + ends);
      assertEquals(
          apparent * Math.cos(lag) * 0.1,
          truth(PairReadings.energy(), VOLTAGE, i, from, to),
          0.1 * (INTEGRAL * apparent + ends));
      assertEquals(
          apparent,
          truth(PairReadings.apparentPower(), VOLTAGE, i, from, to),
          INTEGRAL * apparent + ends);
      assertEquals(
          Math.cos(lag),
          truth(PairReadings.powerFactor(), VOLTAGE, i, from, to),
          2 * INTEGRAL + ends / apparent);
      double phase = truth(PairReadings.phaseLag(), VOLTAGE, i, from, to);
      double turns = (phase - lag) / (2 * Math.PI);
      assertEquals(0, turns - Math.rint(turns), 1e-10);
      assertTrue(phase > -Math.PI - 1e-9 && phase <= Math.PI);
    }
  }

  @Test
  void recordsOfSines() {
    double lag = 1.2;
    Setup setup = Setup.ideal(100e3, 10_000);
    Record v = setup.capture(VOLTAGE);
    Record i = setup.capture(current(lag));
    double apparent = 325 * 2.5 / 2;
    assertEquals(
        apparent * Math.cos(lag), PairReadings.meanPower().of(v, i).orThrow(), 1e-11 * apparent);
    assertEquals(apparent, PairReadings.apparentPower().of(v, i).orThrow(), 1e-11 * apparent);
    assertEquals(Math.cos(lag), PairReadings.powerFactor().of(v, i).orThrow(), 1e-11);
    assertEquals(
        apparent * Math.cos(lag) * 0.1, PairReadings.energy().of(v, i).orThrow(), 1e-12 * apparent);
    // between the points lines: at most (omega dt)^3/15 of a cycle's angle beside a zero
    double interpolation = Math.pow(OMEGA / 100e3, 3);
    assertEquals(lag, PairReadings.phaseLag().of(v, i).orThrow(), interpolation + 1e-9);
    assertEquals(
        lag / OMEGA, PairReadings.delay().of(v, i).orThrow(), interpolation / OMEGA + 1e-12);
    assertEquals(
        -lag / OMEGA, PairReadings.delay().of(i, v).orThrow(), interpolation / OMEGA + 1e-12);
  }

  /** A switch of duty D takes current of mean I while it is on: V D I, whatever the ripple. */
  @Test
  void aSquareVoltageAndATriangleOfCurrent() {
    double period = 4e-6;
    double duty = 0.3;
    Signal v = Signals.square(0, 48, period, duty);
    Signal i = Signals.triangle(1.6, 2.4, period, duty);
    double span = 5 * period;
    assertEquals(48 * duty * 2, truth(PairReadings.meanPower(), v, i, 0, span), 1e-11 * 100);
    double rmsV = 48 * Math.sqrt(duty);
    double rmsI = Math.sqrt(4 + 0.8 * 0.8 / 12);
    assertEquals(rmsV * rmsI, truth(PairReadings.apparentPower(), v, i, 0, span), 1e-11 * 100);
    assertEquals(
        48 * 2.4, truth(PairReadings.ofProduct(Readings.maximum()), v, i, 0, span), 1e-11 * 100);
  }

  /** Voltage and current overlap while both ramp: V I t/6 for every transition. */
  @Test
  void theOverlapOfTwoRamps() {
    double edge = 20e-9;
    Signal v = Signals.constant(400).minus(Signals.ramp(400, 1e-6, 1e-6 + edge));
    Signal i = Signals.ramp(10, 1e-6, 1e-6 + edge);
    assertEquals(400 * 10 * edge / 6, truth(PairReadings.energy(), v, i, 0, 2e-6), 1e-15);
    assertEquals(1000, truth(PairReadings.ofProduct(Readings.maximum()), v, i, 0, 2e-6), 1e-6);
  }

  /** A trapezoid of current under a square of voltage that is later by a quarter of the period. */
  @Test
  void aTrapezoidOfCurrent() {
    double period = 1e-3;
    double edge = 0.1e-3;
    Signal v = Signals.square(-1, 1, period, 0.5);
    for (double late : new double[] {0, 0.02e-3, 0.25e-3}) {
      // odd symmetry about the middle of its rise, which is at t = 0.05 ms + late
      Signal i = Signals.trapezoid(-1, 1, period, 0.5, edge, edge).delayedBy(late - edge / 2);
      double overlap =
          late >= edge / 2
              ? 1 - 4 * late / period
              : 1 - (edge / 2 + 2 * late * late / edge) * 2 / period;
      assertEquals(overlap, truth(PairReadings.meanPower(), v, i, 0, period), 1e-12, "" + late);
    }
  }

  /** exp(-t/a) exp(-t/b) integrates to ab/(a+b) (1 - exp(-T (a+b)/(ab))). */
  @Test
  void decays() {
    double a = 3e-6;
    double b = 70e-6;
    Signal v = Signals.step(5, 0).minus(Signals.exponentialEdge(5, 0, a));
    Signal i = Signals.step(2, 0).minus(Signals.exponentialEdge(2, 0, b));
    double t = 1e-5;
    double expected = 10 * a * b / (a + b) * -Math.expm1(-t * (a + b) / (a * b));
    assertEquals(expected, truth(PairReadings.energy(), v, i, 0, t), 1e-12 * expected);
  }

  @Test
  void outputsOfResponses() {
    Response one = Response.singlePole(200);
    Response other = Response.butterworth(3, 90);
    Complex h = one.at(MAINS_HZ).multiply(other.at(MAINS_HZ).conjugate());
    double lag = 0.4;
    double apparent = 325 * 2.5 / 2;
    Complex turned = h.multiply(new Complex(Math.cos(lag), Math.sin(lag)));
    double expected = apparent * turned.getReal();
    assertEquals(
        expected,
        truth(PairReadings.meanPower(), one.of(VOLTAGE), other.of(current(lag)), 0, 0.2),
        INTEGRAL * apparent);
    assertEquals(
        turned.getArgument(),
        truth(PairReadings.phaseLag(), one.of(VOLTAGE), other.of(current(lag)), 0, 0.2),
        1e-10);
  }

  /** Off by -tan(lag) omega s to first order; S cos(lag + omega s) exactly. */
  @ParameterizedTest
  @ValueSource(doubles = {0.2, 1, 1.4, 1.55})
  void skewSpoilsPowerAtALowPowerFactor(double lag) {
    double skew = 3e-6;
    Setup setup = Setup.ideal(100e3, 10_000).startingAt(0.001);
    ChannelSet set =
        ChannelSet.of(new Channel("voltage", setup), new Channel("current", setup, -skew));
    List<Record> records = set.capture(List.of(VOLTAGE, current(lag)), 0);
    double p = PairReadings.meanPower().of(records.get(0), records.get(1)).orThrow();
    double apparent = 325 * 2.5 / 2;
    // the current sampled earlier lags more
    assertEquals(apparent * Math.cos(lag + OMEGA * skew), p, 1e-11 * apparent);
    double relative = p / (apparent * Math.cos(lag)) - 1;
    double firstOrder = -Math.tan(lag) * OMEGA * skew;
    assertEquals(firstOrder, relative, OMEGA * OMEGA * skew * skew);
    assertEquals(
        skew,
        PairReadings.skew().of(records.get(0), records.get(1)).orThrow()
            - PairReadings.skew().of(setup.capture(VOLTAGE), setup.capture(current(lag))).orThrow(),
        1e-9);
  }

  @Test
  void delaysOfEdges() {
    Signal a = Signals.pulseTrain(0, 1, 1e-6, 0.3e-6, 10e-9, 20e-9);
    Signal b = Signals.pulseTrain(-2, 5, 1e-6, 0.4e-6, 30e-9, 20e-9).delayedBy(70e-9);
    // mid levels: 5 ns and 70 + 15 ns; the width is that at mid level
    assertEquals(80e-9, truth(PairReadings.delay(), a, b, -0.5e-6, 4.6e-6), 1e-18);
    assertEquals(-80e-9, truth(PairReadings.delay(), b, a, -0.5e-6, 4.6e-6), 1e-18);
    assertEquals(
        180e-9,
        truth(PairReadings.delay(Slope.FALLING, Slope.FALLING), a, b, -0.5e-6, 4.6e-6),
        1e-18);
    assertEquals(
        480e-9,
        truth(PairReadings.delay(Slope.RISING, Slope.FALLING), a, b, -0.5e-6, 4.6e-6),
        1e-18);
    assertEquals(130e-9, truth(PairReadings.skew(), a, b, -0.5e-6, 4.6e-6), 1e-18);
    // at 25 % of a: 2.5 ns; at 0 of b: 2/7 of 30 ns
    assertEquals(
        (70 + 60.0 / 7 - 2.5) * 1e-9,
        truth(PairReadings.delay(Slope.RISING, 0.25, Slope.RISING, 0), a, b, -0.5e-6, 4.6e-6),
        1e-18);
    Setup setup = Setup.ideal(1e9, 5000).startingAt(-0.5e-6);
    assertEquals(
        80e-9, PairReadings.delay().of(setup.capture(a), setup.capture(b)).orThrow(), 1e-15);
  }

  /** Half of a step through a single pole comes ln 2 time constants late. */
  @Test
  void theDelayOfAPole() {
    Signal step = Signals.step(1, 1e-6);
    Response pole = Response.singlePole(10e6);
    double tau = 1 / (2 * Math.PI * 10e6);
    assertEquals(
        tau * Math.log(2),
        truth(
            PairReadings.delay(Slope.RISING, 0.5, Slope.RISING, 0.5), step, pole.of(step), 0, 2e-6),
        1e-18);
  }

  @Test
  void aCurrentProbeMakesWatts() {
    Signal amperes = current(0.5);
    Setup clamp =
        Setup.ideal(10e3, 2000).probe(CurrentProbe.of(0.03)).vertical(VerticalScale.of(1));
    Record i = clamp.capture(amperes);
    Record plain = Setup.ideal(10e3, 2000).capture(amperes);
    for (int k = 0; k < i.size(); k++) {
      assertEquals(plain.volts(k), i.volts(k), 1e-14 * 2.5);
    }
    assertEquals(0.03, clamp.frontEnd().loading().atConnector().dcGain(), 1e-15);
    Record v = Setup.ideal(10e3, 2000).capture(VOLTAGE);
    assertEquals(325 * 1.25 * Math.cos(0.5), PairReadings.meanPower().of(v, i).orThrow(), 1e-9);
  }

  @Test
  void reasons() {
    Signal sine = Signals.sine(1, 1e6);
    Signal flat = Signals.constant(1);
    Setup setup = Setup.ideal(100e6, 1000);
    Record wave = setup.capture(sine);
    Record level = setup.capture(flat);
    reason(PairReadings.delay().of(wave, level), "the second of the two: all values are equal");
    reason(PairReadings.delay().of(level, wave), "the first of the two: all values are equal");
    reason(PairReadings.skew().of(sine, flat, 0, 1e-5), "the second of the two: all values");
    reason(
        PairReadings.delay(Slope.RISING, 7, Slope.RISING, 0).of(wave, wave),
        "the first of the two: no rising crossing of 7 V");
    reason(PairReadings.phaseLag().of(sine, sine, 0.3e-6, 1.4e-6), "only one rising crossing");
    Record envelope = setup.decimation(new PeakDetect(2)).capture(sine);
    reason(PairReadings.meanPower().of(envelope, wave), "the first of the two: an envelope");
    reason(PairReadings.meanPower().of(wave, envelope), "the second of the two: an envelope");
    reason(
        PairReadings.meanPower().of(wave, setup.points(7).capture(sine)),
        "have not the same points");
    reason(
        PairReadings.meanPower().of(wave, setup.startingAt(1).capture(sine)),
        "have not the same points");
    Record clipped = setup.vertical(VerticalScale.of(0.1)).bits(8).capture(sine);
    reason(PairReadings.delay().of(clipped, wave), "the record is clipped");
    assertTrue(PairReadings.meanPower().of(clipped, wave).isTaken());
    reason(PairReadings.ofProduct(Readings.maximum()).of(clipped, wave), "the record is clipped");
    Record nothing = setup.capture(Signals.constant(0));
    reason(PairReadings.powerFactor().of(nothing, wave), "no apparent power");
    reason(PairReadings.meanPower().of(sine, Signals.sine(1, 1.4142e6), 0, 1e9), "more than");
  }

  private static void reason(Measured measured, String words) {
    String said = ((NotTaken) measured).reason();
    assertTrue(said.contains(words), () -> "\"" + words + "\" is not in: " + said);
  }

  /** What a user would write: how far the mean of one is above the other's. */
  private record MeanDifference() implements PairReading {
    @Override
    public String name() {
      return "difference of means";
    }

    @Override
    public String unit() {
      return "V";
    }

    @Override
    public Measured of(Record first, Record second) {
      return difference(Readings.mean().of(first), Readings.mean().of(second));
    }

    @Override
    public Measured of(Waveform first, Waveform second, double fromSeconds, double toSeconds) {
      return difference(
          Readings.mean().of(first, fromSeconds, toSeconds),
          Readings.mean().of(second, fromSeconds, toSeconds));
    }

    private static Measured difference(Measured a, Measured b) {
      return a instanceof Value x && b instanceof Value y
          ? new Value(x.value() - y.value())
          : a.isTaken() ? b : a;
    }
  }

  static Stream<PairReading> readings() {
    List<PairReading> all = new ArrayList<>(PairReadings.all());
    all.add(PairReadings.delay(Slope.FALLING, 0.1, Slope.RISING, -0.1));
    all.add(PairReadings.ofProduct(Readings.peakToPeak()));
    all.add(new MeanDifference());
    return all.stream();
  }

  private static Signal smooth() {
    return Signals.sine(0.5, 1.03e6, 2.9).plus(Signals.sine(0.2, 2.06e6, 1)).plus(0.25);
  }

  private static Signal later() {
    return Signals.sine(0.7, 1.03e6, 2.1).plus(Signals.sine(0.1, 3.09e6, 1)).plus(-0.1);
  }

  @ParameterizedTest
  @MethodSource("readings")
  void recordAndTruthAgreeInTheLimit(PairReading reading) {
    double span = 2.5e-6;
    double truth = reading.of(smooth(), later(), 0, span).orThrow();
    for (int points : new int[] {1000, 10_000, 100_000}) {
      Setup setup = Setup.ideal(points / span, points);
      double read = reading.of(setup.capture(smooth()), setup.capture(later())).orThrow();
      assertTrue(
          Math.abs(read - truth) <= 4 * Math.abs(truth) / points,
          points + " points: off by " + (read - truth));
    }
    assertTrue(reading.name().matches("[a-z ]+"), reading.name());
    assertFalse(reading.toString().contains("@"));
    assertTrue(List.of("V", "s", "rad", "W", "J", "VA", "").contains(reading.unit()));
  }

  @ParameterizedTest
  @MethodSource("readings")
  void aValueOrAReasonWhateverTheRecords(PairReading reading) {
    Cases.check(
        1,
        300,
        random -> {
          double[][] volts = new double[2][1 + random.nextInt(12)];
          for (double[] v : volts) {
            int kind = random.nextInt(5);
            for (int i = 0; i < v.length; i++) {
              v[i] =
                  switch (kind) {
                    case 0 -> 0;
                    case 1 -> random.nextInt(2);
                    case 2 -> random.nextDouble() - 0.5;
                    case 3 -> Cases.signed(random, 1e9);
                    default -> Cases.signed(random, Double.MIN_VALUE);
                  };
            }
          }
          int size = Math.min(volts[0].length, volts[1].length);
          Record a = Record.of(3, 1e6, Arrays.copyOf(volts[0], size));
          Record b = Record.of(3, 1e6, volts[1]);
          for (Measured m : List.of(reading.of(a, b), reading.of(b, a), reading.of(a, a))) {
            if (m instanceof Value taken) {
              assertTrue(Double.isFinite(taken.value()));
            } else {
              assertFalse(((NotTaken) m).reason().isBlank());
            }
          }
        });
  }

  @Test
  void badArguments() {
    absent("first", () -> PairReadings.delay(null, Slope.RISING));
    absent("second", () -> PairReadings.delay(Slope.RISING, null));
    absent("first", () -> PairReadings.delay(null, 0, Slope.RISING, 0));
    absent("second", () -> PairReadings.delay(Slope.RISING, 0, null, 0));
    volts("firstVolts", v -> PairReadings.delay(Slope.RISING, v, Slope.RISING, 0));
    volts("secondVolts", v -> PairReadings.delay(Slope.RISING, 0, Slope.RISING, v));
    absent("reading", () -> PairReadings.ofProduct(null));
    Record one = Record.of(0, 1, new double[] {1, 2});
    for (PairReading reading : PairReadings.all()) {
      absent("first", () -> reading.of(null, one));
      absent("second", () -> reading.of(one, null));
      absent("first", () -> reading.of(null, VOLTAGE, 0, 1));
      absent("second", () -> reading.of(VOLTAGE, null, 0, 1));
      mismatch(() -> reading.of(VOLTAGE, VOLTAGE, 1, 1), "the span must not be empty");
    }
    absent("other", () -> one.times(null));
    mismatch(() -> one.times(Record.of(0, 1, new double[] {1})), "size = 2, of the other record 1");
    mismatch(() -> one.times(Record.of(0, 2, new double[] {1, 2})), "rateHz = 1.0");
    assertEquals(6, one.times(Record.of(0, 1, new double[] {5, 3})).volts(1));
  }

  @Test
  void valuesAreCompared() {
    assertEquals(PairReadings.delay(), PairReadings.delay(Slope.RISING, Slope.RISING));
    assertEquals(PairReadings.delay().hashCode(), PairReadings.delay().hashCode());
    assertNotEquals(PairReadings.delay(), PairReadings.skew());
    assertEquals(PairReadings.skew(), PairReadings.skew());
    assertEquals(PairReadings.ofProduct(Readings.mean()), PairReadings.ofProduct(Readings.mean()));
    assertEquals(PairReadings.energy(), PairReadings.energy());
    assertEquals("energy", PairReadings.energy().name());
    assertEquals("maximum of the product", PairReadings.ofProduct(Readings.maximum()).name());
    assertEquals(
        "delay from rising edges at 1 V to falling edges at 2 V",
        PairReadings.delay(Slope.RISING, 1, Slope.FALLING, 2).toString());
  }
}
