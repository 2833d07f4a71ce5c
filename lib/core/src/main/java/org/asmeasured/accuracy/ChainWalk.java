package org.asmeasured.accuracy;

import java.util.ArrayList;
import java.util.List;
import org.asmeasured.acquisition.Pick;
import org.asmeasured.capture.Setup;
import org.asmeasured.digitizer.Converter;
import org.asmeasured.digitizer.ConverterNoise;
import org.asmeasured.digitizer.Sampler;
import org.asmeasured.frontend.AnalogStage;
import org.asmeasured.frontend.FrontEnd;
import org.asmeasured.frontend.VerticalScale;

/**
 * The setups between the ideal one and a given one, each with one more stage than the one before.
 */
final class ChainWalk {
  /** More raw samples than this are not held at a time. */
  private static final long MAX_RAW = 1L << 26;

  static final String VERTICAL = "vertical gain and offset";
  static final String SATURATION = "amplifier saturation";
  static final String LIMIT = "bandwidth limit";
  static final String SOURCE_NOISE = "source noise";
  static final String SOURCE_JITTER = "source jitter";
  static final String NOISE = "amplifier noise";
  static final String SAMPLER = "clock, jitter and cores";
  static final String CONVERTER_NOISE = "converter noise";
  static final String CONVERTER = "quantisation";
  static final String DECIMATION = "decimation";
  static final String TRIGGER = "trigger";

  static final String TOO_MANY = "there are more raw samples than are held at a time";

  private final List<Step> analog = new ArrayList<>();
  private final List<Step> digital = new ArrayList<>();

  /** A stage, and the setup in which it is the last; null where that would not fit. */
  record Step(String stage, Setup setup) {
    /** Whether another seed may give another record. */
    boolean isRandom() {
      return setup != null && !setup.isRepeatable();
    }
  }

  ChainWalk(Setup setup, double startSeconds) {
    FrontEnd whole = setup.frontEnd();
    Setup sofar =
        raw(setup)
            .untriggered()
            .startingAt(startSeconds)
            .sampler(Sampler.ideal())
            .converterNoise(ConverterNoise.none())
            .converter(Converter.none())
            .frontEnd(FrontEnd.ideal())
            .vertical(setup.vertical().withoutErrors());

    // What source, probe and termination do together is switched in element by element.
    for (AnalogStage step : whole.loading().steps()) {
      sofar = sofar.frontEnd(FrontEnd.ideal().withStage(step));
      // a real probe has its row even where, trimmed to the last digit, it changes nothing
      analog.add(new Step(step.name(), sofar));
    }
    // The coupling comes last of the network; as a filter it is a stage by itself.
    sofar = sofar.frontEnd(FrontEnd.ideal().withLoading(whole.loading()));
    add(whole.coupling(), sofar);
    for (AnalogStage stage : whole.own()) {
      sofar = sofar.stage(stage);
      add(stage, sofar);
    }
    VerticalScale vertical = setup.vertical();
    sofar = sofar.vertical(vertical);
    if (!vertical.isExact()) {
      analog.add(new Step(VERTICAL, sofar));
    }
    if (!whole.saturation().isIdeal()) {
      sofar = sofar.saturation(whole.saturation());
      analog.add(new Step(SATURATION, sofar));
    }
    sofar = sofar.bandwidth(whole.bandwidth());
    add(whole.bandwidth(), sofar);
    sofar = sofar.limit(whole.limit());
    if (!whole.limit().isIdeal()) {
      analog.add(new Step(LIMIT, sofar));
    }

    boolean fits = fits(setup);
    digital.add(new Step("sampling", fits ? sofar : null));
    if (!whole.sourceNoise().isNone()) {
      sofar = sofar.sourceNoise(whole.sourceNoise());
      digital.add(new Step(SOURCE_NOISE, fits ? sofar : null));
    }
    if (!whole.sourceJitter().isNone()) {
      sofar = sofar.sourceJitter(whole.sourceJitter());
      digital.add(new Step(SOURCE_JITTER, fits ? sofar : null));
    }
    if (!whole.noise().isNone()) {
      sofar = sofar.noise(whole.noise());
      digital.add(new Step(NOISE, fits ? sofar : null));
    }
    if (!setup.sampler().isIdeal()) {
      sofar = sofar.sampler(setup.sampler());
      digital.add(new Step(SAMPLER, fits ? sofar : null));
    }
    if (!setup.converterNoise().isIdeal()) {
      sofar = sofar.converterNoise(setup.converterNoise());
      digital.add(new Step(CONVERTER_NOISE, fits ? sofar : null));
    }
    sofar = sofar.converter(setup.converter());
    if (!setup.converter().isIdeal()) {
      digital.add(new Step(CONVERTER, fits ? sofar : null));
    }
    sofar = sofar.points(setup.points()).decimation(setup.decimation());
    if (!setup.decimation().isIdeal(setup.converter().bits())) {
      digital.add(new Step(DECIMATION, sofar));
    }
    if (!setup.ensemble().isSingle()) {
      sofar = sofar.ensemble(setup.ensemble());
      digital.add(new Step(ensemble(setup), sofar));
    }
    if (setup.trigger().isPresent()) {
      digital.add(new Step(TRIGGER, setup));
    }
  }

  /** Whether all raw samples of the span can be held. */
  static boolean fits(Setup setup) {
    int factor = setup.decimation().factor();
    return factor == 1 || (long) setup.points() * factor <= MAX_RAW;
  }

  /** What is done over acquisitions, as a row says it. */
  static String ensemble(Setup setup) {
    return setup.ensemble().isEnvelope() ? "envelope" : "averaging";
  }

  /** All raw samples of the span, single. */
  static Setup raw(Setup setup) {
    long samples = (long) setup.points() * setup.decimation().factor();
    return setup
        .averaging(1)
        .decimation(new Pick(1))
        .points((int) Math.min(samples, Setup.MAX_POINTS));
  }

  private void add(AnalogStage stage, Setup sofar) {
    if (!stage.isIdeal()) {
      analog.add(new Step(stage.name(), sofar));
    }
  }

  List<Step> analog() {
    return analog;
  }

  List<Step> digital() {
    return digital;
  }
}
