package org.asmeasured.validation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import org.asmeasured.frontend.FrontEnd;
import org.asmeasured.frontend.SourceNoise;
import org.asmeasured.frontend.Termination;
import org.asmeasured.linear.NoiseFlicker;
import org.asmeasured.linear.NoiseProcess;
import org.asmeasured.linear.Response;
import org.junit.jupiter.api.Test;

/**
 * Sampled noise against SciPy's Lyapunov solver and matrix exponential, and against figures of
 * physics; nothing is drawn.
 */
class NoiseVectorsTest {
  /** SciPy's own, as the script checks it against quadrature. */
  private static final double COVARIANCE = 1e-7;

  private static final double SPECTRUM = 1e-5;

  @Test
  void covarianceAndFoldedSpectrum() throws IOException {
    String[] lines;
    try (InputStream stream = NoiseVectorsTest.class.getResourceAsStream("/vectors/noise.csv")) {
      lines = new String(stream.readAllBytes(), StandardCharsets.UTF_8).split("\n");
    }
    String words = null;
    NoiseProcess process = null;
    int cases = 0;
    int values = 0;
    for (String line : lines) {
      if (line.startsWith("case: ")) {
        words = line.substring("case: ".length());
        cases++;
      } else if (line.startsWith("rate: ")) {
        double rate = Double.parseDouble(line.substring("rate: ".length()));
        process = NoiseProcess.of(ResponseExpressions.response(words), 1, rate);
      } else if (line.startsWith("lag,") || line.startsWith("spectrum,")) {
        String[] cells = line.split(",");
        double expected = Double.parseDouble(cells[2]);
        String said = words + " at " + process.rateHz() + " Hz: " + line;
        if (cells[0].equals("lag")) {
          double variance = process.rms() * process.rms();
          double actual = process.autocovariance(Long.parseLong(cells[1]));
          assertEquals(expected, actual, COVARIANCE * variance, said);
        } else {
          double frequency = Double.parseDouble(cells[1]) * process.rateHz();
          assertEquals(expected, process.spectrumAt(frequency), SPECTRUM * expected, said);
          double mean = 2 * process.rms() * process.rms() / process.rateHz();
          if (expected > 0.01 * mean) {
            double decibels = 10 * Math.log10(process.sampledSpectrumAt(frequency) / expected);
            assertEquals(0, decibels, 0.1, said);
          }
        }
        values++;
      }
    }
    assertEquals(28, cases);
    assertEquals(28 * 16, values);
  }

  /** Nyquist's sqrt(4 k T R) and sqrt(kT/C), SI 2019; and equivalent noise bandwidths. */
  @Test
  void physics() {
    for (Reference.Row row : Reference.rows("thermal-noise")) {
      double ohms = row.number("ohms");
      double kelvin = row.number("kelvin");
      SourceNoise noise = SourceNoise.thermal(ohms, kelvin);
      row.check("density", noise.densityVoltsPerRootHz(), 1e-14 * noise.densityVoltsPerRootHz());
      double farads = row.number("farads");
      // a termination of 1e12 ohm takes ohms/1e12 of the voltage away
      double loaded = ohms / 1e12;
      FrontEnd input =
          FrontEnd.ideal().withSource(ohms).withTermination(new Termination(1e12, farads));
      double rms = noise.process(input, 1e12).orElseThrow().rms();
      row.check("rms", rms, (loaded + 1e-12) * rms);
    }
  }

  /** 50 ohm at 300 K behind shapes of 200 MHz. */
  @Test
  void shapesOf200MHz() {
    double density = SourceNoise.thermal(50, 300).densityVoltsPerRootHz();
    double single = NoiseProcess.of(Response.singlePole(200e6), density, 1e9).rms();
    assertEquals(1.613214819344174e-5, single, 1e-13 * single);
    double two = NoiseProcess.of(Response.butterworth(2, 200e6), density, 1e9).rms();
    assertEquals(1.35654655862e-5, two, 1e-11 * two);
    // the Gaussian limit has infinitely many poles: order 10 lies above it, by less than 0.1 %
    double ten = NoiseProcess.of(Response.gaussian(10, 200e6), density, 1e9).rms();
    assertTrue(ten > 1.32800090026e-5 && ten < 1.001 * 1.32800090026e-5, "" + ten);
  }

  /** e sqrt(fH - fL + fc ln(fH/fL)) for e = 1, fc = 1 kHz, 10 Hz to 1 MHz: 1005.7350175195. */
  @Test
  void flickerBetweenSharpEnds() {
    Response f = NoiseFlicker.response(1e3, 10);
    double sum = 0;
    int n = 200_000;
    double step = Math.log(1e6 / 1e-3) / n;
    for (int i = 0; i < n; i++) {
      double hertz = 1e-3 * Math.exp(step * (i + 0.5));
      double m = f.magnitude(hertz);
      sum += m * m * hertz * step;
    }
    // white from 0 here, and the 1/f part levels off instead of ending: the same power but for its
    // upper end, which costs 0.03 %
    assertEquals(1005.7350175195, Math.sqrt(sum - 10), 0.5);
  }
}
