package org.asmeasured.acquisition;

import java.util.Objects;
import org.asmeasured.internal.Require;

/**
 * What a record has between its points. Open: a reconstruction of your own says its value a share
 * of an interval after a point.
 *
 * <p>Places are counted in points, from 0 to size - 1. At a whole number every reconstruction gives
 * the point itself, bit for bit. Nothing is extrapolated: before point {@link #margin} and after
 * point size - 1 - margin, where points that the kernel needs are not there, there are no values.
 *
 * <p>An implementation is immutable and may be used by several threads at once.
 */
@FunctionalInterface
public interface Reconstruction {
  /** The greatest number of values a point. */
  int MAX_FACTOR = 1 << 12;

  /**
   * No values between the points: each holds until the next. Its gain for a sine of frequency f is
   * sinc(f/f<sub>s</sub>), delayed by half an interval.
   *
   * @return the reconstruction
   */
  static Reconstruction none() {
    return PlainReconstruction.NONE;
  }

  /**
   * Straight lines from point to point. Its gain for a sine of frequency f is
   * sinc<sup>2</sup>(f/f<sub>s</sub>), its greatest error 1 - cos(pi f/f<sub>s</sub>) of the
   * amplitude, at a crest midway between points.
   *
   * @return the reconstruction
   */
  static Reconstruction linear() {
    return PlainReconstruction.LINEAR;
  }

  /**
   * sin(x)/x with 16 points on each side: good to 2e-5 of the amplitude up to 0.4 of the rate.
   *
   * @return the reconstruction
   */
  static Reconstruction sinc() {
    return SincReconstruction.DEFAULT;
  }

  /**
   * The value between a point and the next.
   *
   * @param points the values of the points
   * @param index the point before, from margin to points.length - 1 - margin
   * @param share of the interval after it, 0 to below 1; 0 only at the last index
   * @return in the unit of the points; at a share of 0, the point itself
   * @throws IllegalArgumentException if index or share is out of range
   */
  double between(double[] points, int index, double share);

  /**
   * How many points at each end are followed, or preceded, by no values.
   *
   * @return 0 or more; 0 unless overridden
   */
  default int margin() {
    return 0;
  }

  /**
   * The value at a place.
   *
   * @param points the values of the points
   * @param place from margin to points.length - 1 - margin
   * @return in the unit of the points
   * @throws IllegalArgumentException if the place is out of range or not a number
   */
  default double at(double[] points, double place) {
    Require.present("points", points);
    Require.inRange("place", place, "points", margin(), points.length - 1 - margin());
    int index = (int) place;
    return between(points, index, place - index);
  }

  /**
   * How many values {@link #fill} makes.
   *
   * @param points the number of points, 1 or more
   * @param factor values a point, 1 to 4096
   * @return (points - 1 - 2 margin) factor + 1
   * @throws IllegalArgumentException if the factor is out of range, if there are too few points, or
   *     if there would be more than 2<sup>28</sup> values
   */
  default int size(int points, int factor) {
    Require.inRange("factor", factor, 1, MAX_FACTOR);
    Require.inRange("points", points, 1 + 2L * margin(), 1 << 28);
    long size = (points - 1L - 2L * margin()) * factor + 1;
    Require.that(
        size <= 1 << 28, "points = " + points + ", factor = " + factor + ": more than 2^28 values");
    return (int) size;
  }

  /**
   * The values at the places margin + i/factor.
   *
   * @param points the values of the points
   * @param factor values a point, 1 to 4096
   * @param out receives {@link #size} values
   * @throws IllegalArgumentException as {@link #size} says
   * @throws IndexOutOfBoundsException if {@code out} does not hold them
   */
  default void fill(double[] points, int factor, double[] out) {
    int size = size(Require.present("points", points).length, factor);
    Objects.checkFromIndexSize(0, size, Require.present("out", out).length);
    int margin = margin();
    for (int i = 0; i < size; i++) {
      out[i] = between(points, margin + i / factor, (double) (i % factor) / factor);
    }
  }
}
