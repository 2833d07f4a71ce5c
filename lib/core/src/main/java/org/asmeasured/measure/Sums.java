package org.asmeasured.measure;

import org.asmeasured.capture.Record;
import org.asmeasured.internal.LaneSums;

/** Means over the points of a record: of codes by whole numbers, of volts by compensated sums. */
final class Sums {
  private Sums() {}

  static double mean(Record record) {
    if (CodeSums.canBeOf(record)) {
      return CodeSums.of(record).mean();
    }
    LaneSums sums = new LaneSums(record.size());
    double[] block = new double[sums.block()];
    for (int at = 0; at < record.size(); at += block.length) {
      int n = Math.min(block.length, record.size() - at);
      record.volts(at, block, 0, n);
      sums.add(block, n);
    }
    return sums.total() / record.size();
  }

  /** The mean of the squares. */
  static double meanSquare(Record record) {
    return CodeSums.canBeOf(record) ? CodeSums.of(record).meanSquare() : meanSquare(record, 0);
  }

  /** The mean of the squares of the distances from the mean. */
  static double variance(Record record) {
    return CodeSums.canBeOf(record)
        ? CodeSums.of(record).variance()
        : meanSquare(record, mean(record));
  }

  private static double meanSquare(Record record, double level) {
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
