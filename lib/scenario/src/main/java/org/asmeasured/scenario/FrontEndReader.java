package org.asmeasured.scenario;

import java.util.List;
import org.asmeasured.frontend.Coupling;
import org.asmeasured.frontend.FrontEnd;
import org.asmeasured.frontend.Loading;
import org.asmeasured.frontend.Probe;
import org.asmeasured.frontend.Saturation;
import org.asmeasured.frontend.Source;
import org.asmeasured.frontend.Termination;

/** The front ends that a scenario can say. */
final class FrontEndReader {
  static final Kinds<Coupling> COUPLINGS =
      new Kinds<Coupling>("coupling")
          .add("dc", "", f -> Coupling.dc())
          .add("ac", "cornerHz", f -> Coupling.ac(f.number("cornerHz")))
          .add("capacitor", "farads", f -> Coupling.capacitor(f.number("farads")));

  static final List<String> KEYS =
      List.of(
          "sourceOhms",
          "sourceFarads",
          "sourceReferenceVolts",
          "sourceNoise",
          "sourceJitter",
          "probe",
          "termination",
          "inputRating",
          "coupling",
          "ownStages",
          "noise",
          "saturation",
          "bandwidth",
          "limit");

  static final List<String> SATURATION =
      List.of("lowVolts", "highVolts", "recoveryFraction", "recoverySeconds");

  private FrontEndReader() {}

  /** The front end that the fields of a setup say. */
  static FrontEnd read(Fields fields) {
    FrontEnd frontEnd =
        FrontEnd.ideal()
            .withLoading(loading(fields))
            .withRating(ProbeKinds.rating(fields, "inputRating"));
    if (fields.has("ownStages")) {
      for (Json stage : fields.list("ownStages")) {
        frontEnd =
            frontEnd.withStage(
                Fields.of(stage, "a stage", List.of("name", "response"), List.of())
                    .build(
                        f ->
                            new OwnStage(
                                f.text("name"),
                                ResponseKinds.RESPONSES.read(f.child("response")))));
      }
    }
    if (fields.has("bandwidth")) {
      frontEnd = frontEnd.withBandwidth(ResponseKinds.BANDWIDTHS.read(fields.child("bandwidth")));
    }
    if (fields.has("limit")) {
      frontEnd = frontEnd.withLimit(ResponseKinds.BANDWIDTHS.read(fields.child("limit")));
    }
    if (fields.has("saturation")) {
      frontEnd = frontEnd.withSaturation(saturation(fields.child("saturation")));
    }
    if (fields.has("noise")) {
      frontEnd = frontEnd.withNoise(NoiseKinds.amplifier(fields.child("noise")));
    }
    if (fields.has("sourceNoise")) {
      frontEnd = frontEnd.withSourceNoise(NoiseKinds.SOURCES.read(fields.child("sourceNoise")));
    }
    if (fields.has("sourceJitter")) {
      frontEnd = frontEnd.withSourceJitter(NoiseKinds.jitter(fields.child("sourceJitter")));
    }
    return frontEnd;
  }

  static Saturation saturation(Json node) {
    return Fields.of(node, "saturation", List.of(), SATURATION)
        .build(
            f -> {
              if (!f.has("lowVolts") && !f.has("highVolts")) {
                throw f.node()
                    .refused(
                        "keys \"lowVolts\" and \"highVolts\" are missing: saturation must have at least one of them");
              }
              if (f.has("recoveryFraction") != f.has("recoverySeconds")) {
                throw f.node()
                    .refused(
                        "key \""
                            + (f.has("recoveryFraction") ? "recoverySeconds" : "recoveryFraction")
                            + "\" is missing: fraction and time of a recovery are given both or not at all");
              }
              Saturation none = Saturation.none();
              return new Saturation(
                  f.numberOr("lowVolts", none.lowVolts()),
                  f.numberOr("highVolts", none.highVolts()),
                  f.numberOr("recoveryFraction", none.recoveryFraction()),
                  f.numberOr("recoverySeconds", none.recoverySeconds()));
            });
  }

  // At once, because the elements are solved together: half of them may not be solvable.
  private static Loading loading(Fields fields) {
    return new Loading(
        new Source(
            fields.numberOr("sourceOhms", 0),
            fields.numberOr("sourceFarads", 0),
            fields.numberOr("sourceReferenceVolts", 0)),
        fields.has("probe") ? ProbeKinds.PROBES.read(fields.child("probe")) : Probe.direct(),
        fields.has("termination")
            ? ProbeKinds.termination(fields.child("termination"), "termination")
            : Termination.oneMegohm(),
        fields.has("coupling") ? COUPLINGS.read(fields.child("coupling")) : Coupling.dc());
  }
}
