package org.asmeasured.accuracy;

import org.asmeasured.uncertainty.Distribution;

/**
 * What is known of a quantity once it has been read: reading less error.
 *
 * @param reading what was read
 * @param error the distribution of its error
 */
record Reflected(double reading, Distribution error) implements Distribution {

  @Override
  public String name() {
    return "reading less " + error.name();
  }

  @Override
  public double quantile(double probability) {
    return reading - error.quantile(1 - probability);
  }

  @Override
  public double cumulative(double value) {
    // an error of just this size leaves the quantity at the value, which counts
    return 1 - error.cumulative(Math.nextDown(reading - value));
  }

  @Override
  public double estimate() {
    return reading - error.estimate();
  }

  @Override
  public double standardDeviation() {
    return error.standardDeviation();
  }
}
