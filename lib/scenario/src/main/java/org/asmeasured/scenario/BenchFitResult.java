package org.asmeasured.scenario;

import java.util.ArrayList;
import java.util.List;
import org.asmeasured.accuracy.Assessment;
import org.asmeasured.fitting.ChainFit;
import org.asmeasured.fitting.Correction;
import org.asmeasured.internal.Require;
import org.asmeasured.measure.Outcome;

/**
 * What a fit comes to, and the readings corrected with it. Immutable, and a function of the {@link
 * BenchFit} alone.
 *
 * @param asked what was asked
 * @param fit the fit, or the reason why there is none
 * @param corrections one for each reading, in order, or the reason why there is none
 */
public record BenchFitResult(
    BenchFit asked, Outcome<ChainFit> fit, List<Outcome<Correction>> corrections) {

  /**
   * Checks and copies.
   *
   * @param asked what was asked
   * @param fit the fit, or the reason why there is none
   * @param corrections one for each reading, in order, or the reason why there is none
   * @throws NullPointerException if one is missing
   * @throws IllegalArgumentException if there is not one correction for each reading
   */
  public BenchFitResult {
    Require.present("asked", asked);
    Require.present("fit", fit);
    corrections = List.copyOf(Require.present("corrections", corrections));
    Require.that(
        corrections.size() == asked.readings().size(),
        "corrections.size = " + corrections.size() + ": must be " + asked.readings().size());
  }

  /**
   * Computes a fit and its corrections.
   *
   * @param asked what is asked
   * @return what comes of it
   * @throws IllegalArgumentException as {@link ChainFit} and {@link Assessment} do
   * @throws NullPointerException if it is missing
   */
  public static BenchFitResult of(BenchFit asked) {
    Require.present("asked", asked);
    Outcome<ChainFit> fit = ChainFit.of(asked.recordings(), asked.unknowns(), asked.method());
    List<Outcome<Correction>> corrections = new ArrayList<>();
    for (BenchFit.Taken taken : asked.readings()) {
      corrections.add(fit.then(f -> corrected(f, taken)));
    }
    return new BenchFitResult(asked, fit, corrections);
  }

  private static Outcome<Correction> corrected(ChainFit fit, BenchFit.Taken taken) {
    if (!fit.atBounds().isEmpty()) {
      return new Outcome.NotTaken<>(
          String.join(", ", fit.atBounds())
              + ": at a bound of the fit, where nothing is known of it");
    }
    for (int j = 0; j < fit.unknowns().size(); j++) {
      if (!(fit.standardUncertainty(j) > 0)) {
        return new Outcome.NotTaken<>(
            fit.unknowns().get(j).name() + ": has no uncertainty, the records being exact");
      }
    }
    return Correction.of(
        taken.value(), Assessment.of(taken.reading(), taken.measurement(), fit.asTolerances()));
  }
}
