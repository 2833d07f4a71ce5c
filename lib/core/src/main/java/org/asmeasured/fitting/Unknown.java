package org.asmeasured.fitting;

import java.util.OptionalDouble;
import java.util.OptionalInt;
import org.asmeasured.accuracy.Parameter;
import org.asmeasured.internal.Require;

/**
 * A parameter that a fit is to find.
 *
 * @param parameter which
 * @param lowest the least value that it may have, in its unit, at most 1e200 either way
 * @param highest the greatest value, above the lowest, at most 1e200
 * @param start where the search begins, from the lowest to the highest; empty for the figure that
 *     the measurement states
 * @param recording index of the one recording that it belongs to; empty for a parameter that all
 *     have in common. What belongs to one recording (its start, the true size of its signal) is no
 *     part of what is known of the bench afterwards
 */
public record Unknown(
    Parameter parameter,
    double lowest,
    double highest,
    OptionalDouble start,
    OptionalInt recording) {
  private static final double MAX = 1e200;

  /**
   * Checks the values.
   *
   * @param parameter which
   * @param lowest the least value that it may have, in its unit, at most 1e200 either way
   * @param highest the greatest value, above the lowest, at most 1e200
   * @param start where the search begins, from the lowest to the highest; empty for the figure that
   *     the measurement states
   * @param recording index of the one recording that it belongs to; empty for a parameter that all
   *     have in common
   * @throws IllegalArgumentException if a value is out of range
   * @throws NullPointerException if one is missing
   */
  public Unknown {
    Require.present("parameter", parameter);
    Require.present("start", start);
    Require.present("recording", recording);
    String name = parameter.name();
    Require.inRange("lowest of " + name, lowest, parameter.unit(), -MAX, MAX);
    Require.above("highest of " + name, highest, parameter.unit(), lowest, MAX);
    if (start.isPresent()) {
      Require.inRange("start of " + name, start.getAsDouble(), parameter.unit(), lowest, highest);
    }
    if (recording.isPresent()) {
      Require.inRange("recording of " + name, recording.getAsInt(), 0, ChainFit.MAX_RECORDINGS - 1);
    }
  }

  /**
   * A parameter that all recordings have in common, sought from the figure that they state.
   *
   * @param parameter which
   * @param lowest the least value that it may have, in its unit, at most 1e200 either way
   * @param highest the greatest value, above the lowest, at most 1e200
   * @return the unknown
   * @throws IllegalArgumentException if a value is out of range
   * @throws NullPointerException if the parameter is missing
   */
  public static Unknown of(Parameter parameter, double lowest, double highest) {
    return new Unknown(parameter, lowest, highest, OptionalDouble.empty(), OptionalInt.empty());
  }

  /**
   * The same, sought from another value.
   *
   * @param value from the lowest to the highest
   * @return the changed unknown
   * @throws IllegalArgumentException if it is out of range
   */
  public Unknown from(double value) {
    return new Unknown(parameter, lowest, highest, OptionalDouble.of(value), recording);
  }

  /**
   * The same as a parameter of one recording alone.
   *
   * @param index of the recording, from 0
   * @return the changed unknown
   * @throws IllegalArgumentException if it is out of range
   */
  public Unknown ofRecording(int index) {
    return new Unknown(parameter, lowest, highest, start, OptionalInt.of(index));
  }

  /**
   * What it is called.
   *
   * @return the parameter's name; with the number of its recording, from 1, where it belongs to one
   */
  public String name() {
    return recording.isPresent()
        ? parameter.name() + ", recording " + (recording.getAsInt() + 1)
        : parameter.name();
  }

  boolean concerns(int index) {
    return recording.isEmpty() || recording.getAsInt() == index;
  }

  double clamped(double value) {
    return Math.max(lowest, Math.min(highest, value));
  }
}
