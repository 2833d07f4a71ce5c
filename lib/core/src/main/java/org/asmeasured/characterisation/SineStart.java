package org.asmeasured.characterisation;

import java.util.Optional;
import org.asmeasured.characterisation.SineSolver.Solution;
import org.asmeasured.characterisation.SineSolver.Trial;
import org.jtransforms.fft.DoubleFFT_1D;

/**
 * Where a fit of the frequency begins.
 *
 * <p>The highest line of a spectrum of 4096 places, and of those a fit of three parameters on a
 * grid of an eighth of a line about it. The places are points in the middle of the record; further,
 * means of 32, 1024, ... points and at last of as many as the record has, which see slow sines.
 * From its segment the fit is carried on to eight times as many points, again and again, as long as
 * its frequency is sure enough. Where it is not, noise being far above the sine, the spectrum of
 * all points is asked, of 2^22 in the middle at most.
 */
final class SineStart {
  private static final int PLACES = 4096;
  private static final int FACTOR = 32;
  private static final int GROWTH = 8;
  private static final int MOST = 1 << 22;

  /** Lines of a spectrum of means below the first are trends of the segment, not cycles. */
  private static final double LEAST_PERIODS = 4;

  /** Above this share of its rate a mean has lost too much, and what lies above is folded. */
  private static final double HIGHEST = 0.25;

  /** Five deviations of the phase at the ends of the next segment, in radians, must stay below. */
  private static final double SURE = 1.5;

  private SineStart() {}

  /** A line: frequency in cycles a point, and how much of the mean square it explains. */
  private record Line(double cycles, double power, int from, int to) {}

  /** A trial near the best fit of all points, or the first guess if nothing better is known. */
  static Trial of(double[] values) {
    int n = values.length;
    Line best = null;
    for (long decimation = 1; ; decimation *= FACTOR) {
      boolean last = decimation * PLACES >= n;
      int by = (int) (last ? Math.max(1, n / PLACES) : decimation);
      int places = last ? n / by : PLACES;
      Line line = line(values, by, places, last);
      if (line != null && (best == null || line.power > 1.01 * best.power)) {
        best = line;
      }
      if (last) {
        break;
      }
    }
    Trial grown = best == null ? null : grown(values, best);
    if (grown != null) {
      return grown;
    }
    int all = Math.min(n, MOST);
    Line line = line(values, 1, all, true);
    return line == null ? Trial.at(0.5 / n) : Trial.at(line.cycles);
  }

  /** The strongest sine in means of {@code by} points in the middle of the record. */
  private static Line line(double[] values, int by, int places, boolean whole) {
    int n = values.length;
    int from = (n - places * by) / 2;
    double[] means = new double[places];
    for (int i = 0; i < places; i++) {
      means[i] = by == 1 ? values[from + i] : SineKernels.sum(values, from + i * by, by) / by;
    }
    double mean = SineKernels.sum(means, 0, places) / places;
    int size = Math.max(8, Integer.highestOneBit(places - 1) << 3);
    double[] spectrum = new double[size];
    for (int i = 0; i < places; i++) {
      spectrum[i] = means[i] - mean;
    }
    new DoubleFFT_1D(size).realForward(spectrum);
    double periods = whole ? 0.75 : LEAST_PERIODS;
    int lowest = Math.max(1, (int) Math.ceil(periods * size / places));
    int highest = by == 1 ? size / 2 - 1 : (int) (HIGHEST * size);
    int peak = 0;
    double top = 0;
    for (int k = lowest; k <= highest; k++) {
      double re = spectrum[2 * k];
      double im = spectrum[2 * k + 1];
      double power = re * re + im * im;
      if (power > top) {
        top = power;
        peak = k;
      }
    }
    if (peak == 0) {
      return null;
    }
    UniformSamples data = new UniformSamples(means);
    double found = (double) peak / size;
    double least = Double.POSITIVE_INFINITY;
    double at = found;
    double amplitude = 0;
    for (int k = -8; k <= 8; k++) {
      double cycles = found + k / (8.0 * places);
      if (cycles * places < 0.5 || cycles > 0.5) {
        continue;
      }
      Optional<Solution> fit = SineSolver.linear(data, cycles);
      if (fit.isPresent() && fit.get().meanSquare() < least) {
        least = fit.get().meanSquare();
        at = cycles;
        amplitude = fit.get().trial().amplitude();
      }
    }
    double angle = Math.PI * at;
    double gain = by == 1 ? 1 : Math.sin(angle) / (by * Math.sin(angle / by));
    double full = amplitude / gain;
    return new Line(at / by, full * full, from, from + places * by);
  }

  /** The fit carried on from the segment of its line to all points; null where it is not sure. */
  private static Trial grown(double[] values, Line line) {
    int n = values.length;
    Trial trial = Trial.at(line.cycles);
    int from = line.from;
    int to = line.to;
    while (to - from < n) {
      Optional<Solution> fit = SineSolver.rough(new UniformSamples(values, from, to), trial);
      if (fit.isEmpty()) {
        return null;
      }
      trial = fit.get().trial();
      // 24 s^2/(A^2 N^3): the bound of the frequency's variance, here of the phase at the next ends
      double noise = Math.sqrt(fit.get().meanSquare()) / trial.amplitude();
      int length = to - from;
      double next = Math.min((double) GROWTH * length, n);
      double sure = 5 * Math.sqrt(24) * noise / Math.pow(length, 1.5) * next / 2;
      if (!(sure < SURE)) {
        return null;
      }
      int cut = (int) Math.max(0, (n - (long) next) / 2);
      from = cut;
      to = n - cut;
    }
    return trial;
  }
}
