package org.asmeasured.bench;

import java.util.SplittableRandom;
import java.util.concurrent.TimeUnit;
import org.asmeasured.digitizer.Converter;
import org.asmeasured.digitizer.ConverterNoise;
import org.asmeasured.digitizer.Core;
import org.asmeasured.digitizer.IdealConverter;
import org.asmeasured.digitizer.InterleavedSampler;
import org.asmeasured.digitizer.Sampler;
import org.asmeasured.digitizer.TransitionConverter;
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
 * Sampler and converter, beside a copy of the record in the same run. All figures are nanoseconds a
 * sample, over a record of 2^20 samples, in blocks of 2048 as a capture does it.
 *
 * <p>Conversion to codes works in place, so each is of a fresh block, copied within its cache: the
 * figures contain that copy.
 *
 * <p>Run: {@code java -jar bench/target/benchmarks.jar Digitizing}
 */
@State(Scope.Thread)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.NANOSECONDS)
@Warmup(iterations = 5, time = 1)
@Measurement(iterations = 5, time = 1)
@Fork(3)
public class Digitizing {
  private static final int SAMPLES = 1 << 20;
  private static final int BLOCK = 2048;
  private static final double STEP = 0.01;

  private final double[] levels = new double[SAMPLES];
  private final double[] record = new double[SAMPLES];
  private final double[] block = new double[BLOCK];
  private final double[] work = new double[BLOCK];
  private final short[] codes = new short[SAMPLES];
  private final Converter ideal = new IdealConverter(8);
  private final Converter table = TransitionConverter.of(8);
  private final Converter bent =
      TransitionConverter.of(8).withBow(0.5).withRandomWalk(0.15, 1).withMissingCodes(3);
  private final Converter bent16 = TransitionConverter.of(16).withBow(4).withRandomWalk(0.15, 1);
  private final double[] levels16 = new double[SAMPLES];
  private final Sampler jitter = InterleavedSampler.ideal().withJitter(1e-12);
  private final Sampler cores =
      InterleavedSampler.ideal()
          .withJitter(1e-12)
          .withCores(
              new Core(1e-3, 1e-4, 1e-12, Core.ideal().response()),
              new Core(-1e-3, 2e-4, -1e-12, Core.ideal().response()),
              new Core(2e-3, -1e-4, 2e-12, Core.ideal().response()),
              new Core(-2e-3, 0, -2e-12, Core.ideal().response()));
  private final ConverterNoise noise = ConverterNoise.ofSteps(0.5, 8);

  /** A sine over most of the range, with noise, so that no branch can be guessed. */
  @Setup
  public void prepare() {
    SplittableRandom random = new SplittableRandom(1);
    for (int i = 0; i < SAMPLES; i++) {
      levels[i] = 120 * Math.sin(i * 0.01) + random.nextDouble() * 4;
      levels16[i] = levels[i] * 256;
    }
  }

  /** The yardstick: the record copied. */
  @Benchmark
  @OperationsPerInvocation(SAMPLES)
  public double[] copy() {
    System.arraycopy(levels, 0, record, 0, SAMPLES);
    return record;
  }

  private double[] toVolts(Converter converter, double[] source) {
    for (int at = 0; at < SAMPLES; at += BLOCK) {
      converter.toVolts(source, record, at, BLOCK, 0, STEP);
    }
    return record;
  }

  private short[] toCodes(Converter converter, double[] source) {
    for (int at = 0; at < SAMPLES; at += BLOCK) {
      System.arraycopy(source, at, block, 0, BLOCK);
      converter.convert(block, 0, BLOCK);
      store(block, codes, at);
    }
    return codes;
  }

  private static void store(double[] block, short[] out, int at) {
    for (int i = 0; i < BLOCK; i++) {
      out[at + i] = (short) (int) block[i];
    }
  }

  /** Ideal converter of 8 bits, to volts. */
  @Benchmark
  @OperationsPerInvocation(SAMPLES)
  public double[] idealToVolts() {
    return toVolts(ideal, levels);
  }

  /** Ideal converter of 8 bits, to codes. */
  @Benchmark
  @OperationsPerInvocation(SAMPLES)
  public short[] idealToCodes() {
    return toCodes(ideal, levels);
  }

  /** By transition levels that are where they belong, 8 bits. */
  @Benchmark
  @OperationsPerInvocation(SAMPLES)
  public double[] levelsToVolts() {
    return toVolts(table, levels);
  }

  /** By transition levels with bow, walk and a missing code, 8 bits. */
  @Benchmark
  @OperationsPerInvocation(SAMPLES)
  public double[] bentLevelsToVolts() {
    return toVolts(bent, levels);
  }

  /** The same, to codes. */
  @Benchmark
  @OperationsPerInvocation(SAMPLES)
  public short[] bentLevelsToCodes() {
    return toCodes(bent, levels);
  }

  /** By transition levels with bow and walk, 16 bits: a table of 1 MB. */
  @Benchmark
  @OperationsPerInvocation(SAMPLES)
  public double[] bentLevels16ToVolts() {
    return toVolts(bent16, levels16);
  }

  /** Shifts of a jittered clock. */
  @Benchmark
  @OperationsPerInvocation(SAMPLES)
  public double[] jitterShifts() {
    return shifts(jitter);
  }

  /** Shifts of a jittered clock and four skewed cores. */
  @Benchmark
  @OperationsPerInvocation(SAMPLES)
  public double[] jitterAndSkewShifts() {
    return shifts(cores);
  }

  private double[] shifts(Sampler sampler) {
    for (int at = 0; at < SAMPLES; at += BLOCK) {
      sampler.shifts(7, at, record, at, BLOCK);
    }
    return record;
  }

  /** Gain and offset of four cores, in place. */
  @Benchmark
  @OperationsPerInvocation(SAMPLES)
  public double[] coreMismatch() {
    for (int at = 0; at < SAMPLES; at += BLOCK) {
      System.arraycopy(levels, at, record, at, BLOCK);
      cores.mismatch(at, 0, 256, record, at, BLOCK);
    }
    return record;
  }

  /** Converter noise. */
  @Benchmark
  @OperationsPerInvocation(SAMPLES)
  public double[] converterNoise() {
    for (int at = 0; at < SAMPLES; at += BLOCK) {
      System.arraycopy(levels, at, record, at, BLOCK);
      noise.add(7, at, 256, record, at, BLOCK, work);
    }
    return record;
  }
}
