package org.asmeasured.bench;

import java.util.SplittableRandom;
import java.util.concurrent.TimeUnit;
import org.asmeasured.capture.Record;
import org.asmeasured.characterisation.CharacterisationReadings;
import org.asmeasured.characterisation.SineFit;
import org.asmeasured.measure.Measured;
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
 * Sine fits of a record of 10^6 points, beside a copy of the record in the same run. All figures
 * are nanoseconds a point, to the last digit of the parameters.
 *
 * <p>Run, on the same core as {@code bench/scripts/sine_fit.py}, which makes the same fit in NumPy
 * from the same start: {@code java -jar bench/target/benchmarks.jar SineFits}
 */
@State(Scope.Thread)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.NANOSECONDS)
@Warmup(iterations = 5, time = 1)
@Measurement(iterations = 5, time = 1)
@Fork(3)
public class SineFits {
  private static final int POINTS = 1_000_000;
  private static final double RATE = 1e9;
  private static final double START = 9.9703e6;

  private final double[] target = new double[POINTS];
  private double[] values;
  private Record record;

  /** Makes the record: a sine of 9.97 MHz at 1 GS/s with 1 % of noise. */
  @Setup
  public void prepare() {
    SplittableRandom random = new SplittableRandom(1);
    values = new double[POINTS];
    for (int i = 0; i < POINTS; i++) {
      values[i] = Math.sin(2 * Math.PI * 9.97e6 / RATE * i + 0.3) + 0.01 * random.nextGaussian();
    }
    record = Record.of(0, RATE, values);
  }

  /** The yardstick: the record copied. */
  @Benchmark
  @OperationsPerInvocation(POINTS)
  public double[] copy() {
    System.arraycopy(values, 0, target, 0, POINTS);
    return target;
  }

  /** Four parameters from a start a third of a period off over the record, as the script. */
  @Benchmark
  @OperationsPerInvocation(POINTS)
  public SineFit fourParametersFromAStart() {
    return SineFit.fourParameters(record, START).orThrow();
  }

  /** Four parameters, and nothing known ahead. */
  @Benchmark
  @OperationsPerInvocation(POINTS)
  public SineFit fourParameters() {
    return SineFit.fourParameters(record).orThrow();
  }

  /** Three parameters. */
  @Benchmark
  @OperationsPerInvocation(POINTS)
  public SineFit threeParameters() {
    return SineFit.threeParameters(record, 9.97e6).orThrow();
  }

  /** Effective bits as a reading. */
  @Benchmark
  @OperationsPerInvocation(POINTS)
  public Measured effectiveBits() {
    return CharacterisationReadings.effectiveBits(2).of(record);
  }
}
