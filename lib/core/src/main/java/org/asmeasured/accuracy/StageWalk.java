package org.asmeasured.accuracy;

import java.util.ArrayList;
import java.util.List;
import org.asmeasured.measure.Measured;

/**
 * One reading on its way along a chain, from the truth to as measured.
 *
 * @param <R> what kind of reading
 */
final class StageWalk<R> {
  final R reading;
  final Measured truth;
  private final List<StageBias> rows = new ArrayList<>();
  private Measured before;
  private Measured now;

  StageWalk(R reading, Measured truth) {
    this.reading = reading;
    this.truth = truth;
    before = truth;
    now = truth;
  }

  /** The reading with one more stage; counts from the last one that could be taken. */
  void add(String stage, Measured value) {
    now = value;
    rows.add(new StageBias(stage, now, Prediction.difference(now, before)));
    before = now.isTaken() ? now : before;
  }

  Measured now() {
    return now;
  }

  List<StageBias> rows() {
    return List.copyOf(rows);
  }
}
