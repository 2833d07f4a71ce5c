package org.asmeasured.digitizer;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;

import org.asmeasured.frontend.Refused;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class IdealConverterTest {

  private static double[] converted(int bits, double... levels) {
    new IdealConverter(bits).convert(levels, 0, levels.length);
    return levels;
  }

  @Test
  void transitionsLieHalfwayBetweenCodes() {
    double above = Math.nextUp(0.5);
    double below = Math.nextDown(0.5);
    assertArrayEquals(
        new double[] {0, 0, 1, 2, 2, -1}, converted(8, 0, below, above, 1.5 + 1e-15, 2.4, -0.6), 0);
  }

  @Test
  void aTieGoesToTheEvenCode() {
    assertArrayEquals(
        new double[] {0, 2, 2, 4, -2, -2, 0},
        converted(8, 0.5, 1.5, 2.5, 3.5, -2.5, -1.5, -0.5),
        0);
  }

  @Test
  void endCodesAnswerOutside() {
    assertArrayEquals(
        new double[] {127, 127, -128, -128}, converted(8, 127.4, 1e9, -128.4, -1e9), 0);
    assertArrayEquals(new double[] {0, 0, -1, -1}, converted(1, 0.2, 5, -0.8, -7), 0);
  }

  /** Uniform over a step, the error has a mean square of q^2/12 (W. R. Bennett, 1948). */
  @ParameterizedTest
  @ValueSource(ints = {1, 8, 16, 24})
  void errorOfARampIsUniform(int bits) {
    int n = 100_000;
    double[] levels = new double[n];
    for (int i = 0; i < n; i++) {
      levels[i] = (i + 0.5) / n - 0.5;
    }
    double[] codes = converted(bits, levels.clone());
    double sum = 0;
    for (int i = 0; i < n; i++) {
      sum += (codes[i] - levels[i]) * (codes[i] - levels[i]);
    }
    // The midpoint rule over one step falls short of 1/12 by 1/(12 n^2).
    assertEquals(1 / 12.0, sum / n, 1e-10);
  }

  @Test
  void refusesBadBits() {
    Refused.wholes("bits", IdealConverter::new, 0, -8, 25);
  }

  @Test
  void saysItselfAsAPersonWould() {
    assertEquals("ideal converter of 8 bits", new IdealConverter(8).toString());
    assertEquals("ideal converter of 1 bit", new IdealConverter(1).toString());
    assertEquals("no converter: infinite resolution", Converter.none().toString());
  }
}
