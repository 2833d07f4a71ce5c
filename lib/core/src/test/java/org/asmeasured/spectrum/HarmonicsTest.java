package org.asmeasured.spectrum;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.asmeasured.capture.Record;
import org.asmeasured.capture.Setup;
import org.asmeasured.internal.Cases;
import org.asmeasured.internal.CounterRandom;
import org.asmeasured.measure.Measured;
import org.asmeasured.measure.Outcome;
import org.asmeasured.signal.Signal;
import org.asmeasured.signal.Signals;
import org.junit.jupiter.api.Test;

class HarmonicsTest {
  private static final HarmonicMethod STANDARD = HarmonicMethod.standard();

  private static double[] sum(int n, double level, double[]... amplitudeCyclesPhase) {
    double[] v = new double[n];
    for (double[] acp : amplitudeCyclesPhase) {
      double[] tone = SpectrumTest.tone(n, 0, acp[0], acp[1], acp[2]);
      for (int i = 0; i < n; i++) {
        v[i] += tone[i];
      }
    }
    for (int i = 0; i < n; i++) {
      v[i] += level;
    }
    return v;
  }

  private static double value(Measured measured) {
    return measured.orThrow();
  }

  private static String reason(Measured measured) {
    return ((Measured.NotTaken) measured).reason();
  }

  /** Whole cycles, every window: exact. */
  @Test
  void tonesOnLines() {
    for (Window window : WindowTest.all()) {
      for (int n : new int[] {4096, 4095}) {
        double[] v =
            sum(
                n,
                0.5,
                new double[] {1, 101, 0.3},
                new double[] {0.01, 202, 1},
                new double[] {0.02, 303, 2},
                new double[] {0.005, 777, 0});
        Harmonics h = STANDARD.withWindow(window).of(v, n).orThrow();
        assertEquals(101, h.fundamental().frequencyHz(), 1e-9);
        assertEquals(1, h.fundamental().peakVolts(), 1e-12);
        assertEquals(1 / Math.sqrt(2), h.fundamental().rmsVolts(), 1e-12);
        assertEquals(9, h.harmonics().size());
        assertEquals(0.01, h.harmonics().get(0).peakVolts(), 1e-12);
        assertEquals(0.02, h.harmonics().get(1).peakVolts(), 1e-12);
        assertEquals(0, h.harmonics().get(2).peakVolts(), 1e-12);
        assertEquals(Math.sqrt(0.0005), value(h.thd()), 1e-12, window.toString());
        assertEquals(3, h.spur().order());
        assertEquals(20 * Math.log10(50), value(h.sfdrDb()), 1e-10);
        // what is no harmonic is noise, spread over the lines that are free of tones
        double free = freeLines(n, window.halfLobeBins());
        double noise = 0.005 * 0.005 / 2 * (n / 2.0) / free;
        assertEquals(Math.sqrt(noise), value(h.noiseVolts()), 1e-12);
        assertEquals(Math.sqrt(noise + 0.0005 / 2), value(h.noiseAndDistortionVolts()), 1e-12);
        assertEquals(10 * Math.log10(0.5 / noise), value(h.snrDb()), 1e-9);
        double sinad = 10 * Math.log10(0.5 / (noise + 0.0005 / 2));
        assertEquals(sinad, value(h.sinadDb()), 1e-9);
        assertEquals(
            (sinad - 1.760912590556812) / 6.020599913279624, value(h.effectiveBits()), 1e-9);
        assertEquals(
            Math.log(8 / Math.sqrt(12 * (noise + 0.00025))) / Math.log(2),
            value(h.effectiveBits(8)),
            1e-9);
      }
    }
  }

  /** Lines from 1 to half the rate, the last counted half, less ten tones of 2 lobe - 1 each. */
  private static double freeLines(int n, int lobe) {
    return (n % 2 == 0 ? n / 2 - 0.5 : (n - 1) / 2) - (lobe - 1) - 10 * (2 * lobe - 1);
  }

  /** Between the lines: what the side lobes of the other tones leave. */
  @Test
  void tonesOffLines() {
    int n = 8192;
    for (double off : new double[] {0.13, 0.37, 0.5, 0.81}) {
      double[] v =
          sum(
              n,
              0.2,
              new double[] {1, 200 + off, 0.3},
              new double[] {0.01, 2 * (200 + off), 1},
              new double[] {0.02, 3 * (200 + off), 2});
      Harmonics h = STANDARD.of(v, n).orThrow();
      assertEquals(200 + off, h.fundamental().frequencyHz(), 1e-6);
      assertEquals(1, h.fundamental().peakVolts(), 1e-6);
      assertEquals(Math.sqrt(0.0005), value(h.thd()), 2e-6);
      // tones leak 87 dB below themselves, and how much is known to 1e-3 of it
      assertTrue(
          h.snrDb() instanceof Measured.NotTaken || value(h.snrDb()) > 117,
          () -> "off " + off + ": " + h.snrDb());
    }
  }

  /** Harmonics above half the rate are looked for where they fold to. */
  @Test
  void harmonicsFold() {
    int n = 4096;
    double[][] tones = new double[10][];
    for (int k = 1; k <= 10; k++) {
      tones[k - 1] = new double[] {1.0 / k / k, 701.0 * k, 0.1 * k};
    }
    Harmonics h = STANDARD.of(sum(n, 0, tones), 1e9).orThrow();
    double squares = 0;
    for (int k = 2; k <= 10; k++) {
      Tone tone = h.harmonics().get(k - 2);
      assertEquals(1.0 / k / k, tone.peakVolts(), 1e-12);
      double cycles = 701 * k % 4096;
      double alias = Math.min(cycles, 4096 - cycles);
      assertEquals(alias / 4096 * 1e9, tone.foldedHz(), 1e-3);
      assertEquals(701.0 * k / 4096 * 1e9, tone.frequencyHz(), 1e-2);
      squares += 1.0 / k / k / k / k;
    }
    assertEquals(Math.sqrt(squares), value(h.thd()), 1e-12);
  }

  /** A fundamental that folds, given: 1.7 GHz at 1 GS/s, its harmonics with it. */
  @Test
  void fundamentalAboveHalfTheRate() {
    int n = 4096;
    double[] v = sum(n, 0, new double[] {1, 6963, 0.3}, new double[] {0.03, 2 * 6963, 1});
    double given = 6963.0 / 4096 * 1e9;
    Harmonics h = STANDARD.withHighestOrder(4).withFundamentalHz(given).of(v, 1e9).orThrow();
    assertEquals(given, h.fundamental().frequencyHz());
    assertEquals(1229.0 / 4096 * 1e9, h.fundamental().foldedHz(), 1e-3);
    assertEquals(0.03, value(h.thd()), 1e-12);
    Outcome<Harmonics> none = STANDARD.withFundamentalHz(0.3e9).of(new double[n], 1e9);
    assertTrue(none instanceof Outcome.NotTaken<Harmonics> x && x.reason().contains("nothing"));
  }

  @Test
  void whatFoldsOntoSomethingElseSaysSo() {
    int n = 4096;
    // a tenth of the rate: 9 f0 folds onto f0, 10 f0 onto 0
    double[] tenth = sum(n, 0.1, new double[] {1, 409.6, 0.3});
    Harmonics h = STANDARD.of(tenth, n).orThrow();
    assertEquals("the fundamental", h.harmonics().get(7).over());
    assertTrue(h.harmonics().get(8).over().startsWith("the mean"));
    assertTrue(h.harmonics().get(3).over().contains("half the rate"));
    assertEquals("harmonic 8", h.harmonics().get(0).over());
    assertTrue(reason(h.thd()).contains("harmonic 2"));
    // an eighth below: 3 f0 and 5 f0 share a line
    double[] eighth = sum(n, 0, new double[] {1, 512, 0.3}, new double[] {0.1, 1536, 0});
    Harmonics e = STANDARD.withHighestOrder(5).of(eighth, n).orThrow();
    assertEquals("harmonic 5", e.harmonics().get(1).over());
    assertEquals("harmonic 3", e.harmonics().get(3).over());
    assertTrue(reason(e.thd()).contains("harmonic 5"));
    // the power of a shared line counts once
    assertEquals(0.1 / Math.sqrt(2), value(e.noiseAndDistortionVolts()), 1e-9);
    assertEquals(0.0, value(STANDARD.withHighestOrder(2).of(eighth, n).orThrow().thd()), 1e-12);
    assertFalse(h.harmonics().get(8).standsAlone());
    assertTrue(e.harmonics().get(0).standsAlone());
  }

  @Test
  void whatIsTooSlowOrTooFastOrConstantSaysWhy() {
    int n = 256;
    for (double[] v :
        List.of(
            new double[n],
            sum(n, 0.1),
            sum(n, 1e9),
            sum(n, 0, new double[] {1, 2, 0.3}),
            sum(n, 0, new double[] {1, 127.5, 0.3}),
            sum(n, 0, new double[] {1, 128, 0}),
            sum(n, 0, new double[] {1e-200, 40, 0}),
            new double[8],
            new double[9])) {
      Outcome<Harmonics> h = STANDARD.of(v, n);
      assertFalse(h.isTaken(), () -> h.toString());
    }
  }

  @Test
  void tooFewLinesForNoise() {
    double[] v = sum(128, 0, new double[] {1, 5, 0.3}, new double[] {0.1, 10, 0});
    Harmonics h = STANDARD.of(v, 128).orThrow();
    assertTrue(reason(h.noiseFloor()).contains("too few"));
    assertFalse(h.sinadDb().isTaken());
    assertFalse(h.snrDb().isTaken());
    assertFalse(h.effectiveBits().isTaken());
    assertFalse(h.effectiveBits(1).isTaken());
    assertTrue(h.sfdrDb().isTaken());
  }

  /**
   * White noise on a sine: density, SNR. 4096 lines of a Blackman-Harris window hold 4096/2.0
   * independent ones: the mean scatters by 1/sqrt(2044) = 2.2 %, its root by 1.1 %; 7 % is six of
   * them, a chance of 2e-9.
   */
  @Test
  void whiteNoise() {
    int n = 8192;
    double rate = 1e6;
    for (int seed = 1; seed <= 5; seed++) {
      double[] v = new double[n];
      CounterRandom.gaussians(20250412 + seed, 0, v, 0, n);
      double[] sine = SpectrumTest.tone(n, 0, 1, 1234.5, 0.3);
      for (int i = 0; i < n; i++) {
        v[i] = 0.01 * v[i] + sine[i];
      }
      Harmonics h = STANDARD.of(v, rate).orThrow();
      double floor = 0.01 * Math.sqrt(2 / rate);
      assertEquals(floor, value(h.noiseFloor()), 0.07 * floor);
      assertEquals(0.01, value(h.noiseVolts()), 0.0007);
      assertEquals(10 * Math.log10(0.5 / 1e-4), value(h.snrDb()), 0.6);
    }
  }

  /** Averaging leaves the floor where it is, and its scatter smaller. */
  @Test
  void whiteNoiseOverSegments() {
    int n = 1 << 16;
    double[] v = new double[n];
    CounterRandom.gaussians(20250418, 0, v, 0, n);
    double[] sine = SpectrumTest.tone(n, 0, 1, 12345.67, 0.3);
    for (int i = 0; i < n; i++) {
      v[i] = 0.01 * v[i] + sine[i];
    }
    HarmonicMethod method = STANDARD.withSpectrum(STANDARD.spectrum().withSegments(2048, 0.66));
    Harmonics h = method.of(v, 1e6).orThrow();
    // 65536 points: 0.4 % of the power (1/sqrt(65536)); with what overlap leaves out 0.6 %
    assertEquals(0.01, value(h.noiseVolts()), 6 * 0.003 * 0.01);
    assertEquals(12345.67 / n * 1e6, h.fundamental().frequencyHz(), 2);
  }

  /**
   * What an ideal converter leaves of a sine on the middle of a tread, by the Fourier series of its
   * error (W. R. Bennett, 1948; B. Widrow and I. Kollar, Quantization Noise, 2008): the mean square
   * q^2/12 + q^2/pi^2 sum of (-1)^k J0(2 pi k A/q)/k^2, less what is in step with the sine, of
   * amplitude sum of 2 (-1)^k q/(pi k) J1(2 pi k A/q).
   */
  private static double bitsOfSine(double amplitude, double step, double fullScale) {
    double square = step * step / 12;
    double inStep = 0;
    for (int k = 4000; k >= 1; k--) {
      double z = 2 * Math.PI * k * amplitude / step;
      double sign = k % 2 == 0 ? 1 : -1;
      square += sign * step * step / (Math.PI * Math.PI) * bessel(0, z) / k / k;
      inStep += sign * 2 * step / (Math.PI * k) * bessel(1, z);
    }
    return Math.log(fullScale / Math.sqrt(12 * (square - inStep * inStep / 2))) / Math.log(2);
  }

  /** Hankel's expansion to 1/z: its error is below z^-2.5, here 1e-4 at most. */
  private static double bessel(int order, double z) {
    double p = z - (order + 0.5) * Math.PI / 2;
    double q = (4.0 * order * order - 1) / 8 / z;
    return Math.sqrt(2 / (Math.PI * z)) * (Math.cos(p) - q * Math.sin(p));
  }

  /** 4 to 16 bits, on and off lines, within 0.02 bits of theory. */
  @Test
  void quantisationOfBits() {
    int n = 1 << 16;
    for (int bits = 4; bits <= 16; bits++) {
      for (double cycles : new double[] {6551, 6551.37}) {
        double step = Math.scalb(2.0, -bits);
        double amplitude = 1 - 0.8 * step;
        Signal sine = Signals.sine(amplitude, cycles / n * 1e9, 0.7);
        Record record = Setup.ideal(1e9, n).scale(0.25).bits(bits).capture(sine);
        for (Window window : List.of(Window.blackmanHarris(), wide())) {
          Harmonics h = STANDARD.withWindow(window).of(record).orThrow();
          double effective = value(h.effectiveBits(2));
          String words = bits + " bits, " + cycles + " cycles, " + window;
          assertEquals(bitsOfSine(amplitude, step, 2), effective, 0.02, words);
          // the amplitude read is not quite that of the sine: what is in step with it
          double fills = Math.log(amplitude) / Math.log(2);
          assertEquals(effective + fills, value(h.effectiveBits()), 0.3 * step, words);
        }
      }
    }
  }

  /**
   * Side lobes 180 dB down, for what lies beside 16 bits (H.-H. Albrecht, ICASSP 2001, seven terms;
   * coefficients from memory, the side lobes asserted).
   */
  private static Window wide() {
    Window wide =
        Window.cosineSum(
            "seven terms",
            0.27105140069342,
            0.43329793923448,
            0.21812299954311,
            0.06592544638803,
            0.01081174209837,
            0.00077658482522,
            0.00001388721735);
    assertTrue(wide.highestSidelobeDb() < -175, () -> "" + wide.highestSidelobeDb());
    return wide;
  }

  /** A value or a reason, whatever comes. */
  @Test
  void total() {
    Cases.check(
        1,
        2000,
        random -> {
          int n = 1 + random.nextInt(200);
          double scale = Math.pow(10, -320 + 329 * random.nextDouble());
          double[] v = random.doubles(n, -1, 1).map(x -> x * scale).toArray();
          int kind = random.nextInt(6);
          for (int i = 0; i < n; i++) {
            v[i] =
                switch (kind) {
                  case 0 -> scale;
                  case 1 -> i == n / 2 ? scale : 0;
                  case 2 -> (i % 2) * scale;
                  case 3 -> i * scale / n;
                  case 4 -> Math.signum(v[i]) * scale;
                  default -> v[i];
                };
          }
          Window window = WindowTest.all().get(random.nextInt(7));
          SpectrumMethod spectrum = SpectrumMethod.wholeRecord(window).withMeanRemoved();
          if (random.nextBoolean()) {
            spectrum = spectrum.withSegments(window.leastPoints() + random.nextInt(60), 0.5);
          }
          HarmonicMethod method =
              new HarmonicMethod(
                  spectrum,
                  2 + random.nextInt(30),
                  random.nextBoolean() ? 0 : Cases.logUniform(random, 1e-9, 1e15));
          double rate = Cases.logUniform(random, 1e-9, 1e15);
          if (method.of(v, rate) instanceof Outcome.Taken<Harmonics> taken) {
            Harmonics h = taken.result();
            for (Measured m :
                List.of(
                    h.thd(),
                    h.noiseVolts(),
                    h.noiseAndDistortionVolts(),
                    h.noiseFloor(),
                    h.sinadDb(),
                    h.snrDb(),
                    h.sfdrDb(),
                    h.effectiveBits(),
                    h.effectiveBits(1))) {
              assertTrue(m.in("x").length() > 2);
            }
            assertFalse(h.toString().contains("NaN"));
          }
        });
  }
}
