package org.asmeasured.validation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.apache.commons.math3.analysis.integration.gauss.GaussIntegrator;
import org.apache.commons.math3.analysis.integration.gauss.GaussIntegratorFactory;
import org.apache.commons.math3.complex.Complex;
import org.apache.commons.math3.transform.DftNormalization;
import org.apache.commons.math3.transform.FastFourierTransformer;
import org.apache.commons.math3.transform.TransformType;
import org.asmeasured.acquisition.Reconstruction;
import org.asmeasured.acquisition.SincReconstruction;
import org.asmeasured.digitizer.Core;
import org.asmeasured.digitizer.InterleavedSampler;
import org.asmeasured.digitizer.Linearity;
import org.asmeasured.digitizer.Linearity.Line;
import org.asmeasured.digitizer.SampledOutput;
import org.asmeasured.digitizer.Sampler;
import org.asmeasured.digitizer.TransitionConverter;
import org.asmeasured.linear.Response;
import org.asmeasured.signal.SampleClock;
import org.asmeasured.signal.Signal;
import org.asmeasured.signal.Signals;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.Test;

/**
 * Sampler, converter and reconstruction against the tables under resources/reference, whose heads
 * name the sources.
 */
class ReferenceDigitizerTest {
  private static final int SIZE = 4096;
  private static final int CYCLES = 409;

  /** What rounding leaves of a line of 4096 samples, each good to a few units of the last place. */
  private static final double FFT = 1e-13;

  private static double[] samples(
      Signal signal, Response chain, Sampler sampler, double rate, int size, long key) {
    double[] v = new double[size];
    new SampledOutput(signal, chain, sampler, new SampleClock(0, rate)).read(key, 0, v, 0, size);
    // centre 0 V, full scale 1 V: an offset error of 1 is 1 V
    sampler.mismatch(0, 0, 1, v, 0, size);
    return v;
  }

  /** Amplitudes of the lines from 0 to half the rate. */
  private static double[] lines(double[] v) {
    Complex[] x =
        new FastFourierTransformer(DftNormalization.STANDARD).transform(v, TransformType.FORWARD);
    double[] lines = new double[v.length / 2 + 1];
    for (int b = 0; b < lines.length; b++) {
      lines[b] = x[b].abs() / v.length * (b == 0 || b == v.length / 2 ? 1 : 2);
    }
    return lines;
  }

  @Test
  void twoCores() {
    double f = 100e6;
    double rate = f * SIZE / CYCLES;
    for (Reference.Row row : Reference.rows("interleaving-two")) {
      double o = row.number("offsetVolts") / 2;
      double e = row.number("gain") / 2;
      double d = row.number("skewSeconds") / 2;
      Sampler sampler =
          InterleavedSampler.ideal()
              .withCores(
                  new Core(e, o, d, Response.identity()),
                  new Core(-e, -o, -d, Response.identity()));
      double[] lines =
          lines(samples(Signals.sine(1, f), Response.identity(), sampler, rate, SIZE, 0));
      int bin = o != 0 ? SIZE / 2 : SIZE / 2 - CYCLES;
      row.check("amplitude", lines[bin], FFT);
      if (o == 0) {
        assertEquals(0, lines[SIZE / 2], 1e-12);
      }
    }
  }

  /** To 1e-9 and far below. */
  @Test
  void fourCores() {
    double[] g = {1e-3, -1e-3, 2e-3, -2e-3};
    double[] d = {1e-12, -1e-12, 2e-12, -2e-12};
    double[] o = {1e-3, -2e-3, 3e-3, -2e-3};
    Core[] cores = new Core[4];
    for (int m = 0; m < 4; m++) {
      cores[m] = new Core(g[m], o[m], d[m], Response.identity());
    }
    Sampler sampler = InterleavedSampler.ideal().withCores(cores);
    double[] lines =
        lines(
            samples(
                Signals.sine(1, 1e9 * CYCLES / SIZE), Response.identity(), sampler, 1e9, SIZE, 0));
    for (Reference.Row row : Reference.rows("interleaving-four")) {
      row.check("amplitude", lines[row.whole("bin")], FFT);
      lines[row.whole("bin")] = 0;
    }
    for (double rest : lines) {
      assertTrue(rest < 1e-12, "a line that should not be there: " + rest);
    }
  }

  private static Map<String, Core[]> cores() {
    Map<String, Core[]> cores = new HashMap<>();
    cores.put(
        "bandwidth",
        new Core[] {Core.ideal(), Core.ideal().withResponse(Response.singlePole(900e6))});
    cores.put(
        "all",
        new Core[] {
          new Core(1e-3, 2e-4, 1e-12, Response.singlePole(1.2e9)),
          new Core(-2e-3, -1e-4, -3e-12, Response.singlePole(1.0e9)),
          new Core(5e-4, 0, 2e-12, Response.identity()),
          new Core(0, 3e-4, 0, Response.singlePole(1.1e9))
        });
    Core[] eight = new Core[8];
    for (int m = 0; m < 8; m++) {
      eight[m] =
          new Core(
              (m % 2 == 0 ? 1 : -1) * 1e-3 * (m + 1),
              1e-4 * m,
              1e-12 * (m - 3),
              Response.identity());
    }
    cores.put("eight", eight);
    return cores;
  }

  /**
   * With bandwidth mismatch too, behind a chain: SciPy's poles are good to 1e-13, its sums over
   * 4096 samples to 1e-14.
   */
  @Test
  void interleavedCoresAgainstNumpy() {
    Map<String, double[]> lines = new HashMap<>();
    Signal sine = Signals.sine(1, 1e9 * CYCLES / SIZE);
    cores()
        .forEach(
            (name, cores) ->
                lines.put(
                    name,
                    lines(
                        samples(
                            sine,
                            Response.bessel(4, 200e6),
                            InterleavedSampler.ideal().withCores(cores),
                            1e9,
                            SIZE,
                            0))));
    for (Reference.Row row : Reference.rows("numpy-interleaving")) {
      double[] of = lines.get(row.text("case"));
      row.check("amplitude", of[row.whole("bin")], 2e-12);
      of[row.whole("bin")] = 0;
    }
    lines.forEach(
        (name, rest) -> {
          for (double line : rest) {
            assertTrue(line < 1.001e-9, name + ": a line that NumPy does not see: " + line);
          }
        });
  }

  /**
   * Signal-to-noise ratio of sampled records within 0.2 dB. The noise of a sample is A w s cos(wt)
   * times a normal deviate: the estimate of its power from N samples has a relative deviation of
   * about sqrt(3.5/N), 0.032 dB for 65536. 0.2 dB is six of them: a chance of 2e-9 a row.
   */
  @Test
  void jitter() {
    int size = 1 << 16;
    int cycles = 6553;
    long key = 20250341;
    for (Reference.Row row : Reference.rows("aperture-jitter")) {
      double f = row.number("frequencyHz");
      double s = row.number("jitterSeconds");
      Sampler sampler = InterleavedSampler.ideal().withJitter(s);
      for (Response chain : List.of(Response.identity(), Response.bessel(4, 5e9))) {
        double a = chain.magnitude(f);
        double[] v = samples(Signals.sine(1, f), chain, sampler, f * size / cycles, size, key++);
        double power = 0;
        for (double x : v) {
          power += x * x / size;
        }
        double line = lines(v)[cycles];
        double noise = power - line * line / 2;
        double snr = 10 * Math.log10(line * line / 2 / noise);
        Worst.note("aperture-jitter.exactDb (sampled)", Math.abs(snr - row.number("exactDb")), 0.2);
        assertEquals(row.number("exactDb"), snr, 0.2, "f = " + f + ", s = " + s);
        // the fitted amplitude falls as the mean does; it scatters by sqrt(2 noise/N)
        double gain = Math.exp(-0.5 * Math.pow(2 * Math.PI * f * s, 2));
        assertEquals(a * gain, line, 6 * Math.sqrt(2 * noise / size));
        // small phase
        if (f * s < 2e-3) {
          assertEquals(row.number("smallDb"), snr, 0.2);
        }
      }
    }
  }

  /**
   * The mean over acquisitions is the signal through a low-pass, exp(-(2 pi f s)^2/2). 256
   * acquisitions of 1024 samples: the amplitude scatters by sqrt(1 - gain^2)/sqrt(256 x 1024) at
   * most; six of those are a chance of 2e-9.
   */
  @Test
  void jitterIsALowPassOfTheMean() {
    int size = 1024;
    int acquisitions = 256;
    double f = 101 / 1024.0 * 1e9;
    for (Reference.Row row : Reference.rows("jitter-low-pass")) {
      Sampler sampler = InterleavedSampler.ideal().withJitter(row.number("product") / f);
      double[] mean = new double[size];
      for (int n = 0; n < acquisitions; n++) {
        double[] v =
            samples(
                Signals.sine(1, f, 0.4),
                Response.identity(),
                sampler,
                1e9,
                size,
                20250342L * 1000 + n);
        for (int i = 0; i < size; i++) {
          mean[i] += v[i] / acquisitions;
        }
      }
      double gain = row.number("gain");
      double odds = 6 * Math.sqrt((1 - gain * gain) / ((double) size * acquisitions));
      Worst.note("jitter-low-pass.gain (sampled)", Math.abs(lines(mean)[101] - gain), odds);
      assertEquals(gain, lines(mean)[101], odds);
    }
  }

  /**
   * Worst error of straight lines with the crest midway; gains by integrals over each interval (32
   * points integrate a segment of a cosine to the last digit).
   */
  @Test
  void holdAndStraightLines() {
    for (Reference.Row row : Reference.rows("reconstruction")) {
      double r = row.number("ratio");
      double crest = Math.PI / 2 - Math.PI * r;
      double[] around = {Math.sin(crest), Math.sin(crest + 2 * Math.PI * r)};
      row.check("worst", 1 - Reconstruction.linear().at(around, 0.5), 1e-15);
      double[] points = new double[401];
      for (int i = 0; i < points.length; i++) {
        points[i] = Math.sin(2 * Math.PI * r * i + 0.7);
      }
      // at half the rate the points are +/- sin of the phase: they say the amplitude only with it
      // known
      double amplitude = r == 0.5 ? 2 * Math.sin(0.7) : 1;
      row.check("sinc", gain(Reconstruction.none(), points, r) / amplitude, 1e-13);
      row.check("sincSquared", gain(Reconstruction.linear(), points, r) / amplitude, 1e-13);
    }
  }

  private static double gain(Reconstruction reconstruction, double[] points, double ratio) {
    GaussIntegrator gauss = new GaussIntegratorFactory().legendre(32, 0, 1);
    double re = 0;
    double im = 0;
    for (int i = 0; i < 400; i++) {
      int index = i;
      re +=
          gauss.integrate(
              u ->
                  reconstruction.between(points, index, u)
                      * Math.cos(2 * Math.PI * ratio * (index + u)));
      im +=
          gauss.integrate(
              u ->
                  reconstruction.between(points, index, u)
                      * Math.sin(2 * Math.PI * ratio * (index + u)));
    }
    return 2 * Math.hypot(re, im) / 400;
  }

  /** Each weight is what the reconstruction makes of a single 1 among zeros. */
  @Test
  void sincWeightsAgainstNumpy() {
    for (Reference.Row row : Reference.rows("numpy-sinc")) {
      int length = row.whole("halfLength");
      double[] points = new double[2 * length + 1];
      points[row.whole("point")] = 1;
      double weight =
          new SincReconstruction(length).between(points, length - 1, row.number("share"));
      row.check("weight", weight, 2e-14);
    }
  }

  /** Double arithmetic over 127 levels up to 70 steps leaves 1e-13. */
  @Test
  void linearityAgainstNumpy() {
    List<Reference.Row> rows = Reference.rows("numpy-linearity");
    List<Double> levels = new ArrayList<>();
    rows.forEach(row -> levels.add(row.number("level")));
    TransitionConverter converter =
        TransitionConverter.of(7, levels.stream().mapToDouble(Double::doubleValue).toArray());
    Linearity linearity = Linearity.of(converter);
    double[] ends = linearity.inl(Line.END_POINTS);
    double[] least = linearity.inl(Line.LEAST_SQUARES);
    for (int i = 0; i < rows.size(); i++) {
      Reference.Row row = rows.get(i);
      row.check("inlEndPoints", ends[i], 2e-13);
      row.check("inlLeastSquares", least[i], 2e-13);
      row.check("gainEndPoints", 1 + linearity.gainError(Line.END_POINTS), 1e-14);
      row.check("offsetEndPoints", linearity.offsetErrorSteps(Line.END_POINTS), 1e-13);
      row.check("gainLeastSquares", 1 + linearity.gainError(Line.LEAST_SQUARES), 1e-14);
      row.check("offsetLeastSquares", linearity.offsetErrorSteps(Line.LEAST_SQUARES), 1e-13);
    }
    // the missing code of the table; narrow ones by chance may count too
    assertTrue(
        java.util.Arrays.stream(linearity.missingCodes()).anyMatch(code -> code == 40 + 1 - 64));
  }

  @AfterAll
  static void table() {
    if (Evidence.wanted()) {
      StringBuilder body = new StringBuilder();
      for (String prefix :
          List.of("aperture", "interleaving", "jitter", "numpy", "reconstruction")) {
        body.append("## ").append(prefix).append("\n\n").append(Worst.table(prefix)).append("\n");
      }
      Evidence.write(
          "reference-digitizer.md",
          "Sampler, converter and reconstruction against reference tables",
          body.toString());
    }
  }
}
