package org.asmeasured.pulse;

import java.util.Optional;
import org.asmeasured.capture.Record;
import org.asmeasured.internal.OrderStatistics;
import org.asmeasured.internal.RangeLanes;
import org.asmeasured.internal.Require;
import org.asmeasured.internal.ValueHistogram;
import org.asmeasured.measure.CodeCounts;
import org.asmeasured.signal.Dwell;
import org.asmeasured.signal.Waveform;

/**
 * The mode of each half of the histogram.
 *
 * @param bins of equal width
 * @param byCodes whether codes take the place of bins where there are not too many of them
 */
record HistogramMode(int bins, boolean byCodes) implements StateLevels {
  static final StateLevels DEFAULT = new HistogramMode(DEFAULT_BINS, true);

  private static final int MAX_BINS = 1 << 16;
  private static final int MAX_CODES = 1024;

  /** Sixteen would ask for tables of twice the size. */
  private static final int FINE = 15;

  private static final double MANY_BINS = 32;
  private static final double DEVIATIONS = 5;

  HistogramMode {
    Require.inRange("bins", bins, 2, MAX_BINS);
  }

  @Override
  public States of(Record record) {
    if (byCodes && record.hasCodes()) {
      Optional<CodeCounts> codes = CodeCounts.of(record, MAX_CODES);
      if (codes.isPresent()) {
        return ofCodes(record, codes.get());
      }
    }
    RangeLanes range = new RangeLanes();
    double[] few = new double[Math.min(RangeLanes.BLOCK, record.size())];
    for (int at = 0; at < record.size(); at += few.length) {
      range.add(few, read(record, at, few));
    }
    double low = range.least();
    double high = range.greatest();
    // bins within bins, so that few values are left among which the median is to be found
    int fine = bins <= MANY_BINS * FINE * FINE ? FINE : 1;
    double perVolt = bins * fine / (high - low);
    if (high == low || !(perVolt <= Double.MAX_VALUE)) {
      return new States(low, high);
    }
    double[] block = new double[Math.min(ValueHistogram.BLOCK, record.size())];
    ValueHistogram histogram = new ValueHistogram(low, perVolt, bins * fine);
    for (int at = 0; at < record.size(); at += block.length) {
      histogram.add(block, read(record, at, block));
    }
    int[] counts = histogram.counts();
    int[] coarse = new int[bins];
    for (int b = 0; b < counts.length; b++) {
      coarse[b / fine] += counts[b];
    }
    int first = mode(coarse, true);
    int last = mode(coarse, false);
    // where no mode stands out, the extreme bin is looked at for nothing
    Middle below = new Middle(counts, Math.max(first, 0), fine);
    Middle above = new Middle(counts, last < 0 ? bins - 1 : last, fine);
    int[] rows = {below.from, below.to, above.from, above.to};
    double[][] values = {below.values, above.values};
    int[] kept = new int[2];
    for (int at = 0; at < record.size(); at += block.length) {
      histogram.gather(block, read(record, at, block), rows, values, kept);
    }
    return new States(first < 0 ? low : below.median(), last < 0 ? high : above.median());
  }

  private static int read(Record record, int at, double[] block) {
    int n = Math.min(block.length, record.size() - at);
    record.volts(at, block, 0, n);
    return n;
  }

  /** The middle of the values in a bin: which finer bins it lies in, and their values. */
  private static final class Middle {
    private final int from;
    private final int to;
    private final int lower;
    private final int upper;
    private final double[] values;

    Middle(int[] counts, int bin, int fine) {
      int n = 0;
      for (int b = bin * fine; b < (bin + 1) * fine; b++) {
        n += counts[b];
      }
      int rank = (n - 1) / 2;
      int b = bin * fine;
      int before = 0;
      while (rank >= before + counts[b]) {
        before += counts[b++];
      }
      from = b;
      int held = counts[b];
      while (n / 2 >= before + held) {
        held += counts[++b];
      }
      to = b;
      lower = rank - before;
      upper = n / 2 - before;
      values = new double[held];
    }

    /** Of an even number the mean of both. */
    double median() {
      double[] copy = lower == upper ? values : values.clone();
      double high = OrderStatistics.select(copy, copy.length, upper);
      if (lower == upper) {
        return high;
      }
      double low = OrderStatistics.select(values, values.length, lower);
      return low + (high - low) / 2;
    }
  }

  private static States ofCodes(Record record, CodeCounts codes) {
    int[] counts = new int[codes.size()];
    for (int c = 0; c < counts.length; c++) {
      counts[c] = codes.count(c);
    }
    int first = mode(counts, true);
    int last = mode(counts, false);
    double zero = record.offsetVolts() + codes.least() * record.stepVolts();
    return new States(
        zero + Math.max(first, 0) * record.stepVolts(),
        zero + (last < 0 ? counts.length - 1 : last) * record.stepVolts());
  }

  @Override
  public States of(Waveform truth, double fromSeconds, double toSeconds) {
    Dwell dwell = Dwell.of(truth, fromSeconds, toSeconds);
    double low = dwell.minimum();
    double high = dwell.maximum();
    if (low == high) {
      return new States(low, high);
    }
    double[] shares = new double[bins];
    double[] below = new double[bins + 1];
    below[bins] = 1;
    for (int b = 1; b < bins; b++) {
      below[b] = dwell.shareBelow(low + b * ((high - low) / bins));
    }
    for (int b = 0; b < bins; b++) {
      shares[b] = below[b + 1] - below[b];
    }
    int first = mode(shares, true);
    int last = mode(shares, false);
    return new States(
        first < 0 ? low : dwell.quantile((below[first] + below[first + 1]) / 2),
        last < 0 ? high : dwell.quantile((below[last] + below[last + 1]) / 2));
  }

  /** The fullest bin of a half, of equal ones the outermost; -1 if none stands out. */
  private static int mode(int[] counts, boolean lower) {
    int half = counts.length / 2;
    int best = -1;
    int most = 0;
    int sum = 0;
    int bin = lower ? 0 : counts.length - 1;
    int next = lower ? 1 : -1;
    for (int i = 0; i < half; i++, bin += next) {
      sum += counts[bin];
      if (counts[bin] > most) {
        most = counts[bin];
        best = bin;
      }
    }
    double mean = (double) sum / half;
    return most > mean + Math.max(DEVIATIONS * Math.sqrt(mean), margin(mean, half)) ? best : -1;
  }

  /** The same of shares of time. */
  private static int mode(double[] shares, boolean lower) {
    int half = shares.length / 2;
    int best = -1;
    double most = 0;
    double sum = 0;
    for (int i = 0; i < half; i++) {
      int bin = lower ? i : shares.length - 1 - i;
      sum += shares[bin];
      if (shares[bin] > most) {
        most = shares[bin];
        best = bin;
      }
    }
    double mean = sum / half;
    return most > mean + margin(mean, half) ? best : -1;
  }

  private static double margin(double mean, int half) {
    return mean * Math.min(1, half / MANY_BINS);
  }

  @Override
  public String toString() {
    return "modes of a histogram of " + (byCodes ? "codes or of " : "") + bins + " bins";
  }
}
