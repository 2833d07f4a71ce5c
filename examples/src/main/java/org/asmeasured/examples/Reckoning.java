package org.asmeasured.examples;

import java.util.List;

/**
 * One reading that was taken: truth, value as measured, and what each stage did to it, with the
 * numbers as they are to be shown.
 *
 * @param name name of the reading
 * @param unit its SI unit
 * @param truth the true value
 * @param measured the value as measured
 * @param parts what each stage adds, in the order of the chain; they sum to measured less truth
 * @param random how it scatters from capture to capture
 */
record Reckoning(
    String name, String unit, double truth, double measured, List<Part> parts, Random random) {

  /** Of a single capture. */
  Reckoning(String name, String unit, double truth, double measured, List<Part> parts) {
    this(name, unit, truth, measured, parts, Random.NONE);
  }

  /**
   * What one stage adds to the reading.
   *
   * @param stage name of the stage
   * @param bias what it adds, in the reading's unit
   * @param taken false where the reading could not be taken behind this stage; the next one then
   *     adds for both
   * @param randomPart standard deviation of the reading with this stage and all before it; 0 where
   *     it does not scatter
   */
  record Part(String stage, double bias, boolean taken, double randomPart) {
    Part(String stage, double bias, boolean taken) {
      this(stage, bias, taken, 0);
    }
  }

  /**
   * How the reading scatters.
   *
   * @param part its standard deviation; 0 where it does not, or nothing is known of it
   * @param standardError how sure the bias is
   * @param source the stage that adds most to it
   */
  record Random(double part, double standardError, String source) {
    static final Random NONE = new Random(0, 0, "");

    boolean isNone() {
      return part == 0;
    }
  }

  private static final int DIGITS = 4;

  /** Whether it is known what the stages add to the scatter. */
  boolean scattersByStage() {
    return !random.isNone() && parts.stream().anyMatch(p -> p.randomPart() > 0);
  }

  double bias() {
    return measured - truth;
  }

  /** The scale that both values share. */
  Scale scale() {
    return Scale.of(Math.max(Math.abs(truth), Math.abs(measured)), unit);
  }

  /** Four digits, or as many more as it takes to see two digits of the difference. */
  private int valueDecimals() {
    Scale scale = scale();
    int decimals = scale.decimals(Math.max(Math.abs(truth), Math.abs(measured)), DIGITS);
    return bias() == 0 ? decimals : Math.max(decimals, Math.min(9, scale.decimals(bias(), 2)));
  }

  String truthText() {
    return scale().withUnit(scale().number(truth, valueDecimals()));
  }

  String measuredText() {
    return scale().withUnit(scale().number(measured, valueDecimals()));
  }

  /** The scale that all biases of this reading share; shares differ by percentage points. */
  Scale biasScale() {
    return Scale.of(largestBias(), Scale.ofDifference(unit));
  }

  int biasDecimals() {
    return biasScale().decimals(largestBias(), DIGITS);
  }

  private double largestBias() {
    double largest = Math.abs(bias());
    for (Part part : parts) {
      largest = Math.max(largest, Math.abs(part.bias()));
    }
    return largest;
  }

  String biasText() {
    return biasScale().withUnit(biasScale().signed(bias(), biasDecimals()));
  }

  /**
   * The bias as a share of the true value, or nothing where that says nothing: of shares, which
   * would be taken for one another, and of levels, whose zero is anywhere.
   */
  String relativeText() {
    if (unit.equals("%") || unit.equals("dB")) {
      return "";
    }
    double share = 100 * bias() / Math.abs(truth);
    if (bias() == 0 || !Double.isFinite(share) || Math.abs(share) >= 1e4) {
      return "";
    }
    Scale percent = new Scale(0, "%");
    return percent.withUnit(percent.signed(share, percent.decimals(share, 3)));
  }

  /** Four digits of the scatter. */
  String randomText() {
    return Scale.text(random.part(), unit);
  }

  String sureText() {
    Scale scale = Scale.of(random.standardError(), unit);
    return scale.withUnit(
        scale.number(random.standardError(), scale.decimals(random.standardError(), 2)));
  }

  String partText(Part part) {
    return part.taken() ? biasScale().signed(part.bias(), biasDecimals()) : "not taken";
  }
}
