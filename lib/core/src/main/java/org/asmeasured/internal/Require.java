package org.asmeasured.internal;

import java.util.function.Supplier;

/**
 * The checks at the door. Every message has one grammar: parameter, value with its unit, allowed
 * range with the unit.
 *
 * <p>The ranges below are far wider than any bench, and narrow enough that no later product of two
 * parameters overflows.
 */
public final class Require {
  private static final double MAX_VOLTS = 1e9;
  private static final double MIN_HERTZ = 1e-9;
  private static final double MAX_HERTZ = 1e15;
  private static final double MIN_SECONDS = 1e-18;
  private static final double MAX_SECONDS = 1e12;

  private Require() {}

  /** Refuses null. */
  public static <T> T present(String name, T value) {
    // no lambda: it would be an object for every call
    if (value == null) {
      throw new NullPointerException(name + " = null: must be given");
    }
    return value;
  }

  /** A finite value within [min, max]. */
  public static double inRange(String name, double value, String unit, double min, double max) {
    if (!(value >= min && value <= max)) {
      throw refused(
          name, value, unit, "must be from " + quantity(min, unit) + " to " + quantity(max, unit));
    }
    return value;
  }

  /** A finite value above {@code min}, exclusive, and up to {@code max}. */
  public static double above(String name, double value, String unit, double min, double max) {
    if (!(value > min && value <= max)) {
      throw refused(
          name,
          value,
          unit,
          "must be above " + quantity(min, unit) + " and at most " + quantity(max, unit));
    }
    return value;
  }

  /** A whole number within [min, max]. */
  public static int inRange(String name, int value, int min, int max) {
    return (int) inRange(name, (long) value, min, max);
  }

  /** A whole number within [min, max]. */
  public static long inRange(String name, long value, long min, long max) {
    if (value < min || value > max) {
      throw new IllegalArgumentException(
          name + " = " + value + ": must be from " + min + " to " + max);
    }
    return value;
  }

  /** Any level: finite, at most 1 GV either way. */
  public static double volts(String name, double value) {
    return inRange(name, value, "V", -MAX_VOLTS, MAX_VOLTS);
  }

  /** An amplitude or a span that may not vanish. */
  public static double positiveVolts(String name, double value) {
    return above(name, value, "V", 0, MAX_VOLTS);
  }

  /** A frequency or a rate. */
  public static double hertz(String name, double value) {
    return inRange(name, value, "Hz", MIN_HERTZ, MAX_HERTZ);
  }

  /** An instant: finite, either sign. */
  public static double instant(String name, double value) {
    return inRange(name, value, "s", -MAX_SECONDS, MAX_SECONDS);
  }

  /** A duration that may not vanish. */
  public static double duration(String name, double value) {
    return inRange(name, value, "s", MIN_SECONDS, MAX_SECONDS);
  }

  /** A duration that may be zero. */
  public static double durationOrZero(String name, double value) {
    if (value == 0) {
      return 0;
    }
    if (value >= MIN_SECONDS && value <= MAX_SECONDS) {
      return value;
    }
    throw refused(
        name,
        value,
        "s",
        "must be 0 s or from " + quantity(MIN_SECONDS, "s") + " to " + quantity(MAX_SECONDS, "s"));
  }

  /** A span of time: two instants in order. */
  public static void span(double fromSeconds, double toSeconds) {
    instant("fromSeconds", fromSeconds);
    instant("toSeconds", toSeconds);
    that(
        toSeconds > fromSeconds,
        "toSeconds = " + toSeconds + " s: must be after fromSeconds = " + fromSeconds + " s");
  }

  /** A condition that relates two or more parameters; the message shows their values. */
  public static void that(boolean holds, String message) {
    if (!holds) {
      throw new IllegalArgumentException(message);
    }
  }

  /** The same where the message costs more than the check. */
  public static void that(boolean holds, Supplier<String> message) {
    if (!holds) {
      throw new IllegalArgumentException(message.get());
    }
  }

  private static IllegalArgumentException refused(
      String name, double value, String unit, String rule) {
    return new IllegalArgumentException(name + " = " + quantity(value, unit) + ": " + rule);
  }

  private static String quantity(double value, String unit) {
    return unit.isEmpty() ? Double.toString(value) : value + " " + unit;
  }
}
