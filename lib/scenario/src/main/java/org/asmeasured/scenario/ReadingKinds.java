package org.asmeasured.scenario;

import java.util.LinkedHashMap;
import java.util.Map;
import org.asmeasured.acquisition.Reconstruction;
import org.asmeasured.characterisation.CharacterisationReadings;
import org.asmeasured.measure.Reading;
import org.asmeasured.measure.Readings;

/** The readings that a scenario can ask for. */
final class ReadingKinds {
  private static final Map<String, Reconstruction> RECONSTRUCTIONS = reconstructions();

  static final Kinds<Reading> READINGS = kinds();

  private ReadingKinds() {}

  private static Kinds<Reading> kinds() {
    Kinds<Reading> kinds = new Kinds<Reading>("reading");
    kinds
        .add("mean", "", f -> Readings.mean())
        .add("rms", "", f -> Readings.rms())
        .add("acRms", "", f -> Readings.acRms())
        .add("minimum", "", f -> Readings.minimum())
        .add("maximum", "", f -> Readings.maximum())
        .add("peakToPeak", "", f -> Readings.peakToPeak())
        .add("percentile", "percent", f -> Readings.percentile(f.number("percent")));
    PulseReadingKinds.addTo(kinds);
    SpectrumReadingKinds.addTo(kinds);
    return kinds
        .add("sineAmplitude", "", f -> CharacterisationReadings.sineAmplitude())
        .add("sineFrequency", "", f -> CharacterisationReadings.sineFrequency())
        .add("sineOffset", "", f -> CharacterisationReadings.sineOffset())
        .add("residualNoise", "", f -> CharacterisationReadings.residualNoise())
        .add(
            "effectiveBitsBySineFit",
            "fullScaleVolts",
            f -> CharacterisationReadings.effectiveBits(f.number("fullScaleVolts")))
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
}
