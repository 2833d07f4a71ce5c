package org.asmeasured.characterisation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.asmeasured.acquisition.PeakDetect;
import org.asmeasured.capture.Record;
import org.asmeasured.capture.Setup;
import org.asmeasured.digitizer.ConverterNoise;
import org.asmeasured.digitizer.InterleavedSampler;
import org.asmeasured.internal.Refusals;
import org.asmeasured.signal.Signals;
import org.junit.jupiter.api.Test;

class NoiseAndApertureTest {

  @Test
  void noiseIsWhatDiffersBetweenTwoRecords() {
    Record a = Record.of(0, 1, new double[] {1, 5, 2, 9});
    Record b = Record.of(7, 1, new double[] {2, 4, 3, 8});
    // differences -1, 1, -1, 1: sum of squares 4, over 2 x 3
    assertEquals(Math.sqrt(4 / 6.0), RandomNoise.of(a, b).orThrow(), 1e-15);
    assertEquals(0, RandomNoise.of(a, a).orThrow());
  }

  /**
   * 2 x 10^5 points: the estimate scatters by sigma/sqrt(2 M) = 0.16 %; 1 % is 6 deviations, 2e-9
   * of all seeds.
   */
  @Test
  void noiseOfACaptureComesBack() {
    Setup setup = Setup.ideal(1e9, 200_000).scale(1).converterNoise(new ConverterNoise(2e-3 / 8));
    Record a = setup.capture(Signals.sine(1, 1.37e6), 1);
    Record b = setup.capture(Signals.sine(1, 1.37e6), 2);
    assertEquals(2e-3, RandomNoise.of(a, b).orThrow(), 2e-5);
  }

  @Test
  void noiseSaysWhyNot() {
    Record envelope =
        Setup.ideal(1e8, 5).decimation(new PeakDetect(3)).capture(Signals.sine(1, 1e6));
    Record five = Record.of(0, 1, new double[5]);
    Record one = Record.of(0, 1, new double[1]);
    assertFalse(RandomNoise.of(envelope, five).isTaken());
    assertFalse(RandomNoise.of(five, envelope).isTaken());
    assertTrue(RandomNoise.of(one, one).toString().contains("single point"));
    Refusals.mismatch(() -> RandomNoise.of(one, five), "first.size = 1", "second.size = 5");
    Refusals.absent("first", () -> RandomNoise.of(null, one));
    Refusals.absent("second", () -> RandomNoise.of(one, null));
  }

  private static SineFit fit(double hertz, double jitter, double noise, long seed) {
    Setup setup =
        Setup.ideal(1e9, 200_000)
            .scale(1)
            .sampler(InterleavedSampler.ideal().withJitter(jitter))
            .converterNoise(new ConverterNoise(noise / 8));
    return SineFit.fourParameters(setup.capture(Signals.sine(1, hertz), seed)).orThrow();
  }

  /**
   * Jitter of 3 and of 50 ps, the other noise a third of what the steep sine shows. A residual of 2
   * x 10^5 points scatters by 0.16 % and its square by 0.32 %; the jitter by about 0.2 %: 1.5 % is
   * 6 deviations and more. At 50 ps and 450 MHz the phase is 0.14 rad, where the usual form would
   * be off by 0.5 %.
   */
  @Test
  void jitterComesBackFromTwoSlopes() {
    for (double jitter : new double[] {3e-12, 50e-12}) {
      double noise = 2 * Math.PI * 450e6 * jitter / Math.sqrt(2) / 3;
      SineFit gentle = fit(10.1e6, jitter, noise, 1);
      SineFit steep = fit(450.1e6, jitter, noise, 2);
      assertEquals(1, ApertureUncertainty.of(gentle, steep).orThrow() / jitter, 0.015);
    }
  }

  @Test
  void apertureSaysWhyNot() {
    SineFit slow = fit(10e6, 0, 1e-3, 1);
    SineFit fast = fit(100e6, 0, 0.5e-3, 2);
    assertTrue(ApertureUncertainty.of(fast, slow).toString().contains("not steeper"));
    assertTrue(ApertureUncertainty.of(slow, fast).toString().contains("no more over"));
    Refusals.absent("gentle", () -> ApertureUncertainty.of(null, slow));
    Refusals.absent("steep", () -> ApertureUncertainty.of(slow, null));
  }
}
