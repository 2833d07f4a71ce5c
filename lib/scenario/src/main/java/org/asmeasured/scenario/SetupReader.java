package org.asmeasured.scenario;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;
import org.asmeasured.acquisition.Boxcar;
import org.asmeasured.acquisition.Decimation;
import org.asmeasured.acquisition.Ensemble;
import org.asmeasured.acquisition.PeakDetect;
import org.asmeasured.acquisition.Pick;
import org.asmeasured.acquisition.RollingBoxcar;
import org.asmeasured.capture.Setup;
import org.asmeasured.digitizer.Converter;
import org.asmeasured.digitizer.Sampler;
import org.asmeasured.frontend.VerticalScale;
import org.asmeasured.internal.Require;

/**
 * The setups that a scenario can say: each stage of the chain under its own key. A stage left out
 * is ideal.
 */
final class SetupReader {
  static final Kinds<Decimation> DECIMATIONS =
      new Kinds<Decimation>("decimation")
          .add("pick", "factor", f -> new Pick(f.whole("factor")))
          .add("peakDetect", "factor", f -> new PeakDetect(f.whole("factor")))
          .add(
              "boxcar",
              "factor storedBits?",
              f ->
                  f.has("storedBits")
                      ? new Boxcar(f.whole("factor"), storedBits(f))
                      : Boxcar.of(f.whole("factor")))
          .add(
              "rollingBoxcar",
              "length storedBits?",
              f ->
                  f.has("storedBits")
                      ? new RollingBoxcar(f.whole("length"), storedBits(f))
                      : RollingBoxcar.of(f.whole("length")));

  static final Kinds<Ensemble> ENSEMBLES =
      new Kinds<Ensemble>("ensemble")
          .add("single", "", f -> Ensemble.single())
          .add("average", "count", f -> Ensemble.averageOf(f.whole("count")))
          .add("envelope", "count", f -> Ensemble.envelopeOf(f.whole("count")));

  static final List<String> REQUIRED = List.of("sampling");
  static final List<String> OPTIONAL = optional();

  private SetupReader() {}

  private static List<String> optional() {
    List<String> keys = new ArrayList<>(FrontEndReader.KEYS);
    keys.addAll(
        List.of(
            "vertical",
            "sampler",
            "converterNoise",
            "converter",
            "decimation",
            "trigger",
            "ensemble"));
    return List.copyOf(keys);
  }

  // Zero, the library's word for "as many as the mean is worth", is said by leaving the key out.
  private static int storedBits(Fields fields) {
    return Require.inRange("storedBits", fields.whole("storedBits"), 1, Converter.MAX_BITS);
  }

  /** What a channel beside the first one has of its own. */
  static final List<String> FURTHER = further();

  private static List<String> further() {
    List<String> keys = new ArrayList<>(FrontEndReader.KEYS);
    keys.addAll(List.of("vertical", "converterNoise", "converter"));
    return List.copyOf(keys);
  }

  /** The setup of a channel beside the first one: clock, sampler, decimation, ensemble are its. */
  static Setup further(Json node, Setup first) {
    Setup common =
        Setup.ideal(first.rateHz(), first.points())
            .startingAt(first.startSeconds())
            .sampler(first.sampler());
    return Fields.of(node, "setup", List.of(), FURTHER)
        .build(f -> own(common, f).decimation(first.decimation()).ensemble(first.ensemble()));
  }

  static Setup read(Json node) {
    return Fields.of(node, "setup", REQUIRED, OPTIONAL).build(SetupReader::setup);
  }

  private static Setup setup(Fields fields) {
    Fields sampling =
        Fields.of(
            fields.child("sampling"),
            "sampling",
            List.of("rateHz", "points"),
            List.of("startSeconds"));
    Setup setup =
        sampling.build(
            f ->
                Setup.ideal(f.number("rateHz"), f.whole("points"))
                    .startingAt(f.numberOr("startSeconds", 0)));
    if (fields.has("sampler")) {
      setup = setup.sampler(SamplerReader.read(fields.child("sampler")));
    }
    setup = own(setup, fields);
    if (fields.has("decimation")) {
      setup = setup.decimation(DECIMATIONS.read(fields.child("decimation")));
    }
    if (fields.has("trigger")) {
      setup = setup.trigger(TriggerReader.read(fields.child("trigger")));
    }
    if (fields.has("ensemble")) {
      setup = setup.ensemble(ENSEMBLES.read(fields.child("ensemble")));
    }
    return setup;
  }

  /** What each channel has of its own. */
  private static Setup own(Setup common, Fields fields) {
    Setup setup = common.frontEnd(FrontEndReader.read(fields));
    if (fields.has("vertical")) {
      setup = setup.vertical(vertical(fields.child("vertical")));
    }
    if (fields.has("converterNoise")) {
      setup = setup.converterNoise(NoiseKinds.converter(fields.child("converterNoise")));
    }
    if (!fields.has("vertical") && needsFullScale(setup)) {
      throw fields
          .node()
          .refused("key \"vertical\" is missing: a share of full scale needs to know full scale");
    }
    if (fields.has("converter")) {
      Converter converter = ConverterKinds.CONVERTERS.read(fields.child("converter"));
      if (!converter.isIdeal() && !fields.has("vertical")) {
        throw fields
            .node()
            .refused("key \"vertical\" is missing: it says what the converter spans");
      }
      setup = setup.converter(converter);
    }
    return setup;
  }

  private static boolean needsFullScale(Setup setup) {
    Sampler sampler = setup.sampler();
    return !setup.converterNoise().isIdeal()
        || setup.frontEnd().noise().shareOfFullScale() != 0
        || IntStream.range(0, sampler.cores()).anyMatch(c -> sampler.core(c).offsetError() != 0);
  }

  static VerticalScale vertical(Json node) {
    return Fields.of(
            node,
            "vertical",
            List.of("voltsPerDivision"),
            List.of("divisions", "offsetVolts", "gainError", "offsetError"))
        .build(
            f -> {
              VerticalScale usual = VerticalScale.of(f.number("voltsPerDivision"));
              return new VerticalScale(
                  usual.voltsPerDivision(),
                  f.wholeOr("divisions", usual.divisions()),
                  f.numberOr("offsetVolts", usual.offsetVolts()),
                  f.numberOr("gainError", usual.gainError()),
                  f.numberOr("offsetError", usual.offsetError()));
            });
  }
}
