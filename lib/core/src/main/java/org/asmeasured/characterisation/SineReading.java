package org.asmeasured.characterisation;

import java.util.function.Function;
import org.asmeasured.capture.Record;
import org.asmeasured.internal.Require;
import org.asmeasured.measure.Measured;
import org.asmeasured.measure.Outcome;
import org.asmeasured.measure.Reading;
import org.asmeasured.signal.Waveform;

/** One figure of the sine fitted with four parameters. */
final class SineReading implements Reading {
  private final String name;
  private final String unit;
  private final Function<SineFigures, Measured> figure;

  SineReading(String name, String unit, Function<SineFigures, Measured> figure) {
    this.name = name;
    this.unit = unit;
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
  public String toString() {
    return name;
  }
}
