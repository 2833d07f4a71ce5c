package org.asmeasured.measure;

import org.asmeasured.capture.Record;
import org.asmeasured.signal.Waveform;

/**
 * One definition, applied to a record and to the truth. Open: a reading of your own says its name
 * and unit, and both definitions. An implementation is immutable.
 */
public interface Reading {

  /**
   * The reading as a person would say it, in a few words.
   *
   * @return not empty
   */
  String name();

  /**
   * The SI unit of the value.
   *
   * @return V, s, ...; empty for a plain number
   */
  String unit();

  /**
   * The reading of the stored points.
   *
   * @param record the record
   * @return a value, or the reason why there is none
   */
  Measured of(Record record);

  /**
   * The same reading of a waveform in closed form, never of a finer sampling.
   *
   * @param truth the waveform
   * @param fromSeconds start of the span
   * @param toSeconds end of the span, after its start
   * @return a value, or the reason why there is none
   * @throws IllegalArgumentException if the span is empty or an end of it is not finite
   */
  Measured of(Waveform truth, double fromSeconds, double toSeconds);
}
