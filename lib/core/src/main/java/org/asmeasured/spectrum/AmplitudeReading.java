package org.asmeasured.spectrum;

import java.util.function.DoubleFunction;
import org.asmeasured.internal.Quantity;
import org.asmeasured.internal.Require;
import org.asmeasured.measure.AnalysedReading;
import org.asmeasured.measure.Analysis;
import org.asmeasured.measure.Measured;

/** The amplitude of the cosine at a frequency. */
record AmplitudeReading(SpectrumMethod method, double frequencyHz)
    implements AnalysedReading<DoubleFunction<Measured>> {

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
  public Analysis<DoubleFunction<Measured>> analysis() {
    return new AmplitudeAnalysis(method);
  }

  @Override
  public Measured figure(DoubleFunction<Measured> found) {
    return found.apply(frequencyHz);
  }

  @Override
  public String toString() {
    return name() + " (" + method + ")";
  }
}
