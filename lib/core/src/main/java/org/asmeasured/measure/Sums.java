package org.asmeasured.measure;

import org.asmeasured.capture.Record;
import org.asmeasured.internal.LaneSums;

/** Compensated sums over the points of a record. */
final class Sums {
  private Sums() {}

  static double mean(Record record) {
    LaneSums sums = new LaneSums(record.size());
    double[] block = new double[sums.block()];
    for (int at = 0; at < record.size(); at += block.length) {
      int n = Math.min(block.length, record.size() - at);
      record.volts(at, block, 0, n);
      sums.add(block, n);
    }
    return sums.total() / record.size();
  }

  /** The mean of the squares of the distances from a level. */
  static double meanSquare(Record record, double level) {
    LaneSums sums = new LaneSums(record.size());
    double[] block = new double[sums.block()];
    for (int at = 0; at < record.size(); at += block.length) {
      int n = Math.min(block.length, record.size() - at);
      record.volts(at, block, 0, n);
      sums.addSquares(block, n, level);
    }
    return sums.total() / record.size();
  }
}
