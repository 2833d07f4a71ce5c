package org.asmeasured.characterisation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import org.asmeasured.acquisition.PeakDetect;
import org.asmeasured.capture.Record;
import org.asmeasured.capture.Setup;
import org.asmeasured.frontend.Bandwidth;
import org.asmeasured.internal.Cases;
import org.asmeasured.internal.Refusals;
import org.asmeasured.measure.Measured;
import org.asmeasured.measure.Measured.NotTaken;
import org.asmeasured.measure.Measured.Value;
import org.asmeasured.measure.Reading;
import org.asmeasured.signal.Signal;
import org.asmeasured.signal.Signals;
import org.asmeasured.signal.Waveform;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

class CharacterisationReadingsTest {

  static List<Reading> readings() {
    List<Reading> all = new ArrayList<>(CharacterisationReadings.all());
    all.add(CharacterisationReadings.effectiveBits(2));
    return all;
  }

  @Test
  void truthOfAPureSineIsThatSine() {
    Cases.check(
        1,
        60,
        random -> {
          double f = Cases.logUniform(random, 1e-3, 1e9);
          double a = Cases.logUniform(random, 1e-6, 1e3);
          double c = Cases.signed(random, a * Cases.logUniform(random, 1e-3, 10));
          double from = random.nextDouble() / f;
          double to = from + Cases.logUniform(random, 1.5, 300) / f;
          Signal sine = Signals.sine(a, f, 6 * random.nextDouble()).plus(c);
          assertEquals(1, value(0, sine, from, to) / a, 1e-11);
          assertEquals(1, value(1, sine, from, to) / f, 1e-11);
          assertEquals(0, (value(2, sine, from, to) - c) / a, 1e-10);
          assertEquals(0, value(3, sine, from, to));
          assertTrue(
              CharacterisationReadings.effectiveBits(1).of(sine, from, to) instanceof NotTaken);
        });
  }

  private static double value(int reading, Waveform w, double from, double to) {
    return CharacterisationReadings.all().get(reading).of(w, from, to).orThrow();
  }

  /**
   * A square of levels +/-1 over whole periods: its fundamental is 4/pi and is the best sine; what
   * is left has the mean square 1 - 8/pi^2. The frequency is at rest by symmetry about the middle.
   */
  @Test
  void truthOfASquareIsItsFundamental() {
    Signal square = Signals.square(-1, 1, 1e-6, 0.5);
    double from = 0.25e-6;
    double to = 10.25e-6;
    assertEquals(4 / Math.PI, value(0, square, from, to), 1e-3);
    SineFit limit =
        SineFit.fourParameters(Setup.ideal(1e11, 1_000_000).startingAt(from).capture(square))
            .orThrow();
    assertEquals(limit.amplitudeVolts(), value(0, square, from, to), 2e-5);
    assertEquals(limit.frequencyHz(), value(1, square, from, to), 1e6 * 2e-6);
    assertEquals(Math.sqrt(1 - 8 / (Math.PI * Math.PI)), value(3, square, from, to), 1e-3);
  }

  /** A multi-tone: the truth is where records of ever more points go. */
  @ParameterizedTest
  @MethodSource("readings")
  void recordAndTruthAgreeInTheLimit(Reading reading) {
    Signal signal = Signals.sine(0.5, 1.03e6, 2.9).plus(Signals.sine(0.1, 2.7e6, 1)).plus(0.25);
    double span = 7.3e-6;
    double truth = reading.of(signal, 0, span).orThrow();
    for (int points : new int[] {1000, 10_000, 100_000}) {
      Record record = Setup.ideal(points / span, points).capture(signal);
      double error = Math.abs(reading.of(record).orThrow() - truth);
      assertTrue(error <= 2 * Math.abs(truth) / points, points + " points: off by " + error);
    }
  }

  /** Behind a filter the truth of the output is what the filter makes of the sine. */
  @Test
  void followsAFilteredSine() {
    Setup setup = Setup.ideal(1e9, 1000).bandwidth(Bandwidth.bessel(4, 20e6));
    double gain = org.asmeasured.linear.Response.bessel(4, 20e6).magnitude(15e6);
    Waveform out = setup.analogOutput(Signals.sine(1, 15e6));
    assertEquals(gain, value(0, out, 0, 1e-6), 1e-10);
    Record record = setup.capture(Signals.sine(1, 15e6));
    assertEquals(gain, CharacterisationReadings.sineAmplitude().of(record).orThrow(), 1e-10);
  }

  @ParameterizedTest
  @MethodSource("readings")
  void hasNameAndUnit(Reading reading) {
    assertFalse(reading.name().isBlank());
    assertTrue(List.of("V", "Hz", "bit").contains(reading.unit()));
    assertTrue(reading.toString().startsWith(reading.name()), reading::toString);
  }

  @ParameterizedTest
  @MethodSource("readings")
  void givesAValueOrAReason(Reading reading) {
    List<Record> odd = new ArrayList<>();
    for (double level : new double[] {0, -0.0, 1, -1e9, 1e9, Double.MIN_VALUE}) {
      odd.add(Record.of(0, 1, new double[] {level}));
      odd.add(Record.of(0, 1, new double[] {level, level, level, level, level, level}));
      odd.add(Record.of(0, 1, new double[] {level, -level, level, -level, level, -level}));
      odd.add(Record.of(0, 1, new double[] {level, -level, 0, level / 2, -level, level / 3}));
    }
    Signal sine = Signals.sine(1, 1e6);
    odd.add(Setup.ideal(1e8, 100).decimation(new PeakDetect(3)).capture(sine));
    odd.add(Setup.ideal(1e8, 1000).scale(0.01).bits(8).capture(sine));
    odd.add(Setup.ideal(1e8, 1000).scale(0.01).bits(1).capture(sine));
    for (long seed = 1; seed <= 200; seed++) {
      SplittableRandom random = new SplittableRandom(seed);
      double scale = Math.pow(10, -300 + 309 * random.nextDouble());
      double[] volts = random.doubles(1 + random.nextInt(60), -scale, scale).toArray();
      odd.add(Record.of(0, 1, volts));
    }
    for (Record record : odd) {
      check(reading.of(record), record);
      assertEquals(reading.of(record), reading.of(record), "the same again");
    }
    List<Waveform> waveforms =
        List.of(
            Signals.constant(0),
            Signals.constant(1e9),
            Signals.step(1, 1e-6),
            Signals.ramp(1e6, 0),
            Signals.square(-1, 1, 1e-6, 0.5),
            Signals.recorded(new double[] {0, 1e-6, 2e-6}, new double[] {0, 1, -1}),
            Signals.exponentialEdge(1, 0, 1e-7),
            Setup.ideal(1, 1).bandwidth(Bandwidth.bessel(4, 3e6)).analogOutput(sine));
    for (Waveform waveform : waveforms) {
      for (double[] span : new double[][] {{0, 1e-5}, {-1e-6, 1e-6}, {5e-6, 5.0000001e-6}}) {
        check(reading.of(waveform, span[0], span[1]), waveform);
      }
    }
  }

  private static void check(Measured measured, Object of) {
    if (measured instanceof Value taken) {
      assertTrue(Double.isFinite(taken.value()), of + ": " + taken);
    } else {
      assertFalse(((NotTaken) measured).reason().isBlank());
    }
  }

  @ParameterizedTest
  @MethodSource("readings")
  void refusesWhatIsNoSpan(Reading reading) {
    Signal sine = Signals.sine(1, 1e6);
    Refusals.refused("fromSeconds", "s", v -> reading.of(sine, v, 1), 1e13, -1e13);
    Refusals.refused("toSeconds", "s", v -> reading.of(sine, 0, v), 1e13, -1e13);
    Refusals.mismatch(() -> reading.of(sine, 1, 1), "fromSeconds = 1.0 s", "toSeconds = 1.0 s");
    Refusals.absent("record", () -> reading.of(null));
    Refusals.absent("truth", () -> reading.of(null, 0, 1));
    // more pieces than are looked at
    assertTrue(reading.of(sine, 0, 1e6) instanceof NotTaken);
  }

  @Test
  void refusesABadFullScale() {
    Refusals.refused("fullScaleVolts", "V", CharacterisationReadings::effectiveBits, 0, -1, 2e9);
  }

  /** Two that are asked for alike are one, so that none is asked for twice. */
  @Test
  void equalByNameAndFullScale() {
    Reading bits = CharacterisationReadings.effectiveBits(2);
    assertEquals(bits, CharacterisationReadings.effectiveBits(2));
    assertEquals(bits.hashCode(), CharacterisationReadings.effectiveBits(2).hashCode());
    assertNotEquals(bits, CharacterisationReadings.effectiveBits(4));
    assertNotEquals(bits, CharacterisationReadings.sineOffset());
    assertEquals("effective bits by sine fit, full scale 2 V", bits.toString());
    assertTrue(CharacterisationReadings.isOfSineFit(bits));
    assertFalse(CharacterisationReadings.isOfSineFit(org.asmeasured.measure.Readings.mean()));
  }
}
