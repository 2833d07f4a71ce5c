package org.asmeasured.scenario;

import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.concurrent.CancellationException;
import java.util.concurrent.atomic.AtomicInteger;
import org.asmeasured.internal.Parallel;
import org.asmeasured.internal.Require;
import org.asmeasured.uncertainty.Progress;

/**
 * What a sweep comes to: a row for each point. Immutable, and a function of the sweep alone: the
 * same on any number of threads, and on any machine.
 *
 * @param sweep what was asked
 * @param rows one for each point, in their order
 */
public record SweepResult(Sweep sweep, List<SweepRow> rows) {

  /**
   * Checks and copies: rows that were computed elsewhere are put together here.
   *
   * @param sweep what was asked
   * @param rows one for each point, in their order
   * @throws IllegalArgumentException if there is not one row for each point, in their order and
   *     with as many coordinates and readings as the sweep has
   * @throws NullPointerException if one is missing
   */
  public SweepResult {
    Require.present("sweep", sweep);
    rows = List.copyOf(Require.present("rows", rows));
    Require.that(
        rows.size() == sweep.size(),
        "rows has " + rows.size() + " entries: must have " + sweep.size());
    int readings = sweep.readingNames().size();
    for (int i = 0; i < rows.size(); i++) {
      SweepRow row = rows.get(i);
      Require.that(
          row.number() == i
              && row.coordinates().size() == sweep.values().size()
              && row.readings().size() == readings,
          "rows[" + i + "]: must be that of point " + i + " of the sweep");
    }
  }

  /**
   * Computes a sweep, one point after the other for each thread.
   *
   * @param sweep what to compute
   * @param threads how many share the work, 1 to 1024
   * @param progress told how many points are done, one call at a time, by the thread that has just
   *     finished one; asked whether to go on
   * @return the result
   * @throws CancellationException if the progress says so, or the calling thread is interrupted,
   *     which stays marked; points at work are told to stop
   * @throws IllegalArgumentException if the number of threads is out of range
   * @throws NullPointerException if one is missing
   */
  public static SweepResult of(Sweep sweep, int threads, Progress progress) {
    Require.present("sweep", sweep);
    Require.inRange("threads", threads, 1, Parallel.MAX_THREADS);
    Require.present("progress", progress);
    int size = sweep.size();
    // Where there are fewer points than threads, the rest of them share the trials of each point.
    int within = Math.max(1, threads / size);
    SweepRow[] rows = new SweepRow[size];
    Tally tally = new Tally(size, progress);
    tally.begin();
    Parallel.each(
        size,
        threads,
        i -> {
          rows[i] = sweep.point(i).run(within, (done, most) -> !tally.isCancelled());
          tally.add();
        });
    return new SweepResult(sweep, Arrays.asList(rows));
  }

  /** Points done, told to whoever listens. */
  private static final class Tally {
    private final int size;
    private final Progress progress;
    private final AtomicInteger done = new AtomicInteger();
    private volatile boolean cancelled;

    Tally(int size, Progress progress) {
      this.size = size;
      this.progress = progress;
    }

    boolean isCancelled() {
      return cancelled;
    }

    void begin() {
      tell(0);
    }

    synchronized void add() {
      tell(done.incrementAndGet());
    }

    private void tell(int points) {
      if (cancelled || !progress.goOn(points, size)) {
        cancelled = true;
        throw new CancellationException("sweep cancelled: as asked");
      }
    }
  }

  /**
   * What whoever would do this at a bench must be warned of.
   *
   * @return each caution once, with the numbers of the points that it holds for; empty where there
   *     is nothing to warn of
   */
  public List<SaidCaution> cautions() {
    return SaidCaution.once(rows.stream().map(SweepRow::cautions).toList());
  }

  /**
   * This result as CSV (RFC 4180): a header, then a row for each point. First the coordinates; then
   * for each reading its true value, the value as measured and the bias, where it is assessed the
   * mean reading, the standard uncertainty, both ends of the 95 % interval, the share of a change
   * of the quantity that shows in the reading with its standard error, and the verdict; and the
   * reason for whatever is empty; last what the point's cautions are about. Numbers have the
   * shortest digits that read back to the same double; units are in the header.
   *
   * @return the text
   */
  public String toCsv() {
    return SweepCsv.of(this);
  }

  /**
   * Writes the CSV to a file, whole or not at all, as {@link Results#write} does.
   *
   * @param file where to; its folder must exist; a file that is there already is replaced
   * @throws ScenarioException if the file cannot be written; {@code file} is then as it was
   * @throws NullPointerException if it is missing
   */
  public void writeCsv(Path file) {
    TextFile.write(Require.present("file", file), toCsv());
  }
}
