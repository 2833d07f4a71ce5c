package org.asmeasured.frontend;

import java.math.BigDecimal;
import java.math.MathContext;
import org.asmeasured.internal.Quantity;
import org.asmeasured.internal.Require;

/**
 * Which span of volts the converter covers, referred to the tip, and how far the instrument is off.
 *
 * <p>Full scale F = volts per division times divisions, from offset - F/2 to offset + F/2. What
 * reaches the converter is v (1 + gainError) + offsetError F.
 *
 * @param voltsPerDivision 1e-9 to 1e6 V
 * @param divisions how many the converter spans, 1 to 100
 * @param offsetVolts the voltage at the middle of the span, -1e9 to 1e9 V
 * @param gainError relative error of the gain, -0.5 to 0.5
 * @param offsetError error of the offset as a fraction of full scale, -1 to 1
 */
public record VerticalScale(
    double voltsPerDivision,
    int divisions,
    double offsetVolts,
    double gainError,
    double offsetError) {
  private static final int USUAL_DIVISIONS = 8;

  /**
   * Checks the values.
   *
   * @param voltsPerDivision 1e-9 to 1e6 V
   * @param divisions how many the converter spans, 1 to 100
   * @param offsetVolts the voltage at the middle of the span, -1e9 to 1e9 V
   * @param gainError relative error of the gain, -0.5 to 0.5
   * @param offsetError error of the offset as a fraction of full scale, -1 to 1
   * @throws IllegalArgumentException if one is out of range
   */
  public VerticalScale {
    Require.inRange("voltsPerDivision", voltsPerDivision, "V", 1e-9, 1e6);
    Require.inRange("divisions", divisions, 1, 100);
    Require.volts("offsetVolts", offsetVolts);
    Require.inRange("gainError", gainError, "", -0.5, 0.5);
    Require.inRange("offsetError", offsetError, "", -1, 1);
  }

  /**
   * Eight divisions, no offset, no errors.
   *
   * @param voltsPerDivision 1e-9 to 1e6 V
   * @return the scale
   * @throws IllegalArgumentException if the value is out of range
   */
  public static VerticalScale of(double voltsPerDivision) {
    return new VerticalScale(voltsPerDivision, USUAL_DIVISIONS, 0, 0, 0);
  }

  /**
   * The span of the converter.
   *
   * @return volts per division times divisions
   */
  public double fullScaleVolts() {
    return voltsPerDivision * divisions;
  }

  /**
   * The same scale with another number of volts per division.
   *
   * @param value 1e-9 to 1e6 V
   * @return the scale
   * @throws IllegalArgumentException if the value is out of range
   */
  public VerticalScale withVoltsPerDivision(double value) {
    return new VerticalScale(value, divisions, offsetVolts, gainError, offsetError);
  }

  /**
   * The same scale with another number of divisions.
   *
   * @param value 1 to 100
   * @return the scale
   * @throws IllegalArgumentException if the value is out of range
   */
  public VerticalScale withDivisions(int value) {
    return new VerticalScale(voltsPerDivision, value, offsetVolts, gainError, offsetError);
  }

  /**
   * The same scale about another voltage.
   *
   * @param volts the middle of the span, -1e9 to 1e9 V
   * @return the scale
   * @throws IllegalArgumentException if the value is out of range
   */
  public VerticalScale withOffset(double volts) {
    return new VerticalScale(voltsPerDivision, divisions, volts, gainError, offsetError);
  }

  /**
   * The same scale with another gain error.
   *
   * @param fraction -0.5 to 0.5
   * @return the scale
   * @throws IllegalArgumentException if the value is out of range
   */
  public VerticalScale withGainError(double fraction) {
    return new VerticalScale(voltsPerDivision, divisions, offsetVolts, fraction, offsetError);
  }

  /**
   * The same scale with another offset error.
   *
   * @param fraction of full scale, -1 to 1
   * @return the scale
   * @throws IllegalArgumentException if the value is out of range
   */
  public VerticalScale withOffsetError(double fraction) {
    return new VerticalScale(voltsPerDivision, divisions, offsetVolts, gainError, fraction);
  }

  /**
   * The same span without its errors.
   *
   * @return the scale
   */
  public VerticalScale withoutErrors() {
    return new VerticalScale(voltsPerDivision, divisions, offsetVolts, 0, 0);
  }

  /**
   * Whether the instrument shows the voltage as it is.
   *
   * @return true if both errors are 0
   */
  public boolean isExact() {
    return gainError == 0 && offsetError == 0;
  }

  @Override
  public String toString() {
    StringBuilder words = new StringBuilder();
    words.append(Quantity.of(voltsPerDivision, "V")).append(" per division, ").append(divisions);
    words.append(divisions == 1 ? " division" : " divisions");
    // an offset that was worked out may be what rounding left of none
    double offset = Quantity.orNothing(offsetVolts, fullScaleVolts());
    if (offset != 0) {
      words.append(", offset ").append(Quantity.of(offset, "V"));
    }
    if (gainError != 0) {
      words.append(", gain error ").append(percent(gainError));
    }
    if (offsetError != 0) {
      words.append(", offset error ").append(percent(offsetError)).append(" of full scale");
    }
    return words.toString();
  }

  private static String percent(double fraction) {
    BigDecimal rounded =
        new BigDecimal(100 * fraction).round(new MathContext(4)).stripTrailingZeros();
    return (fraction > 0 ? "+" : "") + rounded.toPlainString() + " %";
  }
}
