package org.asmeasured.frontend;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.stream.Stream;
import org.apache.commons.math3.complex.Complex;
import org.asmeasured.linear.Network;
import org.asmeasured.linear.Response;
import org.asmeasured.signal.SampleClock;
import org.asmeasured.signal.Signal;
import org.asmeasured.signal.Signals;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** What every probe keeps, ours and anyone's. */
class ProbeContractTest {
  private static final Termination INPUT = Termination.oneMegohm();
  private static final SampleClock CLOCK = new SampleClock(0, 1e9);

  /** As a user would write one: 950 ohm into an input of 50 ohm. */
  private record Pickoff() implements Probe {
    @Override
    public String name() {
      return "950 ohm into 50 ohm";
    }

    @Override
    public double attenuation() {
      return 20;
    }

    @Override
    public Network network(Termination input) {
      return Network.empty().resistor(TIP, INPUT, 950);
    }

    @Override
    public Termination madeFor(Termination input) {
      return Termination.fiftyOhm();
    }
  }

  static Stream<Probe> probes() {
    return Stream.of(
        Probe.direct(),
        PassiveDivider.times10(),
        PassiveDivider.times10().withTrimmerError(-0.1).withBandwidth(Bandwidth.bessel(3, 4e8)),
        PassiveDivider.times10().withGroundLead(GroundLead.ofLength(120).withStray(2e-12)),
        PassiveDivider.times10().withTrimmedAt(new Termination(1e6, 25e-12)),
        PassiveDivider.times(100),
        TimesOneProbe.of(200, 80e-12),
        TimesOneProbe.of(200, 80e-12).withGroundLead(GroundLead.ofLength(100)),
        ActiveProbe.of(1e6, 1e-12, Bandwidth.butterworth(2, 1e9)),
        ActiveProbe.of(5e4, 0, Bandwidth.unlimited()).withAttenuation(25).drivingFiftyOhm(),
        ActiveProbe.of(
            1e7,
            2e-12,
            Bandwidth.of(
                "a shelf",
                Response.of(List.of(new Complex(-2e8 / 1.1)), List.of(new Complex(-2e8)), 1.1))),
        NetworkProbe.of(
            "a filter of three",
            Network.empty()
                .resistor(Probe.TIP, "middle", 450)
                .inductor("middle", Probe.INPUT, 20e-9)
                .capacitor("middle", Network.GROUND, 1e-12),
            1),
        new Pickoff());
  }

  private static Loading behind(Source source, Probe probe) {
    return new Loading(source, probe, probe.madeFor(INPUT), Coupling.dc());
  }

  @ParameterizedTest
  @MethodSource("probes")
  void saysItsNameAndAlwaysTheSame(Probe probe) {
    assertFalse(probe.name().isBlank());
    assertEquals(probe.name(), probe.name());
    assertEquals(probe.network(INPUT), probe.network(INPUT));
    assertEquals(probe.response().poles(), probe.response().poles());
    assertEquals(probe.madeFor(INPUT), probe.madeFor(INPUT));
    assertFalse(probe.toString().contains("@"), probe.toString());
    assertFalse(probe.rating().isStated());
  }

  /** On the input that it is made for the attenuation holds; a series resistance is loading. */
  @ParameterizedTest
  @MethodSource("probes")
  void attenuationHoldsOnTheInputItIsMadeFor(Probe probe) {
    double lost = probe instanceof TimesOneProbe || probe instanceof NetworkProbe ? 5e-4 : 1e-14;
    assertEquals(1, behind(Source.ideal(), probe).response().dcGain(), lost);
  }

  @ParameterizedTest
  @MethodSource("probes")
  void idealSourceIsNotLoaded(Probe probe) {
    Loading whole = behind(Source.ideal(), probe);
    assertEquals(1, whole.atTip().dcGain(), 1e-9);
    if (probe.groundLead().isIdeal()) {
      assertTrue(whole.atTip().isIdentity(), probe.toString());
    }
  }

  @ParameterizedTest
  @MethodSource("probes")
  void anySourceIsLoadedAndTheStepsEndAtTheWhole(Probe probe) {
    Loading whole = new Loading(new Source(2e3, 1e-12), probe, INPUT, Coupling.capacitor(22e-9));
    assertTrue(whole.atTip().magnitude(1e4) < 1);
    List<AnalogStage> steps = whole.steps();
    assertEquals(whole.response(), steps.get(steps.size() - 1).response());
    assertEquals("coupling", steps.get(steps.size() - 1).name());
    for (AnalogStage step : steps) {
      assertFalse(step.name().isBlank());
      assertFalse(step.isIdeal());
    }
  }

  @ParameterizedTest
  @MethodSource("probes")
  void isLinearAndFollowsTime(Probe probe) {
    Response response = behind(Source.ofOhms(50), probe).response();
    Signal a = Signals.trapezoid(-0.3, 0.7, 170e-9, 0.4, 5e-9, 9e-9);
    Signal b = Signals.sine(0.4, 31.7e6, 0.3);
    double[] ofA = sampled(response, a);
    double[] ofB = sampled(response, b);
    double[] both = sampled(response, a.times(-2.5).plus(b.times(0.75)));
    double[] later = sampled(response, a.delayedBy(30e-9));
    for (int i = 0; i < both.length; i++) {
      assertEquals(-2.5 * ofA[i] + 0.75 * ofB[i], both[i], 2.5e-9, "sample " + i);
      if (i >= 30) {
        assertEquals(ofA[i - 30], later[i], 1e-9, "sample " + i);
      }
    }
  }

  private static double[] sampled(Response response, Signal signal) {
    double[] out = new double[400];
    response.of(signal).sample(CLOCK, 0, out, 0, out.length);
    for (double volts : out) {
      assertTrue(Double.isFinite(volts));
    }
    return out;
  }
}
