package org.asmeasured.scenario;

import java.util.List;
import org.asmeasured.digitizer.Converter;
import org.asmeasured.digitizer.IdealConverter;
import org.asmeasured.digitizer.TransitionConverter;

/** The converters that a scenario can say. */
final class ConverterKinds {
  static final Kinds<Converter> CONVERTERS =
      new Kinds<Converter>("converter")
          .add("none", "", f -> Converter.none())
          .add("ideal", "bits", f -> new IdealConverter(f.whole("bits")))
          .add(
              "transitions",
              "bits transitionLevels? bowSteps? randomWalk? missingCodes? gainError? offsetErrorSteps?",
              ConverterKinds::transitions);

  private ConverterKinds() {}

  private static Converter transitions(Fields fields) {
    int bits = fields.whole("bits");
    TransitionConverter converter =
        fields.has("transitionLevels")
            ? TransitionConverter.of(bits, fields.numbers("transitionLevels"))
            : TransitionConverter.of(bits);
    if (fields.has("bowSteps")) {
      converter = converter.withBow(fields.numbers("bowSteps"));
    }
    if (fields.has("randomWalk")) {
      converter = withRandomWalk(converter, fields.child("randomWalk"));
    }
    if (fields.has("missingCodes")) {
      converter = converter.withMissingCodes(fields.wholes("missingCodes"));
    }
    return converter
        .withGainError(fields.numberOr("gainError", 0))
        .withOffsetError(fields.numberOr("offsetErrorSteps", 0));
  }

  private static TransitionConverter withRandomWalk(TransitionConverter converter, Json node) {
    return Fields.of(node, "a random walk", List.of("deviationSteps", "seed"), List.of())
        .build(f -> converter.withRandomWalk(f.number("deviationSteps"), f.seed("seed")));
  }
}
