package org.asmeasured.characterisation;

import java.util.function.Function;
import org.asmeasured.capture.Record;
import org.asmeasured.internal.Quantity;
import org.asmeasured.measure.Measured;
import org.asmeasured.measure.Reading;
import org.asmeasured.measure.Spans;
import org.asmeasured.signal.Waveform;

/** One figure of the sine fitted with four parameters. */
final class SineReading implements Reading {
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
  public Measured of(Record record) {
    return SineFit.fourParameters(record).read(fit -> figure.apply(SineFigures.of(fit)));
  }

  @Override
  public Measured of(Waveform truth, double fromSeconds, double toSeconds) {
    return Spans.taken(
        truth,
        fromSeconds,
        toSeconds,
        () -> WaveformSine.fit(truth, fromSeconds, toSeconds).read(figure));
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
