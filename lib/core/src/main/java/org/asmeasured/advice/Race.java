package org.asmeasured.advice;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.CancellationException;
import org.asmeasured.internal.Parallel;
import org.asmeasured.uncertainty.Distribution;

/**
 * Candidates race: all get the same few trials, those that are surely worse than the best by more
 * than the margin end there, the others get twice as many.
 *
 * <p>"Surely" is by the standard error of the difference, which common random numbers make small,
 * times a quantile of Student's t that holds for all candidates and stages together (Bonferroni).
 */
final class Race {
  private static final int PIECE = 16;
  private static final int PIECES_AT_ONCE = 64;

  private final AdviceMethod method;
  private final int candidates;
  private final int stages;
  private final Map<Integer, Double> quantiles = new HashMap<>();
  private long done;

  /** Of them, those that make figures sharper and decide nothing. */
  private long extra;

  private boolean budgetSpent;

  /**
   * A race.
   *
   * @param candidates of how many at most something is to be said at once
   */
  Race(AdviceMethod method, long candidates) {
    this.method = method;
    this.candidates = (int) Math.min(Integer.MAX_VALUE, Math.max(1, candidates));
    int n = 1;
    for (long t = method.firstTrials(); 2 * t <= method.mostTrials(); t *= 2) {
      n++;
    }
    stages = n;
  }

  boolean budgetSpent() {
    return budgetSpent;
  }

  long trialsDone() {
    return done;
  }

  boolean affords(List<Runner> runners, int count) {
    return done - extra + Runner.missing(runners, count) <= method.budget();
  }

  /** The one to take of these, or null if all are out. */
  Runner winner(List<Runner> runners) {
    int n = method.firstTrials();
    // a record that clips mostly shows it at once
    List<Runner> alive = runTo(runTo(runners, 1), n);
    while (alive.size() > 1) {
      Runner best = best(alive, n);
      List<Runner> left = new ArrayList<>();
      boolean settled = true;
      double matters = method.margin() * best.score(n, k());
      for (Runner r : alive) {
        double sure = r == best ? 0 : sure(r, best, n);
        double worse = r.score(n, k()) - best.score(n, k());
        if (r == best || worse - sure <= matters) {
          left.add(r);
          settled &= sure <= matters;
        }
      }
      alive = left;
      if (settled || 2L * n > method.mostTrials()) {
        break;
      }
      if (!affords(alive, 2 * n)) {
        budgetSpent = true;
        break;
      }
      n *= 2;
      alive = runTo(alive, n);
    }
    return alive.isEmpty() ? null : cheapestOfTheBest(alive, n);
  }

  private Runner cheapestOfTheBest(List<Runner> alive, int n) {
    Runner best = best(alive, n);
    double matters = method.margin() * best.score(n, k());
    Runner cheapest = best;
    for (Runner r : alive) {
      double worse = r.score(n, k()) - best.score(n, k());
      boolean tied = r == best || worse <= Math.max(matters, sure(r, best, n));
      if (tied && Runner.byCost(r, cheapest) < 0) {
        cheapest = r;
      }
    }
    return cheapest;
  }

  private Runner best(List<Runner> alive, int n) {
    Runner best = alive.get(0);
    for (Runner r : alive) {
      if (r.score(n, k()) < best.score(n, k())) {
        best = r;
      }
    }
    return best;
  }

  /** By how much any other may be better than this one, with the confidence of the method. */
  double margin(Runner winner, List<Runner> others) {
    double most = 0;
    for (Runner r : others) {
      if (r != winner && r.out().isEmpty() && r.done() > 0) {
        int n = Math.min(r.done(), winner.done());
        double better = winner.score(n, k()) - r.score(n, k());
        most = Math.max(most, better + sure(r, winner, n));
      }
    }
    return most;
  }

  private double k() {
    return method.coverageFactor();
  }

  private double sure(Runner a, Runner b, int n) {
    return quantile(n) * a.scoreError(n, k(), b);
  }

  private double quantile(int n) {
    return quantiles.computeIfAbsent(
        n,
        trials ->
            Distribution.studentT(0, 1, trials - 1)
                .quantile(1 - (1 - method.confidence()) / ((double) candidates * stages)));
  }

  /** More trials of what is known to be wanted, beside the budget. */
  List<Runner> report(Runner runner, int count) {
    long before = done;
    List<Runner> alive = runTo(List.of(runner), count);
    extra += done - before;
    return alive;
  }

  private record Piece(Runner runner, int from, int to) {}

  /** Those of them that have readings in so many trials. */
  List<Runner> runTo(List<Runner> runners, int count) {
    List<Piece> pieces = new ArrayList<>();
    for (Runner r : runners) {
      r.reserve(count);
      int end = r.done() + r.missing(count);
      for (int t = r.done(); t < end; t += PIECE) {
        pieces.add(new Piece(r, t, Math.min(end, t + PIECE)));
      }
    }
    int atOnce = PIECES_AT_ONCE * method.threads();
    for (int p = 0; p < pieces.size(); p += atOnce) {
      List<Piece> some = pieces.subList(p, Math.min(pieces.size(), p + atOnce));
      Parallel.each(
          some.size(),
          method.threads(),
          i -> some.get(i).runner.run(some.get(i).from, some.get(i).to));
      for (Piece piece : some) {
        done += piece.to - piece.from;
      }
      if (!method.progress().goOn(done, Math.max(done, method.budget()))) {
        throw new CancellationException("advice cancelled: as asked");
      }
    }
    List<Runner> alive = new ArrayList<>();
    for (Runner r : runners) {
      if (r.out().isEmpty()) {
        r.finish(count);
      }
      if (r.out().isEmpty()) {
        alive.add(r);
      }
    }
    return alive;
  }
}
