package org.asmeasured.spectrum;

import java.util.Optional;
import java.util.function.DoubleFunction;
import org.asmeasured.capture.Record;
import org.asmeasured.internal.Quantity;
import org.asmeasured.internal.Require;
import org.asmeasured.measure.Analysis;
import org.asmeasured.measure.Measured;
import org.asmeasured.measure.Measured.NotTaken;
import org.asmeasured.measure.Measured.Value;
import org.asmeasured.measure.Outcome;
import org.asmeasured.signal.Tones;
import org.asmeasured.signal.Waveform;

/** From a frequency to the amplitude of the cosine there. */
record AmplitudeAnalysis(SpectrumMethod method) implements Analysis<DoubleFunction<Measured>> {

  @Override
  public Outcome<DoubleFunction<Measured>> of(Record record) {
    return method.of(record).then(spectrum -> new Outcome.Taken<>(hz -> in(spectrum, hz)));
  }

  private Measured in(Spectrum spectrum, double frequencyHz) {
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
  public Outcome<DoubleFunction<Measured>> of(
      Waveform truth, double fromSeconds, double toSeconds) {
    Require.present("truth", truth);
    Require.span(fromSeconds, toSeconds);
    Optional<Tones> sines = ToneLines.endless(truth);
    if (sines.isPresent()) {
      return ToneLines.of(sines.get())
          .then(lines -> new Outcome.Taken<>(hz -> new Value(Math.sqrt(2 * lines.meanSquare(hz)))));
    }
    return Lines.of(truth).then(lines -> new Outcome.Taken<>(hz -> in(lines, hz)));
  }

  private static Measured in(Lines lines, double frequencyHz) {
    int order = lines.order(frequencyHz);
    return new Value(order == 0 ? 0 : Math.sqrt(2 * lines.meanSquare(order)));
  }
}
