package org.asmeasured.bench;

import java.util.concurrent.TimeUnit;
import org.apache.commons.math3.fitting.leastsquares.LeastSquaresBuilder;
import org.apache.commons.math3.fitting.leastsquares.LeastSquaresOptimizer;
import org.apache.commons.math3.fitting.leastsquares.LevenbergMarquardtOptimizer;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.ArrayRealVector;
import org.apache.commons.math3.linear.RealMatrix;
import org.apache.commons.math3.linear.RealVector;
import org.apache.commons.math3.util.Pair;
import org.asmeasured.accuracy.Measurement;
import org.asmeasured.accuracy.Parameters;
import org.asmeasured.capture.Record;
import org.asmeasured.capture.Setup;
import org.asmeasured.digitizer.ConverterNoise;
import org.asmeasured.fitting.ChainFit;
import org.asmeasured.fitting.Unknown;
import org.asmeasured.frontend.Bandwidth;
import org.asmeasured.frontend.Noise;
import org.asmeasured.signal.Signals;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;

/**
 * Bandwidth, gain, offset and start fitted to 10 000 points of a step, on one thread; milliseconds
 * a fit, covariance included. The yardstick fits the same points by Commons Math's Levenberg and
 * Marquardt, told the closed form of a single pole and its central differences.
 *
 * <p>Run: {@code java -jar bench/target/benchmarks.jar ChainFits}
 */
@State(Scope.Thread)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Warmup(iterations = 5, time = 1)
@org.openjdk.jmh.annotations.Measurement(iterations = 5, time = 1)
@Fork(3)
public class ChainFits {
  private static final int POINTS = 10_000;
  private static final double RATE = 500e6;
  private static final double FULL_SCALE = 8;
  private static final double AT = 300e-9;
  private static final double[] START = {15e6, 0, 0, 0};
  private static final double[] UNIT = {1e7, 1, 1, 1e-8};

  private static final Unknown[] UNKNOWNS = {
    Unknown.of(Parameters.bandwidth(), 1e6, 1e8),
    Unknown.of(Parameters.gainError(), -0.3, 0.3),
    Unknown.of(Parameters.offsetError(), -0.3, 0.3),
    Unknown.of(Parameters.start(), -1e-7, 1e-7)
  };

  private Measurement pole;
  private Measurement gaussian;
  private Measurement shaped;
  private Record ofPole;
  private Record ofGaussian;
  private Record ofShaped;
  private double[] values;

  /** Makes the records, of a bench of 10 MHz that is stated as 15 MHz. */
  @org.openjdk.jmh.annotations.Setup
  public void prepare() {
    Setup white = Setup.ideal(RATE, POINTS).converterNoise(new ConverterNoise(0.002));
    Setup noisy = Setup.ideal(RATE, POINTS).noise(Noise.white(3e-6));
    pole = stated(white.bandwidth(Bandwidth.singlePole(15e6)));
    gaussian = stated(white.bandwidth(Bandwidth.gaussian(4, 15e6)));
    shaped = stated(noisy.bandwidth(Bandwidth.gaussian(4, 15e6)));
    ofPole = record(pole);
    ofGaussian = record(gaussian);
    ofShaped = record(shaped);
    values = ofPole.volts();
  }

  private static Measurement stated(Setup setup) {
    return new Measurement(Signals.step(1, AT), setup);
  }

  private static Record record(Measurement stated) {
    Measurement real = Parameters.bandwidth().with(stated, 10e6);
    return real.setup().capture(real.signal(), 3);
  }

  private static double at(int k, double[] p) {
    double t = p[3] * UNIT[3] + k / RATE - AT;
    double step = t < 0 ? 0 : 1 - Math.exp(-2 * Math.PI * p[0] * UNIT[0] * t);
    return (1 + p[1]) * step + FULL_SCALE * p[2];
  }

  /** The yardstick: value and derivatives of the closed form. */
  private static Pair<RealVector, RealMatrix> closedForm(RealVector point) {
    double[] p = point.toArray();
    double[] value = new double[POINTS];
    double[][] slopes = new double[POINTS][p.length];
    for (int k = 0; k < POINTS; k++) {
      value[k] = at(k, p);
    }
    for (int j = 0; j < p.length; j++) {
      double kept = p[j];
      double h = 6e-6;
      for (int k = 0; k < POINTS; k++) {
        p[j] = kept + h;
        double up = at(k, p);
        p[j] = kept - h;
        slopes[k][j] = (up - at(k, p)) / (2 * h);
      }
      p[j] = kept;
    }
    return new Pair<>(new ArrayRealVector(value, false), new Array2DRowRealMatrix(slopes, false));
  }

  /** The yardstick. */
  @Benchmark
  public LeastSquaresOptimizer.Optimum commonsMath() {
    double[] start = new double[START.length];
    for (int j = 0; j < start.length; j++) {
      start[j] = START[j] / UNIT[j];
    }
    LeastSquaresOptimizer.Optimum optimum =
        new LevenbergMarquardtOptimizer()
            .optimize(
                new LeastSquaresBuilder()
                    .model(ChainFits::closedForm)
                    .target(values)
                    .start(start)
                    .maxEvaluations(1000)
                    .maxIterations(1000)
                    .build());
    if (!(Math.abs(optimum.getPoint().getEntry(0) - 1) < 0.1)) {
      throw new IllegalStateException("the yardstick went astray: " + optimum.getPoint());
    }
    return optimum;
  }

  /** A single pole, as the yardstick has it. */
  @Benchmark
  public ChainFit pole() {
    return ChainFit.of(ofPole, pole, UNKNOWNS).orThrow();
  }

  /** Four poles. */
  @Benchmark
  public ChainFit fourPoles() {
    return ChainFit.of(ofGaussian, gaussian, UNKNOWNS).orThrow();
  }

  /** Four poles, and noise that is correlated from point to point. */
  @Benchmark
  public ChainFit fourPolesShapedNoise() {
    return ChainFit.of(ofShaped, shaped, UNKNOWNS).orThrow();
  }
}
