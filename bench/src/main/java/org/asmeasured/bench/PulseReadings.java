package org.asmeasured.bench;

import java.util.Arrays;
import java.util.List;
import java.util.SplittableRandom;
import java.util.concurrent.TimeUnit;
import org.asmeasured.capture.Record;
import org.asmeasured.measure.Measured;
import org.asmeasured.measure.Reading;
import org.asmeasured.measure.ReadingGroup;
import org.asmeasured.measure.Readings;
import org.asmeasured.pulse.PulseMethod;
import org.asmeasured.pulse.PulseQuantity;
import org.asmeasured.pulse.StateLevels;
import org.asmeasured.pulse.States;
import org.asmeasured.pulse.Summary;
import org.asmeasured.signal.Signal;
import org.asmeasured.signal.Signals;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OperationsPerInvocation;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Param;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;

/**
 * Readings of a record of 2^20 points, beside a copy of it in the same run. All figures are
 * nanoseconds a point. The record is a square of 1000 points a period with edges of 20 points and
 * noise of 1 % of its amplitude, in volts or in codes of 8 bits.
 *
 * <p>The cheapest possible pass is {@link #maximum}, which looks at every point once. What NumPy
 * charges for the same record says bench/scripts/histogram.py; run it just before or after.
 *
 * <p>Run: {@code java -jar bench/target/benchmarks.jar PulseReadings}
 */
@State(Scope.Thread)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.NANOSECONDS)
@Warmup(iterations = 5, time = 1)
@Measurement(iterations = 5, time = 1)
@Fork(3)
public class PulseReadings {
  private static final int POINTS = 1 << 20;
  private static final PulseMethod GIVEN = PulseMethod.standard().levels(StateLevels.given(-1, 1));

  private static final List<Reading> ALL =
      Arrays.stream(PulseQuantity.values())
          .map(q -> org.asmeasured.pulse.PulseReadings.of(q, PulseMethod.standard()))
          .toList();
  private static final ReadingGroup TOGETHER = ReadingGroup.of(ALL);

  /** What the record holds. */
  @Param({"volts", "codes"})
  public String holds;

  private final double[] source = new double[POINTS];
  private final double[] target = new double[POINTS];
  private Record record;

  /** The record, from a generator with a stated seed. */
  @Setup
  public void prepare() {
    SplittableRandom random = new SplittableRandom(1);
    for (int i = 0; i < POINTS; i++) {
      double place = i % 1000;
      double shape =
          place < 20 ? place / 10 - 1 : place < 500 ? 1 : place < 520 ? 51 - place / 10 : -1;
      source[i] = shape + 0.02 * random.nextGaussian();
    }
    if (holds.equals("volts")) {
      record = Record.of(0, 1e9, source);
    } else {
      Signal signal = Signals.recorded(0, 1e9, source);
      record = org.asmeasured.capture.Setup.ideal(1e9, POINTS).scale(0.4).bits(8).capture(signal);
    }
  }

  /** The yardstick: the values copied. */
  @Benchmark
  @OperationsPerInvocation(POINTS)
  public double[] copy() {
    System.arraycopy(source, 0, target, 0, POINTS);
    return target;
  }

  /** The cheapest pass: one look at every point. */
  @Benchmark
  @OperationsPerInvocation(POINTS)
  public Measured maximum() {
    return Readings.maximum().of(record);
  }

  /** Modes of the histogram. */
  @Benchmark
  @OperationsPerInvocation(POINTS)
  public States levelsByMode() {
    return StateLevels.histogramMode().of(record);
  }

  /** Means of the two halves. */
  @Benchmark
  @OperationsPerInvocation(POINTS)
  public States levelsByMean() {
    return StateLevels.histogramMean().of(record);
  }

  /** Compensated sum. */
  @Benchmark
  @OperationsPerInvocation(POINTS)
  public Measured mean() {
    return Readings.mean().of(record);
  }

  /** Two compensated sums. */
  @Benchmark
  @OperationsPerInvocation(POINTS)
  public Measured acRms() {
    return Readings.acRms().of(record);
  }

  /** The median. */
  @Benchmark
  @OperationsPerInvocation(POINTS)
  public Measured median() {
    return Readings.percentile(50).of(record);
  }

  /** The first rising edge between given levels. */
  @Benchmark
  @OperationsPerInvocation(POINTS)
  public Measured riseTime() {
    return org.asmeasured.pulse.PulseReadings.of(PulseQuantity.RISE_TIME, GIVEN).of(record);
  }

  /** The mean of all rising edges between given levels. */
  @Benchmark
  @OperationsPerInvocation(POINTS)
  public Measured everyRiseTime() {
    return org.asmeasured.pulse.PulseReadings.of(PulseQuantity.RISE_TIME, GIVEN, Summary.MEAN)
        .of(record);
  }

  /** The mean period, by modes of the histogram. */
  @Benchmark
  @OperationsPerInvocation(POINTS)
  public Measured period() {
    return org.asmeasured.pulse.PulseReadings.period().of(record);
  }

  /** The RMS over whole cycles between given levels. */
  @Benchmark
  @OperationsPerInvocation(POINTS)
  public Measured cycleRms() {
    return org.asmeasured.pulse.PulseReadings.of(PulseQuantity.CYCLE_RMS, GIVEN).of(record);
  }

  /** Every pulse reading by its usual method, each by itself. */
  @Benchmark
  @OperationsPerInvocation(POINTS)
  public List<Measured> allByThemselves() {
    return ALL.stream().map(reading -> reading.of(record)).toList();
  }

  /** The same, together. */
  @Benchmark
  @OperationsPerInvocation(POINTS)
  public List<Measured> allTogether() {
    return TOGETHER.of(record);
  }
}
