package org.asmeasured.pulse;

import org.asmeasured.capture.Record;
import org.asmeasured.internal.OrderStatistics;
import org.asmeasured.internal.Require;
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
  private static final double MANY_BINS = 32;
  private static final double DEVIATIONS = 5;

  HistogramMode {
    Require.inRange("bins", bins, 2, MAX_BINS);
  }

  @Override
  public States of(Record record) {
    double[] volts = record.volts();
    double[] extremes = OrderStatistics.extremes(volts, volts.length);
    double low = extremes[0];
    double high = extremes[1];
    double range = high - low;
    if (range == 0) {
      return new States(low, high);
    }
    double codes = record.hasCodes() ? Math.rint(range / record.stepVolts()) + 1 : MAX_CODES + 1;
    if (byCodes && codes <= MAX_CODES) {
      double[] counts = counts(volts, low - record.stepVolts() / 2, 1 / record.stepVolts(), codes);
      int first = mode(counts, true, volts.length);
      int last = mode(counts, false, volts.length);
      return new States(
          first < 0 ? low : low + first * record.stepVolts(),
          last < 0 ? high : high - (codes - 1 - last) * record.stepVolts());
    }
    double perVolt = bins / range;
    if (!(perVolt <= Double.MAX_VALUE)) {
      return new States(low, high);
    }
    double[] counts = counts(volts, low, perVolt, bins);
    int first = mode(counts, true, volts.length);
    int last = mode(counts, false, volts.length);
    double lowLevel = first < 0 ? low : median(volts, low, perVolt, first, counts[first]);
    double highLevel = last < 0 ? high : median(volts, low, perVolt, last, counts[last]);
    return new States(lowLevel, highLevel);
  }

  private static double[] counts(double[] volts, double low, double perVolt, double bins) {
    int[] counts = OrderStatistics.histogram(volts, volts.length, low, perVolt, (int) bins);
    double[] all = new double[counts.length];
    for (int i = 0; i < all.length; i++) {
      all[i] = counts[i];
    }
    return all;
  }

  /** The middle one of the values in a bin, of an even number the mean of both. */
  private double median(double[] volts, double low, double perVolt, int bin, double count) {
    int n = (int) count;
    double[] inside = new double[n + 1];
    OrderStatistics.gather(volts, volts.length, low, perVolt, bins, bin, bin, inside);
    double[] copy = n % 2 == 0 ? inside.clone() : inside;
    double upper = OrderStatistics.select(copy, n, n / 2);
    return n % 2 == 1 ? upper : OrderStatistics.select(inside, n, n / 2 - 1) / 2 + upper / 2;
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
    int first = mode(shares, true, Double.POSITIVE_INFINITY);
    int last = mode(shares, false, Double.POSITIVE_INFINITY);
    return new States(
        first < 0 ? low : dwell.quantile((below[first] + below[first + 1]) / 2),
        last < 0 ? high : dwell.quantile((below[last] + below[last + 1]) / 2));
  }

  /**
   * The fullest bin of a half, of equal ones the outermost; -1 if none stands out.
   *
   * @param values how many there are; infinite for time
   */
  private static int mode(double[] counts, boolean lower, double values) {
    int half = counts.length / 2;
    int best = -1;
    double most = 0;
    double sum = 0;
    for (int i = 0; i < half; i++) {
      int bin = lower ? i : counts.length - 1 - i;
      sum += counts[bin];
      if (counts[bin] > most) {
        most = counts[bin];
        best = bin;
      }
    }
    double mean = sum / half;
    double spread = values < Double.POSITIVE_INFINITY ? DEVIATIONS * Math.sqrt(mean) : 0;
    double margin = Math.max(spread, mean * Math.min(1, half / MANY_BINS));
    return most > mean + margin ? best : -1;
  }

  @Override
  public String toString() {
    return "modes of a histogram of " + (byCodes ? "codes or of " : "") + bins + " bins";
  }
}
