package org.asmeasured.accuracy;

import org.asmeasured.accuracy.Sensitivity.Move;
import org.asmeasured.capture.Setup;
import org.asmeasured.signal.Signal;

/**
 * The signal of a measurement, moved both ways by several sizes. Sizes differ so that the steps of
 * a converter do not meet all of them alike.
 */
final class MovedSignal {
  /** How many sizes there are. */
  static final int SIZES = 8;

  private static final double ROUNDING = 1e-12;
  private static final double LEAST = 0.05;
  private static final double MOST = 0.15;

  private final Measurement asked;
  private final long seed;
  private final double from;
  private final double to;
  private final double mean;
  private final double alternating;
  private final double shift;

  /**
   * Of a measurement.
   *
   * @param asked the signal, and the setup over the span of whose record truths are taken
   * @param captured by which setup it is captured
   * @param seed of the acquisitions that place the span where a trigger does
   */
  MovedSignal(Measurement asked, Setup captured, long seed) {
    this.asked = asked;
    this.seed = seed;
    Signal signal = asked.signal();
    from = from(signal);
    to = from + asked.setup().spanSeconds();
    mean = signal.mean(from, to);
    double rest = signal.plus(-mean).rms(from, to);
    // what the rounding of the mean leaves over of a still voltage does not vary
    alternating = rest > ROUNDING * Math.abs(mean) ? rest : 0;
    // a trigger's level must stay within the signal
    shift =
        captured.trigger().isPresent() && alternating > 0
            ? alternating
            : captured.vertical().fullScaleVolts() / 2;
  }

  private double from(Signal signal) {
    Setup setup = asked.setup();
    return setup.trigger().isEmpty()
        ? setup.startSeconds()
        : setup.capture(signal, seed).startSeconds();
  }

  /** Start of the span over which the truth of a moved signal is taken. */
  double startSeconds(Signal moved) {
    return asked.setup().trigger().isEmpty() ? from : from(moved);
  }

  double spanSeconds() {
    return asked.setup().spanSeconds();
  }

  /** As it stands. */
  Signal signal() {
    return asked.signal();
  }

  /** The share by which a size moves. */
  static double share(int size) {
    return LEAST + (MOST - LEAST) * size / (SIZES - 1);
  }

  /** By how much a share of 1 would move: volts (RMS), or 1 for a stretch. */
  double whole(Move move) {
    return switch (move) {
      case SPREAD -> alternating;
      case SHIFT -> shift;
      case STRETCH -> 1;
    };
  }

  /**
   * The signal moved.
   *
   * @throws IllegalArgumentException if there is no such signal
   */
  Signal moved(Move move, int size, int way) {
    double share = way * share(size);
    Signal signal = asked.signal();
    return switch (move) {
      case SPREAD -> signal.times(1 + share).plus(-share * mean);
      case SHIFT -> signal.plus(share * shift);
      case STRETCH -> signal.stretchedBy(1 + share).delayedBy(-share * still());
    };
  }

  /** What stays where it is while time is stretched, so that little leaves the record. */
  private double still() {
    return from < 0 && to > 0 ? 0 : from + (to - from) / 2;
  }
}
