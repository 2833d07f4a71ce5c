package org.asmeasured.advice;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.CancellationException;
import java.util.stream.IntStream;
import org.asmeasured.accuracy.ErrorTrials;
import org.asmeasured.accuracy.Measurement;
import org.asmeasured.accuracy.Tolerances;
import org.asmeasured.internal.Quantity;
import org.asmeasured.internal.Require;
import org.asmeasured.measure.Measured;
import org.asmeasured.measure.Outcome;
import org.asmeasured.measure.Reading;

/**
 * Which settings of a bench read a quantity best: the least expanded uncertainty plus modulus of
 * bias, U + |b|. Where several are within the margin of each other, the shortest acquisition is
 * advised, and of those the least averaging. Immutable.
 *
 * <p>There is one measurand for all: the reading of the signal over the span of the asked setup's
 * record. A setting that makes another span is judged by what it reads of that. All candidates meet
 * the same draws and the same seeds of noise ({@link ErrorTrials}).
 *
 * <p>Settings by which less than a tenth of a change of the quantity shows in the reading, as its
 * {@link org.asmeasured.accuracy.Sensitivity} says, are not advised, however little they err by. It
 * takes captures beside the trials, so only what would be advised is asked for it, and the next
 * best after that; others in the ranking are not.
 *
 * <p>What no trial shows does not count: of a still signal whose offset nothing moves, the reading
 * lies where it happens to lie between two codes, and a coarse step may look exact. A tolerance of
 * the offset, or noise, tells the truth about it.
 */
public final class Advice {
  private static final int ROUNDS = 10;

  /** Combinations of two settings that are looked at together, however few may be all in all. */
  private static final int LEAST_PAIR = 100;

  /** Trials of what is advised and of what was asked, so that their figures are good to 2 %. */
  private static final int REPORTED = 1024;

  private final Reading reading;
  private final Measured truth;
  private final Outcome<Candidate> asked;
  private final List<Candidate> ranking;
  private final List<Dropped> dropped;
  private final double margin;
  private final boolean budgetSpent;
  private final boolean exhaustive;
  private final long combinations;
  private final int looked;
  private final Map<String, Integer> skipped;
  private final long trials;

  /**
   * A combination that gives no reading, or one that does not follow the quantity.
   *
   * @param settings which settings are other than asked
   * @param reason why there is no reading
   */
  public record Dropped(List<String> settings, String reason) {

    /**
     * Checks the values.
     *
     * @param settings which settings are other than asked
     * @param reason why there is no reading
     * @throws NullPointerException if one is missing
     */
    public Dropped {
      settings = List.copyOf(Require.present("settings", settings));
      Require.present("reason", reason);
    }
  }

  /** One search at work. */
  private static final class Search {
    final AdviceMethod method;
    final Choices choices;
    final Combinations combinations;
    final Race race;
    boolean exhaustive;

    /** Group by group: which alternative of each factor is the best so far. */
    private int[] current;

    Search(Choices choices, AdviceMethod method, Combinations combinations) {
      this.method = method;
      this.choices = choices;
      this.combinations = combinations;
      exhaustive =
          choices.combinations() <= method.mostCombinations()
              && choices.combinations() * method.firstTrials() <= method.budget();
      race =
          new Race(
              method,
              exhaustive
                  ? choices.combinations()
                  : Math.min(choices.combinations(), method.budget() / method.firstTrials()));
    }

    int[] all(int factor) {
      return IntStream.range(0, choices.factors().get(factor).alternatives().size()).toArray();
    }

    Runner run() {
      int n = choices.factors().size();
      if (exhaustive) {
        return race.winner(
            combinations.of(IntStream.range(0, n).mapToObj(this::all).toArray(int[][]::new)));
      }
      current = IntStream.range(0, n).map(combinations::startOf).toArray();
      Runner winner = null;
      List<List<Integer>> groups = groups();
      List<List<Integer>> pairs = pairs(groups);
      for (int round = 0; round < ROUNDS; round++) {
        int[] before = current;
        winner = better(groups, winner);
        // what no group moves may move by two settings at once, as a scale with its offset
        if (Arrays.equals(before, current)) {
          winner = better(pairs, winner);
        }
        if (Arrays.equals(before, current)) {
          break;
        }
      }
      return winner;
    }

    /** Goes through groups of settings, each with the others as they stand. */
    private Runner better(List<List<Integer>> groups, Runner sofar) {
      Runner winner = sofar;
      for (List<Integer> group : groups) {
        int[] fixed = current;
        int[][] selected =
            IntStream.range(0, fixed.length)
                .mapToObj(f -> group.contains(f) ? all(f) : new int[] {fixed[f]})
                .toArray(int[][]::new);
        List<Runner> some = combinations.of(selected);
        if (!race.affords(some, method.firstTrials())) {
          return winner;
        }
        Runner better = race.winner(some);
        if (better != null) {
          winner = better;
          current = better.choice;
        }
      }
      return winner;
    }

    /** Of two settings that no group has together, if so many combinations may be looked at. */
    private List<List<Integer>> pairs(List<List<Integer>> groups) {
      List<List<Integer>> pairs = new ArrayList<>();
      List<Integer> order = groups.stream().flatMap(List::stream).toList();
      for (int i = 0; i < order.size(); i++) {
        for (int j = i + 1; j < order.size(); j++) {
          List<Integer> pair = List.of(order.get(i), order.get(j));
          if (groups.stream().noneMatch(g -> g.containsAll(pair))
              && (long) all(pair.get(0)).length * all(pair.get(1)).length
                  <= Math.max(LEAST_PAIR, method.mostCombinations())) {
            pairs.add(pair);
          }
        }
      }
      return pairs;
    }

    /**
     * Settings that are chosen together: those that decide the range first, each group as large as
     * a quarter of the combinations that may be looked at allows.
     */
    private List<List<Integer>> groups() {
      List<Choices.Kind> order =
          List.of(
              Choices.Kind.SCALE,
              Choices.Kind.OFFSET,
              Choices.Kind.COUPLING,
              Choices.Kind.PROBE,
              Choices.Kind.LIMIT,
              Choices.Kind.DECIMATION,
              Choices.Kind.AVERAGING,
              Choices.Kind.RECORD,
              Choices.Kind.TRIGGER,
              Choices.Kind.OWN);
      List<List<Integer>> groups = new ArrayList<>();
      List<Integer> group = new ArrayList<>();
      long product = 1;
      for (Choices.Kind kind : order) {
        for (int f = 0; f < choices.factors().size(); f++) {
          if (choices.factors().get(f).kind() != kind) {
            continue;
          }
          int n = all(f).length;
          if (!group.isEmpty() && product * n > method.mostCombinations() / 4) {
            groups.add(group);
            group = new ArrayList<>();
            product = 1;
          }
          group.add(f);
          product *= n;
        }
      }
      groups.add(group);
      return groups;
    }
  }

  private Advice(Reading reading, Measured truth, Search search, Runner winner, Runner asAsked) {
    this.reading = reading;
    this.truth = truth;
    Combinations combinations = search.combinations;
    double k = search.method.coverageFactor();
    asked =
        asAsked.out().isPresent()
            ? new Outcome.NotTaken<>(asAsked.out().get())
            : new Outcome.Taken<>(new Candidate(List.of(), reading, truth.orThrow(), k, asAsked));
    List<Candidate> taken = new ArrayList<>();
    List<Dropped> without = new ArrayList<>();
    for (Runner r : combinations.looked()) {
      if (r.out().isPresent()) {
        without.add(new Dropped(combinations.words(r), r.out().get()));
      } else if (r != winner && r.done() > 0) {
        taken.add(new Candidate(combinations.words(r), reading, truth.orThrow(), k, r));
      }
    }
    taken.sort(Comparator.comparingDouble(Candidate::score));
    if (winner != null) {
      taken.add(0, new Candidate(combinations.words(winner), reading, truth.orThrow(), k, winner));
    }
    ranking = List.copyOf(taken);
    dropped = List.copyOf(without);
    margin = winner == null ? 0 : search.race.margin(winner, combinations.looked());
    budgetSpent = search.race.budgetSpent();
    exhaustive = search.exhaustive;
    this.combinations = search.choices.combinations();
    looked = combinations.looked().size();
    skipped = combinations.reasons();
    trials = search.race.trialsDone();
  }

  /**
   * Looks for the settings that read a quantity best.
   *
   * @param reading what is read; used by several threads at once
   * @param asked the signal, and a setup: its record's span is that of the measurand, and what
   *     cannot be chosen stays as it is there
   * @param tolerances what is known of parameters; one that only some setups have, such as a
   *     limit's frequency, concerns those alone, and where a choice changes the figure must be
   *     stated as {@link org.asmeasured.accuracy.Parameters#relative}
   * @param choices what the bench offers
   * @param method how long is searched, and from which seed
   * @return the advice; or the reason, if the signal itself has no such reading
   * @throws IllegalArgumentException if a tolerance has no standard deviation, or reaches where the
   *     asked setup cannot be, as it is or with a setting that is offered, naming the parameter and
   *     its distribution
   * @throws CancellationException if the method's progress says so, or the thread is interrupted,
   *     which stays marked
   * @throws NullPointerException if an argument is missing
   */
  public static Outcome<Advice> of(
      Reading reading,
      Measurement asked,
      Tolerances tolerances,
      Choices choices,
      AdviceMethod method) {
    Require.present("reading", reading);
    Require.present("asked", asked);
    Require.present("tolerances", tolerances);
    Require.present("choices", choices);
    Require.present("method", method);
    choices.requirePossible(asked, tolerances);
    ErrorTrials trials = ErrorTrials.of(reading, asked, tolerances, method.seed());
    if (trials.truth() instanceof Measured.NotTaken missing) {
      return new Outcome.NotTaken<>(missing.reason());
    }
    Combinations combinations = new Combinations(asked, choices, trials);
    Search search = new Search(choices, method, combinations);
    Runner winner = search.run();
    // more trials may find one in which the best has no reading, and the best may read little but
    // its own noise: then it is another
    while (winner != null
        && (!winner.follows(method.threads())
            || search.race.report(winner, reported(method, winner.done())).isEmpty())) {
      winner = search.run();
    }
    Runner asAsked = combinations.asAsked();
    search.race.report(asAsked, reported(method, winner == null ? 0 : winner.done()));
    return new Outcome.Taken<>(new Advice(reading, trials.truth(), search, winner, asAsked));
  }

  private static int reported(AdviceMethod method, int done) {
    return Math.max(Math.min(REPORTED, method.mostTrials()), done);
  }

  /**
   * What is read.
   *
   * @return the reading
   */
  public Reading reading() {
    return reading;
  }

  /**
   * The measurand.
   *
   * @return in the reading's unit
   */
  public double truth() {
    return truth.orThrow();
  }

  /**
   * What the setup as asked gives.
   *
   * @return its figures, or why it gives no reading
   */
  public Outcome<Candidate> asked() {
    return asked;
  }

  /**
   * What is advised.
   *
   * @return the best; empty if no combination gives a reading
   */
  public Optional<Candidate> best() {
    return ranking.stream().findFirst();
  }

  /**
   * Every combination that gives a reading: what is advised, then the others by their scores. Those
   * that were soon seen to be worse have figures of few trials.
   *
   * @return unmodifiable
   */
  public List<Candidate> ranking() {
    return ranking;
  }

  /**
   * The combinations that were looked at and give no reading, or one that does not follow the
   * quantity, each with its reason.
   *
   * @return unmodifiable
   */
  public List<Dropped> dropped() {
    return dropped;
  }

  /**
   * By how much the score of any other combination that was looked at may be less than that of what
   * is advised, with the confidence of the method (t quantiles for all comparisons together, to the
   * first order in the scatter of the trials). It holds what was given up for a shorter
   * acquisition.
   *
   * @return 0 or more, in the reading's unit
   */
  public double margin() {
    return margin;
  }

  /**
   * Whether every combination was looked at. If not, settings were chosen group by group, range
   * first, and then two by two, until nothing changed; a better combination that needs three
   * changes at once may have been missed.
   *
   * @return true if so
   */
  public boolean isExhaustive() {
    return exhaustive;
  }

  /**
   * Whether the search ended because the next stage would have cost more trials than allowed.
   *
   * @return true if so; {@link #margin} says what that leaves open
   */
  public boolean isBudgetSpent() {
    return budgetSpent;
  }

  /**
   * How many combinations there are.
   *
   * @return 1 or more
   */
  public long combinations() {
    return combinations;
  }

  /**
   * How many combinations were tried.
   *
   * @return 0 or more
   */
  public int lookedAt() {
    return looked;
  }

  /**
   * How many combinations cannot be had, by the reason.
   *
   * @return unmodifiable
   */
  public Map<String, Integer> skipped() {
    return Collections.unmodifiableMap(skipped);
  }

  /**
   * How many trials the search took.
   *
   * @return 1 or more
   */
  public long trials() {
    return trials;
  }

  @Override
  public String toString() {
    StringBuilder words = new StringBuilder(reading.name()).append(": ");
    words.append(best().map(Candidate::toString).orElse("no combination gives a reading"));
    if (best().isPresent()) {
      words.append("; true value ").append(Quantity.of(truth(), reading.unit()));
      words.append("; of ").append(looked).append(looked == 1 ? " combination" : " combinations");
      words.append(exhaustive ? "" : " looked at out of " + combinations);
      words.append(" none is better by more than ").append(Quantity.of(margin, reading.unit()));
    }
    return words.toString();
  }
}
