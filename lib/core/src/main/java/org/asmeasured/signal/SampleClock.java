package org.asmeasured.signal;

import org.asmeasured.internal.Require;

/**
 * Uniform instants: sample {@code k} is taken at {@code startSeconds + k / rateHz}, meant exactly,
 * not as rounded to a double. Whoever evaluates at these instants works from the whole number
 * {@code k}, so sample 10<sup>9</sup> is placed as sharply as sample 0.
 *
 * @param startSeconds the instant of sample 0, in seconds, either sign
 * @param rateHz samples per second, 1e-9 to 1e15
 */
public record SampleClock(double startSeconds, double rateHz) {

  /**
   * Checks the two values.
   *
   * @param startSeconds the instant of sample 0
   * @param rateHz samples per second
   * @throws IllegalArgumentException if either is out of range
   */
  public SampleClock {
    Require.instant("startSeconds", startSeconds);
    Require.hertz("rateHz", rateHz);
  }

  /**
   * The instant of a sample, rounded to the nearest double: for display and for readings near the
   * origin.
   *
   * @param index any sample number
   * @return seconds
   */
  public double timeSeconds(long index) {
    return startSeconds + index / rateHz;
  }

  /**
   * The time between samples.
   *
   * @return seconds, rounded to the nearest double
   */
  public double intervalSeconds() {
    return 1 / rateHz;
  }
}
