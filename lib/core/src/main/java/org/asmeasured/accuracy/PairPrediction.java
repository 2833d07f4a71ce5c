package org.asmeasured.accuracy;

import java.util.ArrayList;
import java.util.List;
import org.asmeasured.capture.Channel;
import org.asmeasured.capture.ChannelSet;
import org.asmeasured.capture.Record;
import org.asmeasured.capture.Setup;
import org.asmeasured.internal.Quantity;
import org.asmeasured.internal.Require;
import org.asmeasured.measure.Measured;
import org.asmeasured.measure.Measured.NotTaken;
import org.asmeasured.measure.PairReading;
import org.asmeasured.signal.Signal;
import org.asmeasured.signal.Waveform;

/**
 * What several channels would make of a reading between two of them: the truth, the value as
 * measured, and where the difference comes from. Immutable.
 *
 * <p>The stages are switched in one by one, in this order: the analog stages of the first channel
 * of the pair, those of the second, each row named after its channel; then, of all channels at
 * once, sampling, skew, noise and the rest up to the trigger. Where a stage is random its row is
 * one draw: that of the seed.
 */
public final class PairPrediction {
  /** The order of the rows that channels have in common: that of the chain. */
  private static final List<String> COMMON =
      List.of(
          "sampling",
          "skew",
          "source noise",
          "source jitter",
          "amplifier noise",
          "clock, jitter and cores",
          "converter noise",
          "quantisation",
          "decimation",
          "envelope",
          "averaging");

  private final PairReading reading;
  private final String first;
  private final String second;
  private final Measured truth;
  private final Measured measured;
  private final List<StageBias> byStage;

  private PairPrediction(StageWalk<PairReading> walk, String first, String second) {
    reading = walk.reading;
    this.first = first;
    this.second = second;
    truth = walk.truth;
    measured = walk.now();
    byStage = walk.rows();
  }

  /**
   * Predicts readings between two channels; each setup on the way is captured once for all of them.
   *
   * @param readings what is read
   * @param first the name of the first channel
   * @param second the name of the second, another
   * @param signals one for each channel of the set, in their order
   * @param channels how they are captured
   * @param seed of all that is random
   * @return a prediction for each reading, in their order
   * @throws IllegalArgumentException if there is no such channel, the two are the same, there is
   *     not one signal for each channel, or the span of the record is below the last place of its
   *     start
   * @throws NullPointerException if one is missing
   */
  public static List<PairPrediction> of(
      List<PairReading> readings,
      String first,
      String second,
      List<Signal> signals,
      ChannelSet channels,
      long seed) {
    Require.present("readings", readings);
    Require.present("channels", channels);
    int a = channels.indexOf(Require.present("first", first));
    int b = channels.indexOf(Require.present("second", second));
    Require.that(a != b, "second = \"" + second + "\": must be another channel than the first");
    List<Record> last = channels.capture(signals, seed);
    double from = last.get(a).startSeconds();
    double to = from + channels.channels().get(a).setup().spanSeconds();
    Require.that(to > from, "startSeconds = " + from + " s: the span cannot be told apart there");
    List<StageWalk<PairReading>> walks = new ArrayList<>();
    for (PairReading reading : readings) {
      walks.add(
          new StageWalk<>(
              Require.present("reading", reading),
              reading.of(signals.get(a), signals.get(b), from, to)));
    }
    List<ChainWalk> chains = new ArrayList<>();
    for (Channel channel : channels.channels()) {
      chains.add(new ChainWalk(channel.setup(), from));
    }
    Waveform one = signals.get(a);
    for (ChainWalk.Step step : chains.get(a).analog()) {
      Waveform output = step.setup().analogOutput(signals.get(a), from, to);
      one = output;
      walks.forEach(
          w -> w.add(first + ": " + step.stage(), w.reading.of(output, signals.get(b), from, to)));
    }
    Waveform behind = one;
    for (ChainWalk.Step step : chains.get(b).analog()) {
      Waveform output = step.setup().analogOutput(signals.get(b), from, to);
      walks.forEach(
          w -> w.add(second + ": " + step.stage(), w.reading.of(behind, output, from, to)));
    }
    new Common(channels, chains, signals, seed).walk(a, b, last, walks);
    return walks.stream().map(w -> new PairPrediction(w, first, second)).toList();
  }

  /** The stages that are switched in for all channels at once. */
  private record Common(
      ChannelSet channels, List<ChainWalk> chains, List<Signal> signals, long seed) {
    void walk(int a, int b, List<Record> last, List<StageWalk<PairReading>> walks) {
      List<String> stages = new ArrayList<>();
      for (String stage : COMMON) {
        if (stage.equals("skew") ? isSkewed() : chains.stream().anyMatch(c -> has(c, stage))) {
          stages.add(stage);
        }
      }
      boolean triggered = channels.triggeringChannel().isPresent();
      for (int i = 0; i < stages.size(); i++) {
        String stage = stages.get(i);
        List<Record> records;
        if (!triggered && i + 1 == stages.size()) {
          records = last;
        } else {
          ChannelSet upTo = upTo(stage);
          if (upTo == null) {
            NotTaken reason = new NotTaken("there are more raw samples than are held at a time");
            walks.forEach(w -> w.add(stage, reason));
            continue;
          }
          records = upTo.capture(signals, seed);
        }
        walks.forEach(w -> w.add(stage, w.reading.of(records.get(a), records.get(b))));
      }
      if (triggered) {
        walks.forEach(w -> w.add("trigger", w.reading.of(last.get(a), last.get(b))));
      }
    }

    private boolean isSkewed() {
      return channels.channels().stream().anyMatch(c -> c.skewSeconds() != 0);
    }

    private static boolean has(ChainWalk chain, String stage) {
      return chain.digital().stream().anyMatch(s -> s.stage().equals(stage));
    }

    /** The channels with all stages up to one; null where that would not fit. */
    private ChannelSet upTo(String stage) {
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
        double skew = place >= COMMON.indexOf("skew") ? channel.skewSeconds() : 0;
        some.add(new Channel(channel.name(), setup, skew));
      }
      ChannelSet set = ChannelSet.of(some);
      return channels.hasOneSampler() ? set : set.withSeparateSamplers();
    }
  }

  /**
   * What is read.
   *
   * @return the reading
   */
  public PairReading reading() {
    return reading;
  }

  /**
   * The first channel of the pair.
   *
   * @return its name
   */
  public String first() {
    return first;
  }

  /**
   * The second channel of the pair.
   *
   * @return its name
   */
  public String second() {
    return second;
  }

  /**
   * The reading of the two signals themselves over the span of the record.
   *
   * @return in the reading's unit
   */
  public Measured truth() {
    return truth;
  }

  /**
   * The reading of the two records.
   *
   * @return in the reading's unit
   */
  public Measured measured() {
    return measured;
  }

  /**
   * As measured less truth.
   *
   * @return in the reading's unit; the reason, if one of the two could not be taken
   */
  public Measured bias() {
    return Prediction.difference(measured, truth);
  }

  /**
   * The bias of each stage that is not ideal, switched in after those before it. The biases add up
   * to the whole, to the rounding of the sums.
   *
   * @return in the order that this class states, unmodifiable
   */
  public List<StageBias> byStage() {
    return byStage;
  }

  @Override
  public String toString() {
    String unit = reading.unit();
    return reading
        + " of "
        + first
        + " and "
        + second
        + ": true value "
        + truth.in(unit)
        + ", as measured "
        + measured.in(unit)
        + ", bias "
        + (bias() instanceof Measured.Value whole
            ? Quantity.ofDifference(whole.value(), unit)
            : bias().toString());
  }
}
