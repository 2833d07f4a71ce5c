package org.asmeasured.accuracy;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import org.asmeasured.capture.Setup;
import org.asmeasured.frontend.Coupling;
import org.asmeasured.frontend.FrontEnd;
import org.asmeasured.frontend.GroundLead;
import org.asmeasured.frontend.PassiveDivider;
import org.asmeasured.frontend.Probe;
import org.asmeasured.frontend.Termination;
import org.asmeasured.frontend.VerticalScale;
import org.asmeasured.measure.Measured.Value;
import org.asmeasured.measure.Readings;
import org.asmeasured.signal.Signal;
import org.asmeasured.signal.Signals;
import org.junit.jupiter.api.Test;

/** Elements of a network act together; the table shows them one after another all the same. */
class ProbeByStageTest {
  private static final Signal SINE = Signals.sine(1, 20e6);

  private static double bias(Prediction prediction, String stage) {
    return prediction.byStage().stream()
        .filter(row -> row.stage().equals(stage))
        .findFirst()
        .orElseThrow()
        .bias()
        .orThrow();
  }

  @Test
  void inOrderAndAddingUp() {
    Setup setup =
        Setup.ideal(1e9, 2000)
            .source(500)
            .termination(new Termination(1e6, 15e-12))
            .coupling(Coupling.capacitor(1e-9))
            .probe(
                PassiveDivider.times10()
                    .withTrimmedAt(new Termination(1e6, 20e-12))
                    .withGroundLead(GroundLead.ofLength(100)))
            .vertical(VerticalScale.of(0.5).withGainError(0.01))
            .bits(10);
    Prediction p = Prediction.of(Readings.rms(), SINE, setup);
    assertEquals(
        List.of(
            "source loaded by the probe",
            "probe",
            "ground lead",
            "termination",
            "coupling",
            "vertical gain and offset",
            "sampling",
            "quantisation"),
        p.byStage().stream().map(StageBias::stage).toList());
    double sum = p.byStage().stream().mapToDouble(row -> row.bias().orThrow()).sum();
    assertEquals(((Value) p.bias()).value(), sum, 1e-14);

    double truth = Math.sqrt(0.5);
    assertEquals(truth, p.truth().orThrow(), 1e-14);
    // 500 ohm into 10 Mohm || 10.5 pF at 20 MHz
    double x = 2 * Math.PI * 20e6 * 500 * 10.5e-12;
    double loaded = 1 / Math.hypot(1 + 500 / 1e7, x);
    assertEquals(truth * (loaded - 1), bias(p, "source loaded by the probe"), 1e-13);
    assertEquals(0, bias(p, "probe"), 1e-13);
    FrontEnd chain = setup.frontEnd();
    double whole = truth * chain.response().magnitude(20e6);
    assertEquals(1.01 * whole, p.byStage().get(5).reading().orThrow(), 1e-13);
    assertEquals(
        truth * chain.withCoupling(Coupling.dc()).response().magnitude(20e6),
        p.byStage().get(3).reading().orThrow(),
        1e-13);
    assertEquals(0.01 * whole, bias(p, "vertical gain and offset"), 1e-13);
  }

  /** A mistrimmed probe on a slow square: all of it is the probe's. */
  @Test
  void trimmerErrorOnASquare() {
    Setup setup = Setup.ideal(1e8, 1_000_000).probe(PassiveDivider.times10().withTrimmerError(0.1));
    Signal square = Signals.square(-0.5, 0.5, 10e-3, 0.5);
    Prediction p = Prediction.of(Readings.maximum(), square, setup);
    double overshoot = 1.1 / 1.01 - 1;
    // a step of 1 V that starts off by that much; fifty time constants later it has settled
    assertEquals(overshoot, bias(p, "probe"), 1e-12);
    assertEquals(overshoot, p.bias().orThrow(), 1e-5);
  }

  @Test
  void aPerfectProbeTakesNothing() {
    Setup setup = Setup.ideal(1e9, 1000).probe(PassiveDivider.times10());
    assertEquals(0, bias(Prediction.of(Readings.peakToPeak(), SINE, setup), "probe"), 1e-14);
    Setup direct = Setup.ideal(1e9, 1000).probe(Probe.direct());
    assertEquals(
        List.of("sampling"),
        Prediction.of(Readings.peakToPeak(), SINE, direct).byStage().stream()
            .map(StageBias::stage)
            .toList());
  }
}
