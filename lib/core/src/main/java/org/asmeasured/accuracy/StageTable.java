package org.asmeasured.accuracy;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.asmeasured.measure.Measured;
import org.asmeasured.measure.Measured.NotTaken;
import org.asmeasured.measure.Measured.Value;

/**
 * The rows of a table over many captures: for each, sums of the readings, and of the differences
 * from the row that it counts from.
 *
 * @param <R> what kind of reading
 */
final class StageTable<R> {
  private static final NotTaken SINGLE = new NotTaken("a single reading has no standard deviation");
  private static final NotTaken NEVER_BOTH =
      new NotTaken("there is no capture of which both readings were taken");

  private final boolean inOrder;
  private final List<String> stages = new ArrayList<>();
  private final List<Boolean> random = new ArrayList<>();
  private final List<Tally> tallies = new ArrayList<>();
  private final Map<Pair, Tally> differences = new HashMap<>();
  private R reading;
  private int captures;

  /** Two rows, one less the other. */
  private record Pair(int minuend, int subtrahend) {}

  /**
   * An empty table.
   *
   * @param inOrder whether a row counts from the one before it, and the first is the truth; else
   *     the first is the whole setup, and counts from each
   */
  StageTable(boolean inOrder) {
    this.inOrder = inOrder;
  }

  /** One more capture; all have the same rows. */
  void add(StageWalk<R> walk) {
    if (captures++ == 0) {
      reading = walk.reading;
      for (StageWalk.Row row : walk.rows) {
        stages.add(row.stage());
        random.add(row.random());
        tallies.add(new Tally());
      }
    }
    for (int r = 0; r < tallies.size(); r++) {
      tallies.get(r).add(walk.rows.get(r).value());
    }
    for (int r = 1; r < tallies.size(); r++) {
      if (inOrder) {
        addInOrder(walk, r);
      } else {
        addDifference(walk, 0, r);
      }
    }
  }

  /**
   * A row counts from the last before it that was taken of any capture. Which one that is shows
   * only as captures come; until one before it has been taken, the row is held against all.
   */
  private void addInOrder(StageWalk<R> walk, int row) {
    int before = row;
    do {
      before--;
      addDifference(walk, row, before);
    } while (before > 0 && tallies.get(before).taken() == 0);
    if (row == tallies.size() - 1 && before > 0) {
      addDifference(walk, row, 0);
    }
  }

  private void addDifference(StageWalk<R> walk, int minuend, int subtrahend) {
    Measured difference =
        difference(walk.rows.get(minuend).value(), walk.rows.get(subtrahend).value());
    if (difference.isTaken()) {
      differences.computeIfAbsent(new Pair(minuend, subtrahend), p -> new Tally()).add(difference);
    }
  }

  /** A value less another; the reason, if one is missing. */
  static Measured difference(Measured value, Measured reference) {
    if (value instanceof Value minuend && reference instanceof Value subtrahend) {
      return new Value(minuend.value() - subtrahend.value());
    }
    return value.isTaken() ? reference : value;
  }

  R reading() {
    return reading;
  }

  /** Of the truth, or of the whole setup. */
  Measured first() {
    return tallies.get(0).mean();
  }

  Measured last() {
    return tallies.get(tallies.size() - 1).mean();
  }

  /** How the last row scatters, held against the first. */
  Scatter whole() {
    int last = tallies.size() - 1;
    return scatter(last, last, 0);
  }

  Scatter ofFirst() {
    return scatter(0, 0, 0);
  }

  List<StageBias> rows() {
    List<StageBias> rows = new ArrayList<>();
    int before = 0;
    for (int r = 1; r < tallies.size(); r++) {
      int minuend = inOrder ? r : 0;
      int subtrahend = inOrder ? before : r;
      rows.add(
          new StageBias(
              stages.get(r),
              tallies.get(r).mean(),
              difference(tallies.get(minuend).mean(), tallies.get(subtrahend).mean()),
              scatter(r, minuend, subtrahend)));
      before = tallies.get(r).taken() > 0 ? r : before;
    }
    return List.copyOf(rows);
  }

  private Scatter scatter(int row, int minuend, int subtrahend) {
    Measured variance = variance(row);
    return new Scatter(
        captures,
        tallies.get(row).taken(),
        tallies.get(row).reasons(),
        variance instanceof Value value ? new Value(Math.sqrt(value.value())) : variance,
        difference(variance(minuend), variance(subtrahend)),
        standardError(minuend, subtrahend));
  }

  private Measured variance(int row) {
    Tally tally = tallies.get(row);
    if (tally.taken() == 0) {
      return tally.mean();
    }
    if (!random.get(row)) {
      return new Value(0);
    }
    return tally.taken() < 2 ? SINGLE : new Value(tally.variance());
  }

  private Measured standardError(int minuend, int subtrahend) {
    Measured bias = difference(tallies.get(minuend).mean(), tallies.get(subtrahend).mean());
    if (!bias.isTaken()) {
      return bias;
    }
    if (minuend == subtrahend || !random.get(minuend) && !random.get(subtrahend)) {
      return new Value(0);
    }
    Tally tally = differences.get(new Pair(minuend, subtrahend));
    if (tally == null) {
      return NEVER_BOTH;
    }
    return tally.taken() < 2 ? SINGLE : new Value(Math.sqrt(tally.variance() / tally.taken()));
  }
}
