package org.asmeasured.bench;

import java.util.Arrays;
import java.util.Locale;

/**
 * What the second thread brings to 10 000 trials, and what it costs to tell a listener how far they
 * have come. Two means on a shared machine differ by more than that, so this takes ratios of pairs
 * that follow one another, of which now the one and now the other comes first.
 *
 * <p>Run: {@code java -cp bench/target/benchmarks.jar org.asmeasured.bench.PairedTrials}
 */
public final class PairedTrials {
  private static final int WARM = 60;

  private PairedTrials() {}

  /**
   * Measures and prints.
   *
   * @param args none
   */
  public static void main(String[] args) {
    Predictions trials = new Predictions();
    compare(
        "one thread/two threads",
        trials::tenThousandTrials,
        trials::tenThousandTrialsOnTwoThreads,
        100);
    compare("telling/silent", trials::tenThousandTrialsTold, trials::tenThousandTrials, 300);
  }

  private static void compare(String words, Runnable above, Runnable below, int pairs) {
    double[] ratios = new double[pairs];
    double[] aboves = new double[pairs];
    double[] belows = new double[pairs];
    for (int i = -WARM; i < pairs; i++) {
      boolean aboveFirst = i % 2 == 0;
      double first = milliseconds(aboveFirst ? above : below);
      double second = milliseconds(aboveFirst ? below : above);
      if (i >= 0) {
        aboves[i] = aboveFirst ? first : second;
        belows[i] = aboveFirst ? second : first;
        ratios[i] = aboves[i] / belows[i];
      }
    }
    Arrays.sort(ratios);
    double spread = (ratios[3 * pairs / 4] - ratios[pairs / 4]) / 1.349;
    System.out.printf(
        Locale.ROOT,
        "%s: median %.4f of %d pairs, standard error about %.4f; medians %.1f and %.1f ms%n",
        words,
        ratios[pairs / 2],
        pairs,
        1.253 * spread / Math.sqrt(pairs),
        median(aboves),
        median(belows));
  }

  private static double median(double[] values) {
    Arrays.sort(values);
    return values[values.length / 2];
  }

  private static double milliseconds(Runnable work) {
    long start = System.nanoTime();
    work.run();
    return 1e-6 * (System.nanoTime() - start);
  }
}
