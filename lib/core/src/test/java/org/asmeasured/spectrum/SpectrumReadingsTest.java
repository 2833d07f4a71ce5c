package org.asmeasured.spectrum;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import org.asmeasured.accuracy.Prediction;
import org.asmeasured.acquisition.PeakDetect;
import org.asmeasured.capture.Record;
import org.asmeasured.capture.Setup;
import org.asmeasured.frontend.Bandwidth;
import org.asmeasured.internal.Cases;
import org.asmeasured.linear.Response;
import org.asmeasured.measure.Measured;
import org.asmeasured.measure.Reading;
import org.asmeasured.signal.Signal;
import org.asmeasured.signal.Signals;
import org.asmeasured.signal.Waveform;
import org.junit.jupiter.api.Test;

class SpectrumReadingsTest {
  private static final HarmonicMethod STANDARD = HarmonicMethod.standard();

  private static double truth(Reading reading, Waveform waveform) {
    return reading.of(waveform, 0, 1e-3).orThrow();
  }

  private static String reason(Measured measured) {
    return ((Measured.NotTaken) measured).reason();
  }

  /** Amplitude of harmonic n of a trapezoid of height h: 2 h duty sinc(n duty) sinc(n edge/T). */
  private static double trapezoid(int n, double height, double duty, double edge, double period) {
    return Math.abs(2 * height * duty * sinc(n * duty) * sinc(n * edge / period));
  }

  private static double sinc(double x) {
    return x == 0 ? 1 : Math.sin(Math.PI * x) / (Math.PI * x);
  }

  @Test
  void linesOfATrapezoid() {
    for (double edge : new double[] {0, 1e-12, 3e-9, 20e-9}) {
      for (double duty : new double[] {0.5, 0.31}) {
        Signal signal = Signals.trapezoid(-0.4, 0.9, 100e-9, duty, edge, edge);
        double squares = 0;
        for (int n = 1; n <= 10; n++) {
          double expected = trapezoid(n, 1.3, duty, edge, 100e-9);
          double hz = n / 100e-9;
          Reading amplitude =
              SpectrumReadings.amplitudeAt(SpectrumMethod.wholeRecord(Window.hann()), hz);
          assertEquals(expected, truth(amplitude, signal), 2e-13, n + " of " + signal);
          squares += n == 1 ? 0 : expected * expected;
        }
        double first = trapezoid(1, 1.3, duty, edge, 100e-9);
        assertEquals(
            Math.sqrt(squares) / first, truth(SpectrumReadings.thd(STANDARD), signal), 1e-12);
        assertEquals(1e7, truth(SpectrumReadings.fundamentalFrequency(STANDARD), signal), 1e-6);
        assertEquals(first, truth(SpectrumReadings.fundamentalAmplitude(STANDARD), signal), 1e-12);
        // everything but the first line: Parseval
        double ac = signal.rms(0, 100e-9);
        double mean = signal.mean(0, 100e-9);
        double rest = Math.sqrt(ac * ac - mean * mean - first * first / 2);
        double highest = 0;
        for (int n = 2; n < 40; n++) {
          highest = Math.max(highest, trapezoid(n, 1.3, duty, edge, 100e-9));
        }
        assertEquals(rest, nad(signal), 1e-11);
        assertEquals(
            20 * Math.log10(first / Math.sqrt(2) / rest),
            truth(SpectrumReadings.sinad(STANDARD), signal),
            1e-9);
        assertEquals(
            20 * Math.log10(first / highest), truth(SpectrumReadings.sfdr(STANDARD), signal), 1e-9);
        assertEquals(0, truth(SpectrumReadings.noiseFloor(STANDARD), signal));
      }
    }
  }

  private static double nad(Signal signal) {
    return truth(SpectrumReadings.noiseAndDistortion(STANDARD), signal);
  }

  /** Of a square, THD of all harmonics is sqrt(pi^2/8 - 1); of orders to 999, nearly. */
  @Test
  void squareWave() {
    Signal square = Signals.square(-1, 1, 1e-6, 0.5);
    assertEquals(
        Math.sqrt(Math.PI * Math.PI / 8 - 1), nad(square) / (4 / Math.PI / Math.sqrt(2)), 1e-12);
    assertEquals(20 * Math.log10(3), truth(SpectrumReadings.sfdr(STANDARD), square), 1e-10);
    double orders = 0;
    for (int n = 3; n < 10; n += 2) {
      orders += 1.0 / n / n;
    }
    assertEquals(Math.sqrt(orders), truth(SpectrumReadings.thd(STANDARD), square), 1e-12);
    double all = Math.PI * Math.PI / 8 - 1 - orders;
    assertEquals(-10 * Math.log10(all), truth(SpectrumReadings.snr(STANDARD), square), 1e-9);
  }

  /** Behind a filter each line is what its gain leaves. */
  @Test
  void squareBehindAFilter() {
    Response bessel = Response.bessel(4, 3e6);
    Waveform filtered = bessel.of(Signals.square(-1, 1, 1e-6, 0.5));
    double squares = 0;
    double first = 4 / Math.PI * bessel.magnitude(1e6);
    for (int n = 3; n < 10; n += 2) {
      double a = 4 / Math.PI / n * bessel.magnitude(n * 1e6) / first;
      squares += a * a;
    }
    assertEquals(Math.sqrt(squares), truth(SpectrumReadings.thd(STANDARD), filtered), 1e-12);
  }

  @Test
  void aSineHasNoDistortion() {
    Signal sine = Signals.sine(1, 1.2345e6, 0.3).plus(2.5);
    assertEquals(0, truth(SpectrumReadings.thd(STANDARD), sine));
    assertEquals(0, nad(sine));
    assertEquals(0, truth(SpectrumReadings.noiseFloor(STANDARD), sine));
    for (Reading reading :
        List.of(
            SpectrumReadings.sinad(STANDARD),
            SpectrumReadings.snr(STANDARD),
            SpectrumReadings.sfdr(STANDARD),
            SpectrumReadings.effectiveBits(STANDARD),
            SpectrumReadings.effectiveBits(STANDARD, 2))) {
      assertTrue(reason(reading.of(sine, 0, 1)).contains("no bound"), reading.name());
    }
  }

  /** The strongest line is not the first of the common period, nor the lowest tone. */
  @Test
  void strongestOfSeveralTones() {
    Signal tones =
        Signals.multiTone(
            new double[] {0.3, 1, 0.2, 0.05},
            new double[] {10e6, 31.4e6, 62.8e6, 99.9e6},
            new double[] {0.1, 0.2, 0.3, 0.4});
    assertEquals(31.4e6, truth(SpectrumReadings.fundamentalFrequency(STANDARD), tones), 1e-3);
    assertEquals(0.2, truth(SpectrumReadings.thd(STANDARD), tones), 1e-12);
    assertEquals(20 * Math.log10(1 / 0.3), truth(SpectrumReadings.sfdr(STANDARD), tones), 1e-9);
    double noise = (0.09 + 0.0025) / 2;
    assertEquals(Math.sqrt(noise + 0.02), nad(tones), 1e-12);
    HarmonicMethod given = STANDARD.withFundamentalHz(10e6);
    assertEquals(0.3, truth(SpectrumReadings.fundamentalAmplitude(given), tones), 1e-12);
    assertEquals(0, truth(SpectrumReadings.thd(given), tones), 1e-12);
    SpectrumMethod hann = SpectrumMethod.wholeRecord(Window.hann());
    assertEquals(0.05, truth(SpectrumReadings.amplitudeAt(hann, 99.9e6), tones), 1e-12);
    assertEquals(0, truth(SpectrumReadings.amplitudeAt(hann, 20e6), tones), 1e-12);
    assertEquals(0, truth(SpectrumReadings.amplitudeAt(hann, 1.2345678e6), tones));
    assertTrue(
        reason(SpectrumReadings.thd(STANDARD.withFundamentalHz(1.2345678e6)).of(tones, 0, 1))
            .contains("nothing at"));
  }

  @Test
  void whatDoesNotRepeatHasNoLines() {
    for (Signal signal :
        List.of(
            Signals.constant(3),
            Signals.step(1, 0),
            Signals.pulse(1, 0, 1e-6, 1e-9, 1e-9),
            Signals.square(1, 1, 1e-6, 0.5))) {
      for (Reading reading : SpectrumReadings.all()) {
        assertFalse(reading.of(signal, 0, 1).isTaken(), reading + " of " + signal);
      }
    }
  }

  /** An ideal record of whole periods: what the truth is, to rounding, if nothing folds. */
  @Test
  void idealRecordIsTheTruth() {
    Signal tones =
        Signals.multiTone(
            new double[] {1, 0.03, 0.01},
            new double[] {10e6, 20e6, 30e6},
            new double[] {0.1, 0.2, 0.3});
    Record record = Setup.ideal(1e9, 10_000).capture(tones);
    Record off = Setup.ideal(1.0123e9, 10_000).capture(tones);
    for (Reading reading :
        List.of(
            SpectrumReadings.thd(STANDARD),
            SpectrumReadings.noiseAndDistortion(STANDARD),
            SpectrumReadings.sinad(STANDARD),
            SpectrumReadings.sfdr(STANDARD),
            SpectrumReadings.effectiveBits(STANDARD, 2),
            SpectrumReadings.fundamentalFrequency(STANDARD),
            SpectrumReadings.fundamentalAmplitude(STANDARD),
            SpectrumReadings.amplitudeAt(STANDARD.spectrum(), 20e6))) {
      double truth = truth(reading, tones);
      assertEquals(truth, reading.of(record).orThrow(), 1e-10 * truth, reading.name());
      assertEquals(truth, reading.of(off).orThrow(), 1e-5 * truth, reading.name());
    }
  }

  @Test
  void amplitudeWhereARecordCannotTell() {
    Record record = Setup.ideal(1e9, 1000).capture(Signals.sine(1, 50e6));
    SpectrumMethod method = SpectrumMethod.wholeRecord(Window.hann());
    assertTrue(reason(SpectrumReadings.amplitudeAt(method, 1e6).of(record)).contains("2 cycles"));
    assertTrue(
        reason(SpectrumReadings.amplitudeAt(method, 500e6).of(record)).contains("half the rate"));
    assertTrue(
        reason(SpectrumReadings.amplitudeAt(method, 1e15).of(record)).contains("half the rate"));
    assertEquals(0, SpectrumReadings.amplitudeAt(method, 2e6).of(record).orThrow(), 1e-13);
  }

  /** A prediction by stage: the sum of the stages is what is measured less the truth. */
  @Test
  void inAPrediction() {
    Signal signal = Signals.trapezoid(-0.5, 0.5, 98.7e-9, 0.5, 5e-9, 5e-9);
    Setup setup =
        Setup.ideal(1e9, 10_000)
            .source(50)
            .bandwidth(Bandwidth.gaussian(4, 200e6))
            .scale(0.15)
            .bits(8);
    for (Reading reading : SpectrumReadings.all()) {
      Prediction p = Prediction.of(reading, signal, setup);
      assertTrue(p.truth().isTaken(), () -> reading + ": " + p.truth());
      assertTrue(p.measured().isTaken(), () -> reading + ": " + p.measured());
    }
    Signal sine = Signals.sine(0.5, 10.01e6);
    Prediction p = Prediction.of(SpectrumReadings.noiseAndDistortion(STANDARD), sine, setup);
    assertEquals(0, p.truth().orThrow());
    double step = 0.15 * 8 / 256;
    assertEquals(step / Math.sqrt(12), p.measured().orThrow(), 0.1 * step / Math.sqrt(12));
  }

  @Test
  void neverGivesNanNorThrows() {
    List<Reading> readings = new ArrayList<>(SpectrumReadings.all());
    readings.add(SpectrumReadings.effectiveBits(STANDARD, 1));
    readings.add(SpectrumReadings.amplitudeAt(SpectrumMethod.wholeRecord(Window.hann()), 0.2));
    List<Record> odd = new ArrayList<>();
    for (double level : new double[] {0, -0.0, 1, -1e9, 1e9, Double.MIN_VALUE}) {
      for (int n : new int[] {1, 2, 7, 8, 9, 16, 100}) {
        double[] v = new double[n];
        java.util.Arrays.fill(v, level);
        odd.add(Record.of(0, 1, v));
        for (int i = 1; i < n; i += 2) {
          v[i] = -level;
        }
        odd.add(Record.of(0, 1, v));
      }
    }
    Signal sine = Signals.sine(1, 1e6);
    odd.add(Setup.ideal(1e8, 300).decimation(new PeakDetect(3)).capture(sine));
    odd.add(Setup.ideal(1e8, 100).scale(0.01).bits(8).capture(sine));
    odd.add(Setup.ideal(1e8, 400).scale(0.01).bits(1).capture(sine));
    odd.add(Setup.ideal(1e15, 400).capture(sine));
    odd.add(Setup.ideal(1e-9, 400).capture(sine));
    for (Reading reading : readings) {
      assertFalse(reading.name().isBlank());
      assertFalse(reading.toString().contains("@"));
      for (Record record : odd) {
        Measured measured = reading.of(record);
        assertFalse(measured.in(reading.unit()).contains("NaN"));
      }
    }
    assertTrue(
        reason(
                readings
                    .get(0)
                    .of(Setup.ideal(1e8, 300).decimation(new PeakDetect(3)).capture(sine)))
            .contains("envelope"));
    Cases.check(
        1,
        100,
        random -> {
          Signal signal =
              random.nextBoolean()
                  ? Signals.square(0, Math.pow(10, -300 + 309 * random.nextDouble()), 1, 0.5)
                  : Signals.sine(
                      Math.pow(10, -300 + 309 * random.nextDouble()),
                      Cases.logUniform(random, 1e-9, 1e15));
          for (Reading reading : readings) {
            assertFalse(reading.of(signal, 0, 1).in("").contains("NaN"));
          }
        });
  }

  @Test
  void tellsItsMethod() {
    HarmonicMethod harmonics = HarmonicMethod.standard().withHighestOrder(5);
    SpectrumMethod spectrum = SpectrumMethod.wholeRecord(Window.hann());
    assertEquals(
        java.util.Optional.of(harmonics),
        SpectrumReadings.harmonicMethodOf(SpectrumReadings.thd(harmonics)));
    assertEquals(
        java.util.Optional.of(harmonics.spectrum()),
        SpectrumReadings.spectrumMethodOf(SpectrumReadings.thd(harmonics)));
    assertEquals(
        java.util.Optional.of(spectrum),
        SpectrumReadings.spectrumMethodOf(SpectrumReadings.amplitudeAt(spectrum, 1)));
    assertEquals(
        java.util.Optional.empty(),
        SpectrumReadings.harmonicMethodOf(SpectrumReadings.amplitudeAt(spectrum, 1)));
    assertEquals(
        java.util.Optional.empty(),
        SpectrumReadings.spectrumMethodOf(org.asmeasured.measure.Readings.mean()));
  }
}
