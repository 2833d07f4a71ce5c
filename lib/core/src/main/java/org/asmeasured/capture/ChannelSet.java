package org.asmeasured.capture;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.stream.Collectors;
import org.asmeasured.internal.CounterRandom;
import org.asmeasured.internal.Require;
import org.asmeasured.signal.SampleClock;
import org.asmeasured.signal.Signal;

/**
 * Several channels that are captured together: the same trigger, the same clock, and a front end,
 * vertical scale and converter of its own for each. Immutable.
 *
 * <p><b>What is common.</b> Start, rate and error of the clock, number of points, decimation and
 * ensemble are those of every channel's {@link Setup}, and must agree. At most one of the setups
 * has a trigger: its channel feeds the trigger of all, by its own front end, and when an
 * acquisition takes place, with jitter and noise of the trigger, is the same for every channel.
 * Edges of the sources that jitter are those of a device: channels whose sources are of the same
 * device have their transitions, number by number, displaced together.
 *
 * <p><b>One sampler or several.</b> If all channels have equal samplers, they are one, or driven by
 * one clock: sample k comes with the same jitter, from the same core, in every channel. {@link
 * #withSeparateSamplers} makes them several of equal make: jitter is then independent from channel
 * to channel. Unequal samplers are several by themselves.
 *
 * <p><b>What is independent.</b> Noise of the source, of the amplifier and of the converter.
 *
 * <p>The first channel's streams of random numbers are those that its setup alone would have: a set
 * of one channel without skew gives what {@link Setup#capture(Signal, long)} gives, bit for bit.
 */
public final class ChannelSet {
  /** The greatest number of channels. */
  public static final int MAX_CHANNELS = 64;

  private static final long CHANNEL = 0x6368616e6e01L;

  private final List<Channel> channels;
  private final boolean oneSampler;

  private ChannelSet(List<Channel> channels, boolean oneSampler) {
    this.channels = channels;
    this.oneSampler = oneSampler;
  }

  /**
   * Puts channels together.
   *
   * @param channels 1 to 64, with different names
   * @return the set
   * @throws IllegalArgumentException if there are none or too many, two have the same name, or two
   *     setups contradict each other in what channels have in common; the message names both
   * @throws NullPointerException if one is missing
   */
  public static ChannelSet of(List<Channel> channels) {
    Require.present("channels", channels);
    Require.inRange("channels.size", channels.size(), 1, MAX_CHANNELS);
    for (int c = 0; c < channels.size(); c++) {
      Require.present("channels[" + c + "]", channels.get(c));
    }
    Channel first = channels.get(0);
    Channel triggering = null;
    boolean equalSamplers = true;
    for (int c = 0; c < channels.size(); c++) {
      Channel channel = channels.get(c);
      for (int d = 0; d < c; d++) {
        Require.that(
            !channel.name().equals(channels.get(d).name()),
            "channels[" + c + "].name = \"" + channel.name() + "\": another channel has that name");
      }
      agree(c, first, channel);
      if (channel.setup().trigger().isPresent()) {
        Require.that(
            triggering == null,
            "channels["
                + c
                + "] \""
                + channel.name()
                + "\" has a trigger, and so has \""
                + (triggering == null ? "" : triggering.name())
                + "\": only one channel can feed the trigger");
        triggering = channel;
      }
      equalSamplers &= channel.setup().sampler().equals(first.setup().sampler());
    }
    return new ChannelSet(List.copyOf(channels), equalSamplers);
  }

  /**
   * Puts channels together.
   *
   * @param channels 1 to 64, with different names
   * @return the set
   * @throws IllegalArgumentException as {@link #of(List)} does
   * @throws NullPointerException if one is missing
   */
  public static ChannelSet of(Channel... channels) {
    return of(java.util.Arrays.asList(Require.present("channels", channels)));
  }

  private static void agree(int index, Channel first, Channel other) {
    Setup a = first.setup();
    Setup b = other.setup();
    same(index, first, other, "startSeconds", a.startSeconds(), b.startSeconds());
    same(index, first, other, "rateHz", a.rateHz(), b.rateHz());
    same(index, first, other, "points", a.points(), b.points());
    same(index, first, other, "decimation", a.decimation(), b.decimation());
    same(index, first, other, "ensemble", a.ensemble(), b.ensemble());
    SampleClock nominal = new SampleClock(0, a.rateHz());
    same(
        index,
        first,
        other,
        "sampler.clock.rateHz",
        a.sampler().clock(nominal).rateHz(),
        b.sampler().clock(nominal).rateHz());
  }

  private static void same(
      int index, Channel first, Channel other, String what, Object a, Object b) {
    Require.that(
        Objects.equals(a, b),
        "channels["
            + index
            + "] \""
            + other.name()
            + "\": "
            + what
            + " = "
            + b
            + ", of \""
            + first.name()
            + "\" "
            + a
            + ": channels of one capture have it in common");
  }

  /**
   * The same channels, each with a sampler whose jitter is its own.
   *
   * @return the set
   */
  public ChannelSet withSeparateSamplers() {
    return new ChannelSet(channels, false);
  }

  /**
   * Whether all channels have the same jitter of the sampler.
   *
   * @return true if their samplers are equal and not said to be separate
   */
  public boolean hasOneSampler() {
    return oneSampler;
  }

  /**
   * The channels.
   *
   * @return in order, unmodifiable
   */
  public List<Channel> channels() {
    return channels;
  }

  /**
   * The place of a channel.
   *
   * @param name of the channel
   * @return 0 to the number of channels - 1
   * @throws IllegalArgumentException if there is no such channel
   * @throws NullPointerException if the name is missing
   */
  public int indexOf(String name) {
    Require.present("name", name);
    for (int c = 0; c < channels.size(); c++) {
      if (channels.get(c).name().equals(name)) {
        return c;
      }
    }
    throw new IllegalArgumentException(
        "name = \""
            + name
            + "\": must be one of "
            + channels.stream().map(Channel::name).collect(Collectors.joining(", ")));
  }

  /**
   * Which channel feeds the trigger.
   *
   * @return its place; empty if records start at the start of the clock
   */
  public OptionalInt triggeringChannel() {
    for (int c = 0; c < channels.size(); c++) {
      if (channels.get(c).setup().trigger().isPresent()) {
        return OptionalInt.of(c);
      }
    }
    return OptionalInt.empty();
  }

  /**
   * When the acquisitions take place, of all channels.
   *
   * @param signals one for each channel, in their order
   * @param seed of the capture
   * @return the acquisitions; empty without a trigger
   * @throws IllegalArgumentException if there is not one signal for each channel, or as {@link
   *     Setup#schedule} does
   * @throws NullPointerException if one is missing
   */
  public Optional<Schedule> schedule(List<Signal> signals, long seed) {
    check(signals);
    OptionalInt triggering = triggeringChannel();
    return triggering.isEmpty()
        ? Optional.empty()
        : channels
            .get(triggering.getAsInt())
            .setup()
            .schedule(signals.get(triggering.getAsInt()), seed);
  }

  /**
   * Captures a signal with each channel.
   *
   * @param signals one for each channel, in their order: the open-circuit voltages of the sources
   * @param seed from which all that is random follows: the same seed gives the same bits
   * @return a record for each channel, in their order
   * @throws IllegalArgumentException if there is not one signal for each channel, or as {@link
   *     Setup#capture(Signal, long)} does
   * @throws NullPointerException if one is missing
   * @throws IllegalStateException if a stage, converter or decimation of the user's own breaks its
   *     contract
   */
  public List<Record> capture(List<Signal> signals, long seed) {
    Schedule schedule = schedule(signals, seed).orElse(null);
    List<Record> records = new ArrayList<>();
    for (int c = 0; c < channels.size(); c++) {
      records.add(record(c, signals.get(c), seed, schedule));
    }
    return List.copyOf(records);
  }

  private Record record(int index, Signal signal, long seed, Schedule schedule) {
    Channel channel = channels.get(index);
    return new Acquisition(channel.setup(), signal, seeds(seed, index), channel.skewSeconds())
        .record(schedule);
  }

  private Seeds seeds(long seed, int channel) {
    long own = channel == 0 ? seed : CounterRandom.key(CounterRandom.key(seed, CHANNEL), channel);
    return new Seeds(seed, own, oneSampler ? seed : own);
  }

  private void check(List<Signal> signals) {
    Require.present("signals", signals);
    Require.that(
        signals.size() == channels.size(),
        "signals.size = "
            + signals.size()
            + ": must be "
            + channels.size()
            + ", one for each channel");
    for (int c = 0; c < signals.size(); c++) {
      Require.present("signals[" + c + "]", signals.get(c));
    }
  }

  @Override
  public boolean equals(Object other) {
    return other instanceof ChannelSet that
        && channels.equals(that.channels)
        && oneSampler == that.oneSampler;
  }

  @Override
  public int hashCode() {
    return 2 * channels.hashCode() + (oneSampler ? 1 : 0);
  }

  @Override
  public String toString() {
    return channels.stream().map(Channel::toString).collect(Collectors.joining("\n"));
  }
}
