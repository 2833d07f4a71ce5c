package org.asmeasured.acquisition;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.asmeasured.frontend.Refused;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class ReconstructionTest {

  private static double[] sine(double cyclesPerPoint, double phase, int size) {
    double[] v = new double[size];
    for (int i = 0; i < size; i++) {
      v[i] = Math.sin(2 * Math.PI * cyclesPerPoint * i + phase);
    }
    return v;
  }

  @Test
  void holdAndLinesAreWhatTheyAreCalled() {
    double[] points = {1, 3, -1};
    double[] out = new double[9];
    Reconstruction.none().fill(points, 4, out);
    assertArrayEquals(new double[] {1, 1, 1, 1, 3, 3, 3, 3, -1}, out, 0);
    Reconstruction.linear().fill(points, 4, out);
    assertArrayEquals(new double[] {1, 1.5, 2, 2.5, 3, 2, 1, 0, -1}, out, 1e-15);
  }

  /** Greatest error of straight lines on a sine, over all phases: 1 - cos(pi f/fs), closed form. */
  @ParameterizedTest
  @CsvSource({
    "0.5, 1",
    "0.4, 0.6909830056250526",
    "0.25, 0.2928932188134525",
    "0.2, 0.1909830056250526",
    "0.1, 0.04894348370484643",
    "0.05, 0.01231165940486227",
    "0.01, 0.000493439634268443"
  })
  void worstErrorOfStraightLines(double f, double expected) {
    double worst = 0;
    for (int p = 0; p < 720; p++) {
      double phase = Math.PI * p / 360;
      double[] points = sine(f, phase, 3);
      double between = Reconstruction.linear().at(points, 1.5);
      worst = Math.max(worst, Math.abs(between - Math.sin(2 * Math.PI * f * 1.5 + phase)));
    }
    // the crest lies on one of 720 phases for every f here but for rounding of half a phase
    assertEquals(expected, worst, 1e-5 * expected);
    // with the crest midway exactly
    double crest = Math.PI / 2 - 2 * Math.PI * f * 1.5;
    double between = Reconstruction.linear().at(sine(f, crest, 3), 1.5);
    assertEquals(expected, 1 - between, 1e-14);
  }

  /**
   * Gain of hold and of straight lines: the Fourier coefficient at f of a coherent record, filled
   * densely, tends to sinc and sinc^2; a sum of N values a point instead of an integral gives
   * sin(pi f)/(N sin(pi f/N)) for the hold, in closed form, and its square for the lines.
   */
  @ParameterizedTest
  @ValueSource(doubles = {0.4, 0.25, 0.2, 0.1, 0.05, 0.01})
  void gainOfHoldAndLines(double f) {
    int size = 401;
    int factor = 64;
    double[] points = sine(f, 0.3, size);
    double dense = Math.sin(Math.PI * f) / (factor * Math.sin(Math.PI * f / factor));
    double sinc = Math.sin(Math.PI * f) / (Math.PI * f);
    assertEquals(dense, gain(Reconstruction.none(), points, f, factor), 1e-12);
    assertEquals(dense * dense, gain(Reconstruction.linear(), points, f, factor), 1e-12);
    // and the dense sum is near the integral: (pi f/N)^2/6
    double off = Math.pow(Math.PI * f / factor, 2) / 6;
    assertEquals(sinc, gain(Reconstruction.none(), points, f, factor), 1.01 * off);
    assertEquals(sinc * sinc, gain(Reconstruction.linear(), points, f, factor), 2.02 * off);
  }

  /** |Fourier coefficient| at f over 400 points, against that of the sine itself. */
  private static double gain(Reconstruction r, double[] points, double f, int factor) {
    double[] out = new double[r.size(points.length, factor)];
    r.fill(points, factor, out);
    double re = 0;
    double im = 0;
    int count = out.length - 1;
    for (int i = 0; i < count; i++) {
      double angle = 2 * Math.PI * f * i / factor;
      re += out[i] * Math.cos(angle);
      im += out[i] * Math.sin(angle);
    }
    return 2 * Math.hypot(re, im) / count;
  }

  /** What the Javadoc states for sines up to 0.4 of the rate. */
  @ParameterizedTest
  @CsvSource({"8, 5e-3", "16, 2e-5", "32, 2e-9", "64, 1e-13"})
  void sincReachesItsStatedAccuracy(int halfLength, double stated) {
    Reconstruction r = new SincReconstruction(halfLength);
    double worst = 0;
    for (double f : new double[] {0, 0.01, 0.1, 0.2, 0.3, 0.35, 0.38, 0.399, 0.4}) {
      for (int p = 0; p < 40; p++) {
        double phase = 2 * Math.PI * p / 40;
        double[] points = sine(f, phase, 2 * halfLength + 1);
        for (double u = 0.05; u < 1; u += 0.1) {
          double place = halfLength - 1 + u;
          double exact = Math.sin(2 * Math.PI * f * place + phase);
          worst = Math.max(worst, Math.abs(exact - r.at(points, place)));
        }
      }
    }
    assertTrue(worst <= stated, "worst " + worst);
    assertTrue(halfLength == 64 || worst > stated / 2, "a claim too weak to fail: " + worst);
  }

  /** The weights against the formula, evaluated plainly. */
  @Test
  void sincWeightsAreTheFormula() {
    int length = 5;
    SincReconstruction r = new SincReconstruction(length);
    double beta = 0.1102 * (2.285 * 0.4 * Math.PI * 2 * length + 8 - 8.7);
    for (double u : new double[] {0.01, 0.25, 0.5, 0.9}) {
      double total = 0;
      double[] h = new double[2 * length];
      for (int i = 0; i < h.length; i++) {
        double d = u + length - 1 - i;
        h[i] =
            Math.sin(Math.PI * d)
                / (Math.PI * d)
                * i0(beta * Math.sqrt(1 - d * d / length / length));
        total += h[i];
      }
      for (int i = 0; i < h.length; i++) {
        double[] points = new double[2 * length];
        points[i] = 1;
        assertEquals(h[i] / total, r.at(extended(points), length - 1 + u), 1e-13);
      }
    }
  }

  /** One point more, so that there is a step after the place. */
  private static double[] extended(double[] points) {
    return java.util.Arrays.copyOf(points, points.length + 1);
  }

  /** I0 by its integral, (1/pi) int exp(x cos t) dt: the trapezoid rule is exact to rounding. */
  private static double i0(double x) {
    double sum = 0;
    int n = 200;
    for (int i = 0; i < n; i++) {
      sum += Math.exp(x * Math.cos(2 * Math.PI * i / n));
    }
    return sum / n;
  }

  @Test
  void refusesBadLengths() {
    Refused.wholes("halfLength", SincReconstruction::new, 3, 65);
  }

  @Test
  void saysItselfAsAPersonWould() {
    assertEquals("no values between points", Reconstruction.none().toString());
    assertEquals("straight lines between points", Reconstruction.linear().toString());
    assertEquals("sin(x)/x over 16 points on each side", Reconstruction.sinc().toString());
  }
}
