package org.asmeasured.scenario;

import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.TreeMap;
import org.asmeasured.acquisition.NoEvent;
import org.asmeasured.acquisition.PulseWidth;
import org.asmeasured.acquisition.Qualifier;
import org.asmeasured.acquisition.Runt;
import org.asmeasured.acquisition.Slope;
import org.asmeasured.acquisition.Trigger;
import org.asmeasured.acquisition.TriggerPath;

/** The triggers that a scenario can say. */
final class TriggerReader {
  static final List<String> REQUIRED = List.of("levelVolts");
  static final List<String> OPTIONAL =
      List.of(
          "path",
          "slope",
          "hysteresisVolts",
          "qualifier",
          "preTriggerShare",
          "delaySeconds",
          "holdoffSeconds",
          "rearmSeconds",
          "jitterSeconds",
          "resolution",
          "noEvent",
          "armedSeconds");

  private static final Map<String, Slope> SLOPES =
      new TreeMap<>(Map.of("rising", Slope.RISING, "falling", Slope.FALLING));

  static final Kinds<TriggerPath> PATHS =
      new Kinds<TriggerPath>("path")
          .add("dc", "", f -> TriggerPath.dc())
          .add("ac", "", f -> TriggerPath.ac())
          .add("lowFrequencyReject", "", f -> TriggerPath.lowFrequencyReject())
          .add("highFrequencyReject", "", f -> TriggerPath.highFrequencyReject())
          .add(
              "filters",
              "highPassHz? lowPassHz?",
              f -> new TriggerPath(f.numberOr("highPassHz", 0), f.numberOr("lowPassHz", 0)));

  static final Kinds<Qualifier> QUALIFIERS =
      new Kinds<Qualifier>("qualifier")
          .add("everyPulse", "", f -> Qualifier.none())
          .add(
              "pulseWidth",
              "longerThanSeconds? shorterThanSeconds?",
              f ->
                  new PulseWidth(
                      f.numberOr("longerThanSeconds", 0),
                      f.numberOr("shorterThanSeconds", Double.POSITIVE_INFINITY)))
          .add("runt", "otherVolts", f -> new Runt(f.number("otherVolts")));

  static final Kinds<NoEvent> NO_EVENTS =
      new Kinds<NoEvent>("noEvent")
          .add("waits", "afterSeconds", f -> new NoEvent(f.number("afterSeconds"), false))
          .add("runsFree", "afterSeconds", f -> new NoEvent(f.number("afterSeconds"), true));

  private TriggerReader() {}

  static Trigger read(Json node) {
    return Fields.of(node, "trigger", REQUIRED, OPTIONAL).build(TriggerReader::trigger);
  }

  private static Trigger trigger(Fields fields) {
    Trigger usual = Trigger.at(fields.number("levelVolts"));
    return new Trigger(
        fields.has("path") ? PATHS.read(fields.child("path")) : usual.path(),
        usual.levelVolts(),
        fields.has("slope") ? fields.oneOf("slope", SLOPES) : usual.slope(),
        fields.numberOr("hysteresisVolts", usual.hysteresisVolts()),
        fields.has("qualifier") ? QUALIFIERS.read(fields.child("qualifier")) : usual.qualifier(),
        fields.numberOr("preTriggerShare", usual.preTriggerShare()),
        fields.numberOr("delaySeconds", usual.delaySeconds()),
        fields.numberOr("holdoffSeconds", usual.holdoffSeconds()),
        fields.numberOr("rearmSeconds", usual.rearmSeconds()),
        fields.numberOr("jitterSeconds", usual.jitterSeconds()),
        fields.numberOr("resolution", usual.resolution()),
        fields.has("noEvent") ? NO_EVENTS.read(fields.child("noEvent")) : usual.noEvent(),
        fields.has("armedSeconds")
            ? OptionalDouble.of(fields.number("armedSeconds"))
            : usual.armedSeconds());
  }
}
