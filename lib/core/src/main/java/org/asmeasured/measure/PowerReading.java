package org.asmeasured.measure;

import org.asmeasured.capture.Record;
import org.asmeasured.measure.Measured.NotTaken;
import org.asmeasured.measure.Measured.Value;
import org.asmeasured.signal.Waveform;

/** What a voltage and a current come to. */
record PowerReading(Which which) implements PairReading {

  enum Which {
    MEAN_POWER("mean power", "W"),
    ENERGY("energy", "J"),
    APPARENT_POWER("apparent power", "VA"),
    POWER_FACTOR("power factor", "");

    private final String words;
    private final String unit;

    Which(String words, String unit) {
      this.words = words;
      this.unit = unit;
    }
  }

  @Override
  public String name() {
    return which.words;
  }

  @Override
  public String unit() {
    return which.unit;
  }

  @Override
  public Measured of(Record first, Record second) {
    return Pairs.spoilt(name(), first, second)
        .orElseGet(
            () -> {
              PairSums sums = new PairSums(first, second);
              return of(sums.meanProduct(), sums.productOfRms(), first.spanSeconds());
            });
  }

  @Override
  public Measured of(Waveform first, Waveform second, double fromSeconds, double toSeconds) {
    return Pairs.taken(
        first,
        second,
        fromSeconds,
        toSeconds,
        () ->
            of(
                which == Which.APPARENT_POWER
                    ? 0
                    : new ProductWaveform(first, second).mean(fromSeconds, toSeconds),
                first.rms(fromSeconds, toSeconds) * second.rms(fromSeconds, toSeconds),
                toSeconds - fromSeconds));
  }

  private Measured of(double watts, double apparent, double seconds) {
    return switch (which) {
      case MEAN_POWER -> new Value(watts);
      case ENERGY -> new Value(watts * seconds);
      case APPARENT_POWER -> new Value(apparent);
      case POWER_FACTOR ->
          apparent == 0
              ? new NotTaken("there is no apparent power to relate the mean power to")
              : new Value(watts / apparent);
    };
  }

  @Override
  public String toString() {
    return name();
  }
}
