package org.asmeasured.signal;

import org.apache.commons.math3.analysis.integration.gauss.GaussIntegrator;
import org.apache.commons.math3.analysis.integration.gauss.GaussIntegratorFactory;
import org.asmeasured.internal.Require;

/**
 * Integrals of a waveform whose knots are so close that it goes through an eighth of a cycle at
 * most from one to the next: twelve points of Gauss and Legendre on each piece leave an error below
 * the last bit (of the integral of the modulus).
 */
public final class PieceQuadrature {
  private static final GaussIntegrator GAUSS = new GaussIntegratorFactory().legendre(12, 0, 1);

  private PieceQuadrature() {}

  /**
   * The integral of a waveform over a span; of one that repeats, whole periods are integrated once.
   *
   * @param waveform with knots as close as said above
   * @param fromSeconds start of the span, seconds
   * @param toSeconds end of the span, after its start, seconds
   * @return volt seconds
   * @throws IllegalArgumentException if the span is empty, or has more pieces than are looked at
   */
  public static double integral(Waveform waveform, double fromSeconds, double toSeconds) {
    return overPeriods(waveform, fromSeconds, toSeconds, false);
  }

  /**
   * The integral of the square of a waveform over a span.
   *
   * @param waveform with knots as close as said above
   * @param fromSeconds start of the span, seconds
   * @param toSeconds end of the span, after its start, seconds
   * @return volts squared times seconds
   * @throws IllegalArgumentException if the span is empty, or has more pieces than are looked at
   */
  public static double integralOfSquare(Waveform waveform, double fromSeconds, double toSeconds) {
    return overPeriods(waveform, fromSeconds, toSeconds, true);
  }

  private static double overPeriods(Waveform w, double from, double to, boolean square) {
    Require.span(from, to);
    double period = w.periodSeconds().orElse(Double.POSITIVE_INFINITY);
    double whole = Math.floor((to - from) / period);
    if (whole >= 2) {
      double rest = from + whole * period;
      double one = overPieces(w, 0, period, square);
      return whole * one + (rest < to ? overPieces(w, rest, to, square) : 0);
    }
    return overPieces(w, from, to, square);
  }

  private static double overPieces(Waveform w, double from, double to, boolean square) {
    double[] knots = w.knots(from, to);
    double sum = 0;
    double carry = 0;
    for (int i = 0; i + 1 < knots.length; i++) {
      double a = knots[i];
      double d = knots[i + 1] - a;
      double part =
          d
              * GAUSS.integrate(
                  x -> {
                    double v = w.valueAt(a, x * d);
                    return square ? v * v : v;
                  });
      double s = sum + part;
      carry += Math.abs(sum) >= Math.abs(part) ? (sum - s) + part : (part - s) + sum;
      sum = s;
    }
    return sum + carry;
  }
}
