package org.asmeasured.acquisition;

import org.asmeasured.internal.Require;

/**
 * Keeps the first raw sample of each interval. With a factor of 1 it keeps every one: ideal.
 *
 * @param factor raw samples a stored point, 1 to 2<sup>20</sup>
 */
public record Pick(int factor) implements Decimation {

  /**
   * Checks the factor.
   *
   * @param factor raw samples a stored point, 1 to 2<sup>20</sup>
   * @throws IllegalArgumentException if it is out of range
   */
  public Pick {
    Require.inRange("factor", factor, 1, MAX_FACTOR);
  }

  @Override
  public double centre() {
    return 0;
  }

  @Override
  public boolean isIdeal(int converterBits) {
    return factor == 1;
  }

  @Override
  public Reducer reducer() {
    return factor == 1 ? Pick::copy : new Picker(factor);
  }

  private static int copy(
      double[] raw, int offset, int count, double[] lower, double[] upper, int at) {
    System.arraycopy(raw, offset, lower, at, count);
    return count;
  }

  @Override
  public String toString() {
    return factor == 1 ? "every sample stored" : "one sample of " + factor + " stored";
  }

  private static final class Picker implements Reducer {
    private final int factor;
    private int skip;

    Picker(int factor) {
      this.factor = factor;
    }

    @Override
    public int reduce(double[] raw, int offset, int count, double[] lower, double[] upper, int at) {
      int written = 0;
      int i = skip;
      for (; i < count; i += factor) {
        lower[at + written++] = raw[offset + i];
      }
      skip = i - count;
      return written;
    }
  }
}
