package org.asmeasured.spectrum;

import java.util.Arrays;
import java.util.Objects;
import org.asmeasured.internal.Require;
import org.jtransforms.fft.DoubleFFT_1D;

/**
 * Reads mean squares of spectral lines, one record after another: the plan of the transform, the
 * weights and the buffer are kept from call to call. For one thread.
 *
 * <p>Segments of a power of two up to 4096 points allocate nothing. Other lengths allocate work
 * space within the transform, as large as the segment and more. From 8192 points on the transform
 * shares its work among daemon threads of its library; its bits do not depend on how many there
 * are. Lengths that are products of small primes are fast, a large prime takes about six times as
 * long. The transform errs by 1e-15 of the strongest line, by up to 2e-13 if the length has a prime
 * factor from 11 to 199.
 */
public final class SpectrumReader {
  private static final int BLOCK = 512;

  private final SpectrumMethod method;
  private final int points;
  private final int step;
  private final double[] weights;
  private final double[] work;
  private final DoubleFFT_1D transform;

  SpectrumReader(SpectrumMethod method, int points) {
    this.method = method;
    this.points = points;
    step = points - (int) Math.rint(method.overlap() * points);
    weights = method.window().weights(points);
    work = new double[points];
    transform = new DoubleFFT_1D(points);
  }

  /**
   * How it reads.
   *
   * @return the method
   */
  public SpectrumMethod method() {
    return method;
  }

  /**
   * The length of a segment.
   *
   * @return points
   */
  public int segmentPoints() {
    return points;
  }

  /**
   * The number of lines from zero to half the rate.
   *
   * @return segmentPoints/2 + 1, rounded down
   */
  public int bins() {
    return points / 2 + 1;
  }

  /**
   * How many segments a number of points holds; those left over at the end are not used.
   *
   * @param count points, 0 or more
   * @return 0 or more
   * @throws IllegalArgumentException if the count is negative
   */
  public int segments(int count) {
    Require.inRange("count", count, 0, Integer.MAX_VALUE);
    return count < points ? 0 : (count - points) / step + 1;
  }

  /**
   * Reads the mean square of every line, on one side, averaged over the segments.
   *
   * @param volts values; one that is not a number makes all lines of the result not a number
   * @param offset the first that is used
   * @param count how many there are from there, at least one segment
   * @param meanSquares receives {@link #bins} values in V<sup>2</sup>: {@link Scale#MEAN_SQUARE}
   * @return how many segments went into it
   * @throws IllegalArgumentException if there are fewer values than a segment has
   * @throws IndexOutOfBoundsException if an array is too short
   * @throws NullPointerException if an array is missing
   */
  public int read(double[] volts, int offset, int count, double[] meanSquares) {
    Require.present("volts", volts);
    Require.present("meanSquares", meanSquares);
    Objects.checkFromIndexSize(offset, count, volts.length);
    Objects.checkFromIndexSize(0, bins(), meanSquares.length);
    if (count < points) {
      Require.inRange("count", count, points, Integer.MAX_VALUE);
    }
    int segments = segments(count);
    // weights have a mean of 1, so that a cosine of amplitude A leaves A N/2 in its bin
    double scale = 2.0 / points / points / segments;
    Arrays.fill(meanSquares, 0, bins(), 0);
    for (int s = 0; s < segments; s++) {
      transform(volts, offset + s * step);
      addSquares(work, meanSquares, (points - 1) / 2, scale);
      meanSquares[0] += work[0] * work[0] * (scale / 2);
      if (points % 2 == 0) {
        meanSquares[points / 2] += work[1] * work[1] * (scale / 2);
      } else {
        // the imaginary part of the last line of an odd length stands where half the rate would
        meanSquares[points / 2] = addLast(meanSquares[points / 2], scale);
      }
    }
    return segments;
  }

  private double addLast(double sum, double scale) {
    double re = work[points - 1];
    double im = points > 2 ? work[1] : 0;
    return sum + (re * re + im * im) * scale;
  }

  /** Weighs and transforms a segment; the result stays in the buffer. */
  private void transform(double[] volts, int from) {
    double mean = method.meanRemoved() ? mean(volts, from, points) : 0;
    weigh(volts, from, mean, weights, work, points);
    transform.realForward(work);
  }

  private static void weigh(
      double[] volts, int from, double mean, double[] weights, double[] out, int count) {
    for (int i = 0; i < count; i++) {
      out[i] = (volts[from + i] - mean) * weights[i];
    }
  }

  /** All lines but the first and the last. */
  private static void addSquares(double[] packed, double[] out, int last, double scale) {
    int whole = packed.length % 2 == 0 ? last : last - 1;
    for (int k = 1; k <= whole; k++) {
      double re = packed[2 * k];
      double im = packed[2 * k + 1];
      out[k] += (re * re + im * im) * scale;
    }
  }

  /** By blocks, so that rounding does not grow with the number of points. */
  static double mean(double[] volts, int from, int count) {
    double total = 0;
    double rest = 0;
    for (int at = 0; at < count; at += BLOCK) {
      double sum = sum(volts, from + at, Math.min(BLOCK, count - at));
      double next = total + sum;
      rest += Math.abs(total) >= Math.abs(sum) ? (total - next) + sum : (sum - next) + total;
      total = next;
    }
    return (total + rest) / count;
  }

  private static double sum(double[] volts, int from, int count) {
    double a = 0;
    double b = 0;
    double c = 0;
    double d = 0;
    int i = 0;
    for (; i + 3 < count; i += 4) {
      a += volts[from + i];
      b += volts[from + i + 1];
      c += volts[from + i + 2];
      d += volts[from + i + 3];
    }
    for (; i < count; i++) {
      a += volts[from + i];
    }
    return (a + b) + (c + d);
  }

  /** The transform of the last segment that was read, packed as the library packs it. */
  double[] packed() {
    return work.clone();
  }
}
