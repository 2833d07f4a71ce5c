package org.asmeasured.signal;

import java.util.Optional;
import java.util.OptionalDouble;
import org.asmeasured.internal.Extremes;

/**
 * A function of time that a reading can be taken of exactly: a {@link Signal}, or what a linear
 * system makes of one.
 *
 * <p>Values are volts. At a jump {@link #valueAt} gives the value after it and {@link #valueBefore}
 * the one before it.
 */
public interface Waveform {

  /**
   * The value at an instant; at a jump, the value after it.
   *
   * @param timeSeconds any finite instant
   * @return volts
   */
  double valueAt(double timeSeconds);

  /**
   * The value at an instant sharper than a double, where the waveform can tell it.
   *
   * @param hi seconds
   * @param lo seconds left over by {@code hi}
   * @return volts; at a jump, the value after it
   */
  default double valueAt(double hi, double lo) {
    return valueAt(hi + lo);
  }

  /**
   * The limit from the left: differs from {@link #valueAt} at jumps only.
   *
   * @param timeSeconds any finite instant
   * @return volts
   */
  double valueBefore(double timeSeconds);

  /**
   * Instants that cut a span into pieces on which the waveform is smooth and turns at most a
   * quarter of a cycle of its fastest component still alive there. Every jump and every kink inside
   * the span is among them.
   *
   * @param fromSeconds start of the span
   * @param toSeconds end of the span, after its start
   * @return ascending instants; the first is the start, the last is the end
   */
  double[] knots(double fromSeconds, double toSeconds);

  /**
   * The shortest time after which the waveform repeats itself for ever.
   *
   * @return seconds, or empty where there is none (a constant has none) or where it is more than
   *     4096 times as long as the period of one of the parts
   */
  OptionalDouble periodSeconds();

  /**
   * The waveform as a constant and sines, where it is nothing else: it then has lines even if it
   * does not repeat, and sums over any span in closed form.
   *
   * @return the sines; empty where it is something else, or does not say
   */
  default Optional<Tones> asTones() {
    return Optional.empty();
  }

  /**
   * The mean over a span.
   *
   * @param fromSeconds start of the span
   * @param toSeconds end of the span, after its start
   * @return volts
   */
  double mean(double fromSeconds, double toSeconds);

  /**
   * The root of the mean square over a span.
   *
   * @param fromSeconds start of the span
   * @param toSeconds end of the span, after its start
   * @return volts
   */
  double rms(double fromSeconds, double toSeconds);

  /**
   * The least value over a closed span, limits at jumps included.
   *
   * @param fromSeconds start of the span
   * @param toSeconds end of the span, after its start
   * @return volts
   */
  default double minimum(double fromSeconds, double toSeconds) {
    return -Extremes.maximum(t -> -valueAt(t), t -> -valueBefore(t), knots(fromSeconds, toSeconds));
  }

  /**
   * The greatest value over a closed span, limits at jumps included.
   *
   * @param fromSeconds start of the span
   * @param toSeconds end of the span, after its start
   * @return volts
   */
  default double maximum(double fromSeconds, double toSeconds) {
    return Extremes.maximum(this::valueAt, this::valueBefore, knots(fromSeconds, toSeconds));
  }
}
