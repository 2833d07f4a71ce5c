package org.asmeasured.accuracy;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.LinkedHashMap;
import java.util.Map;
import org.asmeasured.acquisition.Trigger;
import org.asmeasured.capture.Setup;
import org.asmeasured.digitizer.ConverterNoise;
import org.asmeasured.digitizer.Core;
import org.asmeasured.digitizer.InterleavedSampler;
import org.asmeasured.frontend.Bandwidth;
import org.asmeasured.frontend.Coupling;
import org.asmeasured.frontend.Noise;
import org.asmeasured.frontend.PassiveDivider;
import org.asmeasured.frontend.Saturation;
import org.asmeasured.frontend.Source;
import org.asmeasured.frontend.VerticalScale;
import org.asmeasured.measure.Reading;
import org.asmeasured.measure.Readings;
import org.asmeasured.signal.Signals;
import org.asmeasured.uncertainty.Distribution;
import org.asmeasured.uncertainty.Input;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.function.Executable;

class ParametersTest {
  private static final Measurement FULL =
      new Measurement(
          Signals.sine(1, 1e6),
          Setup.ideal(1e9, 100)
              .probe(PassiveDivider.times10().withBandwidth(Bandwidth.singlePole(300e6)))
              .coupling(Coupling.ac())
              .bandwidth(Bandwidth.bessel(4, 200e6))
              .limit(Bandwidth.singlePole(20e6))
              .noise(Noise.white(1e-9))
              .converterNoise(new ConverterNoise(0.001))
              .sampler(
                  InterleavedSampler.ideal()
                      .withJitter(1e-12)
                      .withCores(Core.ideal(), Core.ideal()))
              .trigger(Trigger.at(0))
              .bits(8));

  /** By itself, as edges that jitter and saturation are not modelled together. */
  private static final Measurement SATURATING =
      FULL.withSetup(FULL.setup().saturation(new Saturation(-5, 6, 0.1, 1e-6)));

  private static final Measurement BARE =
      new Measurement(Signals.sine(1, 1e6), Setup.ideal(1e9, 100));

  private static Map<Parameter, double[]> all() {
    // stated, another
    Map<Parameter, double[]> all = new LinkedHashMap<>();
    all.put(Parameters.start(), new double[] {0, 1e-6});
    all.put(Parameters.gainError(), new double[] {0, 0.01});
    all.put(Parameters.offsetError(), new double[] {0, -0.02});
    all.put(Parameters.bandwidth(), new double[] {200e6, 190e6});
    all.put(Parameters.limit(), new double[] {20e6, 21e6});
    all.put(Parameters.couplingCorner(), new double[] {10, 9});
    all.put(Parameters.sourceOhms(), new double[] {0, 50});
    all.put(Parameters.sourceFarads(), new double[] {0, 1e-12});
    all.put(Parameters.inputOhms(), new double[] {1e6, 0.99e6});
    all.put(Parameters.inputFarads(), new double[] {15e-12, 16e-12});
    all.put(Parameters.trimmerError(), new double[] {0, 0.03});
    all.put(Parameters.dividerOhms(), new double[] {9e6, 9.18e6});
    for (int core = 1; core <= 2; core++) {
      all.put(Parameters.coreGainError(core), new double[] {0, 0.01});
      all.put(Parameters.coreOffsetError(core), new double[] {0, -0.01});
      all.put(Parameters.coreSkew(core), new double[] {0, 1e-12});
    }
    all.put(Parameters.dividerBandwidth(), new double[] {300e6, 280e6});
    all.put(Parameters.cableFarads(), new double[] {85e-12, 80e-12});
    all.put(Parameters.groundLeadHenries(), new double[] {0, 100e-9});
    all.put(Parameters.noiseShareOfFullScale(), new double[] {0, 0.001});
    all.put(Parameters.sourceNoiseDensity(), new double[] {0, 1e-9});
    all.put(Parameters.sourceJitter(), new double[] {0, 1e-12});
    all.put(Parameters.triggerHysteresis(), new double[] {0, 0.05});
    all.put(Parameters.noiseDensity(), new double[] {1e-9, 2e-9});
    all.put(Parameters.converterNoise(), new double[] {0.001, 0.002});
    all.put(Parameters.clockError(), new double[] {0, 1e-6});
    all.put(Parameters.apertureJitter(), new double[] {1e-12, 2e-12});
    all.put(Parameters.triggerLevel(), new double[] {0, 0.1});
    all.put(Parameters.triggerJitter(), new double[] {0, 1e-12});
    return all;
  }

  @Test
  void eachIsReadAndChangedAtItsPlaceAlone() {
    all()
        .forEach(
            (parameter, values) -> {
              assertEquals(values[0], parameter.of(FULL), parameter.name());
              Measurement source =
                  parameter.name().equals("source capacitance")
                      ? FULL.withSetup(
                          FULL.setup()
                              .frontEnd(FULL.setup().frontEnd().withSource(Source.ofOhms(50))))
                      : FULL;
              Measurement changed = parameter.with(source, values[1]);
              assertEquals(values[1], parameter.of(changed), parameter.name());
              all().keySet().stream()
                  .filter(other -> !other.name().equals(parameter.name()))
                  .forEach(
                      other ->
                          assertEquals(
                              other.of(source),
                              other.of(changed),
                              parameter.name() + " changes " + other.name()));
            });
  }

  @Test
  void aSaturationLevelIsChangedAlone() {
    Measurement low = Parameters.saturationLowVolts().with(SATURATING, -4.5);
    assertEquals(-5, Parameters.saturationLowVolts().of(SATURATING));
    assertEquals(new Saturation(-4.5, 6, 0.1, 1e-6), low.setup().frontEnd().saturation());
    Measurement high = Parameters.saturationHighVolts().with(SATURATING, 4);
    assertEquals(6, Parameters.saturationHighVolts().of(SATURATING));
    assertEquals(new Saturation(-5, 4, 0.1, 1e-6), high.setup().frontEnd().saturation());
    all().keySet().forEach(p -> assertEquals(p.of(SATURATING), p.of(high), p.name()));
  }

  @Test
  void oneThatIsNotThereIsRefused() {
    for (Parameter p :
        new Parameter[] {
          Parameters.bandwidth(),
          Parameters.limit(),
          Parameters.couplingCorner(),
          Parameters.trimmerError(),
          Parameters.dividerBandwidth(),
          Parameters.dividerOhms(),
          Parameters.saturationLowVolts(),
          Parameters.saturationHighVolts(),
          Parameters.coreGainError(2),
          Parameters.coreOffsetError(2),
          Parameters.coreSkew(2),
          Parameters.cableFarads(),
          Parameters.groundLeadHenries(),
          Parameters.triggerHysteresis(),
          Parameters.triggerLevel(),
          Parameters.triggerJitter()
        }) {
      assertThrows(IllegalArgumentException.class, () -> p.of(BARE), p.name());
      assertThrows(IllegalArgumentException.class, () -> p.with(BARE, 1), p.name());
    }
    for (int core : new int[] {0, 65, -1}) {
      assertThrows(IllegalArgumentException.class, () -> Parameters.coreGainError(core));
      assertThrows(IllegalArgumentException.class, () -> Parameters.coreOffsetError(core));
      assertThrows(IllegalArgumentException.class, () -> Parameters.coreSkew(core));
    }
    for (double bad : new double[] {0, -9e6, 1e17, Double.NaN, Double.POSITIVE_INFINITY}) {
      refused("seriesOhms", () -> Parameters.dividerOhms().with(FULL, bad));
    }
    refused("lowVolts", () -> Parameters.saturationLowVolts().with(SATURATING, Double.NaN));
    refused("highVolts", () -> Parameters.saturationHighVolts().with(SATURATING, -6));
    refused("gainError", () -> Parameters.coreGainError(1).with(FULL, 0.6));
    refused("offsetError", () -> Parameters.coreOffsetError(1).with(FULL, -0.6));
    refused("skewSeconds", () -> Parameters.coreSkew(1).with(FULL, Double.NaN));
    Measurement own =
        BARE.withSetup(
            BARE.setup().bandwidth(Bandwidth.of("mine", Bandwidth.singlePole(1e6).response())));
    assertThrows(IllegalArgumentException.class, () -> Parameters.bandwidth().of(own));
    assertThrows(IllegalArgumentException.class, () -> Parameters.gainError().with(BARE, 2));
  }

  private static void refused(String words, Executable call) {
    String message = assertThrows(IllegalArgumentException.class, call).getMessage();
    assertTrue(message.contains(words), message);
  }

  private static double read(Reading reading, Measurement m) {
    return reading.of(m.setup().capture(m.signal(), 1)).orThrow();
  }

  /** With R1 larger by 2 %, a divider by ten gives 10/(1 + 9 x 1.02) of the truth at DC. */
  @Test
  void theSeriesResistanceSetsTheRatio() {
    Measurement still =
        new Measurement(Signals.constant(1), Setup.ideal(1e6, 10).probe(PassiveDivider.times10()));
    Measurement off = Parameters.relative(Parameters.dividerOhms()).with(still, 0.02);
    assertEquals(1, read(Readings.mean(), still), 1e-12);
    assertEquals(10 / (1 + 9 * 1.02), read(Readings.mean(), off), 1e-12);
  }

  /** Levels are those of the record; of two cores one alone is off, by so much. */
  @Test
  void levelsAndCoresAreSeenInTheRecord() {
    Measurement sine =
        new Measurement(
            Signals.sine(2, 1e6),
            Setup.ideal(100e6, 100).saturation(Saturation.at(1)).vertical(VerticalScale.of(1)));
    assertEquals(
        0.8, read(Readings.maximum(), Parameters.saturationHighVolts().with(sine, 0.8)), 1e-12);
    assertEquals(
        -0.7, read(Readings.minimum(), Parameters.saturationLowVolts().with(sine, -0.7)), 1e-12);
    Measurement ramp =
        new Measurement(
            Signals.trapezoid(0, 1, 4e-6, 0.5, 1e-6, 1e-6),
            Setup.ideal(100e6, 50)
                .startingAt(2e-7)
                .vertical(VerticalScale.of(1))
                .sampler(InterleavedSampler.ideal().withCores(Core.ideal(), Core.ideal())));
    double[] stated = ramp.setup().capture(ramp.signal(), 1).volts();
    Measurement late = Parameters.coreSkew(2).with(ramp, 1e-9);
    double[] skewed = late.setup().capture(ramp.signal(), 1).volts();
    Measurement gained = Parameters.coreGainError(2).with(ramp, 0.01);
    double[] larger = gained.setup().capture(ramp.signal(), 1).volts();
    Measurement raised = Parameters.coreOffsetError(2).with(ramp, 0.01);
    double[] higher = raised.setup().capture(ramp.signal(), 1).volts();
    for (int k = 0; k < 50; k++) {
      boolean second = k % 2 == 1;
      // the edge rises by 1 V in 1 us; full scale is 8 V about 0
      assertEquals(stated[k] + (second ? 1e-3 : 0), skewed[k], 1e-12);
      assertEquals(stated[k] * (second ? 1.01 : 1), larger[k], 1e-12);
      assertEquals(stated[k] + (second ? 0.08 : 0), higher[k], 1e-12);
    }
  }

  @Test
  void aRelativeErrorIsOneOfTheStatedFigure() {
    Parameter p = Parameters.relative(Parameters.bandwidth());
    assertEquals("bandwidth", p.name());
    assertEquals("", p.unit());
    assertEquals(0, p.of(FULL));
    assertEquals(220e6, Parameters.bandwidth().of(p.with(FULL, 0.1)), 1e-7);
    Parameter none = Parameters.relative(Parameters.gainError());
    assertThrows(IllegalArgumentException.class, () -> none.of(FULL));
    assertThrows(IllegalArgumentException.class, () -> none.with(FULL, 0.1));
  }

  @Test
  void aFactorScalesTheSignal() {
    Measurement doubled = Parameters.signalFactor().with(BARE, 2);
    assertEquals(2 * BARE.signal().valueAt(2e-7), doubled.signal().valueAt(2e-7), 1e-15);
    assertEquals(1, Parameters.signalFactor().of(BARE));
    Measurement late = Parameters.signalDelay().with(BARE, 1e-7);
    assertEquals(BARE.signal().valueAt(2e-7), late.signal().valueAt(3e-7), 1e-15);
    assertEquals(0, Parameters.signalDelay().of(BARE));
  }

  @Test
  void oneOfYourOwnWorksLikeTheOthers() {
    Parameter points =
        Parameter.of(
            "points",
            "",
            m -> m.setup().points(),
            (m, v) -> m.withSetup(m.setup().points((int) v)));
    assertEquals(100, points.of(BARE));
    assertEquals(50, points.of(points.with(BARE, 50)));
    assertThrows(IllegalArgumentException.class, () -> Parameter.of(" ", "", m -> 0, (m, v) -> m));
    assertThrows(NullPointerException.class, () -> Parameter.of("x", "", null, (m, v) -> m));
  }

  @Test
  void tolerancesRefuseWhatDoesNotFit() {
    Distribution d = Distribution.normal(0, 0.01);
    Tolerances t = Tolerances.none().with(Parameters.gainError(), d);
    assertThrows(IllegalArgumentException.class, () -> t.with(Parameters.gainError(), d));
    assertThrows(IllegalArgumentException.class, () -> t.plus(Input.of("gain error", "V", d)));
    assertThrows(
        IllegalArgumentException.class,
        () -> t.with(Parameters.bandwidth(), Input.of("b", "V", d)));
    assertThrows(IllegalArgumentException.class, () -> t.plusRelative(Input.of("b", "V", d)));
    assertThrows(
        IllegalArgumentException.class, () -> t.correlated("gain error", "offset error", 0.5));
    Tolerances two = t.with(Parameters.offsetError(), d);
    assertThrows(
        IllegalArgumentException.class, () -> two.correlated("gain error", "offset error", 1.5));
    assertEquals("no tolerances", Tolerances.none().toString());
    assertEquals(2, two.list().size());
    assertEquals(
        0.02,
        Parameters.gainError()
            .of(
                Tolerances.none()
                    .with(Parameters.gainError(), Distribution.normal(0.02, 0.01))
                    .atEstimates(BARE)));
  }
}
