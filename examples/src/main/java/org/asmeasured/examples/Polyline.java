package org.asmeasured.examples;

import java.util.Arrays;
import java.util.function.IntToDoubleFunction;
import org.jfree.data.xy.XYSeries;

/** A line to draw: instants and values in the order in which the pen visits them. */
final class Polyline {
  private double[] times = new double[256];
  private double[] values = new double[256];
  private int size;

  int size() {
    return size;
  }

  double time(int i) {
    return times[i];
  }

  double value(int i) {
    return values[i];
  }

  void add(double time, double value) {
    if (size == times.length) {
      times = Arrays.copyOf(times, 2 * size);
      values = Arrays.copyOf(values, 2 * size);
    }
    times[size] = time;
    values[size] = value;
    size++;
  }

  /**
   * The stored points {@code first} to {@code last} as a line that a picture so many columns wide
   * can show: each point where there is room, else the least and the greatest value of each column,
   * so that nothing aliases and no spike is lost.
   */
  static Polyline ofPoints(
      int first, int last, int columns, IntToDoubleFunction time, IntToDoubleFunction value) {
    Polyline line = new Polyline();
    int count = last - first + 1;
    if (count <= 2 * columns) {
      for (int i = first; i <= last; i++) {
        line.add(time.applyAsDouble(i), value.applyAsDouble(i));
      }
      return line;
    }
    for (int column = 0; column < columns; column++) {
      int from = first + (int) ((long) count * column / columns);
      int to = first + (int) ((long) count * (column + 1) / columns);
      double min = Double.POSITIVE_INFINITY;
      double max = Double.NEGATIVE_INFINITY;
      for (int i = from; i < to; i++) {
        double v = value.applyAsDouble(i);
        min = Math.min(min, v);
        max = Math.max(max, v);
      }
      line.addColumn((time.applyAsDouble(from) + time.applyAsDouble(to - 1)) / 2, min, max);
    }
    return line;
  }

  /** A column of pixels, entered at whichever end is nearer. */
  void addColumn(double time, double min, double max) {
    boolean fromTop =
        size > 0 && Math.abs(values[size - 1] - max) < Math.abs(values[size - 1] - min);
    add(time, fromTop ? max : min);
    if (min != max) {
      add(time, fromTop ? min : max);
    }
  }

  double least() {
    return Arrays.stream(values, 0, size).min().orElse(0);
  }

  double greatest() {
    return Arrays.stream(values, 0, size).max().orElse(0);
  }

  /** The line in the numbers of its axes. */
  XYSeries series(String key, AxisScale time, AxisScale volts) {
    XYSeries series = new XYSeries(key, false, true);
    for (int i = 0; i < size; i++) {
      series.add(time.in(times[i]), volts.in(values[i]), false);
    }
    return series;
  }

  /**
   * The same line without points that nobody could see: each one left out lies within the
   * tolerances of the line that stays.
   */
  Polyline simplified(double timeTolerance, double valueTolerance) {
    Polyline kept = new Polyline();
    if (size == 0) {
      return kept;
    }
    kept.add(times[0], values[0]);
    int anchor = 0;
    // Slopes from the anchor that pass every point since, within the tolerance.
    double least = Double.NEGATIVE_INFINITY;
    double greatest = Double.POSITIVE_INFINITY;
    for (int i = 1; i < size; i++) {
      double run = times[i] - times[anchor];
      boolean far = run > timeTolerance;
      double slope = (values[i] - values[anchor]) / run;
      boolean within =
          far
              ? slope >= least && slope <= greatest
              : Math.abs(values[i] - values[anchor]) <= valueTolerance;
      if (!within) {
        if (i - 1 > anchor) {
          kept.add(times[i - 1], values[i - 1]);
          anchor = i - 1;
        } else {
          kept.add(times[i], values[i]);
          anchor = i;
        }
        run = times[i] - times[anchor];
        far = run > timeTolerance;
        // A spike: no later point would miss it, because its run is too short to bound a slope.
        if (!far && Math.abs(values[i] - values[anchor]) > valueTolerance) {
          kept.add(times[i], values[i]);
          anchor = i;
          run = 0;
        }
        least = Double.NEGATIVE_INFINITY;
        greatest = Double.POSITIVE_INFINITY;
      }
      if (far) {
        least = Math.max(least, (values[i] - valueTolerance - values[anchor]) / run);
        greatest = Math.min(greatest, (values[i] + valueTolerance - values[anchor]) / run);
      }
    }
    if (anchor != size - 1) {
      kept.add(times[size - 1], values[size - 1]);
    }
    return kept;
  }
}
