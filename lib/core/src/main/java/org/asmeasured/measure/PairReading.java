package org.asmeasured.measure;

import org.asmeasured.capture.Record;
import org.asmeasured.signal.Waveform;

/**
 * One definition between two channels, applied to two records of the same points and to two truths.
 * Open: a reading of your own says its name and unit, and both definitions. An implementation is
 * immutable.
 */
public interface PairReading {

  /**
   * The reading as a person would say it, in a few words.
   *
   * @return not empty
   */
  String name();

  /**
   * The SI unit of the value.
   *
   * @return s, rad, W, ...; empty for a plain number
   */
  String unit();

  /**
   * The reading of the stored points.
   *
   * @param first a record
   * @param second another of the same points
   * @return a value, or the reason why there is none
   */
  Measured of(Record first, Record second);

  /**
   * The same reading of two waveforms in closed form, never of a finer sampling.
   *
   * @param first a waveform
   * @param second another
   * @param fromSeconds start of the span
   * @param toSeconds end of the span, after its start
   * @return a value, or the reason why there is none
   * @throws IllegalArgumentException if the span is empty or an end of it is not finite
   */
  Measured of(Waveform first, Waveform second, double fromSeconds, double toSeconds);
}
