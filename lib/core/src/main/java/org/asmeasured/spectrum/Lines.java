package org.asmeasured.spectrum;

import java.util.Arrays;
import java.util.OptionalDouble;
import java.util.stream.IntStream;
import org.apache.commons.math3.analysis.integration.gauss.GaussIntegrator;
import org.apache.commons.math3.analysis.integration.gauss.GaussIntegratorFactory;
import org.asmeasured.measure.Outcome;
import org.asmeasured.measure.Outcome.NotTaken;
import org.asmeasured.measure.Outcome.Taken;
import org.asmeasured.signal.Waveform;
import org.jtransforms.fft.DoubleFFT_1D;

/**
 * The lines of a waveform that repeats: its Fourier coefficients, integrals over one period.
 *
 * <p>Between two knots the waveform turns at most a quarter of a cycle; pieces are cut until the
 * cosine does not turn more either. Gauss-Legendre of 16 points then integrates their product to
 * the last digit.
 *
 * <p>Which line is strongest is settled by Parseval's theorem: the mean square that the lines found
 * so far leave over bounds every other line. A sampling of the period only says in which order to
 * look.
 */
final class Lines {
  private static final GaussIntegrator GAUSS = new GaussIntegratorFactory().legendre(16);
  private static final int MOST_VALUES = 1 << 24;
  private static final int MOST_SAMPLES = 1 << 16;

  /** A thousand times this is still a whole number. */
  private static final int MOST_ORDER = 1 << 20;

  /** Lines this near to one another count as equally strong. */
  private static final double EQUAL = 1e-9;

  /** Mean squares below this share of the whole are rounding. */
  private static final double ROUNDING = 1e-24;

  private final Waveform waveform;
  private final double period;
  private final double[] knots;
  private final double mean;
  private final double meanSquare;
  private int values;

  private Lines(Waveform waveform, double period) {
    this.waveform = waveform;
    this.period = period;
    knots = waveform.knots(0, period);
    mean = waveform.mean(0, period);
    double[] nothing = {};
    meanSquare = rest(new int[0], nothing, nothing);
  }

  /** The lines of a waveform, or why it has none; for one thread. */
  static Outcome<Lines> of(Waveform waveform) {
    OptionalDouble period = waveform.periodSeconds();
    if (period.isEmpty()) {
      return new NotTaken<>(
          "the waveform is constant, does not repeat, or not within 4096 periods of its parts: no lines can be told");
    }
    Lines lines = new Lines(waveform, period.getAsDouble());
    double whole = Math.max(lines.meanSquare, lines.mean * lines.mean);
    if (!(lines.meanSquare > 1e-280) || lines.meanSquare < ROUNDING * whole) {
      return new NotTaken<>("the waveform is constant");
    }
    return new Taken<>(lines);
  }

  double periodSeconds() {
    return period;
  }

  /** The mean square distance from the mean. */
  double meanSquare() {
    return meanSquare;
  }

  /** The number of a line at a frequency; 0 if none stands there. */
  int order(double hz) {
    double order = Math.rint(hz * period);
    return order >= 1 && order <= MOST_ORDER && Math.abs(hz * period - order) <= EQUAL * order
        ? (int) order
        : 0;
  }

  /** Cosine and sine amplitude of a line. */
  double[] amplitudes(int order) {
    double[] sums = new double[2];
    overPieces(
        order,
        (t, weight) -> {
          double v = waveform.valueAt(t) - mean;
          double angle = angle(order, t);
          sums[0] += weight * v * Math.cos(angle);
          sums[1] += weight * v * Math.sin(angle);
        });
    sums[0] *= 2 / period;
    sums[1] *= 2 / period;
    return sums;
  }

  /** The mean square of a line. */
  double meanSquare(int order) {
    double[] ab = amplitudes(order);
    return (ab[0] * ab[0] + ab[1] * ab[1]) / 2;
  }

  /** The mean square of what some lines leave over, without cancellation. */
  double rest(int[] orders, double[] cosine, double[] sine) {
    double[] sum = new double[1];
    overPieces(
        Arrays.stream(orders).max().orElse(1),
        (t, weight) -> {
          double v = waveform.valueAt(t) - mean;
          for (int i = 0; i < orders.length; i++) {
            double angle = angle(orders[i], t);
            v -= cosine[i] * Math.cos(angle) + sine[i] * Math.sin(angle);
          }
          sum[0] += weight * v * v;
        });
    return sum[0] / period;
  }

  private double angle(int order, double t) {
    double cycles = order * (t / period);
    return 2 * Math.PI * (cycles - Math.rint(cycles));
  }

  private interface Node {
    void add(double t, double weight);
  }

  /**
   * @throws IllegalArgumentException if it has taken too long
   */
  private void overPieces(int order, Node node) {
    for (int i = 0; i + 1 < knots.length; i++) {
      double a = knots[i];
      double length = knots[i + 1] - a;
      int cuts = (int) Math.max(1, Math.ceil(4.0 * order * length / period));
      values += 16 * cuts;
      if (values > MOST_VALUES || values < 0) {
        throw new IllegalArgumentException(
            "the lines of the waveform are too many to look at one by one");
      }
      double half = length / cuts / 2;
      for (int c = 0; c < cuts; c++) {
        double middle = a + (2 * c + 1) * half;
        for (int k = 0; k < GAUSS.getNumberOfPoints(); k++) {
          node.add(middle + half * GAUSS.getPoint(k), half * GAUSS.getWeight(k));
        }
      }
    }
  }

  /**
   * The strongest line but for one; 0 if all others together are nothing. Of equally strong ones,
   * the lowest.
   *
   * @param without a line left out; 0 for none
   * @param available mean square of all others together
   */
  int strongest(int without, double available) {
    if (available <= ROUNDING * meanSquare) {
      return 0;
    }
    int[] likely = likely();
    double best = 0;
    int bestOrder = 0;
    double left = available;
    boolean[] seen = new boolean[likely.length + 1];
    for (int i = 0, next = 1; left > best * (1 - EQUAL); i++) {
      int order = i < likely.length ? likely[i] : next++;
      if (order == without || order < seen.length && seen[order]) {
        continue;
      }
      if (order < seen.length) {
        seen[order] = true;
      }
      double line = meanSquare(order);
      left -= line;
      if (line > best * (1 + EQUAL) || line > best * (1 - EQUAL) && order < bestOrder) {
        bestOrder = order;
        best = Math.max(best, line);
      }
    }
    return bestOrder;
  }

  /** The lines of a sampling of the period, strongest first. */
  private int[] likely() {
    int samples = 64;
    while (samples < 4 * knots.length && samples < MOST_SAMPLES) {
      samples *= 2;
    }
    double[] v = new double[samples];
    for (int i = 0; i < samples; i++) {
      v[i] = waveform.valueAt(period * i / samples) - mean;
    }
    new DoubleFFT_1D(samples).realForward(v);
    double[] power = new double[samples / 2];
    for (int k = 1; k < power.length; k++) {
      power[k] = v[2 * k] * v[2 * k] + v[2 * k + 1] * v[2 * k + 1];
    }
    return IntStream.range(1, power.length)
        .boxed()
        .sorted((a, b) -> Double.compare(power[b], power[a]))
        .mapToInt(Integer::intValue)
        .toArray();
  }
}
