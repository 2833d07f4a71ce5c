package org.asmeasured.uncertainty;

import org.apache.commons.statistics.distribution.TDistribution;
import org.asmeasured.internal.Quantity;
import org.asmeasured.internal.Require;

/**
 * A scaled and shifted t distribution. Draws come from a table of t against the standard normal
 * value of the same probability, cubic between places 1/128 apart: to 1e-7 of the value at worst
 * (one degree of freedom, 8 sigma), 1e-11 for five degrees and more within 6 sigma.
 */
final class StudentT implements Distribution {
  private static final int STEPS = 128;
  private static final double MOST_Z = 8.5;
  private static final double MAX_DEGREES = 1e6;

  private final double middle;
  private final double scale;
  private final double degrees;
  private final TDistribution standard;

  /** t and dt/dz STEPS at each place; made when the first value is drawn. */
  private volatile double[] table;

  StudentT(double estimate, double scale, double degreesOfFreedom) {
    this.middle = Require.inRange("estimate", estimate, "", -Normal.MAX, Normal.MAX);
    this.scale = Require.above("scale", scale, "", 0, Normal.MAX);
    this.degrees = Require.inRange("degreesOfFreedom", degreesOfFreedom, "", 1, MAX_DEGREES);
    this.standard = TDistribution.of(degreesOfFreedom);
  }

  static StudentT of(double... readings) {
    Require.present("readings", readings);
    int n = readings.length;
    Require.inRange("number of readings", n, 2, 1_000_000);
    double sum = 0;
    for (int i = 0; i < n; i++) {
      sum += Require.inRange("readings[" + i + "]", readings[i], "", -Normal.MAX, Normal.MAX);
    }
    double mean = sum / n;
    double squares = 0;
    double rest = 0;
    for (double reading : readings) {
      squares += (reading - mean) * (reading - mean);
      rest += reading - mean;
    }
    Require.that(
        squares > 0,
        "readings = "
            + n
            + " times "
            + mean
            + ": must not all be the same, for they say nothing"
            + " about their uncertainty then");
    return new StudentT(
        mean + rest / n, Math.sqrt((squares - rest * rest / n) / (n - 1) / n), n - 1.0);
  }

  @Override
  public String name() {
    return "Student t of " + degrees + " degrees of freedom about " + middle + ", scale " + scale;
  }

  @Override
  public String words(String unit) {
    return "Student t of "
        + Quantity.of(degrees, "")
        + " degrees of freedom about "
        + Quantity.of(middle, unit)
        + ", scale "
        + Quantity.of(scale, unit);
  }

  @Override
  public double quantile(double probability) {
    return atNormal(Normal.inverse(probability));
  }

  @Override
  public double atNormal(double z) {
    double size = Math.abs(z);
    if (!(size < MOST_Z)) {
      return middle + Math.copySign(exact(size), z) * scale;
    }
    double[] t = table;
    if (t == null) {
      t = tabulate();
      table = t;
    }
    double place = size * STEPS;
    int i = (int) place;
    double u = place - i;
    double v = 1 - u;
    double value =
        v * v * ((1 + 2 * u) * t[2 * i] + u * t[2 * i + 1])
            + u * u * ((1 + 2 * v) * t[2 * i + 2] - v * t[2 * i + 3]);
    return middle + Math.copySign(value, z) * scale;
  }

  /** Exact values at the places, by the tail, so that it keeps its digits. */
  private double[] tabulate() {
    int places = (int) (MOST_Z * STEPS) + 2;
    double[] t = new double[2 * places];
    for (int i = 0; i < places; i++) {
      double z = i / (double) STEPS;
      t[2 * i] = i == 0 ? 0 : exact(z);
      t[2 * i + 1] = Normal.density(z) / standard.density(t[2 * i]) / STEPS;
    }
    return t;
  }

  private double exact(double size) {
    double tail = Normal.survival(size);
    double t = -standard.inverseCumulativeProbability(tail);
    // what the library's search has left
    return t + (standard.survivalProbability(t) - tail) / standard.density(t);
  }

  @Override
  public double cumulative(double value) {
    return standard.cumulativeProbability((value - middle) / scale);
  }

  @Override
  public double estimate() {
    return middle;
  }

  @Override
  public double standardDeviation() {
    return degrees > 2 ? scale * Math.sqrt(degrees / (degrees - 2)) : Double.POSITIVE_INFINITY;
  }

  @Override
  public double standardUncertainty() {
    return scale;
  }

  @Override
  public double degreesOfFreedom() {
    return degrees;
  }

  @Override
  public boolean equals(Object other) {
    return other instanceof StudentT t
        && t.middle == middle
        && t.scale == scale
        && t.degrees == degrees;
  }

  @Override
  public int hashCode() {
    return 31 * (31 * Double.hashCode(middle) + Double.hashCode(scale)) + Double.hashCode(degrees);
  }

  @Override
  public String toString() {
    return name();
  }
}
