package org.asmeasured.spectrum;

import org.asmeasured.capture.Record;
import org.asmeasured.internal.Quantity;
import org.asmeasured.internal.Require;
import org.asmeasured.measure.Measured;
import org.asmeasured.measure.Measured.NotTaken;
import org.asmeasured.measure.Measured.Value;
import org.asmeasured.measure.Reading;
import org.asmeasured.signal.Waveform;

/** The amplitude of the cosine at a frequency. */
record AmplitudeReading(SpectrumMethod method, double frequencyHz) implements Reading {

  AmplitudeReading {
    Require.present("method", method);
    Require.hertz("frequencyHz", frequencyHz);
  }

  @Override
  public String name() {
    return "amplitude at " + Quantity.of(frequencyHz, "Hz");
  }

  @Override
  public String unit() {
    return "V";
  }

  @Override
  public Measured of(Record record) {
    return method.of(record).read(this::in);
  }

  private Measured in(Spectrum spectrum) {
    double place = frequencyHz / spectrum.binHz();
    int lobe = method.window().halfLobeBins();
    if (place < lobe) {
      return new NotTaken(
          "fewer than "
              + lobe
              + " cycles: a window \""
              + method.window()
              + "\" does not tell them from the mean");
    }
    if (spectrum.segmentPoints() / 2.0 - place < lobe / 2.0) {
      return new NotTaken(
          Quantity.of(frequencyHz, "Hz")
              + " is at or above half the rate of "
              + Quantity.of(spectrum.rateHz(), "Hz")
              + ", or too near to it for a window \""
              + method.window()
              + "\"");
    }
    return new Value(Math.sqrt(2 * spectrum.at(place).meanSquare()));
  }

  @Override
  public Measured of(Waveform truth, double fromSeconds, double toSeconds) {
    Require.present("truth", truth);
    Require.span(fromSeconds, toSeconds);
    try {
      return Lines.of(truth)
          .read(
              lines -> {
                int order = lines.order(frequencyHz);
                return new Value(order == 0 ? 0 : Math.sqrt(2 * lines.meanSquare(order)));
              });
    } catch (IllegalArgumentException e) {
      return new NotTaken(e.getMessage());
    }
  }

  @Override
  public String toString() {
    return name() + " (" + method + ")";
  }
}
