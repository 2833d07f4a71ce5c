package org.asmeasured.measure;

import org.asmeasured.acquisition.Slope;
import org.asmeasured.capture.Record;
import org.asmeasured.measure.Measured.NotTaken;
import org.asmeasured.measure.Measured.Value;
import org.asmeasured.signal.Waveform;

/** By how much the second channel lags, as an angle of the first one's period. */
final class PhaseReading implements PairReading {
  private static final Edges RISING = Edges.midway(Slope.RISING);

  @Override
  public String name() {
    return "phase lag";
  }

  @Override
  public String unit() {
    return "rad";
  }

  @Override
  public Measured of(Record first, Record second) {
    return Pairs.spoilt(name(), first, second)
        .orElseGet(() -> phase(RISING.of(first), RISING.of(second)));
  }

  @Override
  public Measured of(Waveform first, Waveform second, double fromSeconds, double toSeconds) {
    return Pairs.taken(
        first,
        second,
        fromSeconds,
        toSeconds,
        () ->
            phase(
                RISING.of(first, fromSeconds, toSeconds),
                RISING.of(second, fromSeconds, toSeconds)));
  }

  private static Measured phase(Edges.Found first, Edges.Found second) {
    if (first.isNone()) {
      return Pairs.of("the first", first.reason());
    }
    if (second.isNone()) {
      return Pairs.of("the second", second.reason());
    }
    double[] instants = first.seconds();
    int cycles = instants.length - 1;
    if (cycles < 1) {
      return new NotTaken("the first of the two: only one rising crossing: no whole cycle");
    }
    double period = (instants[cycles] - instants[0]) / cycles;
    // the mean of directions, for a mean of angles about half a turn would be anything
    double cosines = 0;
    double sines = 0;
    for (double instant : second.seconds()) {
      double angle = 2 * Math.PI * (instant - instants[Edges.nearest(instants, instant)]) / period;
      cosines += Math.cos(angle);
      sines += Math.sin(angle);
    }
    return cosines == 0 && sines == 0
        ? new NotTaken("the crossings of the second of the two stand in no relation to the first's")
        : new Value(Math.atan2(sines, cosines));
  }

  @Override
  public String toString() {
    return name();
  }
}
