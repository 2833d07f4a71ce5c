package org.asmeasured.acquisition;

import org.asmeasured.internal.Require;

/**
 * Stores the mean of the raw samples of each interval, M = factor of them. A point stands at the
 * middle of its samples.
 *
 * <p>Gain at frequency f: sin(pi f M/f<sub>s</sub>)/(M sin(pi f/f<sub>s</sub>)), f<sub>s</sub> the
 * raw rate. The sum of codes is exact; the mean is rounded to the stored bits, a tie to the even
 * code.
 *
 * @param factor raw samples a stored point, 1 to 2<sup>20</sup>
 * @param storedBits bits of a stored point, 1 to 24; or 0 for the converter's plus
 *     ceil(log<sub>2</sub> factor), at most 24. Without a converter it has no effect
 */
public record Boxcar(int factor, int storedBits) implements Decimation {

  /**
   * Checks the values.
   *
   * @param factor raw samples a stored point, 1 to 2<sup>20</sup>
   * @param storedBits bits of a stored point, 1 to 24; or 0 for the converter's plus
   *     ceil(log<sub>2</sub> factor), at most 24. Without a converter it has no effect
   * @throws IllegalArgumentException if one is out of range
   */
  public Boxcar {
    Require.inRange("factor", factor, 1, MAX_FACTOR);
    Require.inRange("storedBits", storedBits, 0, StoredBits.MAX);
  }

  /**
   * The mean, stored with as many bits as it is worth: the converter's plus ceil(log<sub>2</sub>
   * factor), at most 24.
   *
   * @param factor raw samples a stored point, 1 to 2<sup>20</sup>
   * @return the decimation
   * @throws IllegalArgumentException if the factor is out of range
   */
  public static Boxcar of(int factor) {
    return new Boxcar(factor, 0);
  }

  @Override
  public double centre() {
    return (factor - 1) / 2.0;
  }

  @Override
  public boolean isIdeal(int converterBits) {
    return factor == 1 && storedBits(converterBits) >= converterBits;
  }

  @Override
  public int storedBits(int converterBits) {
    return StoredBits.of(storedBits, factor, converterBits);
  }

  @Override
  public Reducer reducer() {
    return new Averager(factor);
  }

  @Override
  public String toString() {
    return "mean of "
        + factor
        + (factor == 1 ? " sample" : " samples")
        + " stored"
        + StoredBits.words(storedBits);
  }

  /**
   * Sums by place within the interval, so that the order of additions, and with it every bit, does
   * not depend on the blocks: four lanes, and every 256 samples the lanes into a compensated total,
   * so that the error of the sum stays below 64 units in the last place of the largest partial sum
   * however long the interval.
   */
  private static final class Averager implements Reducer {
    private static final int CHUNK = 256;

    private final int factor;
    private final double[] lane = new double[4];
    private double total;
    private double compensation;
    private int filled;

    Averager(int factor) {
      this.factor = factor;
    }

    @Override
    public int reduce(double[] raw, int offset, int count, double[] lower, double[] upper, int at) {
      int i = offset;
      int end = offset + count;
      int written = 0;
      while (i < end) {
        if (filled == 0 && factor <= CHUNK && end - i >= factor) {
          int groups = (end - i) / factor;
          means(raw, i, groups, factor, lower, at + written);
          i += groups * factor;
          written += groups;
          continue;
        }
        int place = filled % CHUNK;
        int take = Math.min(end - i, Math.min(factor - filled, CHUNK - place));
        for (int j = 0; j < take; j++) {
          lane[(place + j) & 3] += raw[i + j];
        }
        i += take;
        filled += take;
        if (filled == factor) {
          flush();
          lower[at + written++] = (total + compensation) / factor;
          total = 0;
          compensation = 0;
          filled = 0;
        } else if (filled % CHUNK == 0) {
          flush();
        }
      }
      return written;
    }

    /** Neumaier's variant of compensated summation. */
    private void flush() {
      double sum = (lane[0] + lane[1]) + (lane[2] + lane[3]);
      lane[0] = 0;
      lane[1] = 0;
      lane[2] = 0;
      lane[3] = 0;
      double next = total + sum;
      compensation +=
          Math.abs(total) >= Math.abs(sum) ? (total - next) + sum : (sum - next) + total;
      total = next;
    }

    private static void means(
        double[] raw, int from, int groups, int factor, double[] out, int at) {
      int i = from;
      for (int g = 0; g < groups; g++) {
        double a = 0;
        double b = 0;
        double c = 0;
        double d = 0;
        int j = 0;
        for (; j + 3 < factor; j += 4) {
          a += raw[i + j];
          b += raw[i + j + 1];
          c += raw[i + j + 2];
          d += raw[i + j + 3];
        }
        if (j < factor) {
          a += raw[i + j];
        }
        if (j + 1 < factor) {
          b += raw[i + j + 1];
        }
        if (j + 2 < factor) {
          c += raw[i + j + 2];
        }
        out[at + g] = ((a + b) + (c + d)) / factor;
        i += factor;
      }
    }
  }
}
