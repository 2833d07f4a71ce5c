package org.asmeasured.examples;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;
import org.asmeasured.accuracy.PairPrediction;
import org.asmeasured.accuracy.Prediction;
import org.asmeasured.accuracy.Scatter;
import org.asmeasured.accuracy.StageBias;
import org.asmeasured.acquisition.Trigger;
import org.asmeasured.capture.Channel;
import org.asmeasured.capture.Record;
import org.asmeasured.capture.Setup;
import org.asmeasured.digitizer.Linearity;
import org.asmeasured.frontend.AnalogStage;
import org.asmeasured.frontend.CurrentProbe;
import org.asmeasured.frontend.FrontEnd;
import org.asmeasured.frontend.InputRating;
import org.asmeasured.measure.Measured;
import org.asmeasured.measure.Outcome;
import org.asmeasured.measure.Reading;
import org.asmeasured.measure.Statistics;
import org.asmeasured.scenario.FurtherChannels;
import org.asmeasured.scenario.LinearityTest;
import org.asmeasured.scenario.RareEvent;
import org.asmeasured.scenario.RequestedAssessment;
import org.asmeasured.scenario.ScenarioResult;
import org.asmeasured.signal.Signal;

/** Puts the library's results into the words and numbers of a report. */
final class Accounts {
  private static final String NONE = "–";

  private Accounts() {}

  static Account of(ScenarioResult result) {
    Signal signal = result.scenario().signal();
    Setup setup = result.scenario().setup();
    List<Account.Outcome> outcomes = new ArrayList<>();
    for (int r = 0; r < result.predictions().size(); r++) {
      Prediction prediction = result.predictions().get(r);
      outcomes.add(
          outcome(
              label(result.scenario().readings(), prediction.reading()),
              prediction.reading().unit(),
              prediction.truth(),
              prediction.measured(),
              prediction.scatter(),
              prediction.byStage(),
              result.idealStages().isEmpty() ? List.of() : result.idealStages().get(r).rows()));
    }
    List<Account.Fact> facts = facts(signal, setup, result.scenario().seed(), result.record());
    List<String> flags = flags(setup, result.record());
    List<Account.Further> further = new ArrayList<>();
    String name = "";
    if (result.scenario().channels().isPresent()) {
      FurtherChannels channels = result.scenario().channels().get();
      List<Channel> all = channels.set().channels();
      name = all.get(0).name();
      for (PairPrediction pair : result.pairPredictions()) {
        outcomes.add(
            outcome(
                label(pair),
                pair.reading().unit(),
                pair.truth(),
                pair.measured(),
                pair.scatter(),
                pair.byStage(),
                List.of()));
      }
      for (int c = 1; c < all.size(); c++) {
        Channel channel = all.get(c);
        Record record = result.furtherRecords().get(c - 1);
        facts.addAll(facts(channel, channels.signals().get(c)));
        flags(channel.setup(), record).stream()
            .filter(words -> words.startsWith("Clipped"))
            .forEach(words -> flags.add(channel.name() + ": " + words));
        further.add(
            new Account.Further(
                channel.name(), comparison(channels.signals().get(c), channel.setup(), record)));
      }
    }
    return new Account(
        result.scenario().title(),
        result.scenario().notes(),
        facts,
        outcomes,
        flags,
        result.cautions(),
        comparison(signal, setup, result.record()),
        name,
        further,
        betweenChannels(result),
        chances(result),
        result.scenario().captures(),
        spreads(result),
        result.linearity().map(Accounts::converterTest).orElse(List.of()),
        ReadingPictures.of(result),
        sureness(result),
        spreadPictures(result),
        result.advice().stream()
            .map(a -> Helping.of(label(result.scenario().readings(), a.reading()), a))
            .toList());
  }

  /** Why readings between channels have no uncertainty, once for all of them. */
  private static String betweenChannels(ScenarioResult result) {
    return result.pairPredictions().stream()
        .map(PairPrediction::standardUncertainty)
        .filter(u -> u instanceof Measured.NotTaken)
        .map(u -> ((Measured.NotTaken) u).reason())
        .findFirst()
        .map(reason -> Character.toUpperCase(reason.charAt(0)) + reason.substring(1) + ".")
        .orElse("");
  }

  private static List<Sureness> sureness(ScenarioResult result) {
    List<Sureness> sureness = new ArrayList<>();
    for (int r = 0; r < result.assessments().size(); r++) {
      Reading reading = result.scenario().readings().get(r);
      int limit = limit(result, reading);
      sureness.add(
          Sureness.of(
              label(result.scenario().readings(), reading),
              result.assessments().get(r),
              limit < 0 ? null : limits(result).get(limit),
              limit < 0 ? null : result.verdicts().get(limit)));
    }
    return sureness;
  }

  private static List<RequestedAssessment.Limit> limits(ScenarioResult result) {
    return result.scenario().assessment().map(RequestedAssessment::limits).orElse(List.of());
  }

  /** Where the limit of a reading stands; -1 if it has none. */
  private static int limit(ScenarioResult result, Reading reading) {
    return limits(result).stream()
        .map(RequestedAssessment.Limit::reading)
        .toList()
        .indexOf(reading);
  }

  private static List<Picture> spreadPictures(ScenarioResult result) {
    List<Picture> pictures = new ArrayList<>();
    List<Sureness> all = sureness(result);
    for (int r = 0; r < all.size(); r++) {
      Reading reading = result.scenario().readings().get(r);
      int limit = limit(result, reading);
      if (all.get(r).isTaken()) {
        pictures.add(
            SurenessPicture.of(
                "how-sure-" + (r + 1),
                all.get(r),
                limit < 0 ? null : limits(result).get(limit).tolerance(),
                reading.unit()));
      }
    }
    return pictures;
  }

  private static List<Account.Spread> spreads(ScenarioResult result) {
    List<Account.Spread> spreads = new ArrayList<>();
    for (int r = 0; r < result.statistics().size(); r++) {
      Reading reading = result.scenario().readings().get(r);
      String name = label(result.scenario().readings(), reading);
      spreads.add(spread(name, reading.unit(), result.statistics().get(r)));
    }
    for (int r = 0; r < result.pairStatistics().size(); r++) {
      PairPrediction pair = result.pairPredictions().get(r);
      spreads.add(spread(label(pair), pair.reading().unit(), result.pairStatistics().get(r)));
    }
    return spreads;
  }

  private static String label(PairPrediction pair) {
    return pair.reading().name() + ", " + pair.first() + " and " + pair.second();
  }

  /** All figures with as many digits as the scatter deserves. */
  private static Account.Spread spread(String name, String unit, Statistics statistics) {
    List<String> reasons = new ArrayList<>();
    statistics.notTaken().forEach((reason, count) -> reasons.add(count + " not taken: " + reason));
    if (statistics.count() == 0) {
      return new Account.Spread(name, NONE, NONE, NONE, NONE, reasons);
    }
    double mean = statistics.mean().orThrow();
    double deviation =
        statistics.standardDeviation() instanceof Measured.Value value ? value.value() : 0;
    deviation = StageTables.scatter(deviation, mean);
    Scale scale = Scale.of(mean == 0 ? deviation : mean, unit);
    int decimals =
        Math.max(scale.decimals(mean, 4), deviation == 0 ? 0 : scale.decimals(deviation, 2));
    return new Account.Spread(
        name,
        scale.withUnit(scale.number(mean, decimals)),
        statistics.count() < 2 ? NONE : Scale.text(deviation, Scale.ofDifference(unit)),
        scale.withUnit(scale.number(statistics.minimum().orThrow(), decimals)),
        scale.withUnit(scale.number(statistics.maximum().orThrow(), decimals)),
        reasons);
  }

  /** By its name; where others go by the same name, with its parameters. */
  private static String label(List<Reading> readings, Reading reading) {
    long alike = readings.stream().filter(r -> r.name().equals(reading.name())).count();
    return alike > 1 ? reading.toString() : reading.name();
  }

  private static List<String> converterTest(LinearityTest.Result result) {
    Linearity.Line line = result.test().line();
    if (result.found() instanceof Outcome.NotTaken<?> missing) {
      return List.of(result.test() + ": not taken: " + missing.reason() + ".");
    }
    Linearity found = result.found().orThrow().linearity();
    Linearity truth = result.truth().orThrow();
    int missing = found.missingCodes().length;
    List<String> sentences = new ArrayList<>();
    sentences.add(
        result.test()
            + ": greatest INL "
            + steps(found.inl(line))
            + ", in truth "
            + steps(truth.inl(line))
            + "; greatest DNL "
            + steps(found.dnl(line))
            + ", in truth "
            + steps(truth.dnl(line))
            + "; "
            + (missing == 0
                ? "no missing code"
                : missing + (missing == 1 ? " missing code" : " missing codes"))
            + ", in truth "
            + truth.missingCodes().length
            + ".");
    sentences.addAll(result.caveats());
    return sentences;
  }

  /** The value of greatest modulus, with its sign. */
  private static String steps(double[] values) {
    double greatest = 0;
    for (double value : values) {
      greatest = Math.abs(value) > Math.abs(greatest) ? value : greatest;
    }
    return String.format(Locale.ROOT, "%+.3f steps", greatest).replace("-0.000", "0.000");
  }

  private static List<String> chances(ScenarioResult result) {
    List<String> sentences = new ArrayList<>();
    for (RareEvent event : result.scenario().rareEvents()) {
      String what =
          "What happens at random "
              + number(event.eventsPerSecond())
              + " times a second, looked for during "
              + seconds(event.observedSeconds())
              + ", ";
      Measured chance = event.chance(result.liveTime());
      sentences.add(
          result
              .liveTime()
              .map(
                  live ->
                      what
                          + "is seen at least once with a chance of "
                          + Scale.text(100 * chance.orThrow(), "%")
                          + ": "
                          + Scale.text(100 * live.share(), "%")
                          + " of the time is recorded, "
                          + Scale.text(live.spanSeconds(), "s")
                          + " of every "
                          + Scale.text(live.spanSeconds() + live.deadSeconds(), "s")
                          + ".")
              .orElseGet(() -> what + "has no figure: " + text(chance, "") + "."));
    }
    return sentences;
  }

  private static String number(double value) {
    return Scale.text(value, "").replaceFirst("(\\.\\d*?)0+$", "$1").replaceFirst("\\.$", "");
  }

  /** Nobody says kiloseconds. */
  private static String seconds(double value) {
    return value < 1000 ? Scale.text(value, "s") : Scale.text(value, "") + " s";
  }

  /** What a further channel has of its own. */
  private static List<Account.Fact> facts(Channel channel, Signal signal) {
    Setup setup = channel.setup();
    List<Account.Fact> own = new ArrayList<>();
    own.add(new Account.Fact("signal at the tip", signal.toString()));
    input(setup.frontEnd(), own);
    List<AnalogStage> stages = setup.frontEnd().stages();
    for (AnalogStage stage : stages.subList(2, stages.size())) {
      if (!stage.isIdeal()) {
        own.add(new Account.Fact(stage.name(), stage.toString()));
      }
    }
    amplifier(setup.frontEnd(), own);
    own.add(new Account.Fact("vertical scale", setup.vertical().toString()));
    if (!setup.converterNoise().isIdeal()) {
      own.add(new Account.Fact("noise of the converter", setup.converterNoise().toString()));
    }
    own.add(new Account.Fact("converter", setup.converter().toString()));
    own.add(
        new Account.Fact(
            "skew",
            channel.skewSeconds() == 0
                ? "none"
                : "sampled "
                    + Scale.text(Math.abs(channel.skewSeconds()), "s")
                    + (channel.skewSeconds() > 0 ? " later" : " earlier")
                    + " than the first channel"));
    String name = capitalised(channel.name());
    return own.stream()
        .map(f -> new Account.Fact(name + ": " + uncapitalised(f.what()), f.words()))
        .toList();
  }

  private static String uncapitalised(String words) {
    return words.substring(0, 1).toLowerCase(Locale.ROOT) + words.substring(1);
  }

  private static Account.Outcome outcome(
      String name,
      String unit,
      Measured truth,
      Measured measured,
      Scatter scatter,
      List<StageBias> byStage,
      List<StageBias> aloneIdeal) {
    StageTables tables = StageTables.of(unit, byStage, aloneIdeal);
    if (!truth.isTaken() || !measured.isTaken()) {
      return new Account.Outcome(name, null, text(truth, unit), text(measured, unit), tables);
    }
    List<Reckoning.Part> parts = new ArrayList<>();
    String source = "";
    double most = 0;
    for (StageBias row : byStage) {
      parts.add(
          new Reckoning.Part(
              row.stage(),
              StageTables.value(row.bias()),
              row.bias().isTaken(),
              StageTables.randomPart(row)));
      double added = StageTables.value(row.scatter().addedVariance());
      if (added > most) {
        most = added;
        source = row.stage();
      }
    }
    Reckoning.Random random =
        new Reckoning.Random(
            StageTables.scatter(StageTables.value(scatter.randomPart()), measured.orThrow()),
            StageTables.value(scatter.standardError()),
            source);
    return Account.Outcome.taken(
        new Reckoning(name, unit, truth.orThrow(), measured.orThrow(), parts, random), tables);
  }

  private static String text(Measured measured, String unit) {
    return measured instanceof Measured.NotTaken missing
        ? "not taken: " + missing.reason()
        : Scale.text(measured.orThrow(), unit);
  }

  private static List<Account.Fact> facts(Signal signal, Setup setup, long seed, Record record) {
    List<Account.Fact> facts = new ArrayList<>();
    facts.add(new Account.Fact("Signal at the tip", signal.toString()));
    input(setup.frontEnd(), facts);
    // Loading and coupling, the first two, have just been told element by element.
    List<AnalogStage> stages = setup.frontEnd().stages();
    for (AnalogStage stage : stages.subList(2, stages.size())) {
      facts.add(
          new Account.Fact(
              capitalised(stage.name()), stage.isIdeal() ? "ideal" : stage.toString()));
    }
    amplifier(setup.frontEnd(), facts);
    facts.add(new Account.Fact("Vertical scale", setup.vertical().toString()));
    facts.add(new Account.Fact("Sampling", Scale.text(setup.rateHz(), "samples/s")));
    if (!setup.sampler().isIdeal()) {
      facts.add(new Account.Fact("Sampler", setup.sampler().toString()));
    }
    if (!setup.converterNoise().isIdeal()) {
      facts.add(new Account.Fact("Noise of the converter", setup.converterNoise().toString()));
    }
    facts.add(new Account.Fact("Converter", setup.converter().toString()));
    facts.add(new Account.Fact("Stored points", setup.decimation().toString()));
    setup.trigger().ifPresent(trigger -> facts.add(new Account.Fact("Trigger", words(trigger))));
    facts.add(new Account.Fact("Acquisitions", setup.ensemble().toString()));
    if (!setup.isRepeatable()) {
      facts.add(new Account.Fact("Seed of all that is random", Long.toString(seed)));
    }
    facts.add(
        new Account.Fact(
            "Record", record.size() == 0 ? "nothing was recorded" : record.toString()));
    return facts;
  }

  private static void input(FrontEnd frontEnd, List<Account.Fact> facts) {
    facts.add(new Account.Fact("Source", frontEnd.source().toString()));
    if (!frontEnd.sourceNoise().isNone()) {
      facts.add(new Account.Fact("Noise of the source", frontEnd.sourceNoise().toString()));
    }
    if (!frontEnd.sourceJitter().isNone()) {
      facts.add(new Account.Fact("Jitter of the source", frontEnd.sourceJitter().toString()));
    }
    facts.add(new Account.Fact("Probe", frontEnd.probe().toString()));
    rating("Rating of the probe", frontEnd.probe().rating(), facts);
    facts.add(new Account.Fact("Termination", frontEnd.termination().toString()));
    rating("Rating of the input", frontEnd.rating(), facts);
    facts.add(new Account.Fact("Coupling", frontEnd.coupling().toString()));
  }

  private static void amplifier(FrontEnd frontEnd, List<Account.Fact> facts) {
    if (!frontEnd.saturation().isIdeal()) {
      facts.add(new Account.Fact("Saturation", frontEnd.saturation().toString()));
    }
    if (!frontEnd.noise().isNone()) {
      facts.add(new Account.Fact("Noise of the amplifier", frontEnd.noise().toString()));
    }
  }

  private static void rating(String what, InputRating rating, List<Account.Fact> facts) {
    if (rating.isStated()) {
      facts.add(new Account.Fact(what, rating.toString()));
    }
  }

  /** Without the word that the list has already said. */
  private static String words(Trigger trigger) {
    return trigger.toString().replaceFirst("^trigger: ", "");
  }

  private static String capitalised(String words) {
    return words.substring(0, 1).toUpperCase(Locale.ROOT) + words.substring(1);
  }

  private static List<String> flags(Setup setup, Record record) {
    List<String> sentences = new ArrayList<>();
    record
        .notes()
        .forEach(
            (flag, reason) -> {
              Comparison.Range range = range(setup);
              sentences.add(
                  switch (flag) {
                    case CLIPPED_LOW ->
                        clipped(record.clippedLow(), "below", "begins at", range.low());
                    case CLIPPED_HIGH ->
                        clipped(record.clippedHigh(), "above", "ends at", range.high());
                    default -> capitalised(flag.toString()) + ": " + reason + ".";
                  });
            });
    return sentences;
  }

  private static String clipped(long count, String where, String end, double volts) {
    return "Clipped: "
        + count
        + (count == 1 ? " raw sample" : " raw samples")
        + " lay "
        + where
        + " the range of the converter, which "
        + end
        + " "
        + Scale.text(volts, "V")
        + "; readings that depend on them are not to be trusted.";
  }

  /** From the lowest code to the highest. */
  private static Comparison.Range range(Setup setup) {
    double half = setup.vertical().fullScaleVolts() / 2;
    double middle = setup.vertical().offsetVolts();
    return new Comparison.Range(middle - half, middle + half - stepVolts(setup));
  }

  private static double stepVolts(Setup setup) {
    int bits = setup.converter().bits();
    return bits == 0 ? 0 : Math.scalb(setup.vertical().fullScaleVolts(), -bits);
  }

  private static Comparison comparison(Signal signal, Setup setup, Record record) {
    double[] lower = record.lower();
    return new Comparison(
        record.startSeconds(),
        record.rateHz(),
        record.size() == 0 ? 0 : record.timeSeconds(0) - record.startSeconds(),
        lower,
        record.isEnvelope() ? record.upper() : lower,
        stepVolts(setup),
        record.clippedLow() + record.clippedHigh() == 0 ? null : range(setup),
        signal,
        removed(signal, setup),
        setup.frontEnd().probe() instanceof CurrentProbe ? "A" : "V");
  }

  /**
   * What settled AC coupling takes off a signal that repeats itself: its mean over one period,
   * exactly.
   */
  private static double removed(Signal signal, Setup setup) {
    OptionalDouble period = signal.periodSeconds();
    if (setup.frontEnd().coupling().isDc() || period.isEmpty()) {
      return 0;
    }
    double from = setup.startSeconds();
    return signal.mean(from, from + period.getAsDouble());
  }
}
