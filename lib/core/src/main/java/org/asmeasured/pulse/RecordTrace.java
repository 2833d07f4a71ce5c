package org.asmeasured.pulse;

import org.asmeasured.capture.Record;

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
    int first = nodeAt(fromSeconds);
    int last = nodeAt(toSeconds);
    double before = fromSeconds * rateHz;
    double f0 = shaped(valueAt(fromSeconds), level, square);
    double sum = 0;
    double rest = 0;
    for (int i = first + 1; i <= last; i++) {
      double f1 = shaped(volts(i), level, square);
      double part = (i - before) * (f0 + f1) / 2;
      double next = sum + part;
      rest += Math.abs(sum) >= Math.abs(part) ? (sum - next) + part : (part - next) + sum;
      sum = next;
      before = i;
      f0 = f1;
    }
    double end = toSeconds * rateHz;
    sum += (end - before) * (f0 + shaped(valueAt(toSeconds), level, square)) / 2;
    return (sum + rest) / (end - fromSeconds * rateHz);
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
