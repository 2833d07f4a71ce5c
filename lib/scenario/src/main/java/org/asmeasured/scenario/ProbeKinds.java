package org.asmeasured.scenario;

import java.util.List;
import java.util.Optional;
import org.asmeasured.frontend.ActiveProbe;
import org.asmeasured.frontend.Bandwidth;
import org.asmeasured.frontend.CurrentProbe;
import org.asmeasured.frontend.GroundLead;
import org.asmeasured.frontend.InputRating;
import org.asmeasured.frontend.NetworkProbe;
import org.asmeasured.frontend.PassiveDivider;
import org.asmeasured.frontend.Probe;
import org.asmeasured.frontend.Termination;
import org.asmeasured.frontend.TimesOneProbe;

/** The probes that a scenario can say. What is left out is as the library's usual probe has it. */
final class ProbeKinds {
  private static final String COMMON = " bandwidth? groundLead? rating?";

  static final Kinds<Probe> PROBES =
      new Kinds<Probe>("probe")
          .add("direct", "", f -> Probe.direct())
          .add(
              "passiveDivider",
              "attenuation madeForOhms? cableFarads? trimmerError? trimmedAt?" + COMMON,
              ProbeKinds::divider)
          .add(
              "timesOne",
              "seriesOhms cableFarads" + COMMON,
              f ->
                  new TimesOneProbe(
                      f.number("seriesOhms"),
                      f.number("cableFarads"),
                      bandwidth(f),
                      groundLead(f),
                      rating(f, "rating")))
          .add(
              "active",
              "inputOhms inputFarads attenuation? outputOhms? madeForOhms?" + COMMON,
              ProbeKinds::active)
          .add(
              "current",
              "voltsPerAmpere bandwidth? rating?",
              f -> new CurrentProbe(f.number("voltsPerAmpere"), bandwidth(f), rating(f, "rating")))
          .add(
              "network",
              "words elements attenuation" + COMMON,
              f ->
                  new NetworkProbe(
                      f.text("words"),
                      NetworkKinds.read(f),
                      f.number("attenuation"),
                      bandwidth(f),
                      groundLead(f),
                      rating(f, "rating")));

  private ProbeKinds() {}

  private static Probe divider(Fields fields) {
    PassiveDivider usual = PassiveDivider.times(fields.number("attenuation"));
    return new PassiveDivider(
        usual.attenuation(),
        fields.numberOr("madeForOhms", usual.madeForOhms()),
        fields.numberOr("cableFarads", usual.cableFarads()),
        fields.numberOr("trimmerError", usual.trimmerError()),
        fields.has("trimmedAt")
            ? Optional.of(termination(fields.child("trimmedAt"), "trimmedAt"))
            : usual.trimmedAt(),
        bandwidth(fields),
        groundLead(fields),
        rating(fields, "rating"));
  }

  private static Probe active(Fields fields) {
    ActiveProbe usual =
        ActiveProbe.of(fields.number("inputOhms"), fields.number("inputFarads"), bandwidth(fields));
    return new ActiveProbe(
        usual.inputOhms(),
        usual.inputFarads(),
        fields.numberOr("attenuation", usual.attenuation()),
        new ActiveProbe.Output(
            fields.numberOr("outputOhms", usual.output().ohms()),
            fields.numberOr("madeForOhms", usual.output().madeForOhms())),
        usual.bandwidth(),
        groundLead(fields),
        rating(fields, "rating"));
  }

  private static Bandwidth bandwidth(Fields fields) {
    return fields.has("bandwidth")
        ? ResponseKinds.BANDWIDTHS.read(fields.child("bandwidth"))
        : Bandwidth.unlimited();
  }

  private static GroundLead groundLead(Fields fields) {
    if (!fields.has("groundLead")) {
      return GroundLead.none();
    }
    return Fields.of(
            fields.child("groundLead"),
            "a ground lead",
            List.of("henries"),
            List.of("ohms", "strayFarads"))
        .build(
            f ->
                new GroundLead(
                    f.number("henries"), f.numberOr("ohms", 0), f.numberOr("strayFarads", 0)));
  }

  /** The termination that an object says. */
  static Termination termination(Json node, String what) {
    return Fields.of(node, what, List.of("ohms", "farads"), List.of())
        .build(f -> new Termination(f.number("ohms"), f.number("farads")));
  }

  /** The rating under a key; none is stated where it is left out. */
  static InputRating rating(Fields fields, String key) {
    InputRating unstated = InputRating.unstated();
    if (!fields.has(key)) {
      return unstated;
    }
    return Fields.of(fields.child(key), "a rating", List.of(), List.of("peakVolts", "rmsVolts"))
        .build(
            f -> {
              if (!f.has("peakVolts") && !f.has("rmsVolts")) {
                throw f.node()
                    .refused(
                        "keys \"peakVolts\" and \"rmsVolts\" are missing: a rating must have at least one of them");
              }
              return new InputRating(
                  f.numberOr("peakVolts", unstated.peakVolts()),
                  f.numberOr("rmsVolts", unstated.rmsVolts()));
            });
  }
}
