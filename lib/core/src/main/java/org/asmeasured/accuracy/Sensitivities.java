package org.asmeasured.accuracy;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.concurrent.CancellationException;
import org.asmeasured.accuracy.Sensitivity.Move;
import org.asmeasured.capture.Setup;
import org.asmeasured.internal.CounterRandom;
import org.asmeasured.measure.Measured;
import org.asmeasured.measure.Measured.NotTaken;
import org.asmeasured.measure.Measured.Value;
import org.asmeasured.measure.Outcome;
import org.asmeasured.measure.Reading;
import org.asmeasured.measure.ReadingGroup;

/** Takes the {@link Sensitivity} of readings, which share the captures of each move. */
final class Sensitivities {
  private static final long CAPTURES = 0x6d6f766564L;
  private static final double HALF = 0.5;
  private static final double ROUNDING = 1e-9;
  private static final double LEAST_SHARE = 0.01;

  private final List<Reading> readings;
  private final List<Measured> truths;
  private final Setup setup;
  private final AssessmentMethod method;
  private final int pairs;
  private final MovedSignal signal;
  private final Map<Integer, Outcome<Sensitivity>> found = new TreeMap<>();

  private Sensitivities(
      List<Reading> readings,
      List<Measured> truths,
      Measurement asked,
      Setup setup,
      AssessmentMethod method) {
    this.readings = readings;
    this.truths = truths;
    this.setup = setup;
    this.method = method;
    int most = setup.isRepeatable() ? 0 : method.captures();
    pairs = Math.max(MovedSignal.SIZES, most);
    signal = new MovedSignal(asked, setup, seed(0));
  }

  private long seed(int pair) {
    return CounterRandom.key(CounterRandom.key(method.seed(), CAPTURES), pair);
  }

  /**
   * Of each reading.
   *
   * @param truths of the signal as it stands
   * @param asked the signal at the estimates of its parameters, and the setup over the span of
   *     whose record the truth is taken
   * @param setup how it is captured, at the estimates
   * @param method how many pairs of captures, from which seed, on how many threads
   * @throws CancellationException if the method's progress says so
   */
  static List<Outcome<Sensitivity>> of(
      List<Reading> readings,
      List<Measured> truths,
      Measurement asked,
      Setup setup,
      AssessmentMethod method) {
    List<Integer> inVolts = new ArrayList<>();
    List<Integer> others = new ArrayList<>();
    for (int r = 0; r < readings.size(); r++) {
      if (truths.get(r).isTaken()) {
        (readings.get(r).unit().equals("V") ? inVolts : others).add(r);
      }
    }
    Map<Integer, Outcome<Sensitivity>> found = Map.of();
    String none = "no move of the signal moves the true value";
    if (!inVolts.isEmpty() || !others.isEmpty()) {
      try {
        Sensitivities all = new Sensitivities(readings, truths, asked, setup, method);
        all.ofVolts(inVolts);
        all.ofOthers(others);
        found = all.found;
      } catch (IllegalArgumentException refused) {
        // a signal of too many pieces has no mean to be moved about
        none = refused.getMessage();
      }
    }
    List<Outcome<Sensitivity>> list = new ArrayList<>();
    for (int r = 0; r < readings.size(); r++) {
      String reason = truths.get(r) instanceof NotTaken missing ? missing.reason() : none;
      list.add(found.getOrDefault(r, new Outcome.NotTaken<>(reason)));
    }
    return list;
  }

  private void ofVolts(List<Integer> which) {
    Map<Integer, Double> bySpread = reach(Move.SPREAD, which);
    Map<Integer, Double> byShift = reach(Move.SHIFT, which);
    take(Move.SPREAD, which.stream().filter(r -> counts(r, bySpread, byShift)).toList());
    take(Move.SHIFT, which.stream().filter(r -> counts(r, byShift, bySpread)).toList());
  }

  private static boolean counts(int r, Map<Integer, Double> its, Map<Integer, Double> other) {
    double reach = its.getOrDefault(r, 0.0);
    return reach >= HALF || reach > 0 && reach >= other.getOrDefault(r, 0.0);
  }

  private void ofOthers(List<Integer> which) {
    List<Integer> left = which;
    for (Move move : List.of(Move.STRETCH, Move.SPREAD, Move.SHIFT)) {
      Map<Integer, Double> reach = reach(move, left);
      take(move, left.stream().filter(reach::containsKey).toList());
      left = left.stream().filter(r -> !reach.containsKey(r)).toList();
    }
  }

  /**
   * By how much a move changes true values, for each unit of the move: those that it moves at all.
   */
  private Map<Integer, Double> reach(Move move, List<Integer> which) {
    Map<Integer, Double> reach = new TreeMap<>();
    double whole = signal.whole(move);
    if (which.isEmpty() || !(whole > 0)) {
      return reach;
    }
    MovedCaptures captures = captures(move, which);
    int largest = MovedSignal.SIZES - 1;
    List<Measured> up = captures.truths(largest, 1);
    List<Measured> down = captures.truths(largest, -1);
    for (int i = 0; i < which.size(); i++) {
      double stands = truths.get(which.get(i)).orThrow();
      double change = or(up.get(i), stands) - or(down.get(i), stands);
      int ways = (up.get(i).isTaken() ? 1 : 0) + (down.get(i).isTaken() ? 1 : 0);
      double share = Math.max(1, ways) * MovedSignal.share(largest);
      double perUnit = Math.abs(change) / (share * whole);
      boolean asVolts = move != Move.STRETCH && perUnit >= HALF;
      boolean asShare = Math.abs(change) >= LEAST_SHARE * share * Math.abs(stands);
      if (isMoreThanRounding(change, which.get(i), share * whole) && (asVolts || asShare)) {
        reach.put(which.get(i), perUnit);
      }
    }
    return reach;
  }

  /** An overshoot that there is not has the size of its rounding, and any share of that. */
  private boolean isMoreThanRounding(double change, int r, double size) {
    double scale =
        switch (readings.get(r).unit()) {
          case "V" -> size;
          case "%" -> 100;
          default -> Math.abs(truths.get(r).orThrow());
        };
    return Math.abs(change) > ROUNDING * scale;
  }

  private static double or(Measured truth, double stands) {
    return truth instanceof Value value ? value.value() : stands;
  }

  private void take(Move move, List<Integer> which) {
    if (which.isEmpty()) {
      return;
    }
    // the trials are done: who listens has heard of all of them
    long trials = method.trials().mostTrials();
    if (!method.progress().goOn(trials, trials)) {
      throw new CancellationException("assessment cancelled: as asked");
    }
    List<Outcome<Sensitivity>> taken = captures(move, which).sensitivities(pairs, this::seed);
    for (int i = 0; i < which.size(); i++) {
      found.merge(which.get(i), taken.get(i), Sensitivities::worse);
    }
  }

  /** A move that cannot be made leaves open what the other one does not decide. */
  private static Outcome<Sensitivity> worse(Outcome<Sensitivity> a, Outcome<Sensitivity> b) {
    if (isStill(a) || isStill(b)) {
      return isStill(a) ? a : b;
    }
    if (!a.isTaken() || !b.isTaken()) {
      return a.isTaken() ? b : a;
    }
    return a.orThrow().value() <= b.orThrow().value() ? a : b;
  }

  private static boolean isStill(Outcome<Sensitivity> of) {
    return of instanceof Outcome.Taken<Sensitivity> taken && !taken.result().follows();
  }

  private MovedCaptures captures(Move move, List<Integer> which) {
    ReadingGroup group = ReadingGroup.of(which.stream().map(readings::get).toList());
    return new MovedCaptures(group, signal, move, setup, method.threads());
  }
}
