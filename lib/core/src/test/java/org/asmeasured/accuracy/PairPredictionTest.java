package org.asmeasured.accuracy;

import static org.asmeasured.internal.Refusals.absent;
import static org.asmeasured.internal.Refusals.mismatch;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.asmeasured.acquisition.Boxcar;
import org.asmeasured.acquisition.Trigger;
import org.asmeasured.capture.Channel;
import org.asmeasured.capture.ChannelSet;
import org.asmeasured.capture.Setup;
import org.asmeasured.digitizer.ConverterNoise;
import org.asmeasured.digitizer.InterleavedSampler;
import org.asmeasured.frontend.Bandwidth;
import org.asmeasured.frontend.CurrentProbe;
import org.asmeasured.frontend.Noise;
import org.asmeasured.frontend.PassiveDivider;
import org.asmeasured.frontend.VerticalScale;
import org.asmeasured.measure.PairReading;
import org.asmeasured.measure.PairReadings;
import org.asmeasured.signal.Signal;
import org.asmeasured.signal.Signals;
import org.junit.jupiter.api.Test;

/** Where the error of a reading between two channels comes from. */
class PairPredictionTest {
  private static final double LAG = 1.4;
  private static final double OMEGA = 2 * Math.PI * 1e3;
  private static final Signal VOLTAGE = Signals.sine(10, 1e3);
  private static final Signal CURRENT = Signals.sine(2, 1e3, -LAG);
  private static final Setup COMMON = Setup.ideal(10e6, 40_000);

  private static double total(PairPrediction p) {
    return p.byStage().stream().mapToDouble(s -> s.bias().orThrow()).sum();
  }

  /** Skew alone, and the phases of two poles: the theory of each row. */
  @Test
  void rowsAreWhatTheorySays() {
    double skew = 2e-6;
    ChannelSet set =
        ChannelSet.of(
            new Channel("voltage", COMMON.bandwidth(Bandwidth.singlePole(100e3))),
            new Channel(
                "current",
                COMMON.probe(CurrentProbe.of(0.1).withBandwidth(Bandwidth.singlePole(20e3))),
                skew));
    PairPrediction p =
        PairPrediction.of(
                List.of(PairReadings.meanPower()),
                "voltage",
                "current",
                List.of(VOLTAGE, CURRENT),
                set,
                0)
            .get(0);
    double a = Math.atan(1e3 / 100e3);
    double b = Math.atan(1e3 / 20e3);
    double[] expected = {
      10 * Math.cos(a) * Math.cos(LAG - a),
      10 * Math.cos(a) * Math.cos(b) * Math.cos(LAG - a + b),
      10 * Math.cos(a) * Math.cos(b) * Math.cos(LAG - a + b),
      10 * Math.cos(a) * Math.cos(b) * Math.cos(LAG - a + b - OMEGA * skew)
    };
    List<String> names =
        List.of("voltage: bandwidth", "current: current probe", "sampling", "skew");
    assertEquals(10 * Math.cos(LAG), p.truth().orThrow(), 1e-11);
    for (int i = 0; i < 4; i++) {
      assertEquals(names.get(i), p.byStage().get(i).stage());
      assertEquals(expected[i], p.byStage().get(i).reading().orThrow(), 1e-10, names.get(i));
    }
    assertEquals(4, p.byStage().size());
    assertEquals(p.bias().orThrow(), total(p), 1e-12);
    assertTrue(p.toString().startsWith("mean power of voltage and current: true value "));
  }

  @Test
  void theRowsOfAWholeChainAddUp() {
    Setup common =
        Setup.ideal(10e6, 4000)
            .decimation(Boxcar.of(10))
            .sampler(InterleavedSampler.ideal().withClockError(1e-5).withJitter(1e-9))
            .averaging(4);
    ChannelSet set =
        ChannelSet.of(
            new Channel(
                "current",
                common
                    .probe(CurrentProbe.of(0.1))
                    .bandwidth(Bandwidth.singlePole(1e6))
                    .vertical(VerticalScale.of(0.6))
                    .noise(Noise.white(1e-5))
                    .bits(8),
                5e-9),
            new Channel("other", common),
            new Channel(
                "voltage",
                common
                    .source(50)
                    .probe(PassiveDivider.times10())
                    .vertical(VerticalScale.of(3))
                    .bits(8)
                    .trigger(Trigger.at(0).jitter(1e-8))));
    List<Signal> signals = List.of(CURRENT, VOLTAGE, VOLTAGE);
    List<PairPrediction> all =
        PairPrediction.of(PairReadings.all(), "voltage", "current", signals, set, 7);
    assertEquals(PairReadings.all().size(), all.size());
    for (PairPrediction p : all) {
      var records = set.capture(signals, 7);
      assertEquals(p.reading().of(records.get(2), records.get(0)), p.measured());
      assertEquals(
          p.bias().orThrow(), total(p), 1e-12 * Math.abs(p.truth().orThrow()), p.toString());
      assertEquals("trigger", p.byStage().get(p.byStage().size() - 1).stage());
      assertEquals("voltage", p.first());
      assertEquals("current", p.second());
    }
    List<String> stages = all.get(0).byStage().stream().map(StageBias::stage).toList();
    assertTrue(
        stages.containsAll(
            List.of(
                "sampling",
                "skew",
                "amplifier noise",
                "clock, jitter and cores",
                "quantisation",
                "decimation",
                "averaging")),
        stages.toString());
  }

  @Test
  void withoutATriggerTheLastRowIsTheRecord() {
    ChannelSet set =
        ChannelSet.of(
            new Channel("a", COMMON.vertical(VerticalScale.of(3)).bits(6)),
            new Channel("b", COMMON.vertical(VerticalScale.of(1)).bits(6)));
    PairPrediction p =
        PairPrediction.of(
                List.of(PairReadings.powerFactor()), "a", "b", List.of(VOLTAGE, CURRENT), set, 0)
            .get(0);
    assertEquals(p.measured(), p.byStage().get(p.byStage().size() - 1).reading());
    assertEquals(p.bias().orThrow(), total(p), 1e-14);
  }

  @Test
  void badArguments() {
    ChannelSet set = ChannelSet.of(new Channel("a", COMMON), new Channel("b", COMMON));
    List<Signal> signals = List.of(VOLTAGE, CURRENT);
    mismatch(
        () -> PairPrediction.of(List.of(), "a", "a", signals, set, 0), "second = \"a\"", "another");
    mismatch(() -> PairPrediction.of(List.of(), "a", "x", signals, set, 0), "must be one of a, b");
    mismatch(() -> PairPrediction.of(List.of(), "a", "b", List.of(VOLTAGE), set, 0), "must be 2");
    absent("readings", () -> PairPrediction.of(null, "a", "b", signals, set, 0));
    absent("channels", () -> PairPrediction.of(List.of(), "a", "b", signals, null, 0));
    absent("first", () -> PairPrediction.of(List.of(), null, "b", signals, set, 0));
    absent("second", () -> PairPrediction.of(List.of(), "a", null, signals, set, 0));
  }

  /**
   * Over many captures: the mean product of two constants, one of them with independent noise of
   * sigma on each of n points, is the product of the constants, and scatters by level x
   * sigma/sqrt(n); five standard deviations of either are allowed.
   */
  @Test
  void randomPartOverManyCaptures() {
    int captures = 2000;
    double sigma = 8.0 / 256;
    Setup quiet = Setup.ideal(1e6, 25);
    ChannelSet set =
        ChannelSet.of(
            new Channel("voltage", quiet),
            new Channel("current", quiet.converterNoise(ConverterNoise.ofSteps(1, 8))));
    List<Signal> signals = List.of(Signals.constant(3), Signals.constant(2));
    List<PairReading> power = List.of(PairReadings.meanPower());
    PairPrediction p =
        PairPrediction.of(power, "voltage", "current", signals, set, 3, captures, 2).get(0);
    double expected = 3 * sigma / 5;
    double found = p.scatter().randomPart().orThrow();
    assertEquals(expected, found, 5 * expected / Math.sqrt(2.0 * captures));
    assertEquals(6, p.measured().orThrow(), 5 * expected / Math.sqrt(captures));
    assertEquals(found / Math.sqrt(captures), p.scatter().standardError().orThrow(), 1e-15);
    double variance =
        p.byStage().stream().mapToDouble(r -> r.scatter().addedVariance().orThrow()).sum();
    assertEquals(found * found, variance, 1e-16);
    assertEquals(0, p.byStage().get(0).scatter().randomPart().orThrow());
    PairPrediction again =
        PairPrediction.of(power, "voltage", "current", signals, set, 3, captures, 5).get(0);
    assertEquals(p.byStage(), again.byStage());
    ChannelSet still = ChannelSet.of(new Channel("voltage", quiet), new Channel("current", quiet));
    assertEquals(
        1,
        PairPrediction.of(power, "voltage", "current", signals, still, 3, captures, 2)
            .get(0)
            .scatter()
            .captures());
  }
}
