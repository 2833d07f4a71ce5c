package org.asmeasured.characterisation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.SplittableRandom;
import org.asmeasured.characterisation.HistogramLinearity.Sampling;
import org.asmeasured.digitizer.Linearity.Line;
import org.asmeasured.internal.Cases;
import org.asmeasured.internal.Refusals;
import org.junit.jupiter.api.Test;

/** Whole cycles, phases that are met again, and what a broken cycle does to a histogram. */
class CoherenceTest {

  @Test
  void wholeCyclesToHalfAPhaseStep() {
    Coherence whole = new Coherence(4096, 1021);
    assertTrue(whole.isWhole());
    assertEquals(1, whole.passes());
    assertEquals(0, whole.greatestShareError());
    assertTrue(new Coherence(4096, 1021 + 0.49 / 4096).isWhole());
    assertFalse(new Coherence(4096, 1021 + 0.51 / 4096).isWhole());
    assertFalse(new Coherence(4096, 1e-9).isWhole());
    assertEquals(32, new Coherence(4096, 96).passes());
    assertEquals(4096, new Coherence(4096, 4096).passes());
    Coherence broken = new Coherence(1000, 10.25);
    assertEquals(0.25, broken.leftOverCycles());
    assertEquals(0.25 / 10.25, broken.greatestShareError());
    assertEquals(1, broken.passes());
    assertEquals(1, new Coherence(1000, 0.3).greatestShareError());
    Refusals.refused("points", v -> new Coherence(v, 1), 0, -1);
    Refusals.refused("cycles", "", v -> new Coherence(1, v), 0, -1);
  }

  /** A sine through an ideal converter of 5 bits. */
  private static CodeHistogram histogram(
      Coherence coherence, double amplitudeSteps, SplittableRandom random) {
    long[] counts = new long[32];
    double phase = random.nextDouble();
    double cycle = coherence.cycles() / coherence.points();
    for (int i = 0; i < coherence.points(); i++) {
      double v = amplitudeSteps * Math.sin(2 * Math.PI * (phase + cycle * i));
      counts[(int) Math.max(0, Math.min(31, Math.rint(v) + 16))]++;
    }
    return CodeHistogram.of(5, counts);
  }

  /**
   * Of any broken record, no level is further off than the bound and what an even spread leaves:
   * the samples of each whole cycle, and those left over, begin and end within a phase step.
   */
  @Test
  void noLevelIsFurtherOffThanABrokenCycleSays() {
    double[] worst = new double[1];
    Cases.check(
        1,
        300,
        random -> {
          int points = 2000 + random.nextInt(20_000);
          Coherence coherence = new Coherence(points, 1.5 + 8 * random.nextDouble());
          HistogramLinearity test =
              HistogramLinearity.sine(histogram(coherence, 20, random), 20, 0).orThrow();
          double bound = test.brokenCycleSteps(coherence);
          double[] levels = test.converter().transitionLevels();
          // two crossings of each level a cycle, each known to a sample
          double grain = Math.PI * 20 * 2 * (coherence.cycles() + 1) / points;
          for (int k = 0; k < 31; k++) {
            double off = Math.abs(levels[k] - (k - 15.5));
            assertTrue(off <= bound + grain, k + ": off by " + off + ", bound " + bound);
            worst[0] = Math.max(worst[0], off / bound);
          }
        });
    // the bound is of use: some come near it
    assertTrue(worst[0] > 0.5, "nearest " + worst[0]);
  }

  /**
   * Records that meet each of their phases g times, each from a phase at random. Below a level lies
   * an arc of x phases, of which the whole part or one more is met: a variance of f (1 - f) with f
   * the rest of x, 1/4 at most and 1/6 in the mean over amplitudes. So the mean square over the
   * stated variance is 2/3; over 4000 trials it is known to 2 %, and five times that is allowed.
   */
  @Test
  void phasesMetAgainScatterAsStated() {
    for (int passes : new int[] {1, 5}) {
      Coherence coherence = new Coherence(1000, passes == 1 ? 7 : 35);
      assertEquals(passes, coherence.passes());
      SplittableRandom random = new SplittableRandom(5);
      double ratio = 0;
      int trials = 4000;
      for (int t = 0; t < trials; t++) {
        double amplitude = 18 + 4 * random.nextDouble();
        HistogramLinearity test =
            HistogramLinearity.sine(histogram(coherence, amplitude, random), amplitude, 0)
                .orThrow();
        double level = 5.5;
        double off = test.converter().transitionLevels()[21] - level;
        double slope = Math.PI * amplitude * Math.cos(Math.asin(level / amplitude));
        double stated = 0.25 * passes * passes / 1e6 * slope * slope;
        ratio += off * off / stated / trials;
      }
      assertEquals(2.0 / 3, ratio, 0.1 * 2 / 3);
    }
  }

  @Test
  void passesWidenTheBand() {
    SplittableRandom random = new SplittableRandom(1);
    HistogramLinearity test =
        HistogramLinearity.sine(histogram(new Coherence(1000, 7), 20, random)).orThrow();
    double[] once = test.inlDeviation(Line.LEAST_SQUARES, Sampling.coherent(1000, 0));
    double[] again = test.inlDeviation(Line.LEAST_SQUARES, Sampling.coherent(1000, 4, 0));
    for (int k = 0; k < once.length; k++) {
      assertEquals(4 * once[k], again[k], 1e-12);
    }
    assertEquals(
        "coherent records of 1000 points, each phase met 4 times, noise of 0.5 steps",
        Sampling.coherent(1000, 4, 0.5).toString());
    assertEquals("coherent records of 1000 points", Sampling.coherent(1000, 0).toString());
    Refusals.mismatch(() -> Sampling.coherent(10, 11, 0), "passes = 11");
    Refusals.mismatch(() -> Sampling.coherent(10, 0, 0), "passes = 0");
    Refusals.mismatch(() -> Sampling.coherent(0L, 1, 0), "pointsPerRecord = 0");
    Refusals.absent("coherence", () -> test.brokenCycleSteps(null));
  }
}
