package org.asmeasured.spectrum;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.sun.management.ThreadMXBean;
import java.lang.management.ManagementFactory;
import java.util.Arrays;
import java.util.SplittableRandom;
import org.asmeasured.capture.Record;
import org.asmeasured.internal.Cases;
import org.asmeasured.internal.CounterRandom;
import org.asmeasured.measure.Outcome;
import org.junit.jupiter.api.Test;
import org.visnow.jlargearrays.ConcurrencyUtils;

class SpectrumTest {
  private static final double RATE = 1e6;

  static double[] tone(int n, double level, double amplitude, double cycles, double phase) {
    double[] v = new double[n];
    // whole cycles by whole numbers, so that the last point is as exact as the first
    long whole = (long) Math.rint(cycles);
    for (int i = 0; i < n; i++) {
      double turns = (double) (whole * i % n) / n + (cycles - whole) * i / n;
      v[i] = level + amplitude * Math.cos(2 * Math.PI * turns + phase);
    }
    return v;
  }

  /** A tone of whole cycles on a level, in every window, of even and odd length: all scales. */
  @Test
  void toneOnALineReadsItsAmplitude() {
    for (Window window : WindowTest.all()) {
      for (int n : new int[] {64, 63, 1000, 1001, 1 << 14}) {
        int line = n / 5;
        double[] v = tone(n, -0.3, 1.25, line, 0.7);
        Spectrum s = SpectrumMethod.wholeRecord(window).of(v, RATE).orThrow();
        assertEquals(n / 2 + 1, s.bins());
        assertEquals(1, s.segments());
        assertEquals(1.25, s.at(line, Scale.PEAK), 1e-13);
        assertEquals(1.25 / Math.sqrt(2), s.at(line, Scale.RMS), 1e-13);
        assertEquals(1.25 * 1.25 / 2, s.at(line, Scale.MEAN_SQUARE), 1e-13);
        double width = window.noiseBandwidthBins() * RATE / n;
        assertEquals(1.25 * 1.25 / 2 / width, s.at(line, Scale.DENSITY), 1e-13 / width);
        assertEquals(0.3, s.at(0, Scale.PEAK), 1e-13);
        assertEquals(0.3, s.at(0, Scale.RMS), 1e-13);
        assertEquals(0.7, s.phaseRadians(line).orElseThrow(), 1e-12);
        assertEquals(Math.PI, s.phaseRadians(0).orElseThrow(), 1e-12);
        assertEquals((double) line * RATE / n, s.frequencyHz(line));
        for (int k = 0; k < s.bins(); k++) {
          if (k >= window.halfLobeBins() && Math.abs(k - line) >= window.halfLobeBins()) {
            assertEquals(0, s.at(k, Scale.PEAK), 1e-14, window + " of " + n + " at " + k);
          }
        }
      }
    }
  }

  /** Closed form beside the lines: what the window leaves, and the negative frequency of it. */
  @Test
  void toneOffALineReadsWhatTheWindowLeaves() {
    int n = 4096;
    for (Window window : WindowTest.all()) {
      for (double off : new double[] {0.1, 0.25, 0.5, -0.4}) {
        Spectrum s =
            SpectrumMethod.wholeRecord(window).of(tone(n, 0, 2, 1000 + off, 0.2), RATE).orThrow();
        // the image, 2000 bins away, leaves 1/(4096 sin(2000 pi/4096)) of 2 V or less
        assertEquals(2 * window.modulus(off, n), s.at(1000, Scale.PEAK), 5e-4);
        assertEquals(2 * window.modulus(off - 1, n), s.at(1001, Scale.PEAK), 5e-4);
        int top = s.line(1000) >= s.line(1001) ? 1000 : 1001;
        double place = s.interpolated(top).place();
        assertEquals(
            1000 + off, place, window.halfLobeBins() == 1 ? 1e-3 : 2e-4, window.toString());
      }
    }
  }

  @Test
  void halfTheRateIsALineOfEvenLengths() {
    double[] v = tone(16, 0, 0.5, 8, 0);
    Spectrum s = SpectrumMethod.wholeRecord(Window.rectangular()).of(v, RATE).orThrow();
    assertEquals(0.5, s.at(8, Scale.PEAK), 1e-15);
    assertEquals(0.5, s.at(8, Scale.RMS), 1e-15);
    assertEquals(0.25, s.meanSquare(), 1e-15);
    assertEquals(RATE / 2, s.frequencyHz(8));
    assertEquals(0, s.phaseRadians(8).orElseThrow());
  }

  @Test
  void twoSidesShareThePower() {
    for (int n : new int[] {16, 15}) {
      SplittableRandom random = new SplittableRandom(5);
      double[] v = random.doubles(n, -1, 1).toArray();
      Spectrum s = SpectrumMethod.wholeRecord(Window.hann()).of(v, RATE).orThrow();
      double[] f = s.frequenciesHz(Sides.TWO);
      assertEquals(n, f.length);
      assertEquals(n % 2 == 0 ? -RATE / 2 : -7 * RATE / 15, f[0]);
      for (int i = 1; i < n; i++) {
        assertEquals(RATE / n, f[i] - f[i - 1], 1e-9);
      }
      for (Scale scale : new Scale[] {Scale.MEAN_SQUARE, Scale.DENSITY}) {
        double one = Arrays.stream(s.values(scale, Sides.ONE)).sum();
        assertEquals(one, Arrays.stream(s.values(scale, Sides.TWO)).sum(), 1e-14 * one);
      }
      int middle = n / 2;
      double[] peaks = s.values(Scale.PEAK, Sides.TWO);
      assertEquals(s.at(3, Scale.PEAK) / 2, peaks[middle + 3], 1e-16);
      assertEquals(s.at(3, Scale.PEAK) / 2, peaks[middle - 3], 1e-16);
      assertEquals(s.at(0, Scale.PEAK), peaks[middle], 1e-16);
      assertArrayEquals(peaks, s.values(Scale.RMS, Sides.TWO), 1e-16);
      for (int k = 0; k < s.bins(); k++) {
        for (Scale scale : Scale.values()) {
          assertEquals(s.at(k, scale), s.values(scale, Sides.ONE)[k]);
        }
      }
    }
  }

  /** The transform itself leaves 2e-13 for lengths with primes from 11 to 199 in them. */
  @Test
  void parseval() {
    Cases.check(
        1,
        200,
        random -> {
          Window window = WindowTest.all().get(random.nextInt(7));
          int n = window.leastPoints() + random.nextInt(500);
          double[] v = random.doubles(n, -3, 2).toArray();
          Spectrum s = SpectrumMethod.wholeRecord(window).of(v, RATE).orThrow();
          double[] w = window.weights(n);
          double sum = 0;
          double squares = 0;
          for (int i = 0; i < n; i++) {
            sum += v[i] * w[i] * v[i] * w[i];
            squares += w[i] * w[i];
          }
          assertEquals(sum / squares, s.meanSquare(), 5e-13 * s.meanSquare(), window + " of " + n);
          double density = Arrays.stream(s.values(Scale.DENSITY, Sides.ONE)).sum();
          assertEquals(s.meanSquare(), density * s.binHz(), 5e-13 * s.meanSquare());
        });
  }

  /** Transforms add: amplitude and phase of a sum of two are those of the sum of both. */
  @Test
  void linear() {
    Cases.check(
        1,
        200,
        random -> {
          Window window = WindowTest.all().get(random.nextInt(7));
          int n = window.leastPoints() + random.nextInt(300);
          double[] a = random.doubles(n, -1, 1).toArray();
          double[] b = random.doubles(n, -1, 1).toArray();
          double factor = Cases.signed(random, Cases.logUniform(random, 1e-3, 1e3));
          double[] c = new double[n];
          for (int i = 0; i < n; i++) {
            c[i] = a[i] + factor * b[i];
          }
          SpectrumMethod method = SpectrumMethod.wholeRecord(window);
          method = random.nextBoolean() ? method.withMeanRemoved() : method;
          Spectrum sa = method.of(a, RATE).orThrow();
          Spectrum sb = method.of(b, RATE).orThrow();
          Spectrum sc = method.of(c, RATE).orThrow();
          for (int k = 0; k < sa.bins(); k++) {
            double re = part(sa, k, true) + factor * part(sb, k, true);
            double im = part(sa, k, false) + factor * part(sb, k, false);
            double allowed = 5e-13 * (1 + Math.abs(factor));
            assertEquals(re, part(sc, k, true), allowed);
            assertEquals(im, part(sc, k, false), allowed);
          }
        });
  }

  private static double part(Spectrum s, int bin, boolean real) {
    double phase = s.phaseRadians(bin).orElse(0);
    return s.at(bin, Scale.RMS) * (real ? Math.cos(phase) : Math.sin(phase));
  }

  /** By the definition, segment by segment. */
  @Test
  void welchIsTheMeanOverSegments() {
    SplittableRandom random = new SplittableRandom(9);
    double[] v = random.doubles(1000, -1, 2).toArray();
    for (double overlap : new double[] {0, 0.3, 0.5, 0.95}) {
      for (int points : new int[] {64, 99}) {
        SpectrumMethod method =
            SpectrumMethod.wholeRecord(Window.blackman())
                .withMeanRemoved()
                .withSegments(points, overlap);
        Spectrum s = method.of(v, RATE).orThrow();
        int step = points - (int) Math.rint(overlap * points);
        double[] sum = new double[s.bins()];
        int count = 0;
        for (int at = 0; at + points <= v.length; at += step) {
          double[] part = Arrays.copyOfRange(v, at, at + points);
          Spectrum one =
              SpectrumMethod.wholeRecord(Window.blackman())
                  .withMeanRemoved()
                  .of(part, RATE)
                  .orThrow();
          for (int k = 0; k < sum.length; k++) {
            sum[k] += one.at(k, Scale.MEAN_SQUARE);
          }
          count++;
        }
        assertEquals(count, s.segments());
        for (int k = 0; k < sum.length; k++) {
          assertEquals(sum[k] / count, s.at(k, Scale.MEAN_SQUARE), 1e-15);
        }
        assertTrue(s.phaseRadians(3).isEmpty());
      }
    }
  }

  /**
   * White noise of 1 V RMS has the density 2/rate. 1023 lines of 127 segments that overlap by half:
   * the mean over all lines scatters by less than sqrt(2/65536) = 0.55 %; 4 % is seven of them, a
   * chance below 1e-11.
   */
  @Test
  void densityOfWhiteNoise() {
    int n = 1 << 16;
    double[] v = new double[n];
    CounterRandom.gaussians(20250411, 0, v, 0, n);
    for (Window window : WindowTest.all()) {
      Spectrum s =
          SpectrumMethod.wholeRecord(window)
              .withMeanRemoved()
              .withSegments(2048, 0.5)
              .of(v, RATE)
              .orThrow();
      double[] density = s.values(Scale.DENSITY, Sides.ONE);
      double mean = Arrays.stream(density, 10, 1024).average().orElseThrow();
      assertEquals(2 / RATE, mean, 0.04 * 2 / RATE, window.toString());
    }
  }

  @Test
  void meanRemovedLeavesNoConstant() {
    double[] v = tone(500, 1e6, 1e-3, 50, 0);
    Spectrum s = SpectrumMethod.wholeRecord(Window.hann()).withMeanRemoved().of(v, RATE).orThrow();
    assertEquals(0, s.at(0, Scale.PEAK), 1e-9);
    assertEquals(1e-3, s.at(50, Scale.PEAK), 1e-9);
  }

  @Test
  void readerAgreesWithSpectrumAndKeepsNothing() {
    SplittableRandom random = new SplittableRandom(3);
    SpectrumMethod method = SpectrumMethod.wholeRecord(Window.hann()).withSegments(128, 0.5);
    SpectrumReader reader = method.reader(128);
    double[] out = new double[reader.bins()];
    for (int trial = 0; trial < 3; trial++) {
      double[] v = random.doubles(1000, -1, 1).toArray();
      double[] shifted = new double[1010];
      System.arraycopy(v, 0, shifted, 7, 1000);
      assertEquals(14, reader.read(shifted, 7, 1000, out));
      assertEquals(14, reader.segments(1000));
      assertArrayEquals(method.of(v, 1).orThrow().values(Scale.MEAN_SQUARE, Sides.ONE), out);
    }
    assertEquals(0, reader.segments(127));
  }

  @Test
  void nothingIsAllocatedAtWork() {
    ThreadMXBean threads = (ThreadMXBean) ManagementFactory.getThreadMXBean();
    SpectrumReader reader =
        SpectrumMethod.wholeRecord(Window.flatTop())
            .withMeanRemoved()
            .withSegments(1024, 0.5)
            .reader(1024);
    double[] v = new SplittableRandom(1).doubles(10_000).toArray();
    double[] out = new double[reader.bins()];
    long self = Thread.currentThread().getId();
    long before = 0;
    for (int round = 0; round < 60; round++) {
      if (round == 40) {
        before = threads.getThreadAllocatedBytes(self);
      }
      reader.read(v, 0, v.length, out);
    }
    long bytes = threads.getThreadAllocatedBytes(self) - before;
    // the question itself may cost a few bytes; one array a call would cost 160 000
    assertTrue(bytes < 4096, bytes + " bytes in 20 calls");
  }

  /** However many threads the transform shares its work among. */
  @Test
  void sameBitsOnAnyNumberOfThreads() {
    int given = ConcurrencyUtils.getNumberOfThreads();
    try {
      for (int n : new int[] {1 << 16, 100_000, 65_537}) {
        double[] v = new SplittableRandom(n).doubles(n).toArray();
        double[] first = null;
        for (int threads : new int[] {1, 2, 4}) {
          ConcurrencyUtils.setNumberOfThreads(threads);
          double[] out = new double[n / 2 + 1];
          SpectrumMethod.wholeRecord(Window.hann()).reader(n).read(v, 0, n, out);
          first = first == null ? out : first;
          assertArrayEquals(first, out, n + " points, " + threads + " threads");
        }
      }
    } finally {
      ConcurrencyUtils.setNumberOfThreads(given);
    }
  }

  @Test
  void whatHasNoSpectrumSaysWhy() {
    Record short7 = Record.of(0, 1, new double[7]);
    assertFalse(SpectrumMethod.wholeRecord(Window.blackmanHarris()).of(short7).isTaken());
    assertTrue(SpectrumMethod.wholeRecord(Window.blackman()).of(short7).isTaken());
    assertFalse(SpectrumMethod.wholeRecord(Window.hann()).withSegments(8, 0).of(short7).isTaken());
    Outcome<Spectrum> one = SpectrumMethod.wholeRecord(Window.rectangular()).of(new double[1], 1);
    assertTrue(one instanceof Outcome.NotTaken<Spectrum> n && n.reason().contains("1 point is"));
  }
}
