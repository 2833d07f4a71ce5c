package org.asmeasured.spectrum;

import java.util.OptionalDouble;
import org.asmeasured.internal.Quantity;
import org.asmeasured.internal.Require;

/**
 * A spectrum: what each of the frequencies k rate/N holds, N points a segment. Made by a {@link
 * SpectrumMethod}; immutable.
 *
 * <p>All scales come from one array: with X<sub>k</sub> the transform of the weighed values, M the
 * sum of the weights and on one side, a mean square is 2 |X<sub>k</sub>|<sup>2</sup>/M<sup>2</sup>
 * (without the 2 at zero and at half the rate), averaged over the segments.
 */
public final class Spectrum {
  private final SpectrumMethod method;
  private final double rateHz;
  private final int points;
  private final int segments;

  /** On one side. */
  private final double[] meanSquares;

  /** The transform, if there was only one. */
  private final double[] packed;

  private final double largestVolts;

  Spectrum(
      SpectrumMethod method,
      double rateHz,
      int points,
      int segments,
      double[] meanSquares,
      double[] packed,
      double largestVolts) {
    this.method = method;
    this.rateHz = rateHz;
    this.points = points;
    this.segments = segments;
    this.meanSquares = meanSquares;
    this.packed = packed;
    this.largestVolts = largestVolts;
  }

  /**
   * How it was taken.
   *
   * @return the method
   */
  public SpectrumMethod method() {
    return method;
  }

  /**
   * Points per second of the record.
   *
   * @return Hz
   */
  public double rateHz() {
    return rateHz;
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
   * The number of segments that were averaged.
   *
   * @return 1 or more
   */
  public int segments() {
    return segments;
  }

  /**
   * The distance of the lines.
   *
   * @return Hz: rate/segmentPoints
   */
  public double binHz() {
    return rateHz / points;
  }

  /**
   * The equivalent noise bandwidth of a line.
   *
   * @return Hz
   */
  public double noiseBandwidthHz() {
    return method.window().noiseBandwidthBins() * rateHz / points;
  }

  /**
   * The number of lines from zero to half the rate.
   *
   * @return segmentPoints/2 + 1, rounded down
   */
  public int bins() {
    return meanSquares.length;
  }

  /**
   * The frequency of a line.
   *
   * @param bin 0 to bins - 1
   * @return Hz: bin x rate/segmentPoints, rounded once
   * @throws IllegalArgumentException if there is no such line
   */
  public double frequencyHz(int bin) {
    Require.inRange("bin", bin, 0, bins() - 1);
    return bin * rateHz / points;
  }

  /**
   * One line, on one side.
   *
   * @param bin 0 to bins - 1
   * @param scale what the value means
   * @return in the unit of the scale
   * @throws IllegalArgumentException if there is no such line
   * @throws NullPointerException if there is no scale
   */
  public double at(int bin, Scale scale) {
    Require.inRange("bin", bin, 0, bins() - 1);
    return scaled(meanSquares[bin], Require.present("scale", scale), isSingle(bin));
  }

  /** Whether a line has no partner of the other sign. */
  private boolean isSingle(int bin) {
    return bin == 0 || 2 * bin == points;
  }

  private double scaled(double meanSquare, Scale scale, boolean single) {
    switch (scale) {
      case PEAK:
        return Math.sqrt(single ? meanSquare : 2 * meanSquare);
      case RMS:
        return Math.sqrt(meanSquare);
      case MEAN_SQUARE:
        return meanSquare;
      default:
        return meanSquare / noiseBandwidthHz();
    }
  }

  /**
   * The frequencies of all lines.
   *
   * @param sides which
   * @return Hz, ascending; a new array
   * @throws NullPointerException if the sides are missing
   */
  public double[] frequenciesHz(Sides sides) {
    int first = first(sides);
    double[] hz = new double[count(sides)];
    for (int i = 0; i < hz.length; i++) {
      hz[i] = (i + first) * rateHz / points;
    }
    return hz;
  }

  /**
   * All lines.
   *
   * @param scale what the values mean
   * @param sides which, in the order of {@link #frequenciesHz}
   * @return in the unit of the scale; a new array
   * @throws NullPointerException if an argument is missing
   */
  public double[] values(Scale scale, Sides sides) {
    Require.present("scale", scale);
    int first = first(sides);
    double[] values = new double[count(sides)];
    for (int i = 0; i < values.length; i++) {
      int bin = Math.abs(i + first);
      boolean single = isSingle(bin);
      boolean whole = sides == Sides.ONE || single;
      values[i] =
          scaled(
              whole ? meanSquares[bin] : meanSquares[bin] / 2, scale, single || sides == Sides.TWO);
    }
    return values;
  }

  private int first(Sides sides) {
    return Require.present("sides", sides) == Sides.ONE ? 0 : -(points / 2);
  }

  private int count(Sides sides) {
    return sides == Sides.ONE ? bins() : points;
  }

  /**
   * The phase of a line: that of a cosine at the first point of the segment.
   *
   * @param bin 0 to bins - 1
   * @return -pi to pi rad; empty where it means nothing: in a mean over several segments, or where
   *     the line is zero
   * @throws IllegalArgumentException if there is no such line
   */
  public OptionalDouble phaseRadians(int bin) {
    Require.inRange("bin", bin, 0, bins() - 1);
    if (packed == null || meanSquares[bin] == 0) {
      return OptionalDouble.empty();
    }
    double re = 2 * bin == points ? packed[1] : packed[2 * bin];
    double im = isSingle(bin) ? 0 : 2 * bin + 1 == points ? packed[1] : packed[2 * bin + 1];
    return OptionalDouble.of(Math.atan2(im, re));
  }

  /**
   * The mean square of the weighed values, from the density of all lines (Parseval's theorem): that
   * of the values themselves if there is no window and one segment.
   *
   * @return V^2
   */
  public double meanSquare() {
    double sum = 0;
    double rest = 0;
    for (double line : meanSquares) {
      double next = sum + line;
      rest += Math.abs(sum) >= Math.abs(line) ? (sum - next) + line : (line - next) + sum;
      sum = next;
    }
    return (sum + rest) / method.window().noiseBandwidthBins();
  }

  /**
   * The tone nearest to a line, if that line is the top of one: where between the lines it stands,
   * from how much it leaves in the stronger neighbour, and how large it is, by the transform of the
   * window. Exact for a tone alone; other tones, its own negative frequency among them, add what
   * the side lobes of the window leave of them.
   *
   * @return bins and mean square
   */
  Line interpolated(int bin) {
    double below = bin > 0 ? meanSquares[bin - 1] : 0;
    double above = bin + 1 < bins() ? meanSquares[bin + 1] : 0;
    double neighbour = Math.max(below, above);
    double top = meanSquares[bin];
    if (isSingle(bin) || neighbour > top || top == 0) {
      return new Line(bin, top);
    }
    double offset = Interpolation.offset(method.window(), points, Math.sqrt(neighbour / top));
    return new Line(above > below ? bin + offset : bin - offset, lifted(top, offset));
  }

  /** What stands at a place between the lines, if a tone does. */
  Line at(double place) {
    // half the rate of an odd length lies half a bin above the last line
    int bin = (int) Math.min(Math.rint(place), bins() - 1);
    return new Line(place, lifted(meanSquares[bin], place - bin));
  }

  private double lifted(double meanSquare, double offset) {
    double gain = method.window().modulus(offset, points);
    return meanSquare / (gain * gain);
  }

  /** The largest modulus among the values: how much rounding there is to expect. */
  double largestVolts() {
    return largestVolts;
  }

  double line(int bin) {
    return meanSquares[bin];
  }

  /**
   * A line between the bins.
   *
   * @param place in bins
   * @param meanSquare V^2
   */
  record Line(double place, double meanSquare) {}

  @Override
  public String toString() {
    return bins()
        + " lines to "
        + Quantity.of(rateHz / 2, "Hz")
        + ", "
        + Quantity.of(binHz(), "Hz")
        + " apart, "
        + (segments == 1 ? "1 segment" : "mean of " + segments + " segments")
        + ", "
        + method;
  }
}
