package org.asmeasured.frontend;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import java.util.Random;
import java.util.stream.Stream;
import org.apache.commons.math3.complex.Complex;
import org.asmeasured.linear.Response;
import org.asmeasured.signal.SampleClock;
import org.asmeasured.signal.Signal;
import org.asmeasured.signal.Signals;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** What every analog stage keeps, ours and anyone's. */
class AnalogStageContractTest {
  /** Of the amplitude; the figure that the analog chain is held to. */
  private static final double ANALOG = 1e-9;

  private static final SampleClock CLOCK = new SampleClock(1e-7, 1e9);

  /** A stage as a user would write it: a shelf that lifts high frequencies by a tenth. */
  private record Shelf() implements AnalogStage {
    @Override
    public String name() {
      return "shelf";
    }

    @Override
    public Response response() {
      return Response.of(List.of(new Complex(-2e8 / 1.1)), List.of(new Complex(-2e8)), 1.1);
    }
  }

  static Stream<AnalogStage> stages() {
    return Stream.of(
        new Loading(0, Termination.oneMegohm()),
        new Loading(50, Termination.oneMegohm()),
        new Loading(50, Termination.fiftyOhm()),
        new Loading(
            new Source(1e3, 2e-12),
            Probe.direct(),
            Termination.oneMegohm(),
            Coupling.capacitor(1e-9)),
        new Loading(
            Source.ofOhms(50),
            PassiveDivider.times10()
                .withTrimmerError(0.1)
                .withGroundLead(GroundLead.ofLength(100).withDamping(20)),
            Termination.oneMegohm(),
            Coupling.dc()),
        new Loading(
            Source.ofOhms(200),
            ActiveProbe.of(1e6, 1e-12, Bandwidth.bessel(3, 1e9)).drivingFiftyOhm(),
            Termination.fiftyOhm(),
            Coupling.dc()),
        Coupling.dc(),
        Coupling.ac(),
        Coupling.capacitor(),
        Bandwidth.unlimited(),
        Bandwidth.singlePole(100e6),
        Bandwidth.butterworth(3, 20e6),
        Bandwidth.bessel(4, 200e6),
        Bandwidth.gaussian(5, 200e6),
        Bandwidth.of("two equal poles", Response.singlePole(50e6).times(Response.singlePole(50e6))),
        new Shelf());
  }

  private static Signal square() {
    return Signals.trapezoid(-0.3, 0.7, 170e-9, 0.4, 5e-9, 9e-9);
  }

  private static Signal sine() {
    return Signals.sine(0.4, 31.7e6, 0.3);
  }

  private static double[] sampled(AnalogStage stage, Signal signal, long first, int count) {
    double[] out = new double[count];
    stage.response().of(signal).sample(CLOCK, first, out, 0, count);
    return out;
  }

  @ParameterizedTest
  @MethodSource("stages")
  void saysItsNameAndAlwaysTheSame(AnalogStage stage) {
    assertFalse(stage.name().isBlank());
    assertEquals(stage.name(), stage.name());
    assertEquals(stage.response().poles(), stage.response().poles());
    assertFalse(stage.toString().contains("@"), stage.toString());
  }

  @ParameterizedTest
  @MethodSource("stages")
  void idealIsTheIdentityBitForBit(AnalogStage stage) {
    assertEquals(stage.isIdeal(), stage.response().isIdentity());
    if (stage.isIdeal()) {
      Signal signal = square().plus(sine());
      double[] expected = new double[500];
      signal.sample(CLOCK, -100, expected, 0, 500);
      assertArrayEquals(expected, sampled(stage, signal, -100, 500), 0);
    } else {
      assertTrue(stage.response().poles().size() > 0 || stage.response().gain() != 1);
    }
  }

  @ParameterizedTest
  @MethodSource("stages")
  void isLinear(AnalogStage stage) {
    double[] a = sampled(stage, square(), 0, 400);
    double[] b = sampled(stage, sine(), 0, 400);
    double[] both = sampled(stage, square().times(-2.5).plus(sine().times(0.75)), 0, 400);
    for (int i = 0; i < both.length; i++) {
      assertEquals(-2.5 * a[i] + 0.75 * b[i], both[i], 2.5 * ANALOG, "sample " + i);
    }
  }

  @ParameterizedTest
  @MethodSource("stages")
  void blocksChangeNothing(AnalogStage stage) {
    Signal signal = square().plus(sine());
    double[] whole = sampled(stage, signal, 0, 3000);
    double[] blocks = new double[3000];
    Random random = new Random(20250101);
    for (int at = 0; at < 3000; ) {
      int count = Math.min(3000 - at, random.nextInt(700));
      stage.response().of(signal).sample(CLOCK, at, blocks, at, count);
      at += count;
    }
    assertArrayEquals(whole, blocks, 0);
  }

  /** Signals hold no NaN, so neither may what comes out, whatever stood there before. */
  @ParameterizedTest
  @MethodSource("stages")
  void givesFiniteVoltsAndNothingElse(AnalogStage stage) {
    double[] out = new double[300];
    Arrays.fill(out, Double.NaN);
    stage.response().of(square()).sample(CLOCK, -1_000_000_000L, out, 100, 100);
    for (int i = 0; i < 300; i++) {
      assertEquals(i >= 100 && i < 200, Double.isFinite(out[i]), "place " + i);
    }
  }

  @ParameterizedTest
  @MethodSource("stages")
  void takesNoneAndOneSample(AnalogStage stage) {
    double[] out = {7};
    stage.response().of(square()).sample(CLOCK, 5, out, 0, 0);
    assertEquals(7, out[0]);
    stage.response().of(square()).sample(CLOCK, 5, out, 0, 1);
    assertEquals(sampled(stage, square(), 0, 6)[5], out[0]);
  }
}
