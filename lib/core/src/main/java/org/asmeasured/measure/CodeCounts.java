package org.asmeasured.measure;

import java.util.Optional;
import org.asmeasured.capture.Record;
import org.asmeasured.internal.Require;

/**
 * How often each code of a record appears, from the least to the greatest of them: of few codes
 * that says all about levels and ranks. Immutable.
 */
public final class CodeCounts {
  private static final int BLOCK = 1024;

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
    int[] block = new int[BLOCK];
    int least = record.code(0);
    int greatest = least;
    for (int at = 0; at < record.size(); at += BLOCK) {
      int n = Math.min(BLOCK, record.size() - at);
      record.codes(at, block, 0, n);
      least = least(block, n, least);
      greatest = greatest(block, n, greatest);
    }
    long codes = (long) greatest - least + 1;
    if (codes > most) {
      return Optional.empty();
    }
    int[][] tables = new int[4][(int) codes];
    for (int at = 0; at < record.size(); at += BLOCK) {
      int n = Math.min(BLOCK, record.size() - at);
      record.codes(at, block, 0, n);
      count(block, n, least, tables[0], tables[1], tables[2], tables[3]);
    }
    for (int c = 0; c < codes; c++) {
      tables[0][c] += tables[1][c] + tables[2][c] + tables[3][c];
    }
    return Optional.of(new CodeCounts(least, tables[0]));
  }

  private static int least(int[] codes, int count, int sofar) {
    int least = sofar;
    for (int i = 0; i < count; i++) {
      least = Math.min(least, codes[i]);
    }
    return least;
  }

  private static int greatest(int[] codes, int count, int sofar) {
    int greatest = sofar;
    for (int i = 0; i < count; i++) {
      greatest = Math.max(greatest, codes[i]);
    }
    return greatest;
  }

  /** Four tables in turn: a code that is met again and again would otherwise wait for itself. */
  private static void count(int[] codes, int count, int least, int[] a, int[] b, int[] c, int[] d) {
    int i = 0;
    for (; i + 3 < count; i += 4) {
      a[codes[i] - least]++;
      b[codes[i + 1] - least]++;
      c[codes[i + 2] - least]++;
      d[codes[i + 3] - least]++;
    }
    for (; i < count; i++) {
      a[codes[i] - least]++;
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
