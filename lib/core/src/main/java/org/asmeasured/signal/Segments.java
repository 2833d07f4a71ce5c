package org.asmeasured.signal;

import org.asmeasured.internal.ExtendedTime;
import org.asmeasured.internal.Require;

/**
 * Builds a signal segment by segment, for shapes that no method of {@link Signals} has.
 *
 * <p>On a segment, with u the time since its start, the value is {@code level + slope u + sum over
 * its terms of exp(growth u) (cosine cos(2 pi f u) + sine sin(2 pi f u))}. Segments follow one
 * another; the last lasts until the period is over, or for ever. For one thread.
 */
public final class Segments {
  private final Pattern.Builder builder = new Pattern.Builder();

  /** Nothing yet. */
  public Segments() {}

  /**
   * The number of segments so far.
   *
   * @return 0 or more
   */
  public int count() {
    return builder.count();
  }

  /**
   * Adds a segment.
   *
   * @param startSeconds when it starts, after the start of the first, which starts at 0; 0 to 1e12
   *     s, ascending
   * @param levelVolts value at its start without the terms, -1e9 to 1e9 V
   * @param slopeVoltsPerSecond slope without the terms, finite
   * @return this
   * @throws IllegalArgumentException if a value is out of range
   */
  public Segments add(double startSeconds, double levelVolts, double slopeVoltsPerSecond) {
    Require.inRange("startSeconds", startSeconds, "s", 0, 1e12);
    Require.volts("levelVolts", levelVolts);
    Require.inRange("slopeVoltsPerSecond", slopeVoltsPerSecond, "V/s", -1e30, 1e30);
    Require.that(
        builder.count() > 0 || startSeconds == 0,
        "startSeconds = " + startSeconds + " s: the first segment must start at 0 s");
    builder.add(startSeconds, 0, levelVolts, slopeVoltsPerSecond);
    return this;
  }

  /**
   * Adds an exponential term to the segment added last.
   *
   * @param cosineVolts cosine amplitude, -1e9 to 1e9 V
   * @param sineVolts sine amplitude, -1e9 to 1e9 V; has no effect at frequency 0
   * @param growthPerSecond rate of growth, -1e18 to 0 1/s: a decay
   * @param frequencyHz 0 to 1e15 Hz
   * @return this
   * @throws IllegalArgumentException if a value is out of range
   * @throws IllegalStateException if there is no segment yet
   */
  public Segments term(
      double cosineVolts, double sineVolts, double growthPerSecond, double frequencyHz) {
    if (builder.count() == 0) {
      throw new IllegalStateException("a term without a segment");
    }
    Require.volts("cosineVolts", cosineVolts);
    Require.volts("sineVolts", sineVolts);
    Require.inRange("growthPerSecond", growthPerSecond, "1/s", -1e18, 0);
    Require.inRange("frequencyHz", frequencyHz, "Hz", 0, 1e15);
    builder.term(cosineVolts, frequencyHz == 0 ? 0 : sineVolts, growthPerSecond, frequencyHz);
    return this;
  }

  /**
   * The segments played once: zero before the first.
   *
   * @param originSeconds when the first starts, -1e12 to 1e12 s
   * @param words how a person would say it
   * @return the signal
   * @throws IllegalArgumentException if the origin is out of range, or segments do not follow one
   *     another
   * @throws IllegalStateException if there is no segment
   */
  public Signal once(double originSeconds, String words) {
    Require.instant("originSeconds", originSeconds);
    Require.present("words", words);
    mustHaveSome();
    return Signal.of(builder.once(originSeconds, 0), words);
  }

  /**
   * The segments repeated for ever, both ways.
   *
   * @param originSeconds when a period starts, -1e12 to 1e12 s
   * @param periodSeconds length of a period, longer than the start of the last segment; leading
   *     part
   * @param periodRest what the leading part leaves over, so that late periods stay in place; 0 if
   *     it is exact
   * @param words how a person would say it
   * @return the signal
   * @throws IllegalArgumentException if a value is out of range, or segments do not follow one
   *     another within the period
   * @throws IllegalStateException if there is no segment
   */
  public Signal repeated(
      double originSeconds, double periodSeconds, double periodRest, String words) {
    Require.instant("originSeconds", originSeconds);
    Require.duration("periodSeconds", periodSeconds);
    Require.inRange(
        "periodRest", periodRest, "s", -Math.ulp(periodSeconds), Math.ulp(periodSeconds));
    Require.present("words", words);
    mustHaveSome();
    return Signal.of(
        builder.repeated(originSeconds, 0, new ExtendedTime().set(periodSeconds, periodRest)),
        words);
  }

  private void mustHaveSome() {
    if (builder.count() == 0) {
      throw new IllegalStateException("no segment was added");
    }
  }
}
