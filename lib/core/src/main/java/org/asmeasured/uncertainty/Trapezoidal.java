package org.asmeasured.uncertainty;

import org.asmeasured.internal.Quantity;
import org.asmeasured.internal.Require;

/** Rectangle, triangle and what lies between. */
record Trapezoidal(String shape, double lower, double upper, double topRatio)
    implements Distribution {

  Trapezoidal {
    limits(lower, upper);
    Require.inRange("topRatio", topRatio, "", 0, 1);
  }

  static void limits(double lower, double upper) {
    Require.inRange("lower", lower, "", -Normal.MAX, Normal.MAX);
    Require.above("upper", upper, "", lower, Normal.MAX);
  }

  @Override
  public String name() {
    return shape
        + " from "
        + lower
        + " to "
        + upper
        + (shape.equals("trapezoidal") ? ", top ratio " + topRatio : "");
  }

  @Override
  public String words(String unit) {
    return shape
        + " from "
        + Quantity.of(lower, unit)
        + " to "
        + Quantity.of(upper, unit)
        + (shape.equals("trapezoidal") ? ", top ratio " + Quantity.of(topRatio, "") : "");
  }

  @Override
  public double quantile(double probability) {
    double a = 0.5 * (upper - lower);
    double p = Math.min(probability, 1 - probability);
    if (p >= 0.5 * (1 - topRatio) / (1 + topRatio)) {
      return 0.5 * (lower + upper) + a * (1 + topRatio) * (probability - 0.5);
    }
    double rise = a * Math.sqrt(2 * p * (1 - topRatio * topRatio));
    return probability < 0.5 ? lower + rise : upper - rise;
  }

  @Override
  public double estimate() {
    return 0.5 * (lower + upper);
  }

  @Override
  public double standardDeviation() {
    return 0.5 * (upper - lower) * Math.sqrt((1 + topRatio * topRatio) / 6);
  }
}
