package org.asmeasured.validation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.asmeasured.spectrum.HarmonicMethod;
import org.asmeasured.spectrum.Harmonics;
import org.asmeasured.spectrum.Scale;
import org.asmeasured.spectrum.Sides;
import org.asmeasured.spectrum.Spectrum;
import org.asmeasured.spectrum.SpectrumMethod;
import org.asmeasured.spectrum.Window;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.Test;

/** Spectra, windows and harmonics against NumPy and SciPy: tables scipy-spectra and so on. */
class SpectrumVectorsTest {
  private static final Map<String, Window> WINDOWS = new HashMap<>();

  static {
    for (Window window :
        List.of(
            Window.rectangular(),
            Window.hann(),
            Window.hamming(),
            Window.blackman(),
            Window.blackmanHarris(),
            Window.flatTop())) {
      WINDOWS.put(window.toString(), window);
    }
  }

  static Window window(Reference.Row row) {
    return WINDOWS.get(row.text("window"));
  }

  /** The whole numbers of the script. */
  private static double[] record(int seed, int points) {
    long x = seed;
    double[] v = new double[points];
    for (int i = 0; i < points; i++) {
      x = (1103515245L * x + 12345) % (1L << 31);
      v[i] = x / (double) (1 << 30) - 1;
    }
    return v;
  }

  static double[] heart() {
    try (InputStream stream =
        SpectrumVectorsTest.class.getResourceAsStream("/recorded/ecg-mitbih208.csv")) {
      return new String(stream.readAllBytes(), StandardCharsets.UTF_8)
          .lines()
          .filter(line -> Character.isDigit(line.charAt(0)))
          .mapToDouble(line -> Double.parseDouble(line.split(",")[2]))
          .toArray();
    } catch (IOException e) {
      throw new java.io.UncheckedIOException(e);
    }
  }

  /**
   * Each line to what two transforms in double leave: 2e-13 of the largest value (lengths with a
   * prime factor from 11 to 199; 1e-15 otherwise), which makes twice that times the line's own
   * value of its square.
   */
  @Test
  void linesAgainstScipy() {
    String last = "";
    Spectrum s = null;
    int cases = 0;
    for (Reference.Row row : Reference.rows("scipy-spectra")) {
      String name = row.text("window") + row.text("seed") + "/" + row.text("segment");
      int segment = row.whole("segment");
      if (!name.equals(last)) {
        int seed = row.whole("seed");
        int points = row.whole("points");
        double[] v = seed == 0 ? heart() : record(seed, points);
        assertEquals(points, v.length);
        SpectrumMethod method = SpectrumMethod.wholeRecord(window(row));
        method = segment < points ? method.withSegments(segment, row.number("overlap")) : method;
        method = row.text("meanRemoved").equals("true") ? method.withMeanRemoved() : method;
        s = method.of(v, row.number("rateHz")).orThrow();
        last = name;
        cases++;
      }
      Sides sides = row.text("sides").equals("one") ? Sides.ONE : Sides.TWO;
      int i = row.whole("index");
      assertEquals(
          row.number("frequencyHz"), s.frequenciesHz(sides)[i], 1e-15 * row.number("rateHz"), name);
      double value = s.values(Scale.MEAN_SQUARE, sides)[i];
      double rounding = 1e-13 * (Math.sqrt(value) + 1e-13);
      row.check("meanSquare", value, rounding);
      row.check("density", s.values(Scale.DENSITY, sides)[i], rounding / s.noiseBandwidthHz());
    }
    assertEquals(17, cases);
  }

  /**
   * The grid of the script has the highest lobe within 1/128 bin; 4096 points are near the limit.
   */
  @Test
  void windowsAgainstScipy() {
    for (Reference.Row row : Reference.rows("scipy-windows")) {
      Window window = window(row);
      row.check("coherentGain", window.coherentGain(), 1e-14);
      row.check("noiseBandwidthBins", window.noiseBandwidthBins(), 1e-13);
      row.check("scallopLossDb", window.scallopLossDb(), 1e-6);
      row.check("highestSidelobeDb", window.highestSidelobeDb(), 3e-3);
    }
  }

  /** With the fundamental given: one that is looked for is moved a little by the noise. */
  @Test
  void harmonicsAgainstNumpy() {
    for (Reference.Row row : Reference.rows("numpy-harmonics")) {
      int n = row.whole("points");
      int cycles = row.whole("cycles");
      double steps = Math.scalb(1.0, row.whole("bits") - 1);
      double bend = row.number("bend");
      double[] noise = record(row.whole("seed"), n);
      double[] v = new double[n];
      for (int i = 0; i < n; i++) {
        double s = Math.cos(2 * Math.PI * ((long) cycles * i % n) / n);
        v[i] =
            Math.rint((0.9 * (s + bend * (s * s + s * s * s)) + 0.01 * noise[i]) * steps) / steps;
      }
      Harmonics h =
          HarmonicMethod.standard()
              .withWindow(Window.rectangular())
              .withFundamentalHz(cycles)
              .of(v, n)
              .orThrow();
      row.check("amplitude", h.fundamental().peakVolts(), 1e-13);
      row.check("thd", h.thd().orThrow(), 1e-13);
      row.check("sinadDb", h.sinadDb().orThrow(), 1e-9);
      row.check("noiseFloor", h.noiseFloor().orThrow(), 1e-13);
      // a spur of noise is lifted to what a tone between the lines must have: at most the scallop
      double sfdr = h.sfdrDb().orThrow();
      if (h.spur().order() > 0) {
        row.check("sfdrDb", sfdr, 1e-9);
      } else {
        double printed = row.number("sfdrDb");
        assertTrue(sfdr <= printed + 1e-9 && sfdr > printed - 3.93, printed + ": " + sfdr);
      }
    }
  }

  @AfterAll
  static void table() {
    if (Evidence.wanted()) {
      Evidence.write(
          "spectrum-vectors.md",
          "Spectra against NumPy and SciPy",
          Worst.table("scipy-spectra")
              + "\n"
              + Worst.table("scipy-windows")
              + "\n"
              + Worst.table("numpy-harmonics"));
    }
  }
}
