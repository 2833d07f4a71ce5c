package org.asmeasured.uncertainty;

import org.asmeasured.internal.Require;

/**
 * Whether the law of propagation holds for a model, by trials (JCGM 101, clause 8): the ends of its
 * coverage interval y - U, y + U are compared with those of the interval by trials.
 *
 * @param law interval of the law of propagation, first order
 * @param trials interval by trials, the shortest or the symmetric one
 * @param tolerance delta = 10^l/2, for u = c 10^l with the stated digits (7.9.2)
 * @param lowerDifference d_low = |y - U - y_low|
 * @param upperDifference d_high = |y + U - y_high|
 */
public record Agreement(
    Interval law,
    Interval trials,
    double tolerance,
    double lowerDifference,
    double upperDifference) {

  /**
   * Compares with the symmetric interval, at the probability of the trials.
   *
   * @param law what the law of propagation says
   * @param trials what trials say
   * @param digits of the standard uncertainty that count, 1 to 4
   * @return the comparison
   * @throws IllegalArgumentException if the digits are out of range
   * @throws NullPointerException if an argument is missing
   */
  public static Agreement symmetric(Propagated law, Simulated trials, int digits) {
    return of(law, trials, Require.present("trials", trials).symmetric(), digits);
  }

  /**
   * Compares with the shortest interval, at the probability of the trials.
   *
   * @param law what the law of propagation says
   * @param trials what trials say
   * @param digits of the standard uncertainty that count, 1 to 4
   * @return the comparison
   * @throws IllegalArgumentException if the digits are out of range
   * @throws NullPointerException if an argument is missing
   */
  public static Agreement shortest(Propagated law, Simulated trials, int digits) {
    return of(law, trials, Require.present("trials", trials).shortest(), digits);
  }

  private static Agreement of(Propagated law, Simulated trials, Interval interval, int digits) {
    Require.present("law", law);
    Require.inRange("digits", digits, 1, 4);
    Interval straight = law.interval(trials.probability());
    return new Agreement(
        straight,
        interval,
        0.5 * numericalUnit(law.standardUncertainty(), digits),
        Math.abs(straight.lower() - interval.lower()),
        Math.abs(straight.upper() - interval.upper()));
  }

  /** 10^l where u = c 10^l and c is a whole number of so many digits; 0 for u = 0. */
  static double numericalUnit(double u, int digits) {
    return u > 0 ? StrictMath.pow(10, Math.floor(StrictMath.log10(u)) + 1 - digits) : 0;
  }

  /**
   * Whether both differences are within the tolerance, so that the law of propagation may be used.
   *
   * @return true if so
   */
  public boolean agrees() {
    return lowerDifference <= tolerance && upperDifference <= tolerance;
  }

  /**
   * The same in a sentence.
   *
   * @return a sentence for a report
   */
  public String sentence() {
    return (agrees()
            ? "The law of propagation and the trials agree: "
            : "The law of propagation and the trials disagree, trust the trials: ")
        + "the ends of their intervals differ by "
        + lowerDifference
        + " and "
        + upperDifference
        + ", tolerance "
        + tolerance
        + " (JCGM 101, clause 8).";
  }
}
