package org.asmeasured.bench;

import java.util.concurrent.TimeUnit;
import org.asmeasured.capture.Setup;
import org.asmeasured.digitizer.ConverterNoise;
import org.asmeasured.frontend.Bandwidth;
import org.asmeasured.frontend.Noise;
import org.asmeasured.frontend.PassiveDivider;
import org.asmeasured.internal.CounterRandom;
import org.asmeasured.measure.Measured;
import org.asmeasured.measure.Reading;
import org.asmeasured.measure.Readings;
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
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;

/**
 * The trials of a prediction of uncertainty: each a setup of its own, captured once and read once.
 * A trapezoid of 5 Vpp at 2 MHz with edges of 0.006 of the period, 1000 points at 1 GS/s, 8 bits of
 * 8 V, peak to peak; nanoseconds a trial.
 *
 * <p>Each trial draws the gain (normal, 1 %), the offset (rectangular, 50 mV either way), the
 * bandwidth (triangular, 10 % either way about 200 MHz, Bessel of order 4) and the start
 * (rectangular over a period); noise of 0.3 steps of the converter is on every sample. Beside a
 * copy of as many points in the same run, and beside the same trials in NumPy and SciPy, {@code
 * bench/scripts/trials.py}, run just before or after.
 *
 * <p>Run: {@code java -jar bench/target/benchmarks.jar Trials}
 */
@State(Scope.Thread)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.NANOSECONDS)
@Warmup(iterations = 5, time = 1)
@Measurement(iterations = 5, time = 1)
@Fork(3)
public class Trials {
  private static final int TRIALS = 1000;
  private static final int POINTS = 1000;
  private static final double PERIOD = 500e-9;

  private final double[] source = new double[POINTS];
  private final double[] copy = new double[POINTS];
  private final Signal trapezoid = Signals.trapezoid(-2.5, 2.5, PERIOD, 0.5, 3e-9, 3e-9);
  private final Signal sine = Signals.sine(2.5, 10e6, 0);
  private final Reading reading = Readings.peakToPeak();
  private final Setup quiet = Setup.ideal(1e9, POINTS).bandwidth(bandwidth(200e6)).bits(8);
  private final Setup noisy = quiet.converterNoise(ConverterNoise.ofSteps(0.3, 8));
  private final Setup shaped = quiet.noise(Noise.white(600e-9));
  private final Setup probed = noisy.source(50).probe(divider(0));
  private long trial;

  private static Bandwidth bandwidth(double hertz) {
    return Bandwidth.bessel(4, hertz);
  }

  private static PassiveDivider divider(double trimmerError) {
    return PassiveDivider.times10().withTrimmerError(trimmerError);
  }

  private double uniform(int input) {
    return CounterRandom.uniform(input, trial);
  }

  /** Around 0, between -1 and 1. */
  private double triangular(int input) {
    return uniform(input) - CounterRandom.uniform(input, ~trial);
  }

  private Setup drawn(Setup setup) {
    trial++;
    double offset = 0.1 * (uniform(2) - 0.5) / setup.vertical().fullScaleVolts();
    return setup.vertical(
        setup
            .vertical()
            .withGainError(0.01 * CounterRandom.gaussian(1, trial))
            .withOffsetError(offset));
  }

  private Setup drawnFreely(Setup setup) {
    return drawn(setup)
        .startingAt(PERIOD * uniform(3))
        .bandwidth(bandwidth(200e6 * (1 + 0.1 * triangular(4))));
  }

  private double reading(Setup setup, Signal signal) {
    return ((Measured.Value) reading.of(setup.capture(signal, trial))).value();
  }

  /** The yardstick: as many points copied. */
  @Benchmark
  @OperationsPerInvocation(TRIALS)
  public double[] copy() {
    for (int i = 0; i < TRIALS; i++) {
      System.arraycopy(source, 0, copy, 0, POINTS);
      source[i] = copy[0];
    }
    return copy;
  }

  /** The whole case. */
  @Benchmark
  @OperationsPerInvocation(TRIALS)
  public double all() {
    double sum = 0;
    for (int i = 0; i < TRIALS; i++) {
      sum += reading(drawnFreely(noisy), trapezoid);
    }
    return sum;
  }

  /** Gain and offset alone: the analog chain stays as it is. */
  @Benchmark
  @OperationsPerInvocation(TRIALS)
  public double gainAndOffset() {
    double sum = 0;
    for (int i = 0; i < TRIALS; i++) {
      sum += reading(drawn(noisy), trapezoid);
    }
    return sum;
  }

  /** Noise of the amplifier, shaped by the drawn bandwidth, in place of the converter's. */
  @Benchmark
  @OperationsPerInvocation(TRIALS)
  public double shapedNoise() {
    double sum = 0;
    for (int i = 0; i < TRIALS; i++) {
      sum += reading(drawnFreely(shaped), trapezoid);
    }
    return sum;
  }

  /** Noise of the amplifier, shaped by a bandwidth that stays. */
  @Benchmark
  @OperationsPerInvocation(TRIALS)
  public double shapedNoiseGainAndOffset() {
    double sum = 0;
    for (int i = 0; i < TRIALS; i++) {
      sum += reading(drawn(shaped), trapezoid);
    }
    return sum;
  }

  /** The whole case through a divider of ten from 50 ohm, whose trimmer is drawn too. */
  @Benchmark
  @OperationsPerInvocation(TRIALS)
  public double throughProbe() {
    double sum = 0;
    for (int i = 0; i < TRIALS; i++) {
      Setup setup = drawnFreely(probed);
      sum += reading(setup.probe(divider(0.05 * triangular(5))), trapezoid);
    }
    return sum;
  }

  /** The whole case with a sine of 5 Vpp at 10 MHz. */
  @Benchmark
  @OperationsPerInvocation(TRIALS)
  public double sine() {
    double sum = 0;
    for (int i = 0; i < TRIALS; i++) {
      sum += reading(drawnFreely(noisy), sine);
    }
    return sum;
  }
}
