package org.asmeasured.validation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.math.BigDecimal;
import java.util.Arrays;
import java.util.List;
import org.asmeasured.capture.Record;
import org.asmeasured.capture.Setup;
import org.asmeasured.digitizer.Core;
import org.asmeasured.digitizer.InterleavedSampler;
import org.asmeasured.frontend.VerticalScale;
import org.asmeasured.internal.CounterRandom;
import org.asmeasured.linear.Response;
import org.asmeasured.measure.Reading;
import org.asmeasured.signal.Segments;
import org.asmeasured.signal.Signal;
import org.asmeasured.signal.Signals;
import org.asmeasured.spectrum.HarmonicMethod;
import org.asmeasured.spectrum.Harmonics;
import org.asmeasured.spectrum.Scale;
import org.asmeasured.spectrum.Sides;
import org.asmeasured.spectrum.Spectrum;
import org.asmeasured.spectrum.SpectrumMethod;
import org.asmeasured.spectrum.SpectrumReadings;
import org.asmeasured.spectrum.Window;
import org.junit.jupiter.api.Test;

/** Windows, lines and harmonics against handbook tables and closed forms; sources stand beside. */
class ReferenceSpectrumTest {
  private static final HarmonicMethod STANDARD = HarmonicMethod.standard();

  /**
   * F. J. Harris, Proc. IEEE 66 (1978) 51, Table I (from memory, to the digits printed there), and
   * the same figures to 15 digits. A side lobe in dB has 1e-12 of the main lobe as rounding.
   */
  @Test
  void windows() {
    int printed = 0;
    for (Reference.Row row : Reference.rows("windows")) {
      Window window = SpectrumVectorsTest.window(row);
      row.check("coherentGain", window.coherentGain(), 1e-15);
      row.check("noiseBandwidthBins", window.noiseBandwidthBins(), 1e-15);
      row.check("scallopLossDb", window.scallopLossDb(), 1e-14);
      row.check("highestSidelobeDb", window.highestSidelobeDb(), 1e-9);
      printed += asPrinted(row.text("harrisBandwidth"), window.noiseBandwidthBins());
      printed += asPrinted(row.text("harrisScallop"), window.scallopLossDb());
      printed += asPrinted(row.text("harrisSidelobe"), window.highestSidelobeDb());
    }
    assertEquals(14, printed);
  }

  /** Within one unit of the last digit printed: 1.42 is printed for 1.4236, -32 for -31.47. */
  private static int asPrinted(String cell, double value) {
    if (cell.isEmpty()) {
      return 0;
    }
    BigDecimal print = new BigDecimal(cell);
    assertEquals(print.doubleValue(), value, print.ulp().doubleValue(), cell);
    return 1;
  }

  /** ISO 18431-2, flat top (from memory): a tone between two lines reads within 0.01 dB. */
  @Test
  void flatTopIsFlat() {
    double worst = 0;
    for (double off = -0.5; off <= 0.5; off += 1 / 64.0) {
      worst = Math.max(worst, Math.abs(20 * Math.log10(Window.flatTop().response(off))));
    }
    assertTrue(worst < 0.01, () -> "flat within 0.01 dB");
    assertEquals(3.77, Window.flatTop().noiseBandwidthBins(), 0.005);
  }

  private static double truth(Reading reading, Signal signal) {
    return reading.of(signal, 0, 1).orThrow();
  }

  private static double line(Signal signal, double hz) {
    return truth(
        SpectrumReadings.amplitudeAt(SpectrumMethod.wholeRecord(Window.hann()), hz), signal);
  }

  /**
   * Fourier series of handbooks (for one: I. N. Bronshtein, K. A. Semendyayev, Handbook of
   * Mathematics, table of Fourier expansions; from memory), amplitude 1 and period 1 ms: square
   * 4/(pi n) and triangle 8/(pi n)^2 for odd n, sawtooth 2/(pi n), rectified sine 4/(pi (4 n^2 -
   * 1)) at 2 n times the sine, half of it 1/2 and 2/(pi (4 n^2 - 1)), pulses 2 sin(pi n d)/(pi n).
   */
  @Test
  void fourierSeries() {
    double t = 1e-3;
    Signal square = Signals.square(-1, 1, t, 0.5);
    Signal triangle = Signals.triangle(-1, 1, t, 0.5);
    Signal sawtooth = new Segments().add(0, -1, 2 / t).repeated(0, t, 0, "sawtooth");
    Signal full = new Segments().add(0, 0, 0).term(0, 1, 0, 500).repeated(0, t, 0, "rectified");
    Signal half =
        new Segments()
            .add(0, 0, 0)
            .term(0, 1, 0, 1000)
            .add(t / 2, 0, 0)
            .repeated(0, t, 0, "half rectified");
    Signal pulses = Signals.square(0, 1, t, 0.1);
    for (int n = 1; n <= 20; n++) {
      double hz = 1000.0 * n;
      boolean odd = n % 2 == 1;
      assertEquals(odd ? 4 / Math.PI / n : 0, line(square, hz), 1e-13);
      assertEquals(odd ? 8 / Math.PI / Math.PI / n / n : 0, line(triangle, hz), 1e-13);
      assertEquals(2 / Math.PI / n, line(sawtooth, hz), 1e-13);
      assertEquals(4 / Math.PI / (4.0 * n * n - 1), line(full, hz), 1e-13);
      double expected = n == 1 ? 0.5 : odd ? 0 : 2 / Math.PI / (1.0 * n * n - 1);
      assertEquals(expected, line(half, hz), 1e-13);
      assertEquals(
          Math.abs(2 / Math.PI / n * Math.sin(0.1 * Math.PI * n)), line(pulses, hz), 1e-13);
    }
  }

  /**
   * Distortion of all harmonics: square sqrt(pi^2/8 - 1) = 48.34 %, triangle sqrt(pi^4/96 - 1) =
   * 12.12 %, sawtooth sqrt(pi^2/6 - 1) = 80.31 % (Parseval; common in the trade). Harmonics above
   * the highest order count as noise: together they are the whole.
   */
  @Test
  void distortionOfSimpleWaves() {
    Signal sawtooth = new Segments().add(0, -1, 2).repeated(0, 1, 0, "sawtooth");
    whole(Signals.square(-1, 1, 1, 0.5), Math.sqrt(Math.PI * Math.PI / 8 - 1), 0.4834);
    whole(Signals.triangle(-1, 1, 1, 0.5), Math.sqrt(Math.pow(Math.PI, 4) / 96 - 1), 0.1212);
    whole(sawtooth, Math.sqrt(Math.PI * Math.PI / 6 - 1), 0.8031);
  }

  private static void whole(Signal signal, double expected, double printed) {
    double nad = truth(SpectrumReadings.noiseAndDistortion(STANDARD), signal);
    double first = truth(SpectrumReadings.fundamentalAmplitude(STANDARD), signal) / Math.sqrt(2);
    assertEquals(expected, nad / first, 1e-12);
    assertEquals(printed, nad / first, 5e-5);
    double sinad = truth(SpectrumReadings.sinad(STANDARD), signal);
    assertEquals(-20 * Math.log10(expected), sinad, 1e-10);
  }

  /**
   * A clipped sine, elementary: fundamental and THD of all orders. A 24-bit record of 2^20 points
   * that clips; harmonics above half the rate fold within the lines that count as noise. Tolerance:
   * that of the steps and the grid of the clipping instants, 3e-7.
   */
  @Test
  void clippedSine() {
    int n = 1 << 20;
    for (Reference.Row row : Reference.rows("clipped-sine")) {
      Signal sine = Signals.sine(row.number("overdrive"), 1e6 / 1.048576);
      double rate = 1e6 / 1.048576 * n / 1001;
      Record record = Setup.ideal(rate, n).vertical(VerticalScale.of(0.25)).bits(24).capture(sine);
      Harmonics h =
          STANDARD.withWindow(Window.rectangular()).withHighestOrder(99).of(record).orThrow();
      row.check("fundamental", h.fundamental().peakVolts(), 3e-7);
      double thd = h.noiseAndDistortionVolts().orThrow() / h.fundamental().rmsVolts();
      row.check("thdPercent", 100 * thd, 3e-5);
    }
  }

  /**
   * Ideal converters of 4 to 16 bits, a sine over the range, centred on a transition (Bennett 1948;
   * Widrow and Kollar 2008): effective bits within 0.02 bit of the exact figure, from spectra on
   * and off the lines.
   */
  @Test
  void effectiveBits() {
    int n = 1 << 16;
    for (Reference.Row row : Reference.rows("quantiser-sine")) {
      int bits = row.whole("bits");
      double step = Math.scalb(2.0, -bits);
      for (double cycles : new double[] {7919, 7919.618}) {
        Signal sine = Signals.sine(1 - 1e-9 * step, cycles / n * 1e9, 0.1).plus(-step / 2);
        Record record = Setup.ideal(1e9, n).scale(0.25).bits(bits).capture(sine);
        Harmonics h = STANDARD.of(record).orThrow();
        double effective = h.effectiveBits(2).orThrow();
        Worst.note(
            "quantiser-sine.bitsFromFit (spectrum)",
            Math.abs(row.number("bitsFromFit") - effective),
            0.02);
        assertEquals(row.number("bitsFromFit"), effective, 0.02, bits + " bits");
      }
    }
  }

  /**
   * Two interleaved cores (Jenq, IEEE Trans. IM 37 (1988) 245, from memory): the image of the tone
   * at half the rate less its frequency, and the offset at half the rate.
   */
  @Test
  void spursOfInterleaving() {
    int n = 4096;
    double f = 100e6;
    double rate = f * n / 409;
    for (Reference.Row row : Reference.rows("interleaving-two")) {
      double o = row.number("offsetVolts") / 2;
      double e = row.number("gain") / 2;
      double d = row.number("skewSeconds") / 2;
      Setup setup =
          Setup.ideal(rate, n)
              .vertical(VerticalScale.of(1.0 / 8))
              .sampler(
                  InterleavedSampler.ideal()
                      .withCores(
                          new Core(e, o, d, Response.identity()),
                          new Core(-e, -o, -d, Response.identity())));
      Record record = setup.capture(Signals.sine(1, f));
      Spectrum s = SpectrumMethod.wholeRecord(Window.blackman()).of(record).orThrow();
      if (o != 0) {
        row.check("amplitude", s.at(n / 2, Scale.PEAK), 1e-13);
      } else {
        Reading image =
            SpectrumReadings.amplitudeAt(
                SpectrumMethod.wholeRecord(Window.blackman()), rate / 2 - f);
        row.check("amplitude", image.of(record).orThrow(), 1e-13);
        Harmonics h = STANDARD.withHighestOrder(3).of(record).orThrow();
        assertEquals(rate / 2 - f, h.spur().frequencyHz(), 1e-3);
      }
    }
  }

  /** Aliases: f less the nearest multiple of the rate (Shannon 1949). 1 GHz, elementary. */
  @Test
  void aliases() {
    double[][] table = {{600e6, 400e6}, {1.25e9, 250e6}, {1.75e9, 250e6}, {2.3e9, 300e6}};
    for (double[] row : table) {
      Record record = Setup.ideal(1e9, 1000).capture(Signals.sine(1, row[0], 0.4));
      Harmonics found = STANDARD.of(record).orThrow();
      assertEquals(row[1], found.fundamental().foldedHz(), 1);
      assertEquals(1, found.fundamental().peakVolts(), 1e-10);
      Harmonics given = STANDARD.withFundamentalHz(row[0]).of(record).orThrow();
      assertEquals(row[1], given.fundamental().foldedHz(), 1e-3);
      assertEquals(row[0], given.fundamental().frequencyHz());
    }
  }

  /**
   * P. D. Welch, IEEE Trans. Audio Electroacoust. 15 (1967) 70: the variance of a line of white
   * noise over K segments, relative to its square, is (1 + 2 (1 - 1/K) c)/K, c = (sum of w(n) w(n +
   * N/2))^2 /(sum of w^2)^2 at half overlap: 1/36 for Hann, 1/4 without a window; segments further
   * apart share nothing. 400 lines 5 apart in 60 records make 24 000 values; the relative deviation
   * of their variance is about sqrt(2/24000) x 1.2 = 1.1 %: 7 % is six of them.
   */
  @Test
  void varianceOfWelch() {
    int segment = 4096;
    int k = 7;
    int n = segment / 2 * (k + 1);
    for (Window window : List.of(Window.hann(), Window.rectangular())) {
      double sum = 0;
      double squares = 0;
      int count = 0;
      double[] v = new double[n];
      SpectrumMethod method = SpectrumMethod.wholeRecord(window).withSegments(segment, 0.5);
      for (int trial = 0; trial < 60; trial++) {
        CounterRandom.gaussians(20250420, (long) trial * n, v, 0, n);
        double[] lines = method.of(v, 1).orThrow().values(Scale.DENSITY, Sides.ONE);
        for (int i = 10; i < 2010; i += 5) {
          sum += lines[i];
          squares += lines[i] * lines[i];
          count++;
        }
      }
      double mean = sum / count;
      double c = window.equals(Window.hann()) ? 1 / 36.0 : 0.25;
      double expected = (1 + 2 * (1 - 1.0 / k) * c) / k;
      assertEquals(2, mean, 2 * 6 * Math.sqrt(expected / count));
      assertEquals(expected, squares / count / mean / mean - 1, 0.07 * expected, window.toString());
    }
  }

  /** The recorded heartbeat wanders more slowly than ten seconds can show, and is told so. */
  @Test
  void heartbeat() {
    double[] v = SpectrumVectorsTest.heart();
    SpectrumMethod method = SpectrumMethod.wholeRecord(Window.hann()).withMeanRemoved();
    Spectrum s = method.of(v, 360).orThrow();
    double mean = Arrays.stream(v).average().orElseThrow();
    double square = Arrays.stream(v).map(x -> (x - mean) * (x - mean)).average().orElseThrow();
    // a window weighs the middle more: the mean square it sees is near that of the whole
    assertEquals(square, s.meanSquare(), 0.1 * square);
    String said = STANDARD.withSpectrum(method).of(v, 360).toString();
    assertTrue(said.contains("fewer than 2 cycles"), said);
  }
}
