package org.asmeasured.acquisition;

import org.asmeasured.internal.Require;

/**
 * What is done over acquisitions: one alone, the mean of several that were triggered alike, or
 * their envelope.
 *
 * <p>The mean over n acquisitions lessens what differs between them: noise of standard deviation s
 * to s/sqrt(n); but also, where their instants differ, the signal. Where nothing in the chain is
 * random they are all equal, and then the mean is any one of them: averaging takes nothing of the
 * quantisation error away. Of a step q with Gaussian noise s ahead of it there remains, however
 * many are averaged, sum over k of (-1)<sup>k</sup> q/(pi k) exp(-2 pi<sup>2</sup> k<sup>2</sup>
 * s<sup>2</sup>/q<sup>2</sup>) sin(2 pi k x/q) (W. R. Bennett, Bell Syst. Tech. J. 27 (1948) 446;
 * B. Widrow, I. Kollar, Quantization Noise, 2008; from memory).
 *
 * <p>The envelope keeps the least and the greatest value of each point.
 */
public final class Ensemble {
  private static final int MAX_COUNT = 1 << 16;
  private static final Ensemble SINGLE = new Ensemble(1, false);

  private final int count;
  private final boolean envelope;

  private Ensemble(int count, boolean envelope) {
    this.count = count;
    this.envelope = envelope;
  }

  /**
   * One acquisition: ideal.
   *
   * @return the ensemble
   */
  public static Ensemble single() {
    return SINGLE;
  }

  /**
   * The mean of n acquisitions, point by point. It is stored in volts, because a mean of codes may
   * fall between codes.
   *
   * @param count n, 1 to 65 536
   * @return the ensemble
   * @throws IllegalArgumentException if the count is out of range
   */
  public static Ensemble averageOf(int count) {
    Require.inRange("count", count, 1, MAX_COUNT);
    return count == 1 ? SINGLE : new Ensemble(count, false);
  }

  /**
   * The least and the greatest value of n acquisitions, point by point.
   *
   * @param count n, 1 to 65 536; of one, both are its value
   * @return the ensemble
   * @throws IllegalArgumentException if the count is out of range
   */
  public static Ensemble envelopeOf(int count) {
    return new Ensemble(Require.inRange("count", count, 1, MAX_COUNT), true);
  }

  /**
   * How many acquisitions go into the record.
   *
   * @return 1 to 65 536
   */
  public int count() {
    return count;
  }

  /**
   * Whether the record is an acquisition as it is.
   *
   * @return true for one, unless an envelope is asked for
   */
  public boolean isSingle() {
    return count == 1 && !envelope;
  }

  /**
   * Whether the record keeps the least and the greatest value over the acquisitions.
   *
   * @return true for an envelope
   */
  public boolean isEnvelope() {
    return envelope;
  }

  @Override
  public boolean equals(Object other) {
    return other instanceof Ensemble that && count == that.count && envelope == that.envelope;
  }

  @Override
  public int hashCode() {
    return 2 * count + (envelope ? 1 : 0);
  }

  @Override
  public String toString() {
    if (isSingle()) {
      return "single acquisition";
    }
    return (envelope ? "envelope of " : "mean of ")
        + count
        + (count == 1 ? " acquisition" : " acquisitions");
  }
}
