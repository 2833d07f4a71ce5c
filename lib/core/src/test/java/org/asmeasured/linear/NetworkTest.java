package org.asmeasured.linear;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.apache.commons.math3.complex.Complex;
import org.junit.jupiter.api.Test;

/** Networks and state spaces against transfer functions that are known. */
class NetworkTest {

  /** Millman and Taub, Pulse, Digital and Switching Waveforms, 1965, attenuators (from memory). */
  @Test
  void compensatedDivider() {
    double c1 = 1.1 * 20e-12 / 9;
    Response h =
        Network.empty()
            .resistor("tip", "in", 9e6)
            .capacitor("tip", "in", c1)
            .resistor("in", Network.GROUND, 1e6)
            .capacitor("in", Network.GROUND, 20e-12)
            .response("tip", "in");
    assertEquals(1, h.poles().size());
    assertEquals(-1 / (0.9e6 * (c1 + 20e-12)), h.poles().get(0).getReal(), 1e-9);
    assertEquals(-1 / (9e6 * c1), h.zeros().get(0).getReal(), 1e-9);
    assertEquals(0.1, h.dcGain(), 1e-16);
    assertEquals(c1 / (c1 + 20e-12), h.directGain(), 1e-16);
    assertEquals(0.1 * 1.08910360580381, h.magnitude(1e6), 1e-14);
  }

  /** The ground lead of the reference values: series R-L into C. */
  @Test
  void groundLead() {
    Response h =
        Network.empty()
            .resistor("tip", "a", 50)
            .inductor("a", "b", 150e-9)
            .capacitor("b", Network.GROUND, 10e-12)
            .response("tip", "b");
    double w0 = 1 / Math.sqrt(150e-9 * 10e-12);
    double zeta = 25 * Math.sqrt(10e-12 / 150e-9);
    assertEquals(2, h.poles().size());
    assertEquals(-zeta * w0, h.poles().get(0).getReal(), 1e-6);
    assertEquals(2.50217296868, h.magnitude(124417142), 1e-9);
    assertEquals(195928076.06, h.halfPowerHz(), 1);
    assertEquals(0.519407078631, Overshoot.of(h), 1e-9);
  }

  private static final class Overshoot {
    static double of(Response h) {
      return h.of(org.asmeasured.signal.Signals.step(1, 0)).maximum(0, 1e-6) - 1;
    }
  }

  @Test
  void manyDecadesApart() {
    // a coupling capacitor at 10 Hz ahead of a 1 GHz corner, and an element that does not matter
    Response h =
        Network.empty()
            .capacitor("source", "in", 1.591549430918953e-8)
            .resistor("in", Network.GROUND, 1e6)
            .resistor("in", "out", 50)
            .capacitor("out", Network.GROUND, 1 / (2 * Math.PI * 1e9 * 50))
            .resistor("source", Network.GROUND, 1e3)
            .response("source", "out");
    assertEquals(2, h.poles().size());
    assertEquals(1, h.zeros().size());
    assertEquals(0, h.zeros().get(0).abs());
    assertTrue(Math.abs(h.magnitude(1e5) - 1) < 1e-3);
  }

  @Test
  void stateSpaceOfRepeatedPoles() {
    double p = 2 * Math.PI * 1e8;
    double[][] a = {{-p, 0, 0}, {p, -p, 0}, {0, p, -p}};
    Response h = StateSpace.response(a, new double[] {p, 0, 0}, new double[] {0, 0, 1}, 0);
    for (Complex pole : h.poles()) {
      assertEquals(-p, pole.getReal(), 1e-6);
      assertEquals(0, pole.getImaginary(), 1e-6);
    }
    double x = p * 3e-9;
    assertEquals(1 - Math.exp(-x) * (1 + x + x * x / 2), h.stepResponse(3e-9), 1e-12);
  }

  @Test
  void whatTheOutputDoesNotShowIsTakenOut() {
    double[][] a = {{-1e6, 0}, {0, -5e9}};
    Response h = StateSpace.response(a, new double[] {1e6, 1}, new double[] {1, 0}, 0.5);
    assertEquals(1, h.poles().size());
    assertEquals(1.5, h.dcGain(), 1e-15);
    assertEquals(0.5, h.directGain(), 1e-15);
  }

  @Test
  void joinedAndRenamed() {
    Network lead = Network.empty().resistor("a", "b", 50).inductor("b", "c", 1e-7);
    Network load = Network.empty().capacitor("end", Network.GROUND, 1e-11);
    Network whole = lead.joinedWith(load.renamed(node -> "c"));
    assertEquals(
        lead.capacitor("c", Network.GROUND, 1e-11), whole, "the same elements, the same network");
    assertEquals(lead.capacitor("c", Network.GROUND, 1e-11).hashCode(), whole.hashCode());
    assertEquals(java.util.Set.of("a", "b", "c", Network.GROUND), whole.nodes());
    assertTrue(Network.empty().nodes().isEmpty());
    Network capitals = whole.renamed(node -> "the " + node);
    assertEquals(java.util.Set.of("the a", "the b", "the c", Network.GROUND), capitals.nodes());
    assertEquals(whole.response("a", "c").poles(), capitals.response("the a", "the c").poles());
    assertMessage("two different nodes", () -> lead.renamed(node -> "x"));
    Network full = lead.joinedWith(lead).joinedWith(lead).joinedWith(lead);
    Network fuller = full.joinedWith(full);
    assertMessage("24 elements", () -> fuller.joinedWith(full).joinedWith(lead));
    assertThrows(NullPointerException.class, () -> lead.joinedWith(null));
    assertThrows(NullPointerException.class, () -> lead.renamed(null));
    assertThrows(NullPointerException.class, () -> lead.renamed(node -> null));
  }

  @Test
  void refusals() {
    Network rc = Network.empty().resistor("a", "b", 50).capacitor("b", Network.GROUND, 1e-12);
    assertMessage("\"c\"", () -> rc.response("a", "c"));
    assertMessage("ground", () -> rc.response("ground", "b"));
    assertMessage("ohms = NaN ohm", () -> rc.resistor("a", "b", Double.NaN));
    assertMessage("farads = -1.0E-12 F", () -> rc.capacitor("a", "b", -1e-12));
    assertMessage("henries = 0.0 H", () -> rc.inductor("a", "b", 0));
    assertMessage("two different nodes", () -> rc.resistor("a", "a", 1));
    assertMessage(
        "negative real part",
        () ->
            Network.empty()
                .inductor("a", "b", 1e-9)
                .capacitor("b", "ground", 1e-12)
                .response("a", "b"));
    assertMessage("no unique solution", () -> rc.resistor("x", "y", 1).response("a", "x"));
    assertMessage(
        "a[0] has length 1",
        () -> StateSpace.response(new double[][] {{1}, {1}}, new double[2], new double[2], 0));
    assertMessage(
        "a.length = 0",
        () -> StateSpace.response(new double[0][], new double[0], new double[0], 0));
    assertMessage(
        "d = Infinity",
        () -> StateSpace.response(new double[][] {{-1}}, new double[1], new double[1], 1 / 0.0));
  }

  private static void assertMessage(String part, org.junit.jupiter.api.function.Executable call) {
    IllegalArgumentException e = assertThrows(IllegalArgumentException.class, call);
    assertTrue(e.getMessage().contains(part), e.getMessage());
  }
}
