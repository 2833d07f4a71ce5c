package org.asmeasured.measure;

import org.asmeasured.capture.Record;

/**
 * Sums of products over the points of two records: blocks of 64 points in four rows each, which do
 * not wait for one another, and the blocks by compensated summation (Neumaier's variant). The error
 * does not grow with the length of the records.
 */
final class PairSums {
  private static final int BLOCK = 64;

  private final int size;
  private final double[] sum = new double[3];
  private final double[] carry = new double[3];
  private final double[] block = new double[3];

  PairSums(Record first, Record second) {
    size = first.size();
    double[] a = first.volts();
    double[] b = second.volts();
    int whole = size - size % BLOCK;
    for (int i = 0; i < whole; i += BLOCK) {
      block(a, b, i, block);
      add();
    }
    block[0] = 0;
    block[1] = 0;
    block[2] = 0;
    for (int i = whole; i < size; i++) {
      block[0] += a[i] * b[i];
      block[1] += a[i] * a[i];
      block[2] += b[i] * b[i];
    }
    add();
  }

  private static void block(double[] a, double[] b, int from, double[] out) {
    double p0 = 0;
    double p1 = 0;
    double p2 = 0;
    double p3 = 0;
    double a0 = 0;
    double a1 = 0;
    double a2 = 0;
    double a3 = 0;
    double b0 = 0;
    double b1 = 0;
    double b2 = 0;
    double b3 = 0;
    for (int i = from; i < from + BLOCK; i += 4) {
      p0 += a[i] * b[i];
      p1 += a[i + 1] * b[i + 1];
      p2 += a[i + 2] * b[i + 2];
      p3 += a[i + 3] * b[i + 3];
      a0 += a[i] * a[i];
      a1 += a[i + 1] * a[i + 1];
      a2 += a[i + 2] * a[i + 2];
      a3 += a[i + 3] * a[i + 3];
      b0 += b[i] * b[i];
      b1 += b[i + 1] * b[i + 1];
      b2 += b[i + 2] * b[i + 2];
      b3 += b[i + 3] * b[i + 3];
    }
    out[0] = (p0 + p1) + (p2 + p3);
    out[1] = (a0 + a1) + (a2 + a3);
    out[2] = (b0 + b1) + (b2 + b3);
  }

  private void add() {
    for (int k = 0; k < 3; k++) {
      double next = sum[k] + block[k];
      carry[k] +=
          Math.abs(sum[k]) >= Math.abs(block[k])
              ? (sum[k] - next) + block[k]
              : (block[k] - next) + sum[k];
      sum[k] = next;
    }
  }

  /** The mean of the products. */
  double meanProduct() {
    return (sum[0] + carry[0]) / size;
  }

  /** The RMS of the first times that of the second. */
  double productOfRms() {
    return Math.sqrt((sum[1] + carry[1]) / size) * Math.sqrt((sum[2] + carry[2]) / size);
  }
}
