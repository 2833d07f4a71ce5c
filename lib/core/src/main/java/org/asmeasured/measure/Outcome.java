package org.asmeasured.measure;

import java.util.function.Function;
import org.asmeasured.internal.Require;

/**
 * What came of an analysis of data: the result, or the reason why there is none. What {@link
 * Measured} is for a number.
 *
 * @param <T> the result
 */
public sealed interface Outcome<T> {

  /**
   * A result.
   *
   * @param <T> the result
   * @param result not null
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
   * @param <T> what it would have been
   * @param reason why, as a person would say it, not blank
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
    return this instanceof Taken<T>;
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

  /**
   * What follows from the result, if there is one; else the same reason.
   *
   * @param <R> what follows
   * @param next from the result to an outcome
   * @return the outcome of the next step, or this reason
   */
  default <R> Outcome<R> then(Function<? super T, Outcome<R>> next) {
    return this instanceof Taken<T> taken
        ? next.apply(taken.result())
        : new NotTaken<>(((NotTaken<T>) this).reason());
  }

  /**
   * The reading that follows from the result, if there is one; else the same reason.
   *
   * @param next from the result to a reading
   * @return the reading, or this reason
   */
  default Measured read(Function<? super T, Measured> next) {
    return this instanceof Taken<T> taken
        ? next.apply(taken.result())
        : new Measured.NotTaken(((NotTaken<T>) this).reason());
  }
}
