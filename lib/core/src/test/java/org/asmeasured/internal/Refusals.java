package org.asmeasured.internal;

import static org.junit.jupiter.api.Assertions.assertDoesNotThrow;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.function.DoubleFunction;
import java.util.function.IntFunction;
import org.junit.jupiter.api.function.Executable;

/**
 * What a bad argument must meet: an exception at once, whose message says the parameter, the value,
 * the unit and the range. And what a good one at the very end of its range must not meet.
 */
public final class Refusals {
  private static final double[] NEVER = {
    Double.NaN, Double.POSITIVE_INFINITY, Double.NEGATIVE_INFINITY, 1e300, -1e300, Double.MAX_VALUE
  };

  private Refusals() {}

  /** Refuses one value of one parameter; the unit may be empty. */
  public static void refused(String name, double value, String unit, Executable call) {
    String message = assertThrows(IllegalArgumentException.class, call, name).getMessage();
    String said = name + " = " + value + (unit.isEmpty() ? "" : " " + unit) + ": must be ";
    assertTrue(message.startsWith(said), () -> "expected \"" + said + "...\", got: " + message);
    String rule = message.substring(said.length());
    assertTrue(rule.matches(".*\\d.*"), () -> "no range in: " + message);
    assertTrue(
        unit.isEmpty() || rule.endsWith(" " + unit), () -> "no unit in the range of: " + message);
  }

  /** Refuses what is never a number on a bench, and the values given. */
  public static void refused(
      String name, String unit, DoubleFunction<?> call, double... moreValues) {
    for (double value : NEVER) {
      refused(name, value, unit, () -> call.apply(value));
    }
    for (double value : moreValues) {
      refused(name, value, unit, () -> call.apply(value));
    }
  }

  /** Refuses whole numbers. */
  public static void refused(String name, IntFunction<?> call, int... values) {
    for (int value : values) {
      String message =
          assertThrows(IllegalArgumentException.class, () -> call.apply(value), name).getMessage();
      assertTrue(
          message.matches(name + " = " + value + ": must be from -?\\d+ to -?\\d+"), message);
    }
  }

  /** Takes the ends of the range and refuses what lies just outside. */
  public static void bounded(
      String name, String unit, double min, double max, DoubleFunction<?> call) {
    assertDoesNotThrow(() -> call.apply(min), () -> name + " = " + min);
    assertDoesNotThrow(() -> call.apply(max), () -> name + " = " + max);
    refused(name, unit, call, Math.nextDown(min), Math.nextUp(max));
  }

  /** A level: at most 1 GV either way. */
  public static void volts(String name, DoubleFunction<?> call) {
    bounded(name, "V", -1e9, 1e9, call);
  }

  /** A frequency or rate. */
  public static void hertz(String name, DoubleFunction<?> call) {
    refused(name, "Hz", call, 0, -0.0, -1, 1e-300);
    bounded(name, "Hz", 1e-9, 1e15, call);
  }

  /** An instant, either sign. */
  public static void instant(String name, DoubleFunction<?> call) {
    bounded(name, "s", -1e12, 1e12, call);
  }

  /** A duration above zero; where other durations limit it, its ends are not tried. */
  public static void duration(String name, DoubleFunction<?> call) {
    refused(name, "s", call, 0, -0.0, -1, -1e-12, 1e-300, 0.999e-18, 1.001e12);
  }

  /** A duration that may be zero. */
  public static void durationOrZero(String name, DoubleFunction<?> call) {
    assertDoesNotThrow(() -> call.apply(0), () -> name + " = 0");
    refused(name, "s", call, -1, -1e-12, 1e-300, 0.999e-18, 1.001e12);
  }

  /** A relation between parameters does not hold: the message says each of these. */
  public static void mismatch(Executable call, String... said) {
    String message = assertThrows(IllegalArgumentException.class, call).getMessage();
    for (String part : said) {
      assertTrue(message.contains(part), () -> "\"" + part + "\" is not in: " + message);
    }
  }

  /** Null, where something must be given. */
  public static void absent(String name, Executable call) {
    NullPointerException e = assertThrows(NullPointerException.class, call, name);
    assertEquals(name + " = null: must be given", e.getMessage());
  }
}
