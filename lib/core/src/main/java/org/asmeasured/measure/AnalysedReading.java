package org.asmeasured.measure;

import org.asmeasured.capture.Record;
import org.asmeasured.signal.Waveform;

/**
 * A reading that is one figure of an {@link Analysis}. Read by itself it makes the analysis for
 * itself; in a {@link ReadingGroup}, readings of the same analysis share it. Open, as {@link
 * Reading} is.
 *
 * @param <A> what the analysis finds
 */
public interface AnalysedReading<A> extends Reading {

  /**
   * What the reading rests on.
   *
   * @return the analysis; equal for readings that can share it
   */
  Analysis<A> analysis();

  /**
   * The reading, once the analysis is made. May throw an IllegalArgumentException where a waveform
   * refuses to be looked at.
   *
   * @param found by the analysis
   * @return a value, or the reason why there is none
   */
  Measured figure(A found);

  @Override
  default Measured of(Record record) {
    return analysis().of(record).read(this::figure);
  }

  @Override
  default Measured of(Waveform truth, double fromSeconds, double toSeconds) {
    return Spans.taken(
        truth,
        fromSeconds,
        toSeconds,
        () -> analysis().of(truth, fromSeconds, toSeconds).read(this::figure));
  }
}
