package org.asmeasured.bench;

import java.util.concurrent.TimeUnit;
import org.asmeasured.capture.Record;
import org.asmeasured.frontend.Bandwidth;
import org.asmeasured.frontend.SourceJitter;
import org.asmeasured.measure.Measured;
import org.asmeasured.measure.PairReadings;
import org.asmeasured.signal.Signal;
import org.asmeasured.signal.Signals;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OperationsPerInvocation;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;

/**
 * Readings between two records of 10^6 points, and a capture of 2^16 points with edges that jitter
 * and without, beside the copy of an array in the same run. Nanoseconds a point.
 *
 * <p>Run: {@code java -jar bench/target/benchmarks.jar SeveralChannels}.
 */
@State(Scope.Thread)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.NANOSECONDS)
@Warmup(iterations = 5, time = 1)
@Measurement(iterations = 5, time = 1)
@Fork(3)
public class SeveralChannels {
  private static final int POINTS = 1_000_000;
  private static final int CAPTURED = 1 << 16;
  private static final double RATE = 1e9;

  private final double[] in = new double[POINTS];
  private final double[] out = new double[POINTS];
  private final Signal signal = Signals.trapezoid(-1, 1, 100e-9, 0.5, 3e-9, 5e-9);
  private Record first;
  private Record second;
  private org.asmeasured.capture.Setup still;
  private org.asmeasured.capture.Setup jittering;

  /** Two sines, and a setup of four poles. */
  @Setup
  public void prepare() {
    org.asmeasured.capture.Setup setup = org.asmeasured.capture.Setup.ideal(RATE, POINTS);
    first = setup.capture(Signals.sine(1, 1e6));
    second = setup.capture(Signals.sine(2, 1e6, -0.7));
    still =
        org.asmeasured.capture.Setup.ideal(RATE, CAPTURED).bandwidth(Bandwidth.gaussian(4, 200e6));
    jittering = still.sourceJitter(SourceJitter.of(10e-12));
  }

  /** The yardstick. */
  @Benchmark
  @OperationsPerInvocation(POINTS)
  public double[] copy() {
    System.arraycopy(in, 0, out, 0, POINTS);
    return out;
  }

  /** Power factor: three sums in one pass. */
  @Benchmark
  @OperationsPerInvocation(POINTS)
  public Measured powerFactor() {
    return PairReadings.powerFactor().of(first, second);
  }

  /** Delay: extremes and crossings of both. */
  @Benchmark
  @OperationsPerInvocation(POINTS)
  public Measured delay() {
    return PairReadings.delay().of(first, second);
  }

  /** A capture without jitter of the source. */
  @Benchmark
  @OperationsPerInvocation(CAPTURED)
  public Record captureStill() {
    return still.capture(signal, 1);
  }

  /** The same with 1300 displaced edges. */
  @Benchmark
  @OperationsPerInvocation(CAPTURED)
  public Record captureJittering() {
    return jittering.capture(signal, 1);
  }
}
