package org.asmeasured.capture;

import static org.asmeasured.internal.Refusals.absent;
import static org.asmeasured.internal.Refusals.bounded;
import static org.asmeasured.internal.Refusals.mismatch;
import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import java.util.OptionalInt;
import java.util.stream.Stream;
import org.asmeasured.acquisition.Boxcar;
import org.asmeasured.acquisition.NoEvent;
import org.asmeasured.acquisition.PeakDetect;
import org.asmeasured.acquisition.Trigger;
import org.asmeasured.digitizer.ConverterNoise;
import org.asmeasured.digitizer.Core;
import org.asmeasured.digitizer.InterleavedSampler;
import org.asmeasured.frontend.Bandwidth;
import org.asmeasured.frontend.Noise;
import org.asmeasured.frontend.Saturation;
import org.asmeasured.frontend.SourceJitter;
import org.asmeasured.frontend.SourceNoise;
import org.asmeasured.frontend.VerticalScale;
import org.asmeasured.signal.Signal;
import org.asmeasured.signal.Signals;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Channels that are captured together, against what each would be alone and against theory. */
class ChannelSetTest {
  private static final double RATE_HZ = 1e9;
  private static final int POINTS = 4096;
  private static final long SEED = 20251103;
  private static final double ODDS = 4.5;

  /** More than 1e-15: the skew is added to a start in doubles. */
  private static final double ROUNDING = 1e-12;

  private static final Signal SQUARE = Signals.trapezoid(-0.4, 0.4, 97e-9, 0.5, 3e-9, 5e-9);
  private static final Setup QUIET = Setup.ideal(RATE_HZ, POINTS);

  private static final Setup NOISY =
      QUIET
          .bandwidth(Bandwidth.gaussian(4, 200e6))
          .noise(Noise.white(50e-9))
          .sourceNoise(new SourceNoise(5e-9))
          .converterNoise(new ConverterNoise(0.002))
          .vertical(VerticalScale.of(0.2))
          .bits(10);

  static Stream<Setup> setups() {
    return Stream.of(
        QUIET,
        NOISY,
        NOISY.sampler(
            InterleavedSampler.ideal()
                .withClockError(1e-4)
                .withJitter(2e-12)
                .withCores(Core.ideal(), Core.ideal().withGainError(0.01))),
        NOISY.trigger(Trigger.at(0.1).jitter(3e-12)).averaging(7),
        NOISY.trigger(Trigger.at(7)),
        NOISY.decimation(new PeakDetect(8)).points(100),
        NOISY.decimation(Boxcar.of(8)).points(100).averaging(3),
        NOISY.saturation(Saturation.at(0.3)),
        NOISY.sourceJitter(SourceJitter.of(20e-12)).trigger(Trigger.at(0.1)).averaging(4));
  }

  private static void assertSame(Record expected, Record actual) {
    assertArrayEquals(expected.lower(), actual.lower(), 0.0);
    assertArrayEquals(expected.upper(), actual.upper(), 0.0);
    assertEquals(expected.startSeconds(), actual.startSeconds());
    assertEquals(expected.notes(), actual.notes());
    assertEquals(expected.toString(), actual.toString());
  }

  @ParameterizedTest
  @MethodSource("setups")
  void oneChannelIsItsSetupBitForBit(Setup setup) {
    ChannelSet set = ChannelSet.of(new Channel("only", setup));
    assertSame(setup.capture(SQUARE, SEED), set.capture(List.of(SQUARE), SEED).get(0));
    assertSame(
        setup.capture(SQUARE, SEED),
        set.withSeparateSamplers().capture(List.of(SQUARE), SEED).get(0));
  }

  @ParameterizedTest
  @MethodSource("setups")
  void furtherChannelsLeaveTheFirstAlone(Setup setup) {
    ChannelSet two =
        ChannelSet.of(new Channel("a", setup), new Channel("b", setup.untriggered(), 1e-9));
    List<Record> records = two.capture(List.of(SQUARE, SQUARE.times(0.5)), SEED);
    assertSame(setup.capture(SQUARE, SEED), records.get(0));
    assertEquals(records.get(0).startSeconds(), records.get(1).startSeconds());
    assertEquals(records.get(0).size(), records.get(1).size());
    List<Record> again = two.capture(List.of(SQUARE, SQUARE.times(0.5)), SEED);
    assertSame(records.get(1), again.get(1));
  }

  private static double correlation(double[] a, double[] b) {
    double ab = 0;
    double aa = 0;
    double bb = 0;
    for (int i = 0; i < a.length; i++) {
      ab += a[i] * b[i];
      aa += a[i] * a[i];
      bb += b[i] * b[i];
    }
    return ab / Math.sqrt(aa * bb);
  }

  @Test
  void noiseOfChannelsIsIndependent() {
    Setup noisy = QUIET.converterNoise(new ConverterNoise(0.01));
    ChannelSet set =
        ChannelSet.of(new Channel("a", noisy), new Channel("b", noisy), new Channel("c", noisy));
    Signal zero = Signals.constant(0);
    List<Record> records = set.capture(List.of(zero, zero, zero), SEED);
    for (int i = 0; i < 3; i++) {
      for (int j = 0; j < i; j++) {
        double r = correlation(records.get(i).volts(), records.get(j).volts());
        assertTrue(Math.abs(r) < ODDS / Math.sqrt(POINTS), i + ", " + j + ": " + r);
      }
      double rms = Math.sqrt(Arrays.stream(records.get(i).volts()).map(v -> v * v).sum() / POINTS);
      // full scale of 1 V per division is 8 V
      assertEquals(0.08, rms, 0.08 * ODDS / Math.sqrt(2 * POINTS));
    }
  }

  @Test
  void oneSamplerJittersAlikeAndSeveralDoNot() {
    Setup jittered = QUIET.sampler(InterleavedSampler.ideal().withJitter(10e-12));
    Signal ramp = Signals.ramp(1e8, -1e-3);
    ChannelSet one = ChannelSet.of(new Channel("a", jittered), new Channel("b", jittered));
    assertTrue(one.hasOneSampler());
    List<Record> alike = one.capture(List.of(ramp, ramp), SEED);
    assertArrayEquals(alike.get(0).volts(), alike.get(1).volts(), 0.0);
    ChannelSet several = one.withSeparateSamplers();
    assertFalse(several.hasOneSampler());
    List<Record> apart = several.capture(List.of(ramp, ramp), SEED);
    double[] a = new double[POINTS];
    double[] b = new double[POINTS];
    for (int k = 0; k < POINTS; k++) {
      double exact = ramp.valueAt(k / RATE_HZ);
      a[k] = apart.get(0).volts(k) - exact;
      b[k] = apart.get(1).volts(k) - exact;
    }
    assertTrue(Math.abs(correlation(a, b)) < ODDS / Math.sqrt(POINTS));
    assertNotEquals(one, several);
    assertFalse(ChannelSet.of(new Channel("a", jittered), new Channel("b", QUIET)).hasOneSampler());
  }

  @Test
  void skewIsSampledLater() {
    double skew = 0.37e-9;
    Signal sine = Signals.sine(1, 31e6, 0.3);
    for (Setup setup : List.of(QUIET, QUIET.bandwidth(Bandwidth.bessel(3, 300e6)))) {
      ChannelSet set =
          ChannelSet.of(new Channel("a", setup), new Channel("b", setup).withSkew(skew));
      for (Signal signal : List.of(sine, SQUARE)) {
        Record b = set.capture(List.of(sine, signal), SEED).get(1);
        var output = setup.analogOutput(signal);
        for (int k = 0; k < POINTS; k += 7) {
          assertEquals(output.valueAt(k / RATE_HZ + skew), b.volts(k), 1e-8 * 1e-3, "point " + k);
          assertEquals(k / RATE_HZ, b.timeSeconds(k), ROUNDING * 1e-6);
        }
      }
    }
  }

  @Test
  void oneTriggerServesAll() {
    Setup setup = QUIET.points(200).bandwidth(Bandwidth.bessel(4, 250e6)).averaging(5);
    Trigger trigger = Trigger.at(0.05).jitter(200e-12).resolution(1).preTrigger(0.5);
    ChannelSet set =
        ChannelSet.of(
            new Channel("first", setup),
            new Channel("second", setup.trigger(trigger)),
            new Channel("third", setup));
    assertEquals(OptionalInt.of(1), set.triggeringChannel());
    // the same signal in the second and third: the same errors of the trigger in both
    List<Record> records = set.capture(List.of(SQUARE.times(-1), SQUARE, SQUARE), SEED);
    assertArrayEquals(records.get(1).volts(), records.get(2).volts(), 0.0);
    Record alone = setup.trigger(trigger).capture(SQUARE, SEED);
    assertArrayEquals(alone.volts(), records.get(1).volts(), 0.0);
    for (int k = 0; k < 200; k++) {
      assertEquals(-alone.volts(k), records.get(0).volts(k), 1e-14);
    }
    assertEquals(5, set.schedule(List.of(SQUARE, SQUARE, SQUARE), SEED).orElseThrow().size());
  }

  @Test
  void whatTheTriggerSaysStandsOnEveryRecord() {
    Trigger never = Trigger.at(2).noEvent(NoEvent.waitFor(1e-3));
    Trigger free = Trigger.at(2).noEvent(NoEvent.runFreeAfter(1e-6));
    for (Trigger trigger : List.of(never, free)) {
      ChannelSet set =
          ChannelSet.of(new Channel("a", QUIET), new Channel("b", QUIET.trigger(trigger)));
      List<Record> records = set.capture(List.of(SQUARE, SQUARE), SEED);
      assertEquals(records.get(0).notes(), records.get(1).notes());
      assertEquals(1, records.get(0).notes().size());
      assertEquals(trigger == never ? 0 : POINTS, records.get(0).size());
    }
  }

  @Test
  void withoutATriggerThereIsNoSchedule() {
    ChannelSet set = ChannelSet.of(new Channel("a", QUIET));
    assertTrue(set.schedule(List.of(SQUARE), 1).isEmpty());
    assertTrue(QUIET.schedule(SQUARE, 1).isEmpty());
    assertEquals(OptionalInt.empty(), set.triggeringChannel());
  }

  @Test
  void whatContradictsIsNamed() {
    Channel a = new Channel("a", QUIET);
    mismatch(
        () -> ChannelSet.of(a, new Channel("b", QUIET.rateHz(2e9))), "\"b\"", "\"a\"", "rateHz");
    mismatch(() -> ChannelSet.of(a, new Channel("b", QUIET.points(7))), "\"b\"", "points = 7");
    mismatch(() -> ChannelSet.of(a, new Channel("b", QUIET.startingAt(1))), "startSeconds = 1.0");
    mismatch(
        () -> ChannelSet.of(a, new Channel("b", QUIET.decimation(new PeakDetect(2)))),
        "decimation = ");
    mismatch(() -> ChannelSet.of(a, new Channel("b", QUIET.averaging(2))), "ensemble = mean of 2");
    mismatch(
        () ->
            ChannelSet.of(
                a,
                new Channel("b", QUIET.sampler(InterleavedSampler.ideal().withClockError(1e-6)))),
        "sampler.clock.rateHz");
    mismatch(() -> ChannelSet.of(a, a), "channels[1].name = \"a\"", "another channel");
    Setup triggered = QUIET.trigger(Trigger.at(0));
    mismatch(
        () -> ChannelSet.of(new Channel("x", triggered), a, new Channel("y", triggered)),
        "channels[2] \"y\"",
        "so has \"x\"",
        "only one channel");
    mismatch(() -> ChannelSet.of(List.of()), "channels.size = 0: must be from 1 to 64");
    absent("channels[1]", () -> ChannelSet.of(a, null));
    absent("channels", () -> ChannelSet.of((List<Channel>) null));
  }

  @Test
  void badArguments() {
    ChannelSet set = ChannelSet.of(new Channel("a", QUIET), new Channel("b", QUIET));
    mismatch(() -> set.capture(List.of(SQUARE), 0), "signals.size = 1: must be 2");
    absent("signals", () -> set.capture(null, 0));
    absent("signals[1]", () -> set.capture(Arrays.asList(SQUARE, null), 0));
    absent("name", () -> new Channel(null, QUIET));
    absent("setup", () -> new Channel("a", null));
    mismatch(() -> new Channel(" ", QUIET), "name = \" \"", "blank");
    bounded("skewSeconds", "s", -1, 1, s -> new Channel("a", QUIET, s));
    bounded("skewSeconds", "s", -1, 1, s -> new Channel("a", QUIET).withSkew(s));
    assertEquals(1, set.indexOf("b"));
    mismatch(() -> set.indexOf("c"), "name = \"c\": must be one of a, b");
    absent("name", () -> set.indexOf(null));
  }

  @Test
  void valuesAreCompared() {
    Channel a = new Channel("a", QUIET, 1e-9);
    ChannelSet set = ChannelSet.of(a);
    assertEquals(set, ChannelSet.of(List.of(new Channel("a", QUIET).withSkew(1e-9))));
    assertEquals(set.hashCode(), ChannelSet.of(a).hashCode());
    assertEquals(List.of(a), set.channels());
    assertEquals(QUIET.points(3), a.withSetup(QUIET.points(3)).setup());
    assertTrue(set.toString().startsWith("a: ideal front end"), set.toString());
    assertTrue(set.toString().endsWith("; skew of 1 ns"), set.toString());
  }
}
