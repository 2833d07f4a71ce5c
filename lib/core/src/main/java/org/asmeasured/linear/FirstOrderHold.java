package org.asmeasured.linear;

/**
 * A cluster seen from one sample to the next while its input runs along a straight line: {@code
 * x(t+h) = E x(t) + h (phi_1 - phi_2) b u(t) + h phi_2 b u(t+h)}, with E = exp(J h) and phi_n the
 * phi functions of J h. With {@code s = x - h phi_2 b u} it becomes {@code s(t+h) = E s(t) + G
 * u(t)}, in which one input alone enters.
 */
final class FirstOrderHold {
  /** Up to here the series of the phi functions are summed; beyond, nothing cancels. */
  private static final double SERIES = 2;

  private static final int TERMS = 40;

  final Cluster cluster;
  final double stepSeconds;

  /** exp(J h), row-major, upper triangle. */
  final ChainExponential e;

  /** What the input adds to s in one step. */
  final double[] gRe;

  final double[] gIm;

  /** h phi_2 b: the part of x that follows the input at once. */
  final double[] nowRe;

  final double[] nowIm;

  /** s under an input that has been 1 for ever. */
  final double[] settledRe;

  final double[] settledIm;

  FirstOrderHold(Cluster cluster, double stepSeconds) {
    this.cluster = cluster;
    this.stepSeconds = stepSeconds;
    int m = cluster.size;
    e = Chain.of(cluster).exponential();
    e.at(stepSeconds);
    double[] oneRe = new double[m];
    double[] oneIm = new double[m];
    nowRe = new double[m];
    nowIm = new double[m];
    if (cluster.fastest * stepSeconds <= SERIES) {
      series(oneRe, oneIm);
    } else {
      byDifferences(oneRe, oneIm);
    }
    double[] lastRe = nowRe.clone();
    double[] lastIm = nowIm.clone();
    e.apply(lastRe, lastIm, 0);
    gRe = new double[m];
    gIm = new double[m];
    for (int i = 0; i < m; i++) {
      gRe[i] = oneRe[i] - nowRe[i] + lastRe[i];
      gIm[i] = oneIm[i] - nowIm[i] + lastIm[i];
    }
    settledRe = cluster.bRe.clone();
    settledIm = cluster.bIm.clone();
    cluster.solveNegated(settledRe, settledIm);
    for (int i = 0; i < m; i++) {
      settledRe[i] -= nowRe[i];
      settledIm[i] -= nowIm[i];
    }
  }

  /** h phi_1 b = h sum of (J h)^n b/(n+1)!, and h phi_2 b likewise over (n+2)!. */
  private void series(double[] oneRe, double[] oneIm) {
    int m = cluster.size;
    double[] vRe = cluster.bRe.clone();
    double[] vIm = cluster.bIm.clone();
    double factor = stepSeconds;
    for (int n = 0; n < TERMS; n++) {
      factor /= n + 1;
      for (int i = 0; i < m; i++) {
        oneRe[i] += factor * vRe[i];
        oneIm[i] += factor * vIm[i];
        nowRe[i] += factor / (n + 2) * vRe[i];
        nowIm[i] += factor / (n + 2) * vIm[i];
      }
      for (int i = 0; i < m; i++) {
        double r = cluster.re[i] * vRe[i] - cluster.im[i] * vIm[i];
        double q = cluster.re[i] * vIm[i] + cluster.im[i] * vRe[i];
        if (i + 1 < m) {
          r += cluster.scale * vRe[i + 1];
          q += cluster.scale * vIm[i + 1];
        }
        vRe[i] = r * stepSeconds;
        vIm[i] = q * stepSeconds;
      }
    }
  }

  /** h phi_1 b = J^-1 (E - I) b, and h phi_2 b = J^-1 (phi_1 - I) b. */
  private void byDifferences(double[] oneRe, double[] oneIm) {
    int m = cluster.size;
    System.arraycopy(cluster.bRe, 0, oneRe, 0, m);
    System.arraycopy(cluster.bIm, 0, oneIm, 0, m);
    e.apply(oneRe, oneIm, 0);
    for (int i = 0; i < m; i++) {
      oneRe[i] = cluster.bRe[i] - oneRe[i];
      oneIm[i] = cluster.bIm[i] - oneIm[i];
    }
    cluster.solveNegated(oneRe, oneIm);
    for (int i = 0; i < m; i++) {
      nowRe[i] = cluster.bRe[i] - oneRe[i] / stepSeconds;
      nowIm[i] = cluster.bIm[i] - oneIm[i] / stepSeconds;
    }
    cluster.solveNegated(nowRe, nowIm);
  }
}
