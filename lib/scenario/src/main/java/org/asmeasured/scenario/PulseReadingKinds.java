package org.asmeasured.scenario;

import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;
import org.asmeasured.measure.Reading;
import org.asmeasured.pulse.PulseMethod;
import org.asmeasured.pulse.PulseQuantity;
import org.asmeasured.pulse.PulseReadings;
import org.asmeasured.pulse.ReferenceLevels;
import org.asmeasured.pulse.StateLevels;
import org.asmeasured.pulse.Summary;

/** The readings of pulses that a scenario can ask for: one kind for each quantity. */
final class PulseReadingKinds {
  static final Kinds<StateLevels> STATE_LEVELS =
      new Kinds<StateLevels>("state levels")
          .add(
              "histogramMode",
              "bins?",
              f ->
                  f.has("bins")
                      ? StateLevels.histogramMode(f.whole("bins"))
                      : StateLevels.histogramMode())
          .add("histogramMean", "", f -> StateLevels.histogramMean())
          .add("peakMagnitude", "", f -> StateLevels.peakMagnitude())
          .add(
              "given",
              "lowVolts highVolts",
              f -> StateLevels.given(f.number("lowVolts"), f.number("highVolts")));

  static final Kinds<ReferenceLevels> REFERENCE_LEVELS =
      new Kinds<ReferenceLevels>("reference levels")
          .add(
              "percent",
              "lowPercent midPercent highPercent",
              f ->
                  ReferenceLevels.percent(
                      f.number("lowPercent"), f.number("midPercent"), f.number("highPercent")))
          .add(
              "volts",
              "lowVolts midVolts highVolts",
              f ->
                  ReferenceLevels.volts(
                      f.number("lowVolts"), f.number("midVolts"), f.number("highVolts")));

  private static final String METHOD =
      "stateLevels? referenceLevels? hysteresisPercent? regionDurations? settlingPercent?"
          + " settlingDelayDurations? flatPercent? summary?";
  private static final Map<String, Summary> SUMMARIES = summaries();

  private PulseReadingKinds() {}

  static void addTo(Kinds<Reading> kinds) {
    for (PulseQuantity quantity : PulseQuantity.values()) {
      kinds.add(
          kind(quantity),
          METHOD,
          f ->
              PulseReadings.of(
                  quantity,
                  method(f),
                  f.has("summary") ? f.oneOf("summary", SUMMARIES) : quantity.summary()));
    }
  }

  private static String kind(PulseQuantity quantity) {
    return switch (quantity) {
      case LOW_LEVEL -> "lowStateLevel";
      case HIGH_LEVEL -> "highStateLevel";
      case POSITIVE_DURATION -> "positivePulseDuration";
      case NEGATIVE_DURATION -> "negativePulseDuration";
      default -> camelCase(quantity.name());
    };
  }

  private static Map<String, Summary> summaries() {
    Map<String, Summary> named = new LinkedHashMap<>();
    for (Summary summary : Summary.values()) {
      named.put(camelCase(summary.name()), summary);
    }
    return named;
  }

  private static String camelCase(String constant) {
    StringBuilder name = new StringBuilder();
    for (String word : constant.toLowerCase(Locale.ROOT).split("_")) {
      name.append(
          name.isEmpty()
              ? word
              : word.substring(0, 1).toUpperCase(Locale.ROOT) + word.substring(1));
    }
    return name.toString();
  }

  private static PulseMethod method(Fields fields) {
    PulseMethod usual = PulseMethod.standard();
    return new PulseMethod(
        fields.has("stateLevels") ? STATE_LEVELS.read(fields.child("stateLevels")) : usual.levels(),
        fields.has("referenceLevels")
            ? REFERENCE_LEVELS.read(fields.child("referenceLevels"))
            : usual.references(),
        fields.numberOr("hysteresisPercent", usual.hysteresisPercent()),
        fields.numberOr("regionDurations", usual.regionDurations()),
        fields.numberOr("settlingPercent", usual.settlingPercent()),
        fields.numberOr("settlingDelayDurations", usual.settlingDelayDurations()),
        fields.numberOr("flatPercent", usual.flatPercent()));
  }
}
