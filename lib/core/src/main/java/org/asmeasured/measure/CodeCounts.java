package org.asmeasured.measure;

import java.util.Arrays;
import java.util.Optional;
import org.asmeasured.capture.Record;
import org.asmeasured.internal.Require;

/**
 * How often each code of a record appears, from the least to the greatest of them: of few codes
 * that says all about levels and ranks. Immutable.
 */
public final class CodeCounts {
  private static final int KEPT = 4096;

  /** A thread's tables, all zero but while it counts: to make them takes longer than to count. */
  private static final ThreadLocal<int[]> SHARED = ThreadLocal.withInitial(() -> new int[KEPT]);

  private final int least;
  private final int[] counts;

  private CodeCounts(int least, int[] counts) {
    this.least = least;
    this.counts = counts;
  }

  /**
   * Counts the codes of a record.
   *
   * @param record one that holds codes, neither empty nor an envelope
   * @param most the most codes between the least and the greatest, 1 to 2<sup>24</sup>
   * @return the counts; empty if there are more codes than that
   * @throws IllegalArgumentException if the number is out of range
   * @throws IllegalStateException if the record has no codes or is an envelope
   * @throws NullPointerException if the record is missing
   */
  public static Optional<CodeCounts> of(Record record, int most) {
    Require.present("record", record);
    Require.inRange("most", most, 1, 1 << 24);
    int low = record.leastCode();
    long codes = (long) record.greatestCode() - low + 1;
    if (codes > most) {
      return Optional.empty();
    }
    // a power of two, so that a mask shows every place to be within it
    int table = Math.max(1, Integer.highestOneBit((int) codes - 1) << 1);
    int[] tables = 4 * table <= KEPT ? SHARED.get() : new int[4 * table];
    int[] block = CodeBlock.take();
    for (int at = 0; at < record.size(); at += block.length) {
      int n = Math.min(block.length, record.size() - at);
      record.codes(at, block, 0, n);
      count(block, n, low, tables, table);
    }
    int[] counts = new int[(int) codes];
    for (int c = 0; c < codes; c++) {
      counts[c] = tables[c] + tables[table + c] + tables[2 * table + c] + tables[3 * table + c];
    }
    Arrays.fill(tables, 0, 4 * table, 0);
    return Optional.of(new CodeCounts(low, counts));
  }

  /** Four tables in turn: a code that is met again and again would otherwise wait for itself. */
  private static void count(int[] codes, int count, int low, int[] tables, int table) {
    int mask = tables.length - 1;
    int second = table - low;
    int third = 2 * table - low;
    int fourth = 3 * table - low;
    int i = 0;
    for (; i + 3 < count; i += 4) {
      tables[(codes[i] - low) & mask]++;
      tables[(codes[i + 1] + second) & mask]++;
      tables[(codes[i + 2] + third) & mask]++;
      tables[(codes[i + 3] + fourth) & mask]++;
    }
    for (; i < count; i++) {
      tables[(codes[i] - low) & mask]++;
    }
  }

  /**
   * The least code.
   *
   * @return in stored bits
   */
  public int least() {
    return least;
  }

  /**
   * How many codes there are from the least to the greatest, whether they appear or not.
   *
   * @return 1 or more
   */
  public int size() {
    return counts.length;
  }

  /**
   * How often a code appears.
   *
   * @param index its distance from the least, 0 to size - 1
   * @return 0 or more
   * @throws IndexOutOfBoundsException if there is no such code
   */
  public int count(int index) {
    return counts[index];
  }
}
