package org.asmeasured.examples;

import java.util.function.IntToDoubleFunction;

/**
 * The room that a waveform fills where a line could not be told apart: its least and its greatest
 * values over time.
 *
 * @param lower the least values
 * @param upper the greatest values, at the same instants
 */
record Band(Polyline lower, Polyline upper) {

  /**
   * The stored points {@code first} to {@code last}: each where there is room, else the extremes of
   * each column.
   */
  static Band ofPoints(
      int first,
      int last,
      int columns,
      IntToDoubleFunction time,
      double[] lowerVolts,
      double[] upperVolts) {
    Polyline lower = new Polyline();
    Polyline upper = new Polyline();
    int count = last - first + 1;
    int parts = count <= 2 * columns ? count : columns;
    for (int part = 0; part < parts; part++) {
      int from = first + (int) ((long) count * part / parts);
      int to = first + (int) ((long) count * (part + 1) / parts);
      double min = Double.POSITIVE_INFINITY;
      double max = Double.NEGATIVE_INFINITY;
      for (int i = from; i < to; i++) {
        min = Math.min(min, lowerVolts[i]);
        max = Math.max(max, upperVolts[i]);
      }
      double middle = (time.applyAsDouble(from) + time.applyAsDouble(to - 1)) / 2;
      lower.add(middle, min);
      upper.add(middle, max);
    }
    return new Band(lower, upper);
  }

  /**
   * The extremes over so many columns around each one, so that the outline does not follow single
   * cycles.
   */
  Band widened(int columns) {
    if (columns <= 1) {
      return this;
    }
    Polyline low = new Polyline();
    Polyline high = new Polyline();
    for (int i = 0; i < lower.size(); i++) {
      double min = lower.value(i);
      double max = upper.value(i);
      int end = Math.min(lower.size() - 1, i + columns / 2);
      for (int k = Math.max(0, i - columns / 2); k <= end; k++) {
        min = Math.min(min, lower.value(k));
        max = Math.max(max, upper.value(k));
      }
      low.add(lower.time(i), min);
      high.add(upper.time(i), max);
    }
    return new Band(low, high);
  }

  /** The outline as x and y in turn, in the numbers of two axes. */
  double[] outline(AxisScale time, AxisScale volts) {
    double[] outline = new double[2 * (lower.size() + upper.size())];
    int k = 0;
    for (int i = 0; i < lower.size(); i++) {
      outline[k++] = time.in(lower.time(i));
      outline[k++] = volts.in(lower.value(i));
    }
    for (int i = upper.size() - 1; i >= 0; i--) {
      outline[k++] = time.in(upper.time(i));
      outline[k++] = volts.in(upper.value(i));
    }
    return outline;
  }

  /** Whether the room filled is so high, on average, that the waveform would be one solid patch. */
  boolean isDense() {
    double span = upper.greatest() - lower.least();
    double sum = 0;
    for (int i = 0; i < lower.size(); i++) {
      sum += upper.value(i) - lower.value(i);
    }
    return sum > 0.4 * span * lower.size();
  }
}
