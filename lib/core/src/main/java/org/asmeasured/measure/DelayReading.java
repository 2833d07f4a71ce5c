package org.asmeasured.measure;

import java.util.List;
import org.asmeasured.acquisition.Slope;
import org.asmeasured.capture.Record;
import org.asmeasured.measure.Measured.Value;
import org.asmeasured.signal.Waveform;

/** How much later the edges of the second channel are; over one or both directions. */
final class DelayReading implements PairReading {
  private final String name;
  private final List<Edges> first;
  private final List<Edges> second;

  /** Edges of one channel against those of the other, each in its turn; the mean of all. */
  private DelayReading(String name, List<Edges> first, List<Edges> second) {
    this.name = name;
    this.first = first;
    this.second = second;
  }

  static DelayReading between(Edges first, Edges second) {
    return new DelayReading("delay", List.of(first), List.of(second));
  }

  static DelayReading skew() {
    List<Edges> both = List.of(Edges.midway(Slope.RISING), Edges.midway(Slope.FALLING));
    return new DelayReading("skew", both, both);
  }

  @Override
  public String name() {
    return name;
  }

  @Override
  public String unit() {
    return "s";
  }

  @Override
  public Measured of(Record one, Record other) {
    return Pairs.spoilt(name, one, other)
        .orElseGet(
            () ->
                mean(
                    first.stream().map(e -> e.of(one)).toList(),
                    second.stream().map(e -> e.of(other)).toList()));
  }

  @Override
  public Measured of(Waveform one, Waveform other, double fromSeconds, double toSeconds) {
    return Pairs.taken(
        one,
        other,
        fromSeconds,
        toSeconds,
        () ->
            mean(
                first.stream().map(e -> e.of(one, fromSeconds, toSeconds)).toList(),
                second.stream().map(e -> e.of(other, fromSeconds, toSeconds)).toList()));
  }

  /** Of directions that one of the channels lacks, nothing, as long as another is there. */
  private static Measured mean(List<Edges.Found> one, List<Edges.Found> other) {
    double sum = 0;
    int directions = 0;
    Measured reason = null;
    for (int i = 0; i < one.size(); i++) {
      if (one.get(i).isNone()) {
        reason = Pairs.of("the first", one.get(i).reason());
      } else if (other.get(i).isNone()) {
        reason = Pairs.of("the second", other.get(i).reason());
      } else {
        Measured delay = Edges.delay(one.get(i).seconds(), other.get(i).seconds());
        if (delay instanceof Value taken) {
          sum += taken.value();
          directions++;
        } else {
          reason = delay;
        }
      }
    }
    return directions == 0 ? reason : new Value(sum / directions);
  }

  @Override
  public boolean equals(Object other) {
    return other instanceof DelayReading that
        && name.equals(that.name)
        && first.equals(that.first)
        && second.equals(that.second);
  }

  @Override
  public int hashCode() {
    return 31 * (31 * name.hashCode() + first.hashCode()) + second.hashCode();
  }

  @Override
  public String toString() {
    if (first.size() > 1) {
      return name;
    }
    return name + " from " + words(first.get(0)) + " to " + words(second.get(0));
  }

  private static String words(Edges edges) {
    return edges.slope()
        + " edges"
        + (edges.levelVolts().isPresent()
            ? " at " + new Value(edges.levelVolts().getAsDouble()).in("V")
            : "");
  }
}
