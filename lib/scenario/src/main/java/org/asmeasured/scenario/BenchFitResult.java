package org.asmeasured.scenario;

import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CancellationException;
import org.asmeasured.accuracy.Assessment;
import org.asmeasured.accuracy.AssessmentMethod;
import org.asmeasured.accuracy.Caution;
import org.asmeasured.fitting.ChainFit;
import org.asmeasured.fitting.Correction;
import org.asmeasured.internal.Require;
import org.asmeasured.measure.Outcome;
import org.asmeasured.uncertainty.Progress;

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
   * Computes a fit and its corrections on all processors, telling the listener of its method.
   *
   * @param asked what is asked
   * @return what comes of it
   * @throws IllegalArgumentException as {@link ChainFit} and {@link Assessment} do
   * @throws NullPointerException if it is missing
   */
  public static BenchFitResult of(BenchFit asked) {
    return of(asked, Require.present("asked", asked).method().progress());
  }

  /**
   * Computes a fit and its corrections on all processors, telling how far it has come.
   *
   * @param asked what is asked
   * @param progress told of the steps of the fit and of the trials of each correction, as shares of
   *     the whole, and asked whether to go on; the method's own listener is not
   * @return what comes of it
   * @throws IllegalArgumentException as {@link ChainFit} and {@link Assessment} do
   * @throws CancellationException if the progress says so, or the thread is interrupted
   * @throws NullPointerException if one is missing
   */
  public static BenchFitResult of(BenchFit asked, Progress progress) {
    Require.present("asked", asked);
    Require.present("progress", progress);
    int parts = 1 + asked.readings().size();
    Outcome<ChainFit> fit =
        ChainFit.of(
            asked.recordings(),
            asked.unknowns(),
            asked
                .method()
                .withThreads(ScenarioResult.threads())
                .withProgress(progress.part(0, parts)));
    List<Outcome<Correction>> corrections = new ArrayList<>();
    for (BenchFit.Taken taken : asked.readings()) {
      AssessmentMethod method =
          AssessmentMethod.usual()
              .withThreads(ScenarioResult.threads())
              .withProgress(progress.part(1 + corrections.size(), parts));
      corrections.add(fit.then(f -> corrected(f, taken, method)));
    }
    return new BenchFitResult(asked, fit, corrections);
  }

  private static Outcome<Correction> corrected(
      ChainFit fit, BenchFit.Taken taken, AssessmentMethod method) {
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
        taken.value(),
        Assessment.of(List.of(taken.reading()), taken.measurement(), fit.asTolerances(), method)
            .get(0));
  }

  /**
   * What whoever works at this bench must be warned of: of each recording, and of each reading that
   * is corrected.
   *
   * @return each caution once; its places are those of the recordings, from 0, and then those of
   *     the readings; empty where there is nothing to warn of
   */
  public List<SaidCaution> cautions() {
    List<List<Caution>> all = new ArrayList<>();
    asked.recordings().forEach(one -> all.add(one.cautions()));
    for (BenchFit.Taken one : asked.readings()) {
      all.add(Caution.asFarAsKnown(one.measurement().signal(), one.measurement().setup()));
    }
    return SaidCaution.once(all);
  }

  /**
   * What the places of the cautions are called.
   *
   * @return "recording 1" and so on, then "reading 1" and so on
   */
  public List<String> places() {
    List<String> places = new ArrayList<>();
    for (int i = 1; i <= asked.recordings().size(); i++) {
      places.add("recording " + i);
    }
    for (int i = 1; i <= asked.readings().size(); i++) {
      places.add("reading " + i);
    }
    return places;
  }
}
