package org.asmeasured.signal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;

/** Fitted functions meet their tolerance on a finer check than the fit's own. */
class FittedTest {
  private static Fit checked(
      DoubleUnaryOperator function, double from, double to, double tolerance) {
    Fit fit = Signals.fitted(function, from, to, tolerance);
    assertTrue(fit.largestErrorVolts() <= tolerance, "what it says of itself");
    double worst = 0;
    double[] knots = fit.signal().knots(from, to);
    assertEquals(fit.segments(), knots.length - 1, "straight pieces");
    for (int i = 1; i < knots.length; i++) {
      for (int k = 0; k < 37; k++) {
        double t = knots[i - 1] + (knots[i] - knots[i - 1]) * k / 37;
        worst = Math.max(worst, Math.abs(fit.signal().valueAt(t) - function.applyAsDouble(t)));
      }
    }
    assertTrue(worst <= tolerance * 1.01, "worst " + worst + " V, tolerance " + tolerance + " V");
    return fit;
  }

  @Test
  void smoothFunctions() {
    checked(Math::sin, 0, 10, 1e-6);
    checked(t -> Math.exp(-t * t), -5, 5, 1e-7);
    checked(Math::cosh, -3, 3, 1e-5);
    checked(t -> 1e-3 * Math.log(1 + t / 1e-9), 0, 1e-6, 1e-8);
    checked(t -> Math.sin(2 * Math.PI * 1e9 * t), 0, 3e-9, 1e-5);
  }

  @Test
  void kinksAndRoots() {
    checked(t -> Math.abs(t - 0.3), -1, 1, 1e-6);
    checked(Math::sqrt, 0, 1, 1e-5);
    checked(t -> Math.max(0, Math.sin(t)), 0, 20, 1e-5);
  }

  @Test
  void aNarrowFeatureIsFound() {
    // a thousandth of the span wide, in a place of its own
    for (double at : new double[] {0.1234, 0.5, 0.77777}) {
      Fit fit = checked(t -> Math.exp(-0.5 * Math.pow((t - at) / 1e-3, 2)), 0, 1, 1e-6);
      assertEquals(1, fit.signal().maximum(0, 1), 2e-6);
      assertEquals(Math.sqrt(2 * Math.PI) * 1e-3, fit.signal().mean(0, 1), 1e-6);
    }
  }

  @Test
  void aSineThatAllEvenPlacesMiss() {
    // 64 cycles over the span: zero at the ends of all 64 first pieces
    checked(t -> Math.sin(2 * Math.PI * 64 * t), 0, 1, 1e-2);
    checked(t -> Math.sin(2 * Math.PI * 128 * t), 0, 1, 1e-2);
    checked(t -> Math.sin(2 * Math.PI * 256 * t), 0, 1, 1e-2);
  }

  @Test
  void aStraightLineNeedsNoMoreThanTheFirstPieces() {
    Fit fit = checked(t -> 3 * t - 1, 0, 1, 1e-9);
    assertEquals(64, fit.segments());
    assertEquals(0.5, fit.signal().valueAt(0.5), 1e-14);
  }

  @Test
  void endValuesHold() {
    Signal s = Signals.fitted(t -> t * t, 1, 2, 1e-3).signal();
    assertEquals(1, s.valueAt(-5), 1e-15);
    assertEquals(4, s.valueAt(5), 1e-15);
    assertEquals(1, s.valueAt(1), 1e-15);
    assertEquals(4, s.valueAt(2), 1e-15);
  }

  @Test
  void theErrorFallsWithTheSquareOfThePieces() {
    int coarse = Signals.fitted(Math::sin, 0, 50, 1e-3).segments();
    int fine = Signals.fitted(Math::sin, 0, 50, 1e-5).segments();
    assertEquals(10, (double) fine / coarse, 5, "a hundred times better with ten times the pieces");
  }

  @Test
  void aSpanAsShortAsDoublesAllow() {
    double to = Math.nextUp(1.0);
    Signal s = Signals.fitted(t -> 3 * (t - 1), 1, to, 1e-3).signal();
    assertEquals(0, s.valueAt(1));
    assertEquals(3 * (to - 1), s.valueAt(to), 1e-30);
  }
}
