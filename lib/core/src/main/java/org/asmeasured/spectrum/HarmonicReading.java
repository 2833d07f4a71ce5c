package org.asmeasured.spectrum;

import java.util.function.Function;
import org.asmeasured.internal.Quantity;
import org.asmeasured.internal.Require;
import org.asmeasured.measure.AnalysedReading;
import org.asmeasured.measure.Analysis;
import org.asmeasured.measure.Measured;

/** A figure of {@link Harmonics}; a full scale of 0 means none is given. */
record HarmonicReading(Kind kind, HarmonicMethod method, double fullScaleVolts)
    implements AnalysedReading<Harmonics> {

  enum Kind {
    THD("THD", "", Harmonics::thd),
    NOISE_AND_DISTORTION("noise and distortion", "V", Harmonics::noiseAndDistortionVolts),
    SINAD("SINAD", "dB", Harmonics::sinadDb),
    SNR("SNR", "dB", Harmonics::snrDb),
    SFDR("SFDR", "dB", Harmonics::sfdrDb),
    NOISE_FLOOR("noise floor", "V/sqrt(Hz)", Harmonics::noiseFloor),
    EFFECTIVE_BITS("effective bits", "bit", Harmonics::effectiveBits),
    FREQUENCY(
        "frequency of the fundamental",
        "Hz",
        h -> new Measured.Value(h.fundamental().frequencyHz())),
    AMPLITUDE(
        "amplitude of the fundamental", "V", h -> new Measured.Value(h.fundamental().peakVolts()));

    private final String words;
    private final String unit;
    private final Function<Harmonics, Measured> figure;

    Kind(String words, String unit, Function<Harmonics, Measured> figure) {
      this.words = words;
      this.unit = unit;
      this.figure = figure;
    }
  }

  HarmonicReading {
    Require.present("method", method);
  }

  @Override
  public String name() {
    return kind.words;
  }

  @Override
  public String unit() {
    return kind.unit;
  }

  @Override
  public Analysis<Harmonics> analysis() {
    return method;
  }

  @Override
  public Measured figure(Harmonics harmonics) {
    return fullScaleVolts > 0
        ? harmonics.effectiveBits(fullScaleVolts)
        : kind.figure.apply(harmonics);
  }

  @Override
  public String toString() {
    return name()
        + (fullScaleVolts > 0 ? " of " + Quantity.of(fullScaleVolts, "V") : "")
        + " ("
        + method
        + ")";
  }
}
