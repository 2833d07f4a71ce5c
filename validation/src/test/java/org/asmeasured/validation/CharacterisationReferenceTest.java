package org.asmeasured.validation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.apache.commons.math3.complex.Complex;
import org.asmeasured.capture.Record;
import org.asmeasured.capture.Setup;
import org.asmeasured.characterisation.ApertureUncertainty;
import org.asmeasured.characterisation.CharacterisationReadings;
import org.asmeasured.characterisation.CodeHistogram;
import org.asmeasured.characterisation.FrequencyResponse;
import org.asmeasured.characterisation.HistogramLinearity;
import org.asmeasured.characterisation.InterleavingErrors;
import org.asmeasured.characterisation.SineFit;
import org.asmeasured.characterisation.StepResponse;
import org.asmeasured.digitizer.Core;
import org.asmeasured.digitizer.InterleavedSampler;
import org.asmeasured.digitizer.Linearity.Line;
import org.asmeasured.linear.Response;
import org.asmeasured.signal.Signal;
import org.asmeasured.signal.Signals;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.Test;

/**
 * Tests of converters and recorders against the tables under resources/reference, whose heads name
 * the sources.
 */
class CharacterisationReferenceTest {

  private static void holds(String check, double expected, double found, double allowed) {
    double error = Math.abs(found - expected);
    Worst.note(check, error, allowed);
    assertTrue(
        error <= allowed,
        () -> check + ": expected " + expected + ", found " + found + ", off by " + error);
  }

  /**
   * Effective bits of the ideal converter, sine over all of its range centred on a transition: from
   * arcs between transitions at k q, on which the converter stands at (k + 1/2) q. With E the mean
   * of its square and b the fundamental, the residual of the fit is sqrt(E - b^2/2).
   */
  private static double theory(int bits) {
    double amplitude = Math.scalb(1.0, bits - 1);
    double gain = 0;
    double square = 0;
    double from = 0;
    double cosFrom = 1;
    for (int k = 0; k < amplitude; k++) {
      double to = Math.asin((k + 1) / amplitude);
      double cosTo = Math.sqrt((amplitude - k - 1) * (amplitude + k + 1)) / amplitude;
      // what the converter adds to the sine, so that nothing large cancels
      double code = k + 0.5;
      double arc = to - from;
      double sines = cosFrom - cosTo;
      double squares = arc / 2 - (Math.sin(2 * to) - Math.sin(2 * from)) / 4;
      gain += code * sines - amplitude * squares;
      square += code * code * arc - 2 * code * amplitude * sines + amplitude * amplitude * squares;
      from = to;
      cosFrom = cosTo;
    }
    gain *= 4 / Math.PI;
    square *= 2 / Math.PI;
    return bits - Math.log(12 * (square - gain * gain / 2)) / Math.log(4);
  }

  /**
   * Captured by the product, from 4 to 16 bits. Phases are even to 1/2^17 of a turn: at 16 bits
   * that is more than a code where the sine is steepest, and the mean over phases is that of
   * chance.
   */
  @Test
  void effectiveBitsOfIdealConverters() {
    List<Reference.Row> table = Reference.rows("quantiser-sine");
    for (int bits = 4; bits <= 16; bits++) {
      double expected = theory(bits);
      for (Reference.Row row : table) {
        if (row.whole("bits") == bits) {
          row.check("bitsFromFit", expected, 2e-6);
        }
      }
      int n = 1 << 17;
      double q = 8 / Math.scalb(1.0, bits);
      Signal sine = Signals.sine(4, 1e9 * 9973 / n, 0.1).plus(-q / 2);
      Record record = Setup.ideal(1e9, n).scale(1).bits(bits).capture(sine);
      SineFit fit = SineFit.fourParameters(record).orThrow();
      double found = fit.effectiveBits(8).orThrow();
      holds("effective bits by the sine fit, 4 to 16 bits", expected, found, 0.004);
      for (Reference.Row row : table) {
        if (row.whole("bits") == bits) {
          double sinad = row.number("sinadDb");
          holds("SINAD by the sine fit, dB", sinad, fit.sinadDb().orThrow(), 0.025);
          double gain = (fit.amplitudeVolts() - 4) / q;
          holds("amplitude by the sine fit, steps", row.number("amplitudeGainOverQ"), gain, 2e-3);
        }
      }
      assertEquals(
          found, CharacterisationReadings.effectiveBits(8).of(record).orThrow(), 0, "as a reading");
    }
  }

  /**
   * SINAD of a sine sampled with jitter, and the jitter from it and a sine a hundred times slower.
   * 2^18 points: a residual scatters by 0.14 %, 0.012 dB; allowed are 6 of these. Where the phase
   * is large, the noise follows the slope and scatters by sqrt(3/2) as much.
   */
  @Test
  void jitterShowsAsNoise() {
    for (Reference.Row row : Reference.rows("aperture-jitter")) {
      double f = row.number("frequencyHz");
      double jitter = row.number("jitterSeconds");
      Setup setup =
          Setup.ideal(f * 2.718281, 1 << 18).sampler(InterleavedSampler.ideal().withJitter(jitter));
      SineFit steep = SineFit.fourParameters(setup.capture(Signals.sine(1, f), 1)).orThrow();
      SineFit gentle = SineFit.fourParameters(setup.capture(Signals.sine(1, f / 100), 2)).orThrow();
      holds("SINAD with jitter, dB", row.number("exactDb"), steep.sinadDb().orThrow(), 0.09);
      double found = ApertureUncertainty.of(gentle, steep).orThrow();
      holds("aperture uncertainty, relative", 1, found / jitter, 0.0105);
    }
  }

  /** Gains and skews found, put into the formula of the lines, give the printed lines. */
  @Test
  void coresOfTheInterleavingTable() {
    double[] g = {1e-3, -1e-3, 2e-3, -2e-3};
    double[] d = {1e-12, -1e-12, 2e-12, -2e-12};
    double[] o = {1e-3, -2e-3, 3e-3, -2e-3};
    Core[] cores = new Core[4];
    for (int m = 0; m < 4; m++) {
      cores[m] = new Core(g[m], o[m], d[m], Response.identity());
    }
    double f = 1e9 * 409 / 4096;
    // 8 divisions of 0.125 V: an offset error of 1 is 1 V
    Record record =
        Setup.ideal(1e9, 4096)
            .scale(0.125)
            .sampler(InterleavedSampler.ideal().withCores(cores))
            .capture(Signals.sine(1, f));
    InterleavingErrors found = InterleavingErrors.of(record, 4).orThrow();
    for (int m = 0; m < 4; m++) {
      holds("interleaving: gain", g[m], found.gainError(m), 1e-12);
      holds("interleaving: offset, V", o[m], found.offsetErrorVolts(m), 1e-12);
      holds("interleaving: skew, s", d[m], found.skewSeconds(m), 1e-21);
    }
    int[] bins = {409, 409 + 1024, 2048 - 409, 1024 - 409};
    for (int k = 0; k < 4; k++) {
      Complex line = Complex.ZERO;
      for (int m = 0; m < 4; m++) {
        double angle = 2 * Math.PI * (f * found.skewSeconds(m) - k * m / 4.0);
        double gain = found.amplitudeVolts() * (1 + found.gainError(m)) / 4;
        line = line.add(new Complex(gain * Math.cos(angle), gain * Math.sin(angle)));
      }
      for (Reference.Row row : Reference.rows("interleaving-four")) {
        if (row.whole("bin") == bins[k]) {
          row.check("amplitude", line.abs(), 1e-12);
        }
      }
    }
  }

  /**
   * Every low-pass shape: 10-90 % and overshoot of its recorded step. 1000 points in 1/f: straight
   * lines between them are off by (h^2/8) y'', the top of the overshoot by as much.
   */
  @Test
  void stepsOfEveryFilterShape() {
    int checked = 0;
    for (Reference.Row row : Reference.rows("characteristics")) {
      int order = row.whole("order");
      Response shape =
          switch (row.text("shape")) {
            case "singlePole" -> Response.singlePole(1);
            case "butterworth" -> Response.butterworth(order, 1);
            case "bessel" -> Response.bessel(order, 1);
            case "gaussian" -> order > 0 && order <= 10 ? Response.gaussian(order, 1) : null;
            default -> null;
          };
      if (shape == null) {
        continue;
      }
      checked++;
      int n = 20_000;
      double[] v = new double[n];
      for (int i = 0; i < n; i++) {
        v[i] = shape.stepResponse((i - 4000) / 1000.0);
      }
      StepResponse step = StepResponse.of(Record.of(0, 1000, v)).orThrow();
      String what = "step of every low-pass shape: ";
      holds(what + "10-90 % x f", row.number("rise1090"), step.transitionSeconds(), 5e-6);
      holds(what + "overshoot", row.number("overshootPercent") / 100, step.overshoot(), 5e-6);
      FrequencyResponse response = step.frequencyResponse();
      holds(what + "half power from the step", 1, response.halfPowerHz().orThrow(), 2e-3);
      int twice = (int) Math.round(2 / response.frequencyHz(1));
      double level = 20 * Math.log10(response.magnitude(twice));
      double exact = 20 * Math.log10(shape.magnitude(response.frequencyHz(twice)));
      holds(what + "level at 2 f from the step, dB", exact, level, 0.02);
    }
    assertTrue(checked >= 22, checked + " shapes");
  }

  @Test
  void stepOfSciPy() {
    int n = 1200;
    double rate = 10e9;
    double z = 0.4;
    double w = 2 * Math.PI * 300e6;
    double d = w * Math.sqrt(1 - z * z);
    double[] v = new double[n];
    for (int i = 0; i < n; i++) {
      double t = i / rate - 30.03e-9;
      double y =
          t < 0
              ? 0
              : 1
                  - Math.exp(-z * w * t)
                      * (Math.cos(d * t) + z / Math.sqrt(1 - z * z) * Math.sin(d * t));
      v[i] = 0.2 - 1.6 * y;
    }
    StepResponse step = StepResponse.of(Record.of(0, rate, v)).orThrow();
    FrequencyResponse response = step.frequencyResponse();
    for (Reference.Row row : Reference.rows("numpy-step")) {
      double real = row.number("real");
      switch (row.text("what")) {
        case "transition" -> holds("SciPy: step, s", real, step.transitionSeconds(), 1e-21);
        case "instant" -> holds("SciPy: step, s", real, step.instantSeconds(), 1e-20);
        case "overshoot" -> holds("SciPy: overshoot", real, step.overshoot(), 1e-13);
        default -> {
          int k = row.whole("what");
          holds("NumPy: frequency response", real, response.real(k), 1e-11);
          holds("NumPy: frequency response", row.number("imaginary"), response.imaginary(k), 1e-11);
        }
      }
    }
  }

  @Test
  void histogramOfNumPy() {
    List<Reference.Row> rows = Reference.rows("numpy-histogram");
    long[] counts = rows.stream().mapToLong(row -> row.whole("count")).toArray();
    HistogramLinearity test = HistogramLinearity.sine(CodeHistogram.of(5, counts)).orThrow();
    double[] ends = test.linearity().inl(Line.END_POINTS);
    double[] least = test.linearity().inl(Line.LEAST_SQUARES);
    assertEquals(31, ends.length);
    for (int k = 0; k < ends.length; k++) {
      holds("NumPy: INL by histogram", rows.get(k).number("inlEndPoints"), ends[k], 1e-12);
      holds("NumPy: INL by histogram", rows.get(k).number("inlLeastSquares"), least[k], 1e-12);
    }
  }

  @AfterAll
  static void writeFigures() {
    Evidence.figures();
  }
}
