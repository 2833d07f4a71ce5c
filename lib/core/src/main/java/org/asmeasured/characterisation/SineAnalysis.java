package org.asmeasured.characterisation;

import org.asmeasured.capture.Record;
import org.asmeasured.measure.Analysis;
import org.asmeasured.measure.Outcome;
import org.asmeasured.signal.Waveform;

/** The fit of a sine with four parameters, of a record and of a waveform. */
enum SineAnalysis implements Analysis<SineFigures> {
  ONE;

  @Override
  public Outcome<SineFigures> of(Record record) {
    return SineFit.fourParameters(record).then(fit -> new Outcome.Taken<>(SineFigures.of(fit)));
  }

  @Override
  public Outcome<SineFigures> of(Waveform truth, double fromSeconds, double toSeconds) {
    return WaveformSine.fit(truth, fromSeconds, toSeconds);
  }
}
