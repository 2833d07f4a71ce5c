package org.asmeasured.accuracy;

import org.asmeasured.uncertainty.Distribution;

/**
 * What is known of a quantity once it has been read: (reading less error)/sensitivity.
 *
 * @param reading what was read
 * @param error the distribution of its error
 * @param sensitivity of the reading to the quantity, above 0
 */
record Reflected(double reading, Distribution error, double sensitivity) implements Distribution {

  @Override
  public String name() {
    return "reading less " + error.name();
  }

  @Override
  public String words(String unit) {
    return "reading less " + error.words(unit);
  }

  @Override
  public double quantile(double probability) {
    return (reading - error.quantile(1 - probability)) / sensitivity;
  }

  @Override
  public double cumulative(double value) {
    // an error of just this size leaves the quantity at the value, which counts
    return 1 - error.cumulative(Math.nextDown(reading - value * sensitivity));
  }

  @Override
  public double estimate() {
    return (reading - error.estimate()) / sensitivity;
  }

  @Override
  public double standardDeviation() {
    return error.standardDeviation() / sensitivity;
  }
}
