package org.asmeasured.scenario;

import java.util.List;
import org.asmeasured.capture.ChannelSet;
import org.asmeasured.internal.Require;
import org.asmeasured.measure.ChannelPair;
import org.asmeasured.signal.Signal;

/**
 * The channels of a scenario where there are several, and what is read between them. Immutable.
 *
 * @param set all channels; the first has the scenario's own setup, and feeds the trigger if there
 *     is one
 * @param signals one for each channel; the first is the scenario's own
 * @param readings what is read between channels, may be empty
 */
public record FurtherChannels(ChannelSet set, List<Signal> signals, List<ChannelPair> readings) {

  /**
   * Checks and copies.
   *
   * @param set all channels
   * @param signals one for each channel
   * @param readings what is read between channels, may be empty
   * @throws IllegalArgumentException if there are fewer than two channels, not one signal for each,
   *     a channel other than the first feeds the trigger, or a reading names a channel that is not
   *     there
   * @throws NullPointerException if one is missing
   */
  public FurtherChannels {
    Require.present("set", set);
    signals = List.copyOf(Require.present("signals", signals));
    readings = List.copyOf(Require.present("readings", readings));
    int count = set.channels().size();
    Require.inRange("set.channels.size", count, 2, ChannelSet.MAX_CHANNELS);
    Require.that(
        signals.size() == count, "signals.size = " + signals.size() + ": must be " + count);
    Require.that(
        set.triggeringChannel().orElse(0) == 0,
        "set: the first channel of a scenario feeds the trigger, no other");
    for (ChannelPair pair : readings) {
      set.indexOf(pair.first());
      set.indexOf(pair.second());
    }
  }
}
