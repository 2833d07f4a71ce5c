package org.asmeasured.bench;

import java.util.concurrent.TimeUnit;
import org.asmeasured.acquisition.PeakDetect;
import org.asmeasured.capture.Record;
import org.asmeasured.frontend.AnalogStage;
import org.asmeasured.frontend.Bandwidth;
import org.asmeasured.frontend.Coupling;
import org.asmeasured.frontend.Noise;
import org.asmeasured.linear.Response;
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
 * A whole capture: a settled trapezoid through eight poles, noise shaped by six of them, 8 bits,
 * peak detect by ten; nanoseconds a raw sample, everything made anew for each capture. Beside a
 * copy of the raw samples in the same run, and beside an oversampling script in NumPy and SciPy,
 * {@code bench/scripts/whole_chain.py}, run just before or after.
 *
 * <p>Run: {@code java -jar bench/target/benchmarks.jar WholeChain}
 */
@State(Scope.Thread)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.NANOSECONDS)
@Warmup(iterations = 5, time = 1)
@Measurement(iterations = 5, time = 1)
@Fork(3)
public class WholeChain {
  private static final int SAMPLES = 1_000_000;
  private static final double RATE = 1e9;

  private final double[] source = new double[SAMPLES];
  private final double[] copy = new double[SAMPLES];
  private Signal signal;
  private org.asmeasured.capture.Setup setup;
  private long seed;

  /** A response by a name. */
  record Part(String name, Response response) implements AnalogStage {}

  /** Says the setup. */
  @Setup
  public void prepare() {
    signal = Signals.trapezoid(-1, 1, 987.654321e-9, 0.5, 3e-9, 3e-9);
    setup =
        org.asmeasured.capture.Setup.ideal(RATE, SAMPLES / 10)
            .stage(new Part("probe", ExactEvaluation.probe()))
            .coupling(Coupling.ac(10))
            .bandwidth(Bandwidth.bessel(4, 200e6))
            .limit(Bandwidth.butterworth(2, 20e6))
            .noise(Noise.white(100e-9))
            .scale(0.3125)
            .bits(8)
            .decimation(new PeakDetect(10));
  }

  /** The yardstick: the raw samples copied. */
  @Benchmark
  @OperationsPerInvocation(SAMPLES)
  public double[] copy() {
    System.arraycopy(source, 0, copy, 0, SAMPLES);
    return copy;
  }

  /** The capture. */
  @Benchmark
  @OperationsPerInvocation(SAMPLES)
  public Record capture() {
    return setup.capture(signal, seed++);
  }
}
