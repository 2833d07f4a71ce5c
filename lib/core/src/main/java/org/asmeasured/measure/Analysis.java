package org.asmeasured.measure;

import org.asmeasured.capture.Record;
import org.asmeasured.signal.Waveform;

/**
 * What several readings rest on: one definition, applied to a record and to the truth. Open. An
 * implementation is an immutable value: equal ones find the same, so that a {@link ReadingGroup}
 * needs to make only one of them.
 *
 * @param <A> what is found; immutable
 */
public interface Analysis<A> {

  /**
   * The analysis of the stored points.
   *
   * @param record the record
   * @return what was found, or the reason why nothing was
   * @throws NullPointerException if the record is missing
   */
  Outcome<A> of(Record record);

  /**
   * The same analysis of a waveform in closed form.
   *
   * @param truth the waveform
   * @param fromSeconds start of the span
   * @param toSeconds end of the span, after its start
   * @return what was found, or the reason why nothing was
   * @throws IllegalArgumentException if the span is empty or an end of it is not finite
   * @throws NullPointerException if the waveform is missing
   */
  Outcome<A> of(Waveform truth, double fromSeconds, double toSeconds);
}
