package org.asmeasured.frontend;

import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.function.DoubleConsumer;
import java.util.function.IntConsumer;

/** Bad values at the door: the message must name the parameter and show the value. */
public final class Refused {
  private Refused() {}

  /** Not a number, both infinities, and what else is said. */
  public static void values(String parameter, DoubleConsumer call, double... alsoBad) {
    one(parameter, call, Double.NaN);
    one(parameter, call, Double.POSITIVE_INFINITY);
    one(parameter, call, Double.NEGATIVE_INFINITY);
    one(parameter, call, Double.MAX_VALUE);
    for (double bad : alsoBad) {
      one(parameter, call, bad);
    }
  }

  private static void one(String parameter, DoubleConsumer call, double bad) {
    message(parameter, Double.toString(bad), () -> call.accept(bad));
  }

  /** The extremes of an int, and what else is said. */
  public static void wholes(String parameter, IntConsumer call, int... alsoBad) {
    message(parameter, "" + Integer.MIN_VALUE, () -> call.accept(Integer.MIN_VALUE));
    message(parameter, "" + Integer.MAX_VALUE, () -> call.accept(Integer.MAX_VALUE));
    for (int bad : alsoBad) {
      message(parameter, "" + bad, () -> call.accept(bad));
    }
  }

  /** Null. */
  public static void missing(String parameter, Runnable call) {
    NullPointerException e = assertThrows(NullPointerException.class, call::run, parameter);
    assertTrue(e.getMessage().contains(parameter), e.getMessage());
  }

  /** One bad value, however it is handed in. */
  public static void message(String parameter, String value, Runnable call) {
    IllegalArgumentException e =
        assertThrows(IllegalArgumentException.class, call::run, () -> parameter + " = " + value);
    assertTrue(e.getMessage().contains(parameter), e.getMessage());
    assertTrue(e.getMessage().contains(value), e.getMessage());
  }
}
