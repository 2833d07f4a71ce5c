package org.asmeasured.accuracy;

import java.util.ArrayList;
import java.util.List;
import org.asmeasured.capture.Channel;
import org.asmeasured.capture.ChannelSet;
import org.asmeasured.capture.Record;
import org.asmeasured.capture.Setup;
import org.asmeasured.internal.Require;
import org.asmeasured.measure.Measured;
import org.asmeasured.measure.Measured.NotTaken;
import org.asmeasured.measure.PairReading;
import org.asmeasured.signal.Signal;
import org.asmeasured.signal.Waveform;

/**
 * What readings between two channels make of a capture, and of all setups on the way to it. The
 * analog rows are read once for all captures that start at the same instant.
 */
final class PairInOrder {
  private static final String SAMPLING = "sampling";
  private static final String SKEW = "skew";

  /** The order of the rows that channels have in common: that of the chain. */
  private static final List<String> COMMON =
      List.of(
          SAMPLING,
          SKEW,
          ChainWalk.SOURCE_NOISE,
          ChainWalk.SOURCE_JITTER,
          ChainWalk.NOISE,
          ChainWalk.SAMPLER,
          ChainWalk.CONVERTER_NOISE,
          ChainWalk.CONVERTER,
          ChainWalk.DECIMATION,
          "envelope",
          "averaging");

  private final List<PairReading> readings;
  private final int a;
  private final int b;
  private final List<Signal> signals;
  private final ChannelSet channels;
  private final boolean triggered;
  private final List<ChainWalk> chains = new ArrayList<>();
  private final List<String> common;
  private final long firstSeed;
  private final List<Record> firstRecords;
  private final Analog firstAnalog;

  /** The rows ahead of the samplers, that of the truth first, for one start of the record. */
  private record Analog(double fromSeconds, List<String> stages, List<Measured[]> rows) {}

  PairInOrder(
      List<PairReading> readings,
      int a,
      int b,
      List<Signal> signals,
      ChannelSet channels,
      long firstSeed) {
    this.readings = readings;
    this.a = a;
    this.b = b;
    this.signals = List.copyOf(signals);
    this.channels = channels;
    this.firstSeed = firstSeed;
    triggered = channels.triggeringChannel().isPresent();
    firstRecords = channels.capture(signals, firstSeed);
    double from = firstRecords.get(a).startSeconds();
    for (Channel channel : channels.channels()) {
      chains.add(new ChainWalk(channel.setup(), from));
    }
    common =
        COMMON.stream()
            .filter(
                stage ->
                    stage.equals(SKEW)
                        ? channels.channels().stream().anyMatch(c -> c.skewSeconds() != 0)
                        : chains.stream().anyMatch(c -> has(c, stage)))
            .toList();
    firstAnalog = analog(from);
  }

  private static boolean has(ChainWalk chain, String stage) {
    return chain.digital().stream().anyMatch(s -> s.stage().equals(stage));
  }

  private Analog analog(double from) {
    double to = from + channels.channels().get(a).setup().spanSeconds();
    Require.that(to > from, "startSeconds = " + from + " s: the span cannot be told apart there");
    List<String> stages = new ArrayList<>();
    List<Measured[]> rows = new ArrayList<>();
    Waveform one = signals.get(a);
    Waveform other = signals.get(b);
    stages.add("");
    rows.add(of(one, other, from, to));
    for (ChainWalk.Step step : chains.get(a).analog()) {
      one = step.setup().analogOutput(signals.get(a), from, to);
      stages.add(channels.channels().get(a).name() + ": " + step.stage());
      rows.add(of(one, other, from, to));
    }
    for (ChainWalk.Step step : chains.get(b).analog()) {
      other = step.setup().analogOutput(signals.get(b), from, to);
      stages.add(channels.channels().get(b).name() + ": " + step.stage());
      rows.add(of(one, other, from, to));
    }
    return new Analog(from, stages, rows);
  }

  private Measured[] of(Waveform one, Waveform other, double from, double to) {
    return readings.stream().map(r -> r.of(one, other, from, to)).toArray(Measured[]::new);
  }

  /** The rows of one capture, for each of the readings. */
  List<StageWalk<PairReading>> walks(long seed) {
    List<Record> whole = seed == firstSeed ? firstRecords : channels.capture(signals, seed);
    double from = whole.get(a).startSeconds();
    Analog analog = from == firstAnalog.fromSeconds ? firstAnalog : analog(from);
    List<StageWalk<PairReading>> walks = new ArrayList<>();
    for (int r = 0; r < readings.size(); r++) {
      walks.add(new StageWalk<>(readings.get(r), analog.rows.get(0)[r], triggered));
    }
    for (int s = 1; s < analog.rows.size(); s++) {
      Measured[] values = analog.rows.get(s);
      for (int r = 0; r < values.length; r++) {
        walks.get(r).add(analog.stages.get(s), values[r], triggered);
      }
    }
    for (int i = 0; i < common.size(); i++) {
      String stage = common.get(i);
      ChannelSet upTo = upTo(stage, from);
      if (upTo == null) {
        NotTaken reason = new NotTaken(ChainWalk.TOO_MANY);
        walks.forEach(w -> w.add(stage, reason, false));
      } else {
        boolean last = !triggered && i + 1 == common.size();
        add(walks, stage, last ? whole : upTo.capture(signals, seed), isRandom(upTo));
      }
    }
    if (triggered) {
      add(walks, ChainWalk.TRIGGER, whole, true);
    }
    return walks;
  }

  private void add(
      List<StageWalk<PairReading>> walks, String stage, List<Record> records, boolean random) {
    walks.forEach(
        w -> w.add(stage, w.reading.of(records.get(a), records.get(b)), triggered || random));
  }

  static boolean isRandom(ChannelSet set) {
    return set.channels().stream().anyMatch(c -> !c.setup().isRepeatable());
  }

  /** The channels with all stages up to one; null where that would not fit. */
  private ChannelSet upTo(String stage, double from) {
    int place = COMMON.indexOf(stage);
    List<Channel> some = new ArrayList<>();
    for (int c = 0; c < chains.size(); c++) {
      Setup setup = null;
      for (ChainWalk.Step step : chains.get(c).digital()) {
        int at = COMMON.indexOf(step.stage());
        if (at >= 0 && at <= place) {
          setup = step.setup();
        }
      }
      if (setup == null) {
        return null;
      }
      Channel channel = channels.channels().get(c);
      double skew = place >= COMMON.indexOf(SKEW) ? channel.skewSeconds() : 0;
      some.add(new Channel(channel.name(), setup.startingAt(from), skew));
    }
    ChannelSet set = ChannelSet.of(some);
    return channels.hasOneSampler() ? set : set.withSeparateSamplers();
  }
}
