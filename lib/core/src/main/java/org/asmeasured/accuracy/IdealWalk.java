package org.asmeasured.accuracy;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Supplier;
import org.asmeasured.acquisition.Pick;
import org.asmeasured.capture.Setup;
import org.asmeasured.digitizer.Converter;
import org.asmeasured.digitizer.ConverterNoise;
import org.asmeasured.digitizer.Sampler;
import org.asmeasured.frontend.AnalogStage;
import org.asmeasured.frontend.Bandwidth;
import org.asmeasured.frontend.Coupling;
import org.asmeasured.frontend.FrontEnd;
import org.asmeasured.frontend.Loading;
import org.asmeasured.frontend.Noise;
import org.asmeasured.frontend.Saturation;
import org.asmeasured.frontend.SourceJitter;
import org.asmeasured.frontend.SourceNoise;
import org.asmeasured.linear.Response;
import org.asmeasured.measure.Measured.NotTaken;

/**
 * A setup with one of its stages ideal at a time, in the order of the chain and by the names of
 * {@link ChainWalk}. Sampling is no stage that could be ideal with all others as they are.
 */
final class IdealWalk {
  private final Setup whole;
  private final FrontEnd frontEnd;
  private final List<Step> steps = new ArrayList<>();

  /** A stage, and the setup with that stage ideal; or why there is none. */
  record Step(String stage, Setup setup, NotTaken reason) {
    boolean isTrigger() {
      return stage.equals(ChainWalk.TRIGGER);
    }
  }

  /** What is left of a network, as a stage. */
  private record Rest(Response response) implements AnalogStage {
    @Override
    public String name() {
      return "the rest of the network";
    }
  }

  IdealWalk(Setup setup) {
    whole = setup;
    frontEnd = setup.frontEnd();
    List<AnalogStage> network = frontEnd.loading().steps();
    for (int k = 0; k < network.size(); k++) {
      int left = k;
      add(network.get(k).name(), () -> setup.frontEnd(with(LeftOut.of(network, left))));
    }
    Coupling coupling = frontEnd.coupling();
    if (!coupling.isIdeal()) {
      add(coupling.name(), () -> setup.coupling(Coupling.dc()));
    }
    for (int i = 0; i < frontEnd.own().size(); i++) {
      AnalogStage stage = frontEnd.own().get(i);
      List<AnalogStage> others = new ArrayList<>(frontEnd.own());
      others.remove(i);
      if (!stage.isIdeal()) {
        add(stage.name(), () -> setup.frontEnd(with(frontEnd.loading(), others)));
      }
    }
    if (!setup.vertical().isExact()) {
      add(ChainWalk.VERTICAL, () -> setup.vertical(setup.vertical().withoutErrors()));
    }
    if (!frontEnd.saturation().isIdeal()) {
      add(ChainWalk.SATURATION, () -> setup.saturation(Saturation.none()));
    }
    if (!frontEnd.bandwidth().isIdeal()) {
      add(frontEnd.bandwidth().name(), () -> setup.bandwidth(Bandwidth.unlimited()));
    }
    if (!frontEnd.limit().isIdeal()) {
      add(ChainWalk.LIMIT, () -> setup.limit(Bandwidth.unlimited()));
    }
    addRandom();
    addDigital();
  }

  private void addRandom() {
    if (!frontEnd.sourceNoise().isNone()) {
      add(ChainWalk.SOURCE_NOISE, () -> whole.sourceNoise(SourceNoise.none()));
    }
    if (!frontEnd.sourceJitter().isNone()) {
      add(ChainWalk.SOURCE_JITTER, () -> whole.sourceJitter(SourceJitter.none()));
    }
    if (!frontEnd.noise().isNone()) {
      add(ChainWalk.NOISE, () -> whole.noise(Noise.none()));
    }
    if (!whole.sampler().isIdeal()) {
      add(ChainWalk.SAMPLER, () -> whole.sampler(Sampler.ideal()));
    }
    if (!whole.converterNoise().isIdeal()) {
      add(ChainWalk.CONVERTER_NOISE, () -> whole.converterNoise(ConverterNoise.none()));
    }
  }

  private void addDigital() {
    if (!whole.converter().isIdeal()) {
      add(ChainWalk.CONVERTER, () -> whole.converter(Converter.none()));
    }
    if (!whole.decimation().isIdeal(whole.converter().bits())) {
      if (ChainWalk.fits(whole)) {
        int raws = whole.points() * whole.decimation().factor();
        add(ChainWalk.DECIMATION, () -> whole.decimation(new Pick(1)).points(raws));
      } else {
        steps.add(new Step(ChainWalk.DECIMATION, null, new NotTaken(ChainWalk.TOO_MANY)));
      }
    }
    if (!whole.ensemble().isSingle()) {
      add(ChainWalk.ensemble(whole), () -> whole.averaging(1));
    }
    if (whole.trigger().isPresent()) {
      add(ChainWalk.TRIGGER, whole::untriggered);
    }
  }

  private void add(String stage, Supplier<Setup> setup) {
    try {
      steps.add(new Step(stage, setup.get(), null));
    } catch (IllegalArgumentException e) {
      steps.add(new Step(stage, null, new NotTaken(e.getMessage())));
    }
  }

  /** The front end with what is left of its network in the network's place. */
  private FrontEnd with(Response rest) {
    Coupling coupling = frontEnd.coupling().isCapacitor() ? Coupling.dc() : frontEnd.coupling();
    FrontEnd ideal = FrontEnd.ideal();
    List<AnalogStage> stages = new ArrayList<>();
    stages.add(new Rest(rest));
    stages.addAll(frontEnd.own());
    return with(new Loading(ideal.source(), ideal.probe(), ideal.termination(), coupling), stages);
  }

  private FrontEnd with(Loading loading, List<AnalogStage> own) {
    return new FrontEnd(
        loading,
        frontEnd.rating(),
        own,
        frontEnd.bandwidth(),
        frontEnd.limit(),
        frontEnd.saturation(),
        frontEnd.noise(),
        frontEnd.sourceNoise(),
        frontEnd.sourceJitter());
  }

  List<Step> steps() {
    return steps;
  }
}
