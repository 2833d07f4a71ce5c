package org.asmeasured.spectrum;

import static org.asmeasured.internal.Refusals.absent;
import static org.asmeasured.internal.Refusals.bounded;
import static org.asmeasured.internal.Refusals.mismatch;
import static org.asmeasured.internal.Refusals.refused;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;

class WindowTest {
  static List<Window> all() {
    return List.of(
        Window.rectangular(),
        Window.hann(),
        Window.hamming(),
        Window.blackman(),
        Window.blackmanHarris(),
        Window.flatTop(),
        Window.cosineSum("three of my own", 4, 4.2, 0.5));
  }

  /** The figures are those of the weights themselves, for any number of points that holds them. */
  @Test
  void gainAndNoiseBandwidthAreThoseOfTheWeights() {
    for (Window window : all()) {
      double[] a = window.coefficients();
      double whole = 0;
      for (double c : a) {
        whole += c;
      }
      for (int n : new int[] {window.leastPoints(), 33, 64, 1000}) {
        double sum = 0;
        double squares = 0;
        for (int i = 0; i < n; i++) {
          double w = 0;
          for (int k = 0; k < a.length; k++) {
            w += (k % 2 == 0 ? 1 : -1) * a[k] * Math.cos(2 * Math.PI * k * i / n);
          }
          sum += w;
          squares += w * w;
          assertEquals(w / a[0], window.weights(n)[i], 1e-12, window + " of " + n + " at " + i);
        }
        assertEquals(sum / n / whole, window.coherentGain(), 1e-13, window + " of " + n);
        assertEquals(
            n * squares / (sum * sum), window.noiseBandwidthBins(), 1e-12, window + " of " + n);
      }
    }
  }

  /** The transform of the weights by its definition, against both closed forms. */
  @Test
  void responseIsTheTransformOfTheWeights() {
    for (Window window : all()) {
      for (int n : new int[] {window.leastPoints(), 37, 4096}) {
        double[] w = window.weights(n);
        for (double x : new double[] {0, 0.01, 0.3, 0.5, 1, 1.7, 2.5, 4, 5.4999, 7.5}) {
          double re = 0;
          double im = 0;
          for (int i = 0; i < n; i++) {
            re += w[i] * Math.cos(2 * Math.PI * x * i / n) / n;
            im += w[i] * Math.sin(2 * Math.PI * x * i / n) / n;
          }
          assertEquals(Math.hypot(re, im), window.modulus(x, n), 2e-14, window + " of " + n);
          if (n == 4096) {
            assertEquals(Math.hypot(re, im), Math.abs(window.response(x)), 3e-6);
          }
        }
      }
    }
  }

  @Test
  void nullsStandAtWholeBins() {
    for (Window window : all()) {
      assertEquals(1, window.response(0));
      for (int bin = window.halfLobeBins(); bin < 40; bin++) {
        assertEquals(0, window.response(bin), 1e-16);
        assertEquals(0, window.modulus(bin, 100), 1e-15);
      }
      assertTrue(Math.abs(window.response(window.halfLobeBins() - 0.25)) > 1e-6);
    }
  }

  @Test
  void noSideLobeIsHigherThanSaid() {
    for (Window window : all()) {
      double highest = Math.pow(10, window.highestSidelobeDb() / 20);
      double seen = 0;
      for (double x = window.halfLobeBins(); x < 60; x += 1e-3) {
        seen = Math.max(seen, Math.abs(window.response(x)));
      }
      assertTrue(seen <= highest * (1 + 1e-9), window.toString());
      assertEquals(highest, seen, 1e-5 * highest, window.toString());
    }
  }

  @Test
  void aFactorChangesNothing() {
    Window hann = Window.cosineSum("Hann", 7, 7);
    assertEquals(Window.hann().noiseBandwidthBins(), hann.noiseBandwidthBins(), 1e-15);
    assertEquals(Window.hann().coherentGain(), hann.coherentGain(), 1e-15);
    assertEquals(Window.hann().scallopLossDb(), hann.scallopLossDb(), 1e-14);
    assertEquals(Window.hann().highestSidelobeDb(), hann.highestSidelobeDb(), 1e-12);
    assertNotEquals(Window.hann(), hann);
    assertEquals(Window.hann(), Window.cosineSum("Hann", 0.5, 0.5));
    assertEquals(Window.hann().hashCode(), Window.cosineSum("Hann", 0.5, 0.5).hashCode());
  }

  @Test
  void coefficientsAreCopied() {
    double[] a = {1, 1};
    Window window = Window.cosineSum("mine", a);
    a[1] = 5;
    window.coefficients()[1] = 6;
    assertEquals(1, window.coefficients()[1]);
  }

  @Test
  void refusals() {
    bounded("coefficients[0]", "", 1e-6, 1e6, v -> Window.cosineSum("w", v));
    bounded("coefficients[1]", "", -1e6, 1e6, v -> Window.cosineSum("w", 1, v));
    refused("coefficients.length", n -> Window.cosineSum("w", new double[n]), 0, 17);
    mismatch(() -> Window.cosineSum(" ", 1), "name", "blank");
    absent("name", () -> Window.cosineSum(null, 1));
    absent("coefficients", () -> Window.cosineSum("w", (double[]) null));
    refused("bins", Double.NaN, "", () -> Window.hann().response(Double.NaN));
  }
}
