package org.asmeasured.scenario;

import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.asmeasured.acquisition.Slope;
import org.asmeasured.measure.ChannelPair;
import org.asmeasured.measure.PairReading;
import org.asmeasured.measure.PairReadings;

/** The readings between two channels that a scenario can ask for. */
final class PairReadingKinds {
  private static final Map<String, Slope> SLOPES =
      new TreeMap<>(Map.of("rising", Slope.RISING, "falling", Slope.FALLING));
  private static final String PAIR = "first second";

  static final Kinds<ChannelPair> READINGS =
      new Kinds<ChannelPair>("pair reading")
          .add(
              "delay",
              PAIR + " firstSlope? secondSlope? firstVolts? secondVolts?",
              f -> question(f, delay(f)))
          .add("skew", PAIR, f -> question(f, PairReadings.skew()))
          .add("phaseLag", PAIR, f -> question(f, PairReadings.phaseLag()))
          .add("meanPower", PAIR, f -> question(f, PairReadings.meanPower()))
          .add("energy", PAIR, f -> question(f, PairReadings.energy()))
          .add("apparentPower", PAIR, f -> question(f, PairReadings.apparentPower()))
          .add("powerFactor", PAIR, f -> question(f, PairReadings.powerFactor()))
          .add(
              "ofProduct",
              PAIR + " reading",
              f ->
                  question(
                      f, PairReadings.ofProduct(ReadingKinds.READINGS.read(f.child("reading")))));

  private PairReadingKinds() {}

  private static ChannelPair question(Fields fields, PairReading reading) {
    return new ChannelPair(reading, fields.text("first"), fields.text("second"));
  }

  private static PairReading delay(Fields fields) {
    Slope first = fields.has("firstSlope") ? fields.oneOf("firstSlope", SLOPES) : Slope.RISING;
    Slope second = fields.has("secondSlope") ? fields.oneOf("secondSlope", SLOPES) : Slope.RISING;
    if (!fields.has("firstVolts") && !fields.has("secondVolts")) {
      return PairReadings.delay(first, second);
    }
    for (String key : List.of("firstVolts", "secondVolts")) {
      if (!fields.has(key)) {
        throw fields
            .node()
            .refused(
                "key \"" + key + "\", in V, is missing: the levels are given both or not at all");
      }
    }
    return PairReadings.delay(
        first, fields.number("firstVolts"), second, fields.number("secondVolts"));
  }
}
