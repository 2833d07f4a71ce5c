package org.asmeasured.measure;

import org.asmeasured.capture.Record;
import org.asmeasured.internal.Require;
import org.asmeasured.signal.Waveform;

/** A reading of the product of two channels. */
record ProductReading(Reading reading, String name) implements PairReading {
  ProductReading {
    Require.present("reading", reading);
  }

  static ProductReading of(Reading reading) {
    return new ProductReading(
        reading, Require.present("reading", reading).name() + " of the product");
  }

  @Override
  public String unit() {
    return reading.unit().equals("V") ? "W" : reading.unit();
  }

  @Override
  public Measured of(Record first, Record second) {
    return Pairs.spoilt("product", first, second).orElseGet(() -> reading.of(first.times(second)));
  }

  @Override
  public Measured of(Waveform first, Waveform second, double fromSeconds, double toSeconds) {
    return Pairs.taken(
        first,
        second,
        fromSeconds,
        toSeconds,
        () -> reading.of(new ProductWaveform(first, second), fromSeconds, toSeconds));
  }

  @Override
  public String toString() {
    return name;
  }
}
