package org.asmeasured.accuracy;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.apache.commons.math3.special.BesselJ;
import org.asmeasured.capture.Record;
import org.asmeasured.capture.Setup;
import org.asmeasured.frontend.VerticalScale;
import org.asmeasured.measure.Readings;
import org.asmeasured.signal.SampleClock;
import org.asmeasured.signal.Signal;
import org.asmeasured.signal.Signals;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * What this library exists to show: the same sine, the same converter, two full scales. Theory for
 * an ideal quantiser of step q and a sine of amplitude A centred on a code (W. R. Bennett, 1948; B.
 * Widrow and I. Kollar, Quantization Noise, 2008):
 *
 * <pre>mean square error = q^2/12 + (q^2/pi^2) sum over k of (-1)^k J0(2 pi k A/q)/k^2</pre>
 *
 * <p>and effective bits of the signal = log2(2A/(rms error sqrt 12)), IEEE Std 1241 (definition
 * from memory) with the signal's own span in place of full scale. Phases are coherent and spread
 * evenly.
 */
class FillTheScreenTest {
  private static final int POINTS = 1 << 18;
  private static final double AMPLITUDE = 0.5;

  private static Setup filling(double share, int bits) {
    double fullScale = 2 * AMPLITUDE / share;
    return Setup.ideal(POINTS, POINTS).scale(fullScale / 8).bits(bits);
  }

  /**
   * An odd number of cycles, so that all phases k/POINTS are met once; none falls on a transition.
   */
  private static Signal sine(double amplitude) {
    return Signals.sine(amplitude, 12345, 1e-6);
  }

  private static double rmsError(Setup setup, Signal signal) {
    Record record = setup.capture(signal);
    double[] truth = new double[POINTS];
    signal.sample(new SampleClock(0, POINTS), 0, truth, 0, POINTS);
    double sum = 0;
    for (int i = 0; i < POINTS; i++) {
      double error = record.volts(i) - truth[i];
      sum += error * error;
    }
    assertTrue(record.flags().isEmpty(), "not clipped");
    return Math.sqrt(sum / POINTS);
  }

  /** In steps; alternating for a sine centred on a code, not for one centred on a transition. */
  private static double theory(double amplitudeInSteps, boolean centredOnACode) {
    double sum = 0;
    for (int k = 1; k <= 3000; k++) {
      double term = j0(2 * Math.PI * k * amplitudeInSteps) / ((double) k * k);
      sum += centredOnACode && (k & 1) == 1 ? -term : term;
    }
    return Math.sqrt(1 / 12.0 + sum / (Math.PI * Math.PI));
  }

  /**
   * Hankel's asymptotic expansion for large arguments: Abramowitz and Stegun, 9.2.5 (from memory).
   */
  private static double j0(double x) {
    if (x < 50) {
      return BesselJ.value(0, x);
    }
    double y = 1 / (8 * x);
    double p = 1 - 4.5 * y * y + 459.375 * y * y * y * y;
    double q = -y + 37.5 * y * y * y - 7441.875 * y * y * y * y * y;
    return Math.sqrt(2 / (Math.PI * x))
        * (p * Math.cos(x - Math.PI / 4) - q * Math.sin(x - Math.PI / 4));
  }

  @Test
  void bothWaysToABesselFunctionAgree() {
    for (double x = 50; x < 5000; x *= 1.37) {
      assertEquals(BesselJ.value(0, x), j0(x), 1e-11);
    }
  }

  @ParameterizedTest
  @CsvSource({"0.12, 8", "0.95, 8", "0.12, 12", "0.95, 12", "0.5, 6"})
  void errorAndEffectiveBitsAreThoseOfTheory(double share, int bits) {
    Setup setup = filling(share, bits);
    double q = setup.vertical().fullScaleVolts() / (1 << bits);
    double error = rmsError(setup, sine(AMPLITUDE));
    double expected = q * theory(AMPLITUDE / q, true);
    assertEquals(expected, error, 1e-3 * expected);
    double effectiveBits = Math.log(2 * AMPLITUDE / (error * Math.sqrt(12))) / Math.log(2);
    double expectedBits = Math.log(2 * AMPLITUDE / (expected * Math.sqrt(12))) / Math.log(2);
    assertEquals(expectedBits, effectiveBits, 0.002);
    // What is lost against a full screen is the share of it that is left empty.
    assertEquals(bits + Math.log(share) / Math.log(2), effectiveBits, 0.1);
  }

  @Test
  void fillingTheScreenIsWorthThreeBits() {
    double low = rmsError(filling(0.12, 8), sine(AMPLITUDE));
    double high = rmsError(filling(0.95, 8), sine(AMPLITUDE));
    // 0.95/0.12 = 7.9 times the step; the Bessel sums make the rest.
    double expected = 0.95 / 0.12 * theory(0.12 * 128, true) / theory(0.95 * 128, true);
    assertEquals(expected, low / high, 1e-3 * expected);
    assertTrue(low / high > 7 && low / high < 9, "ratio " + low / high);
  }

  /**
   * A sine of the whole range, centred on a transition: mean square error over q^2/12, exact by
   * integration code by code (mpmath).
   */
  @ParameterizedTest
  @CsvSource({
    "4, 1.12952118414, 3.912144335654",
    "6, 1.064863557625, 5.954665706065",
    "8, 1.032444528109, 7.976967865193",
    "10, 1.016223853843, 9.988390882973",
    "12, 1.008112125523, 11.99417194549"
  })
  void aFullScaleSine(int bits, double overTwelfth, double effectiveBits) {
    double q = Math.scalb(2 * AMPLITUDE, -bits);
    // The middle of the range, offset - q/2, is a transition, so the sine is centred there.
    Setup setup = filling(1, bits);
    setup = setup.vertical(setup.vertical().withOffset(q / 2));
    assertEquals(overTwelfth, 12 * Math.pow(theory(AMPLITUDE / q, false), 2), 1e-5 * overTwelfth);
    double error = rmsError(setup, sine(AMPLITUDE));
    assertEquals(overTwelfth, 12 * error * error / (q * q), 2e-3 * overTwelfth);
    assertEquals(
        effectiveBits, Math.log(2 * AMPLITUDE / (error * Math.sqrt(12))) / Math.log(2), 0.002);
  }

  /**
   * What a reading makes of it: peak to peak is off by up to a step, and a step is 7.9 times as
   * large.
   */
  @Test
  void readingsFollow() {
    for (double share : new double[] {0.12, 0.95}) {
      Setup setup = filling(share, 8);
      double q = setup.vertical().fullScaleVolts() / 256;
      double worst = 0;
      for (int i = 0; i < 50; i++) {
        double amplitude = AMPLITUDE * (1 - 0.002 * i);
        Prediction p = Prediction.of(Readings.peakToPeak(), sine(amplitude), setup.points(1000));
        worst = Math.max(worst, Math.abs(p.bias().orThrow()));
      }
      assertTrue(worst <= 1.01 * q && worst > 0.8 * q, share + ": " + worst / q + " steps");
    }
    VerticalScale scale = filling(0.95, 8).vertical();
    assertEquals(2 * AMPLITUDE / 0.95, scale.fullScaleVolts(), 1e-15);
  }
}
