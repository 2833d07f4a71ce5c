package org.asmeasured.internal;

import java.util.function.DoubleUnaryOperator;
import org.apache.commons.math3.optim.MaxEval;
import org.apache.commons.math3.optim.nonlinear.scalar.GoalType;
import org.apache.commons.math3.optim.univariate.BrentOptimizer;
import org.apache.commons.math3.optim.univariate.SearchInterval;
import org.apache.commons.math3.optim.univariate.UnivariateObjectiveFunction;

/**
 * The greatest value of a piecewise smooth function, given knots between which it turns at most
 * once.
 */
public final class Extremes {
  private static final double PLACE_TOLERANCE = 1e-9;
  private static final int MAX_EVALUATIONS = 200;

  private Extremes() {}

  /**
   * The greatest value over closed pieces, both limits at each knot included.
   *
   * @param after the function, right-hand values
   * @param before the function, left-hand limits
   * @param knots ascending instants
   */
  public static double maximum(
      DoubleUnaryOperator after, DoubleUnaryOperator before, double[] knots) {
    double best =
        Math.max(after.applyAsDouble(knots[0]), before.applyAsDouble(knots[knots.length - 1]));
    double left = after.applyAsDouble(knots[0]);
    for (int i = 1; i < knots.length; i++) {
      double a = knots[i - 1];
      double b = knots[i];
      double right = before.applyAsDouble(b);
      best = Math.max(best, Math.max(left, right));
      double m = a + (b - a) / 2;
      if (m > a && m < b) {
        double middle = after.applyAsDouble(m);
        best = Math.max(best, middle);
        double bend = Math.abs(left - 2 * middle + right);
        // A parabola rises above its largest of three values by an eighth of the bend; eight times
        // that is room enough
        // for any piece of less than a quarter of a cycle.
        if (bend > 0 && Math.max(middle, Math.max(left, right)) + bend >= best) {
          best = Math.max(best, refined(after, a, b));
        }
      }
      left = after.applyAsDouble(b);
      if (i < knots.length - 1) {
        best = Math.max(best, left);
      }
    }
    return best;
  }

  private static double refined(DoubleUnaryOperator f, double a, double b) {
    return new BrentOptimizer(
            PLACE_TOLERANCE, Math.max(Double.MIN_NORMAL, (b - a) * PLACE_TOLERANCE))
        .optimize(
            new MaxEval(MAX_EVALUATIONS),
            new UnivariateObjectiveFunction(f::applyAsDouble),
            GoalType.MAXIMIZE,
            new SearchInterval(a, b))
        .getValue();
  }
}
