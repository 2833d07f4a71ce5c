package org.asmeasured.scenario;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.asmeasured.acquisition.Reconstruction;
import org.asmeasured.measure.Reading;
import org.asmeasured.measure.Readings;
import org.asmeasured.pulse.PulseReadings;

/** The readings that a scenario can ask for. */
final class ReadingKinds {
  private static final Map<String, Reconstruction> RECONSTRUCTIONS = reconstructions();

  static final Kinds<Reading> READINGS = kinds();

  private ReadingKinds() {}

  private static Kinds<Reading> kinds() {
    Kinds<Reading> kinds = new Kinds<Reading>("reading");
    return kinds
        .add("mean", "", f -> Readings.mean())
        .add("rms", "", f -> Readings.rms())
        .add("acRms", "", f -> Readings.acRms())
        .add("minimum", "", f -> Readings.minimum())
        .add("maximum", "", f -> Readings.maximum())
        .add("peakToPeak", "", f -> Readings.peakToPeak())
        .add("period", "", f -> PulseReadings.period())
        .add("riseTime", "lowVolts? highVolts?", ReadingKinds::riseTime)
        .add("reconstructed", "reading reconstruction factor", f -> reconstructed(f, kinds));
  }

  private static Map<String, Reconstruction> reconstructions() {
    Map<String, Reconstruction> named = new LinkedHashMap<>();
    named.put("none", Reconstruction.none());
    named.put("linear", Reconstruction.linear());
    named.put("sinc", Reconstruction.sinc());
    return named;
  }

  private static Reading reconstructed(Fields fields, Kinds<Reading> kinds) {
    return Readings.reconstructed(
        kinds.read(fields.child("reading")),
        fields.oneOf("reconstruction", RECONSTRUCTIONS),
        fields.whole("factor"));
  }

  private static Reading riseTime(Fields fields) {
    if (!fields.has("lowVolts") && !fields.has("highVolts")) {
      return PulseReadings.riseTime();
    }
    for (String key : List.of("lowVolts", "highVolts")) {
      if (!fields.has(key)) {
        throw fields
            .node()
            .refused(
                "key \"" + key + "\", in V, is missing: the levels are given both or not at all");
      }
    }
    return PulseReadings.riseTime(fields.number("lowVolts"), fields.number("highVolts"));
  }
}
