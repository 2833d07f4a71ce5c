package org.asmeasured.pulse;

import org.asmeasured.internal.Require;
import org.asmeasured.measure.AnalysedReading;
import org.asmeasured.measure.Analysis;
import org.asmeasured.measure.Measured;

/** A quantity of pulses as a reading. */
record PulseReading(PulseQuantity quantity, PulseMethod method, Summary summary)
    implements AnalysedReading<PulseAnalysis> {
  PulseReading {
    Require.present("quantity", quantity);
    Require.present("method", method);
    Require.present("summary", summary);
  }

  @Override
  public String name() {
    return quantity.words();
  }

  @Override
  public String unit() {
    return quantity.unit();
  }

  @Override
  public Analysis<PulseAnalysis> analysis() {
    return method;
  }

  @Override
  public Measured figure(PulseAnalysis found) {
    return found.value(quantity, summary);
  }

  @Override
  public String toString() {
    StringBuilder words = new StringBuilder();
    if (summary != quantity.summary()) {
      words.append(summary.words()).append(" of ");
    }
    words.append(name());
    if (method.levels().areGiven()) {
      words.append(" between ").append(method.levels());
    } else if (!method.equals(PulseMethod.standard())) {
      words.append(" (").append(method).append(')');
    }
    return words.toString();
  }
}
