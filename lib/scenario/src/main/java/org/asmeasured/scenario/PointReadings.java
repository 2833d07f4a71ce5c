package org.asmeasured.scenario;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Supplier;
import org.asmeasured.accuracy.Assessment;
import org.asmeasured.accuracy.AssessmentMethod;
import org.asmeasured.accuracy.Verdict;
import org.asmeasured.capture.Record;
import org.asmeasured.measure.ChannelPair;
import org.asmeasured.measure.Measured;
import org.asmeasured.measure.Measured.NotTaken;
import org.asmeasured.measure.Measured.Value;
import org.asmeasured.measure.Outcome;
import org.asmeasured.measure.Reading;
import org.asmeasured.uncertainty.Interval;
import org.asmeasured.uncertainty.Progress;

/**
 * Takes the readings of one scenario, truth and record alone: the stages in between, which cost
 * several times as much, are the business of a single prediction.
 *
 * <p>What signal and setup together refuse becomes the reason why a reading is not taken: a sweep
 * of hours is not lost to one of its points.
 */
final class PointReadings {
  private final Scenario scenario;
  private final List<Reading> readings;

  PointReadings(Scenario scenario, List<Integer> places) {
    this.scenario = scenario;
    this.readings = places.stream().map(scenario.readings()::get).toList();
  }

  /** What the readings of a scenario are called: each unlike the others. */
  static List<String> names(Scenario scenario) {
    List<Reading> all = scenario.readings();
    return all.stream()
        .map(
            one ->
                all.stream().filter(r -> r.name().equals(one.name())).count() > 1
                    ? one.toString()
                    : one.name())
        .toList();
  }

  /** What the readings between channels are called. */
  static List<String> names(FurtherChannels channels) {
    List<String> names = new ArrayList<>();
    for (ChannelPair q : channels.readings()) {
      long alike =
          channels.readings().stream()
              .filter(other -> other.reading().name().equals(q.reading().name()))
              .filter(other -> other.first().equals(q.first()) && other.second().equals(q.second()))
              .count();
      String name = alike > 1 ? q.reading().toString() : q.reading().name();
      names.add(name + ", " + q.first() + " and " + q.second());
    }
    return names;
  }

  List<SweptReading> take(int threads, Progress progress) {
    List<String> names = names(scenario);
    List<SweptReading> taken = new ArrayList<>();
    Outcome<Record> captured =
        attempt(() -> scenario.setup().capture(scenario.signal(), scenario.seed()));
    Outcome<List<Assessment>> assessed =
        attempt(
            () ->
                ScenarioResult.assessments(
                    scenario,
                    readings,
                    AssessmentMethod.usual()
                        .byTrialsAlone()
                        .withThreads(threads)
                        .withProgress(progress)));
    for (int r = 0; r < readings.size(); r++) {
      Reading reading = readings.get(r);
      int index = r;
      taken.add(
          new SweptReading(
              names.get(scenario.readings().indexOf(reading)),
              reading.unit(),
              captured.read(record -> truth(reading, record)),
              captured.read(record -> attempted(() -> reading.of(record))),
              scenario.assessment().map(asked -> sureness(asked, reading, assessed, index))));
    }
    scenario.channels().ifPresent(channels -> pairs(channels, taken));
    return taken;
  }

  private Measured truth(Reading reading, Record record) {
    double from = record.startSeconds();
    double to = from + scenario.setup().spanSeconds();
    return attempted(() -> reading.of(scenario.signal(), from, to));
  }

  private void pairs(FurtherChannels channels, List<SweptReading> taken) {
    Outcome<List<Record>> captured =
        attempt(() -> channels.set().capture(channels.signals(), scenario.seed()));
    List<String> names = names(channels);
    for (int i = 0; i < names.size(); i++) {
      ChannelPair q = channels.readings().get(i);
      int a = channels.set().indexOf(q.first());
      int b = channels.set().indexOf(q.second());
      double span = channels.set().channels().get(a).setup().spanSeconds();
      taken.add(
          new SweptReading(
              names.get(i),
              q.reading().unit(),
              captured.read(
                  records -> {
                    double from = records.get(a).startSeconds();
                    return attempted(
                        () ->
                            q.reading()
                                .of(
                                    channels.signals().get(a),
                                    channels.signals().get(b),
                                    from,
                                    from + span));
                  }),
              captured.read(
                  records -> attempted(() -> q.reading().of(records.get(a), records.get(b)))),
              Optional.empty()));
    }
  }

  private static SweptReading.Sureness sureness(
      RequestedAssessment asked, Reading reading, Outcome<List<Assessment>> assessed, int index) {
    Optional<RequestedAssessment.Limit> limit =
        asked.limits().stream().filter(one -> one.reading().equals(reading)).findFirst();
    Outcome<Assessment> own = assessed.then(all -> new Outcome.Taken<>(all.get(index)));
    Outcome<Interval> interval = own.then(Assessment::interval);
    return new SweptReading.Sureness(
        own.read(Assessment::measured),
        own.read(Assessment::standardUncertainty),
        interval.read(i -> new Value(i.lower())),
        interval.read(i -> new Value(i.upper())),
        own.then(Assessment::sensitivity),
        limit.map(
            one ->
                own.then(a -> a.decide(one.tolerance(), one.risk()))
                    .then(verdict -> new Outcome.Taken<Verdict.Ruling>(verdict.ruling()))));
  }

  private static <T> Outcome<T> attempt(Supplier<T> work) {
    try {
      return new Outcome.Taken<>(work.get());
    } catch (IllegalArgumentException | ScenarioException e) {
      return new Outcome.NotTaken<>(e.getMessage());
    }
  }

  private static Measured attempted(Supplier<Measured> work) {
    try {
      return work.get();
    } catch (IllegalArgumentException e) {
      return new NotTaken(e.getMessage());
    }
  }
}
