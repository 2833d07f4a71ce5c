package org.asmeasured.frontend;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.function.UnaryOperator;
import org.apache.commons.math3.complex.Complex;
import org.asmeasured.linear.Network;
import org.asmeasured.linear.Response;
import org.asmeasured.signal.Signals;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Source, probe and input as one network, against impedances written out by hand. */
class LoadingTest {
  private static final double[] HERTZ = {0.1, 3, 10, 1e3, 8e3, 1e5, 1e6, 2.5e7, 1.6e8, 3e8, 2e9};
  private static final Termination INPUT = new Termination(1e6, 15e-12);

  private static Complex s(double hertz) {
    return new Complex(0, 2 * Math.PI * hertz);
  }

  private static Complex parallel(double ohms, double farads, Complex s) {
    return new Complex(ohms).divide(s.multiply(ohms * farads).add(1));
  }

  private static void same(UnaryOperator<Complex> formula, Response response, String what) {
    for (double f : HERTZ) {
      Complex expected = formula.apply(s(f));
      double error = expected.subtract(response.at(f)).abs();
      assertTrue(
          error <= 2e-13 * Math.max(1, expected.abs()), what + " at " + f + " Hz: off by " + error);
    }
  }

  private static Loading loading(Source source, Probe probe, Termination input) {
    return new Loading(source, probe, input, Coupling.dc());
  }

  /**
   * Source Rs || Cs, lead L and R, stray C, R1 || C1, R2 || C2: the voltage over R2 by two
   * successive dividers.
   */
  @ParameterizedTest
  @CsvSource({
    "0, 0, 0, 0, 0, 0.1",
    "50, 0, 0, 0, 0, 0.1",
    "1000, 0, 0, 0, 0, -0.2",
    "1000, 3e-12, 0, 0, 0, 0",
    "50, 0, 150e-9, 0, 0, 0",
    "50, 2e-12, 100e-9, 20, 3e-12, 0.05",
    "1e5, 1e-12, 25e-9, 100, 0.5e-12, -0.05"
  })
  void wholeNetwork(double rs, double cs, double l, double r, double stray, double e) {
    GroundLead lead = new GroundLead(l, r, stray);
    PassiveDivider probe = PassiveDivider.times10().withTrimmerError(e).withGroundLead(lead);
    double c2 = 100e-12;
    double c1 = (1 + e) * c2 / 9;
    Response response = loading(new Source(rs, cs), probe, INPUT).response();
    same(
        s -> {
          Complex z1 = parallel(9e6, c1, s);
          Complex z2 = parallel(1e6, c2, s);
          Complex behind = z1.add(z2);
          Complex loaded = behind.divide(s.multiply(stray).multiply(behind).add(1));
          Complex ahead = s.multiply(l).add(r);
          if (rs > 0) {
            ahead = ahead.add(parallel(rs, cs, s));
          }
          Complex tip = loaded.divide(loaded.add(ahead));
          return tip.multiply(z2).divide(behind).multiply(10);
        },
        response,
        "network");
  }

  /** J. Millman, H. Taub, Pulse, Digital and Switching Waveforms, 1965, attenuators (memory). */
  @ParameterizedTest
  @ValueSource(doubles = {-0.1, -0.05, 0, 0.05, 0.1})
  void stepOfTheDivider(double e) {
    Termination input = new Termination(1e6, 20e-12);
    PassiveDivider probe = PassiveDivider.times10().withCable(0).withTrimmerError(e);
    var step = loading(Source.ideal(), probe, input).response().of(Signals.step(1, 0));
    double start = (1 + e) / (1 + e / 10);
    double tau = 0.9e6 * (20e-12 + (1 + e) * 20e-12 / 9);
    assertEquals(start, step.valueAt(0), 1e-14);
    for (double t : new double[] {1e-9, 1e-6, 20e-6, 60e-6, 1e-3}) {
      assertEquals(1 + (start - 1) * Math.exp(-t / tau), step.valueAt(t), 1e-13, "at " + t);
    }
  }

  /** A compensated divider shows n R2 in parallel with C1 in series with C2: R2 C2 = R1 C1. */
  @Test
  void compensatedDividerIsOneResistanceAndCapacitance() {
    Loading whole = loading(Source.ofOhms(1e5), PassiveDivider.times10(), INPUT);
    Response response = whole.response();
    assertEquals(1 - 0.00990099009901, response.dcGain(), 1e-14);
    assertEquals(160746.492523, response.halfPowerHz(), 1e-6);
    assertEquals(2.17546987855e-6, response.riseTimeSeconds(), 1e-17);
    same(z -> whole.atTip().at(z.getImaginary() / (2 * Math.PI)), response, "tip");
  }

  @Test
  void ownCapacitanceIsInTheTruth() {
    Response response =
        new Loading(
                new Source(1e3, 5e-12), Probe.direct(), new Termination(1e6, 15e-12), Coupling.dc())
            .response();
    // open circuit is the truth; a load of CL divides edges by C/(C + CL)
    assertEquals(0.25, response.stepResponse(0), 1e-15);
    same(
        s -> {
          Complex load = parallel(1e6, 15e-12, s);
          return load.divide(load.add(parallel(1e3, 5e-12, s)));
        },
        response,
        "source");
  }

  @Test
  void timesOneProbe() {
    Response response =
        loading(Source.ofOhms(600), TimesOneProbe.of(300, 85e-12), INPUT).response();
    same(
        s -> {
          Complex load = parallel(1e6, 100e-12, s);
          return load.divide(load.add(900));
        },
        response,
        "x1");
  }

  @Test
  void activeProbe() {
    ActiveProbe probe =
        ActiveProbe.of(1e6, 0.8e-12, Bandwidth.singlePole(1.5e9))
            .withAttenuation(10)
            .drivingFiftyOhm();
    Response matched = loading(Source.ofOhms(500), probe, Termination.fiftyOhm()).response();
    UnaryOperator<Complex> formula =
        s -> {
          Complex load = parallel(1e6, 0.8e-12, s);
          Complex pole = s.divide(2 * Math.PI * 1.5e9).add(1);
          return load.divide(load.add(500)).divide(pole);
        };
    same(formula, matched, "active");
    Response high = loading(Source.ofOhms(500), probe, new Termination(1e6, 0)).response();
    same(s -> formula.apply(s).multiply(2e6 / 1000050.0), high, "active into 1 Mohm");
    Response unmoved =
        loading(
                Source.ofOhms(500),
                ActiveProbe.of(1e6, 0.8e-12, Bandwidth.singlePole(1.5e9)),
                INPUT)
            .response();
    same(formula, unmoved, "active, ideal output");
  }

  @Test
  void anyNetworkAndAnyResponse() {
    PassiveDivider divider = PassiveDivider.times10().withTrimmerError(0.07);
    Network parts =
        Network.empty()
            .resistor(Probe.TIP, Probe.INPUT, 9e6)
            .capacitor(Probe.TIP, Probe.INPUT, divider.seriesFarads(INPUT))
            .capacitor(Probe.INPUT, Network.GROUND, 85e-12);
    NetworkProbe own = NetworkProbe.of("own parts", parts, 10);
    // a closed form against many digits: the last bits may differ
    List<Complex> closed = loading(Source.ofOhms(50), divider, INPUT).response().poles();
    List<Complex> solved = loading(Source.ofOhms(50), own, INPUT).response().poles();
    assertEquals(solved.size(), closed.size());
    for (int i = 0; i < solved.size(); i++) {
      assertEquals(0, closed.get(i).subtract(solved.get(i)).abs() / solved.get(i).abs(), 1e-15);
    }
    Bandwidth shape = Bandwidth.bessel(4, 300e6);
    Response both = loading(Source.ideal(), own.withBandwidth(shape), INPUT).response();
    Response first = loading(Source.ideal(), own, INPUT).response();
    for (double f : HERTZ) {
      Complex expected = first.at(f).multiply(shape.response().at(f));
      assertEquals(0, expected.subtract(both.at(f)).abs(), 1e-13);
    }
  }

  /** fc = 1/(2 pi C (Rahead + Rin)): elementary; 15.9 nF is 10 Hz with 1 Mohm. */
  @ParameterizedTest
  @CsvSource({"0, 1e6, 10", "50, 1e6, 9.999500025", "0, 50, 200000"})
  void capacitorAheadOfTheInput(double rs, double r, double corner) {
    Response response =
        new Loading(Source.ofOhms(rs), Probe.direct(), new Termination(r, 0), Coupling.capacitor())
            .response();
    assertEquals(1, response.poles().size());
    assertEquals(corner, -response.poles().get(0).getReal() / (2 * Math.PI), 1e-10 * corner);
    assertEquals(0, response.dcGain());
    assertEquals(r / (r + rs), response.magnitude(1e12), 1e-12);
  }

  @Test
  void dividerMovesTheCornerOfTheCapacitor() {
    Loading whole =
        new Loading(
            Source.ideal(),
            PassiveDivider.times10().withCable(0),
            new Termination(1e6, 0),
            Coupling.capacitor());
    Response response = whole.response();
    assertEquals(1, response.poles().size());
    assertEquals(1, -response.poles().get(0).getReal() / (2 * Math.PI), 1e-13);
    assertEquals(Math.sqrt(0.5), response.magnitude(1), 1e-13);
    assertEquals(0, response.dcGain());
    // no direct current: the connector stands at the whole voltage of the source
    assertEquals(1, whole.atConnector().dcGain(), 1e-14);
    assertEquals(0.1, whole.atConnector().magnitude(1e9), 1e-9);
    // the capacitances of cable and input do not see one another through it
    Response usual =
        new Loading(Source.ideal(), PassiveDivider.times10(), INPUT, Coupling.capacitor())
            .response();
    double c = Coupling.capacitor().farads();
    same(
        s -> {
          Complex input = parallel(1e6, 15e-12, s);
          Complex behind = input.add(s.multiply(c).reciprocal());
          Complex loaded = behind.divide(s.multiply(85e-12).multiply(behind).add(1));
          Complex ahead = parallel(9e6, 100e-12 / 9, s);
          Complex connector = loaded.divide(loaded.add(ahead));
          return connector.multiply(input).divide(behind).multiply(10);
        },
        usual,
        "capacitor behind the divider");
  }

  @Test
  void activeProbeShieldsTheCapacitor() {
    Loading whole =
        new Loading(
            Source.ofOhms(1e6),
            ActiveProbe.of(1e9, 0, Bandwidth.unlimited()),
            new Termination(1e6, 0),
            Coupling.capacitor());
    assertEquals(10, -whole.response().poles().get(0).getReal() / (2 * Math.PI), 1e-12);
  }

  private static List<String> names(Loading loading) {
    return loading.steps().stream().map(AnalogStage::name).toList();
  }

  @Test
  void stepsAreInTheOrderOfTheChainAndEndAtTheWhole() {
    PassiveDivider probe =
        PassiveDivider.times10()
            .withTrimmedAt(new Termination(1e6, 20e-12))
            .withGroundLead(GroundLead.ofLength(150));
    Loading whole = new Loading(Source.ofOhms(50), probe, INPUT, Coupling.capacitor());
    assertEquals(
        List.of("source loaded by the probe", "probe", "ground lead", "termination", "coupling"),
        names(whole));
    assertEquals(whole.response(), whole.steps().get(4).response());
    // compensated on the input that it was trimmed at: loading is one pole, the probe adds nothing
    Response source = whole.steps().get(0).response();
    same(
        s -> {
          Complex load = parallel(1e7, 10.5e-12, s);
          return load.divide(load.add(50));
        },
        source,
        "source");
    same(
        s -> source.at(s.getImaginary() / (2 * Math.PI)), whole.steps().get(1).response(), "probe");
    // on the other input it is not: C1 = 105/9 pF into 100 pF
    double start = 10 * (105.0 / 9) / (105.0 / 9 + 100);
    Response ended =
        loading(Source.ideal(), probe.withGroundLead(GroundLead.none()), INPUT).response();
    assertEquals(start, ended.stepResponse(0), 1e-14);
    assertEquals(List.of("source and termination"), names(new Loading(50, Termination.fiftyOhm())));
    assertEquals(List.of(), names(new Loading(0, Termination.fiftyOhm())));
    assertEquals(List.of("probe"), names(loading(Source.ideal(), PassiveDivider.times10(), INPUT)));
  }

  @Test
  void termination() {
    Loading wrong =
        loading(Source.ideal(), PassiveDivider.times10().withCable(0), Termination.fiftyOhm());
    assertEquals(List.of("probe", "termination"), names(wrong));
    assertEquals(1, wrong.steps().get(0).response().dcGain(), 1e-15);
    assertEquals(10 * 50 / 9000050.0, wrong.response().dcGain(), 1e-18);
  }

  @Test
  void equalByWhatTheyAreMadeOf() {
    Loading one = loading(Source.ofOhms(50), PassiveDivider.times10(), INPUT);
    Loading same = loading(new Source(50, 0), PassiveDivider.times(10), INPUT);
    assertEquals(one, same);
    assertEquals(one.hashCode(), same.hashCode());
    assertNotEquals(one, loading(Source.ofOhms(50), Probe.direct(), INPUT));
    assertNotEquals(one, loading(Source.ofOhms(51), PassiveDivider.times10(), INPUT));
    assertNotEquals(
        one, loading(Source.ofOhms(50), PassiveDivider.times10(), new Termination(1e6, 0)));
    assertNotEquals(
        one, new Loading(Source.ofOhms(50), PassiveDivider.times10(), INPUT, Coupling.capacitor()));
  }

  @Test
  void saysItselfAsAPersonWould() {
    assertEquals(
        "source of 50 ohm with 2 pF of its own, passive divider x10, 9 Mohm, cable of 85 pF, trimmer +5 %, single pole,"
            + " -3 dB at 300 MHz, ground lead of 150 nH, into 1 Mohm in parallel with 15 pF behind 15.92 nF",
        new Loading(
                new Source(50, 2e-12),
                PassiveDivider.times10()
                    .withTrimmerError(0.05)
                    .withBandwidth(Bandwidth.singlePole(300e6))
                    .withGroundLead(GroundLead.ofLength(150)),
                INPUT,
                Coupling.capacitor())
            .toString());
    assertEquals("passive probe x1, 300 ohm, cable of 85 pF", "" + TimesOneProbe.of(300, 85e-12));
    assertEquals(
        "active probe x10, 1 Mohm in parallel with 1 pF, output of 50 ohm",
        ""
            + ActiveProbe.of(1e6, 1e-12, Bandwidth.unlimited())
                .withAttenuation(10)
                .drivingFiftyOhm());
    assertEquals("direct connection", "" + Probe.direct());
    assertEquals("ideal source", "" + Source.ideal());
    assertEquals("no ground lead", "" + GroundLead.none());
    assertEquals(
        "ground lead of 100 nH and 20 ohm, stray 1 pF",
        "" + GroundLead.ofLength(100).withDamping(20).withStray(1e-12));
    assertEquals("rated for 300 V peak and 100 V RMS", "" + new InputRating(300, 100));
    assertEquals("rated for 5 V RMS", "" + new InputRating(Double.POSITIVE_INFINITY, 5));
    assertEquals("no rating stated", "" + InputRating.unstated());
    assertEquals("AC coupling by 15.92 nF", "" + Coupling.capacitor());
  }
}
