package org.asmeasured.linear;

/**
 * Lone modes over the cells of {@link PieceTable}s that all have one length: of every mode its
 * exponential at the middle of a cell, and what that becomes as a polynomial of the place in it.
 * Both are found once, so that a cell costs a few products for each mode.
 */
final class CellModes {
  private static final int POINTS = PieceTable.POINTS;

  private final PoleSteps[] halves;
  private final double[][] polynomialRe;
  private final double[][] polynomialIm;

  /**
   * For so many cells.
   *
   * @param clusters of which those that are no lone pole are left out
   * @param higher the powers from {@link PieceTable#POINTS} on, as polynomials of lower ones
   */
  CellModes(Cluster[] clusters, double cellSeconds, int cells, double[][] higher) {
    int n = clusters.length;
    halves = new PoleSteps[n];
    polynomialRe = new double[n][];
    polynomialIm = new double[n][];
    for (int c = 0; c < n; c++) {
      if (clusters[c].size == 1) {
        double re = clusters[c].re[0];
        double im = clusters[c].im[0];
        halves[c] = new PoleSteps(re, im, 0.5 * cellSeconds, PoleSteps.bits(2 * cells - 1));
        powers(c, re * cellSeconds, im * cellSeconds, higher);
      }
    }
  }

  /** e^{p x} by Taylor, whose last powers are interpolated by the others. */
  private void powers(int c, double pRe, double pIm, double[][] higher) {
    double[] re = new double[POINTS + higher.length];
    double[] im = new double[POINTS + higher.length];
    PoleSteps.taylor(pRe, pIm, re, im);
    for (int h = 0; h < higher.length; h++) {
      for (int n = 0; n < POINTS; n++) {
        re[n] += re[POINTS + h] * higher[h][n];
        im[n] += im[POINTS + h] * higher[h][n];
      }
    }
    polynomialRe[c] = re;
    polynomialIm[c] = im;
  }

  /** Adds a mode of some amplitude at the start of cell 0 to the polynomial of a cell. */
  void add(int c, double amplitudeRe, double amplitudeIm, int cell, double[] into) {
    PoleSteps middle = halves[c];
    middle.at(2 * cell + 1);
    double re = amplitudeRe * middle.re() - amplitudeIm * middle.im();
    double im = amplitudeRe * middle.im() + amplitudeIm * middle.re();
    double[] pRe = polynomialRe[c];
    double[] pIm = polynomialIm[c];
    for (int n = 0; n < POINTS; n++) {
      into[n] += re * pRe[n] - im * pIm[n];
    }
  }
}
