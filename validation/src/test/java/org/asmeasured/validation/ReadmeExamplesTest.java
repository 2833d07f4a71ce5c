package org.asmeasured.validation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.asmeasured.accuracy.Assessment;
import org.asmeasured.accuracy.AssessmentMethod;
import org.asmeasured.accuracy.IdealStages;
import org.asmeasured.accuracy.Measurement;
import org.asmeasured.accuracy.Parameters;
import org.asmeasured.accuracy.Prediction;
import org.asmeasured.accuracy.StageBias;
import org.asmeasured.accuracy.Tolerances;
import org.asmeasured.acquisition.PeakDetect;
import org.asmeasured.acquisition.Trigger;
import org.asmeasured.advice.Advice;
import org.asmeasured.advice.AdviceMethod;
import org.asmeasured.advice.Choices;
import org.asmeasured.capture.CaptureStream;
import org.asmeasured.capture.Record;
import org.asmeasured.capture.Setup;
import org.asmeasured.frontend.AnalogStage;
import org.asmeasured.frontend.Bandwidth;
import org.asmeasured.frontend.Coupling;
import org.asmeasured.frontend.Noise;
import org.asmeasured.frontend.PassiveDivider;
import org.asmeasured.frontend.Termination;
import org.asmeasured.frontend.VerticalScale;
import org.asmeasured.linear.Response;
import org.asmeasured.measure.Readings;
import org.asmeasured.signal.Signal;
import org.asmeasured.signal.Signals;
import org.asmeasured.uncertainty.Distribution;
import org.asmeasured.uncertainty.Input;
import org.asmeasured.uncertainty.MonteCarlo;
import org.asmeasured.uncertainty.Tolerance;
import org.junit.jupiter.api.Test;

/** The README's examples, as they stand there. */
class ReadmeExamplesTest {

  private static Signal rail() {
    return Signals.rippleOnRail(3.3, 0.020, 240e3, 0.004, 18e6, 150e-9);
  }

  private static Setup setup() {
    return Setup.ideal(1e9, 20_000)
        .source(50)
        .probe(PassiveDivider.times10().withTrimmerError(0.03))
        .termination(Termination.oneMegohm())
        .bandwidth(Bandwidth.gaussian(4, 200e6))
        .noise(Noise.white(30e-9))
        .vertical(VerticalScale.of(0.5).withOffset(2))
        .bits(8);
  }

  @Test
  void forTheTestArchitect() {
    Prediction p = Prediction.of(Readings.peakToPeak(), rail(), setup());
    double sum = 0;
    for (StageBias row : p.byStage()) {
      sum += row.bias().orThrow();
    }
    assertEquals(p.measured().orThrow() - p.truth().orThrow(), sum, 1e-12);
    List<StageBias> alone = IdealStages.of(Readings.peakToPeak(), rail(), setup(), 0).rows();
    assertEquals(p.byStage().size() - 1, alone.size());
    Prediction many =
        Prediction.of(List.of(Readings.peakToPeak()), rail(), setup(), 0, 3, 2).get(0);
    assertEquals(3, many.scatter().taken());
  }

  /** Over fewer points and trials than there. */
  @Test
  void howSureAndWhatWouldHelp() {
    Tolerances tolerances =
        Tolerances.none()
            .with(Parameters.gainError(), Distribution.rectangular(-0.02, 0.02))
            .with(Parameters.relative(Parameters.bandwidth()), Distribution.triangular(-0.1, 0.1))
            .plus(Input.of("certificate", "V", Distribution.expanded(0, 0.0002, 2)));
    Measurement measurement = new Measurement(rail(), setup().points(5000));
    Assessment a =
        Assessment.of(
                List.of(Readings.peakToPeak()),
                measurement,
                tolerances,
                AssessmentMethod.usual()
                    .withTrials(MonteCarlo.ofTrials(0.95, 256))
                    .withCaptures(2)
                    .withThreads(2))
            .get(0);
    assertTrue(a.interval().isTaken());
    assertTrue(a.law().isTaken());
    assertTrue(a.decide(Tolerance.atMost(0.030)).isTaken());
    Choices bench =
        Choices.none()
            .scalesBetween(0.005, 1)
            .offsets(0)
            .centred(5)
            .couplings(Coupling.dc(), Coupling.ac())
            .limits(Bandwidth.unlimited(), Bandwidth.singlePole(20e6));
    Advice advice =
        Advice.of(
                Readings.peakToPeak(),
                measurement,
                tolerances,
                bench,
                AdviceMethod.usual().withThreads(2))
            .orThrow();
    assertTrue(advice.best().orElseThrow().score() < 0.01, advice::toString);
  }

  @Test
  void forTheToolBuilder() {
    Setup setup = setup();
    Record record = setup.capture(rail(), 42);
    assertEquals(20_000, record.size());
    setup =
        setup.stage(
            new AnalogStage() {
              @Override
              public String name() {
                return "my filter";
              }

              @Override
              public Response response() {
                return Response.bessel(3, 50e6);
              }
            });
    CaptureStream front = setup.decimation(new PeakDetect(10)).stream();
    double[] block = new double[4096];
    int[] lower = new int[front.mostPoints(block.length)];
    int[] upper = new int[lower.length];
    int n = front.process(block, 0, block.length, lower, upper);
    assertTrue(n > 0);
  }

  @Test
  void aTriggerThatDoesNotComeIsAFlag() {
    Record record = setup().trigger(Trigger.at(99)).capture(rail(), 1);
    assertFalse(record.notes().isEmpty());
  }
}
