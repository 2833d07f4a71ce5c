package org.asmeasured.scenario;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.asmeasured.capture.Channel;
import org.asmeasured.capture.ChannelSet;
import org.asmeasured.capture.Setup;
import org.asmeasured.measure.ChannelPair;
import org.asmeasured.signal.Signal;

/** Reads the channels beside the first one, and what is read between channels. */
final class ChannelsReader {
  static final List<String> KEYS =
      List.of("channelName", "furtherChannels", "separateSamplers", "pairReadings");
  static final List<String> REQUIRED = List.of("name", "signal", "setup");
  static final List<String> OPTIONAL = List.of("skewSeconds");

  private static final int MAX_READINGS = 100;

  private ChannelsReader() {}

  static Optional<FurtherChannels> read(
      Fields scenario, Kinds<Signal> kinds, Signal signal, Setup setup) {
    if (!scenario.has("furtherChannels")) {
      for (String key : KEYS) {
        if (scenario.has(key)) {
          throw scenario
              .child(key)
              .refused(
                  "key \"furtherChannels\" is missing: "
                      + key
                      + " is of use where there are several channels only");
        }
      }
      return Optional.empty();
    }
    if (!scenario.has("channelName")) {
      throw scenario
          .node()
          .refused(
              "key \"channelName\" is missing: where there are several channels the first must have a name too");
    }
    List<Json> items = scenario.list("furtherChannels");
    if (items.isEmpty() || items.size() > ChannelSet.MAX_CHANNELS - 1) {
      throw scenario
          .child("furtherChannels")
          .refused(
              "furtherChannels has "
                  + items.size()
                  + " entries: must have from 1 to "
                  + (ChannelSet.MAX_CHANNELS - 1));
    }
    List<Channel> channels = new ArrayList<>();
    List<Signal> signals = new ArrayList<>();
    channels.add(new Channel(scenario.text("channelName"), setup));
    signals.add(signal);
    for (Json item : items) {
      Fields.of(item, "a channel", REQUIRED, OPTIONAL)
          .build(
              f -> {
                String name = f.text("name");
                if (channels.stream().anyMatch(c -> c.name().equals(name))) {
                  throw f.child("name")
                      .refused("name = \"" + name + "\": another channel has that name");
                }
                signals.add(kinds.read(f.child("signal")));
                channels.add(
                    new Channel(
                        name,
                        SetupReader.further(f.child("setup"), setup),
                        f.numberOr("skewSeconds", 0)));
                return name;
              });
    }
    ChannelSet set = ChannelSet.of(channels);
    if (scenario.flagOr("separateSamplers", false)) {
      set = set.withSeparateSamplers();
    }
    return Optional.of(new FurtherChannels(set, signals, questions(scenario, channels)));
  }

  private static List<ChannelPair> questions(Fields scenario, List<Channel> channels) {
    List<ChannelPair> questions = new ArrayList<>();
    if (!scenario.has("pairReadings")) {
      return questions;
    }
    List<String> names = channels.stream().map(Channel::name).toList();
    List<Json> items = scenario.list("pairReadings");
    if (items.isEmpty() || items.size() > MAX_READINGS) {
      throw scenario
          .child("pairReadings")
          .refused(
              "pairReadings has " + items.size() + " entries: must have from 1 to " + MAX_READINGS);
    }
    for (Json item : items) {
      ChannelPair question = PairReadingKinds.READINGS.read(item);
      for (String key : List.of("first", "second")) {
        String name = key.equals("first") ? question.first() : question.second();
        if (!names.contains(name)) {
          throw item.members()
              .get(key)
              .refused(
                  key
                      + " = \""
                      + name
                      + "\": must be the name of a channel: "
                      + String.join(", ", names));
        }
      }
      if (questions.contains(question)) {
        throw item.refused(
            "the reading \""
                + question.reading()
                + "\" is asked for twice: must be asked for once");
      }
      questions.add(question);
    }
    return questions;
  }
}
