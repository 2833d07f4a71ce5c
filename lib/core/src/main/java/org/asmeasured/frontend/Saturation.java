package org.asmeasured.frontend;

import java.math.BigDecimal;
import java.math.MathContext;
import org.asmeasured.internal.Quantity;
import org.asmeasured.internal.Require;
import org.asmeasured.linear.Response;
import org.asmeasured.signal.Signal;

/**
 * An amplifier that saturates ahead of the roll-off: what leaves it is the voltage that reaches it,
 * held between two levels, plus what is left of earlier overloads.
 *
 * <p>With x the voltage referred to the tip behind the stages ahead of the amplifier, and b_i the
 * instants at which overloads end:
 *
 * <pre>
 * {@code amplifier(t) = min(high, max(low, x(t))) + sum over b_i <= t of fraction E_i exp(-(t - b_i)/tau)}
 * </pre>
 *
 * <p>E_i is the greatest excess of overload i over its level, with its sign; the tails of
 * successive overloads add. A fraction of 0 is instant recovery. The model is common practice, no
 * source; the fraction and the time constant are what overdrive recovery of an amplifier is usually
 * stated by.
 *
 * @param lowVolts the level that the amplifier does not go below, -1e9 to 1e9 V, or negative
 *     infinity
 * @param highVolts the level that it does not go above, above the low one, or positive infinity
 * @param recoveryFraction share of the greatest excess at which a tail starts, 0 to 1
 * @param recoverySeconds time constant of a tail, 1e-18 to 1e12 s; without effect if the fraction
 *     is 0
 */
public record Saturation(
    double lowVolts, double highVolts, double recoveryFraction, double recoverySeconds) {
  private static final Saturation NONE =
      new Saturation(Double.NEGATIVE_INFINITY, Double.POSITIVE_INFINITY, 0, 1);

  /**
   * Checks the values.
   *
   * @param lowVolts the level that the amplifier does not go below, -1e9 to 1e9 V, or negative
   *     infinity
   * @param highVolts the level that it does not go above, above the low one, or positive infinity
   * @param recoveryFraction share of the greatest excess at which a tail starts, 0 to 1
   * @param recoverySeconds time constant of a tail, 1e-18 to 1e12 s; without effect if the fraction
   *     is 0
   * @throws IllegalArgumentException if one is out of range
   */
  public Saturation {
    if (lowVolts != Double.NEGATIVE_INFINITY) {
      Require.volts("lowVolts", lowVolts);
    }
    if (highVolts != Double.POSITIVE_INFINITY) {
      Require.volts("highVolts", highVolts);
    }
    Require.that(
        highVolts > lowVolts,
        "highVolts = " + highVolts + " V: must be above lowVolts = " + lowVolts + " V");
    Require.inRange("recoveryFraction", recoveryFraction, "", 0, 1);
    Require.duration("recoverySeconds", recoverySeconds);
  }

  /**
   * No limit: ideal.
   *
   * @return the saturation that never sets in
   */
  public static Saturation none() {
    return NONE;
  }

  /**
   * Levels alike either way, instant recovery.
   *
   * @param volts the modulus that is not exceeded, above 0 to 1e9 V
   * @return the saturation
   * @throws IllegalArgumentException if it is out of range
   */
  public static Saturation at(double volts) {
    Require.positiveVolts("volts", volts);
    return new Saturation(-volts, volts, 0, 1);
  }

  /**
   * The same levels with another recovery.
   *
   * @param fraction share of the greatest excess at which a tail starts, 0 to 1
   * @param seconds time constant of a tail, 1e-18 to 1e12 s
   * @return the saturation
   * @throws IllegalArgumentException if one is out of range
   */
  public Saturation withRecovery(double fraction, double seconds) {
    return new Saturation(lowVolts, highVolts, fraction, seconds);
  }

  /**
   * Whether the amplifier never saturates.
   *
   * @return true without levels
   */
  public boolean isIdeal() {
    return lowVolts == Double.NEGATIVE_INFINITY && highVolts == Double.POSITIVE_INFINITY;
  }

  /**
   * What a signal becomes behind the roll-off. If it repeats, it is settled and known at all times;
   * otherwise over the span asked for, and what happened before that span is followed as far back
   * as any of it can be seen, forty time constants.
   *
   * @param signal the open-circuit voltage of the source
   * @param ahead the stages ahead of the amplifier
   * @param behind the stages behind it, multiplied in this order
   * @param fromSeconds start of the span
   * @param toSeconds end of the span, after its start
   * @return the voltage at the sampler
   * @throws IllegalArgumentException if the span is out of range, or it takes more than 2^20
   *     segments to follow the overloads
   * @throws NullPointerException if a value is missing
   */
  public SaturatedOutput of(
      Signal signal, Response ahead, Response behind, double fromSeconds, double toSeconds) {
    return new SaturatedOutput(this, signal, ahead, behind, fromSeconds, toSeconds);
  }

  @Override
  public String toString() {
    if (isIdeal()) {
      return "no saturation";
    }
    StringBuilder words = new StringBuilder("saturation");
    if (lowVolts > Double.NEGATIVE_INFINITY) {
      words.append(" below ").append(Quantity.of(lowVolts, "V"));
    }
    if (highVolts < Double.POSITIVE_INFINITY) {
      words.append(lowVolts > Double.NEGATIVE_INFINITY ? " and" : "");
      words.append(" above ").append(Quantity.of(highVolts, "V"));
    }
    if (recoveryFraction > 0) {
      words
          .append(", recovery from ")
          .append(percent(recoveryFraction))
          .append(" of the excess with ")
          .append(Quantity.of(recoverySeconds, "s"));
    }
    return words.toString();
  }

  private static String percent(double fraction) {
    return new BigDecimal(100 * fraction)
            .round(new MathContext(4))
            .stripTrailingZeros()
            .toPlainString()
        + " %";
  }
}
