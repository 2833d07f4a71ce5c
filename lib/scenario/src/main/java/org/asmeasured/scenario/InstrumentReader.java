package org.asmeasured.scenario;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.asmeasured.accuracy.Parameter;
import org.asmeasured.accuracy.Parameters;
import org.asmeasured.accuracy.Tolerances;
import org.asmeasured.advice.Choices;
import org.asmeasured.advice.Instrument;
import org.asmeasured.capture.Setup;
import org.asmeasured.frontend.FrontEnd;
import org.asmeasured.frontend.Probe;
import org.asmeasured.scenario.Json.Type;
import org.asmeasured.uncertainty.Input;

/** Reads descriptions of instruments and of probes. */
final class InstrumentReader {
  static final List<String> REQUIRED =
      List.of("formatVersion", "name", "notes", "setup", "mostRateHz", "mostPoints");
  static final List<String> OPTIONAL = List.of("$schema", "tolerances", "offers");
  static final List<String> SETUP =
      List.of(
          "termination",
          "inputRating",
          "noise",
          "saturation",
          "bandwidth",
          "limit",
          "sampler",
          "converterNoise",
          "converter");
  static final List<String> PROBE = List.of("formatVersion", "name", "notes", "probe");
  static final List<String> PROBE_OPTIONAL = List.of("$schema", "tolerances");

  private static final int FORMAT_VERSION = 1;
  private static final int MOST = 100;

  private InstrumentReader() {}

  static DescribedInstrument instrument(Json root) {
    return Fields.of(root, "instrument", REQUIRED, OPTIONAL)
        .build(
            f -> {
              version(f);
              String name = f.text("name");
              Setup setup = setup(f.child("setup"));
              double mostRateHz = f.number("mostRateHz");
              int mostPoints = f.whole("mostPoints");
              return new DescribedInstrument(
                  new Instrument(
                      name,
                      setup,
                      mostRateHz,
                      mostPoints,
                      Optional.empty(),
                      tolerances(
                          f, (sofar, p, i, at) -> PossibleTolerance.with(sofar, p, i, setup, at)),
                      f.has("offers")
                          ? OffersReader.read(f.child("offers"), mostRateHz, mostPoints)
                          : Choices.none()),
                  notes(f));
            });
  }

  static DescribedProbe probe(Json root) {
    return Fields.of(root, "probe", PROBE, PROBE_OPTIONAL)
        .build(
            f -> {
              version(f);
              String name = f.text("name");
              List<String> notes = notes(f);
              Probe probe = ProbeKinds.PROBES.read(f.child("probe"));
              return new DescribedProbe(
                  name,
                  notes,
                  probe,
                  tolerances(
                      f, (sofar, p, i, at) -> PossibleTolerance.with(sofar, p, i, probe, at)));
            });
  }

  private static void version(Fields fields) {
    if (fields.whole("formatVersion") != FORMAT_VERSION) {
      Json version = fields.child("formatVersion");
      throw version.refused("formatVersion = " + version.shown() + ": must be " + FORMAT_VERSION);
    }
    if (fields.has("$schema")) {
      fields.text("$schema");
    }
  }

  private static List<String> notes(Fields fields) {
    List<String> notes = new ArrayList<>();
    for (Json note : items(fields, "notes")) {
      if (note.type != Type.STRING || note.text.isBlank()) {
        throw note.refused(
            "notes: " + note.shown() + " must be a text with at least one character that shows");
      }
      notes.add(note.text);
    }
    return notes;
  }

  /** The parts that belong to the instrument; source, probe and record belong to a measurement. */
  private static Setup setup(Json node) {
    return Fields.of(node, "setup of an instrument", List.of("vertical"), SETUP)
        .build(
            f -> {
              Setup setup = Setup.ideal(1, 1).frontEnd(frontEnd(f));
              setup = setup.vertical(SetupReader.vertical(f.child("vertical")));
              if (f.has("sampler")) {
                setup = setup.sampler(SamplerReader.read(f.child("sampler")));
              }
              if (f.has("converterNoise")) {
                setup = setup.converterNoise(NoiseKinds.converter(f.child("converterNoise")));
              }
              return f.has("converter")
                  ? setup.converter(ConverterKinds.CONVERTERS.read(f.child("converter")))
                  : setup;
            });
  }

  private static FrontEnd frontEnd(Fields f) {
    FrontEnd frontEnd = FrontEnd.ideal().withRating(ProbeKinds.rating(f, "inputRating"));
    if (f.has("termination")) {
      frontEnd =
          frontEnd.withTermination(ProbeKinds.termination(f.child("termination"), "termination"));
    }
    if (f.has("bandwidth")) {
      frontEnd = frontEnd.withBandwidth(ResponseKinds.BANDWIDTHS.read(f.child("bandwidth")));
    }
    if (f.has("limit")) {
      frontEnd = frontEnd.withLimit(ResponseKinds.BANDWIDTHS.read(f.child("limit")));
    }
    if (f.has("saturation")) {
      frontEnd = frontEnd.withSaturation(FrontEndReader.saturation(f.child("saturation")));
    }
    return f.has("noise") ? frontEnd.withNoise(NoiseKinds.amplifier(f.child("noise"))) : frontEnd;
  }

  /** Adds a tolerance of a parameter, if it is possible; the fields are those of the tolerance. */
  private interface Adding {
    Tolerances with(Tolerances sofar, Parameter drawn, Input input, Fields fields);
  }

  /** What an instrument does not have, such as a limit that is off, is not looked for here. */
  private static Tolerances tolerances(Fields fields, Adding adding) {
    Tolerances tolerances = Tolerances.none();
    if (!fields.has("tolerances")) {
      return tolerances;
    }
    for (Json item : items(fields, "tolerances")) {
      Tolerances sofar = tolerances;
      tolerances =
          Fields.of(
                  item,
                  "a tolerance",
                  AssessmentReader.TOLERANCE,
                  AssessmentReader.TOLERANCE_OPTIONAL)
              .build(f -> tolerance(sofar, f, adding));
    }
    return tolerances;
  }

  private static Tolerances tolerance(Tolerances sofar, Fields f, Adding adding) {
    Parameter named = f.oneOf("parameter", ParameterNames.PARAMETERS);
    Parameter drawn = f.flagOr("relative", false) ? Parameters.relative(named) : named;
    Input input =
        Input.of(
            f.has("name") ? f.text("name") : named.name(),
            drawn.unit(),
            DistributionKinds.DISTRIBUTIONS.read(f.child("distribution")));
    return adding.with(
        sofar,
        drawn,
        f.has("degreesOfFreedom")
            ? input.withDegreesOfFreedom(f.number("degreesOfFreedom"))
            : input,
        f);
  }

  private static List<Json> items(Fields fields, String key) {
    List<Json> items = fields.list(key);
    if (items.isEmpty() || items.size() > MOST) {
      throw fields
          .child(key)
          .refused(key + " has " + items.size() + " entries: must have from 1 to " + MOST);
    }
    return items;
  }
}
