package org.asmeasured.scenario;

import java.util.List;
import org.asmeasured.accuracy.Measurement;
import org.asmeasured.accuracy.Parameter;
import org.asmeasured.accuracy.Tolerances;
import org.asmeasured.acquisition.Trigger;
import org.asmeasured.capture.Setup;
import org.asmeasured.digitizer.ConverterNoise;
import org.asmeasured.frontend.Bandwidth;
import org.asmeasured.frontend.Coupling;
import org.asmeasured.frontend.GroundLead;
import org.asmeasured.frontend.Noise;
import org.asmeasured.frontend.PassiveDivider;
import org.asmeasured.frontend.Probe;
import org.asmeasured.frontend.Source;
import org.asmeasured.frontend.SourceJitter;
import org.asmeasured.frontend.SourceNoise;
import org.asmeasured.signal.Signals;
import org.asmeasured.uncertainty.Input;

/** Refuses a tolerance that reaches where its parameter cannot be, where a file states it. */
final class PossibleTolerance {
  /**
   * Every figure that a tolerance can have, for those that a description leaves to the measurement:
   * a limit that is offered, the trigger, the probe. Which values can be had does not depend on the
   * figures here, as a tolerance is of the figure itself or relative to it.
   */
  private static final Setup WHOLE =
      Setup.ideal(1e6, 1)
          .frontEnd(Setup.ideal(1, 1).frontEnd().withSource(new Source(50, 1e-12, 0)))
          .sourceNoise(new SourceNoise(1e-9))
          .sourceJitter(SourceJitter.of(1e-12))
          .probe(
              PassiveDivider.times10()
                  .withTrimmerError(0.01)
                  .withGroundLead(new GroundLead(100e-9, 100, 0))
                  .withBandwidth(Bandwidth.singlePole(200e6)))
          .coupling(Coupling.ac())
          .bandwidth(Bandwidth.singlePole(200e6))
          .limit(Bandwidth.singlePole(20e6))
          .noise(Noise.white(1e-9).withShareOfFullScale(1e-3))
          .converterNoise(new ConverterNoise(1e-3))
          .trigger(Trigger.at(1).hysteresis(0.1).jitter(1e-12));

  private PossibleTolerance() {}

  /** Of a description of an instrument. */
  static Tolerances with(Tolerances sofar, Parameter drawn, Input input, Setup own, Fields fields) {
    return with(
        sofar,
        drawn,
        input,
        List.of(
            new Measurement(Signals.constant(1), own), new Measurement(Signals.constant(1), WHOLE)),
        fields);
  }

  /** Of a description of a probe. */
  static Tolerances with(Tolerances sofar, Parameter drawn, Input input, Probe own, Fields fields) {
    return with(sofar, drawn, input, WHOLE.probe(own), fields);
  }

  /** Of a measurement, which must have the parameter. */
  static Tolerances with(
      Tolerances sofar, Parameter drawn, Input input, Measurement own, Fields fields) {
    drawn.of(own);
    return with(sofar, drawn, input, List.of(own), fields);
  }

  private static Tolerances with(
      Tolerances sofar, Parameter drawn, Input input, List<Measurement> all, Fields fields) {
    Tolerances changed = sofar.with(drawn, input);
    Tolerances alone = Tolerances.none().with(drawn, input);
    for (Measurement one : all) {
      try {
        alone.concerning(one).requirePossible(one);
      } catch (IllegalArgumentException e) {
        throw fields.child("distribution").refused(e.getMessage().replaceAll("\\.$", ""), e);
      }
    }
    return changed;
  }
}
