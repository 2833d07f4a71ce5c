package org.asmeasured.bench;

import java.util.concurrent.TimeUnit;
import org.apache.commons.math3.complex.Complex;
import org.asmeasured.linear.OutputSampler;
import org.asmeasured.linear.Response;
import org.asmeasured.signal.SampleClock;
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
 * Exact evaluation at uniform instants, beside a copy of the record in the same run.
 *
 * <p>The chain has eight poles: a x10 probe five per cent off trim, 10 Hz coupling, Bessel of order
 * 4 at 200 MHz and Butterworth of order 2 at 20 MHz. All figures are nanoseconds a sample, written
 * out to a record of 2^20 samples.
 *
 * <p>Run: {@code java -jar bench/target/benchmarks.jar ExactEvaluation}
 */
@State(Scope.Thread)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.NANOSECONDS)
@Warmup(iterations = 5, time = 1)
@Measurement(iterations = 5, time = 1)
@Fork(3)
public class ExactEvaluation {
  private static final int SAMPLES = 1 << 20;
  private static final double RATE = 1e9;

  private final double[] record = new double[SAMPLES];
  private final double[] source = new double[SAMPLES];
  private OutputSampler allAlive;
  private OutputSampler wholeRecord;
  private OutputSampler edges;
  private OutputSampler tones;
  private OutputSampler jittered;
  private final double[] shifts = new double[SAMPLES];

  /** A x10 probe, five per cent off trim. */
  static Response probe() {
    double r1c1 = 9e6 * (108e-12 / 9 * 1.05);
    double tau = 0.9e6 * (108e-12 / 9 * 1.05 + 108e-12);
    return Response.of(
        java.util.List.of(new Complex(-1 / r1c1, 0)),
        java.util.List.of(new Complex(-1 / tau, 0)),
        r1c1 / tau);
  }

  /** The eight-pole chain. */
  static Response chain() {
    return probe()
        .times(Response.highPass(10))
        .times(Response.bessel(4, 200e6))
        .times(Response.butterworth(2, 20e6));
  }

  /** Prepares the readers. */
  @Setup
  public void prepare() {
    Response chain = chain();
    // at 50 TS/s the record ends before any mode has died
    allAlive = chain.of(Signals.burst(1, 10e6, 1000, 0)).sampler(new SampleClock(0, 5e13));
    Signal trapezoid = Signals.trapezoid(-1, 1, 987.654321 / RATE, 0.5, 3e-9, 3e-9);
    wholeRecord = chain.of(trapezoid).sampler(new SampleClock(0, RATE));
    edges =
        chain.of(Signals.triangle(-1, 1, 6.12345678 / RATE, 0.5)).sampler(new SampleClock(0, RATE));
    jittered = chain.of(trapezoid).sampler(new SampleClock(0, RATE), 30e-12);
    java.util.SplittableRandom random = new java.util.SplittableRandom(1);
    for (int i = 0; i < SAMPLES; i++) {
      shifts[i] = 5e-12 * random.nextGaussian();
    }
    tones = chain.of(Signals.sine(1, 10e6)).sampler(new SampleClock(0, RATE));
  }

  /** The yardstick: the record copied. */
  @Benchmark
  @OperationsPerInvocation(SAMPLES)
  public double[] copy() {
    System.arraycopy(source, 0, record, 0, SAMPLES);
    return record;
  }

  /** Eight poles and a sine that starts, all ten states alive in every block. */
  @Benchmark
  @OperationsPerInvocation(SAMPLES)
  public double[] tenStatesAlive() {
    allAlive.read(0, record, 0, SAMPLES);
    return record;
  }

  /** A settled trapezoid, four corners in 988 samples; what has died away is dropped. */
  @Benchmark
  @OperationsPerInvocation(SAMPLES)
  public double[] wholeRecord() {
    wholeRecord.read(0, record, 0, SAMPLES);
    return record;
  }

  /** A triangle with a corner every three samples, at any phase. */
  @Benchmark
  @OperationsPerInvocation(SAMPLES)
  public double[] cornerEveryThreeSamples() {
    edges.read(0, record, 0, SAMPLES);
    return record;
  }

  /** A settled sine. */
  @Benchmark
  @OperationsPerInvocation(SAMPLES)
  public double[] settledSine() {
    tones.read(0, record, 0, SAMPLES);
    return record;
  }

  /** The settled trapezoid with 5 ps of jitter on every instant. */
  @Benchmark
  @OperationsPerInvocation(SAMPLES)
  public double[] jitterOnEveryInstant() {
    jittered.read(0, shifts, record, 0, SAMPLES);
    return record;
  }
}
