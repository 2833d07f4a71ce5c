package org.asmeasured.measure;

import org.asmeasured.capture.Record;
import org.asmeasured.internal.LaneSums;

/** Compensated sums: what an addition rounds away is added up beside it (Knuth's two-sum). */
final class Sums {
  private double sum;
  private double compensation;

  void add(double value) {
    double next = sum + value;
    double grown = next - sum;
    compensation += (sum - (next - grown)) + (value - grown);
    sum = next;
  }

  double total() {
    return sum + compensation;
  }

  static double mean(Record record) {
    double[] block = new double[LaneSums.BLOCK];
    LaneSums sums = new LaneSums();
    for (int at = 0; at < record.size(); at += block.length) {
      int n = Math.min(block.length, record.size() - at);
      record.volts(at, block, 0, n);
      sums.add(block, n);
    }
    return sums.total() / record.size();
  }

  /** The mean of the squares of the distances from a level. */
  static double meanSquare(Record record, double level) {
    double[] block = new double[LaneSums.BLOCK];
    LaneSums sums = new LaneSums();
    for (int at = 0; at < record.size(); at += block.length) {
      int n = Math.min(block.length, record.size() - at);
      record.volts(at, block, 0, n);
      sums.addSquares(block, n, level);
    }
    return sums.total() / record.size();
  }
}
