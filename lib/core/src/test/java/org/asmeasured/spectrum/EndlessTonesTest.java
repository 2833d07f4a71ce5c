package org.asmeasured.spectrum;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.apache.commons.math3.analysis.integration.gauss.GaussIntegrator;
import org.apache.commons.math3.analysis.integration.gauss.GaussIntegratorFactory;
import org.asmeasured.capture.Setup;
import org.asmeasured.frontend.Bandwidth;
import org.asmeasured.frontend.VerticalScale;
import org.asmeasured.internal.Cases;
import org.asmeasured.measure.Measured;
import org.asmeasured.measure.Reading;
import org.asmeasured.measure.Readings;
import org.asmeasured.signal.Signal;
import org.asmeasured.signal.Signals;
import org.asmeasured.signal.Waveform;
import org.junit.jupiter.api.Test;

/** The truth of sines that do not repeat together is taken from their closed forms. */
class EndlessTonesTest {
  private static final double SPAN = 3.7e-3;

  /** A sine, two of its harmonics, and one at an irrational place. */
  private static Signal sines() {
    return Signals.sine(1, 1e4)
        .plus(Signals.sine(0.03, 2e4, 1))
        .plus(Signals.sine(0.04, 5e4, 2))
        .plus(Signals.sine(0.01, 1e4 * Math.PI))
        .plus(0.25);
  }

  private static double read(Reading reading, Waveform waveform) {
    return reading.of(waveform, 1e-4, 1e-4 + SPAN).orThrow();
  }

  @Test
  void linesAreTheSinesThemselves() {
    assertFalse(sines().periodSeconds().isPresent());
    HarmonicMethod method = HarmonicMethod.standard();
    assertEquals(0.05, read(SpectrumReadings.thd(method), sines()), 1e-15);
    assertEquals(1, read(SpectrumReadings.fundamentalAmplitude(method), sines()), 1e-15);
    assertEquals(1e4, read(SpectrumReadings.fundamentalFrequency(method), sines()), 1e-11);
    double rest = 0.03 * 0.03 + 0.04 * 0.04 + 0.01 * 0.01;
    assertEquals(-10 * Math.log10(rest), read(SpectrumReadings.sinad(method), sines()), 1e-12);
    assertEquals(-20 * Math.log10(0.01), read(SpectrumReadings.snr(method), sines()), 1e-12);
    assertEquals(-20 * Math.log10(0.04), read(SpectrumReadings.sfdr(method), sines()), 1e-12);
    SpectrumMethod whole = SpectrumMethod.wholeRecord(Window.hann());
    assertEquals(0.04, read(SpectrumReadings.amplitudeAt(whole, 5e4), sines()), 1e-15);
    assertEquals(0.01, read(SpectrumReadings.amplitudeAt(whole, 1e4 * Math.PI), sines()), 1e-15);
    assertEquals(0, read(SpectrumReadings.amplitudeAt(whole, 3e4), sines()), 0);
    HarmonicMethod given = method.withFundamentalHz(1e4 * Math.PI);
    assertEquals(0.01, read(SpectrumReadings.fundamentalAmplitude(given), sines()), 1e-15);
    Measured nothing = SpectrumReadings.thd(method.withFundamentalHz(7e4)).of(sines(), 0, SPAN);
    assertTrue(nothing.toString().contains("nothing at 70 kHz"), nothing.toString());
  }

  /** Where sines repeat after all, both ways give the same. */
  @Test
  void theSameAsOfAWaveformThatRepeats() {
    Signal repeating =
        Signals.sine(1, 1e4)
            .plus(Signals.sine(0.03, 2e4, 1))
            .plus(Signals.sine(0.02, 3.5e4))
            .plus(2);
    assertTrue(repeating.periodSeconds().isPresent());
    Harmonics one = HarmonicMethod.standard().of(repeating, 0, SPAN).orThrow();
    Harmonics other =
        ToneLines.of(repeating.asTones().orElseThrow())
            .then(lines -> lines.harmonics(HarmonicMethod.standard()))
            .orThrow();
    assertEquals(one.thd().orThrow(), other.thd().orThrow(), 1e-13);
    assertEquals(one.sinadDb().orThrow(), other.sinadDb().orThrow(), 1e-10);
    assertEquals(one.snrDb().orThrow(), other.snrDb().orThrow(), 1e-9);
    assertEquals(one.sfdrDb().orThrow(), other.sfdrDb().orThrow(), 1e-10);
    assertEquals(one.spur().order(), other.spur().order());
  }

  /** Behind a response and an error of gain and offset each sine has its own gain. */
  @Test
  void behindAFrontEndToo() {
    Setup setup =
        Setup.ideal(1e6, 1000)
            .bandwidth(Bandwidth.singlePole(2e4))
            .vertical(VerticalScale.of(1).withGainError(0.02));
    Waveform output = setup.analogOutput(sines());
    SpectrumMethod whole = SpectrumMethod.wholeRecord(Window.hann());
    for (double[] tone : new double[][] {{1e4, 1}, {5e4, 0.04}, {1e4 * Math.PI, 0.01}}) {
      double gain = 1.02 / Math.hypot(1, tone[0] / 2e4);
      assertEquals(
          gain * tone[1], read(SpectrumReadings.amplitudeAt(whole, tone[0]), output), 1e-13);
    }
    assertEquals(0.25 * 1.02, output.asTones().orElseThrow().level(), 1e-14);
    assertTrue(setup.analogOutput(Signals.square(0, 1, 1e-4, 0.5)).asTones().isEmpty());
  }

  /** Mean and RMS against Gauss-Legendre piece by piece, of nearly equal frequencies too. */
  @Test
  void sumsAreClosedForms() {
    GaussIntegrator unit = new GaussIntegratorFactory().legendre(20, 0, 1);
    Cases.check(
        1,
        60,
        random -> {
          double f = 1e3 * (1 + random.nextDouble());
          double g = random.nextBoolean() ? f * Math.sqrt(2) : f * (1 + 1e-5 * Math.sqrt(2));
          Signal signal =
              Signals.sine(1, f, 6 * random.nextDouble())
                  .plus(Signals.sine(0.7, g, 6 * random.nextDouble()))
                  .plus(random.nextDouble());
          Waveform output = Bandwidth.butterworth(2, 2e3).response().of(signal);
          double from = random.nextDouble();
          double to = from + 0.02 * (0.1 + random.nextDouble());
          int pieces = 400;
          double sum = 0;
          double squares = 0;
          for (int i = 0; i < pieces; i++) {
            double a = from + (to - from) * i / pieces;
            double d = (to - from) / pieces;
            sum += d * unit.integrate(x -> output.valueAt(a + x * d));
            squares += d * unit.integrate(x -> Math.pow(output.valueAt(a + x * d), 2));
          }
          assertEquals(sum / (to - from), Readings.mean().of(output, from, to).orThrow(), 1e-11);
          assertEquals(
              Math.sqrt(squares / (to - from)),
              Readings.rms().of(output, from, to).orThrow(),
              1e-11);
        });
  }

  /** A span of more cycles than pieces are looked at: sums still follow, and so do lines. */
  @Test
  void sumsOfAnySpan() {
    Waveform output = Bandwidth.singlePole(1e9).response().of(sines());
    double rms = Readings.rms().of(output, 0, 1e6).orThrow();
    double expected = 0.25 * 0.25 + (1 + 0.03 * 0.03 + 0.04 * 0.04 + 0.01 * 0.01) / 2;
    assertEquals(Math.sqrt(expected), rms, 1e-8);
    assertEquals(0.25, Readings.mean().of(output, 0, 1e6).orThrow(), 1e-9);
    assertFalse(Readings.maximum().of(output, 0, 1e6).isTaken());
  }
}
