package org.asmeasured.scenario;

import java.util.List;
import org.asmeasured.digitizer.ConverterNoise;
import org.asmeasured.frontend.Noise;
import org.asmeasured.frontend.SourceJitter;
import org.asmeasured.frontend.SourceNoise;

/** The noise that a scenario can say: of the source, of the amplifier, of the converter. */
final class NoiseKinds {
  static final Kinds<SourceNoise> SOURCES =
      new Kinds<SourceNoise>("source noise")
          .add(
              "white",
              "densityVoltsPerRootHz",
              f -> new SourceNoise(f.number("densityVoltsPerRootHz")))
          .add(
              "thermal",
              "ohms kelvin",
              f -> SourceNoise.thermal(f.number("ohms"), f.number("kelvin")));

  static final List<String> AMPLIFIER =
      List.of("densityVoltsPerRootHz", "cornerHz", "lowestHz", "shareOfFullScale");
  static final List<String> CONVERTER = List.of("rmsOfFullScale");

  static final List<String> JITTER = List.of("rmsSeconds");
  static final List<String> JITTER_OPTIONAL = List.of("device");

  private NoiseKinds() {}

  static SourceJitter jitter(Json node) {
    return Fields.of(node, "source jitter", JITTER, JITTER_OPTIONAL)
        .build(f -> new SourceJitter(f.number("rmsSeconds"), f.wholeOr("device", 0)));
  }

  static Noise amplifier(Json node) {
    return Fields.of(node, "noise", List.of(), AMPLIFIER)
        .build(
            f ->
                new Noise(
                    f.numberOr("densityVoltsPerRootHz", 0),
                    f.numberOr("cornerHz", 0),
                    f.numberOr("lowestHz", 0),
                    f.numberOr("shareOfFullScale", 0)));
  }

  static ConverterNoise converter(Json node) {
    return Fields.of(node, "converter noise", CONVERTER, List.of())
        .build(f -> new ConverterNoise(f.number("rmsOfFullScale")));
  }
}
