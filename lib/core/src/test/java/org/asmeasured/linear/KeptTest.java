package org.asmeasured.linear;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotSame;
import static org.junit.jupiter.api.Assertions.assertSame;

import java.util.concurrent.atomic.AtomicInteger;
import org.junit.jupiter.api.Test;

/** What is kept, how much of it, and that nobody can tell. */
class KeptTest {
  @Test
  void keepsTheValuesLastAskedFor() {
    Kept<Integer, String> kept = new Kept<>(3);
    AtomicInteger made = new AtomicInteger();
    for (int key : new int[] {1, 2, 3, 1, 4, 1, 2}) {
      String value =
          kept.of(
              key,
              () -> {
                made.incrementAndGet();
                return "v" + key;
              });
      assertEquals("v" + key, value);
    }
    // 1, 2, 3; then 4, which drives out 2; then 2 again
    assertEquals(5, made.get());
  }

  @Test
  void oneShapeServesEqualResponses() {
    NoiseShape first = NoiseShape.of(Response.bessel(4, 200e6), 1e9, 1e-4);
    assertSame(first, NoiseShape.of(Response.bessel(4, 200e6), 1e9, 1e-4));
    assertNotSame(first, NoiseShape.of(Response.bessel(4, 200.1e6), 1e9, 1e-4));
    assertNotSame(first, NoiseShape.of(Response.bessel(4, 200e6), 2e9, 1e-4));
    assertNotSame(first, NoiseShape.of(Response.bessel(4, 200e6), 1e9, 1e-3));
    assertNotSame(first, NoiseShape.of(Response.bessel(4, 200e6).scaledBy(2), 1e9, 1e-4));
  }

  @Test
  void aProcessMadeAnewHasTheSameBits() {
    double[] before = samples();
    for (int i = 1; i <= 300; i++) {
      NoiseProcess.of(Response.singlePole(1e6 * i), 1e-9, 1e9);
    }
    assertArrayEquals(before, samples());
  }

  private static double[] samples() {
    double[] out = new double[600];
    NoiseProcess.of(Response.butterworth(3, 77e6), 3e-9, 1e9).sampler(11).read(out, 0, 600);
    return out;
  }
}
