package org.asmeasured.acquisition;

import org.asmeasured.internal.Require;

/**
 * Keeps the least and the greatest raw sample of each interval: the record is an envelope. A point
 * stands at the middle of its samples.
 *
 * @param factor raw samples a stored point, 1 to 2<sup>20</sup>
 */
public record PeakDetect(int factor) implements Decimation {

  /**
   * Checks the factor.
   *
   * @param factor raw samples a stored point, 1 to 2<sup>20</sup>
   * @throws IllegalArgumentException if it is out of range
   */
  public PeakDetect {
    Require.inRange("factor", factor, 1, MAX_FACTOR);
  }

  @Override
  public double centre() {
    return (factor - 1) / 2.0;
  }

  @Override
  public boolean isEnvelope() {
    return true;
  }

  @Override
  public Reducer reducer() {
    return new Detector(factor);
  }

  @Override
  public String toString() {
    return "least and greatest of " + factor + (factor == 1 ? " sample" : " samples") + " stored";
  }

  private static final class Detector implements Reducer {
    private final int factor;
    private int filled;
    private double low;
    private double high;

    Detector(int factor) {
      this.factor = factor;
    }

    @Override
    public int reduce(double[] raw, int offset, int count, double[] lower, double[] upper, int at) {
      int i = offset;
      int end = offset + count;
      int written = 0;
      if (filled > 0) {
        int take = Math.min(factor - filled, count);
        extend(raw, i, i + take);
        i += take;
        if (filled < factor) {
          return 0;
        }
        lower[at] = low;
        upper[at] = high;
        filled = 0;
        written = 1;
      }
      int groups = (end - i) / factor;
      if (groups > 0) {
        if (factor >= 4) {
          extremes(raw, i, groups, factor, lower, upper, at + written);
        } else {
          fewExtremes(raw, i, groups, factor, lower, upper, at + written);
        }
        i += groups * factor;
        written += groups;
      }
      if (i < end) {
        low = raw[i];
        high = raw[i];
        extend(raw, i, end);
      }
      return written;
    }

    private void extend(double[] raw, int from, int to) {
      double least = low;
      double greatest = high;
      for (int i = from; i < to; i++) {
        least = Math.min(least, raw[i]);
        greatest = Math.max(greatest, raw[i]);
      }
      low = least;
      high = greatest;
      filled += to - from;
    }

    /** A tree of minima and maxima over four lanes: a chain of dependent ones would be slower. */
    private static void extremes(
        double[] raw, int from, int groups, int factor, double[] lower, double[] upper, int at) {
      int i = from;
      for (int g = 0; g < groups; g++) {
        double a = raw[i];
        double b = raw[i + 1];
        double c = raw[i + 2];
        double d = raw[i + 3];
        double a0 = a;
        double b0 = b;
        double c0 = c;
        double d0 = d;
        int j = 4;
        for (; j + 3 < factor; j += 4) {
          a0 = Math.min(a0, raw[i + j]);
          b0 = Math.min(b0, raw[i + j + 1]);
          c0 = Math.min(c0, raw[i + j + 2]);
          d0 = Math.min(d0, raw[i + j + 3]);
          a = Math.max(a, raw[i + j]);
          b = Math.max(b, raw[i + j + 1]);
          c = Math.max(c, raw[i + j + 2]);
          d = Math.max(d, raw[i + j + 3]);
        }
        for (; j < factor; j++) {
          a0 = Math.min(a0, raw[i + j]);
          a = Math.max(a, raw[i + j]);
        }
        lower[at + g] = Math.min(Math.min(a0, b0), Math.min(c0, d0));
        upper[at + g] = Math.max(Math.max(a, b), Math.max(c, d));
        i += factor;
      }
    }

    private static void fewExtremes(
        double[] raw, int from, int groups, int factor, double[] lower, double[] upper, int at) {
      int i = from;
      for (int g = 0; g < groups; g++) {
        double least = raw[i];
        double greatest = raw[i];
        for (int j = 1; j < factor; j++) {
          least = Math.min(least, raw[i + j]);
          greatest = Math.max(greatest, raw[i + j]);
        }
        lower[at + g] = least;
        upper[at + g] = greatest;
        i += factor;
      }
    }
  }
}
