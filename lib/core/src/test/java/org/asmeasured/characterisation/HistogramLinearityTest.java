package org.asmeasured.characterisation;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import org.asmeasured.acquisition.PeakDetect;
import org.asmeasured.capture.Record;
import org.asmeasured.capture.Setup;
import org.asmeasured.characterisation.HistogramLinearity.Sampling;
import org.asmeasured.digitizer.Linearity;
import org.asmeasured.digitizer.Linearity.Line;
import org.asmeasured.digitizer.TransitionConverter;
import org.asmeasured.internal.Cases;
import org.asmeasured.internal.CounterRandom;
import org.asmeasured.internal.Refusals;
import org.asmeasured.measure.Outcome;
import org.asmeasured.signal.Signals;
import org.junit.jupiter.api.Test;

class HistogramLinearityTest {
  private static final TransitionConverter KNOWN =
      TransitionConverter.of(8)
          .withBow(0.7, -0.4)
          .withRandomWalk(0.1, 5)
          .withMissingCodes(17)
          .withGainError(0.004)
          .withOffsetError(1.3);

  /** Counts in proportion to the arc between transitions: nothing but the formula. */
  private static CodeHistogram exact(TransitionConverter converter, double amplitude, double at) {
    double[] t = converter.transitionLevels();
    long total = 1L << 50;
    long[] counts = new long[t.length + 1];
    long before = 0;
    for (int k = 0; k < t.length; k++) {
      long below = Math.round(total * (0.5 + Math.asin((t[k] - at) / amplitude) / Math.PI));
      counts[k] = below - before;
      before = below;
    }
    counts[t.length] = total - before;
    return CodeHistogram.of(converter.bits(), counts);
  }

  @Test
  void exactCountsGiveExactLevels() {
    CodeHistogram histogram = exact(KNOWN, 140, 0.3);
    HistogramLinearity known = HistogramLinearity.sine(histogram, 140, 0.3).orThrow();
    assertArrayEquals(KNOWN.transitionLevels(), known.converter().transitionLevels(), 1e-11);
    Linearity truth = Linearity.of(KNOWN);
    HistogramLinearity unknown = HistogramLinearity.sine(histogram).orThrow();
    for (Line line : Line.values()) {
      assertArrayEquals(truth.inl(line), unknown.linearity().inl(line), 1e-11);
      assertArrayEquals(truth.dnl(line), unknown.linearity().dnl(line), 1e-11);
      assertEquals(truth.gainError(line), known.linearity().gainError(line), 1e-12);
      assertEquals(truth.offsetErrorSteps(line), known.linearity().offsetErrorSteps(line), 1e-11);
    }
    assertArrayEquals(new int[] {17}, unknown.linearity().missingCodes());
    assertEquals(0, unknown.linearity().gainError(Line.END_POINTS), 1e-14);
    assertEquals(0, unknown.linearity().offsetErrorSteps(Line.END_POINTS), 1e-11);
  }

  @Test
  void rampCountsAreCodeWidths() {
    CodeHistogram histogram = CodeHistogram.of(2, new long[] {70, 100, 150, 1000});
    HistogramLinearity test = HistogramLinearity.ramp(histogram).orThrow();
    assertArrayEquals(new double[] {-0.2, 0.2}, test.linearity().dnl(Line.END_POINTS), 1e-14);
    assertArrayEquals(new double[] {-1.5, -0.7, 0.5}, test.converter().transitionLevels(), 1e-14);
  }

  /**
   * Independent samples of a known converter: each INL and DNL, over its stated deviation, is a
   * normal deviate. 400 histograms of 10^5 samples of 5 bits: the mean square of each is 1 within 6
   * sqrt(2/400) = 0.42 (2e-9 each, 2e-7 for all), and of all together within a tenth.
   */
  @Test
  void independentSamplesScatterAsStated() {
    TransitionConverter converter = TransitionConverter.of(5).withBow(0.3).withRandomWalk(0.2, 1);
    Linearity truth = Linearity.of(converter);
    int trials = 400;
    int samples = 100_000;
    for (Line line : Line.values()) {
      double[] inl = new double[31];
      double[] dnl = new double[30];
      for (int trial = 0; trial < trials; trial++) {
        long key = CounterRandom.key(3, trial);
        double[] v = new double[samples];
        for (int i = 0; i < samples; i++) {
          v[i] = 18 * Math.sin(2 * Math.PI * CounterRandom.uniform(key, i));
        }
        converter.convert(v, 0, samples);
        long[] counts = new long[32];
        for (double code : v) {
          counts[(int) code + 16]++;
        }
        HistogramLinearity test = HistogramLinearity.sine(CodeHistogram.of(5, counts)).orThrow();
        add(
            inl,
            test.linearity().inl(line),
            truth.inl(line),
            test.inlDeviation(line, Sampling.independent()),
            trials);
        add(
            dnl,
            test.linearity().dnl(line),
            truth.dnl(line),
            test.dnlDeviation(line, Sampling.independent()),
            trials);
      }
      int first = line == Line.END_POINTS ? 1 : 0;
      for (int k = first; k < 31 - first; k++) {
        assertEquals(1, inl[k], 0.42, line + " INL " + k);
      }
      for (int k = 0; k < 30; k++) {
        assertEquals(1, dnl[k], 0.42, line + " DNL " + k);
      }
      assertEquals(1, Arrays.stream(inl, first, 31 - first).average().orElseThrow(), 0.1);
      assertEquals(1, Arrays.stream(dnl).average().orElseThrow(), 0.1);
    }
  }

  private static void add(
      double[] sums, double[] found, double[] truth, double[] deviation, int trials) {
    for (int k = 0; k < sums.length; k++) {
      double off = (found[k] - truth[k]) / deviation[k];
      if (deviation[k] > 0) {
        sums[k] += off * off / trials;
      }
    }
  }

  /**
   * The whole way: captures of a coherent sine through a converter of known table. 30 records of
   * 8191 points: every INL within 5 of its deviations (of 254 figures: 1.5e-4 by a normal law), DNL
   * the same; and most within two.
   */
  @Test
  void knownTableComesBackFromCoherentRecords() {
    int points = 8191;
    double noise = 0.2;
    CodeHistogram histogram = CodeHistogram.empty(8);
    Setup setup =
        Setup.ideal(1e9, points)
            .scale(0.125)
            .converter(KNOWN)
            .converterNoise(org.asmeasured.digitizer.ConverterNoise.ofSteps(noise, 8));
    double step = 1.0 / 256;
    for (int r = 0; r < 30; r++) {
      double phase = 2 * Math.PI * CounterRandom.uniform(9, r);
      histogram =
          histogram.plus(setup.capture(Signals.sine(135 * step, 1e9 * 1021 / points, phase), r));
    }
    HistogramLinearity test = HistogramLinearity.sine(histogram, 135, 0).orThrow();
    Sampling sampling = Sampling.coherent(points, noise);
    Linearity truth = Linearity.of(KNOWN);
    for (Line line : Line.values()) {
      within(test.linearity().inl(line), truth.inl(line), test.inlDeviation(line, sampling));
      within(test.linearity().dnl(line), truth.dnl(line), test.dnlDeviation(line, sampling));
      assertEquals(truth.gainError(line), test.linearity().gainError(line), 2e-4);
      assertEquals(truth.offsetErrorSteps(line), test.linearity().offsetErrorSteps(line), 0.02);
    }
    assertArrayEquals(new int[] {17}, test.linearity().missingCodes());
  }

  private static void within(double[] found, double[] truth, double[] deviation) {
    int close = 0;
    for (int k = 0; k < found.length; k++) {
      double off = Math.abs(found[k] - truth[k]);
      assertTrue(deviation[k] < 0.05, "deviation " + deviation[k]);
      assertTrue(off <= 5 * deviation[k] + 1e-9, k + ": off by " + off + " of " + deviation[k]);
      close += off <= 2 * deviation[k] + 1e-9 ? 1 : 0;
    }
    assertTrue(close > 0.9 * found.length, close + " of " + found.length);
  }

  /** The middle of a wide sine scatters by pi A/(2 sqrt S). */
  @Test
  void numberOfSamplesFollowsFromTheTolerance() {
    // 95 %: 1.959964 deviations; (1.959964 pi 140/2/0.1)^2
    long needed = HistogramLinearity.independentSamplesNeeded(140, 0.1, 0.95);
    assertEquals(Math.pow(1.9599639845400545 * Math.PI * 70 / 0.1, 2), needed, 1);
    // without noise one record of M points holds pi A/(2 M): the rest in proportion to 1/sqrt R
    Sampling sampling = Sampling.coherent(4096, 0);
    double one = Math.PI * 140 / 2 / 4096;
    assertEquals(
        Math.ceil(Math.pow(1.9599639845400545 * one / 0.01, 2)),
        HistogramLinearity.coherentRecordsNeeded(140, sampling, 0.01, 0.95));
    assertEquals(1, HistogramLinearity.coherentRecordsNeeded(140, sampling, 10, 0.95));
    assertTrue(
        HistogramLinearity.coherentRecordsNeeded(140, Sampling.coherent(4096, 1), 0.01, 0.95)
            > HistogramLinearity.coherentRecordsNeeded(140, sampling, 0.01, 0.95));
  }

  @Test
  void saysWhyNot() {
    reason("the lowest code did not appear", HistogramLinearity.sine(counts(0, 5, 5, 5)));
    reason("the highest code did not appear", HistogramLinearity.sine(counts(5, 5, 5, 0)));
    reason("neither the lowest nor", HistogramLinearity.ramp(counts(0, 5, 5, 0)));
    reason("between the end codes", HistogramLinearity.sine(counts(5, 0, 0, 5)));
    reason("neither", HistogramLinearity.sine(CodeHistogram.empty(4)));
    HistogramLinearity one =
        HistogramLinearity.sine(CodeHistogram.of(1, new long[] {3, 5})).orThrow();
    assertArrayEquals(new double[1], one.inlDeviation(Line.END_POINTS, Sampling.independent()));
    assertEquals(0, one.dnlDeviation(Line.END_POINTS, Sampling.independent()).length);
  }

  private static CodeHistogram counts(long... counts) {
    return CodeHistogram.of(2, counts);
  }

  private static void reason(String part, Outcome<?> outcome) {
    assertFalse(outcome.isTaken());
    assertTrue(outcome.toString().contains(part), outcome.toString());
  }

  @Test
  void everyHistogramGivesAValueOrAReason() {
    Cases.check(
        50,
        500,
        random -> {
          int bits = 1 + random.nextInt(6);
          long[] counts = new long[1 << bits];
          for (int i = 0; i < counts.length; i++) {
            counts[i] = random.nextInt(4) == 0 ? 0 : random.nextLong(1L << random.nextInt(1, 45));
          }
          CodeHistogram histogram = CodeHistogram.of(bits, counts);
          Outcome<HistogramLinearity> outcome =
              random.nextBoolean()
                  ? HistogramLinearity.sine(histogram)
                  : HistogramLinearity.ramp(histogram);
          if (outcome instanceof Outcome.Taken<HistogramLinearity> taken) {
            for (Line line : Line.values()) {
              Sampling sampling =
                  random.nextBoolean() ? Sampling.independent() : Sampling.coherent(7, 0.5);
              for (double d : taken.result().inlDeviation(line, sampling)) {
                assertTrue(d >= 0 && Double.isFinite(d));
              }
              for (double d : taken.result().dnlDeviation(line, sampling)) {
                assertTrue(d >= 0 && Double.isFinite(d));
              }
            }
            assertFalse(taken.result().toString().contains("NaN"));
          }
        });
  }

  @Test
  void histogramsAddUp() {
    Record record = Setup.ideal(1e9, 1000).scale(0.25).bits(3).capture(Signals.sine(1.1, 7e6));
    CodeHistogram once = CodeHistogram.empty(3).plus(record);
    assertEquals(1000, once.total());
    assertArrayEquals(once.plus(once).counts(), once.plus(record).counts());
    long low = 0;
    for (int i = 0; i < 1000; i++) {
      low += record.code(i) == -4 ? 1 : 0;
    }
    assertEquals(low, once.count(-4));
    assertEquals(3, once.bits());
  }

  @Test
  void refusesBadArguments() {
    Refusals.refused("bits", v -> CodeHistogram.of(v, new long[2]), 0, 25);
    Refusals.refused("bits", CodeHistogram::empty, 0, 25);
    Refusals.absent("counts", () -> CodeHistogram.of(1, null));
    Refusals.mismatch(() -> CodeHistogram.of(1, new long[3]), "counts.length = 3", "2 for 1 bit");
    Refusals.mismatch(() -> counts(1, -1, 1, 1), "counts[1] = -1");
    Refusals.mismatch(() -> counts(1L << 52, 1L << 52, 1, 1), "sum of counts");
    CodeHistogram h = counts(1, 2, 3, 4);
    Refusals.refused("code", v -> h.count(v), -3, 2);
    Refusals.absent("record", () -> h.plus((Record) null));
    Refusals.absent("other", () -> h.plus((CodeHistogram) null));
    Refusals.mismatch(() -> h.plus(CodeHistogram.empty(3)), "other.bits = 3", "2");
    Refusals.mismatch(() -> h.plus(Record.of(0, 1, new double[1])), "must hold codes");
    Refusals.mismatch(
        () ->
            h.plus(
                Setup.ideal(1, 3)
                    .bits(2)
                    .decimation(new PeakDetect(2))
                    .capture(Signals.constant(0))),
        "an envelope");
    Refusals.mismatch(
        () -> h.plus(Setup.ideal(1, 3).scale(1).bits(8).capture(Signals.constant(2))),
        "record.code(0) = 64");
    Refusals.absent("histogram", () -> HistogramLinearity.sine(null));
    Refusals.absent("histogram", () -> HistogramLinearity.sine(null, 1, 0));
    Refusals.absent("histogram", () -> HistogramLinearity.ramp(null));
    Refusals.refused("amplitudeSteps", "", v -> HistogramLinearity.sine(h, v, 0), 0, -1);
    Refusals.refused("offsetSteps", "", v -> HistogramLinearity.sine(h, 1, v));
    HistogramLinearity test = HistogramLinearity.sine(h).orThrow();
    Refusals.absent("line", () -> test.inlDeviation(null, Sampling.independent()));
    Refusals.absent("sampling", () -> test.inlDeviation(Line.END_POINTS, null));
    Refusals.absent("line", () -> test.dnlDeviation(null, Sampling.independent()));
    Refusals.absent("sampling", () -> test.dnlDeviation(Line.END_POINTS, null));
    Refusals.refused("pointsPerRecord", v -> Sampling.coherent(v, 0), 0, (1 << 28) + 1);
    Refusals.refused("noiseSteps", "", v -> Sampling.coherent(4, v), -1, 2e6);
    Sampling coherent = Sampling.coherent(4096, 0);
    Refusals.refused(
        "toleranceSteps", "", v -> HistogramLinearity.independentSamplesNeeded(1, v, 0.9), 0, 2e3);
    Refusals.refused(
        "confidence", "", v -> HistogramLinearity.independentSamplesNeeded(1, 1, v), 0.4, 1);
    Refusals.refused(
        "amplitudeSteps",
        "",
        v -> HistogramLinearity.coherentRecordsNeeded(v, coherent, 1, 0.9),
        0);
    Refusals.mismatch(
        () -> HistogramLinearity.coherentRecordsNeeded(1, Sampling.independent(), 1, 0.9),
        "independent samples",
        "coherent");
    Refusals.absent("sampling", () -> HistogramLinearity.coherentRecordsNeeded(1, null, 1, 0.9));
  }
}
