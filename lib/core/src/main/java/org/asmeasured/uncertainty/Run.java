package org.asmeasured.uncertainty;

import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CancellationException;
import java.util.concurrent.atomic.AtomicLong;
import org.asmeasured.internal.CounterRandom;
import org.asmeasured.internal.Parallel;
import org.asmeasured.internal.Require;
import org.asmeasured.measure.Measured;
import org.asmeasured.measure.Outcome;

/**
 * One run of trials. Blocks are cut into chunks of 128 trials, which any thread may do; their sums
 * are put together in the order of the chunks, and whether the figures are stable is asked after
 * each block in order, so that nothing depends on the threads. Chunks that were begun beyond the
 * end are thrown away.
 */
final class Run {
  private static final int CHUNK = 128;
  private static final long MOST_VALUES = 500_000_000;

  private final MonteCarlo settings;
  private final Inputs inputs;
  private final JointModel model;
  private final int outputs;
  private final double[] estimates;
  private final long[][] directions;
  private final double[] references;
  private final OutputTrials[] collected;
  private final Moments total;
  private final AtomicLong evaluated = new AtomicLong();
  private long told;
  private long collectedTrials;
  private Moments blockSums;

  // where the next chunk begins
  private long begun;
  private int block = -1;
  private SobolPoints points;

  Run(MonteCarlo settings, Inputs inputs, JointModel model, double[] references) {
    this.settings = settings;
    this.inputs = inputs;
    this.model = model;
    this.outputs = references.length;
    this.references = references;
    this.estimates = inputs.estimates();
    Require.that(
        (double) outputs * settings.trials <= MOST_VALUES,
        "trials = "
            + settings.trials
            + " of "
            + outputs
            + " outputs: must be at most "
            + MOST_VALUES
            + " values");
    long least = settings.leastTrials();
    long smallest = Math.min(settings.block, settings.trials);
    Require.that(
        smallest >= least,
        "trials of a block = "
            + smallest
            + ": must be at least "
            + least
            + " for intervals of probability "
            + settings.probability);
    if (settings.digits > 0 && !settings.intervals) {
      for (Input input : inputs.list()) {
        Require.that(
            input.distribution().standardDeviation() < Double.POSITIVE_INFINITY,
            "standard deviation of "
                + input.name()
                + " ("
                + input.distribution().name()
                + ") does not exist: trials give intervals only, ask for an interval");
      }
    }
    this.directions = settings.sobol ? SobolPoints.directions(inputs.size()) : null;
    this.collected = new OutputTrials[outputs];
    for (int k = 0; k < outputs; k++) {
      collected[k] = new OutputTrials(inputs, settings, k, references[k]);
    }
    this.total = new Moments(estimates.length, outputs);
    this.blockSums = new Moments(estimates.length, outputs);
  }

  /** Trials first to first + count of a block; whole if it ends the block. */
  private record Chunk(int block, SobolPoints points, long trial, int first, int count, int size) {
    boolean endsBlock() {
      return first + count == size;
    }
  }

  /** What came of a chunk: by output the values, NaN where there is none. */
  private record Done(Chunk chunk, double[][] values, String[] reasons, Moments moments) {}

  List<Outcome<Simulated>> results() {
    int most =
        settings.threads == 1 ? 1 : Math.max(4 * settings.threads, settings.block / CHUNK + 1);
    List<Chunk> wave = wave(most);
    while (!wave.isEmpty() && !collect(done(wave))) {
      wave = wave(most);
    }
    List<Outcome<Simulated>> results = new ArrayList<>();
    for (OutputTrials output : collected) {
      results.add(output.result(total));
    }
    return results;
  }

  /** The next chunks, which threads may share; none after the last. */
  private List<Chunk> wave(int most) {
    List<Chunk> wave = new ArrayList<>();
    for (Chunk chunk = next(); chunk != null; chunk = next()) {
      wave.add(chunk);
      if (wave.size() == most) {
        break;
      }
    }
    return wave;
  }

  private Done[] done(List<Chunk> wave) {
    Done[] done = new Done[wave.size()];
    Thread asking = Thread.currentThread();
    Parallel.each(
        done.length,
        settings.threads,
        i -> {
          done[i] = evaluate(wave.get(i), new Scratch());
          evaluated.addAndGet(wave.get(i).count);
          if (Thread.currentThread() == asking) {
            tell();
          }
        });
    tell();
    return done;
  }

  private void tell() {
    long trials = evaluated.get();
    if (trials > told) {
      told = trials;
      if (!settings.progress.goOn(trials, settings.trials)) {
        throw cancelled("as asked");
      }
    }
  }

  private boolean collect(Done[] wave) {
    for (Done done : wave) {
      if (collect(done)) {
        return true;
      }
    }
    return false;
  }

  private static CancellationException cancelled(String why) {
    return new CancellationException("trials cancelled: " + why);
  }

  /** The next chunk, or null after the last. */
  private Chunk next() {
    long start = begun % settings.block;
    long left = settings.trials - (begun - start);
    int size = (int) Math.min(settings.block, left);
    // a part of a block says nothing about stability
    if (begun >= settings.trials || settings.digits > 0 && size < settings.block && block >= 0) {
      return null;
    }
    if (start == 0) {
      block++;
      points =
          settings.sobol
              ? SobolPoints.scrambled(directions, CounterRandom.key(settings.seed, block))
              : null;
    }
    int count = (int) Math.min(CHUNK, size - start);
    Chunk chunk = new Chunk(block, points, begun, (int) start, count, size);
    begun += count;
    return chunk;
  }

  /** What one thread needs beside the chunk. */
  private final class Scratch {
    final double[] uniform = new double[estimates.length];
    final double[] normal = new double[estimates.length];
    final double[] x = new double[estimates.length];
    final double[] deviation = new double[estimates.length];
    final Measured[] y = new Measured[outputs];
  }

  private Done evaluate(Chunk chunk, Scratch s) {
    double[][] values = new double[outputs][chunk.count];
    String[] reasons = new String[outputs];
    Moments moments = new Moments(estimates.length, outputs);
    long drawKey = CounterRandom.key(settings.seed, chunk.block);
    long modelKey = CounterRandom.key(~settings.seed, 0);
    for (int t = 0; t < chunk.count; t++) {
      if (Thread.currentThread().isInterrupted()) {
        throw cancelled("the thread was interrupted");
      }
      int index = chunk.first + t;
      if (chunk.points != null) {
        chunk.points.point(index, s.uniform);
      } else {
        long first = (long) index * estimates.length;
        for (int i = 0; i < estimates.length; i++) {
          s.uniform[i] = CounterRandom.uniform(drawKey, first + i);
        }
      }
      inputs.draw(s.uniform, s.normal, s.x);
      for (int i = 0; i < estimates.length; i++) {
        s.deviation[i] = s.x[i] - estimates[i];
      }
      moments.addInputs(s.deviation);
      Evaluation.at(inputs, model, s.x, CounterRandom.key(modelKey, chunk.trial + t), s.y);
      for (int k = 0; k < outputs; k++) {
        if (s.y[k] instanceof Measured.Value value) {
          values[k][t] = value.value();
          moments.addOutput(k, value.value() - references[k], s.deviation);
        } else {
          values[k][t] = Double.NaN;
          if (reasons[k] == null && s.y[k] instanceof Measured.NotTaken missing) {
            reasons[k] = missing.reason();
          }
        }
      }
    }
    return new Done(chunk, values, reasons, moments);
  }

  /** True if that was enough. */
  private boolean collect(Done done) {
    if (Thread.currentThread().isInterrupted()) {
      throw cancelled("the thread was interrupted");
    }
    for (int k = 0; k < outputs; k++) {
      collected[k].add(done.values[k], done.reasons[k]);
    }
    blockSums.add(done.moments);
    if (!done.chunk.endsBlock()) {
      return false;
    }
    boolean whole = done.chunk.size == settings.block;
    collectedTrials += done.chunk.size;
    boolean stable = settings.digits > 0 && collectedTrials >= settings.least;
    for (OutputTrials output : collected) {
      output.endBlock(blockSums, whole);
      stable = stable && output.isStable();
    }
    total.add(blockSums);
    blockSums = new Moments(estimates.length, outputs);
    return stable;
  }
}
