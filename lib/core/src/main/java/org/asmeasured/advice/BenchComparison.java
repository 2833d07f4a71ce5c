package org.asmeasured.advice;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.concurrent.CancellationException;
import java.util.stream.Collectors;
import org.asmeasured.accuracy.Assessment;
import org.asmeasured.accuracy.AssessmentMethod;
import org.asmeasured.accuracy.Caution;
import org.asmeasured.accuracy.Measurement;
import org.asmeasured.accuracy.Tolerances;
import org.asmeasured.accuracy.Verdict;
import org.asmeasured.internal.Require;
import org.asmeasured.measure.Measured;
import org.asmeasured.measure.Outcome;
import org.asmeasured.measure.Reading;
import org.asmeasured.uncertainty.Progress;
import org.asmeasured.uncertainty.Tolerance;

/**
 * The same question to several instruments: which of them verifies this limit, at what risk?
 * Immutable.
 *
 * <p>There is one measurand for all: the reading of the signal over the span of the record that is
 * asked for. Each instrument makes of it what its rate and memory allow, as set or with the
 * settings that are best for it, and is assessed by trials of its own tolerances. An instrument
 * whose reading does not follow the quantity decides nothing, however close it reads. One whose
 * rating the signal exceeds is assessed all the same, and stands behind those that may be
 * connected.
 */
public final class BenchComparison {
  private static final double COVERAGE_FACTOR = 2;

  private final Question question;
  private final List<Row> rows;

  /**
   * What is to be known.
   *
   * @param reading what is read; used by several threads at once
   * @param asked the signal, and a setup: source, probe, coupling, scale, span, trigger, averaging
   * @param tolerance what is allowed, in the reading's unit
   * @param risk the greatest risk of a wrong decision, 1e-9 to 0.5
   */
  public record Question(Reading reading, Measurement asked, Tolerance tolerance, double risk) {

    /**
     * Checks the values.
     *
     * @param reading what is read
     * @param asked the signal, and a setup
     * @param tolerance what is allowed
     * @param risk the greatest risk of a wrong decision, 1e-9 to 0.5
     * @throws IllegalArgumentException if the risk is out of range
     * @throws NullPointerException if a value is missing
     */
    public Question {
      Require.present("reading", reading);
      Require.present("asked", asked);
      Require.present("tolerance", tolerance);
      Require.inRange("risk", risk, "", 1e-9, 0.5);
    }
  }

  /**
   * What one instrument says.
   *
   * @param instrument which
   * @param settings those that were advised, as a person would say them; empty as set
   * @param assessment of its reading, or why there is none
   * @param verdict what it decides about the tolerance, or why it cannot
   * @param smallestUpperLimit that it verifies at the risk, where the tolerance is an upper limit
   * @param greatestLowerLimit that it verifies at the risk, where the tolerance is a lower limit
   * @param smallestTolerance T of the tolerance middle +/- T that it verifies at the risk, where
   *     there are two limits; the middle is theirs
   * @param acquisitionSeconds the time to acquire, empty where it gives no reading
   * @param cautions what whoever would connect it must be warned of, with the settings advised
   *     where there are such; empty also where it cannot make the measurement at all
   */
  public record Row(
      Instrument instrument,
      List<String> settings,
      Outcome<Assessment> assessment,
      Outcome<Verdict> verdict,
      Optional<Measured> smallestUpperLimit,
      Optional<Measured> greatestLowerLimit,
      Optional<Measured> smallestTolerance,
      OptionalDouble acquisitionSeconds,
      List<Caution> cautions) {

    /**
     * Checks and copies the values.
     *
     * @param instrument which
     * @param settings those that were advised
     * @param assessment of its reading, or why there is none
     * @param verdict what it decides, or why it cannot
     * @param smallestUpperLimit that it verifies at the risk
     * @param greatestLowerLimit that it verifies at the risk
     * @param smallestTolerance T that it verifies at the risk
     * @param acquisitionSeconds the time to acquire
     * @param cautions what whoever would connect it must be warned of
     * @throws NullPointerException if a value is missing
     */
    public Row {
      Require.present("instrument", instrument);
      settings = List.copyOf(Require.present("settings", settings));
      Require.present("assessment", assessment);
      Require.present("verdict", verdict);
      Require.present("smallestUpperLimit", smallestUpperLimit);
      Require.present("greatestLowerLimit", greatestLowerLimit);
      Require.present("smallestTolerance", smallestTolerance);
      Require.present("acquisitionSeconds", acquisitionSeconds);
      cautions = List.copyOf(Require.present("cautions", cautions));
    }

    /**
     * Whether the signal is beyond the rating of its probe or input, so that it may be damaged.
     *
     * @return true if one of its cautions says so
     */
    public boolean isBeyondRating() {
      return cautions.stream().anyMatch(c -> c.subject().isBeyondRating());
    }

    /**
     * Whether it passes or fails the quantity.
     *
     * @return false if it cannot say
     */
    public boolean decides() {
      return verdict instanceof Outcome.Taken<Verdict> taken
          && taken.result().ruling() != Verdict.Ruling.UNDECIDED;
    }

    /**
     * The expanded uncertainty of the quantity once the reading is corrected, U = 2 u/S (JCGM 100,
     * 6.2.1, 6.3.3; clauses from memory), with the {@link Assessment#correctedStandardUncertainty}
     * that the verdict counts with.
     *
     * @return in the reading's unit; or the reason, if there is no reading, it has no uncertainty
     *     or does not follow the quantity
     */
    public Measured correctedExpandedUncertainty() {
      Measured u = assessment.read(Assessment::correctedStandardUncertainty);
      return u instanceof Measured.Value value
          ? new Measured.Value(COVERAGE_FACTOR * value.value())
          : u;
    }

    /** Decided within its ratings, read within its ratings, beyond a rating, not read. */
    int place() {
      if (!assessment.isTaken()) {
        return 3;
      }
      if (isBeyondRating()) {
        return 2;
      }
      return decides() ? 0 : 1;
    }

    /** U + |bias|; infinite where nothing bounds the quantity. */
    double score() {
      return correctedExpandedUncertainty() instanceof Measured.Value u
              && assessment.read(Assessment::bias) instanceof Measured.Value bias
          ? u.value() + Math.abs(bias.value())
          : Double.POSITIVE_INFINITY;
    }

    @Override
    public String toString() {
      StringBuilder words = new StringBuilder(instrument.name());
      settings.forEach(s -> words.append(", ").append(s));
      words.append(isBeyondRating() ? ": beyond its rating; " : ": ");
      if (assessment instanceof Outcome.NotTaken<Assessment> missing) {
        return words.append(missing.reason()).toString();
      }
      Assessment a = assessment.orThrow();
      String unit = a.reading().unit();
      if (a.measured() instanceof Measured.Value m) {
        words.append(
            correctedExpandedUncertainty() instanceof Measured.Value u
                ? PlusMinus.of(m.value(), ", U of the quantity ", u.value(), unit)
                : a.measured().in(unit));
        words.append(", ");
      }
      words.append(verdict);
      smallestUpperLimit
          .filter(Measured::isTaken)
          .ifPresent(l -> words.append(", verifies at most ").append(l.in(unit)));
      greatestLowerLimit
          .filter(Measured::isTaken)
          .ifPresent(l -> words.append(", verifies at least ").append(l.in(unit)));
      smallestTolerance
          .filter(Measured::isTaken)
          .ifPresent(t -> words.append(", verifies the middle +/- ").append(t.in(unit)));
      return words.toString();
    }
  }

  private BenchComparison(Question question, List<Row> rows) {
    this.question = question;
    this.rows =
        rows.stream()
            .sorted(Comparator.comparingInt(Row::place).thenComparingDouble(Row::score))
            .toList();
  }

  /**
   * Compares instruments as they are set.
   *
   * @param instruments which, at least one
   * @param question what is to be known
   * @param method how each is assessed; its progress is told of the whole comparison
   * @return the comparison
   * @throws IllegalArgumentException if there is no instrument, or a tolerance of one reaches where
   *     it cannot be, naming the instrument, the parameter and its distribution
   * @throws CancellationException if the method's progress says so, or the thread is interrupted,
   *     which stays marked
   * @throws NullPointerException if an argument is missing
   */
  public static BenchComparison asSet(
      List<Instrument> instruments, Question question, AssessmentMethod method) {
    return of(instruments, question, null, method);
  }

  /**
   * Compares instruments, each with the settings that are advised for it.
   *
   * @param instruments which, at least one
   * @param question what is to be known
   * @param search how settings are searched for; its progress is told of the whole comparison
   * @param method how each is assessed; likewise, and may be the same listener
   * @return the comparison
   * @throws IllegalArgumentException if there is no instrument, or a tolerance of one reaches where
   *     it cannot be, naming the instrument, the parameter and its distribution
   * @throws CancellationException if the progress of a method says so, or the thread is
   *     interrupted, which stays marked
   * @throws NullPointerException if an argument is missing
   */
  public static BenchComparison advised(
      List<Instrument> instruments,
      Question question,
      AdviceMethod search,
      AssessmentMethod method) {
    return of(instruments, question, Require.present("search", search), method);
  }

  private static BenchComparison of(
      List<Instrument> instruments,
      Question question,
      AdviceMethod search,
      AssessmentMethod method) {
    List<Instrument> all = List.copyOf(Require.present("instruments", instruments));
    Require.that(!all.isEmpty(), "instruments = []: must name at least one instrument");
    Require.present("question", question);
    Require.present("method", method);
    all.forEach(i -> requirePossible(i, question, search != null));
    List<Row> rows = new ArrayList<>();
    for (Instrument instrument : all) {
      Progress own = method.progress().part(rows.size(), all.size());
      if (search == null) {
        rows.add(row(instrument, question, null, method.withProgress(own)));
      } else {
        // the search is the first half of an instrument's part
        Progress searched = search.progress().part(rows.size(), all.size()).part(0, 2);
        rows.add(
            row(
                instrument,
                question,
                search.withProgress(searched),
                method.withProgress(own.part(1, 2))));
      }
    }
    return new BenchComparison(question, rows);
  }

  /** A tolerance that was misstated is no property of the instrument, and no row says it. */
  private static void requirePossible(Instrument instrument, Question question, boolean advised) {
    Measurement measurement;
    try {
      measurement = instrument.of(question.asked());
    } catch (IllegalArgumentException cannot) {
      return; // its row says why
    }
    try {
      (advised ? instrument.choices() : Choices.none())
          .requirePossible(measurement, instrument.tolerances());
    } catch (IllegalArgumentException refused) {
      throw new IllegalArgumentException(instrument.name() + ": " + refused.getMessage(), refused);
    }
  }

  private static Row row(
      Instrument instrument, Question question, AdviceMethod search, AssessmentMethod method) {
    List<Caution> cautions = List.of();
    try {
      Measurement measurement = instrument.of(question.asked());
      cautions = Caution.asFarAsKnown(measurement.signal(), measurement.setup());
      List<String> settings = List.of();
      if (search != null) {
        Outcome<Candidate> best = best(instrument, measurement, question, search);
        if (best instanceof Outcome.NotTaken<Candidate> none) {
          return without(instrument, none.reason(), cautions);
        }
        settings = best.orThrow().settings();
        measurement = measurement.withSetup(best.orThrow().setup());
        cautions = Caution.asFarAsKnown(measurement.signal(), measurement.setup());
      }
      Tolerances known = instrument.tolerances().concerning(measurement);
      Assessment a =
          Assessment.of(List.of(question.reading()), question.asked(), measurement, known, method)
              .get(0);
      if (!a.measured().isTaken()) {
        return without(instrument, ((Measured.NotTaken) a.measured()).reason(), cautions);
      }
      double seconds = RecordSpan.secondsToAcquire(measurement.signal(), measurement.setup());
      Tolerance tolerance = question.tolerance();
      return new Row(
          instrument,
          settings,
          new Outcome.Taken<>(a),
          a.decide(tolerance, question.risk()),
          tolerance.lower() == Double.NEGATIVE_INFINITY
              ? Optional.of(a.smallestUpperLimit(question.risk()))
              : Optional.empty(),
          tolerance.upper() == Double.POSITIVE_INFINITY
              ? Optional.of(a.greatestLowerLimit(question.risk()))
              : Optional.empty(),
          tolerance.isTwoSided()
              ? Optional.of(a.smallestTolerance(tolerance.middle(), question.risk()))
              : Optional.empty(),
          Double.isNaN(seconds) ? OptionalDouble.empty() : OptionalDouble.of(seconds),
          cautions);
    } catch (IllegalArgumentException refused) {
      return without(instrument, refused.getMessage(), cautions);
    }
  }

  private static Outcome<Candidate> best(
      Instrument instrument, Measurement measurement, Question question, AdviceMethod search) {
    return Advice.of(
            question.reading(), measurement, instrument.tolerances(), instrument.choices(), search)
        .then(
            advice ->
                advice
                    .best()
                    .<Outcome<Candidate>>map(Outcome.Taken::new)
                    .orElseGet(() -> new Outcome.NotTaken<>(whyNone(advice))));
  }

  private static String whyNone(Advice advice) {
    long impossible = advice.skipped().values().stream().mapToInt(Integer::intValue).sum();
    if (advice.dropped().isEmpty() && impossible < advice.combinations()) {
      return "the budget of the search does not pay for a first look at the settings";
    }
    return "no combination of settings is of use: "
        + (advice.dropped().isEmpty()
            ? String.join("; ", advice.skipped().keySet())
            : advice.dropped().get(0).reason());
  }

  private static Row without(Instrument instrument, String reason, List<Caution> cautions) {
    return new Row(
        instrument,
        List.of(),
        new Outcome.NotTaken<>(reason),
        new Outcome.NotTaken<>(reason),
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        OptionalDouble.empty(),
        cautions);
  }

  /**
   * What was asked.
   *
   * @return the question
   */
  public Question question() {
    return question;
  }

  /**
   * What the instruments say: those that decide come first, then those that do not, then those
   * whose rating is exceeded, then those that give no reading; and of equals the one of least
   * expanded uncertainty of the corrected quantity plus modulus of bias.
   *
   * @return unmodifiable
   */
  public List<Row> rows() {
    return rows;
  }

  @Override
  public String toString() {
    return rows.stream().map(Row::toString).collect(Collectors.joining("\n"));
  }
}
