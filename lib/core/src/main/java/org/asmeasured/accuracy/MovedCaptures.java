package org.asmeasured.accuracy;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Set;
import java.util.function.Function;
import java.util.function.IntToLongFunction;
import org.asmeasured.accuracy.Sensitivity.Move;
import org.asmeasured.capture.Flag;
import org.asmeasured.capture.Record;
import org.asmeasured.capture.Setup;
import org.asmeasured.internal.CompensatedSum;
import org.asmeasured.internal.Parallel;
import org.asmeasured.measure.Measured;
import org.asmeasured.measure.Measured.NotTaken;
import org.asmeasured.measure.Outcome;
import org.asmeasured.measure.ReadingGroup;
import org.asmeasured.signal.Signal;

/**
 * Pairs of captures of a signal moved up and down, each pair with one seed, and what readings
 * change by in them.
 */
final class MovedCaptures {
  private static final int FEWEST = 2;

  private final ReadingGroup group;
  private final MovedSignal signal;
  private final Move move;
  private final Setup setup;
  private final int threads;

  MovedCaptures(ReadingGroup group, MovedSignal signal, Move move, Setup setup, int threads) {
    this.group = group;
    this.signal = signal;
    this.move = move;
    this.setup = setup;
    this.threads = threads;
  }

  /** Readings of the truth or of a record, with the flags that spoil them. */
  private record Seen(List<Measured> readings, Set<Flag> flags) {}

  /** The signal at one place of the move, made once for all captures there, and its true values. */
  private record Place(Outcome<Signal> signal, List<Measured> truths) {}

  /** What a reading and its true value change by, or why it is not known. */
  private record Change(double quantity, double reading, String missing) {}

  /** True values by reading, of the signal moved. */
  List<Measured> truths(int size, int way) {
    return place(size, way).truths;
  }

  private Place place(int size, int way) {
    Outcome<Signal> moved = moved(size, way);
    Seen seen =
        seen(
            moved,
            there -> {
              double from = signal.startSeconds(there);
              return new Seen(group.of(there, from, from + signal.spanSeconds()), Set.of());
            });
    return new Place(moved, seen.readings);
  }

  private Outcome<Signal> moved(int size, int way) {
    try {
      return new Outcome.Taken<>(way == 0 ? signal.signal() : signal.moved(move, size, way));
    } catch (IllegalArgumentException refused) {
      return new Outcome.NotTaken<>(refused.getMessage());
    }
  }

  private Seen capture(Place place, long seed) {
    return seen(
        place.signal,
        there -> {
          Record record = setup.capture(there, seed);
          return new Seen(group.of(record), record.flags());
        });
  }

  private Seen seen(Outcome<Signal> moved, Function<Signal, Seen> work) {
    try {
      return moved instanceof Outcome.Taken<Signal> taken
          ? work.apply(taken.result())
          : nothing(((Outcome.NotTaken<Signal>) moved).reason());
    } catch (IllegalArgumentException refused) {
      return nothing(refused.getMessage());
    }
  }

  private Seen nothing(String reason) {
    return new Seen(Collections.nCopies(group.readings().size(), new NotTaken(reason)), Set.of());
  }

  /**
   * Of each reading of the group.
   *
   * @param pairs how many, at least as many as there are sizes
   * @param seeds of the pairs
   */
  List<Outcome<Sensitivity>> sensitivities(int pairs, IntToLongFunction seeds) {
    Place[] places = new Place[2 * MovedSignal.SIZES + 1];
    int between = places.length - 1;
    Parallel.each(
        places.length, threads, p -> places[p] = place(p / 2, p == between ? 0 : 1 - p % 2 * 2));
    Change[][] changes = new Change[pairs][];
    Parallel.each(
        pairs,
        threads,
        i -> {
          int up = 2 * (i % MovedSignal.SIZES);
          changes[i] = changes(seeds.applyAsLong(i), places[up], places[up + 1], places[between]);
        });
    List<Outcome<Sensitivity>> all = new ArrayList<>();
    for (int r = 0; r < group.readings().size(); r++) {
      List<Change> ofReading = new ArrayList<>();
      for (Change[] pair : changes) {
        ofReading.add(pair[r]);
      }
      all.add(line(ofReading, group.readings().get(r).unit()));
    }
    return all;
  }

  private Change[] changes(long seed, Place above, Place below, Place asItStands) {
    List<Measured> trueUp = above.truths;
    List<Measured> trueDown = below.truths;
    List<Measured> trueBetween = asItStands.truths;
    Seen up = capture(above, seed);
    Seen down = capture(below, seed);
    Seen between = null;
    Change[] changes = new Change[group.readings().size()];
    for (int r = 0; r < changes.length; r++) {
      boolean upThere = isThere(up, r) && trueUp.get(r).isTaken();
      boolean downThere = isThere(down, r) && trueDown.get(r).isTaken();
      if ((!upThere || !downThere || !up.flags.isEmpty() || !down.flags.isEmpty())
          && between == null) {
        between = capture(asItStands, seed);
      }
      // a flag that the record has as it stands is none of the move's making
      upThere &= between == null || between.flags.containsAll(up.flags);
      downThere &= between == null || between.flags.containsAll(down.flags);
      if (upThere && downThere) {
        changes[r] = change(trueUp, up, trueDown, down, r);
      } else if (between == null || !isThere(between, r) || !trueBetween.get(r).isTaken()) {
        changes[r] = new Change(0, 0, why(between == null ? up : between, trueBetween, r));
      } else if (upThere) {
        changes[r] = change(trueUp, up, trueBetween, between, r);
      } else if (downThere) {
        changes[r] = change(trueBetween, between, trueDown, down, r);
      } else {
        changes[r] = new Change(0, 0, why(up, trueUp, r));
      }
    }
    return changes;
  }

  private static boolean isThere(Seen seen, int r) {
    return seen.readings.get(r).isTaken();
  }

  private static Change change(
      List<Measured> trueUp, Seen up, List<Measured> trueDown, Seen down, int r) {
    return new Change(
        trueUp.get(r).orThrow() - trueDown.get(r).orThrow(),
        up.readings.get(r).orThrow() - down.readings.get(r).orThrow(),
        null);
  }

  private String why(Seen seen, List<Measured> truth, int r) {
    String reason =
        truth.get(r) instanceof NotTaken none
            ? none.reason()
            : seen.readings.get(r) instanceof NotTaken none
                ? none.reason()
                : "the record is "
                    + String.join(", ", seen.flags.stream().map(Flag::toString).toList());
    return "with the signal " + move + ": " + reason;
  }

  /** Least squares through the origin. */
  private Outcome<Sensitivity> line(List<Change> changes, String unit) {
    CompensatedSum products = new CompensatedSum();
    CompensatedSum squares = new CompensatedSum();
    String missing = null;
    int n = 0;
    for (Change c : changes) {
      if (c.missing != null) {
        missing = missing == null ? c.missing : missing;
        continue;
      }
      products.add(c.quantity * c.reading);
      squares.add(c.quantity * c.quantity);
      n++;
    }
    if (n < FEWEST || !(squares.total() > 0)) {
      return new Outcome.NotTaken<>(
          missing == null ? "no move of the signal moves the true value" : missing);
    }
    double slope = products.total() / squares.total();
    CompensatedSum rest = new CompensatedSum();
    for (Change c : changes) {
      if (c.missing == null) {
        double off = c.reading - slope * c.quantity;
        rest.add(off * off);
      }
    }
    double error = Math.sqrt(rest.total() / (n - 1) / squares.total());
    return new Outcome.Taken<>(
        new Sensitivity(move, slope, error, n, Math.sqrt(squares.total() / n), unit));
  }
}
