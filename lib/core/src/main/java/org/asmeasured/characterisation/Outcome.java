package org.asmeasured.characterisation;

import org.asmeasured.internal.Require;

/**
 * What came of a test with more than one figure: its result, or the reason why there is none. A
 * single figure is a {@link org.asmeasured.measure.Measured}.
 *
 * @param <T> the result
 */
public sealed interface Outcome<T> {

  /**
   * A result.
   *
   * @param result not null
   * @param <T> the result
   */
  record Taken<T>(T result) implements Outcome<T> {

    /**
     * Checks the result.
     *
     * @param result not null
     * @throws NullPointerException if it is missing
     */
    public Taken {
      Require.present("result", result);
    }

    @Override
    public String toString() {
      return result.toString();
    }
  }

  /**
   * No result.
   *
   * @param reason why, as a person would say it, not blank
   * @param <T> the result that there is not
   */
  record NotTaken<T>(String reason) implements Outcome<T> {

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
   * Whether there is a result.
   *
   * @return true for {@link Taken}
   */
  default boolean isTaken() {
    return this instanceof Taken;
  }

  /**
   * The result, where there must be one.
   *
   * @return the result
   * @throws IllegalStateException with the reason, if there is none
   */
  default T orThrow() {
    if (this instanceof Taken<T> taken) {
      return taken.result();
    }
    throw new IllegalStateException(toString());
  }
}
