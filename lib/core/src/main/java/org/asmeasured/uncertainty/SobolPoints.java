package org.asmeasured.uncertainty;

import java.util.Arrays;
import org.apache.commons.math3.random.SobolSequenceGenerator;
import org.asmeasured.internal.CounterRandom;

/**
 * A block of a Sobol sequence, scrambled: 2^m points of which every elementary interval of the unit
 * cube holds its share.
 *
 * <p>Direction numbers are those of S. Joe and F. Y. Kuo (SIAM Journal on Scientific Computing 30
 * (2008) 2635, table new-joe-kuo-6, up to 1000 dimensions), read off the points of Commons Math's
 * generator. Each dimension is multiplied by a random lower triangular matrix of bits and shifted
 * by random bits (J. Matousek, Journal of Complexity 14 (1998) 527): every point is uniform on the
 * cube, so a mean over a block is without bias, and blocks of different keys are independent. Point
 * i is a pure function of key and i.
 */
final class SobolPoints {
  static final int MAX_DIMENSIONS = 1000;
  private static final int BITS = 52;
  private static final int COLUMNS = 30;

  /** Reading them takes longer than a thousand trials of a small model. */
  private static volatile long[][] known = {};

  /** By dimension: the column of each bit of the Gray code of a point's number. */
  private final long[][] columns;

  private final long[] shift;

  private SobolPoints(long[][] columns, long[] shift) {
    this.columns = columns;
    this.shift = shift;
  }

  /** The columns before scrambling, by dimension; 52 bits each. Not to be changed. */
  static long[][] directions(int dimensions) {
    long[][] v = known;
    if (v.length < dimensions) {
      v = read(dimensions);
      known = v;
    }
    return Arrays.copyOf(v, dimensions);
  }

  private static long[][] read(int dimensions) {
    SobolSequenceGenerator points = new SobolSequenceGenerator(dimensions);
    long[][] v = new long[dimensions][COLUMNS];
    for (int k = 0; k < COLUMNS; k++) {
      // the Gray code of 2^k has the bits k and k - 1
      double[] point = points.skipTo(1 << k);
      for (int d = 0; d < dimensions; d++) {
        v[d][k] = (long) (point[d] * 0x1p52) ^ (k == 0 ? 0 : v[d][k - 1]);
      }
    }
    return v;
  }

  /** Scrambled anew; {@code directions} are not changed. */
  static SobolPoints scrambled(long[][] directions, long key) {
    long[][] columns = new long[directions.length][COLUMNS];
    long[] shift = new long[directions.length];
    long[] rows = new long[BITS];
    for (int d = 0; d < directions.length; d++) {
      long keyOfDimension = CounterRandom.key(key, d);
      for (int r = 0; r < BITS; r++) {
        // row r: random left of the diagonal (more significant bits), one on it, zero right of it
        long one = 1L << (BITS - 1 - r);
        long above = ((1L << BITS) - 1) & -(one << 1);
        rows[r] = bits(keyOfDimension, r) & above | one;
      }
      for (int k = 0; k < COLUMNS; k++) {
        long column = 0;
        for (int r = 0; r < BITS; r++) {
          column = column << 1 | Long.bitCount(rows[r] & directions[d][k]) & 1;
        }
        columns[d][k] = column;
      }
      shift[d] = bits(keyOfDimension, BITS);
    }
    return new SobolPoints(columns, shift);
  }

  private static long bits(long key, long index) {
    return CounterRandom.mix(CounterRandom.key(key, index)) >>> (64 - BITS);
  }

  /** The point of this number, within (0, 1) in every dimension. */
  void point(int index, double[] point) {
    int gray = index ^ (index >>> 1);
    for (int d = 0; d < shift.length; d++) {
      long x = shift[d];
      long[] column = columns[d];
      for (int rest = gray; rest != 0; rest &= rest - 1) {
        x ^= column[Integer.numberOfTrailingZeros(rest)];
      }
      point[d] = (x + 0.5) * 0x1p-52;
    }
  }
}
