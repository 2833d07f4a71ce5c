package org.asmeasured.measure;

import org.asmeasured.internal.Quantity;
import org.asmeasured.internal.Require;

/** What came of a reading: a value, or the reason why there is none. */
public sealed interface Measured {

  /**
   * A value, in the unit of the reading.
   *
   * @param value finite
   */
  record Value(double value) implements Measured {

    /**
     * Checks the value.
     *
     * @param value finite
     * @throws IllegalArgumentException if it is not finite
     */
    public Value {
      Require.inRange("value", value, "", -Double.MAX_VALUE, Double.MAX_VALUE);
    }

    @Override
    public String toString() {
      return Double.toString(value);
    }
  }

  /**
   * No value.
   *
   * @param reason why, as a person would say it, not blank
   */
  record NotTaken(String reason) implements Measured {

    /**
     * Checks the reason.
     *
     * @param reason why, as a person would say it, not blank
     * @throws IllegalArgumentException if it is blank
     * @throws NullPointerException if it is missing
     */
    public NotTaken {
      Require.present("reason", reason);
      Require.that(!reason.isBlank(), "reason = \"" + reason + "\": must not be blank");
    }

    @Override
    public String toString() {
      return "not taken: " + reason;
    }
  }

  /**
   * Whether there is a value.
   *
   * @return true for {@link Value}
   */
  default boolean isTaken() {
    return this instanceof Value;
  }

  /**
   * The value, where there must be one.
   *
   * @return in the unit of the reading
   * @throws IllegalStateException with the reason, if the reading was not taken
   */
  default double orThrow() {
    if (this instanceof Value taken) {
      return taken.value();
    }
    throw new IllegalStateException(toString());
  }

  /**
   * As a person would say it, with its unit.
   *
   * @param unit of the reading
   * @return the value with its unit, or the reason
   */
  default String in(String unit) {
    return this instanceof Value taken ? Quantity.of(taken.value(), unit) : toString();
  }
}
