package org.asmeasured.scenario;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CancellationException;
import java.util.function.Supplier;
import org.asmeasured.accuracy.Assessment;
import org.asmeasured.accuracy.AssessmentMethod;
import org.asmeasured.accuracy.Caution;
import org.asmeasured.accuracy.IdealStages;
import org.asmeasured.accuracy.Measurement;
import org.asmeasured.accuracy.PairPrediction;
import org.asmeasured.accuracy.Prediction;
import org.asmeasured.accuracy.Verdict;
import org.asmeasured.acquisition.LiveTime;
import org.asmeasured.advice.Advice;
import org.asmeasured.advice.AdviceMethod;
import org.asmeasured.advice.Candidate;
import org.asmeasured.capture.Record;
import org.asmeasured.capture.Schedule;
import org.asmeasured.internal.Require;
import org.asmeasured.measure.ChannelPair;
import org.asmeasured.measure.Outcome;
import org.asmeasured.measure.Reading;
import org.asmeasured.measure.Statistics;
import org.asmeasured.uncertainty.MonteCarlo;
import org.asmeasured.uncertainty.Progress;

/**
 * What a scenario comes to: the record, a prediction for each reading, and the cautions that belong
 * beside them. Where captures are asked for, predictions are means over them, with their random
 * parts; the record is that of the scenario's own seed all the same.
 *
 * <p>Immutable, and a function of the scenario alone, its seed included: the same scenario gives
 * the same bits on any machine.
 *
 * @param scenario what was asked
 * @param record what the setup captures of the signal
 * @param predictions one for each reading of the scenario, in its order
 * @param cautions sentences for whoever would do this at a bench; empty where there is nothing to
 *     warn of
 * @param furtherRecords what the channels after the first capture, in their order
 * @param pairPredictions one for each reading between channels, in their order
 * @param liveTime how much of the time is recorded; empty where no rare events are asked for, or
 *     nothing is known of it
 * @param statistics of each reading over many captures, in their order; empty where none are asked
 *     for
 * @param idealStages what each reading would be with each stage alone ideal, in their order
 * @param pairStatistics the same of each reading between channels
 * @param linearity what the test of the converter found; empty where none is asked for
 * @param assessments how sure each reading is, in their order; empty where that is not asked for
 * @param verdicts one for each limit of the scenario, in their order
 * @param advice for each reading that advice is asked about
 */
public record ScenarioResult(
    Scenario scenario,
    Record record,
    List<Prediction> predictions,
    List<String> cautions,
    List<Record> furtherRecords,
    List<PairPrediction> pairPredictions,
    Optional<LiveTime> liveTime,
    List<Statistics> statistics,
    List<Statistics> pairStatistics,
    List<IdealStages> idealStages,
    Optional<LinearityTest.Result> linearity,
    List<Assessment> assessments,
    List<Outcome<Verdict>> verdicts,
    List<Advised> advice) {

  /**
   * A result of one channel, without rare events and without the table of ideal stages.
   *
   * @param scenario what was asked
   * @param record what is captured
   * @param predictions one for each reading
   * @param cautions may be empty
   * @throws NullPointerException if anything is null
   * @throws IllegalArgumentException if there is not one prediction for each reading, or there are
   *     several channels
   */
  public ScenarioResult(
      Scenario scenario, Record record, List<Prediction> predictions, List<String> cautions) {
    this(
        scenario,
        record,
        predictions,
        cautions,
        List.of(),
        List.of(),
        Optional.empty(),
        List.of(),
        List.of(),
        List.of(),
        Optional.empty(),
        List.of(),
        List.of(),
        List.of());
  }

  /**
   * Copies the lists.
   *
   * @param scenario what was asked
   * @param record what is captured
   * @param predictions one for each reading
   * @param cautions may be empty
   * @param furtherRecords one for each channel after the first
   * @param pairPredictions one for each reading between channels
   * @param liveTime how much of the time is recorded
   * @param statistics one for each reading, or none
   * @param pairStatistics one for each reading between channels, or none
   * @param idealStages one for each reading, or none
   * @param linearity what the test of the converter found
   * @param assessments one for each reading, or none
   * @param verdicts one for each limit
   * @param advice for each reading that advice is asked about
   * @throws NullPointerException if anything is null
   * @throws IllegalArgumentException if there is not one prediction for each reading, one record
   *     for each channel, or what is asked for beside them
   */
  public ScenarioResult {
    Require.present("scenario", scenario);
    Require.present("record", record);
    predictions = List.copyOf(Require.present("predictions", predictions));
    cautions = List.copyOf(Require.present("cautions", cautions));
    Require.that(
        predictions.size() == scenario.readings().size(),
        "predictions has "
            + predictions.size()
            + " entries: must have one for each of the "
            + scenario.readings().size()
            + " readings");
    furtherRecords = List.copyOf(Require.present("furtherRecords", furtherRecords));
    pairPredictions = List.copyOf(Require.present("pairPredictions", pairPredictions));
    Require.present("liveTime", liveTime);
    int further = scenario.channels().map(c -> c.signals().size() - 1).orElse(0);
    Require.that(
        furtherRecords.size() == further,
        "furtherRecords has " + furtherRecords.size() + " entries: must have " + further);
    int pairs = scenario.channels().map(c -> c.readings().size()).orElse(0);
    Require.that(
        pairPredictions.size() == pairs,
        "pairPredictions has " + pairPredictions.size() + " entries: must have " + pairs);
    statistics = List.copyOf(Require.present("statistics", statistics));
    int repeated = scenario.captures() == 0 ? 0 : predictions.size();
    Require.that(
        statistics.size() == repeated,
        "statistics has " + statistics.size() + " entries: must have " + repeated);
    pairStatistics = List.copyOf(Require.present("pairStatistics", pairStatistics));
    int repeatedPairs = scenario.captures() == 0 ? 0 : pairs;
    Require.that(
        pairStatistics.size() == repeatedPairs,
        "pairStatistics has " + pairStatistics.size() + " entries: must have " + repeatedPairs);
    idealStages = List.copyOf(Require.present("idealStages", idealStages));
    Require.that(
        idealStages.isEmpty() || idealStages.size() == predictions.size(),
        "idealStages has "
            + idealStages.size()
            + " entries: must have "
            + predictions.size()
            + ", or none");
    Require.present("linearity", linearity);
    Require.that(
        linearity.map(LinearityTest.Result::test).equals(scenario.linearityTest()),
        "linearity: must be of the test that the scenario asks for, and of no other");
    assessments = List.copyOf(Require.present("assessments", assessments));
    int assessed = scenario.assessment().isPresent() ? predictions.size() : 0;
    Require.that(
        assessments.size() == assessed,
        "assessments has " + assessments.size() + " entries: must have " + assessed);
    verdicts = List.copyOf(Require.present("verdicts", verdicts));
    int limits = scenario.assessment().map(a -> a.limits().size()).orElse(0);
    Require.that(
        verdicts.size() == limits,
        "verdicts has " + verdicts.size() + " entries: must have " + limits);
    advice = List.copyOf(Require.present("advice", advice));
    boolean offered = scenario.assessment().flatMap(RequestedAssessment::offers).isPresent();
    Require.that(
        offered != advice.isEmpty(),
        "advice has " + advice.size() + " entries: must have some if settings are offered");
  }

  /**
   * Captures the signal of a scenario and predicts each of its readings.
   *
   * @param scenario what to compute
   * @return the result
   * @throws NullPointerException if there is no scenario
   * @throws ScenarioException if signal and setup together ask for more than can be computed
   */
  public static ScenarioResult of(Scenario scenario) {
    return of(scenario, (done, most) -> true);
  }

  /**
   * Captures the signal of a scenario and predicts each of its readings, telling how far its trials
   * have come.
   *
   * @param scenario what to compute
   * @param progress told of the trials of assessments and of the search for advice, as shares of
   *     the whole, and asked whether to go on
   * @return the result
   * @throws NullPointerException if one is missing
   * @throws ScenarioException if signal and setup together ask for more than can be computed
   * @throws CancellationException if the progress says so, or the thread is interrupted
   */
  public static ScenarioResult of(Scenario scenario, Progress progress) {
    Require.present("scenario", scenario);
    Require.present("progress", progress);
    Record record =
        attempt(
            scenario, "record", () -> scenario.setup().capture(scenario.signal(), scenario.seed()));
    List<Prediction> predictions = predictions(scenario);
    List<String> cautions = ScenarioCautions.of(scenario).stream().map(Caution::words).toList();
    List<Record> further = List.of();
    List<PairPrediction> pairs = new ArrayList<>();
    if (scenario.channels().isPresent()) {
      FurtherChannels channels = scenario.channels().get();
      List<Record> all =
          attempt(
              scenario,
              "records",
              () -> channels.set().capture(channels.signals(), scenario.seed()));
      further = all.subList(1, all.size());
      for (ChannelPair q : channels.readings()) {
        pairs.addAll(
            attempt(
                scenario,
                "reading \"" + q.reading() + "\"",
                () ->
                    PairPrediction.of(
                        List.of(q.reading()),
                        q.first(),
                        q.second(),
                        channels.signals(),
                        channels.set(),
                        scenario.seed(),
                        captures(scenario),
                        threads())));
      }
    }
    // the assessment of all readings, then of each reading that advice is asked about
    int parts = 1 + advisedOn(scenario).size();
    List<Assessment> assessments =
        assessments(
            scenario,
            scenario.readings(),
            AssessmentMethod.usual().withThreads(threads()).withProgress(progress.part(0, parts)));
    return new ScenarioResult(
        scenario,
        record,
        predictions,
        cautions,
        further,
        pairs,
        liveTime(scenario),
        statistics(scenario),
        pairStatistics(scenario),
        attempt(
            scenario,
            "stages alone ideal",
            () ->
                IdealStages.of(
                    scenario.readings(),
                    scenario.signal(),
                    scenario.setup(),
                    scenario.seed(),
                    captures(scenario),
                    threads())),
        scenario.linearityTest().map(test -> linearity(scenario, test)),
        assessments,
        verdicts(scenario, assessments),
        advice(scenario, progress));
  }

  /**
   * How sure some readings of a scenario are; none where that is not asked for.
   *
   * @param method whose trials, captures and seed become those of the scenario
   */
  static List<Assessment> assessments(
      Scenario scenario, List<Reading> readings, AssessmentMethod method) {
    if (scenario.assessment().isEmpty()) {
      return List.of();
    }
    RequestedAssessment request = scenario.assessment().get();
    return attempt(
        scenario,
        "assessment",
        () ->
            Assessment.of(
                readings,
                new Measurement(scenario.signal(), scenario.setup()),
                request.tolerances(),
                asAsked(method, scenario, request)));
  }

  private static AssessmentMethod asAsked(
      AssessmentMethod method, Scenario scenario, RequestedAssessment request) {
    return method
        .withTrials(
            MonteCarlo.forStandardUncertainty(request.digits()).withAtLeast(request.leastTrials()))
        .withCaptures(request.captures())
        .withSeed(scenario.seed());
  }

  private static List<Advised> advice(Scenario scenario, Progress progress) {
    List<Advised> advice = new ArrayList<>();
    List<Reading> readings = advisedOn(scenario);
    for (Reading reading : readings) {
      Progress part = progress.part(1 + advice.size(), 1 + readings.size());
      advice.add(
          attempt(
              scenario,
              "advice about \"" + reading + "\"",
              () -> advised(scenario, scenario.assessment().orElseThrow(), reading, part)));
    }
    return advice;
  }

  /** The readings that advice is asked about: those with a limit, or else all. */
  private static List<Reading> advisedOn(Scenario scenario) {
    RequestedAssessment request = scenario.assessment().orElse(null);
    if (request == null || request.offers().isEmpty()) {
      return List.of();
    }
    List<Reading> limited =
        request.limits().stream().map(RequestedAssessment.Limit::reading).toList();
    return limited.isEmpty() ? scenario.readings() : limited;
  }

  private static Advised advised(
      Scenario scenario, RequestedAssessment request, Reading reading, Progress progress) {
    Measurement asked = new Measurement(scenario.signal(), scenario.setup());
    Outcome<Advice> advice =
        Advice.of(
            reading,
            asked,
            request.tolerances(),
            request.offers().orElseThrow(),
            AdviceMethod.usual()
                .withSeed(scenario.seed())
                .withThreads(threads())
                .withProgress(progress.part(0, 2)));
    AssessmentMethod method =
        AssessmentMethod.usual().withThreads(threads()).withProgress(progress.part(1, 2));
    Optional<Candidate> best =
        advice instanceof Outcome.Taken<Advice> taken ? taken.result().best() : Optional.empty();
    Optional<Assessment> withBest =
        best.map(
            candidate -> {
              Measurement measurement = asked.withSetup(candidate.setup());
              return Assessment.of(
                      List.of(reading),
                      asked,
                      measurement,
                      request.tolerances().concerning(measurement),
                      asAsked(method, scenario, request))
                  .get(0);
            });
    Optional<Outcome<Verdict>> verdict =
        request.limits().stream()
            .filter(limit -> limit.reading().equals(reading))
            .findFirst()
            .flatMap(limit -> withBest.map(with -> with.decide(limit.tolerance(), limit.risk())));
    return new Advised(reading, advice, withBest, verdict);
  }

  private static List<Outcome<Verdict>> verdicts(Scenario scenario, List<Assessment> assessments) {
    List<Outcome<Verdict>> verdicts = new ArrayList<>();
    for (RequestedAssessment.Limit limit :
        scenario.assessment().map(RequestedAssessment::limits).orElse(List.of())) {
      int reading = scenario.readings().indexOf(limit.reading());
      verdicts.add(assessments.get(reading).decide(limit.tolerance(), limit.risk()));
    }
    return verdicts;
  }

  private static List<Statistics> statistics(Scenario scenario) {
    if (scenario.captures() == 0) {
      return List.of();
    }
    return attempt(
        scenario,
        "statistics",
        () ->
            Statistics.over(
                scenario.readings(),
                scenario.signal(),
                scenario.setup(),
                scenario.seed(),
                scenario.captures(),
                threads()));
  }

  private static int captures(Scenario scenario) {
    return Math.max(1, scenario.captures());
  }

  private static LinearityTest.Result linearity(Scenario scenario, LinearityTest test) {
    return attempt(
        scenario,
        "linearity test",
        () -> test.of(scenario.signal(), scenario.setup(), scenario.seed(), captures(scenario)));
  }

  private static List<Statistics> pairStatistics(Scenario scenario) {
    if (scenario.captures() == 0 || scenario.channels().isEmpty()) {
      return List.of();
    }
    FurtherChannels channels = scenario.channels().get();
    return attempt(
        scenario,
        "statistics of readings between channels",
        () ->
            Statistics.between(
                channels.readings(),
                channels.signals(),
                channels.set(),
                scenario.seed(),
                scenario.captures(),
                threads()));
  }

  /** The figures are the same on any number of threads. */
  static int threads() {
    return Math.min(Runtime.getRuntime().availableProcessors(), Statistics.MAX_THREADS);
  }

  private static Optional<LiveTime> liveTime(Scenario scenario) {
    return scenario.rareEvents().isEmpty()
        ? Optional.empty()
        : attempt(
            scenario,
            "live time",
            () ->
                scenario
                    .setup()
                    .schedule(scenario.signal(), scenario.seed())
                    .flatMap(Schedule::liveTime));
  }

  private static List<Prediction> predictions(Scenario scenario) {
    try {
      return predictions(scenario, scenario.readings());
    } catch (IllegalArgumentException e) {
      // One by one, to say which of them it was.
      List<Prediction> predictions = new ArrayList<>();
      for (Reading reading : scenario.readings()) {
        predictions.addAll(
            attempt(
                scenario,
                "reading \"" + reading + "\"",
                () -> predictions(scenario, List.of(reading))));
      }
      return predictions;
    }
  }

  private static List<Prediction> predictions(Scenario scenario, List<Reading> readings) {
    return Prediction.of(
        readings,
        scenario.signal(),
        scenario.setup(),
        scenario.seed(),
        captures(scenario),
        threads());
  }

  // Signal and setup are sound by themselves; together they may ask for more than can be computed.
  private static <T> T attempt(Scenario scenario, String what, Supplier<T> work) {
    try {
      return work.get();
    } catch (IllegalArgumentException e) {
      throw new ScenarioException(scenario.title() + ": " + what + ": " + e.getMessage() + ".", e);
    }
  }
}
