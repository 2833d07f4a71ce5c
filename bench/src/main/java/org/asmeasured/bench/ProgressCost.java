package org.asmeasured.bench;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import org.asmeasured.accuracy.Assessment;
import org.asmeasured.accuracy.AssessmentMethod;
import org.asmeasured.accuracy.Measurement;
import org.asmeasured.accuracy.Parameters;
import org.asmeasured.accuracy.Tolerances;
import org.asmeasured.capture.Setup;
import org.asmeasured.digitizer.ConverterNoise;
import org.asmeasured.frontend.Bandwidth;
import org.asmeasured.measure.Reading;
import org.asmeasured.measure.Readings;
import org.asmeasured.signal.Signals;
import org.asmeasured.uncertainty.Distribution;
import org.asmeasured.uncertainty.MonteCarlo;

/**
 * What it costs to tell a listener how far 10 000 trials have come. That is less than two means of
 * a shared machine differ by, so this takes the median ratio of pairs that follow one another, of
 * which now the one and now the other comes first.
 *
 * <p>Run: {@code java -cp bench/target/benchmarks.jar org.asmeasured.bench.ProgressCost}
 */
public final class ProgressCost {
  private static final int WARM = 60;
  private static final int PAIRS = 300;
  private static long told;

  private ProgressCost() {}

  /**
   * Measures and prints.
   *
   * @param args none
   */
  public static void main(String[] args) {
    Setup setup =
        Setup.ideal(1e9, 1000)
            .bandwidth(Bandwidth.bessel(4, 200e6))
            .bits(8)
            .converterNoise(ConverterNoise.ofSteps(0.3, 8));
    Measurement measurement =
        new Measurement(Signals.trapezoid(-2.5, 2.5, 500e-9, 0.5, 3e-9, 3e-9), setup);
    Tolerances tolerances =
        Tolerances.none()
            .with(Parameters.gainError(), Distribution.normal(0, 0.01))
            .with(Parameters.relative(Parameters.bandwidth()), Distribution.triangular(-0.1, 0.1));
    AssessmentMethod silent =
        AssessmentMethod.usual().withTrials(MonteCarlo.ofTrials(0.95, 10_000)).withCaptures(2);
    AssessmentMethod telling =
        silent.withProgress(
            (done, most) -> {
              told += done;
              return true;
            });
    double[] ratios = new double[PAIRS];
    for (int i = -WARM; i < PAIRS; i++) {
      boolean silentFirst = i % 2 == 0;
      double first = nanoseconds(measurement, tolerances, silentFirst ? silent : telling);
      double second = nanoseconds(measurement, tolerances, silentFirst ? telling : silent);
      if (i >= 0) {
        ratios[i] = silentFirst ? second / first : first / second;
      }
    }
    Arrays.sort(ratios);
    double spread = (ratios[3 * PAIRS / 4] - ratios[PAIRS / 4]) / 1.349;
    System.out.printf(
        Locale.ROOT,
        "telling/silent: median %.4f, standard error about %.4f, of %d pairs (told %d)%n",
        ratios[PAIRS / 2],
        1.253 * spread / Math.sqrt(PAIRS),
        PAIRS,
        told);
  }

  private static double nanoseconds(
      Measurement measurement, Tolerances tolerances, AssessmentMethod method) {
    List<Reading> reading = List.of(Readings.peakToPeak());
    long start = System.nanoTime();
    Assessment.of(reading, measurement, tolerances, method);
    return System.nanoTime() - start;
  }
}
