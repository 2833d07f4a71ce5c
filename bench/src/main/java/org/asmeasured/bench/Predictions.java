package org.asmeasured.bench;

import java.util.List;
import java.util.concurrent.TimeUnit;
import org.asmeasured.accuracy.Assessment;
import org.asmeasured.accuracy.AssessmentMethod;
import org.asmeasured.accuracy.Parameters;
import org.asmeasured.accuracy.Tolerances;
import org.asmeasured.capture.Setup;
import org.asmeasured.digitizer.ConverterNoise;
import org.asmeasured.frontend.Bandwidth;
import org.asmeasured.measure.Reading;
import org.asmeasured.measure.Readings;
import org.asmeasured.pulse.PulseReadings;
import org.asmeasured.signal.Signal;
import org.asmeasured.signal.Signals;
import org.asmeasured.uncertainty.Distribution;
import org.asmeasured.uncertainty.MonteCarlo;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;

/**
 * Whole assessments: the trials of {@link Trials} from tolerances to intervals, and the law of
 * propagation beside them, milliseconds each. 10 000 trials of 1000 points on one thread, on two,
 * and with a listener; 1024 Sobol trials of three readings. Beside {@code bench/scripts/trials.py},
 * run just before or after.
 *
 * <p>Run: {@code java -jar bench/target/benchmarks.jar Predictions}
 */
@State(Scope.Thread)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Warmup(iterations = 5, time = 1)
@Measurement(iterations = 5, time = 1)
@Fork(3)
public class Predictions {
  private static final double PERIOD = 500e-9;

  private final Signal trapezoid = Signals.trapezoid(-2.5, 2.5, PERIOD, 0.5, 3e-9, 3e-9);
  private final Setup setup =
      Setup.ideal(1e9, 1000)
          .bandwidth(Bandwidth.bessel(4, 200e6))
          .bits(8)
          .converterNoise(ConverterNoise.ofSteps(0.3, 8));
  private final org.asmeasured.accuracy.Measurement measurement =
      new org.asmeasured.accuracy.Measurement(trapezoid, setup);
  private final org.asmeasured.accuracy.Measurement triggered =
      new org.asmeasured.accuracy.Measurement(trapezoid, setup.points(500));
  private final Tolerances tolerances = starting(0, PERIOD);
  private final Tolerances triggeredTolerances = starting(-100e-9, -99e-9);
  private final AssessmentMethod tenThousand =
      AssessmentMethod.usual().withTrials(MonteCarlo.ofTrials(0.95, 10_000)).withCaptures(2);
  private final AssessmentMethod thousand =
      AssessmentMethod.usual().withTrials(MonteCarlo.ofTrials(0.95, 1024)).withCaptures(2);
  private final List<Reading> one = List.of(Readings.peakToPeak());
  private final List<Reading> three =
      List.of(Readings.peakToPeak(), Readings.rms(), PulseReadings.riseTime());
  private long told;

  private static Tolerances starting(double earliestSeconds, double latestSeconds) {
    return Tolerances.none()
        .with(Parameters.gainError(), Distribution.normal(0, 0.01))
        .with(Parameters.offsetError(), Distribution.rectangular(-0.05 / 8, 0.05 / 8))
        .with(Parameters.relative(Parameters.bandwidth()), Distribution.triangular(-0.1, 0.1))
        .with(Parameters.start(), Distribution.rectangular(earliestSeconds, latestSeconds));
  }

  /** 10 000 trials on one thread. */
  @Benchmark
  public List<Assessment> tenThousandTrials() {
    return Assessment.of(one, measurement, tolerances, tenThousand);
  }

  /** The same, telling a listener. */
  @Benchmark
  public List<Assessment> tenThousandTrialsTold() {
    return Assessment.of(
        one,
        measurement,
        tolerances,
        tenThousand.withProgress(
            (done, most) -> {
              told += done;
              return true;
            }));
  }

  /** The same on two threads. */
  @Benchmark
  public List<Assessment> tenThousandTrialsOnTwoThreads() {
    return Assessment.of(one, measurement, tolerances, tenThousand.withThreads(2));
  }

  /** 1024 trials of peak to peak alone. */
  @Benchmark
  public List<Assessment> thousandTrialsOfPeakToPeak() {
    return Assessment.of(one, measurement, tolerances, thousand);
  }

  /**
   * The same of 500 points, triggered: the clock of the samples is free within one interval. Then
   * 1024 trials give all three standard uncertainties to 1 %, as a test says.
   */
  @Benchmark
  public List<Assessment> thousandTrialsOfThreeTriggeredReadings() {
    return Assessment.of(three, triggered, triggeredTolerances, thousand);
  }

  /** 1024 trials of peak to peak, RMS and rise time. */
  @Benchmark
  public List<Assessment> thousandTrialsOfThreeReadings() {
    return Assessment.of(three, measurement, tolerances, thousand);
  }
}
