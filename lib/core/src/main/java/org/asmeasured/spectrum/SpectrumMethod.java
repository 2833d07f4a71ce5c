package org.asmeasured.spectrum;

import java.lang.ref.SoftReference;
import java.util.stream.Collectors;
import org.asmeasured.capture.Record;
import org.asmeasured.internal.Quantity;
import org.asmeasured.internal.Require;
import org.asmeasured.measure.Outcome;
import org.asmeasured.measure.Outcome.NotTaken;
import org.asmeasured.measure.Outcome.Taken;

/**
 * How a spectrum is taken: the window, whether the mean goes first, and over which segments it is
 * averaged.
 *
 * @param window weights of the points of a segment
 * @param segmentPoints length of a segment, 2 to 2^28 and no less than the window needs; 0 for the
 *     whole record as one
 * @param overlap share of a segment that the next one uses again, 0 to 0.95, rounded to whole
 *     points
 * @param meanRemoved whether the mean of each segment is taken away before it is weighed
 */
public record SpectrumMethod(
    Window window, int segmentPoints, double overlap, boolean meanRemoved) {
  private static final int MAX_POINTS = 1 << 28;

  /**
   * Plans and weights cost as much as a transform or more; the last ones stay with their thread.
   */
  private static final ThreadLocal<SoftReference<SpectrumReader>> LAST = new ThreadLocal<>();

  /**
   * Checks the method.
   *
   * @param window weights of the points of a segment
   * @param segmentPoints length of a segment; 0 for the whole record
   * @param overlap share of a segment that the next one uses again
   * @param meanRemoved whether the mean is taken away first
   * @throws IllegalArgumentException if a value is out of range
   * @throws NullPointerException if the window is missing
   */
  public SpectrumMethod {
    Require.present("window", window);
    if (segmentPoints != 0) {
      Require.inRange("segmentPoints", segmentPoints, window.leastPoints(), MAX_POINTS);
    }
    Require.inRange("overlap", overlap, "", 0, 0.95);
  }

  /**
   * One transform of the whole record as it is.
   *
   * @param window weights
   * @return the method: no segments, mean left in
   * @throws NullPointerException if the window is missing
   */
  public static SpectrumMethod wholeRecord(Window window) {
    return new SpectrumMethod(window, 0, 0, false);
  }

  /**
   * This method with another window.
   *
   * @param value weights
   * @return the changed method
   * @throws IllegalArgumentException if the segments are too short for it
   * @throws NullPointerException if the window is missing
   */
  public SpectrumMethod withWindow(Window value) {
    return new SpectrumMethod(value, segmentPoints, overlap, meanRemoved);
  }

  /**
   * The mean of the power over segments that overlap (P. D. Welch, IEEE Trans. Audio
   * Electroacoustics 15 (1967) 70): wider bins, less scatter.
   *
   * @param points length of a segment, 2 to 2^28 and no less than the window needs
   * @param share share of a segment that the next one uses again, 0 to 0.95
   * @return the changed method
   * @throws IllegalArgumentException if a value is out of range
   */
  public SpectrumMethod withSegments(int points, double share) {
    Require.inRange("points", points, window.leastPoints(), MAX_POINTS);
    return new SpectrumMethod(window, points, share, meanRemoved);
  }

  /**
   * This method with the mean of each segment taken away before it is weighed, so that it does not
   * leak into the lines beside it.
   *
   * @return the changed method
   */
  public SpectrumMethod withMeanRemoved() {
    return new SpectrumMethod(window, segmentPoints, overlap, true);
  }

  /**
   * A reader that keeps its plan and its tables, for one thread.
   *
   * @param points length of a segment, 2 to 2^28 and no less than the window needs; must be the
   *     method's if it has segments
   * @return a new reader
   * @throws IllegalArgumentException if the length is out of range or not the method's
   */
  public SpectrumReader reader(int points) {
    Require.inRange("points", points, window.leastPoints(), MAX_POINTS);
    Require.that(
        segmentPoints == 0 || points == segmentPoints,
        "points = " + points + ": must be segmentPoints = " + segmentPoints + " of the method");
    return new SpectrumReader(this, points);
  }

  /**
   * The spectrum of a record.
   *
   * @param record what was stored
   * @return the spectrum, or why there is none: nothing recorded, an envelope, too few points
   * @throws NullPointerException if the record is missing
   */
  public Outcome<Spectrum> of(Record record) {
    Require.present("record", record);
    if (record.size() == 0) {
      return new NotTaken<>(
          record.notes().entrySet().stream()
              .map(note -> note.getKey() + ": " + note.getValue())
              .collect(Collectors.joining("; ", "nothing was recorded (", ")")));
    }
    if (record.isEnvelope()) {
      return new NotTaken<>(
          "an envelope stores the least and the greatest value of each interval, and does not say when: "
              + "it has no spectrum");
    }
    return of(record.volts(), record.rateHz());
  }

  /**
   * The spectrum of values at equal distances.
   *
   * @param volts the values, each -1e9 to 1e9 V, at most 2^28
   * @param rateHz values a second, 1e-9 to 1e15 Hz
   * @return the spectrum, or why there is none: too few values
   * @throws IllegalArgumentException if the rate or a value is out of range
   * @throws NullPointerException if there is no array
   */
  public Outcome<Spectrum> of(double[] volts, double rateHz) {
    Require.present("volts", volts);
    Require.hertz("rateHz", rateHz);
    Require.inRange("volts.length", volts.length, 0, MAX_POINTS);
    double largest = 0;
    for (int i = 0; i < volts.length; i++) {
      double modulus = Math.abs(volts[i]);
      if (!(modulus <= 1e9)) {
        Require.volts("volts[" + i + "]", volts[i]);
      }
      largest = Math.max(largest, modulus);
    }
    int needed = segmentPoints == 0 ? window.leastPoints() : segmentPoints;
    if (volts.length < needed) {
      return new NotTaken<>(
          volts.length
              + (volts.length == 1 ? " point is" : " points are")
              + " too few: "
              + (segmentPoints == 0 ? "a window \"" + window + "\"" : "a segment")
              + " needs "
              + needed);
    }
    SpectrumReader reader = kept(segmentPoints == 0 ? volts.length : segmentPoints);
    double[] meanSquares = new double[reader.bins()];
    int segments = reader.read(volts, 0, volts.length, meanSquares);
    double[] packed = segments == 1 ? reader.packed() : null;
    return new Taken<>(
        new Spectrum(this, rateHz, reader.segmentPoints(), segments, meanSquares, packed, largest));
  }

  private SpectrumReader kept(int points) {
    SoftReference<SpectrumReader> last = LAST.get();
    SpectrumReader reader = last == null ? null : last.get();
    if (reader == null || reader.segmentPoints() != points || !reader.method().equals(this)) {
      reader = new SpectrumReader(this, points);
      LAST.set(new SoftReference<>(reader));
    }
    return reader;
  }

  @Override
  public String toString() {
    String words = "window " + window;
    if (meanRemoved) {
      words += ", mean removed";
    }
    if (segmentPoints > 0) {
      words +=
          ", segments of "
              + segmentPoints
              + " points that overlap by "
              + Quantity.of(100 * overlap, "%");
    }
    return words;
  }
}
