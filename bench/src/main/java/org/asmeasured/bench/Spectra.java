package org.asmeasured.bench;

import java.util.SplittableRandom;
import java.util.concurrent.TimeUnit;
import org.asmeasured.measure.Outcome;
import org.asmeasured.spectrum.HarmonicMethod;
import org.asmeasured.spectrum.Harmonics;
import org.asmeasured.spectrum.Spectrum;
import org.asmeasured.spectrum.SpectrumMethod;
import org.asmeasured.spectrum.SpectrumReader;
import org.asmeasured.spectrum.Window;
import org.jtransforms.fft.DoubleFFT_1D;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Param;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;

/**
 * Power spectra of a record, beside a copy of it and the bare transform in the same run:
 * milliseconds a record.
 *
 * <p>The yardstick outside is {@code bench/scripts/periodogram.py}, run just before or after on the
 * same core. Pinned to one core, the transform keeps to one thread; on more it uses them.
 *
 * <p>Run: {@code taskset -c 1 java -jar bench/target/benchmarks.jar Spectra}
 */
@State(Scope.Thread)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Warmup(iterations = 5, time = 1)
@Measurement(iterations = 5, time = 1)
@Fork(3)
public class Spectra {
  /** Points of a record: a power of ten and a power of two. */
  @Param({"1000000", "1048576"})
  private int points;

  private double[] volts;
  private double[] copy;
  private double[] power;
  private SpectrumReader whole;
  private SpectrumReader segments4096;
  private SpectrumReader segments256;
  private DoubleFFT_1D transform;
  private SpectrumMethod method;

  /** A sine with noise. */
  @Setup
  public void prepare() {
    SplittableRandom random = new SplittableRandom(1);
    volts = new double[points];
    for (int i = 0; i < points; i++) {
      volts[i] = Math.sin(i * 0.01) + 0.01 * (random.nextDouble() - 0.5);
    }
    copy = new double[points];
    power = new double[points / 2 + 1];
    method = SpectrumMethod.wholeRecord(Window.hann()).withMeanRemoved();
    whole = method.reader(points);
    segments4096 = method.withSegments(4096, 0.5).reader(4096);
    segments256 = method.withSegments(256, 0.5).reader(256);
    transform = new DoubleFFT_1D(points);
  }

  /**
   * The yardstick: the record copied.
   *
   * @return the copy
   */
  @Benchmark
  public double[] copy() {
    System.arraycopy(volts, 0, copy, 0, points);
    return copy;
  }

  /**
   * The bare transform of a copy.
   *
   * @return the transform
   */
  @Benchmark
  public double[] transformAlone() {
    System.arraycopy(volts, 0, copy, 0, points);
    transform.realForward(copy);
    return copy;
  }

  /**
   * Mean removed, Hann, one transform, mean squares; plan and weights kept.
   *
   * @return mean squares
   */
  @Benchmark
  public double[] powerSpectrum() {
    whole.read(volts, 0, points, power);
    return power;
  }

  /**
   * The same by segments of 4096 points that overlap by half.
   *
   * @return mean squares
   */
  @Benchmark
  public double[] meanOverSegmentsOf4096() {
    segments4096.read(volts, 0, points, power);
    return power;
  }

  /**
   * The same by segments of 256 points that overlap by half.
   *
   * @return mean squares
   */
  @Benchmark
  public double[] meanOverSegmentsOf256() {
    segments256.read(volts, 0, points, power);
    return power;
  }

  /**
   * The spectrum as a value, with checks of every point, its arrays new.
   *
   * @return the spectrum
   */
  @Benchmark
  public Outcome<Spectrum> spectrum() {
    return method.of(volts, 1e9);
  }

  /**
   * Fundamental, harmonics and noise, from the record on.
   *
   * @return the harmonics
   */
  @Benchmark
  public Outcome<Harmonics> harmonics() {
    return HarmonicMethod.standard().of(volts, 1e9);
  }
}
