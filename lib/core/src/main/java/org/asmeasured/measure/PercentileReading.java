package org.asmeasured.measure;

import org.asmeasured.capture.Record;
import org.asmeasured.internal.OrderStatistics;
import org.asmeasured.internal.OrderStatistics.Histogram;
import org.asmeasured.internal.Quantity;
import org.asmeasured.internal.Require;
import org.asmeasured.measure.Measured.Value;
import org.asmeasured.signal.Dwell;
import org.asmeasured.signal.Waveform;

/** The value that a share of the others lies below. */
record PercentileReading(double percent) implements Reading {
  private static final int BLOCK = 4096;
  private static final int BINS = 4096;
  private static final int MAX_CODES = 1 << 16;

  PercentileReading {
    Require.inRange("percent", percent, "%", 0, 100);
  }

  @Override
  public String name() {
    return "percentile";
  }

  @Override
  public String unit() {
    return "V";
  }

  @Override
  public Measured of(Record record) {
    return Spans.spoilt(name(), record).orElseGet(() -> taken(record));
  }

  private Measured taken(Record record) {
    int size = record.size();
    double[] block = new double[Math.min(BLOCK, size)];
    double[] lowHigh = {record.volts(0), record.volts(0)};
    for (int at = 0; at < size; at += block.length) {
      OrderStatistics.extremes(block, read(record, at, block), lowHigh);
    }
    double place = percent / 100 * (size - 1);
    int below = (int) Math.min(place, size - 1);
    double share = place - below;
    double value = ranked(record, block, lowHigh, below, share);
    // clipping moves values to an end of the range and no further: others keep their rank
    return Spans.clipped(record, value <= lowHigh[0], value >= lowHigh[1])
        .orElseGet(() -> new Value(value));
  }

  /** The value at a rank, and a share of the way to the next. */
  private static double ranked(
      Record record, double[] block, double[] lowHigh, int rank, double share) {
    double codes =
        record.hasCodes() ? Math.rint((lowHigh[1] - lowHigh[0]) / record.stepVolts()) + 1 : 0;
    if (codes > 0 && codes <= MAX_CODES) {
      return byCode(record, rank, share, (int) codes);
    }
    double perVolt = BINS / (lowHigh[1] - lowHigh[0]);
    if (!(perVolt <= Double.MAX_VALUE)) {
      return between(record.volts(), rank, share);
    }
    Histogram histogram = new Histogram(lowHigh[0], perVolt, BINS);
    for (int at = 0; at < record.size(); at += block.length) {
      histogram.add(block, read(record, at, block));
    }
    int[] counts = histogram.counts();
    int first = 0;
    int before = 0;
    while (rank >= before + counts[first]) {
      before += counts[first++];
    }
    int last = first;
    int held = counts[first];
    while (share > 0 && rank + 1 >= before + held) {
      held += counts[++last];
    }
    double[] values = new double[held];
    int kept = 0;
    for (int at = 0; at < record.size(); at += block.length) {
      kept = histogram.gather(block, read(record, at, block), first, last, values, kept);
    }
    return between(values, rank - before, share);
  }

  /** How often each code occurs says all about ranks. */
  private static double byCode(Record record, int rank, double share, int codes) {
    int least = record.code(0);
    for (int i = 1; i < record.size(); i++) {
      least = Math.min(least, record.code(i));
    }
    int[] counts = new int[codes];
    for (int i = 0; i < record.size(); i++) {
      counts[record.code(i) - least]++;
    }
    int code = 0;
    int upTo = counts[0];
    while (rank >= upTo) {
      upTo += counts[++code];
    }
    int next = code;
    while (share > 0 && rank + 1 >= upTo) {
      upTo += counts[++next];
    }
    double value = record.offsetVolts() + (least + code) * record.stepVolts();
    double after = record.offsetVolts() + (least + next) * record.stepVolts();
    return value + share * (after - value);
  }

  private static double between(double[] values, int rank, double share) {
    double next = share > 0 ? OrderStatistics.select(values.clone(), values.length, rank + 1) : 0;
    double value = OrderStatistics.select(values, values.length, rank);
    return share > 0 ? value + share * (next - value) : value;
  }

  private static int read(Record record, int at, double[] block) {
    int n = Math.min(block.length, record.size() - at);
    record.volts(at, block, 0, n);
    return n;
  }

  @Override
  public Measured of(Waveform truth, double fromSeconds, double toSeconds) {
    return Spans.taken(
        truth,
        fromSeconds,
        toSeconds,
        () -> new Value(Dwell.of(truth, fromSeconds, toSeconds).quantile(percent / 100)));
  }

  @Override
  public String toString() {
    return name() + " " + Quantity.of(percent, "%");
  }
}
