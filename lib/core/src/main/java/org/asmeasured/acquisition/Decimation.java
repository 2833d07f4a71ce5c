package org.asmeasured.acquisition;

/**
 * How raw samples are reduced to stored points. Open: a decimation of your own says its geometry
 * and makes a reducer.
 *
 * <p>Raw sample 0 is the one at the start of the record. Stored point k is made from raw samples k
 * x {@link #factor} - {@link #lead} onwards. An implementation is immutable.
 */
public interface Decimation {
  /** The greatest number of raw samples in a stored point. */
  int MAX_FACTOR = 1 << 20;

  /**
   * Raw samples from one stored point to the next.
   *
   * @return 1 or more
   */
  int factor();

  /**
   * Raw samples that are taken before the start of the record, so that the first point is as good
   * as any.
   *
   * @return 0 or more; 0 unless overridden
   */
  default int lead() {
    return 0;
  }

  /**
   * How many raw samples it takes to complete a number of stored points, the lead included.
   *
   * @param points stored points, 1 or more
   * @return points x {@link #factor} unless overridden
   */
  default long rawSamples(int points) {
    return (long) points * factor();
  }

  /**
   * The instant a stored point stands for, counted from raw sample k x {@link #factor}.
   *
   * @return raw sample intervals
   */
  double centre();

  /**
   * Whether each stored point has two values, the least and the greatest.
   *
   * @return false unless overridden
   */
  default boolean isEnvelope() {
    return false;
  }

  /**
   * Whether the stored points are the raw samples, every one and unchanged.
   *
   * @param converterBits bits of the converter, 0 for infinite resolution
   * @return false unless overridden
   */
  default boolean isIdeal(int converterBits) {
    return false;
  }

  /**
   * The number of bits that a stored point has.
   *
   * @param converterBits bits of the converter, 1 to 24
   * @return 1 to 24; the converter's own unless overridden
   */
  default int storedBits(int converterBits) {
    return converterBits;
  }

  /**
   * A worker for one acquisition.
   *
   * @return a new one, which has seen nothing yet
   */
  Reducer reducer();
}
