package org.asmeasured.bench;

import java.util.concurrent.TimeUnit;
import org.apache.commons.math3.random.SobolSequenceGenerator;
import org.apache.commons.statistics.distribution.NormalDistribution;
import org.asmeasured.uncertainty.Distribution;
import org.asmeasured.uncertainty.Input;
import org.asmeasured.uncertainty.Inputs;
import org.asmeasured.uncertainty.LawOfPropagation;
import org.asmeasured.uncertainty.Model;
import org.asmeasured.uncertainty.MonteCarlo;
import org.asmeasured.uncertainty.Propagated;
import org.asmeasured.uncertainty.Simulated;
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
 * What uncertainty costs beside the model itself: six inputs, a model that is a few operations. All
 * figures are nanoseconds a trial, but those of the law of propagation: nanoseconds a run.
 *
 * <p>The yardstick draws the same number of normal values by the libraries alone: Commons Math's
 * Sobol points through the inverse of Commons Statistics, mean and standard deviation summed.
 *
 * <p>Run: {@code java -jar bench/target/benchmarks.jar Uncertainties}
 */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.NANOSECONDS)
@Warmup(iterations = 5, time = 1)
@Measurement(iterations = 5, time = 1)
@Fork(3)
public class Uncertainties {
  private static final int TRIALS = 1024;
  private static final int MANY = 1 << 17;
  private static final int INPUTS = 6;

  private final NormalDistribution normal = NormalDistribution.of(2, 0.1);
  private final Inputs inputs = inputs();
  private final Model model = Model.of(Uncertainties::formula);

  private static Inputs inputs() {
    Input[] list = new Input[INPUTS];
    for (int i = 0; i < INPUTS; i++) {
      list[i] = Input.of("x" + i, "", Distribution.normal(2, 0.1));
    }
    return Inputs.of(list);
  }

  private static double formula(double[] x) {
    return x[0] * x[1] + x[2] / x[3] + Math.sqrt(x[4]) * x[5];
  }

  /** The yardstick: 1024 trials by the libraries alone, without a control variate. */
  @Benchmark
  @OperationsPerInvocation(TRIALS)
  public double byLibraries() {
    SobolSequenceGenerator points = new SobolSequenceGenerator(INPUTS);
    points.skipTo(1);
    double[] x = new double[INPUTS];
    double sum = 0;
    double squares = 0;
    for (int t = 0; t < TRIALS; t++) {
      double[] p = points.nextVector();
      for (int i = 0; i < INPUTS; i++) {
        x[i] = normal.inverseCumulativeProbability(p[i]);
      }
      double y = formula(x);
      sum += y;
      squares += y * y;
    }
    return Math.sqrt((squares - sum * sum / TRIALS) / (TRIALS - 1));
  }

  /** The standard uncertainty from 1024 trials, with directions, scramble and regression. */
  @Benchmark
  @OperationsPerInvocation(TRIALS)
  public Simulated standardUncertainty() {
    return MonteCarlo.ofTrials(0.95, TRIALS).of(inputs, model).orThrow();
  }

  /** 2^17 trials for an interval on one thread. */
  @Benchmark
  @OperationsPerInvocation(MANY)
  public Simulated interval() {
    return MonteCarlo.ofTrials(0.95, MANY).of(inputs, model).orThrow();
  }

  /** The same on two. */
  @Benchmark
  @OperationsPerInvocation(MANY)
  public Simulated intervalOnTwoThreads() {
    return MonteCarlo.ofTrials(0.95, MANY).withThreads(2).of(inputs, model).orThrow();
  }

  /** A budget by the law of propagation, first order: nanoseconds a run. */
  @Benchmark
  public Propagated law() {
    return LawOfPropagation.standard().of(inputs, model).orThrow();
  }
}
