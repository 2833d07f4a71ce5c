package org.asmeasured.characterisation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.asmeasured.acquisition.PeakDetect;
import org.asmeasured.capture.Record;
import org.asmeasured.capture.Setup;
import org.asmeasured.digitizer.ConverterNoise;
import org.asmeasured.digitizer.Core;
import org.asmeasured.digitizer.InterleavedSampler;
import org.asmeasured.internal.Cases;
import org.asmeasured.internal.Refusals;
import org.asmeasured.linear.Response;
import org.asmeasured.measure.Outcome;
import org.asmeasured.signal.Signals;
import org.junit.jupiter.api.Test;

class InterleavingErrorsTest {

  /** Any cores, any frequency, whole cycles or not: gains, offsets and skews come back. */
  @Test
  void bringsBackTheCoresOfASampler() {
    Cases.check(
        1,
        60,
        random -> {
          int m = 2 + random.nextInt(7);
          Core[] cores = new Core[m];
          double gain = 0;
          double offset = 0;
          double skew = 0;
          for (int c = 0; c < m; c++) {
            cores[c] =
                new Core(
                    0.02 * (random.nextDouble() - 0.5),
                    0.02 * (random.nextDouble() - 0.5),
                    4e-11 * (random.nextDouble() - 0.5),
                    Response.identity());
            gain += (1 + cores[c].gainError()) / m;
            offset += cores[c].offsetError() / m;
            skew += cores[c].skewSeconds() / m;
          }
          double f = Cases.logUniform(random, 5e6, 480e6);
          // the samples of a core must tell the sine from a constant
          double folded = Math.abs(Math.IEEEremainder(f * m / 1e9, 0.5));
          int n = 500 * m + random.nextInt(m);
          if (folded < 0.02) {
            return;
          }
          Record record =
              Setup.ideal(1e9, n)
                  .scale(0.5)
                  .sampler(InterleavedSampler.ideal().withCores(cores))
                  .capture(Signals.sine(0.9, f, 6 * random.nextDouble()));
          InterleavingErrors found = InterleavingErrors.of(record, m).orThrow();
          assertEquals(0, (found.frequencyHz() - f) / 1e9 * n, 1e-10);
          assertEquals(0.9 * gain, found.amplitudeVolts(), 1e-10);
          assertEquals(4 * offset, found.offsetVolts(), 1e-10);
          assertTrue(found.residualVolts() < 1e-10, found.toString());
          for (int c = 0; c < m; c++) {
            assertEquals((1 + cores[c].gainError()) / gain - 1, found.gainError(c), 1e-10);
            assertEquals(4 * (cores[c].offsetError() - offset), found.offsetErrorVolts(c), 1e-10);
            assertEquals(0, (cores[c].skewSeconds() - skew - found.skewSeconds(c)) * f, 1e-10);
          }
        });
  }

  /**
   * Four cores, 8 bits and noise: each figure within six deviations of a sine fit of a quarter of
   * the points, amplitude and phase sqrt(2/M) s, offset s/sqrt M (16 figures, 3e-8 in all).
   */
  @Test
  void holdsUnderNoise() {
    double[] g = {1e-3, -1e-3, 2e-3, -2e-3};
    double[] d = {1e-12, -1e-12, 2e-12, -2e-12};
    double[] o = {1e-3, -2e-3, 3e-3, -2e-3};
    Core[] cores = new Core[4];
    for (int m = 0; m < 4; m++) {
      cores[m] = new Core(g[m], o[m] / 2, d[m], Response.identity());
    }
    int n = 400_000;
    Record record =
        Setup.ideal(1e9, n)
            .scale(0.25)
            .sampler(InterleavedSampler.ideal().withCores(cores))
            .converterNoise(ConverterNoise.ofSteps(0.6, 8))
            .bits(8)
            .capture(Signals.sine(0.9, 99.7e6), 4);
    InterleavingErrors found = InterleavingErrors.of(record, 4).orThrow();
    double s = Math.hypot(0.6, Math.sqrt(1 / 12.0)) * 2 / 256;
    assertEquals(s, found.residualVolts(), 0.02 * s);
    double one = 6 * s / Math.sqrt(n / 4.0);
    for (int c = 0; c < 4; c++) {
      assertEquals(g[c], found.gainError(c), one * Math.sqrt(2) / 0.9);
      assertEquals(o[c], found.offsetErrorVolts(c), one);
      assertEquals(d[c], found.skewSeconds(c), one * Math.sqrt(2) / 0.9 / (2 * Math.PI * 99.7e6));
    }
    assertEquals(4, found.cores());
  }

  @Test
  void saysWhyNot() {
    reason("at least 5 a core", Record.of(0, 1, new double[9]), 2);
    reason("all values are equal", Record.of(0, 1, new double[20]), 2);
    reason(
        "an envelope",
        Setup.ideal(1e8, 100).decimation(new PeakDetect(3)).capture(Signals.sine(1, 1e6)),
        2);
    // a quarter of the rate: every core of four sees one phase for ever
    Record quarter = Setup.ideal(1e9, 1000).capture(Signals.sine(1, 250e6, 0.3));
    reason("core 0", quarter, 4);
    Refusals.absent("record", () -> InterleavingErrors.of(null, 2));
    Refusals.refused("cores", v -> InterleavingErrors.of(quarter, v), 1, 65);
    Record good = Setup.ideal(1e9, 1000).capture(Signals.sine(1, 33e6, 0.3));
    InterleavingErrors two = InterleavingErrors.of(good, 2).orThrow();
    Refusals.refused("core", two::gainError, -1, 2);
    Refusals.refused("core", two::offsetErrorVolts, -1, 2);
    Refusals.refused("core", two::skewSeconds, -1, 2);
  }

  private static void reason(String part, Record record, int cores) {
    Outcome<InterleavingErrors> outcome = InterleavingErrors.of(record, cores);
    assertFalse(outcome.isTaken());
    assertTrue(outcome.toString().contains(part), outcome.toString());
  }
}
