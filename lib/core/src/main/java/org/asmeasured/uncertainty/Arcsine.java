package org.asmeasured.uncertainty;

import org.asmeasured.internal.Quantity;

/** A sine at an unknown phase. */
record Arcsine(double lower, double upper) implements Distribution {

  Arcsine {
    Trapezoidal.limits(lower, upper);
  }

  @Override
  public String name() {
    return "arcsine from " + lower + " to " + upper;
  }

  @Override
  public String words(String unit) {
    return "arcsine from " + Quantity.of(lower, unit) + " to " + Quantity.of(upper, unit);
  }

  @Override
  public double quantile(double probability) {
    return estimate() - 0.5 * (upper - lower) * StrictMath.cos(Math.PI * probability);
  }

  @Override
  public double estimate() {
    return 0.5 * (lower + upper);
  }

  @Override
  public double standardDeviation() {
    return 0.5 * (upper - lower) * Math.sqrt(0.5);
  }
}
