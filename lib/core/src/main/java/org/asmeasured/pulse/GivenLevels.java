package org.asmeasured.pulse;

import org.asmeasured.capture.Record;
import org.asmeasured.internal.Quantity;
import org.asmeasured.internal.Require;
import org.asmeasured.signal.Waveform;

/** Levels that are known beforehand. */
record GivenLevels(double lowVolts, double highVolts) implements StateLevels {
  GivenLevels {
    Require.volts("lowVolts", lowVolts);
    Require.volts("highVolts", highVolts);
    Require.that(
        lowVolts < highVolts,
        "lowVolts = "
            + lowVolts
            + " V, highVolts = "
            + highVolts
            + " V: the second must be above the first");
  }

  @Override
  public States of(Record record) {
    return new States(lowVolts, highVolts);
  }

  @Override
  public States of(Waveform truth, double fromSeconds, double toSeconds) {
    return new States(lowVolts, highVolts);
  }

  @Override
  public boolean areGiven() {
    return true;
  }

  @Override
  public String toString() {
    return Quantity.of(lowVolts, "V") + " and " + Quantity.of(highVolts, "V");
  }
}
