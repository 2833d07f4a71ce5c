package org.asmeasured.measure;

import java.util.Optional;
import org.asmeasured.capture.Record;
import org.asmeasured.internal.OrderStatistics;
import org.asmeasured.internal.Quantity;
import org.asmeasured.internal.RangeLanes;
import org.asmeasured.internal.Require;
import org.asmeasured.internal.ValueHistogram;
import org.asmeasured.measure.Measured.Value;
import org.asmeasured.signal.Dwell;
import org.asmeasured.signal.Waveform;

/** The value that a share of the others lies below. */
record PercentileReading(double percent) implements Reading {
  private static final int BINS = 4095;
  private static final int MAX_CODES = 1 << 16;

  PercentileReading {
    Require.inRange("percent", percent, "%", 0, 100);
  }

  @Override
  public String name() {
    return "percentile " + Quantity.of(percent, "%");
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
    double place = percent / 100 * (record.size() - 1);
    int rank = (int) Math.min(place, record.size() - 1);
    double share = place - rank;
    Optional<CodeCounts> codes =
        record.hasCodes() ? CodeCounts.of(record, MAX_CODES) : Optional.empty();
    double value =
        codes.isPresent() ? byCode(record, codes.get(), rank, share) : byValue(record, rank, share);
    if (record.clippedLow() + record.clippedHigh() == 0) {
      return new Value(value);
    }
    // clipping moves values to an end of the range and no further: others keep their rank
    RangeLanes range = range(record);
    return Spans.clipped(record, value <= range.least(), value >= range.greatest())
        .orElseGet(() -> new Value(value));
  }

  private static RangeLanes range(Record record) {
    RangeLanes range = new RangeLanes();
    double[] block = new double[Math.min(RangeLanes.BLOCK, record.size())];
    for (int at = 0; at < record.size(); at += block.length) {
      range.add(block, read(record, at, block));
    }
    return range;
  }

  /** The value at a rank, and a share of the way to the next. */
  private static double byValue(Record record, int rank, double share) {
    Optional<RankBracket> bracket = RankBracket.of(record, rank, share > 0);
    return bracket.isPresent()
        ? between(bracket.get().values(), bracket.get().rank(), share)
        : byHistogram(record, rank, share);
  }

  private static double byHistogram(Record record, int rank, double share) {
    RangeLanes range = range(record);
    double low = range.least();
    double perVolt = BINS / (range.greatest() - low);
    if (!(perVolt <= Double.MAX_VALUE)) {
      return between(record.volts(), rank, share);
    }
    double[] block = new double[Math.min(ValueHistogram.BLOCK, record.size())];
    ValueHistogram histogram = new ValueHistogram(low, perVolt, BINS);
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
  private static double byCode(Record record, CodeCounts codes, int rank, double share) {
    int code = 0;
    int upTo = codes.count(0);
    while (rank >= upTo) {
      upTo += codes.count(++code);
    }
    int next = code;
    while (share > 0 && rank + 1 >= upTo) {
      upTo += codes.count(++next);
    }
    double value = record.offsetVolts() + (codes.least() + code) * record.stepVolts();
    double after = record.offsetVolts() + (codes.least() + next) * record.stepVolts();
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
    return name();
  }
}
