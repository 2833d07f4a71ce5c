package org.asmeasured.uncertainty;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.asmeasured.measure.Measured;
import org.junit.jupiter.api.Test;

class RuleOfThreeTest {

  /** (1 - r)^n = 0.05 is the exact bound of none in n (binomial); 3/n is just above it. */
  @Test
  void noneInNBoundsTheRisk() {
    for (long n : new long[] {30, 60, 4096, 100_000, 3_000_000_000L}) {
      double exact = -Math.expm1(Math.log(0.05) / n);
      double least = RuleOfThree.leastRisk(n);
      assertTrue(least >= exact && least <= 1.06 * exact, "n = " + n + ": " + least);
    }
  }

  @Test
  void soManyTrialsShowTheRiskAndOneLessDoesNot() {
    for (double risk : new double[] {0.5, 0.05, 0.3, 0.0123, 1e-3, 7e-5, 3e-5, 1e-9}) {
      long n = RuleOfThree.trials(risk);
      assertTrue(RuleOfThree.leastRisk(n) <= risk, "risk = " + risk);
      assertTrue(RuleOfThree.leastRisk(n - 1) > risk, "risk = " + risk);
    }
    assertEquals(60, RuleOfThree.trials(0.05));
    assertEquals(100_000, RuleOfThree.trials(3e-5));
  }

  @Test
  void badInputIsRefused() {
    assertThrows(IllegalArgumentException.class, () -> RuleOfThree.leastRisk(0));
    for (double risk : new double[] {0, -1, 0.6, Double.NaN, 1e-10}) {
      String words =
          assertThrows(IllegalArgumentException.class, () -> RuleOfThree.trials(risk)).getMessage();
      assertTrue(words.contains("risk = "), words);
    }
  }

  @Test
  void anAdaptiveRunIsNoShorterThanSaid() {
    Inputs x = Inputs.of(Input.of("x", "", Distribution.normal(0, 1)));
    Model model = v -> new Measured.Value(v[0]);
    MonteCarlo usual = MonteCarlo.forStandardUncertainty(1);
    assertEquals(4096, usual.of(x, model).orThrow().trials());
    assertEquals(4096, usual.withAtLeast(4096).of(x, model).orThrow().trials());
    assertEquals(5120, usual.withAtLeast(4097).of(x, model).orThrow().trials());
    assertEquals(1_000_448, usual.withAtLeast(1_000_001).mostTrials());
    assertEquals(
        500, MonteCarlo.ofTrials(0.95, 200).withAtLeast(500).of(x, model).orThrow().trials());
    assertEquals(
        200, MonteCarlo.ofTrials(0.95, 200).withAtLeast(100).of(x, model).orThrow().trials());
    assertThrows(IllegalArgumentException.class, () -> usual.withAtLeast(0));
    assertThrows(IllegalArgumentException.class, () -> usual.withAtLeast(100_000_001));
  }
}
