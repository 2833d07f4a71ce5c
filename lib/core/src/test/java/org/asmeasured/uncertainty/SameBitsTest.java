package org.asmeasured.uncertainty;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;

/** What a seed draws is a promise: the same bits on every Java. */
class SameBitsTest {

  private static long digest(Inputs inputs, MonteCarlo way) {
    int[] count = {0};
    long[] hash = {17};
    Model model =
        Model.of(
            x -> {
              double sum = 0;
              for (double value : x) {
                hash[0] = 31 * hash[0] + Double.doubleToLongBits(value);
                sum += value * value;
              }
              count[0]++;
              return sum;
            });
    Simulated y = way.of(inputs, model).orThrow();
    assertEquals(1000, y.trials());
    assertEquals(1000 + 2 * inputs.size() + 1, count[0]);
    hash[0] = 31 * hash[0] + Double.doubleToLongBits(y.mean().orThrow());
    hash[0] = 31 * hash[0] + Double.doubleToLongBits(y.standardUncertainty().orThrow());
    hash[0] = 31 * hash[0] + Double.doubleToLongBits(y.shortest().lower());
    return hash[0];
  }

  private static Inputs inputs() {
    return Inputs.of(
        Input.of("normal", "", Distribution.normal(1, 2)),
        Input.of("rectangular", "", Distribution.rectangular(1, 2)),
        Input.of("triangular", "", Distribution.triangular(1, 2)),
        Input.of("trapezoidal", "", Distribution.trapezoidal(1, 2, 0.5)),
        Input.of("curvilinear", "", Distribution.curvilinearTrapezoid(1, 2, 0.1)),
        Input.of("arcsine", "", Distribution.arcsine(1, 2)),
        Input.of("t", "", Distribution.studentT(1, 2, 7)));
  }

  @Test
  void sobol() {
    assertEquals(
        -5940593339305257429L, digest(inputs(), MonteCarlo.ofTrials(0.95, 1000).withSeed(5)));
  }

  @Test
  void plain() {
    assertEquals(
        -8195243652099291500L,
        digest(inputs(), MonteCarlo.ofTrials(0.95, 1000).withSeed(5).plain()));
  }

  @Test
  void correlated() {
    Inputs correlated =
        inputs().correlated("normal", "rectangular", 0.5).correlated("t", "arcsine", -0.4);
    assertEquals(
        -1536460006516964930L, digest(correlated, MonteCarlo.ofTrials(0.95, 1000).withSeed(5)));
  }
}
