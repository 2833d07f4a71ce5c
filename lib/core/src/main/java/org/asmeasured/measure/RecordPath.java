package org.asmeasured.measure;

import org.asmeasured.capture.Record;

/**
 * Straight lines from point to point. Time runs in intervals from point 0, so that no digits are
 * lost on the start.
 */
final class RecordPath extends Path {
  private final Record record;
  private int index;

  RecordPath(Record record) {
    this.record = record;
    endVolts = record.volts(0);
  }

  @Override
  boolean next() {
    if (index + 1 >= record.size()) {
      return false;
    }
    index++;
    startSeconds = index - 1;
    startVolts = endVolts;
    endSeconds = index;
    endVolts = record.volts(index);
    return true;
  }

  @Override
  double instant(Piece piece, double level) {
    return piece.startSeconds()
        + (level - piece.startVolts()) / (piece.endVolts() - piece.startVolts());
  }
}
