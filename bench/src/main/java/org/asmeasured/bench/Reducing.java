package org.asmeasured.bench;

import java.util.concurrent.TimeUnit;
import org.asmeasured.acquisition.Boxcar;
import org.asmeasured.acquisition.PeakDetect;
import org.asmeasured.acquisition.Reducer;
import org.asmeasured.acquisition.RollingBoxcar;
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
 * Raw samples reduced to stored points, nanoseconds a raw sample, beside a copy of the raw samples
 * in the same run, and beside NumPy, which {@code bench/scripts/whole_chain.py} times just before
 * or after. A block has 2000 samples, as within a capture.
 *
 * <p>Run: {@code java -jar bench/target/benchmarks.jar Reducing}
 */
@State(Scope.Thread)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.NANOSECONDS)
@Warmup(iterations = 5, time = 1)
@Measurement(iterations = 5, time = 1)
@Fork(3)
public class Reducing {
  private static final int SAMPLES = 1_000_000;
  private static final int BLOCK = 2000;

  private final double[] raw = new double[SAMPLES];
  private final double[] copy = new double[SAMPLES];
  private final double[] lower = new double[SAMPLES + 1];
  private final double[] upper = new double[SAMPLES / 10 + 1];
  private Reducer peakDetect;
  private Reducer boxcar;
  private Reducer rolling;

  /** Fills the raw samples with codes. */
  @Setup
  public void prepare() {
    java.util.SplittableRandom random = new java.util.SplittableRandom(1);
    for (int i = 0; i < SAMPLES; i++) {
      raw[i] = Math.rint(100 * Math.sin(0.01 * i) + random.nextGaussian());
    }
    peakDetect = new PeakDetect(10).reducer();
    boxcar = new Boxcar(10, 12).reducer();
    rolling = new RollingBoxcar(16, 12).reducer();
  }

  /** The yardstick: the raw samples copied. */
  @Benchmark
  @OperationsPerInvocation(SAMPLES)
  public double[] copy() {
    System.arraycopy(raw, 0, copy, 0, SAMPLES);
    return copy;
  }

  /** Least and greatest of every ten. */
  @Benchmark
  @OperationsPerInvocation(SAMPLES)
  public double[] peakDetect() {
    return reduce(peakDetect);
  }

  /** Mean of every ten. */
  @Benchmark
  @OperationsPerInvocation(SAMPLES)
  public double[] boxcar() {
    return reduce(boxcar);
  }

  /** Rolling mean of sixteen. */
  @Benchmark
  @OperationsPerInvocation(SAMPLES)
  public double[] rollingBoxcar() {
    return reduce(rolling);
  }

  private double[] reduce(Reducer reducer) {
    int at = 0;
    for (int i = 0; i < SAMPLES; i += BLOCK) {
      at += reducer.reduce(raw, i, BLOCK, lower, upper, at);
    }
    return lower;
  }
}
