package org.asmeasured.measure;

import java.util.ArrayList;
import java.util.List;
import org.asmeasured.capture.Record;
import org.asmeasured.internal.Require;
import org.asmeasured.signal.Waveform;

/**
 * Readings that are taken together: what several of them rest on is found once. Each value is, bit
 * for bit, what its reading gives by itself. Nothing is kept from one call to the next. Immutable;
 * may be used by several threads at once.
 */
public final class ReadingGroup {
  private final List<Reading> readings;
  private final List<Analysis<?>> analyses = new ArrayList<>();

  /** For each reading the place of its analysis, -1 of a reading that has none. */
  private final int[] places;

  private ReadingGroup(List<Reading> readings) {
    this.readings = readings;
    places = new int[readings.size()];
    for (int r = 0; r < places.length; r++) {
      places[r] =
          readings.get(r) instanceof AnalysedReading<?> analysed ? place(analysed.analysis()) : -1;
    }
  }

  private int place(Analysis<?> analysis) {
    int place = analyses.indexOf(analysis);
    if (place < 0) {
      place = analyses.size();
      analyses.add(analysis);
    }
    return place;
  }

  /**
   * Puts readings together.
   *
   * @param readings any number, in any order; the same one may come again
   * @return the group
   * @throws NullPointerException if one is missing
   */
  public static ReadingGroup of(List<? extends Reading> readings) {
    Require.present("readings", readings);
    for (Reading reading : readings) {
      Require.present("reading", reading);
    }
    return new ReadingGroup(List.copyOf(readings));
  }

  /**
   * The readings.
   *
   * @return in their order, unmodifiable
   */
  public List<Reading> readings() {
    return readings;
  }

  /**
   * All readings of the stored points.
   *
   * @param record the record
   * @return a value, or the reason why there is none, for each reading in its order; unmodifiable
   * @throws NullPointerException if the record is missing
   */
  public List<Measured> of(Record record) {
    Require.present("record", record);
    Outcome<?>[] found = new Outcome<?>[analyses.size()];
    List<Measured> all = new ArrayList<>(places.length);
    for (int r = 0; r < places.length; r++) {
      int place = places[r];
      if (place < 0) {
        all.add(readings.get(r).of(record));
        continue;
      }
      if (found[place] == null) {
        found[place] = analyses.get(place).of(record);
      }
      all.add(figure(readings.get(r), found[place]));
    }
    return List.copyOf(all);
  }

  /**
   * All readings of a waveform in closed form.
   *
   * @param truth the waveform
   * @param fromSeconds start of the span
   * @param toSeconds end of the span, after its start
   * @return a value, or the reason why there is none, for each reading in its order; unmodifiable
   * @throws IllegalArgumentException if the span is empty or an end of it is not finite
   * @throws NullPointerException if the waveform is missing
   */
  public List<Measured> of(Waveform truth, double fromSeconds, double toSeconds) {
    Spans.check(truth, fromSeconds, toSeconds);
    Outcome<?>[] found = new Outcome<?>[analyses.size()];
    List<Measured> all = new ArrayList<>(places.length);
    for (int r = 0; r < places.length; r++) {
      Reading reading = readings.get(r);
      int place = places[r];
      if (place < 0) {
        all.add(reading.of(truth, fromSeconds, toSeconds));
        continue;
      }
      if (found[place] == null) {
        found[place] = made(analyses.get(place), truth, fromSeconds, toSeconds);
      }
      Outcome<?> outcome = found[place];
      all.add(Spans.taken(truth, fromSeconds, toSeconds, () -> figure(reading, outcome)));
    }
    return List.copyOf(all);
  }

  private static Outcome<?> made(Analysis<?> analysis, Waveform truth, double from, double to) {
    try {
      return analysis.of(truth, from, to);
    } catch (IllegalArgumentException e) {
      return new Outcome.NotTaken<>(e.getMessage());
    }
  }

  /** The outcome is that of an analysis equal to the reading's own, and so of its kind. */
  @SuppressWarnings("unchecked")
  private static Measured figure(Reading reading, Outcome<?> outcome) {
    AnalysedReading<Object> analysed = (AnalysedReading<Object>) reading;
    return ((Outcome<Object>) outcome).read(analysed::figure);
  }

  @Override
  public boolean equals(Object other) {
    return other instanceof ReadingGroup that && readings.equals(that.readings);
  }

  @Override
  public int hashCode() {
    return readings.hashCode();
  }

  @Override
  public String toString() {
    return readings.toString();
  }
}
