package org.asmeasured.linear;

import static org.asmeasured.internal.Refusals.absent;
import static org.asmeasured.internal.Refusals.bounded;
import static org.asmeasured.internal.Refusals.mismatch;
import static org.asmeasured.internal.Refusals.refused;
import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;

/** Every parameter of networks and state spaces refuses what makes no response. */
class NetworkRefusalTest {
  private static final Network NONE = Network.empty();
  private static final Network RC =
      NONE.resistor("a", "b", 50).capacitor("b", Network.GROUND, 1e-12);

  @Test
  void elementValues() {
    bounded("ohms", "ohm", 1e-9, 1e18, v -> NONE.resistor("a", "b", v));
    bounded("henries", "H", 1e-18, 1e6, v -> NONE.inductor("a", "b", v));
    bounded("farads", "F", 1e-21, 1e6, v -> NONE.capacitor("a", "b", v));
    refused("ohms", "ohm", v -> NONE.resistor("a", "b", v), 0, -50);
    refused("henries", "H", v -> NONE.inductor("a", "b", v), 0, -1e-9);
    refused("farads", "F", v -> NONE.capacitor("a", "b", v), 0, -1e-12);
  }

  @Test
  void nodes() {
    absent("from", () -> NONE.resistor(null, "b", 1));
    absent("to", () -> NONE.resistor("a", null, 1));
    absent("from", () -> NONE.inductor(null, "b", 1));
    absent("to", () -> NONE.capacitor("a", null, 1));
    mismatch(() -> NONE.capacitor("x", "x", 1), "\"x\"", "two different nodes");
    mismatch(() -> RC.response("a", "nowhere"), "\"nowhere\"", "[a, b, ground]");
    mismatch(() -> RC.response("nowhere", "b"), "\"nowhere\"", "[a, b, ground]");
    mismatch(() -> RC.response(null, "b"), "null", "[a, b, ground]");
    mismatch(() -> NONE.response("a", "b"), "\"a\"", "must be one of []");
    mismatch(() -> RC.response(Network.GROUND, "b"), "source = \"ground\"", "shorted");
  }

  @Test
  void notTooMany() {
    Network network = NONE;
    for (int i = 0; i < 24; i++) {
      network = network.resistor("n" + i, "n" + (i + 1), 1);
    }
    Network full = network;
    mismatch(() -> full.resistor("a", "b", 1), "24 elements");
  }

  @Test
  void whatHasNoStableAnswer() {
    mismatch(() -> RC.resistor("x", "y", 1).response("a", "b"), "no unique solution", "open");
    // a lossless loop rings for ever
    mismatch(
        () ->
            NONE.inductor("a", "b", 1e-9).capacitor("b", Network.GROUND, 1e-12).response("a", "b"),
        "negative real part");
  }

  @Test
  void trivialAnswers() {
    assertEquals(0, RC.response("a", Network.GROUND).dcGain());
    assertEquals(1, RC.response("a", "a").dcGain());
    assertEquals(0, RC.response("a", "a").poles().size());
    assertEquals(
        0.25,
        NONE.resistor("a", "b", 3).resistor("b", Network.GROUND, 1).response("a", "b").dcGain());
  }

  @Test
  void stateSpaces() {
    double[][] a = {{-1, 0}, {0, -2}};
    double[] two = {1, 1};
    absent("a", () -> StateSpace.response(null, two, two, 0));
    absent("b", () -> StateSpace.response(a, null, two, 0));
    absent("c", () -> StateSpace.response(a, two, null, 0));
    mismatch(() -> StateSpace.response(a, new double[3], two, 0), "3 and 2", "2 states");
    mismatch(() -> StateSpace.response(a, two, new double[1], 0), "2 and 1", "2 states");
    mismatch(
        () -> StateSpace.response(new double[][] {{-1, 0}, {0}}, two, two, 0),
        "a[1] has length 1",
        "must be 2");
    mismatch(
        () -> StateSpace.response(new double[17][17], new double[17], new double[17], 0),
        "a.length = 17",
        "from 1 to 16");
    refused(
        "b[1]", "", v -> StateSpace.response(a, new double[] {1, v}, two, 0), 1.001e30, -1.001e30);
    refused("d", "", v -> StateSpace.response(a, two, two, v), 1.001e30, -1.001e30);
    refused(
        "a[1][0]",
        Double.NaN,
        "",
        () -> StateSpace.response(new double[][] {{-1, 0}, {Double.NaN, -2}}, two, two, 0));
    refused(
        "c[0]", Double.NaN, "", () -> StateSpace.response(a, two, new double[] {Double.NaN, 1}, 0));
    mismatch(
        () -> StateSpace.response(new double[][] {{1, 0}, {0, -2}}, two, two, 0),
        "1.0 + 0.0j rad/s",
        "negative real part");
  }
}
