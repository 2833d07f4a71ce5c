package org.asmeasured.characterisation;

import java.util.function.Function;
import org.asmeasured.internal.Quantity;
import org.asmeasured.measure.AnalysedReading;
import org.asmeasured.measure.Analysis;
import org.asmeasured.measure.Measured;

/** One figure of the sine fitted with four parameters. */
final class SineReading implements AnalysedReading<SineFigures> {
  private final String name;
  private final String unit;
  private final double fullScaleVolts;
  private final Function<SineFigures, Measured> figure;

  SineReading(String name, String unit, Function<SineFigures, Measured> figure) {
    this(name, unit, 0, figure);
  }

  /** A full scale of 0 means none is given. With the name it tells which reading this is. */
  SineReading(
      String name, String unit, double fullScaleVolts, Function<SineFigures, Measured> figure) {
    this.name = name;
    this.unit = unit;
    this.fullScaleVolts = fullScaleVolts;
    this.figure = figure;
  }

  @Override
  public String name() {
    return name;
  }

  @Override
  public String unit() {
    return unit;
  }

  @Override
  public Analysis<SineFigures> analysis() {
    return SineAnalysis.ONE;
  }

  @Override
  public Measured figure(SineFigures found) {
    return figure.apply(found);
  }

  @Override
  public boolean equals(Object other) {
    return other instanceof SineReading that
        && name.equals(that.name)
        && fullScaleVolts == that.fullScaleVolts;
  }

  @Override
  public int hashCode() {
    return 31 * name.hashCode() + Double.hashCode(fullScaleVolts);
  }

  @Override
  public String toString() {
    return fullScaleVolts == 0 ? name : name + ", full scale " + Quantity.of(fullScaleVolts, "V");
  }
}
