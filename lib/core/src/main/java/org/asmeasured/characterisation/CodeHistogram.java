package org.asmeasured.characterisation;

import java.util.Optional;
import org.asmeasured.capture.Record;
import org.asmeasured.digitizer.Converter;
import org.asmeasured.internal.Require;

/** How often each code of a converter appeared, in one record or in many. Immutable. */
public final class CodeHistogram {
  private static final long MOST = 1L << 52;

  private final int bits;
  private final long[] counts;
  private final long total;

  private CodeHistogram(int bits, long[] counts, long total) {
    this.bits = bits;
    this.counts = counts;
    this.total = total;
  }

  /**
   * A histogram that was counted elsewhere.
   *
   * @param bits 1 to 24
   * @param counts how often each code appeared, from the lowest on, 2<sup>bits</sup> numbers of 0
   *     or more; copied
   * @return the histogram
   * @throws IllegalArgumentException if the number of bits or of counts is wrong, a count is
   *     negative, or all together are more than 2<sup>52</sup>
   * @throws NullPointerException if the counts are missing
   */
  public static CodeHistogram of(int bits, long[] counts) {
    Require.inRange("bits", bits, 1, Converter.MAX_BITS);
    Require.present("counts", counts);
    int codes = 1 << bits;
    Require.that(
        counts.length == codes,
        "counts.length = "
            + counts.length
            + ": must be "
            + codes
            + " for "
            + bits
            + (bits == 1 ? " bit" : " bits"));
    long[] copy = counts.clone();
    long total = 0;
    for (int i = 0; i < codes; i++) {
      Require.inRange("counts[" + i + "]", copy[i], 0, MOST);
      total += copy[i];
      Require.inRange("sum of counts", total, 0, MOST);
    }
    return new CodeHistogram(bits, copy, total);
  }

  /**
   * An empty histogram, to begin with.
   *
   * @param bits 1 to 24
   * @return the histogram
   * @throws IllegalArgumentException if the number is out of range
   */
  public static CodeHistogram empty(int bits) {
    Require.inRange("bits", bits, 1, Converter.MAX_BITS);
    return new CodeHistogram(bits, new long[1 << bits], 0);
  }

  /**
   * With the codes of a record added.
   *
   * @param record one that holds codes of this many bits
   * @return a new histogram
   * @throws IllegalArgumentException if the record is an envelope or holds no codes, or a code is
   *     out of range
   * @throws NullPointerException if the record is missing
   */
  public CodeHistogram plus(Record record) {
    Require.present("record", record);
    Optional<String> reason = Records.noValues("a histogram", record);
    Require.that(reason.isEmpty(), "record = " + record + ": " + reason.orElse(""));
    Require.that(record.hasCodes(), "record = " + record + ": must hold codes");
    long[] sum = counts.clone();
    int low = lowestCode();
    for (int i = 0; i < record.size(); i++) {
      int code = record.code(i);
      if (code < low || code >= low + sum.length) {
        Require.inRange("record.code(" + i + ")", code, low, low + sum.length - 1);
      }
      sum[code - low]++;
    }
    Require.inRange("sum of counts", total + record.size(), 0, MOST);
    return new CodeHistogram(bits, sum, total + record.size());
  }

  /**
   * With another histogram added.
   *
   * @param other one of as many bits
   * @return a new histogram
   * @throws IllegalArgumentException if the bits differ or the sum is more than 2<sup>52</sup>
   * @throws NullPointerException if it is missing
   */
  public CodeHistogram plus(CodeHistogram other) {
    Require.present("other", other);
    Require.that(
        other.bits == bits, "other.bits = " + other.bits + ": must be as many as here, " + bits);
    long[] sum = counts.clone();
    for (int i = 0; i < sum.length; i++) {
      sum[i] += other.counts[i];
    }
    Require.inRange("sum of counts", total + other.total, 0, MOST);
    return new CodeHistogram(bits, sum, total + other.total);
  }

  /**
   * The number of bits.
   *
   * @return 1 to 24
   */
  public int bits() {
    return bits;
  }

  /**
   * The code of the first count.
   *
   * @return -2<sup>bits-1</sup>
   */
  public int lowestCode() {
    return -(1 << (bits - 1));
  }

  /**
   * How often a code appeared.
   *
   * @param code from the lowest to the highest
   * @return 0 or more
   * @throws IllegalArgumentException if there is no such code
   */
  public long count(int code) {
    Require.inRange("code", code, lowestCode(), -lowestCode() - 1);
    return counts[code - lowestCode()];
  }

  /**
   * All counts.
   *
   * @return a new array, from the lowest code on
   */
  public long[] counts() {
    return counts.clone();
  }

  /**
   * The number of samples.
   *
   * @return the sum of the counts
   */
  public long total() {
    return total;
  }

  @Override
  public String toString() {
    return "histogram of " + total + " samples of " + bits + (bits == 1 ? " bit" : " bits");
  }
}
