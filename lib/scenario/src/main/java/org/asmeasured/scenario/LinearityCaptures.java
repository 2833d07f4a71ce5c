package org.asmeasured.scenario;

import org.asmeasured.capture.Setup;
import org.asmeasured.characterisation.CodeHistogram;
import org.asmeasured.characterisation.RandomNoise;
import org.asmeasured.digitizer.Converter;
import org.asmeasured.internal.CounterRandom;
import org.asmeasured.measure.Measured;
import org.asmeasured.measure.Outcome;
import org.asmeasured.signal.SampleClock;
import org.asmeasured.signal.Signal;

/** The records that go into the histogram of a test of the converter. */
record LinearityCaptures(Signal signal, Setup setup, long seed, int captures) {
  private static final long RECORD = 0x6c696e6561726e01L;
  private static final long PHASE = 0x6c696e6561727002L;
  private static final long NOISE = 0x6c696e6561727303L;

  /** The first capture is the record of the scenario. */
  Outcome<CodeHistogram> histogram() {
    CodeHistogram histogram = CodeHistogram.empty(setup.converter().bits());
    for (int i = 0; i < captures; i++) {
      Signal seen = signal;
      if (i > 0 && beginAnywhere()) {
        double share = CounterRandom.uniform(CounterRandom.key(seed, PHASE), i);
        seen = signal.delayedBy(share * signal.periodSeconds().orElseThrow());
      }
      long key = i == 0 ? seed : CounterRandom.key(CounterRandom.key(seed, RECORD), i);
      var record = setup.capture(seen, key);
      try {
        histogram = histogram.plus(record);
      } catch (IllegalArgumentException e) {
        // nothing recorded, an envelope, or codes of an average, which are not the converter's own
        return new Outcome.NotTaken<>(e.getMessage());
      }
    }
    return new Outcome.Taken<>(histogram);
  }

  /** Whether nothing ties a capture to the signal, and the signal has phases. */
  boolean beginAnywhere() {
    return setup.trigger().isEmpty() && signal.periodSeconds().isPresent();
  }

  /** Stored points a second, with the error of the clock. */
  double storedHz() {
    double raw = setup.sampler().clock(new SampleClock(0, setup.rateHz())).rateHz();
    return raw / setup.decimation().factor();
  }

  /** What is random ahead of the converter, in its steps: from two captures without it. */
  double noiseSteps() {
    if (setup.isRepeatable()) {
      return 0;
    }
    Setup analog = setup.converter(Converter.none());
    long key = CounterRandom.key(seed, NOISE);
    double step = Math.scalb(setup.vertical().fullScaleVolts(), -setup.converter().bits());
    Measured noise =
        RandomNoise.of(
            analog.capture(signal, CounterRandom.key(key, 1)),
            analog.capture(signal, CounterRandom.key(key, 2)));
    return noise instanceof Measured.Value volts ? volts.value() / step : 0;
  }
}
