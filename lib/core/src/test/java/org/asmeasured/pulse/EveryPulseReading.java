package org.asmeasured.pulse;

import java.util.ArrayList;
import java.util.List;
import org.asmeasured.capture.Record;
import org.asmeasured.measure.Reading;
import org.asmeasured.signal.Waveform;

/** Every quantity by every way to find states, by every summary, and at levels of its own. */
public final class EveryPulseReading {
  static final List<StateLevels> LEVELS =
      List.of(
          StateLevels.histogramMode(),
          StateLevels.histogramMode(7),
          StateLevels.histogramMean(),
          StateLevels.peakMagnitude(),
          StateLevels.given(-0.1, 0.6),
          new Thirds());

  private EveryPulseReading() {}

  /** A method as a user would write it. */
  private record Thirds() implements StateLevels {
    @Override
    public States of(Record record) {
      return inner(PeakMagnitude.ONE.of(record));
    }

    @Override
    public States of(Waveform truth, double fromSeconds, double toSeconds) {
      return inner(PeakMagnitude.ONE.of(truth, fromSeconds, toSeconds));
    }

    private static States inner(States s) {
      return new States(s.atPercent(100.0 / 3), Math.max(s.atPercent(100.0 / 3), s.atPercent(70)));
    }
  }

  public static List<Reading> all() {
    List<Reading> all = new ArrayList<>();
    for (PulseQuantity quantity : PulseQuantity.values()) {
      for (StateLevels levels : LEVELS) {
        all.add(PulseReadings.of(quantity, PulseMethod.standard().levels(levels)));
      }
      for (Summary summary : Summary.values()) {
        all.add(PulseReadings.of(quantity, PulseMethod.standard(), summary));
      }
      all.add(
          PulseReadings.of(
              quantity,
              PulseMethod.standard()
                  .references(ReferenceLevels.volts(-0.3, 0, 0.2))
                  .hysteresis(0)
                  .region(0)
                  .flat(1)));
    }
    return all;
  }
}
