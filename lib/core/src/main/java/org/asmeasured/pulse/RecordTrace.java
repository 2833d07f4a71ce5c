package org.asmeasured.pulse;

import org.asmeasured.capture.Record;
import org.asmeasured.internal.LaneSums;

/** Straight lines from point to point. The points are read where they are, not copied. */
final class RecordTrace extends Trace {
  private final Record record;
  private final double rateHz;

  RecordTrace(Record record) {
    this.record = record;
    rateHz = record.rateHz();
  }

  @Override
  int size() {
    return record.size();
  }

  @Override
  double volts(int node) {
    return record.volts(node);
  }

  @Override
  int firstAtOrAbove(int from, double level) {
    return record.firstAtOrAbove(from, level);
  }

  @Override
  int firstAtOrBelow(int from, double level) {
    return record.firstAtOrBelow(from, level);
  }

  @Override
  double seconds(int node) {
    return node / rateHz;
  }

  @Override
  double crossing(int node, double level) {
    double a = volts(node);
    double b = volts(node + 1);
    return (node + (level - a) / (b - a)) / rateHz;
  }

  @Override
  double valueAt(double seconds) {
    int i = nodeAt(seconds);
    double share = Math.max(0, seconds * rateHz - i);
    return i + 1 < size() ? volts(i) + share * (volts(i + 1) - volts(i)) : volts(i);
  }

  @Override
  int nodeAt(double seconds) {
    return (int) Math.max(0, Math.min(size() - 1, Math.floor(seconds * rateHz)));
  }

  @Override
  double slope(double fromSeconds, double toSeconds) {
    int first = (int) Math.ceil(fromSeconds * rateHz);
    int last = nodeAt(toSeconds);
    int n = last - first + 1;
    if (n < 2) {
      return Double.NaN;
    }
    double centre = first + (n - 1) / 2.0;
    double product = 0;
    for (int i = first; i <= last; i++) {
      product += (i - centre) * (volts(i) - volts(first));
    }
    double squares = n / 12.0 * ((double) n * n - 1);
    return product / squares * rateHz;
  }

  /** By the trapezoidal rule, the parts of an interval at both ends included. */
  @Override
  double mean(double fromSeconds, double toSeconds) {
    return average(fromSeconds, toSeconds, 0, false);
  }

  @Override
  double rms(double fromSeconds, double toSeconds) {
    return Math.sqrt(average(fromSeconds, toSeconds, 0, true));
  }

  @Override
  double acRms(double fromSeconds, double toSeconds) {
    double mean = mean(fromSeconds, toSeconds);
    return Math.sqrt(average(fromSeconds, toSeconds, mean, true));
  }

  private double average(double fromSeconds, double toSeconds, double level, boolean square) {
    int first = nodeAt(fromSeconds) + 1;
    int last = nodeAt(toSeconds);
    double start = fromSeconds * rateHz;
    double end = toSeconds * rateHz;
    double left = shaped(valueAt(fromSeconds), level, square);
    double right = shaped(valueAt(toSeconds), level, square);
    if (first > last) {
      return (left + right) / 2;
    }
    double atFirst = shaped(volts(first), level, square);
    double atLast = shaped(volts(last), level, square);
    // whole intervals are the sum of their points less half of those at the ends
    double sum = sum(first, last, level, square) - (atFirst + atLast) / 2;
    sum += (first - start) * (left + atFirst) / 2;
    sum += (end - last) * (atLast + right) / 2;
    return sum / (end - start);
  }

  private double sum(int first, int last, double level, boolean square) {
    double[] block = new double[LaneSums.BLOCK];
    LaneSums sums = new LaneSums();
    for (int at = first; at <= last; at += block.length) {
      int n = Math.min(block.length, last + 1 - at);
      record.volts(at, block, 0, n);
      if (square) {
        sums.addSquares(block, n, level);
      } else {
        sums.add(block, n);
      }
    }
    return sums.total();
  }

  private static double shaped(double value, double level, boolean square) {
    double distance = value - level;
    return square ? distance * distance : distance;
  }

  @Override
  boolean isSampled() {
    return true;
  }
}
