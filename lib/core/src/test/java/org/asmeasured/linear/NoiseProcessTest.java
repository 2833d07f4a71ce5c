package org.asmeasured.linear;

import static org.asmeasured.internal.Refusals.absent;
import static org.asmeasured.internal.Refusals.bounded;
import static org.asmeasured.internal.Refusals.hertz;
import static org.asmeasured.internal.Refusals.mismatch;
import static org.asmeasured.internal.Refusals.refused;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.apache.commons.math3.complex.Complex;
import org.junit.jupiter.api.Test;

/** Closed forms and the covariance alone: nothing is drawn here. */
class NoiseProcessTest {
  private static final double DENSITY = 20e-9;

  private static Map<String, Response> responses() {
    Map<String, Response> all = new LinkedHashMap<>();
    all.put("single pole", Response.singlePole(2e8));
    all.put("Bessel 4", Response.bessel(4, 2e8));
    all.put("Butterworth 8", Response.butterworth(8, 2e8));
    all.put("Gaussian 6", Response.gaussian(6, 2e8));
    all.put("limited", Response.bessel(4, 2e8).times(Response.butterworth(2, 2e7)));
    all.put("band", Response.highPass(10).times(Response.bessel(4, 2e8)));
    Response single = Response.singlePole(3e7);
    all.put("equal poles", single.times(single).times(single).times(single));
    all.put("slow beside equal", Response.highPass(10).times(single).times(single).times(single));
    all.put("resonance", resonance(5e7, 40).times(Response.bessel(4, 2e8)));
    all.put("1/f", NoiseFlicker.response(1e5, 1).times(Response.bessel(4, 2e8)));
    return all;
  }

  private static Response resonance(double hertz, double q) {
    double w = 2 * Math.PI * hertz;
    Complex p = new Complex(-w / (2 * q), w * Math.sqrt(1 - 1 / (4 * q * q)));
    return Response.of(List.of(), List.of(p, p.conjugate()), w * w);
  }

  /** One pole: R(k) = e^2 (pi/2) f exp(-2 pi f k h), and the sampled process is an AR(1). */
  @Test
  void singlePole() {
    double f = 1e8;
    for (double rate : new double[] {1e8, 1e9, 1e12}) {
      NoiseProcess p = NoiseProcess.of(Response.singlePole(f), DENSITY, rate, 1e-6);
      double variance = DENSITY * DENSITY * Math.PI / 2 * f;
      assertEquals(Math.sqrt(variance), p.rms(), 1e-14 * p.rms());
      double a = Math.exp(-2 * Math.PI * f / rate);
      for (long lag : new long[] {0, 1, -1, 2, 3, 10, 100}) {
        assertEquals(
            variance * Math.pow(a, Math.abs(lag)), p.autocovariance(lag), 1e-13 * variance);
      }
      for (double share : new double[] {0, 0.01, 0.1, 0.3, 0.5}) {
        double c = Math.cos(2 * Math.PI * share);
        double expected = 2 * variance / rate * (1 - a * a) / (1 - 2 * a * c + a * a);
        assertEquals(expected, p.spectrumAt(share * rate), 1e-9 * expected);
      }
    }
  }

  /** Two equal poles: the impulse response is w^2 t exp(-w t), so R = (w/4) (1 + w t) exp(-w t). */
  @Test
  void twoEqualPoles() {
    double w = 2 * Math.PI * 1e7;
    Response two = Response.singlePole(1e7).times(Response.singlePole(1e7));
    NoiseProcess p = NoiseProcess.of(two, DENSITY, 1e9, 1e-6);
    for (int lag = 0; lag < 100; lag += 7) {
      double t = w * lag / 1e9;
      double expected = DENSITY * DENSITY / 2 * w / 4 * (1 + t) * Math.exp(-t);
      assertEquals(expected, p.autocovariance(lag), 1e-13 * p.rms() * p.rms());
    }
  }

  /** The variance is e^2 times noise bandwidth times the square of the greatest gain. */
  @Test
  void rmsIsDensityTimesRootOfBandwidth() {
    responses()
        .forEach(
            (name, response) -> {
              double gain = response.peakGain();
              double expected = DENSITY * gain * Math.sqrt(response.equivalentNoiseBandwidthHz());
              for (double rate : new double[] {1e8, 1e9, 1e10}) {
                NoiseProcess p = NoiseProcess.of(response, DENSITY, rate);
                assertEquals(expected, p.rms(), 1e-9 * expected, name);
                assertEquals(expected * expected, p.autocovariance(0), 1e-9 * expected * expected);
              }
            });
  }

  /** What the sampler's filter makes, by its own covariance, against the exact one. */
  @Test
  void samplerHoldsItsTolerance() {
    responses()
        .forEach(
            (name, response) -> {
              for (double rate : new double[] {1e8, 1e9, 2.5e9, 1e10}) {
                for (double tolerance : new double[] {1e-3, 1e-4, 1e-6}) {
                  NoiseProcess p = NoiseProcess.of(response, DENSITY, rate, tolerance);
                  assertTrue(p.covarianceError() <= tolerance, name);
                  NoiseCovariance made = p.sampled();
                  double variance = p.rms() * p.rms();
                  double[] attained = made.atSpreadLags(12);
                  for (int i = 0; i < attained.length; i++) {
                    int octave = (i - 2) / 2;
                    long lag = i < 2 ? i : 1 + ((i % 2 == 0 ? 1L : 3L) << octave);
                    assertEquals(
                        p.autocovariance(lag),
                        attained[i],
                        (tolerance + 1e-9) * variance,
                        () -> name + " at lag " + lag);
                  }
                  assertEquals(variance, attained[0], 1e-9 * variance, name);
                  assertTrue(p.states() <= response.poles().size(), name);
                }
              }
            });
  }

  /**
   * e^2 sum |H(f + n rate)|^2, added up image by image, within 0.1 dB wherever the density is above
   * a hundredth of its mean.
   */
  @Test
  void spectrumIsFolded() {
    double rate = 1e9;
    responses()
        .forEach(
            (name, response) -> {
              NoiseProcess p = NoiseProcess.of(response, DENSITY, rate);
              double mean = 2 * p.rms() * p.rms() / rate;
              int seen = 0;
              for (int i = 1; i <= 50; i++) {
                double f = i * rate / 100;
                double folded = folded(response, f, rate);
                assertEquals(folded, p.spectrumAt(f), 1e-3 * folded + 1e-7 * mean, name);
                if (folded > 1e-2 * mean) {
                  double decibels = 10 * Math.log10(p.sampledSpectrumAt(f) / folded);
                  assertEquals(0, decibels, 0.1, name + " at " + f);
                  seen++;
                }
              }
              assertTrue(seen > 3, name);
            });
  }

  private static double folded(Response response, double f, double rate) {
    int images = 2000;
    double sum = 0;
    for (int n = images; n >= -images; n--) {
      double h = response.magnitude(Math.abs(f + n * rate));
      sum += h * h;
    }
    // what lies beyond falls at least as 1/f^2: images left out, by the integral
    double edge = response.magnitude((images + 0.5) * rate);
    return DENSITY * DENSITY * (sum + 2 * edge * edge * (images + 0.5));
  }

  @Test
  void limitTakesTheRootOfTheBandwidths() {
    // common practice: 20 MHz on a 200 MHz path of the same shape, 1/sqrt(10)
    double full = NoiseProcess.of(Response.bessel(4, 200e6), DENSITY, 1e9).rms();
    double limited = NoiseProcess.of(Response.bessel(4, 20e6), DENSITY, 1e9).rms();
    assertEquals(Math.sqrt(10), full / limited, 1e-12);
  }

  @Test
  void scaling() {
    Response response = Response.bessel(3, 1e8);
    NoiseProcess one = NoiseProcess.of(response, DENSITY, 1e9);
    NoiseProcess two = NoiseProcess.of(response.scaledBy(3), 2 * DENSITY, 1e9);
    assertEquals(6 * one.rms(), two.rms(), 1e-14 * two.rms());
    assertEquals(36 * one.autocovariance(3), two.autocovariance(3), 1e-12 * two.rms() * two.rms());
    // the same at another scale of time
    NoiseProcess slow = NoiseProcess.of(Response.bessel(3, 1e2), DENSITY * 1e3, 1e3);
    assertEquals(one.rms(), slow.rms(), 1e-12 * one.rms());
    assertEquals(one.states(), slow.states());
  }

  /** A density of twice the size makes the same values twice as large, to the last bit. */
  @Test
  void densityIsAFactor() {
    Response response = Response.bessel(4, 1.7e8);
    NoiseProcess one = NoiseProcess.of(response, DENSITY, 1e9);
    NoiseProcess two = NoiseProcess.of(response, 2 * DENSITY, 1e9);
    assertEquals(2 * one.rms(), two.rms(), 0);
    assertEquals(one.covarianceError(), two.covarianceError(), 0);
    double[] small = new double[1000];
    double[] large = new double[1000];
    one.sampler(5).read(small, 0, small.length);
    two.sampler(5).read(large, 0, large.length);
    for (int i = 0; i < small.length; i++) {
      assertEquals(2 * small[i], large[i], 0, "sample " + i);
    }
  }

  @Test
  void farBelowTheBandwidthItIsWhite() {
    NoiseProcess p = NoiseProcess.of(Response.bessel(4, 2e8), DENSITY, 1e6);
    assertEquals(0, p.states());
    assertEquals(2 * p.rms() * p.rms() / 1e6, p.spectrumAt(1e5), 1e-12 * p.spectrumAt(1e5));
  }

  @Test
  void refusals() {
    Response low = Response.singlePole(1e6);
    absent("response", () -> NoiseProcess.of(null, 1, 1));
    refused(
        "densityVoltsPerRootHz",
        "V/sqrt(Hz)",
        e -> NoiseProcess.of(low, e, 1e6),
        0,
        -0.0,
        -1e-9,
        Math.nextUp(1e6));
    hertz("rateHz", f -> NoiseProcess.of(low, 1e-9, f));
    bounded("tolerance", "", 1e-7, 0.1, e -> NoiseProcess.of(low, 1e-9, 1e7, e));
    mismatch(
        () -> NoiseProcess.of(Response.identity(), 1e-9, 1e9), "must fall to zero", "no bound");
    mismatch(
        () -> NoiseProcess.of(Response.highPass(10), 1e-9, 1e9), "must fall to zero", "high-pass");
    mismatch(
        () -> NoiseProcess.of(low.times(Response.gain(0)), 1e-9, 1e9), "let something through");
    NoiseProcess p = NoiseProcess.of(low, 1e-9, 1e6);
    bounded("frequencyHz", "Hz", 0.0, 5e5, f -> p.spectrumAt(f));
    bounded("frequencyHz", "Hz", 0.0, 5e5, f -> p.sampledSpectrumAt(f));
  }

  @Test
  void saysWhatItIs() {
    NoiseProcess p = NoiseProcess.of(Response.singlePole(1e6), 1e-6, 1e9);
    assertEquals(
        "1.253 mV rms: 1 uV/sqrt(Hz) through single pole, -3 dB at 1 MHz, at 1 GHz, 1 state",
        p.toString());
    assertEquals(1e-6, p.densityVoltsPerRootHz());
    assertEquals(1e9, p.rateHz());
    assertEquals(1e-4, p.tolerance());
  }

  /** Random chains, with poles at random distances: each is sampled to its tolerance. */
  @Test
  void randomChains() {
    for (long seed = 0; seed < 60; seed++) {
      List<Response> parts = new ArrayList<>();
      int n = 1 + (int) (3 * draw(seed, 0));
      Response product = Response.identity();
      for (int i = 0; i < n; i++) {
        double f = 1e6 * Math.pow(10, 3 * draw(seed, 10 * i + 1));
        int order = 1 + (int) (6 * draw(seed, 10 * i + 2));
        Response part =
            switch ((int) (4 * draw(seed, 10 * i + 3))) {
              case 0 -> Response.bessel(order, f);
              case 1 -> Response.butterworth(order, f);
              case 2 -> Response.gaussian(order, f);
              default -> Response.singlePole(f);
            };
        parts.add(part);
        product = product.times(part);
      }
      if (draw(seed, 100) < 0.3) {
        product = product.times(Response.highPass(1e3 * draw(seed, 101)));
      }
      double rate = 1e7 * Math.pow(10, 3 * draw(seed, 102));
      NoiseProcess p = NoiseProcess.of(product, DENSITY, rate);
      String said = "seed " + seed + ": " + p;
      assertTrue(p.covarianceError() <= 1e-4, said);
      double expected =
          DENSITY * product.peakGain() * Math.sqrt(product.equivalentNoiseBandwidthHz());
      assertEquals(expected, p.rms(), 1e-8 * expected, said);
    }
  }

  private static double draw(long seed, long index) {
    return org.asmeasured.internal.CounterRandom.uniform(seed, index);
  }
}
