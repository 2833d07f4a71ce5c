package org.asmeasured.uncertainty;

import org.asmeasured.internal.Require;

/**
 * How small a risk trials can show. If none of n independent trials goes wrong, the risk is below
 * 3/n with a confidence of 95 %, as (1 - 3/n)^n = 0.05 (rule of three: common practice, no source).
 *
 * <p>JCGM 101, 7.2, asks for more: 10^4/(1 - p) trials for an interval of probability p (clause
 * from memory). That is what an end of an interval needs for its digits. A decision needs no more
 * than a risk that is not greater than allowed; a limit verified at just 3/n rests on the few
 * outermost trials, and scatters as they do.
 */
public final class RuleOfThree {
  private static final double LEAST_RISK = 1e-9;

  /** -ln 0.05 = 2.996. */
  private static final double WRONG = 3;

  private RuleOfThree() {}

  /**
   * The least risk that so many trials show.
   *
   * @param trials at least 1
   * @return 3/trials, which may be above 1
   * @throws IllegalArgumentException if there is no trial
   */
  public static double leastRisk(long trials) {
    return WRONG / Require.inRange("trials", trials, 1, Long.MAX_VALUE);
  }

  /**
   * The fewest trials that show a risk.
   *
   * @param risk 1e-9 to 0.5
   * @return n, with 3/n no greater than the risk
   * @throws IllegalArgumentException if the risk is out of range
   */
  public static long trials(double risk) {
    Require.inRange("risk", risk, "", LEAST_RISK, 0.5);
    long n = (long) Math.ceil(WRONG / risk);
    return leastRisk(n) > risk ? n + 1 : n;
  }
}
