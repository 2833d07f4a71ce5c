package org.asmeasured.scenario;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Supplier;
import org.asmeasured.accuracy.Caution;
import org.asmeasured.accuracy.PairPrediction;
import org.asmeasured.accuracy.Prediction;
import org.asmeasured.acquisition.LiveTime;
import org.asmeasured.capture.Channel;
import org.asmeasured.capture.Record;
import org.asmeasured.capture.Schedule;
import org.asmeasured.capture.Setup;
import org.asmeasured.internal.Require;
import org.asmeasured.measure.ChannelPair;
import org.asmeasured.measure.Reading;
import org.asmeasured.measure.Statistics;
import org.asmeasured.signal.Signal;

/**
 * What a scenario comes to: the record, a prediction for each reading, and the cautions that belong
 * beside them.
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
 * @param pairStatistics the same of each reading between channels
 * @param linearity what the test of the converter found; empty where none is asked for
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
    Optional<LinearityTest.Result> linearity) {

  /**
   * A result of one channel, without rare events.
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
        Optional.empty());
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
   * @param linearity what the test of the converter found
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
    Require.present("linearity", linearity);
    Require.that(
        linearity.map(LinearityTest.Result::test).equals(scenario.linearityTest()),
        "linearity: must be of the test that the scenario asks for, and of no other");
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
    Require.present("scenario", scenario);
    Record record =
        attempt(
            scenario, "record", () -> scenario.setup().capture(scenario.signal(), scenario.seed()));
    List<Prediction> predictions = predictions(scenario);
    List<String> cautions =
        new ArrayList<>(cautions(scenario, "", scenario.signal(), scenario.setup()));
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
      for (int c = 1; c < all.size(); c++) {
        Channel channel = channels.set().channels().get(c);
        cautions.addAll(
            cautions(scenario, channel.name() + ": ", channels.signals().get(c), channel.setup()));
      }
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
                        scenario.seed())));
      }
    }
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
        scenario.linearityTest().map(test -> linearity(scenario, test)));
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

  private static LinearityTest.Result linearity(Scenario scenario, LinearityTest test) {
    return attempt(
        scenario,
        "linearity test",
        () ->
            test.of(
                scenario.signal(),
                scenario.setup(),
                scenario.seed(),
                Math.max(1, scenario.captures())));
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
  private static int threads() {
    return Math.min(Runtime.getRuntime().availableProcessors(), Statistics.MAX_THREADS);
  }

  private static List<String> cautions(
      Scenario scenario, String before, Signal signal, Setup setup) {
    return attempt(
        scenario,
        "cautions",
        () -> Caution.of(signal, setup).stream().map(c -> before + c.words()).toList());
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
    return Prediction.of(readings, scenario.signal(), scenario.setup(), scenario.seed());
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
