package org.asmeasured.signal;

import java.util.Arrays;
import java.util.function.DoubleUnaryOperator;
import org.asmeasured.internal.Require;

/**
 * Fits a function by bisection until the straight piece meets it within the tolerance at every
 * place looked at.
 */
final class PiecewiseFit {
  private static final int MAX_POINTS = 1 << 20;
  private static final int PLACES = 16;
  private static final int FIRST_PIECES = 64;

  private final DoubleUnaryOperator function;
  private final double tolerance;
  private double[] times = new double[1024];
  private double[] volts = new double[1024];
  private int count;
  private double largestError;

  PiecewiseFit(DoubleUnaryOperator function, double tolerance) {
    this.function = function;
    this.tolerance = tolerance;
  }

  Fit over(double from, double to) {
    add(from, value(from));
    // Even first pieces, so that a feature which all places of one long piece happen to miss is
    // still found.
    double a = from;
    for (int i = 1; i <= FIRST_PIECES; i++) {
      double b = i == FIRST_PIECES ? to : from + (to - from) * i / FIRST_PIECES;
      if (b > a) {
        fit(a, value(a), b, value(b));
        a = b;
      }
    }
    Signal signal =
        Signals.recorded(Arrays.copyOf(times, count), Arrays.copyOf(volts, count))
            .named("fitted function, within " + Words.volts(tolerance));
    return new Fit(signal, largestError, count - 1);
  }

  private void fit(double a, double fa, double b, double fb) {
    double worst = 0;
    for (int i = 1; i < PLACES; i++) {
      double x = (double) i / PLACES;
      double t = a + (b - a) * x;
      worst = Math.max(worst, Math.abs(value(t) - (fa + (fb - fa) * x)));
    }
    double m = a + (b - a) / 2;
    if (worst > tolerance) {
      Require.that(
          m > a && m < b && count < MAX_POINTS,
          "toleranceVolts = "
              + tolerance
              + " V: not met near t = "
              + a
              + " s with "
              + MAX_POINTS
              + " pieces");
      double fm = value(m);
      fit(a, fa, m, fm);
      fit(m, fm, b, fb);
      return;
    }
    largestError = Math.max(largestError, worst);
    add(b, fb);
  }

  private double value(double t) {
    return Require.volts("function(" + t + " s)", function.applyAsDouble(t));
  }

  private void add(double t, double v) {
    if (count == times.length) {
      times = Arrays.copyOf(times, 2 * count);
      volts = Arrays.copyOf(volts, 2 * count);
    }
    times[count] = t;
    volts[count++] = v;
  }
}
