package org.asmeasured.measure;

import org.asmeasured.capture.Record;

/** Sums over the points of a record by compensated summation (Neumaier's variant). */
final class Sums {
  private double sum;
  private double compensation;

  void add(double value) {
    double next = sum + value;
    compensation += Math.abs(sum) >= Math.abs(value) ? (sum - next) + value : (value - next) + sum;
    sum = next;
  }

  double total() {
    return sum + compensation;
  }

  static double mean(Record record) {
    Sums sums = new Sums();
    for (int i = 0; i < record.size(); i++) {
      sums.add(record.volts(i));
    }
    return sums.total() / record.size();
  }

  /** The mean of the squares of the distances from a level. */
  static double meanSquare(Record record, double level) {
    Sums sums = new Sums();
    for (int i = 0; i < record.size(); i++) {
      double distance = record.volts(i) - level;
      sums.add(distance * distance);
    }
    return sums.total() / record.size();
  }
}
