package org.asmeasured.linear;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.apache.commons.math3.complex.Complex;
import org.junit.jupiter.api.Test;

/** Networks and state spaces whose poles coincide, in time and to the last digits. */
class RepeatedRootsTest {

  @Test
  void sixteenEqualPolesAtOnce() {
    double[][] a = new double[16][16];
    double[] b = new double[16];
    double[] c = new double[16];
    for (int i = 0; i < 16; i++) {
      a[i][i] = -1e9;
      if (i > 0) {
        a[i][i - 1] = 1e9;
      }
    }
    b[0] = 1e9;
    c[15] = 1;
    Response h = StateSpace.response(a, b, c, 0);
    assertEquals(16, h.poles().size());
    for (Complex p : h.poles()) {
      assertEquals(-1e9, p.getReal(), 1e-6);
      assertEquals(0, p.getImaginary(), 0);
    }
  }

  @Test
  void differentMultiplicitiesNineDecadesApart() {
    double[] poles = {10, 10, 10, 3e5, 3e5, 7e9, 7e9, 7e9, 7e9, 1e10};
    int n = poles.length;
    double[][] a = new double[n][n];
    double[] b = new double[n];
    double[] c = new double[n];
    for (int i = 0; i < n; i++) {
      a[i][i] = -poles[i];
      if (i > 0) {
        a[i][i - 1] = poles[i];
      }
    }
    b[0] = poles[0];
    c[n - 1] = 1;
    double[] found =
        StateSpace.response(a, b, c, 0).poles().stream()
            .mapToDouble(p -> -p.getReal())
            .sorted()
            .toArray();
    for (int i = 0; i < n; i++) {
      assertEquals(poles[i], found[i], 1e-14 * poles[i]);
    }
  }

  @Test
  void ladderOfTwelveSections() {
    Network ladder = Network.empty();
    for (int i = 0; i < 12; i++) {
      ladder =
          ladder
              .resistor("n" + i, "n" + (i + 1), 50)
              .capacitor("n" + (i + 1), Network.GROUND, 1e-12);
    }
    Response h = ladder.response("n0", "n12");
    // poles of a uniform R-C ladder: -(4/RC) sin^2((2k-1) pi / (2 (2n+1)))
    double[] found = h.poles().stream().mapToDouble(p -> -p.getReal()).sorted().toArray();
    for (int k = 1; k <= 12; k++) {
      double s = Math.sin((2 * k - 1) * Math.PI / 50);
      assertEquals(4 / 50e-12 * s * s, found[k - 1], 1e-13 * found[k - 1]);
    }
  }
}
