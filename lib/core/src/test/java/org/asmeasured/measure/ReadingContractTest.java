package org.asmeasured.measure;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import java.util.Random;
import java.util.stream.Stream;
import org.asmeasured.acquisition.PeakDetect;
import org.asmeasured.acquisition.Trigger;
import org.asmeasured.capture.Record;
import org.asmeasured.capture.Setup;
import org.asmeasured.characterisation.CharacterisationReadings;
import org.asmeasured.frontend.Bandwidth;
import org.asmeasured.frontend.Refused;
import org.asmeasured.measure.Measured.NotTaken;
import org.asmeasured.measure.Measured.Value;
import org.asmeasured.pulse.EveryPulseReading;
import org.asmeasured.pulse.PulseReadings;
import org.asmeasured.signal.Signal;
import org.asmeasured.signal.Signals;
import org.asmeasured.signal.Waveform;
import org.asmeasured.spectrum.SpectrumReadings;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** What every reading keeps, ours and anyone's. */
class ReadingContractTest {

  private static final List<String> UNITS =
      List.of("V", "s", "Hz", "", "%", "dB", "bit", "V/sqrt(Hz)");

  /** A reading as a user would write it: midway between the extremes. */
  private record MidRange() implements Reading {
    @Override
    public String name() {
      return "mid range";
    }

    @Override
    public String unit() {
      return "V";
    }

    @Override
    public Measured of(Record record) {
      return half(Readings.minimum().of(record), Readings.maximum().of(record));
    }

    @Override
    public Measured of(Waveform truth, double fromSeconds, double toSeconds) {
      return half(
          Readings.minimum().of(truth, fromSeconds, toSeconds),
          Readings.maximum().of(truth, fromSeconds, toSeconds));
    }

    private static Measured half(Measured low, Measured high) {
      if (low instanceof Value least && high instanceof Value greatest) {
        return new Value(least.value() / 2 + greatest.value() / 2);
      }
      return low.isTaken() ? high : low;
    }
  }

  static Stream<Reading> readings() {
    List<Reading> all = new ArrayList<>(Readings.all());
    all.add(PulseReadings.riseTime(0, 0.5));
    all.add(Readings.percentile(7.3));
    all.add(new MidRange());
    return all.stream();
  }

  /** Those of the packages that follow, too. */
  static Stream<Reading> every() {
    List<Reading> all = new ArrayList<>(readings().toList());
    all.addAll(EveryPulseReading.all());
    all.addAll(SpectrumReadings.all());
    all.addAll(CharacterisationReadings.all());
    all.add(CharacterisationReadings.effectiveBits(2));
    return all.stream().distinct();
  }

  private static boolean linear(Reading reading) {
    return reading.unit().equals("V");
  }

  private static Signal smooth() {
    return Signals.sine(0.5, 1.03e6, 2.9).plus(Signals.sine(0.2, 2.06e6, 1)).plus(0.25);
  }

  @ParameterizedTest
  @MethodSource("every")
  void hasNameAndUnit(Reading reading) {
    assertFalse(reading.name().isBlank());
    assertTrue(UNITS.contains(reading.unit()), reading.unit());
    assertFalse(reading.toString().contains("@"));
  }

  /** An ideal record of many points tends to the truth: both definitions are one. */
  @ParameterizedTest
  @MethodSource("readings")
  void recordAndTruthAgreeInTheLimit(Reading reading) {
    double span = 2.5e-6;
    double truth = reading.of(smooth(), 0, span).orThrow();
    for (int points : new int[] {1000, 10_000, 100_000}) {
      Record record = Setup.ideal(points / span, points).capture(smooth());
      double error = Math.abs(reading.of(record).orThrow() - truth);
      // the value at a rank, which is known to half a point, of a signal that covers 1.4 V
      double size = Readings.isPercentile(reading) ? 2 : Math.abs(truth);
      assertTrue(error <= size / points, points + " points: off by " + error);
    }
  }

  @ParameterizedTest
  @MethodSource("readings")
  void scalesAsItsUnitDoes(Reading reading) {
    Signal signal = smooth();
    Signal slower =
        Signals.sine(0.5, 1.03e6 / 4, 2.9).plus(Signals.sine(0.2, 2.06e6 / 4, 1)).plus(0.25);
    double base = reading.of(signal, 0, 2.5e-6).orThrow();
    double stretched = reading.of(slower, 0, 1e-5).orThrow();
    assertEquals(linear(reading) ? base : 4 * base, stretched, 1e-11 * Math.abs(stretched));
    if (!reading.equals(PulseReadings.riseTime(0, 0.5))) {
      double doubled = reading.of(signal.times(2), 0, 2.5e-6).orThrow();
      assertEquals(linear(reading) ? 2 * base : base, doubled, 1e-11 * Math.abs(doubled));
    }
  }

  @ParameterizedTest
  @MethodSource("every")
  void doesNotDependOnWhenARecordBegan(Reading reading) {
    double[] volts = Setup.ideal(1e9, 2500).capture(smooth()).volts();
    assertEquals(
        reading.of(Record.of(0, 1e9, volts)), reading.of(Record.of(12345.678, 1e9, volts)));
  }

  /** A value is finite, a reason is words; nothing is thrown, whatever the record. */
  @ParameterizedTest
  @MethodSource("every")
  void neverGivesNanNorThrows(Reading reading) {
    List<Record> odd = new ArrayList<>();
    for (double level : new double[] {0, -0.0, 1, -1e9, 1e9, Double.MIN_VALUE}) {
      odd.add(Record.of(0, 1, new double[] {level}));
      odd.add(Record.of(0, 1, new double[] {level, level}));
      odd.add(Record.of(0, 1, new double[] {level, -level}));
      odd.add(Record.of(0, 1, new double[] {level, -level, level, -level, level}));
    }
    odd.add(Record.of(-1e12, 1e15, new double[] {0, 1, 0, 1}));
    odd.add(Record.of(1e12, 1e-9, new double[] {0, 1, 0, 1}));
    odd.add(Setup.ideal(1e8, 100).decimation(new PeakDetect(3)).capture(smooth()));
    odd.add(Setup.ideal(1e8, 100).scale(0.01).bits(8).capture(smooth()));
    odd.add(
        Setup.ideal(1e8, 100).scale(0.01).bits(1).decimation(new PeakDetect(3)).capture(smooth()));
    odd.add(Setup.ideal(1e8, 100).scale(0.1).bits(1).capture(smooth()));
    odd.add(Setup.ideal(1e8, 300).scale(0.2).bits(24).capture(smooth()));
    odd.add(Setup.ideal(1e8, 300).scale(0.2).bits(8).trigger(Trigger.at(0)).capture(smooth()));
    odd.add(Setup.ideal(1e9, 10).bits(8).trigger(Trigger.at(3)).capture(smooth()));
    for (long seed = 1; seed <= 300; seed++) {
      Random random = new Random(seed);
      double scale = Math.pow(10, -300 + 309 * random.nextDouble());
      double[] volts = random.doubles(1 + random.nextInt(12), -scale, scale).toArray();
      odd.add(Record.of(0, 1, volts));
    }
    for (Record record : odd) {
      Measured measured = reading.of(record);
      assertEquals(measured, reading.of(record), "the same again");
      if (measured instanceof Value taken) {
        assertTrue(Double.isFinite(taken.value()), record + ": " + taken);
        assertTrue(!reading.unit().equals("s") || taken.value() >= 0, record + ": " + taken);
      } else {
        assertFalse(((NotTaken) measured).reason().isBlank());
      }
    }
  }

  @ParameterizedTest
  @MethodSource("every")
  void takesWaveformsOfAllKinds(Reading reading) {
    List<Waveform> waveforms =
        List.of(
            Signals.constant(0),
            Signals.constant(1e9),
            Signals.step(1, 1e-6),
            Signals.ramp(1e6, 0),
            Signals.square(-1, 1, 1e-6, 0.5),
            Signals.recorded(new double[] {0, 1e-6, 2e-6}, new double[] {0, 1, -1}),
            Signals.exponentialEdge(1, 0, 1e-7),
            Signals.runt(1, 0.4, 1e-6, 4e-7, 1e-8, 3),
            Signals.burst(1, 3e6, 3, 1e-6),
            Setup.ideal(1, 1).bandwidth(Bandwidth.bessel(4, 3e6)).analogOutput(smooth()));
    for (Waveform waveform : waveforms) {
      for (double[] span : new double[][] {{0, 7e-6}, {-1e-6, 1e-6}, {5e-6, 5.0000001e-6}}) {
        Measured measured = reading.of(waveform, span[0], span[1]);
        if (measured instanceof Value taken) {
          assertTrue(Double.isFinite(taken.value()), waveform + ": " + taken);
        } else {
          assertFalse(((NotTaken) measured).reason().isBlank());
        }
      }
    }
  }

  /** As a signal does with a span of more pieces than it looks at for one reading. */
  private static final class Unwilling implements Waveform {
    private static double refuse() {
      throw new IllegalArgumentException("more pieces than are looked at");
    }

    @Override
    public double valueAt(double timeSeconds) {
      return 0;
    }

    @Override
    public double valueBefore(double timeSeconds) {
      return 0;
    }

    @Override
    public double[] knots(double fromSeconds, double toSeconds) {
      return new double[] {refuse()};
    }

    @Override
    public OptionalDouble periodSeconds() {
      return OptionalDouble.of(0.5);
    }

    @Override
    public double mean(double fromSeconds, double toSeconds) {
      return refuse();
    }

    @Override
    public double rms(double fromSeconds, double toSeconds) {
      return refuse();
    }
  }

  @ParameterizedTest
  @MethodSource("every")
  void whatAWaveformRefusesIsNotTaken(Reading reading) {
    Measured measured = reading.of(new Unwilling(), 0, 1);
    assertEquals(new NotTaken("more pieces than are looked at"), measured);
    assertThrows(IllegalStateException.class, measured::orThrow);
  }

  @ParameterizedTest
  @MethodSource("every")
  void refusesWhatIsNoSpanAtAll(Reading reading) {
    Signal signal = smooth();
    Refused.values("fromSeconds", v -> reading.of(signal, v, 1), 1e13, -1e13, 1, 2);
    Refused.values("toSeconds", v -> reading.of(signal, 0, v), 1e13, -1e13, 0.0, -1);
    Refused.missing("record", () -> reading.of(null));
    Refused.missing("truth", () -> reading.of(null, 0, 1));
  }
}
