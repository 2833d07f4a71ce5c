package org.asmeasured.bench;

import java.util.concurrent.TimeUnit;
import org.asmeasured.internal.CounterRandom;
import org.asmeasured.linear.NoiseFlicker;
import org.asmeasured.linear.NoiseProcess;
import org.asmeasured.linear.NoiseSampler;
import org.asmeasured.linear.Response;
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
 * White and shaped noise, nanoseconds a sample over a record of 2^20 samples, beside a copy of the
 * record in the same run; and the making of a process, once a setup.
 *
 * <p>Run: {@code java -jar bench/target/benchmarks.jar NoiseBenchmark -prof gc}
 */
@State(Scope.Thread)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.NANOSECONDS)
@Warmup(iterations = 5, time = 1)
@Measurement(iterations = 5, time = 1)
@Fork(3)
public class NoiseBenchmark {
  private static final int SAMPLES = 1 << 20;
  private static final double RATE = 1e9;

  private final double[] record = new double[SAMPLES];
  private final double[] source = new double[SAMPLES];
  private final Response wide = Response.bessel(4, 200e6);
  private NoiseSampler wideSampler;
  private NoiseSampler limitedSampler;
  private NoiseSampler flickerSampler;
  private long first;

  /** Prepares the samplers. */
  @Setup
  public void prepare() {
    Response limited = wide.times(Response.butterworth(2, 20e6));
    wideSampler = NoiseProcess.of(wide, 30e-9, RATE).sampler(1);
    limitedSampler = NoiseProcess.of(limited, 30e-9, RATE).sampler(1);
    Response flicker = wide.times(NoiseFlicker.response(1e5, 1e3));
    flickerSampler = NoiseProcess.of(flicker, 30e-9, RATE).sampler(1);
  }

  /** The yardstick: the record copied. */
  @Benchmark
  @OperationsPerInvocation(SAMPLES)
  public double[] copy() {
    System.arraycopy(source, 0, record, 0, SAMPLES);
    return record;
  }

  /** Standard normal values. */
  @Benchmark
  @OperationsPerInvocation(SAMPLES)
  public double[] white() {
    CounterRandom.gaussians(1, first, record, 0, SAMPLES);
    first += SAMPLES;
    return record;
  }

  /** Four poles of 200 MHz. */
  @Benchmark
  @OperationsPerInvocation(SAMPLES)
  public double[] shaped() {
    wideSampler.read(record, 0, SAMPLES);
    return record;
  }

  /** With a limit of 20 MHz. */
  @Benchmark
  @OperationsPerInvocation(SAMPLES)
  public double[] limited() {
    limitedSampler.read(record, 0, SAMPLES);
    return record;
  }

  /** With a 1/f part over five decades. */
  @Benchmark
  @OperationsPerInvocation(SAMPLES)
  public double[] flicker() {
    flickerSampler.read(record, 0, SAMPLES);
    return record;
  }

  /** Covariance, innovations and truncation, from the response to the filter; once a setup. */
  @Benchmark
  public NoiseProcess process() {
    return NoiseProcess.of(wide, 30e-9, RATE);
  }
}
