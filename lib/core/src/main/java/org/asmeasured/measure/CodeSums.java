package org.asmeasured.measure;

import org.asmeasured.capture.Record;

/**
 * The mean of a record and the squares about it, from sums of whole numbers, which nothing is
 * rounded away from.
 */
final class CodeSums {
  private final double offsetVolts;
  private final double stepVolts;

  /** The whole number nearest to the mean. */
  private final long middle;

  /** The mean beyond the middle. */
  private final double beyond;

  /** The mean of the squares of the distances from the middle. */
  private final double square;

  private CodeSums(Record record, long sum, long squares) {
    int n = record.size();
    offsetVolts = record.offsetVolts();
    stepVolts = record.stepVolts();
    middle = Math.round((double) sum / n);
    beyond = (double) (sum - n * middle) / n;
    // what overflows on the way comes back: the sum itself fits
    square = (double) (squares - 2 * middle * sum + n * middle * middle) / n;
  }

  /** Whether the sum of the squares of distances fits, whatever the codes. */
  static boolean canBeOf(Record record) {
    if (!record.hasCodes()) {
      return false;
    }
    double most =
        Math.max(Math.abs((double) record.leastCode()), Math.abs((double) record.greatestCode()));
    return most * most * record.size() < 0x1p61;
  }

  static CodeSums of(Record record) {
    int[] block = CodeBlock.take();
    long[] sums = new long[2];
    for (int at = 0; at < record.size(); at += block.length) {
      int n = Math.min(block.length, record.size() - at);
      record.codes(at, block, 0, n);
      add(block, n, sums);
    }
    return new CodeSums(record, sums[0], sums[1]);
  }

  private static void add(int[] codes, int count, long[] sums) {
    long sum = 0;
    long squares = 0;
    for (int i = 0; i < count; i++) {
      sum += codes[i];
      squares += (long) codes[i] * codes[i];
    }
    sums[0] += sum;
    sums[1] += squares;
  }

  double mean() {
    return offsetVolts + (middle + beyond) * stepVolts;
  }

  /** The mean of the squares. */
  double meanSquare() {
    return mean() * mean() + variance();
  }

  /** The mean of the squares of the distances from the mean. */
  double variance() {
    return (square - beyond * beyond) * stepVolts * stepVolts;
  }
}
