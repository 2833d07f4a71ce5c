package org.asmeasured.advice;

import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.TreeMap;
import org.asmeasured.accuracy.ErrorTrials;
import org.asmeasured.accuracy.Measurement;
import org.asmeasured.accuracy.Sensitivity;
import org.asmeasured.measure.Measured;
import org.asmeasured.measure.Outcome;
import org.asmeasured.uncertainty.TrialFigures;

/** One combination in the search, with its trials so far. Parts of a stage are for many threads. */
final class Runner {
  private static final int PAIRS = 16;
  private static final double LEAST_SENSITIVITY = 0.1;

  final int[] choice;
  final Measurement measurement;
  final double seconds;
  private final ErrorTrials.Of trials;
  private final boolean repeatable;
  private final ErrorTrials all;

  /** NaN where a trial has no reading, with the reason beside it. */
  private double[] errors = {};

  private String[] reasons = {};
  private int done;
  private String out;
  private final Map<Integer, TrialFigures> figures = new TreeMap<>();

  /**
   * A combination.
   *
   * @throws IllegalArgumentException if tolerances or trigger refuse it
   */
  Runner(int[] choice, Measurement measurement, ErrorTrials all) {
    this.choice = choice.clone();
    this.measurement = measurement;
    this.all = all;
    trials = all.of(measurement);
    repeatable = all.isRepeatable(measurement);
    seconds = RecordSpan.secondsToAcquire(measurement.signal(), measurement.setup());
  }

  /** How many trials are done. */
  int done() {
    return done;
  }

  /** How many captures it takes to have so many trials more. */
  int missing(int count) {
    return out != null ? 0 : repeatable ? (done == 0 ? 1 : 0) : Math.max(0, count - done);
  }

  /** Makes room, before any thread comes. */
  void reserve(int count) {
    if (count > errors.length) {
      errors = Arrays.copyOf(errors, count);
      reasons = Arrays.copyOf(reasons, count);
    }
  }

  /** Trials from one number up to another. */
  void run(int from, int to) {
    for (int t = from; t < to; t++) {
      errors[t] = Double.NaN;
      try {
        Measured error = trials.error(t);
        if (error instanceof Measured.Value value) {
          errors[t] = value.value();
        } else {
          reasons[t] = ((Measured.NotTaken) error).reason();
        }
      } catch (IllegalArgumentException refused) {
        reasons[t] = refused.getMessage();
      }
    }
  }

  /** So many trials are there now, in the thread that asked for them. */
  void finish(int count) {
    if (repeatable) {
      Arrays.fill(errors, errors[0]);
      Arrays.fill(reasons, reasons[0]);
    }
    int missed = 0;
    String first = null;
    for (int t = 0; t < count; t++) {
      if (Double.isNaN(errors[t])) {
        missed++;
        first = first == null ? reasons[t] : first;
      }
    }
    done = Math.max(done, count);
    if (missed > 0) {
      out =
          missed == count
              ? first
              : "no reading in " + missed + " of " + count + " trials: " + first;
    }
  }

  /** Why it is out, if it is. */
  Optional<String> out() {
    return Optional.ofNullable(out);
  }

  void dropped(String reason) {
    out = reason;
  }

  /** Whether the reading follows the quantity; if it does not, this one is out. */
  boolean follows(int threads) {
    if (trials.sensitivity(PAIRS, threads) instanceof Outcome.Taken<Sensitivity> taken
        && !(taken.result().follows() && taken.result().value() >= LEAST_SENSITIVITY)) {
      dropped(taken.result().toString());
    }
    return out == null;
  }

  TrialFigures figures(int count) {
    return figures.computeIfAbsent(count, n -> all.draws().figures(Arrays.copyOf(errors, n)));
  }

  double score(int count, double k) {
    TrialFigures f = figures(count);
    return k * f.standardUncertainty() + Math.abs(f.mean());
  }

  /** Of the score itself, or if another is given of the difference; in first order. */
  double scoreError(int count, double k, Runner other) {
    double squares = 0;
    for (int t = 0; t < count; t++) {
      double d = influence(count, k, t) - (other == null ? 0 : other.influence(count, k, t));
      squares += d * d;
    }
    return Math.sqrt(squares / (count - 1.0) / count);
  }

  private double influence(int count, double k, int trial) {
    TrialFigures f = figures(count);
    return k * f.influenceOnUncertainty(trial) + Math.signum(f.mean()) * f.influenceOnMean(trial);
  }

  OptionalDouble acquisitionSeconds() {
    return Double.isNaN(seconds) ? OptionalDouble.empty() : OptionalDouble.of(seconds);
  }

  /** Cheaper first: the shorter, then the one of fewer acquisitions; what never comes is last. */
  static int byCost(Runner a, Runner b) {
    int bySeconds = Double.compare(a.seconds, b.seconds);
    return bySeconds != 0
        ? bySeconds
        : Integer.compare(
            a.measurement.setup().ensemble().count(), b.measurement.setup().ensemble().count());
  }

  static long missing(List<Runner> runners, int count) {
    return runners.stream().mapToLong(r -> r.missing(count)).sum();
  }
}
