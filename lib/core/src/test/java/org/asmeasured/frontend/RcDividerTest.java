package org.asmeasured.frontend;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import org.apache.commons.math3.complex.Complex;
import org.asmeasured.linear.Network;
import org.asmeasured.linear.Response;
import org.junit.jupiter.api.Test;

/**
 * The closed form of source, passive probe and input against the textbook divider (J. Millman, H.
 * Taub, Pulse, Digital and Switching Waveforms, 1965; from memory) and against the same network
 * solved with 400 digits.
 */
class RcDividerTest {
  private static final long SEED = 20_240_611;

  private static Optional<RcDivider> divider(Source source, Probe probe, Termination input) {
    return RcDivider.of(source, probe, GroundLead.none(), input, Coupling.dc());
  }

  /** The same elements, by the node equations. */
  private static Network network(Source source, Probe probe, Termination input) {
    Network network = Network.empty();
    String tip = "source";
    if (source.ohms() > 0) {
      tip = Probe.TIP;
      network = network.resistor("source", tip, source.ohms());
      if (source.farads() > 0) {
        network = network.capacitor("source", tip, source.farads());
      }
    }
    String top = tip;
    network =
        network.joinedWith(
            probe.network(input).renamed(node -> node.equals(Probe.TIP) ? top : node));
    network = network.resistor(Probe.INPUT, Network.GROUND, input.ohms());
    return input.farads() > 0
        ? network.capacitor(Probe.INPUT, Network.GROUND, input.farads())
        : network;
  }

  /** At frequencies about every root, where each root shows. */
  private static void assertSame(String what, Response expected, Response actual) {
    assertEquals(expected.poles().size(), actual.poles().size(), what + ": poles");
    assertEquals(expected.zeros().size(), actual.zeros().size(), what + ": zeros");
    List<Complex> roots = new ArrayList<>(expected.poles());
    roots.addAll(expected.zeros());
    List<Double> frequencies = new ArrayList<>(List.of(0.0));
    for (Complex root : roots) {
      for (double factor : new double[] {0.1, 1, 10}) {
        frequencies.add(Math.min(1e15, factor * root.abs() / (2 * Math.PI)));
      }
    }
    for (double f : frequencies) {
      Complex e = expected.at(f);
      assertTrue(
          actual.at(f).subtract(e).abs() <= 1e-12 * e.abs(),
          () -> what + " at " + f + " Hz: " + actual.at(f) + ", not " + e);
    }
  }

  private static void check(Source source, Probe probe, Termination input) {
    String what = source + ", " + probe + ", " + input;
    RcDivider closed = divider(source, probe, input).orElseThrow(() -> new AssertionError(what));
    Network network = network(source, probe, input);
    assertSame(what + ", input", network.response("source", Probe.INPUT), closed.atInput());
    if (source.ohms() > 0) {
      assertSame(what + ", tip", network.response("source", Probe.TIP), closed.atTip());
    }
  }

  @Test
  void idealSourceGivesTheTextbookDivider() {
    PassiveDivider probe = PassiveDivider.times10().withTrimmerError(0.05);
    Termination input = Termination.oneMegohm();
    double r1 = 9e6;
    double r2 = 1e6;
    double c1 = probe.seriesFarads(input);
    double c2 = input.farads() + probe.cableFarads();
    Response h = divider(Source.ideal(), probe, input).orElseThrow().atInput();
    assertEquals(1, h.poles().size());
    assertEquals(1, h.zeros().size());
    double tau = r1 * r2 / (r1 + r2) * (c1 + c2);
    assertEquals(-1 / tau, h.poles().get(0).getReal(), 1e-14 / tau);
    assertEquals(-1 / (r1 * c1), h.zeros().get(0).getReal(), 1e-14 / (r1 * c1));
    assertEquals(0.1, h.dcGain(), 1e-16);
    assertEquals(c1 / (c1 + c2), h.directGain(), 1e-15);
  }

  @Test
  void trimmedDividerIsFlat() {
    Response h =
        divider(Source.ideal(), PassiveDivider.times10(), Termination.oneMegohm())
            .orElseThrow()
            .atInput();
    assertTrue(h.poles().isEmpty());
    assertEquals(0.1, h.gain(), 0);
  }

  @Test
  void namedCases() {
    PassiveDivider ten = PassiveDivider.times10();
    Termination input = Termination.oneMegohm();
    for (Source source :
        List.of(Source.ideal(), Source.ofOhms(50), new Source(50, 1e-12), new Source(1e5, 1e-9))) {
      check(source, ten, input);
      check(source, ten.withTrimmerError(0.03), input);
      check(source, ten.withTrimmerError(-0.3), Termination.fiftyOhm());
      check(source, ten.withCable(0), input);
      check(source, TimesOneProbe.of(300, 50e-12), input);
      check(source, TimesOneProbe.of(300, 0), Termination.fiftyOhm());
    }
  }

  @Test
  void agreesWithTheNodeEquationsOverAllRanges() {
    Random random = new Random(SEED);
    int closed = 0;
    for (int k = 0; k < 200; k++) {
      Source source =
          new Source(
              k % 4 == 0 ? 0 : spread(random, 1, 1e7), k % 4 < 2 ? 0 : spread(random, 1e-13, 1e-9));
      Probe probe =
          k % 3 == 0
              ? TimesOneProbe.of(spread(random, 1, 1e4), spread(random, 1e-12, 1e-10))
              : PassiveDivider.times10()
                  .withTrimmerError(2 * random.nextDouble() - 0.9)
                  .withCable(spread(random, 1e-12, 1e-9));
      Termination input = new Termination(spread(random, 10, 1e8), spread(random, 1e-12, 1e-10));
      if (divider(source, probe, input).isPresent()) {
        check(source, probe, input);
        closed++;
      }
    }
    assertTrue(closed > 150, "closed forms: " + closed);
  }

  private static double spread(Random random, double from, double to) {
    return from * Math.pow(to / from, random.nextDouble());
  }

  @Test
  void whatIsNoSuchDividerHasNone() {
    Termination input = Termination.oneMegohm();
    PassiveDivider ten = PassiveDivider.times10();
    assertTrue(divider(Source.ofOhms(50), Probe.direct(), input).isEmpty());
    assertTrue(
        RcDivider.of(Source.ofOhms(50), ten, GroundLead.ofLength(100), input, Coupling.dc())
            .isEmpty());
    assertTrue(
        RcDivider.of(Source.ofOhms(50), ten, GroundLead.none(), input, Coupling.capacitor())
            .isEmpty());
    // poles too near each other for double arithmetic
    double tau = 1e6 * 100e-12;
    assertTrue(
        divider(
                new Source(1e6, 100e-12 * (1 + 1e-6)),
                ten.withTrimmerError(2e-6),
                new Termination(1e6, tau / 1e6 - ten.cableFarads()))
            .isEmpty());
  }
}
