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

  private final List<Step> analog = new ArrayList<>();
  private final List<Step> digital = new ArrayList<>();

  /** A stage, and the setup in which it is the last; null where that would not fit. */
  record Step(String stage, Setup setup) {}

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
      add(step, sofar);
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
      analog.add(new Step("vertical gain and offset", sofar));
    }
    if (!whole.saturation().isIdeal()) {
      sofar = sofar.saturation(whole.saturation());
      analog.add(new Step("amplifier saturation", sofar));
    }
    sofar = sofar.bandwidth(whole.bandwidth());
    add(whole.bandwidth(), sofar);
    sofar = sofar.limit(whole.limit());
    if (!whole.limit().isIdeal()) {
      analog.add(new Step("bandwidth limit", sofar));
    }

    int factor = setup.decimation().factor();
    boolean fits = factor == 1 || (long) setup.points() * factor <= MAX_RAW;
    digital.add(new Step("sampling", fits ? sofar : null));
    if (!whole.sourceNoise().isNone()) {
      sofar = sofar.sourceNoise(whole.sourceNoise());
      digital.add(new Step("source noise", fits ? sofar : null));
    }
    if (!whole.sourceJitter().isNone()) {
      sofar = sofar.sourceJitter(whole.sourceJitter());
      digital.add(new Step("source jitter", fits ? sofar : null));
    }
    if (!whole.noise().isNone()) {
      sofar = sofar.noise(whole.noise());
      digital.add(new Step("amplifier noise", fits ? sofar : null));
    }
    if (!setup.sampler().isIdeal()) {
      sofar = sofar.sampler(setup.sampler());
      digital.add(new Step("clock, jitter and cores", fits ? sofar : null));
    }
    if (!setup.converterNoise().isIdeal()) {
      sofar = sofar.converterNoise(setup.converterNoise());
      digital.add(new Step("converter noise", fits ? sofar : null));
    }
    sofar = sofar.converter(setup.converter());
    if (!setup.converter().isIdeal()) {
      digital.add(new Step("quantisation", fits ? sofar : null));
    }
    sofar = sofar.points(setup.points()).decimation(setup.decimation());
    if (!setup.decimation().isIdeal(setup.converter().bits())) {
      digital.add(new Step("decimation", sofar));
    }
    if (!setup.ensemble().isSingle()) {
      sofar = sofar.ensemble(setup.ensemble());
      digital.add(new Step(setup.ensemble().isEnvelope() ? "envelope" : "averaging", sofar));
    }
    if (setup.trigger().isPresent()) {
      digital.add(new Step("trigger", setup));
    }
  }

  /** All raw samples of the span, single. */
  private static Setup raw(Setup setup) {
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
