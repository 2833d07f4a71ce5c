package org.asmeasured.characterisation;

import java.util.Arrays;

/**
 * Points at even distances, or some of them about the middle. Places count in points from the
 * middle of the whole, so that what was fitted to a part can be carried on to more of it.
 *
 * <p>The points are passed block by block. Within a block, cosine and sine of the place come from
 * one pair of rows for all blocks; at its start, from the phase of the place itself, in cycles. So
 * no error builds up along the record.
 */
final class UniformSamples implements SineData {
  private static final int BLOCK = 512;

  private final double[] values;
  private final int from;
  private final int to;
  private final double middle;
  private final double half;

  private final double[] cosine = new double[BLOCK];
  private final double[] sine = new double[BLOCK];
  private final double[] x = new double[BLOCK];
  private final double[] plain = new double[BLOCK];
  private final double[] square = new double[BLOCK];
  private final double[] real = new double[BLOCK];
  private final double[] imaginary = new double[BLOCK];
  private final double[] placedReal = new double[BLOCK];
  private final double[] placedImaginary = new double[BLOCK];

  /** All points. */
  UniformSamples(double[] values) {
    this(values, 0, values.length);
  }

  /** The points from one index up to another. */
  UniformSamples(double[] values, int from, int to) {
    this.values = values;
    this.from = from;
    this.to = to;
    middle = (values.length - 1) / 2.0;
    half = (to - from) / 2.0;
  }

  @Override
  public double half() {
    return half;
  }

  @Override
  public SineMoments at(SineSolver.Trial trial) {
    double cycles = trial.cycles();
    double more = trial.more();
    double a = trial.a();
    double b = trial.b();
    double level = trial.level();
    int row = Math.min(BLOCK, to - from);
    for (int j = 0; j < row; j++) {
      double phase = Cycles.radians(cycles, more, j);
      cosine[j] = Math.cos(phase);
      sine[j] = Math.sin(phase);
    }
    for (double[] total :
        new double[][] {plain, square, real, imaginary, placedReal, placedImaginary}) {
      Arrays.fill(total, 0, row, 0);
    }
    SineMoments m = new SineMoments();
    Row powers = new Row(row);
    for (int at = from; at < to; at += BLOCK) {
      int count = Math.min(BLOCK, to - at);
      if (count != powers.count) {
        powers = new Row(count);
      }
      double u = at - middle;
      double phase = Cycles.radians(cycles, more, u);
      double c = Math.cos(phase);
      double s = Math.sin(phase);
      SineKernels.load(values, at, x, count);
      if (a != 0 || b != 0 || level != 0) {
        SineKernels.residual(x, cosine, sine, level, a * c + b * s, b * c - a * s, count);
      }
      SineKernels.addPlain(x, plain, square, count);
      SineKernels.addTurned(x, real, imaginary, placedReal, placedImaginary, c, s, u / half, count);
      powers.add(m, c, s, u);
    }
    gather(m, row);
    return m;
  }

  /** The totals of each place of a block, turned on by the place. */
  private void gather(SineMoments m, int row) {
    for (int j = 0; j < row; j++) {
      double c = cosine[j];
      double s = sine[j];
      double x1 = j / half;
      m.r += plain[j];
      m.rr += square[j];
      m.rCos += real[j] * c - imaginary[j] * s;
      m.rSin += real[j] * s + imaginary[j] * c;
      double pr = Math.fma(x1, real[j], placedReal[j]);
      double pi = Math.fma(x1, imaginary[j], placedImaginary[j]);
      m.xrCos += pr * c - pi * s;
      m.xrSin += pr * s + pi * c;
    }
  }

  /** Sums of j^k, j^k e^(i w j) and j^k e^(2 i w j) over the places of a block. */
  private final class Row {
    final int count;
    double j1;
    double j2;
    double c0;
    double s0;
    double c1;
    double s1;
    double cc0;
    double ss0;
    double cc1;
    double ss1;
    double cc2;
    double ss2;

    Row(int count) {
      this.count = count;
      for (int j = 0; j < count; j++) {
        double c = cosine[j];
        double s = sine[j];
        double cc = c * c - s * s;
        double ss = 2 * c * s;
        double jj = (double) j * j;
        j1 += j;
        j2 += jj;
        c0 += c;
        s0 += s;
        c1 += j * c;
        s1 += j * s;
        cc0 += cc;
        ss0 += ss;
        cc1 += j * cc;
        ss1 += j * ss;
        cc2 += jj * cc;
        ss2 += jj * ss;
      }
    }

    /** Adds a block that starts at place u, where cosine and sine are c and s. */
    void add(SineMoments m, double c, double s, double u) {
      double scale = 1 / half;
      double x0 = u * scale;
      double cc = c * c - s * s;
      double ss = 2 * c * s;
      m.ones += count;
      m.x += x0 * count + scale * j1;
      m.xx += x0 * x0 * count + 2 * x0 * scale * j1 + scale * scale * j2;
      m.cos += c * c0 - s * s0;
      m.sin += c * s0 + s * c0;
      double pc = x0 * c0 + scale * c1;
      double ps = x0 * s0 + scale * s1;
      m.xCos += c * pc - s * ps;
      m.xSin += c * ps + s * pc;
      m.cos2 += cc * cc0 - ss * ss0;
      m.sin2 += cc * ss0 + ss * cc0;
      double p2c = x0 * cc0 + scale * cc1;
      double p2s = x0 * ss0 + scale * ss1;
      m.xCos2 += cc * p2c - ss * p2s;
      m.xSin2 += cc * p2s + ss * p2c;
      double q2c = x0 * x0 * cc0 + 2 * x0 * scale * cc1 + scale * scale * cc2;
      double q2s = x0 * x0 * ss0 + 2 * x0 * scale * ss1 + scale * scale * ss2;
      m.xxCos2 += cc * q2c - ss * q2s;
      m.xxSin2 += cc * q2s + ss * q2c;
    }
  }
}
