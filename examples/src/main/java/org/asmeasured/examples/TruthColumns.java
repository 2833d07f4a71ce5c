package org.asmeasured.examples;

import org.asmeasured.signal.Waveform;

/**
 * The true signal as a picture so many columns wide can show it: evaluated from its closed form,
 * never from the record's instants.
 */
final class TruthColumns {
  /** Pieces of a column up to which every knot of the signal in it is visited. */
  private static final int MOST_PIECES = 64;

  private static final int STEPS_A_PIECE = 8;
  private static final double GOLDEN = 0.6180339887498949;

  private final Polyline line = new Polyline();
  private final Polyline lower = new Polyline();
  private final Polyline upper = new Polyline();

  /** Evaluates the signal, less a constant, over a span. */
  TruthColumns(Waveform truth, double removedVolts, double from, double to, int columns) {
    double width = (to - from) / columns;
    for (int c = 0; c < columns; c++) {
      double start = from + c * width;
      double end = c == columns - 1 ? to : from + (c + 1) * width;
      if (!(end > start)) {
        continue;
      }
      Polyline column = column(truth, removedVolts, start, end);
      double min = column.least();
      double max = column.greatest();
      double middle = start + (end - start) / 2;
      lower.add(middle, min);
      upper.add(middle, max);
      if (column.size() <= 2 * STEPS_A_PIECE + 4) {
        for (int i = 0; i < column.size(); i++) {
          line.add(column.time(i), column.value(i));
        }
      } else {
        line.addColumn(middle, min, max);
      }
    }
  }

  private static Polyline column(Waveform truth, double removedVolts, double start, double end) {
    Polyline column = new Polyline();
    double[] knots = truth.knots(start, end);
    if (knots.length - 1 > MOST_PIECES) {
      // Many cycles in one column: instants spread without a rhythm that could lock to theirs.
      int count = MOST_PIECES * STEPS_A_PIECE;
      for (int k = 0; k < count; k++) {
        double shuffled = (k * GOLDEN) % 1;
        double t = start + (k + shuffled) / count * (end - start);
        column.add(t, truth.valueAt(t) - removedVolts);
      }
      return column;
    }
    for (int k = 0; k + 1 < knots.length; k++) {
      column.add(knots[k], truth.valueAt(knots[k]) - removedVolts);
      for (int j = 1; j < STEPS_A_PIECE; j++) {
        double t = knots[k] + (knots[k + 1] - knots[k]) * j / STEPS_A_PIECE;
        column.add(t, truth.valueAt(t) - removedVolts);
      }
      // Up to the knot from its left; the next piece, or the next column, begins at its right.
      column.add(knots[k + 1], truth.valueBefore(knots[k + 1]) - removedVolts);
    }
    return column;
  }

  /** The signal as one line. */
  Polyline line() {
    return line;
  }

  /** The least and the greatest value of each column. */
  Band band() {
    return new Band(lower, upper);
  }
}
