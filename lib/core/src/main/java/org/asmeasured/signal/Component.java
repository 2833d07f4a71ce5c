package org.asmeasured.signal;

/**
 * One part of a {@link Signal}: either {@link Tones}, which fill all time, or a {@link Pattern},
 * which begins at some instant or repeats for ever.
 *
 * <p>This is the normal form that a linear system maps to itself. Most users never meet it; it is
 * public for those who write an evaluation of their own.
 */
public sealed interface Component permits Tones, Pattern {

  /**
   * The value at an instant given in two parts, so that it may be sharper than a double.
   *
   * @param hi seconds
   * @param lo seconds left over by {@code hi}
   * @return volts; at a jump, the value after it
   */
  double valueAt(double hi, double lo);

  /**
   * The limit from the left.
   *
   * @param timeSeconds any finite instant
   * @return volts
   */
  double valueBefore(double timeSeconds);

  /**
   * The component moved to later times.
   *
   * @param seconds delay, either sign
   * @return the moved component
   */
  Component delayedBy(double seconds);

  /**
   * The component slowed down about t = 0.
   *
   * @param factor above 0; above 1 takes longer
   * @return a component whose value at t is this one's at t/factor
   */
  Component stretchedBy(double factor);

  /**
   * The component with all values multiplied.
   *
   * @param factor any finite number
   * @return the scaled component
   */
  Component times(double factor);

  /**
   * A bound of the modulus over all time, reached or not.
   *
   * @return volts; infinite for a ramp that never ends
   */
  double bound();
}
