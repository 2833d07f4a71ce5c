package org.asmeasured.accuracy;

import java.util.ArrayList;
import java.util.List;
import org.asmeasured.capture.Record;
import org.asmeasured.capture.Setup;
import org.asmeasured.internal.Require;
import org.asmeasured.measure.Measured;
import org.asmeasured.measure.Measured.NotTaken;
import org.asmeasured.measure.Reading;
import org.asmeasured.measure.ReadingGroup;
import org.asmeasured.signal.Signal;
import org.asmeasured.signal.Waveform;

/**
 * What readings make of a capture, and of all setups on the way to it, one stage after another. The
 * rows in which nothing is random are read once for all captures that start at the same instant.
 */
final class InOrder {
  private final List<Reading> readings;
  private final ReadingGroup group;
  private final Signal signal;
  private final Setup setup;
  private final boolean triggered;
  private final ChainWalk chain;
  private final long firstSeed;
  private final Record firstRecord;
  private final Fixed fixed;

  /**
   * What does not depend on the seed; in each row one reading after another.
   *
   * @param fromSeconds start of the record
   * @param truth of the signal
   * @param analog of each analog step
   * @param digital of each digital step; null where it is random
   */
  private record Fixed(
      double fromSeconds, Measured[] truth, List<Measured[]> analog, List<Measured[]> digital) {}

  InOrder(List<Reading> readings, Signal signal, Setup setup, long firstSeed) {
    this.readings = readings;
    group = ReadingGroup.of(readings);
    this.signal = signal;
    this.setup = setup;
    this.firstSeed = firstSeed;
    triggered = setup.trigger().isPresent();
    firstRecord = setup.capture(signal, firstSeed);
    chain = new ChainWalk(setup, firstRecord.startSeconds());
    fixed = fixed(firstRecord.startSeconds());
  }

  /** The rows of one capture, for each of the readings. */
  List<StageWalk<Reading>> walks(long seed) {
    Record whole = seed == firstSeed ? firstRecord : setup.capture(signal, seed);
    double from = whole.startSeconds();
    Fixed here = from == fixed.fromSeconds ? fixed : fixed(from);
    List<StageWalk<Reading>> walks = new ArrayList<>();
    for (int r = 0; r < readings.size(); r++) {
      walks.add(new StageWalk<>(readings.get(r), here.truth[r], triggered));
    }
    List<ChainWalk.Step> analog = chain.analog();
    for (int s = 0; s < analog.size(); s++) {
      add(walks, analog.get(s).stage(), here.analog.get(s), triggered);
    }
    List<ChainWalk.Step> digital = chain.digital();
    for (int s = 0; s < digital.size(); s++) {
      ChainWalk.Step step = digital.get(s);
      Measured[] values = here.digital.get(s);
      if (s == digital.size() - 1) {
        values = of(whole);
      } else if (values == null) {
        values = of(step.setup().startingAt(from).capture(signal, seed));
      }
      add(walks, step.stage(), values, triggered || step.isRandom());
    }
    return walks;
  }

  private static void add(
      List<StageWalk<Reading>> walks, String stage, Measured[] values, boolean random) {
    for (int r = 0; r < values.length; r++) {
      walks.get(r).add(stage, values[r], random);
    }
  }

  private Fixed fixed(double from) {
    double to = from + setup.spanSeconds();
    Require.that(
        to > from,
        "startSeconds = "
            + from
            + " s: a span of "
            + setup.spanSeconds()
            + " s cannot be told apart there");
    List<Measured[]> analog = new ArrayList<>();
    for (ChainWalk.Step step : chain.analog()) {
      analog.add(of(step.setup().analogOutput(signal, from, to), from, to));
    }
    List<Measured[]> digital = new ArrayList<>();
    List<ChainWalk.Step> steps = chain.digital();
    for (ChainWalk.Step step : steps) {
      if (step.setup() == null) {
        NotTaken reason = new NotTaken(ChainWalk.TOO_MANY);
        digital.add(readings.stream().map(r -> reason).toArray(Measured[]::new));
      } else if (step.isRandom() || step == steps.get(steps.size() - 1)) {
        digital.add(null);
      } else {
        digital.add(of(step.setup().startingAt(from).capture(signal)));
      }
    }
    return new Fixed(from, of(signal, from, to), analog, digital);
  }

  private Measured[] of(Record record) {
    return group.of(record).toArray(Measured[]::new);
  }

  private Measured[] of(Waveform waveform, double from, double to) {
    return group.of(waveform, from, to).toArray(Measured[]::new);
  }
}
