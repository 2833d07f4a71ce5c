package org.asmeasured.accuracy;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.apache.commons.math3.complex.Complex;
import org.asmeasured.acquisition.Boxcar;
import org.asmeasured.acquisition.Trigger;
import org.asmeasured.capture.Setup;
import org.asmeasured.digitizer.ConverterNoise;
import org.asmeasured.frontend.AnalogStage;
import org.asmeasured.frontend.Bandwidth;
import org.asmeasured.frontend.Coupling;
import org.asmeasured.frontend.GroundLead;
import org.asmeasured.frontend.Loading;
import org.asmeasured.frontend.Noise;
import org.asmeasured.frontend.PassiveDivider;
import org.asmeasured.frontend.Refused;
import org.asmeasured.frontend.Saturation;
import org.asmeasured.frontend.Source;
import org.asmeasured.frontend.Termination;
import org.asmeasured.frontend.VerticalScale;
import org.asmeasured.linear.Response;
import org.asmeasured.measure.Measured.Value;
import org.asmeasured.measure.Reading;
import org.asmeasured.measure.Readings;
import org.asmeasured.signal.Signal;
import org.asmeasured.signal.Signals;
import org.junit.jupiter.api.Test;

class IdealStagesTest {

  private static StageBias row(IdealStages table, String stage) {
    return table.rows().stream().filter(r -> r.stage().equals(stage)).findFirst().orElseThrow();
  }

  private static List<String> stages(List<StageBias> rows) {
    return rows.stream().map(StageBias::stage).toList();
  }

  /** A gain error g of V volts is g V, however much noise there is, in either table. */
  @Test
  void gainErrorIsItsOwnBias() {
    Setup setup =
        Setup.ideal(1e6, 100)
            .vertical(VerticalScale.of(1).withGainError(0.02))
            .converterNoise(ConverterNoise.ofSteps(1, 8));
    Signal signal = Signals.constant(2.5);
    List<Reading> mean = List.of(Readings.mean());
    IdealStages alone = IdealStages.of(mean, signal, setup, 1, 50, 2).get(0);
    Prediction order = Prediction.of(mean, signal, setup, 1, 50, 2).get(0);
    StageBias gain = row(alone, "vertical gain and offset");
    assertEquals(0.05, gain.bias().orThrow(), 1e-14);
    assertEquals(0.05, order.byStage().get(0).bias().orThrow(), 1e-14);
    assertEquals(0, gain.scatter().addedVariance().orThrow(), 1e-16);
    assertEquals(0, gain.scatter().standardError().orThrow(), 1e-15);
    assertEquals(order.measured(), alone.measured());
    // Without its noise nothing scatters.
    StageBias noise = row(alone, "converter noise");
    assertEquals(new Value(0), noise.scatter().randomPart());
    assertEquals(2.55, noise.reading().orThrow(), 1e-14);
    assertEquals(
        Math.pow(alone.scatter().randomPart().orThrow(), 2),
        noise.scatter().addedVariance().orThrow(),
        1e-18);
  }

  private record Attenuator(String name, double factor) implements AnalogStage {
    @Override
    public Response response() {
      return Response.gain(factor);
    }
  }

  /**
   * Factors multiply: as measured x, stage k ideal x/f_k. The peak to peak of a sine of 1 V whose
   * crest is met by a sample; loading 1/2, coupling 1/sqrt(2), 0.8, 1.01, single poles 1/sqrt(1 +
   * (f/f3)^2); the phases change with the stages, so enough samples that none is missed by 1e-6.
   */
  @Test
  void everyAnalogStageAloneIsItsFactor() {
    Setup setup =
        Setup.ideal(1e9, 100_000)
            .source(50)
            .termination(Termination.fiftyOhm())
            .coupling(Coupling.ac(1e5))
            .stage(new Attenuator("attenuator", 0.8))
            .stage(new Attenuator("pad", 0.5))
            .vertical(VerticalScale.of(0.25).withGainError(0.01))
            .bandwidth(Bandwidth.singlePole(2e5))
            .limit(Bandwidth.singlePole(1e5));
    double[] factors = {
      0.5, Math.sqrt(0.5), 0.8, 0.5, 1.01, 1 / Math.hypot(1, 0.5), Math.sqrt(0.5)
    };
    double product = 2;
    for (double factor : factors) {
      product *= factor;
    }
    Signal sine = Signals.sine(1, 1e5);
    IdealStages alone = IdealStages.of(Readings.peakToPeak(), sine, setup, 0);
    assertEquals(
        List.of(
            "source and termination",
            "coupling",
            "attenuator",
            "pad",
            "vertical gain and offset",
            "bandwidth",
            "bandwidth limit"),
        stages(alone.rows()));
    assertEquals(product, alone.measured().orThrow(), 1e-6);
    for (int k = 0; k < factors.length; k++) {
      StageBias row = alone.rows().get(k);
      assertEquals(product / factors[k], row.reading().orThrow(), 1e-6, row.stage());
      assertEquals(product - product / factors[k], row.bias().orThrow(), 2e-6, row.stage());
      assertEquals(new Value(0), row.scatter().randomPart());
    }
    assertTrue(alone.toString().contains("each alone ideal: source and termination "));
  }

  /** Every element of a network, in order and left out: the product of the others' factors. */
  @Test
  void elementsOfANetworkAreLeftOutAsFactors() {
    Loading loading =
        new Loading(
            new Source(1000, 2e-12),
            PassiveDivider.times10()
                .withTrimmerError(0.05)
                .withGroundLead(GroundLead.ofLength(150)),
            Termination.oneMegohm(),
            Coupling.capacitor(16e-9));
    List<AnalogStage> steps = loading.steps();
    assertTrue(steps.size() >= 4, steps::toString);
    for (int k = 0; k < steps.size(); k++) {
      Response left = LeftOut.of(steps, k);
      for (double hz = 10; hz < 1e9; hz *= 3) {
        Complex expected = Complex.ONE;
        for (int j = 0; j < steps.size(); j++) {
          Complex before = j == 0 ? Complex.ONE : steps.get(j - 1).response().at(hz);
          expected =
              j == k ? expected : expected.multiply(steps.get(j).response().at(hz)).divide(before);
        }
        double off = left.at(hz).subtract(expected).abs();
        assertEquals(0, off, 1e-9 * Math.max(1, expected.abs()), steps.get(k) + " at " + hz);
      }
    }
  }

  @Test
  void namesAreThoseOfTheOtherTableWithoutSampling() {
    Setup setup =
        Setup.ideal(1e8, 200)
            .source(new Source(1000, 2e-12))
            .probe(PassiveDivider.times10().withGroundLead(GroundLead.ofLength(150)))
            .coupling(Coupling.capacitor(16e-9))
            .vertical(VerticalScale.of(0.5).withOffsetError(0.01))
            .bandwidth(Bandwidth.gaussian(4, 2e7))
            .limit(Bandwidth.singlePole(1e7))
            .saturation(Saturation.at(1.8))
            .noise(Noise.white(1e-8))
            .converterNoise(ConverterNoise.ofSteps(0.5, 8))
            .bits(8)
            .decimation(Boxcar.of(4))
            .averaging(2)
            .trigger(Trigger.at(0.1));
    Signal signal = Signals.sine(1, 1e6);
    List<String> inOrder =
        stages(Prediction.of(Readings.rms(), signal, setup).byStage()).stream()
            .filter(stage -> !stage.equals("sampling"))
            .toList();
    IdealStages alone = IdealStages.of(Readings.rms(), signal, setup, 0);
    assertEquals(inOrder, stages(alone.rows()));
    for (StageBias row : alone.rows()) {
      assertTrue(row.reading().isTaken(), row::toString);
      assertEquals(
          alone.measured().orThrow() - row.reading().orThrow(), row.bias().orThrow(), row.stage());
    }
  }

  @Test
  void quantisationAndDecimationAreTakenOutOfTheWhole() {
    Setup setup = Setup.ideal(16e6, 40).bits(6).decimation(Boxcar.of(4));
    Signal sine = Signals.sine(1, 1e6, Math.PI / 2);
    IdealStages alone = IdealStages.of(Readings.peakToPeak(), sine, setup, 0);
    double mean =
        (1 + Math.cos(Math.PI / 8) + Math.cos(Math.PI / 4) + Math.cos(3 * Math.PI / 8)) / 4;
    assertEquals(2 * mean, row(alone, "quantisation").reading().orThrow(), 1e-12);
    // 6 bits of 8 V have steps of 1/8 V, on which 1 V lies.
    assertEquals(2, row(alone, "decimation").reading().orThrow(), 1e-12);
  }

  @Test
  void whatCannotBeIdealSaysWhy() {
    Setup setup =
        Setup.ideal(1e8, 100).bandwidth(Bandwidth.singlePole(1e7)).noise(Noise.white(1e-8));
    IdealStages noise = IdealStages.of(Readings.rms(), Signals.sine(1, 1e6), setup, 0);
    assertFalse(row(noise, "bandwidth").reading().isTaken());
    assertTrue(
        row(noise, "bandwidth").reading().toString().contains("noise that nothing else bounds"),
        noise::toString);
    assertEquals(row(noise, "bandwidth").reading(), row(noise, "bandwidth").bias());
    assertEquals(
        row(noise, "bandwidth").reading(), row(noise, "bandwidth").scatter().standardError());
    assertTrue(row(noise, "amplifier noise").reading().isTaken());
    // 2^27 raw samples
    Setup much = Setup.ideal(1e9, 128).decimation(Boxcar.of(1 << 20));
    assertTrue(
        row(IdealStages.of(Readings.mean(), Signals.constant(2), much.points(65), 0), "decimation")
            .reading()
            .toString()
            .contains("more raw samples"));
  }

  /** Without the factor of an element whose response rolls off faster than the whole. */
  @Test
  void aRestThatIsNoResponseSaysWhy() {
    AnalogStage slow = stage(Response.of(List.of(), roots(-1e6, -2e6), 2e12));
    AnalogStage fast = stage(Response.of(List.of(), roots(-1e6), 1e6));
    IllegalArgumentException rises =
        assertThrows(IllegalArgumentException.class, () -> LeftOut.of(List.of(slow, fast), 0));
    assertTrue(rises.getMessage().contains("rise without end"), rises.getMessage());
    AnalogStage beyond = stage(Response.of(roots(1e6), roots(-1e6), -1));
    IllegalArgumentException unstable =
        assertThrows(IllegalArgumentException.class, () -> LeftOut.of(List.of(beyond, fast), 0));
    assertTrue(unstable.getMessage().contains("not be stable"), unstable.getMessage());
  }

  private static List<Complex> roots(double... real) {
    return java.util.Arrays.stream(real).mapToObj(Complex::new).toList();
  }

  private static AnalogStage stage(Response response) {
    return new AnalogStage() {
      @Override
      public String name() {
        return "stage";
      }

      @Override
      public Response response() {
        return response;
      }
    };
  }

  @Test
  void refusesBadArguments() {
    Setup setup = Setup.ideal(1e6, 10);
    Signal signal = Signals.constant(1);
    List<Reading> mean = List.of(Readings.mean());
    Refused.missing("reading", () -> IdealStages.of(null, signal, setup, 0));
    Refused.missing("readings", () -> IdealStages.of(null, signal, setup, 0, 1, 1));
    Refused.missing("signal", () -> IdealStages.of(mean, null, setup, 0, 1, 1));
    Refused.missing("setup", () -> IdealStages.of(mean, signal, null, 0, 1, 1));
    Refused.wholes("captures", n -> IdealStages.of(mean, signal, setup, 0, n, 1), 0);
    Refused.wholes("threads", n -> IdealStages.of(mean, signal, setup, 0, 1, n), 0, 1025);
    assertThrows(
        UnsupportedOperationException.class,
        () -> IdealStages.of(Readings.mean(), signal, setup, 0).rows().clear());
  }
}
