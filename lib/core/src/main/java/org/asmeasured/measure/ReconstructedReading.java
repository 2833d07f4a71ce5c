package org.asmeasured.measure;

import org.asmeasured.acquisition.Reconstruction;
import org.asmeasured.capture.Record;
import org.asmeasured.internal.Require;
import org.asmeasured.measure.Outcome.NotTaken;
import org.asmeasured.signal.Waveform;

/**
 * A reading of the record with values between its points; of a waveform, the reading itself.
 *
 * @param <A> what the reading rests on
 */
record ReconstructedReading<A>(AnalysedReading<A> reading, Reconstructed<A> analysis)
    implements AnalysedReading<A> {

  static Reading of(Reading reading, Reconstruction reconstruction, int factor) {
    Require.present("reading", reading);
    return reading instanceof AnalysedReading<?> analysed
        ? over(analysed, reconstruction, factor)
        : over(new Alone(reading), reconstruction, factor);
  }

  private static <A> Reading over(
      AnalysedReading<A> reading, Reconstruction reconstruction, int factor) {
    return new ReconstructedReading<>(
        reading, new Reconstructed<>(reading.analysis(), reconstruction, factor));
  }

  @Override
  public String name() {
    return reading.name();
  }

  @Override
  public String unit() {
    return reading.unit();
  }

  @Override
  public Measured figure(A found) {
    return reading.figure(found);
  }

  @Override
  public String toString() {
    return reading + " (" + analysis.reconstruction + ", " + analysis.factor + " values a point)";
  }

  /** A reading that rests on nothing but itself. */
  private record Alone(Reading reading) implements AnalysedReading<Measured> {
    @Override
    public String name() {
      return reading.name();
    }

    @Override
    public String unit() {
      return reading.unit();
    }

    @Override
    public Analysis<Measured> analysis() {
      return new Itself(reading);
    }

    @Override
    public Measured figure(Measured found) {
      return found;
    }

    @Override
    public String toString() {
      return reading.toString();
    }
  }

  /** A reading as an analysis of which it is the only figure. */
  private record Itself(Reading reading) implements Analysis<Measured> {
    @Override
    public Outcome<Measured> of(Record record) {
      return new Outcome.Taken<>(reading.of(record));
    }

    @Override
    public Outcome<Measured> of(Waveform truth, double fromSeconds, double toSeconds) {
      return new Outcome.Taken<>(reading.of(truth, fromSeconds, toSeconds));
    }
  }

  /** The analysis of the record with values between its points. */
  record Reconstructed<A>(Analysis<A> analysis, Reconstruction reconstruction, int factor)
      implements Analysis<A> {
    private static final long MOST = 1 << 28;

    Reconstructed {
      Require.present("reconstruction", reconstruction);
      Require.inRange("factor", factor, 1, Reconstruction.MAX_FACTOR);
    }

    @Override
    public Outcome<A> of(Record record) {
      return Spans.empty(record)
          .<Outcome<A>>map(empty -> new NotTaken<>(((Measured.NotTaken) empty).reason()))
          .orElseGet(() -> between(record));
    }

    private Outcome<A> between(Record record) {
      if (record.isEnvelope()) {
        return new NotTaken<>("between the pairs of an envelope nothing can be reconstructed");
      }
      int needed = 1 + 2 * reconstruction.margin();
      if (record.size() < needed) {
        return new NotTaken<>(
            reconstruction + " needs " + needed + " points, and the record has " + record.size());
      }
      if ((long) (record.size() - needed) * factor >= MOST) {
        return new NotTaken<>(
            record.size() + " points of " + factor + " values each are more than can be looked at");
      }
      return analysis.of(record.reconstructed(reconstruction, factor));
    }

    @Override
    public Outcome<A> of(Waveform truth, double fromSeconds, double toSeconds) {
      return analysis.of(truth, fromSeconds, toSeconds);
    }
  }
}
