package org.asmeasured.bench;

import java.util.concurrent.TimeUnit;
import org.asmeasured.acquisition.PeakDetect;
import org.asmeasured.capture.CaptureStream;
import org.asmeasured.frontend.AnalogStage;
import org.asmeasured.linear.Response;
import org.asmeasured.linear.StreamFilter;
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
 * Recorded samples streamed, beside a copy of the record in the same run, and beside SciPy's {@code
 * sosfilt} of four sections, which {@code bench/scripts/sosfilt.py} times just before or after.
 *
 * <p>The chain has eight poles: a x10 probe five per cent off trim, 10 Hz coupling, Bessel of order
 * 4 at 200 MHz and Butterworth of order 2 at 20 MHz, at 1 GS/s. All figures are nanoseconds a
 * sample; a block has 2^16 samples.
 *
 * <p>Run: {@code java -jar bench/target/benchmarks.jar Streaming -prof gc}; the profiler's {@code
 * gc.alloc.rate.norm} is the number of bytes an operation allocates.
 */
@State(Scope.Thread)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.NANOSECONDS)
@Warmup(iterations = 5, time = 1)
@Measurement(iterations = 5, time = 1)
@Fork(3)
public class Streaming {
  static final int SAMPLES = 1 << 16;
  private static final double RATE = 1e9;

  private final double[] in = new double[SAMPLES];
  private final double[] out = new double[SAMPLES];
  private final int[] codes = new int[SAMPLES];
  private final int[] lower = new int[SAMPLES];
  private final int[] upper = new int[SAMPLES];
  private StreamFilter filter;
  private StreamFilter fourPairs;
  private CaptureStream everySample;
  private CaptureStream peakDetect;

  /** The chain as a single stage. */
  record Chain(Response response) implements AnalogStage {
    @Override
    public String name() {
      return "chain";
    }
  }

  /** A setup with the eight-pole chain and 8 bits. */
  static org.asmeasured.capture.Setup setup() {
    return org.asmeasured.capture.Setup.ideal(RATE, 1)
        .stage(new Chain(ExactEvaluation.chain()))
        .scale(0.3125)
        .bits(8);
  }

  /** Fills the input and makes the streams. */
  @Setup
  public void prepare() {
    for (int k = 0; k < SAMPLES; k++) {
      in[k] = Math.sin(0.01 * k) + 0.01 * Math.sin(17.3 * k);
    }
    filter = new StreamFilter(ExactEvaluation.chain(), RATE);
    fourPairs = new StreamFilter(Response.butterworth(8, 100e6), RATE);
    everySample = setup().stream();
    peakDetect = setup().decimation(new PeakDetect(10)).stream();
  }

  /** The yardstick: the block copied. */
  @Benchmark
  @OperationsPerInvocation(SAMPLES)
  public double[] copy() {
    System.arraycopy(in, 0, out, 0, SAMPLES);
    return out;
  }

  /** Eight poles from 10 Hz to 200 MHz. */
  @Benchmark
  @OperationsPerInvocation(SAMPLES)
  public double[] filter() {
    filter.process(in, 0, out, 0, SAMPLES);
    return out;
  }

  /** Eight poles in four pairs, what four second-order sections do. */
  @Benchmark
  @OperationsPerInvocation(SAMPLES)
  public double[] fourPairs() {
    fourPairs.process(in, 0, out, 0, SAMPLES);
    return out;
  }

  /** The whole chain to codes of 8 bits. */
  @Benchmark
  @OperationsPerInvocation(SAMPLES)
  public int[] codes() {
    everySample.process(in, 0, SAMPLES, codes);
    return codes;
  }

  /** The whole chain to the codes of an envelope. */
  @Benchmark
  @OperationsPerInvocation(SAMPLES)
  public int[] peakDetect() {
    peakDetect.process(in, 0, SAMPLES, lower, upper);
    return lower;
  }
}
