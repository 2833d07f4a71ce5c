package org.asmeasured.characterisation;

import org.apache.commons.math3.analysis.integration.gauss.GaussIntegrator;
import org.apache.commons.math3.analysis.integration.gauss.GaussIntegratorFactory;
import org.asmeasured.characterisation.SineSolver.Solution;
import org.asmeasured.characterisation.SineSolver.Trial;
import org.asmeasured.measure.Outcome;
import org.asmeasured.signal.Waveform;

/**
 * A waveform in closed form as what a sine is fitted to: the integral of the squared remainder over
 * the span is made least. Places are shares of the span from its middle.
 *
 * <p>Between two knots a waveform turns a quarter of a cycle at most, and pieces are cut to half a
 * cycle of the sine at most; there 12 points integrate the products to the last digit.
 */
final class WaveformSine implements SineData {
  private static final GaussIntegrator UNIT = new GaussIntegratorFactory().legendre(12);
  private static final int NODES = UNIT.getNumberOfPoints();
  private static final int MOST_PIECES = 1 << 20;

  /** A remainder below this share of the values is rounding, and counts as none. */
  private static final double ROUNDING = 1e-13;

  private final double[] knots;
  private final double middle;
  private final double span;
  private final double[] values;
  private final Normalised scale;

  private WaveformSine(Waveform truth, double[] knots) {
    this.knots = knots;
    span = knots[knots.length - 1] - knots[0];
    middle = knots[0] + span / 2;
    values = new double[(knots.length - 1) * NODES];
    for (int k = 1; k < knots.length; k++) {
      for (int i = 0; i < NODES; i++) {
        values[(k - 1) * NODES + i] = truth.valueAt(instant(k, i));
      }
    }
    scale = Normalised.inPlace(values);
  }

  /** The fit over a span. */
  static Outcome<SineFigures> fit(Waveform truth, double fromSeconds, double toSeconds) {
    double[] knots = truth.knots(fromSeconds, toSeconds);
    if (knots.length - 1 > MOST_PIECES) {
      return new Outcome.NotTaken<>(
          "the span has "
              + (knots.length - 1)
              + " pieces: at most "
              + MOST_PIECES
              + " are looked at for a sine fit");
    }
    double span = toSeconds - fromSeconds;
    int samples = Math.max(4096, Integer.highestOneBit(knots.length) << 2);
    double[] start = new double[samples];
    for (int i = 0; i < samples; i++) {
      start[i] = truth.valueAt(fromSeconds + span * ((i + 0.5) / samples));
    }
    if (Normalised.inPlace(start).unit() == 0) {
      return new Outcome.NotTaken<>("all values are equal: there is no sine");
    }
    double periods = SineStart.of(start).cycles() * samples;
    WaveformSine data = new WaveformSine(truth, cut(knots, span / (2 * Math.max(4, periods))));
    if (data.scale.unit() == 0) {
      return new Outcome.NotTaken<>("all values are equal: there is no sine");
    }
    return SineSolver.free(data, Trial.at(periods))
        .map(data::figures)
        .orElseGet(
            () ->
                new Outcome.NotTaken<>(
                    "over this span the waveform does not tell a sine from a constant"));
  }

  private Outcome<SineFigures> figures(Solution solution) {
    Trial trial = solution.trial();
    if (trial.cycles() < 1) {
      return new Outcome.NotTaken<>(SineFit.underAPeriod(trial.cycles()));
    }
    if (!solution.converged() || trial.amplitude() == 0) {
      return new Outcome.NotTaken<>(
          "the fit does not converge: no sine stands out of the waveform");
    }
    double amplitude = trial.amplitude() * scale.unit();
    double offset = scale.centre() + trial.level() * scale.unit();
    double left = Math.sqrt(solution.meanSquare()) * scale.unit();
    boolean none = left <= ROUNDING * (amplitude + Math.abs(offset));
    return new Outcome.Taken<>(
        new SineFigures(amplitude, trial.cycles() / span, offset, none ? 0 : left));
  }

  /** Pieces no longer than a length. */
  private static double[] cut(double[] knots, double longest) {
    int count = 1;
    for (int k = 1; k < knots.length; k++) {
      count += parts(knots[k] - knots[k - 1], longest);
    }
    double[] out = new double[count];
    out[0] = knots[0];
    int at = 1;
    for (int k = 1; k < knots.length; k++) {
      double length = knots[k] - knots[k - 1];
      int parts = parts(length, longest);
      for (int i = 1; i < parts; i++) {
        out[at++] = knots[k - 1] + length * i / parts;
      }
      out[at++] = knots[k];
    }
    return out;
  }

  private static int parts(double length, double longest) {
    return Math.max(1, (int) Math.ceil(length / longest));
  }

  private double instant(int piece, int node) {
    double half = (knots[piece] - knots[piece - 1]) / 2;
    return (knots[piece - 1] + half) + half * UNIT.getPoint(node);
  }

  @Override
  public double half() {
    return 0.5;
  }

  @Override
  public SineMoments at(Trial trial) {
    SineMoments m = new SineMoments();
    for (int k = 1; k < knots.length; k++) {
      double length = (knots[k] - knots[k - 1]) / 2 / span;
      for (int i = 0; i < NODES; i++) {
        double u = (instant(k, i) - middle) / span;
        add(m, trial, length * UNIT.getWeight(i), u, values[(k - 1) * NODES + i]);
      }
    }
    return m;
  }

  private static void add(SineMoments m, Trial trial, double weight, double u, double value) {
    double phase = Cycles.radians(trial.cycles(), trial.more(), u);
    double c = Math.cos(phase);
    double s = Math.sin(phase);
    double x = 2 * u;
    double r = weight * (value - trial.level() - trial.a() * c - trial.b() * s);
    double wx = weight * x;
    double cc = c * c - s * s;
    double ss = 2 * c * s;
    m.ones += weight;
    m.x += wx;
    m.xx += wx * x;
    m.cos += weight * c;
    m.sin += weight * s;
    m.xCos += wx * c;
    m.xSin += wx * s;
    m.cos2 += weight * cc;
    m.sin2 += weight * ss;
    m.xCos2 += wx * cc;
    m.xSin2 += wx * ss;
    m.xxCos2 += wx * x * cc;
    m.xxSin2 += wx * x * ss;
    m.r += r;
    m.rCos += r * c;
    m.rSin += r * s;
    m.xrCos += x * r * c;
    m.xrSin += x * r * s;
    m.rr += weight == 0 ? 0 : r * r / weight;
  }
}
