package org.asmeasured.accuracy;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.function.Consumer;
import java.util.function.IntFunction;
import java.util.function.LongFunction;
import org.asmeasured.capture.Setup;
import org.asmeasured.internal.Parallel;
import org.asmeasured.internal.Require;
import org.asmeasured.measure.Statistics;

/**
 * Captures with a seed each, made by several threads and gathered in the order of their numbers, so
 * that sums of them have the same bits on any number of threads.
 *
 * @param count how many
 * @param seed of all that is random; of a single capture, its own
 * @param threads how many share the work
 */
record Captures(int count, long seed, int threads) {
  /** So many are held at a time. */
  private static final int HELD = 256;

  Captures {
    Require.inRange("captures", count, 1, Statistics.MAX_ACQUISITIONS);
    Require.inRange("threads", threads, 1, Statistics.MAX_THREADS);
  }

  /** Where nothing is random, one stands for all. */
  Captures of(Setup setup) {
    return setup.isRepeatable() ? new Captures(1, seed, 1) : this;
  }

  long seedOf(int capture) {
    return count == 1 ? seed : Statistics.seedOf(seed, capture);
  }

  /**
   * Tables over all captures.
   *
   * @param rows what one capture reads, from its seed: a walk for each reading
   */
  <R> List<StageTable<R>> tables(boolean inOrder, LongFunction<List<StageWalk<R>>> rows) {
    List<StageTable<R>> tables = new ArrayList<>();
    gather(
        i -> rows.apply(seedOf(i)),
        walks -> {
          for (int r = 0; r < walks.size(); r++) {
            if (tables.size() == r) {
              tables.add(new StageTable<>(inOrder));
            }
            tables.get(r).add(walks.get(r));
          }
        });
    return tables;
  }

  private <T> void gather(IntFunction<T> capture, Consumer<T> sink) {
    int held = Math.max(HELD, 2 * threads);
    for (int from = 0; from < count; from += held) {
      int first = from;
      int size = Math.min(held, count - from);
      List<T> made = new ArrayList<>(Collections.nCopies(size, null));
      Parallel.each(size, threads, i -> made.set(i, capture.apply(first + i)));
      made.forEach(sink);
    }
  }
}
