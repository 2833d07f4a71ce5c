package org.asmeasured.pulse;

import org.asmeasured.capture.Record;
import org.asmeasured.signal.Waveform;

/**
 * How the levels of the two states are found: one definition for the points of a record and for a
 * waveform in closed form. Open: a method of your own says both. An implementation is immutable.
 */
public interface StateLevels {
  /** Bins of a histogram unless said otherwise. */
  int DEFAULT_BINS = 256;

  /**
   * The levels of a record.
   *
   * @param record neither empty nor an envelope
   * @return the levels; equal if all values are
   */
  States of(Record record);

  /**
   * The levels of a waveform.
   *
   * @param truth the waveform
   * @param fromSeconds start of the span
   * @param toSeconds end of the span, after its start
   * @return the levels; equal if all values are
   * @throws IllegalArgumentException if the span is empty, or has more pieces than are looked at
   */
  States of(Waveform truth, double fromSeconds, double toSeconds);

  /**
   * Whether the levels were told and do not rest on the record, so that clipping cannot spoil them.
   *
   * @return false unless overridden
   */
  default boolean areGiven() {
    return false;
  }

  /**
   * The mode of each half of the histogram, with 256 bins; of a record with at most 1024 codes in
   * its range, with one bin for each code. See {@link #histogramMode(int)}.
   *
   * @return the method, which is the one used unless another is asked for
   */
  static StateLevels histogramMode() {
    return HistogramMode.DEFAULT;
  }

  /**
   * The mode of each half of the histogram.
   *
   * <p>The range from the least to the greatest value is cut into bins of equal width, each with
   * its lower edge, the last with both. The lower half of them holds the low state, the upper half
   * the high one; the middle one of an odd number neither. In each half the fullest bin is the
   * mode, of equally full ones the outermost, and the level is the median of the values in it. Of a
   * waveform a bin holds the time spent in it.
   *
   * <p>A mode that does not stand out is no state; then the extreme of that half is its level. It
   * stands out if it holds more than m + max(5 sqrt(m), m min(1, b/32)) values, where m is the mean
   * over the b bins of the half; of a waveform, more than twice the mean time.
   *
   * @param bins 2 to 65 536
   * @return the method
   * @throws IllegalArgumentException if the number is out of range
   */
  static StateLevels histogramMode(int bins) {
    return new HistogramMode(bins, false);
  }

  /**
   * The mean of the values below the middle of the range, and of those at or above it. Values on
   * the edges pull both levels inwards.
   *
   * @return the method
   */
  static StateLevels histogramMean() {
    return HistogramMean.ONE;
  }

  /**
   * The least and the greatest value. Noise and aberrations push both levels outwards.
   *
   * @return the method
   */
  static StateLevels peakMagnitude() {
    return PeakMagnitude.ONE;
  }

  /**
   * Levels that are known beforehand.
   *
   * @param lowVolts the low state, -1e9 to 1e9 V
   * @param highVolts the high state, above the other, -1e9 to 1e9 V
   * @return the method
   * @throws IllegalArgumentException if a level is out of range or the second is not above the
   *     first
   */
  static StateLevels given(double lowVolts, double highVolts) {
    return new GivenLevels(lowVolts, highVolts);
  }
}
