package org.asmeasured.accuracy;

import java.util.ArrayList;
import java.util.List;
import org.asmeasured.measure.Measured;

/**
 * One reading on its way through the rows of a table, of one capture.
 *
 * @param <R> what kind of reading
 */
final class StageWalk<R> {
  final R reading;
  final List<Row> rows = new ArrayList<>();

  /**
   * What was read at a row.
   *
   * @param stage the name of the row
   * @param value the reading
   * @param random whether another seed may read otherwise
   */
  record Row(String stage, Measured value, boolean random) {}

  /** Starts with what the rows are held against. */
  StageWalk(R reading, Measured reference, boolean random) {
    this.reading = reading;
    rows.add(new Row("", reference, random));
  }

  void add(String stage, Measured value, boolean random) {
    rows.add(new Row(stage, value, random));
  }
}
