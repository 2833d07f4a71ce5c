package org.asmeasured.acquisition;

import org.asmeasured.internal.Require;

/**
 * What is done over acquisitions: one alone, or the mean of several that were triggered alike.
 *
 * <p>The mean over n acquisitions lessens what differs between them. As long as nothing in the
 * chain is random they are all equal, and then the mean is any one of them: averaging takes nothing
 * of the quantisation error away. A capture makes use of that and acquires as often as the
 * acquisitions differ, which without noise is once.
 */
public final class Ensemble {
  private static final int MAX_COUNT = 1 << 16;
  private static final Ensemble SINGLE = new Ensemble(1);

  private final int count;

  private Ensemble(int count) {
    this.count = count;
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
    return count == 1 ? SINGLE : new Ensemble(count);
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
   * @return true for one
   */
  public boolean isSingle() {
    return count == 1;
  }

  @Override
  public boolean equals(Object other) {
    return other instanceof Ensemble && ((Ensemble) other).count == count;
  }

  @Override
  public int hashCode() {
    return Integer.hashCode(count);
  }

  @Override
  public String toString() {
    return isSingle() ? "single acquisition" : "mean of " + count + " acquisitions";
  }
}
