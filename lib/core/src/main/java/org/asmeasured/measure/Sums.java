package org.asmeasured.measure;

import org.asmeasured.capture.Record;
import org.asmeasured.internal.CompensatedSum;

/**
 * Compensated sums over the points of a record: many run side by side, on vectors, and are added at
 * the end.
 */
final class Sums {
  private static final int LANES = 512;

  private Sums() {}

  static double mean(Record record) {
    double[] block = new double[LANES];
    double[] sums = new double[LANES];
    double[] rounded = new double[LANES];
    for (int at = 0; at < record.size(); at += LANES) {
      int n = Math.min(LANES, record.size() - at);
      record.volts(at, block, 0, n);
      addUp(block, n, sums, rounded);
    }
    return total(sums, rounded) / record.size();
  }

  /** The mean of the squares of the distances from a level. */
  static double meanSquare(Record record, double level) {
    double[] block = new double[LANES];
    double[] sums = new double[LANES];
    double[] rounded = new double[LANES];
    for (int at = 0; at < record.size(); at += LANES) {
      int n = Math.min(LANES, record.size() - at);
      record.volts(at, block, 0, n);
      square(block, n, level);
      addUp(block, n, sums, rounded);
    }
    return total(sums, rounded) / record.size();
  }

  private static void square(double[] values, int count, double level) {
    for (int i = 0; i < count; i++) {
      double distance = values[i] - level;
      values[i] = distance * distance;
    }
  }

  private static double total(double[] sums, double[] rounded) {
    CompensatedSum all = new CompensatedSum();
    for (double part : sums) {
      all.add(part);
    }
    for (double part : rounded) {
      all.add(part);
    }
    return all.total();
  }

  private static void addUp(double[] v, int count, double[] sums, double[] rounded) {
    for (int i = 0; i < count; i++) {
      double next = sums[i] + v[i];
      double grown = next - sums[i];
      rounded[i] += (sums[i] - (next - grown)) + (v[i] - grown);
      sums[i] = next;
    }
  }
}
