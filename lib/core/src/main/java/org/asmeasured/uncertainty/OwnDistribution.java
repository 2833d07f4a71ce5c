package org.asmeasured.uncertainty;

import java.util.function.DoubleUnaryOperator;
import org.asmeasured.internal.Require;

/** A distribution that the user gives by its inverse. */
record OwnDistribution(
    String name, DoubleUnaryOperator inverse, double estimate, double standardDeviation)
    implements Distribution {
  private static final int PLACES = 1024;
  private static final double STEP = 1.0 / 64;

  static OwnDistribution of(String name, DoubleUnaryOperator inverse) {
    double last = Double.NEGATIVE_INFINITY;
    for (int i = 0; i < PLACES; i++) {
      double p = (i + 0.5) / PLACES;
      double value = inverse.applyAsDouble(p);
      Require.inRange(name + " at probability " + p, value, "", -Normal.MAX, Normal.MAX);
      Require.that(
          value >= last,
          name + " at probability " + p + " = " + value + ": must not fall, was " + last);
      last = value;
    }
    // over z = Phi^-1(p), where trapezia converge as fast as anything; the middle value first, so
    // that squares do not cancel
    double middle = inverse.applyAsDouble(0.5);
    double weight = 0;
    double first = 0;
    double second = 0;
    int ends = (int) (Bisection.FARTHEST / STEP);
    for (int i = -ends; i <= ends; i++) {
      double z = i * STEP;
      double p = Normal.phi(z);
      if (p <= 0 || p >= 1) {
        continue;
      }
      double w = Normal.density(z);
      double d = inverse.applyAsDouble(p) - middle;
      weight += w;
      first += w * d;
      second += w * d * d;
    }
    double shift = first / weight;
    double variance = second / weight - shift * shift;
    Require.that(
        variance > 0, name + " = " + middle + " at every probability: must vary to be uncertain");
    return new OwnDistribution(name, inverse, middle + shift, Math.sqrt(variance));
  }

  @Override
  public double quantile(double probability) {
    return inverse.applyAsDouble(probability);
  }
}
