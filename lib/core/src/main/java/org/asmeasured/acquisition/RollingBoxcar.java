package org.asmeasured.acquisition;

import java.util.Arrays;
import org.asmeasured.internal.Require;

/**
 * Stores, for every raw sample, the mean of the {@code length} raw samples up to it. A point stands
 * at the middle of its samples.
 *
 * <p>There is no start-up: the acquisition begins floor((length - 1)/2) raw samples ahead of the
 * record, so point 0 is a mean of a full length and stands at the start of the record if the length
 * is odd, and half a raw interval after it if it is even. Gain at frequency f: sin(pi f
 * L/f<sub>s</sub>)/(L sin(pi f/f<sub>s</sub>)), f<sub>s</sub> the raw rate.
 *
 * @param length raw samples in a stored point, 1 to 65 536
 * @param storedBits bits of a stored point, 1 to 24; or 0 for the converter's plus
 *     ceil(log<sub>2</sub> length), at most 24. Without a converter it has no effect
 */
public record RollingBoxcar(int length, int storedBits) implements Decimation {
  private static final int MAX_LENGTH = 1 << 16;

  /**
   * Checks the values.
   *
   * @param length raw samples in a stored point, 1 to 65 536
   * @param storedBits bits of a stored point, 1 to 24; or 0 for the converter's plus
   *     ceil(log<sub>2</sub> length), at most 24. Without a converter it has no effect
   * @throws IllegalArgumentException if one is out of range
   */
  public RollingBoxcar {
    Require.inRange("length", length, 1, MAX_LENGTH);
    Require.inRange("storedBits", storedBits, 0, StoredBits.MAX);
  }

  /**
   * The mean, stored with as many bits as it is worth: the converter's plus ceil(log<sub>2</sub>
   * length), at most 24.
   *
   * @param length raw samples in a stored point, 1 to 65 536
   * @return the decimation
   * @throws IllegalArgumentException if the length is out of range
   */
  public static RollingBoxcar of(int length) {
    return new RollingBoxcar(length, 0);
  }

  @Override
  public int factor() {
    return 1;
  }

  @Override
  public int lead() {
    return (length - 1) / 2;
  }

  @Override
  public long rawSamples(int points) {
    return (long) points + length - 1;
  }

  @Override
  public double centre() {
    return (length & 1) == 1 ? 0 : 0.5;
  }

  @Override
  public boolean isIdeal(int converterBits) {
    return length == 1 && storedBits(converterBits) >= converterBits;
  }

  @Override
  public int storedBits(int converterBits) {
    return StoredBits.of(storedBits, length, converterBits);
  }

  @Override
  public Reducer reducer() {
    return new Roller(length);
  }

  @Override
  public String toString() {
    return "rolling mean of "
        + length
        + (length == 1 ? " sample" : " samples")
        + " stored"
        + StoredBits.words(storedBits);
  }

  /**
   * The sum over a window, put together from sums over windows of 1, 2, 4, ... samples:
   * log<sub>2</sub> length additions a point, each sum the same tree over its own window. A running
   * sum would be cheaper, but would drift in volts, and one NaN would spoil all that follows.
   */
  private static final class Roller implements Reducer {
    private static final int CHUNK = 1024;

    private final int length;
    private final int chunk;
    private final double[] history;
    private double[] powers;
    private double[] doubled;
    private final double[] sums;
    private int seen;

    Roller(int length) {
      this.length = length;
      chunk = Math.max(CHUNK, length);
      int size = length - 1 + chunk;
      history = new double[length - 1];
      powers = new double[size];
      doubled = new double[size];
      sums = new double[size];
    }

    @Override
    public int reduce(double[] raw, int offset, int count, double[] lower, double[] upper, int at) {
      int written = 0;
      for (int done = 0; done < count; done += chunk) {
        written +=
            reduceChunk(raw, offset + done, Math.min(chunk, count - done), lower, at + written);
      }
      return written;
    }

    private int reduceChunk(double[] raw, int offset, int count, double[] out, int at) {
      int size = seen + count;
      System.arraycopy(history, 0, powers, 0, seen);
      System.arraycopy(raw, offset, powers, seen, count);
      int keep = Math.min(length - 1, size);
      System.arraycopy(powers, size - keep, history, 0, keep);
      seen = keep;
      int points = size - (length - 1);
      if (points <= 0) {
        return 0;
      }
      int first = length - 1;
      Arrays.fill(sums, first, size, 0);
      int shift = 0;
      for (int width = 1; ; width <<= 1) {
        if ((length & width) != 0) {
          accumulate(sums, powers, first, size, shift);
          shift += width;
        }
        if (shift == length) {
          break;
        }
        pairs(doubled, powers, 2 * width - 1, size, width);
        double[] swap = powers;
        powers = doubled;
        doubled = swap;
      }
      for (int j = 0; j < points; j++) {
        out[at + j] = sums[first + j] / length;
      }
      return points;
    }

    private static void accumulate(double[] sums, double[] powers, int from, int to, int shift) {
      for (int j = from; j < to; j++) {
        sums[j] += powers[j - shift];
      }
    }

    private static void pairs(double[] doubled, double[] powers, int from, int to, int width) {
      for (int j = from; j < to; j++) {
        doubled[j] = powers[j] + powers[j - width];
      }
    }
  }
}
