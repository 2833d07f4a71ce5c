package org.asmeasured.accuracy;

import java.math.BigDecimal;
import java.math.MathContext;
import org.asmeasured.internal.Quantity;
import org.asmeasured.internal.Require;

/**
 * How a reading follows its quantity: by what share a change of the quantity shows in the reading.
 *
 * <pre>S = (mean reading, moved up - moved down)/(true value, moved up - moved down)</pre>
 *
 * <p>An ideal chain has S = 1. A chain that is slow against the rise it reads has less, one that
 * reads only its own noise next to none. So a reading y is of the quantity Q that the model of the
 * measurement gives for it (JCGM 100, 4.1: Y = f(X), of which the reading is one X; clause from
 * memory), in first order
 *
 * <pre>Q = truth + (y - mean reading)/S,     u(Q) = u(y)/S</pre>
 *
 * <p>The quantity is moved by moving the signal, with the setup, the span and the seeds of all that
 * is random unchanged. Steps of 5 % to 15 %, eight sizes, both ways: a small one would tell of the
 * steps of a converter and not of the chain, and equal ones could all meet the same step. With t
 * the change of the true value and d that of the reading in a pair of captures, S = sum(d t)/sum(t
 * t), by least squares, and its standard error is that of a straight line through the origin, s/
 * sqrt(sum(t t)) with s^2 = sum((d - S t)^2)/(pairs - 1).
 *
 * <p>A reading in volts is moved by a {@link Move#SPREAD} and by a {@link Move#SHIFT}: by each of
 * them that moves its true value by at least half as much as it moves the volts (RMS); where none
 * does, by the one that moves it most. Of two, the lesser S counts, since a mean that coupling
 * takes away is not made up for by ripple that it lets through. Any other reading is moved by the
 * first of {@link Move#STRETCH}, spread and shift that moves it. A move counts if it changes the
 * true value by at least 1 % of what it would change a proportional one by.
 *
 * <p>Shares (duty factor, overshoot, distortion) are not asked: no move of volts or time changes
 * them, and of the many other forms of the signal that would (one edge delayed, more ringing), none
 * is the one whose answer is the reading's own.
 *
 * <p><b>Limits of validity.</b> First order about the assumed signal: it does not tell what happens
 * to another form, or far away. It is taken at the estimates of all parameters. Where an overload
 * spoils the captures moved one way, those as they stand take their place.
 *
 * @param move how the quantity was moved
 * @param value S
 * @param standardError of S, from the pairs of captures; 0 where they all say the same
 * @param pairs of captures that it comes from
 * @param moved by how much the true value was moved, down to up, RMS over the pairs; in the
 *     reading's unit
 * @param unit the reading's unit
 */
public record Sensitivity(
    Move move, double value, double standardError, int pairs, double moved, String unit) {
  private static final double STANDARD_ERRORS = 3;
  private static final double ROUNDING = 1e-9;
  private static final double HALF = 0.5;
  private static final MathContext TWO_DIGITS = new MathContext(2);

  /** How a signal is moved. */
  public enum Move {
    /** Its volts about their mean over the span: what varies becomes larger or smaller. */
    SPREAD("spread"),
    /** Its volts as a whole. */
    SHIFT("shifted"),
    /** Its time: slower or faster. */
    STRETCH("stretched");

    private final String words;

    Move(String words) {
      this.words = words;
    }

    @Override
    public String toString() {
      return words;
    }
  }

  /**
   * Checks the values.
   *
   * @param move how the quantity was moved
   * @param value S
   * @param standardError of S, 0 or more
   * @param pairs 2 or more
   * @param moved above 0
   * @param unit the reading's unit
   * @throws IllegalArgumentException if a value is out of range
   * @throws NullPointerException if one is missing
   */
  public Sensitivity {
    Require.present("move", move);
    Require.inRange("value", value, "", -Double.MAX_VALUE, Double.MAX_VALUE);
    Require.inRange("standardError", standardError, "", 0, Double.MAX_VALUE);
    Require.inRange("pairs", pairs, 2, Integer.MAX_VALUE);
    Require.above("moved", moved, unit, 0, Double.MAX_VALUE);
    Require.present("unit", unit);
  }

  /**
   * Whether the reading can be told to follow the quantity.
   *
   * @return true if S is above three standard errors of its own, and above 1e-9
   */
  public boolean follows() {
    return value > Math.max(STANDARD_ERRORS * standardError, ROUNDING);
  }

  /**
   * Whether so little of a change shows in the reading that it is a reason for doubt.
   *
   * @return true if less than half does, or the reading does not follow at all
   */
  public boolean isWeak() {
    return !follows() || value < HALF;
  }

  /** As a person would say it. */
  @Override
  public String toString() {
    if (follows()) {
      return "a change of the quantity shows by " + percent(value) + " in the reading";
    }
    // what rounding leaves over is no change
    boolean still = Math.abs(value) <= ROUNDING && standardError <= ROUNDING;
    String moves =
        "a change of "
            + Quantity.of(moved, unit)
            + " changes it by "
            + Quantity.of(still ? 0 : value * moved, unit);
    return standardError > ROUNDING && value > 0
        ? "the reading cannot be told to follow the quantity: "
            + moves
            + " with a standard error of "
            + Quantity.of(standardError * moved, unit)
        : "the reading does not follow the quantity: " + moves;
  }

  private static String percent(double share) {
    BigDecimal rounded = new BigDecimal(100 * share).round(TWO_DIGITS);
    // from 10 % on whole numbers, which may have three digits
    if (share >= 0.995) {
      rounded = new BigDecimal(Math.rint(100 * share));
    }
    return rounded.stripTrailingZeros().toPlainString() + " %";
  }
}
