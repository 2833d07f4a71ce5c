package org.asmeasured.characterisation;

import java.util.function.Function;
import org.asmeasured.capture.Record;
import org.asmeasured.internal.Quantity;
import org.asmeasured.internal.Require;
import org.asmeasured.measure.Measured;
import org.asmeasured.measure.Outcome;
import org.asmeasured.measure.Reading;
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
    Outcome<SineFit> fit = SineFit.fourParameters(record);
    return fit instanceof Outcome.Taken<SineFit> taken
        ? figure.apply(SineFigures.of(taken.result()))
        : new Measured.NotTaken(((Outcome.NotTaken<?>) fit).reason());
  }

  @Override
  public Measured of(Waveform truth, double fromSeconds, double toSeconds) {
    Require.present("truth", truth);
    Require.instant("fromSeconds", fromSeconds);
    Require.instant("toSeconds", toSeconds);
    Require.that(
        fromSeconds < toSeconds,
        "fromSeconds = "
            + fromSeconds
            + " s, toSeconds = "
            + toSeconds
            + " s: the span must not be empty");
    Outcome<SineFigures> fit;
    try {
      fit = WaveformSine.fit(truth, fromSeconds, toSeconds);
    } catch (IllegalArgumentException e) {
      // the waveform refuses the span, with more pieces than it looks at
      return new Measured.NotTaken(e.getMessage());
    }
    return fit instanceof Outcome.Taken<SineFigures> taken
        ? figure.apply(taken.result())
        : new Measured.NotTaken(((Outcome.NotTaken<?>) fit).reason());
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
