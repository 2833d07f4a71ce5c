package org.asmeasured.internal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;

/** The greatest value of piecewise smooth functions whose greatest value is known. */
class ExtremesTest {
  private static double maximum(DoubleUnaryOperator f, double... knots) {
    return Extremes.maximum(f, f, knots);
  }

  @Test
  void endsAndKnots() {
    assertEquals(2, maximum(t -> t, 0, 1, 2));
    assertEquals(0, maximum(t -> -t, 0, 1, 2), 0.0);
    assertEquals(1, maximum(t -> 1 - Math.abs(t - 1), 0, 1, 2));
    assertEquals(5, maximum(t -> 5, 0, 2));
  }

  @Test
  void eachSideOfAJumpCounts() {
    DoubleUnaryOperator after = t -> t < 1 ? t : t - 3;
    DoubleUnaryOperator before = t -> t <= 1 ? t : t - 3;
    assertEquals(1, Extremes.maximum(after, before, new double[] {0, 1, 2}));
    assertEquals(
        2,
        Extremes.maximum(t -> t < 1 ? 0 : 3 - t, t -> t <= 1 ? 0 : 3 - t, new double[] {0, 1, 2}));
  }

  @Test
  void theLastKnotCountsFromTheLeftAlone() {
    // jumps up at the very end of the span
    assertEquals(
        0, Extremes.maximum(t -> t < 2 ? 0 : 9, t -> t <= 2 ? 0 : 9, new double[] {0, 1, 2}));
  }

  @Test
  void turningInsideAPiece() {
    Cases.check(
        1,
        500,
        random -> {
          double phase = random.nextDouble(-Math.PI, Math.PI);
          double[] knots = new double[9];
          for (int i = 0; i < knots.length; i++) {
            knots[i] = 2 * Math.PI * i / 8;
          }
          assertEquals(1, maximum(t -> Math.sin(t + phase), knots), 1e-15);
          assertEquals(4, maximum(t -> 3 + Math.cos(t + phase), knots), 4e-15);
        });
  }

  @Test
  void parabolas() {
    Cases.check(
        2,
        500,
        random -> {
          double at = random.nextDouble(-0.5, 1.5);
          double top = at < 0 ? -at * at : at > 1 ? -(1 - at) * (1 - at) : 0;
          assertEquals(top, maximum(t -> -(t - at) * (t - at), 0, 1), 1e-15);
        });
  }

  @Test
  void tinyAndHugeScales() {
    for (double scale : new double[] {1e-12, 1e-3, 1, 1e6}) {
      for (double volts : new double[] {1e-9, 1, 1e9}) {
        double found =
            maximum(t -> volts * Math.sin(t / scale), 0, 0.7 * scale, 1.4 * scale, 2.1 * scale);
        assertEquals(volts, found, 2e-15 * volts, "time scale " + scale);
      }
    }
  }

  @Test
  void aDecayThatTurnsOnce() {
    // t e^{-t} is greatest at 1
    assertEquals(Math.exp(-1), maximum(t -> t * Math.exp(-t), 0, 2, 4, 40), 1e-15);
    assertTrue(maximum(t -> -t * Math.exp(-t), 0, 2, 4, 40) <= 0);
  }
}
