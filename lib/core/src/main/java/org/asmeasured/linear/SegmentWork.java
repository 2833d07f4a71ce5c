package org.asmeasured.linear;

import java.util.Arrays;

/**
 * What the pieces of a pattern are worked out with, one after another: room for the state at a
 * segment's end, and e^{p T} of lone poles over the lengths of segments. The last few lengths are
 * kept: a period has few that differ, and goes over them twice.
 */
final class SegmentWork {
  private static final int KEPT = 4;

  private final Modes modes;

  /** The state at the end. */
  final double[] endRe;

  final double[] endIm;

  /** Of each cluster in turn. */
  private final double[] lengths;

  private final double[] turnRe;
  private final double[] turnIm;
  private final int[] next;
  private int found;

  SegmentWork(Modes modes) {
    this.modes = modes;
    endRe = new double[modes.states];
    endIm = new double[modes.states];
    int n = modes.clusters.length;
    lengths = new double[KEPT * n];
    Arrays.fill(lengths, Double.NaN);
    turnRe = new double[KEPT * n];
    turnIm = new double[KEPT * n];
    next = new int[n];
  }

  /** Looks up {@link #re} and {@link #im}. */
  void turn(int cluster, double lengthSeconds) {
    int from = KEPT * cluster;
    for (int i = from; i < from + KEPT; i++) {
      if (lengths[i] == lengthSeconds) {
        found = i;
        return;
      }
    }
    found = from + next[cluster];
    next[cluster] = (next[cluster] + 1) % KEPT;
    double e = Math.exp(modes.clusters[cluster].re[0] * lengthSeconds);
    double angle = modes.clusters[cluster].im[0] * lengthSeconds;
    lengths[found] = lengthSeconds;
    turnRe[found] = e * Math.cos(angle);
    turnIm[found] = e * Math.sin(angle);
  }

  /** Real part of the last. */
  double re() {
    return turnRe[found];
  }

  /** Imaginary part of the last. */
  double im() {
    return turnIm[found];
  }
}
