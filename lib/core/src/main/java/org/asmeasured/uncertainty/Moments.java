package org.asmeasured.uncertainty;

/**
 * Sums of inputs and outputs over a chunk of trials, about fixed places (the inputs' estimates, the
 * output's first value), and of several chunks in their order.
 */
final class Moments {
  final int inputs;
  final int outputs;
  long trials;
  final double[] x;
  final double[] xx;
  final double[] y;
  final double[] yy;
  final double[] xy;

  Moments(int inputs, int outputs) {
    this.inputs = inputs;
    this.outputs = outputs;
    this.x = new double[inputs];
    this.xx = new double[inputs * inputs];
    this.y = new double[outputs];
    this.yy = new double[outputs];
    this.xy = new double[outputs * inputs];
  }

  /** Deviations of one trial; an output that is NaN was not taken. */
  void addInputs(double[] dx) {
    trials++;
    for (int i = 0; i < inputs; i++) {
      double d = dx[i];
      x[i] += d;
      int row = i * inputs;
      for (int j = 0; j <= i; j++) {
        xx[row + j] += d * dx[j];
      }
    }
  }

  void addOutput(int k, double dy, double[] dx) {
    y[k] += dy;
    yy[k] += dy * dy;
    int row = k * inputs;
    for (int i = 0; i < inputs; i++) {
      xy[row + i] += dy * dx[i];
    }
  }

  void add(Moments other) {
    trials += other.trials;
    add(x, other.x);
    add(xx, other.xx);
    add(y, other.y);
    add(yy, other.yy);
    add(xy, other.xy);
  }

  private static void add(double[] sum, double[] part) {
    for (int i = 0; i < sum.length; i++) {
      sum[i] += part[i];
    }
  }
}
