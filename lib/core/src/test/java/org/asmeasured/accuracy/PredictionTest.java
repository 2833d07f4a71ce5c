package org.asmeasured.accuracy;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Map;
import java.util.Random;
import org.asmeasured.acquisition.Boxcar;
import org.asmeasured.acquisition.Decimation;
import org.asmeasured.acquisition.PeakDetect;
import org.asmeasured.acquisition.Pick;
import org.asmeasured.acquisition.RollingBoxcar;
import org.asmeasured.capture.Setup;
import org.asmeasured.frontend.AnalogStage;
import org.asmeasured.frontend.Bandwidth;
import org.asmeasured.frontend.Coupling;
import org.asmeasured.frontend.Refused;
import org.asmeasured.frontend.Termination;
import org.asmeasured.frontend.VerticalScale;
import org.asmeasured.linear.Response;
import org.asmeasured.measure.Measured;
import org.asmeasured.measure.Measured.NotTaken;
import org.asmeasured.measure.Measured.Value;
import org.asmeasured.measure.Reading;
import org.asmeasured.measure.Readings;
import org.asmeasured.pulse.PulseReadings;
import org.asmeasured.signal.Signal;
import org.asmeasured.signal.Signals;
import org.junit.jupiter.api.Test;

class PredictionTest {

  private static double bias(Prediction prediction, String stage) {
    return row(prediction, stage).bias().orThrow();
  }

  private static StageBias row(Prediction prediction, String stage) {
    return prediction.byStage().stream()
        .filter(row -> row.stage().equals(stage))
        .findFirst()
        .orElseThrow();
  }

  private static List<String> stages(Prediction prediction) {
    return prediction.byStage().stream().map(StageBias::stage).toList();
  }

  private record Attenuator(double factor) implements AnalogStage {
    @Override
    public String name() {
      return "attenuator";
    }

    @Override
    public Response response() {
      return Response.gain(factor);
    }
  }

  /**
   * A chain whose every stage has a closed form for the peak to peak of a sine A = 1 V at 1 MHz:
   * loading 1/2, coupling |H| = 1/sqrt(1 + (fc/f)^2), gain error, each single pole 1/sqrt(1 +
   * (f/f3)^2). The crest is met by a raw sample, the trough too, so sampling takes nothing; 16 raw
   * samples a period, mean of 4: gain sin(pi/4)/(4 sin(pi/16)), but of the four means of a period
   * half the samples lie to either side of the crest.
   */
  @Test
  void everyStageHasItsOwn() {
    Setup setup =
        Setup.ideal(16e6, 40)
            .source(50)
            .termination(Termination.fiftyOhm())
            .coupling(Coupling.ac(1e6))
            .stage(new Attenuator(0.8))
            .vertical(VerticalScale.of(0.25).withGainError(0.01).withOffsetError(0.1))
            .bandwidth(Bandwidth.singlePole(2e6))
            .limit(Bandwidth.singlePole(1e6))
            .decimation(Boxcar.of(4));
    // The phase of the chain: lead of 45 degrees of the coupling, lag of atan(1/2) and of 45
    // degrees.
    double phase = Math.atan(0.5);
    Prediction p =
        Prediction.of(Readings.peakToPeak(), Signals.sine(1, 1e6, phase + Math.PI / 2), setup);
    assertEquals(
        List.of(
            "source and termination",
            "coupling",
            "attenuator",
            "vertical gain and offset",
            "bandwidth",
            "bandwidth limit",
            "sampling",
            "decimation"),
        stages(p));
    double value = 2;
    assertEquals(value, p.truth().orThrow(), 1e-12);
    double[] factors = {0.5, Math.sqrt(0.5), 0.8, 1.01, 1 / Math.hypot(1, 0.5), Math.sqrt(0.5)};
    for (int i = 0; i < factors.length; i++) {
      double next = value * factors[i];
      assertEquals(next - value, p.byStage().get(i).bias().orThrow(), 1e-11, stages(p).get(i));
      assertEquals(next, p.byStage().get(i).reading().orThrow(), 1e-11, stages(p).get(i));
      value = next;
    }
    assertEquals(0, bias(p, "sampling"), 1e-11);
    // Samples 0..3 after the crest: phases 0, 22.5, 45, 67.5 degrees.
    double mean =
        (1 + Math.cos(Math.PI / 8) + Math.cos(Math.PI / 4) + Math.cos(3 * Math.PI / 8)) / 4;
    assertEquals(value * (mean - 1), bias(p, "decimation"), 1e-11);
    assertEquals(value * mean, p.measured().orThrow(), 1e-11);
    assertEquals(value * mean - 2, p.bias().orThrow(), 1e-11);
  }

  @Test
  void offsetErrorAndCouplingOfTheMean() {
    Setup setup =
        Setup.ideal(1e6, 1000)
            .coupling(Coupling.ac())
            .vertical(VerticalScale.of(0.5).withOffsetError(-0.02))
            .bits(8);
    Prediction p = Prediction.of(Readings.mean(), Signals.constant(3.3), setup);
    assertEquals(
        List.of("coupling", "vertical gain and offset", "sampling", "quantisation"), stages(p));
    assertEquals(-3.3, bias(p, "coupling"), 1e-12);
    assertEquals(-0.08, bias(p, "vertical gain and offset"), 1e-12);
    assertEquals(0, bias(p, "sampling"), 1e-12);
    // -0.08 V is 5.12 steps of 1/64 V below the middle: code -5.
    assertEquals(-5 / 64.0, p.measured().orThrow(), 0);
    assertEquals(-5 / 64.0 + 0.08, bias(p, "quantisation"), 1e-12);
  }

  @Test
  void samplingAloneTakesThePeaksAway() {
    // Eight samples a period, the nearest 22.5 degrees off the crest.
    Setup setup = Setup.ideal(8e6, 80);
    Prediction p = Prediction.of(Readings.maximum(), Signals.sine(1, 1e6, Math.PI / 8), setup);
    assertEquals(List.of("sampling"), stages(p));
    assertEquals(Math.cos(Math.PI / 8) - 1, p.bias().orThrow(), 1e-12);
    assertEquals(p.bias(), p.byStage().get(0).bias());
  }

  @Test
  void settledMeansOfWholeCyclesAreUnbiased() {
    Signal signal = Signals.sine(1, 1e6).plus(Signals.sine(0.3, 3e6, 1)).plus(0.5);
    Setup setup = Setup.ideal(16e6, 160);
    for (Reading reading : List.of(Readings.mean(), Readings.rms(), Readings.acRms())) {
      assertEquals(
          0, Prediction.of(reading, signal, setup).bias().orThrow(), 1e-13, reading.name());
    }
  }

  @Test
  void everyDecimationKeepsTheWholeTheSumOfItsStages() {
    Decimation[] choices = {
      new Pick(1),
      new Pick(5),
      new PeakDetect(4),
      Boxcar.of(10),
      new Boxcar(3, 6),
      RollingBoxcar.of(7),
      Boxcar.of(1)
    };
    int taken = 0;
    for (long seed = 1; seed <= 60; seed++) {
      Random random = new Random(seed);
      Setup setup =
          Setup.ideal(2e8 * (1 + random.nextDouble()), 200 + random.nextInt(200))
              .startingAt(1e-7 * random.nextDouble())
              .vertical(new VerticalScale(0.5, 8, 0.1, 0.02 * random.nextGaussian(), 0.01))
              .decimation(choices[random.nextInt(choices.length)])
              .averaging(1 + random.nextInt(2));
      if (random.nextBoolean()) {
        setup = setup.source(50);
      }
      if (random.nextBoolean()) {
        setup = setup.bits(6 + random.nextInt(6));
      }
      if (random.nextBoolean()) {
        setup = setup.coupling(Coupling.ac(1e4)).limit(Bandwidth.bessel(3, 20e6));
      }
      Signal signal = Signals.trapezoid(-1, 1, 2e-7 * (1 + random.nextDouble()), 0.4, 3e-8, 2e-8);
      for (Reading reading : Readings.all()) {
        Prediction p = Prediction.of(reading, signal, setup);
        assertEquals(
            reading.of(setup.capture(signal)), p.measured(), "seed " + seed + ", " + reading);
        List<StageBias> rows = p.byStage();
        assertEquals(
            p.measured(), rows.get(rows.size() - 1).reading(), "the last row is the setup itself");
        if (p.bias() instanceof Value whole) {
          taken++;
          double sum = 0;
          for (StageBias row : rows) {
            sum += row.bias() instanceof Value part ? part.value() : 0;
          }
          double scale =
              Math.max(Math.abs(p.truth().orThrow()), reading.unit().equals("V") ? 1 : 1e-8);
          assertEquals(whole.value(), sum, 1e-14 * scale, "seed " + seed + ", " + reading);
        }
      }
    }
    assertTrue(taken > 200, taken + " cases with a value");
  }

  /**
   * A stage at which there is nothing to read has a row with the reason; the next counts from the
   * one before it.
   */
  @Test
  void aReadingThatCannotBeTakenOnTheWayIsShown() {
    // The attenuator of 1e-4 leaves 0.2 mV, which 8 bits of 8 V do not see.
    Setup setup = Setup.ideal(1e8, 1000).stage(new Attenuator(1e-4)).bits(8);
    Prediction p = Prediction.of(PulseReadings.period(), Signals.sine(1, 1e6), setup);
    assertEquals(1e-6, p.truth().orThrow(), 1e-16);
    assertEquals(0, bias(p, "attenuator"), 1e-16);
    StageBias last = row(p, "quantisation");
    assertTrue(((NotTaken) last.reading()).reason().contains("all values are equal"));
    assertEquals(last.reading(), last.bias());
    assertEquals(last.reading(), p.bias());
    assertFalse(p.measured().isTaken());

    // An ideal edge is faster than the samples, until a bandwidth makes it slower than them.
    Signal edge = Signals.step(1, 5.03e-7);
    Setup slow = Setup.ideal(1e8, 100).bits(12).scale(0.5).limit(Bandwidth.singlePole(5e6));
    Prediction rise = Prediction.of(PulseReadings.riseTime(0, 1), edge, slow);
    assertEquals(0, rise.truth().orThrow());
    assertEquals(0.3496991525660598 / 5e6, row(rise, "bandwidth limit").reading().orThrow(), 1e-18);
    Prediction fast = Prediction.of(PulseReadings.riseTime(), edge, Setup.ideal(1e8, 100));
    assertTrue(row(fast, "sampling").bias().toString().contains("less than 10 ns"));
  }

  @Test
  void countsFromTheLastReadingThatCouldBeTaken() {
    // Raw samples clip; the envelope and its extremes do too. Without a value at the end there is
    // no whole.
    Setup clipped = Setup.ideal(1e8, 1000).scale(0.1).bits(8);
    Prediction p = Prediction.of(Readings.maximum(), Signals.sine(1, 1e6), clipped);
    assertTrue(p.measured().toString().contains("clipped at the top"));
    assertTrue(p.truth().isTaken());
    // The edge lies between two raw samples until a rolling mean spreads it over the points.
    Setup spread = Setup.ideal(1e8, 100).decimation(RollingBoxcar.of(10));
    Prediction rise = Prediction.of(PulseReadings.riseTime(), Signals.step(1, 5.03e-7), spread);
    assertFalse(row(rise, "sampling").reading().isTaken());
    double measured = rise.measured().orThrow();
    assertEquals(80e-9, measured, 1e-15);
    assertEquals(measured, bias(rise, "decimation"), 1e-20);
    assertEquals(measured, rise.bias().orThrow(), 1e-20);
  }

  @Test
  void withoutATruthThereIsNoBias() {
    Prediction p =
        Prediction.of(PulseReadings.period(), Signals.constant(1), Setup.ideal(1e6, 100));
    assertFalse(p.truth().isTaken());
    assertEquals(p.truth(), p.bias());
    assertFalse(p.byStage().get(0).bias().isTaken());
  }

  @Test
  void moreRawSamplesThanAreHeldHaveNoRowValue() {
    // 2^27 raw samples; the whole is captured block by block all the same.
    Setup setup = Setup.ideal(1e9, 128).decimation(Boxcar.of(1 << 20));
    Prediction p = Prediction.of(Readings.mean(), Signals.constant(2), setup.points(65));
    assertTrue(row(p, "sampling").reading().toString().contains("more raw samples"));
    assertEquals(2, p.measured().orThrow());
    assertEquals(0, bias(p, "decimation"));
  }

  @Test
  void saysItselfAsAPersonWould() {
    Setup setup = Setup.ideal(1e6, 100).source(1e6).bits(8);
    Prediction p = Prediction.of(Readings.mean(), Signals.constant(3), setup);
    assertEquals(
        "mean: true value 3 V, as measured 1.5 V, bias -1.5 V (in order: source and termination -1.5 V, sampling +0 V,"
            + " quantisation +0 V)",
        p.toString());
    assertEquals("mean", p.reading().name());
    assertEquals(
        "coupling: -1.5",
        new StageBias("coupling", p.truth(), new Value(-1.5), p.scatter()).toString());
  }

  @Test
  void refusesBadArguments() {
    Setup setup = Setup.ideal(1e6, 100);
    Signal signal = Signals.constant(1);
    Refused.missing("reading", () -> Prediction.of(null, signal, setup));
    Refused.missing("signal", () -> Prediction.of(Readings.mean(), null, setup));
    Refused.missing("setup", () -> Prediction.of(Readings.mean(), signal, null));
    Setup blurred = Setup.ideal(1e15, 1).startingAt(1e12);
    Refused.message(
        "startSeconds", "1.0E12", () -> Prediction.of(Readings.mean(), signal, blurred));
    Measured value = new Value(1);
    Scatter scatter = new Scatter(1, 1, Map.of(), value, value, value);
    Refused.missing("stage", () -> new StageBias(null, value, value, scatter));
    Refused.missing("reading", () -> new StageBias("any", null, value, scatter));
    Refused.missing("bias", () -> new StageBias("any", value, null, scatter));
    Refused.missing("scatter", () -> new StageBias("any", value, value, null));
    assertThrows(
        UnsupportedOperationException.class,
        () -> Prediction.of(Readings.mean(), signal, setup).byStage().clear());
  }
}
