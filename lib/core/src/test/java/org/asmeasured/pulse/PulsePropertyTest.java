package org.asmeasured.pulse;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import java.util.SplittableRandom;
import org.asmeasured.acquisition.PeakDetect;
import org.asmeasured.acquisition.Trigger;
import org.asmeasured.capture.Record;
import org.asmeasured.capture.Setup;
import org.asmeasured.frontend.Bandwidth;
import org.asmeasured.frontend.Refused;
import org.asmeasured.internal.Cases;
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

/** What every pulse reading keeps, whatever it is given. */
class PulsePropertyTest {
  private static final List<StateLevels> LEVELS =
      List.of(
          StateLevels.histogramMode(),
          StateLevels.histogramMode(7),
          StateLevels.histogramMean(),
          StateLevels.peakMagnitude(),
          StateLevels.given(-0.1, 0.6),
          new Thirds());

  /** A method as a user would write it. */
  private record Thirds() implements StateLevels {
    @Override
    public States of(Record record) {
      return inner(PeakMagnitude.ONE.of(record));
    }

    @Override
    public States of(Waveform truth, double fromSeconds, double toSeconds) {
      return inner(PeakMagnitude.ONE.of(truth, fromSeconds, toSeconds));
    }

    private static States inner(States s) {
      return new States(s.atPercent(100.0 / 3), Math.max(s.atPercent(100.0 / 3), s.atPercent(70)));
    }
  }

  static List<Reading> readings() {
    List<Reading> all = new ArrayList<>();
    for (PulseQuantity quantity : PulseQuantity.values()) {
      for (StateLevels levels : LEVELS) {
        all.add(PulseReadings.of(quantity, PulseMethod.standard().levels(levels)));
      }
      for (Summary summary : Summary.values()) {
        all.add(PulseReadings.of(quantity, PulseMethod.standard(), summary));
      }
      all.add(
          PulseReadings.of(
              quantity,
              PulseMethod.standard()
                  .references(ReferenceLevels.volts(-0.3, 0, 0.2))
                  .hysteresis(0)
                  .region(0)
                  .flat(1)));
    }
    return all;
  }

  private static void check(Reading reading, Measured measured, Object what) {
    if (measured instanceof Value taken) {
      assertTrue(Double.isFinite(taken.value()), reading + " of " + what + ": " + taken);
      boolean signed = reading.unit().equals("V") || reading.name().startsWith("tilt");
      assertTrue(signed || taken.value() >= 0, reading + " of " + what + ": " + taken);
    } else {
      assertFalse(((NotTaken) measured).reason().isBlank());
    }
  }

  private static double[] drawn(SplittableRandom random) {
    int n = 1 + random.nextInt(random.nextBoolean() ? 12 : 400);
    double scale = Math.pow(10, -300 + 309 * random.nextDouble());
    double offset = random.nextInt(3) == 0 ? (1e9 - scale) * (random.nextDouble() - 0.5) : 0;
    double[] volts = new double[n];
    int kind = random.nextInt(5);
    double period = 2 + 60 * random.nextDouble();
    for (int i = 0; i < n; i++) {
      double noise = 2 * random.nextDouble() - 1;
      double shape =
          switch (kind) {
            case 0 -> noise;
            case 1 -> Math.sin(2 * Math.PI * i / period);
            case 2 -> i % period < period / 2 ? 1 : -1;
            case 3 -> (i % period < period / 2 ? 0.9 : -0.9) + 0.1 * noise;
            default -> random.nextInt(3) - 1;
          };
      volts[i] = scale * shape + offset;
    }
    return volts;
  }

  /** A value or a reason: never NaN, nothing thrown, the same again. */
  @Test
  void neverGivesNanNorThrows() {
    List<Reading> readings = readings();
    Cases.check(
        1,
        400,
        random -> {
          Record record = Record.of(1e3 * random.nextDouble(), 1e6, drawn(random));
          for (int k = 0; k < 40; k++) {
            Reading reading = readings.get(random.nextInt(readings.size()));
            Measured measured = reading.of(record);
            check(reading, measured, record);
            assertEquals(measured, reading.of(record), "the same again");
          }
        });
  }

  @ParameterizedTest
  @MethodSource("readings")
  void neverGivesNanNorThrowsAtTheEdges(Reading reading) {
    Signal smooth = Signals.sine(0.5, 1.03e6, 2.9).plus(Signals.sine(0.2, 2.06e6, 1)).plus(0.25);
    List<Record> odd = new ArrayList<>();
    for (double level : new double[] {0, -0.0, 1, -1e9, 1e9, Double.MIN_VALUE}) {
      odd.add(Record.of(0, 1, new double[] {level}));
      odd.add(Record.of(0, 1, new double[] {level, level}));
      odd.add(Record.of(0, 1, new double[] {level, -level}));
      odd.add(Record.of(0, 1, new double[] {level, -level, level, -level, level}));
    }
    odd.add(Record.of(-1e12, 1e15, new double[] {0, 1, 0, 1}));
    odd.add(Record.of(1e12, 1e-9, new double[] {0, 1, 0, 1}));
    odd.add(Setup.ideal(1e8, 100).decimation(new PeakDetect(3)).capture(smooth));
    odd.add(Setup.ideal(1e8, 100).scale(0.01).bits(8).capture(smooth));
    odd.add(Setup.ideal(1e8, 100).scale(0.1).bits(1).capture(smooth));
    odd.add(Setup.ideal(1e8, 300).scale(0.2).bits(24).capture(smooth));
    odd.add(Setup.ideal(1e8, 300).scale(0.2).bits(8).trigger(Trigger.at(0)).capture(smooth));
    odd.add(Setup.ideal(1e9, 10).bits(8).trigger(Trigger.at(3)).capture(smooth));
    for (Record record : odd) {
      check(reading, reading.of(record), record);
    }
  }

  @Test
  void takesWaveformsOfAllKinds() {
    Signal smooth = Signals.sine(0.5, 1.03e6, 2.9).plus(Signals.sine(0.2, 2.06e6, 1)).plus(0.25);
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
            Setup.ideal(1, 1).bandwidth(Bandwidth.bessel(4, 3e6)).analogOutput(smooth));
    for (Reading reading : readings()) {
      for (Waveform waveform : waveforms) {
        for (double[] span : new double[][] {{0, 7e-6}, {-1e-6, 1e-6}, {5e-6, 5.0000001e-6}}) {
          check(reading, reading.of(waveform, span[0], span[1]), waveform);
        }
      }
    }
  }

  /** A record of many points tends to the truth: both definitions are one. */
  @Test
  void recordAndTruthAgreeInTheLimit() {
    Signal signal =
        Signals.trapezoid(-1, 2, 1e-6, 0.4, 1e-7, 1.7e-7).plus(Signals.sine(0.02, 7e6, 0.3));
    Waveform output = Bandwidth.butterworth(3, 6e6).response().of(signal);
    double span = 5.3e-6;
    int points = 200_000;
    Record record =
        Setup.ideal(points / span, points).bandwidth(Bandwidth.butterworth(3, 6e6)).capture(signal);
    for (StateLevels levels : LEVELS) {
      PulseMethod method = PulseMethod.standard().levels(levels);
      for (PulseQuantity quantity : PulseQuantity.values()) {
        if (levels == PeakMagnitude.ONE && quantity.name().startsWith("UNDERSHOOT")) {
          // a level that is touched once only: whether it is reached hangs on the last digit
          continue;
        }
        Reading reading = PulseReadings.of(quantity, method);
        Measured truth = reading.of(output, 0, span);
        Measured read = reading.of(record);
        assertEquals(truth.isTaken(), read.isTaken(), reading + ": " + truth + ", " + read);
        if (truth instanceof Value value) {
          double scale =
              switch (quantity.unit()) {
                case "V" -> 3;
                case "s" -> 1e-6;
                case "Hz" -> 1e6;
                default -> 100;
              };
          // ends of regions and of fits fall between points, of which a state has 20 000
          assertEquals(value.value(), read.orThrow(), 1e-4 * scale, reading + " by " + levels);
        }
      }
    }
  }

  /** Twice as many volts or seconds: twice the volts or seconds; the rest stays. */
  @Test
  void scalesAsItsUnitDoes() {
    Cases.check(
        1,
        60,
        random -> {
          double duty = 0.2 + 0.6 * random.nextDouble();
          double rise = 0.02 + 0.1 * random.nextDouble();
          double delay = random.nextDouble();
          Signal signal =
              Signals.trapezoid(-1, 1, 1, duty, rise, 2 * rise / 3).delayedBy(delay).plus(0.3);
          Signal slower =
              Signals.trapezoid(-1, 1, 4, duty, 4 * rise, 8 * rise / 3)
                  .delayedBy(4 * delay)
                  .plus(0.3);
          for (Reading reading : PulseReadings.all()) {
            Measured base = reading.of(signal, 0, 4.1);
            Measured doubled = reading.of(signal.times(2), 0, 4.1);
            Measured stretched = reading.of(slower, 0, 16.4);
            assertEquals(base.isTaken(), doubled.isTaken(), reading.name());
            assertEquals(base.isTaken(), stretched.isTaken(), reading.name());
            if (base instanceof Value value) {
              double volts = reading.unit().equals("V") ? 2 : 1;
              double seconds =
                  reading.unit().equals("s") ? 4 : reading.unit().equals("Hz") ? 0.25 : 1;
              double v = value.value();
              assertEquals(volts * v, doubled.orThrow(), 1e-9 * Math.max(1, Math.abs(v)));
              assertEquals(seconds * v, stretched.orThrow(), 1e-9 * Math.max(1, Math.abs(v)));
            }
          }
        });
  }

  /** Upside down, what was high is low and what rose falls. */
  @Test
  void mirrorsUpsideDown() {
    PulseQuantity[][] pairs = {
      {PulseQuantity.RISE_TIME, PulseQuantity.FALL_TIME},
      {PulseQuantity.OVERSHOOT_RISING, PulseQuantity.OVERSHOOT_FALLING},
      {PulseQuantity.UNDERSHOOT_RISING, PulseQuantity.UNDERSHOOT_FALLING},
      {PulseQuantity.PRESHOOT_RISING, PulseQuantity.PRESHOOT_FALLING},
      {PulseQuantity.SETTLING_RISING, PulseQuantity.SETTLING_FALLING},
      {PulseQuantity.SETTLING_ERROR_RISING, PulseQuantity.SETTLING_ERROR_FALLING},
      {PulseQuantity.POSITIVE_DURATION, PulseQuantity.NEGATIVE_DURATION},
      {PulseQuantity.TILT_HIGH, PulseQuantity.TILT_LOW},
    };
    Waveform output =
        Bandwidth.butterworth(3, 4e6)
            .response()
            .of(Signals.trapezoid(-1, 2, 1e-6, 0.4, 3e-8, 9e-8));
    Record record =
        Setup.ideal(1e9, 4000)
            .bandwidth(Bandwidth.butterworth(3, 4e6))
            .capture(Signals.trapezoid(-1, 2, 1e-6, 0.4, 3e-8, 9e-8));
    double[] flipped = record.volts();
    for (int i = 0; i < flipped.length; i++) {
      flipped[i] = -flipped[i];
    }
    Record mirror = Record.of(0, 1e9, flipped);
    for (PulseQuantity[] pair : pairs) {
      PulseMethod method = PulseMethod.standard().settling(2, 0.5);
      Measured one = PulseReadings.of(pair[0], method).of(record);
      Measured other = PulseReadings.of(pair[1], method).of(mirror);
      assertEquals(one.orThrow(), other.orThrow(), 1e-9 * Math.abs(one.orThrow()), pair[0].words());
    }
    assertTrue(PulseAnalysis.of(output, 0, 4e-6).transitions().size() >= 7);
  }

  @Test
  void doesNotDependOnWhenARecordBegan() {
    double[] volts =
        Setup.ideal(1e9, 2500).capture(Signals.trapezoid(-1, 1, 4e-7, 0.5, 3e-8, 9e-8)).volts();
    for (Reading reading : PulseReadings.all()) {
      assertEquals(
          reading.of(Record.of(0, 1e9, volts)), reading.of(Record.of(12345.678, 1e9, volts)));
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
      return OptionalDouble.empty();
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
  @MethodSource("readings")
  void whatIsNoSpanOrTooLongIsRefused(Reading reading) {
    Measured measured = reading.of(new Unwilling(), 0, 1);
    assertEquals(new NotTaken("more pieces than are looked at"), measured);
    assertThrows(IllegalStateException.class, measured::orThrow);
    Signal signal = Signals.sine(1, 5);
    Refused.values("fromSeconds", v -> reading.of(signal, v, 1), 1e13, -1e13, 1, 2);
    Refused.values("toSeconds", v -> reading.of(signal, 0, v), 1e13, -1e13, 0.0, -1);
    Refused.missing("record", () -> reading.of(null));
    Refused.missing("truth", () -> reading.of(null, 0, 1));
    assertFalse(reading.name().isBlank());
    assertTrue(List.of("V", "s", "Hz", "%").contains(reading.unit()));
    assertFalse(reading.toString().contains("@"));
  }
}
