package org.asmeasured.advice;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.function.Function;
import org.asmeasured.accuracy.Measurement;
import org.asmeasured.accuracy.Tolerances;
import org.asmeasured.acquisition.Boxcar;
import org.asmeasured.acquisition.Decimation;
import org.asmeasured.acquisition.Ensemble;
import org.asmeasured.acquisition.Pick;
import org.asmeasured.acquisition.Trigger;
import org.asmeasured.capture.Setup;
import org.asmeasured.frontend.Bandwidth;
import org.asmeasured.frontend.Coupling;
import org.asmeasured.frontend.PassiveDivider;
import org.asmeasured.frontend.Probe;
import org.asmeasured.measure.Readings;
import org.asmeasured.signal.Signal;
import org.asmeasured.signal.Signals;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class ChoicesTest {
  private static final Setup ASKED = Setup.ideal(1e6, 1000);
  private static final Signal SINE = Signals.sine(1, 1e3);

  private static List<Setup> setups(Signal signal, Setup asked, Choices choices) {
    Advice a =
        Advice.of(
                Readings.rms(),
                new Measurement(signal, asked),
                Tolerances.none(),
                choices,
                AdviceMethod.usual())
            .orThrow();
    return a.ranking().stream().map(Candidate::setup).toList();
  }

  private static <T> List<T> sorted(List<Setup> setups, Function<Setup, T> value) {
    return setups.stream().map(value).sorted().distinct().toList();
  }

  /** 1, 2 and 5 times powers of ten, each the double that its digits stand for. */
  @Test
  void scalesAreOneTwoFive() {
    assertEquals(
        List.of(0.002, 0.005, 0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1.0, 2.0, 5.0),
        sorted(
            setups(SINE, ASKED, Choices.none().scalesBetween(2e-3, 5)),
            s -> s.vertical().voltsPerDivision()));
    assertEquals(1, Choices.none().scalesBetween(0.01, 0.01).combinations());
  }

  /** A sine on 3 V behind a gain of its own: the middle of what arrives. */
  @Test
  void centringFollowsWhatArrives() {
    Choices c = Choices.none().centred(10).couplings(Coupling.dc(), Coupling.ac());
    assertEquals(
        List.of(0.0, 3.0),
        sorted(
            setups(SINE.plus(3), ASKED, c),
            s -> Math.rint(s.vertical().offsetVolts() * 1e6) / 1e6 + 0.0));
  }

  @Test
  void spansAreKept() {
    Choices rates = Choices.none().rates(10_000, 1e5, 1e6, 1e7);
    for (Setup s : setups(SINE, ASKED, rates)) {
      assertEquals(1e-3, s.spanSeconds(), 1e-15);
    }
    assertEquals(List.of(100, 1000, 10_000), sorted(setups(SINE, ASKED, rates), Setup::points));
    Choices boxes = Choices.none().decimations(new Pick(1), Boxcar.of(8), Boxcar.of(16));
    // 1000/16 points do not fit; 62 do
    assertEquals(List.of(62, 125, 1000), sorted(setups(SINE, ASKED, boxes), Setup::points));
    assertEquals(
        List.of(500), sorted(setups(SINE, ASKED, Choices.none().record(2e6, 500)), Setup::points));
    Advice both =
        Advice.of(
                Readings.rms(),
                new Measurement(SINE, ASKED),
                Tolerances.none(),
                Choices.none().rates(5000, 1e6, 1e7).decimations(Boxcar.of(2000), Boxcar.of(2)),
                AdviceMethod.usual())
            .orThrow();
    // 1e7 samples/s need more than the memory, whatever the decimation, and 2000 do not fit once
    assertEquals(
        3, both.skipped().values().stream().mapToInt(i -> i).sum(), both.skipped().toString());
  }

  /** Of a signal that comes once there is one acquisition. */
  @Test
  void averagesAreOfWhatRepeats() {
    Choices c = Choices.none().averages(1, 16);
    assertEquals(2, setups(SINE, ASKED, c).size());
    assertEquals(2, setups(Signals.constant(1), ASKED, c).size());
    Measurement once = new Measurement(Signals.step(1, 5e-4), ASKED);
    Advice a =
        Advice.of(Readings.rms(), once, Tolerances.none(), c, AdviceMethod.usual()).orThrow();
    assertEquals(1, a.ranking().size());
    assertTrue(
        a.skipped().toString().contains("mean of 16: the signal does not repeat"),
        a.skipped().toString());
  }

  @Test
  void everySettingIsSet() {
    Trigger trigger = Trigger.at(0.1);
    Probe probe = PassiveDivider.times10();
    Choices c =
        Choices.none()
            .probes(probe)
            .couplings(Coupling.ac())
            .limits(Bandwidth.singlePole(20e3))
            .record(2e6, 4000)
            .decimations(Boxcar.of(4))
            .triggers(trigger)
            .ensembles(Ensemble.averageOf(3))
            .offsets(0.5)
            .scales(0.25)
            .own("bits", Alternative.of("9 bits", s -> s.bits(9)));
    List<Setup> one = setups(SINE, ASKED, c);
    assertEquals(1, one.size());
    Setup s = one.get(0);
    assertEquals(probe, s.frontEnd().probe());
    assertEquals(Coupling.ac(), s.frontEnd().coupling());
    assertEquals(Bandwidth.singlePole(20e3), s.frontEnd().limit());
    assertEquals(2e6, s.rateHz());
    assertEquals(1000, s.points());
    assertEquals(Boxcar.of(4), s.decimation());
    assertEquals(trigger, s.trigger().orElseThrow());
    assertEquals(Ensemble.averageOf(3), s.ensemble());
    assertEquals(0.5, s.vertical().offsetVolts());
    assertEquals(0.25, s.vertical().voltsPerDivision());
    assertEquals(9, s.converter().bits());
  }

  @Test
  void alternativesAddUp() {
    Choices c = Choices.none().offsets(0).offsets(1, 2).centred(1).averages(1, 2);
    assertEquals(8, c.combinations());
    assertEquals(1, Choices.none().combinations());
    assertEquals("no choices", Choices.none().toString());
    assertEquals(
        "averaging: single acquisition, mean of 2; offset: no offset, offset 1 V, offset 2 V, centred",
        c.toString());
    Choices many = Choices.none();
    for (int i = 0; i < 70; i++) {
      many = many.own("own " + i, Alternative.of("a", s -> s), Alternative.of("b", s -> s));
    }
    assertEquals(Long.MAX_VALUE, many.combinations());
  }

  @ParameterizedTest
  @ValueSource(doubles = {0, -1, 2e6, Double.NaN, Double.POSITIVE_INFINITY})
  void refusesBadScales(double volts) {
    assertThrows(IllegalArgumentException.class, () -> Choices.none().scales(volts));
    assertThrows(IllegalArgumentException.class, () -> Choices.none().scalesBetween(volts, 1));
    assertThrows(IllegalArgumentException.class, () -> Choices.none().scalesBetween(0.5, volts));
  }

  @Test
  void refusesBadInput() {
    Choices none = Choices.none();
    assertThrows(IllegalArgumentException.class, () -> none.scales());
    assertThrows(IllegalArgumentException.class, () -> none.scales(1, 1));
    assertThrows(IllegalArgumentException.class, () -> none.scalesBetween(3, 4));
    assertThrows(NullPointerException.class, () -> none.scales((double[]) null));
    assertThrows(IllegalArgumentException.class, () -> none.offsets(Double.NaN));
    assertThrows(IllegalArgumentException.class, () -> none.centred(-1));
    assertThrows(IllegalArgumentException.class, () -> none.centred(1).centred(2));
    assertThrows(NullPointerException.class, () -> none.couplings((Coupling) null));
    assertThrows(NullPointerException.class, () -> none.limits((Bandwidth) null));
    assertThrows(NullPointerException.class, () -> none.decimations((Decimation) null));
    assertThrows(IllegalArgumentException.class, () -> none.rates(0, 1e6));
    assertThrows(IllegalArgumentException.class, () -> none.rates(10, 0));
    assertThrows(IllegalArgumentException.class, () -> none.record(0, 10));
    assertThrows(IllegalArgumentException.class, () -> none.record(1e6, 0));
    assertThrows(IllegalArgumentException.class, () -> none.averages(0));
    assertThrows(NullPointerException.class, () -> none.ensembles((Ensemble) null));
    assertThrows(NullPointerException.class, () -> none.triggers((Trigger) null));
    assertThrows(NullPointerException.class, () -> none.probes((Probe) null));
    assertThrows(IllegalArgumentException.class, () -> none.own(" ", Alternative.of("a", s -> s)));
    assertThrows(NullPointerException.class, () -> none.own("x", (Alternative) null));
    assertThrows(IllegalArgumentException.class, () -> none.only(" ", s -> true));
    assertThrows(NullPointerException.class, () -> none.only("x", null));
    assertThrows(IllegalArgumentException.class, () -> Alternative.of("", s -> s));
    assertThrows(NullPointerException.class, () -> Alternative.of("a", null));
    assertThrows(NullPointerException.class, () -> Alternative.ofSignal("a", null));
  }
}
