package org.asmeasured.linear;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.asmeasured.internal.ExtendedTime;
import org.asmeasured.signal.Pattern;

/**
 * The output on one segment of a pattern, with u the time since its start, as a sum of
 *
 * <ul>
 *   <li>a polynomial: what follows the segment's level and slope, and all that is slow beside the
 *       segment's length;
 *   <li>the segment's own exponentials, as they come through;
 *   <li>the modes of the response, each with an amplitude; lone poles and chains.
 * </ul>
 *
 * <p>Where an input term and a mode are so near each other that their two parts would cancel (an
 * input exponential on a pole; a slope under a pole far slower than the segment), they are kept
 * together: the first as one longer chain, the second as a Taylor polynomial. Nothing large is ever
 * subtracted.
 */
final class Piece {
  static final int MAX_DEGREE = 7;

  /** A rate times a duration, below which a mode hardly moves. */
  private static final double TOGETHER = 1e-3;

  /** A rate times a duration, below which the state at a segment's end is found by a series. */
  private static final double SHORT = 0.5;

  private static final int SERIES_DEGREE = 20;

  /** Time constants after which a mode no longer counts. */
  private static final double DEAD = 40;

  /** Time constants after which nothing is left of a mode, not even beside zero. */
  private static final double GONE = 700;

  /** 1/n. */
  static final double[] RECIPROCAL = new double[32];

  static {
    for (int n = 1; n < RECIPROCAL.length; n++) {
      RECIPROCAL[n] = 1.0 / n;
    }
  }

  private static final double[] NONE = {};

  private final Modes modes;

  final double[] polynomial = new double[MAX_DEGREE + 1];
  int degree;

  int terms;
  double[] growth = NONE;
  double[] frequencyHz = NONE;
  double[] termRe = NONE;
  double[] termIm = NONE;

  /** Amplitude of each cluster that is a lone pole, zero where it went elsewhere. */
  final double[] loneRe;

  final double[] loneIm;
  List<ChainPart> chains = List.of();

  /** A chain with the amplitudes of its rows at the segment's start. */
  record ChainPart(Chain chain, double[] re, double[] im) {}

  private final SegmentWork work;

  /** A piece that can be worked out at any time. */
  Piece(Modes modes) {
    this(modes, new SegmentWork(modes));
  }

  /** A piece of several that are worked out one after another. */
  Piece(Modes modes, SegmentWork work) {
    this.modes = modes;
    this.work = work;
    loneRe = new double[modes.clusters.length];
    loneIm = new double[modes.clusters.length];
  }

  /**
   * Works out the output on a segment from the state at its start; and the state at its end, if it
   * has one.
   *
   * @param state 2 numbers for each state, real and imaginary part
   * @param end receives the state at the segment's end, or null
   */
  void compute(Pattern pattern, int segment, double[] state, int from, double[] end, int to) {
    chains = List.of();
    Arrays.fill(polynomial, 0);
    Arrays.fill(loneRe, 0);
    Arrays.fill(loneIm, 0);
    polynomial[0] = modes.direct * pattern.level(segment);
    polynomial[1] = modes.direct * pattern.slope(segment);
    directTerms(pattern, segment);
    double length = pattern.length(segment);
    int k = 0;
    for (int c = 0; c < modes.clusters.length; c++) {
      Cluster cluster = modes.clusters[c];
      if (cluster.size == 1 && terms == 0 && cluster.fastest * length >= SHORT) {
        lone(pattern, segment, c, state, from + 2 * k, end != null, k);
        k++;
        continue;
      }
      double[] wRe = new double[cluster.size];
      double[] wIm = new double[cluster.size];
      for (int i = 0; i < cluster.size; i++) {
        wRe[i] = state[from + 2 * (k + i)];
        wIm[i] = state[from + 2 * (k + i) + 1];
      }
      Arrays.fill(work.endRe, k, k + cluster.size, 0);
      Arrays.fill(work.endIm, k, k + cluster.size, 0);
      // a level alone needs no such care: what follows it is no larger than it
      boolean level = pattern.slope(segment) == 0 && terms == 0;
      if (cluster.fastest * length < TOGETHER && !level) {
        series(pattern, segment, cluster, length, wRe, wIm, k, true);
      } else {
        double[] fromRe = wRe.clone();
        double[] fromIm = wIm.clone();
        general(pattern, segment, c, length, wRe, wIm, k);
        if (cluster.fastest * length < SHORT) {
          // the difference of two large parts would cost the digits that settling then asks for
          Arrays.fill(work.endRe, k, k + cluster.size, 0);
          Arrays.fill(work.endIm, k, k + cluster.size, 0);
          series(pattern, segment, cluster, length, fromRe, fromIm, k, false);
        }
      }
      k += cluster.size;
    }
    if (end != null) {
      for (int i = 0; i < modes.states; i++) {
        end[to + 2 * i] = work.endRe[i];
        end[to + 2 * i + 1] = work.endIm[i];
      }
    }
    trim(length);
  }

  private void directTerms(Pattern pattern, int segment) {
    int first = pattern.termFrom(segment);
    terms = pattern.termFrom(segment + 1) - first;
    if (termRe.length < terms) {
      growth = new double[terms];
      frequencyHz = new double[terms];
      termRe = new double[terms];
      termIm = new double[terms];
    }
    for (int t = 0; t < terms; t++) {
      growth[t] = pattern.growth(first + t);
      frequencyHz[t] = pattern.frequencyHz(first + t);
      termRe[t] = modes.direct * pattern.cosine(first + t);
      termIm[t] = frequencyHz[t] == 0 ? 0 : -modes.direct * pattern.sine(first + t);
    }
  }

  /**
   * A lone pole under a level and a slope: the steady part x0 + x1 u, with p x1 = -b slope and p x0
   * = x1 - b level, and what the state makes up for.
   */
  private void lone(
      Pattern pattern, int segment, int c, double[] state, int from, boolean toEnd, int at) {
    Cluster cluster = modes.clusters[c];
    double pRe = cluster.re[0];
    double pIm = cluster.im[0];
    double slope = pattern.slope(segment);
    double level = pattern.level(segment);
    double length = pattern.length(segment);
    double inverse = 1 / (pRe * pRe + pIm * pIm);
    double qRe = -pRe * inverse;
    double qIm = pIm * inverse;
    double bRe = cluster.bRe[0];
    double bIm = cluster.bIm[0];
    // b over minus p
    double sRe = bRe * qRe - bIm * qIm;
    double sIm = bRe * qIm + bIm * qRe;
    double x0Re = sRe * level;
    double x0Im = sIm * level;
    double endingRe = 0;
    double endingIm = 0;
    if (slope != 0) {
      double x1Re = sRe * slope;
      double x1Im = sIm * slope;
      polynomial[1] += x1Re;
      x0Re -= x1Re * qRe - x1Im * qIm;
      x0Im -= x1Re * qIm + x1Im * qRe;
      // a slope on an endless segment has no end to be at
      if (length < Double.POSITIVE_INFINITY) {
        endingRe = x1Re * length;
        endingIm = x1Im * length;
      }
    }
    polynomial[0] += x0Re;
    double wRe = state[from] - x0Re;
    double wIm = state[from + 1] - x0Im;
    loneRe[c] = wRe;
    loneIm[c] = wIm;
    if (!toEnd) {
      return;
    }
    endingRe += x0Re;
    endingIm += x0Im;
    if (-pRe * length < GONE) {
      work.turn(c, length);
      endingRe += wRe * work.re() - wIm * work.im();
      endingIm += wRe * work.im() + wIm * work.re();
    }
    work.endRe[at] = endingRe;
    work.endIm[at] = endingIm;
  }

  // Slow clusters.

  /**
   * A cluster over a segment that is short beside it, by the Taylor series of its differential
   * equation: the state at the end always, the output as a polynomial only where the cluster hardly
   * moves at all.
   */
  private void series(
      Pattern pattern,
      int segment,
      Cluster cluster,
      double length,
      double[] wRe,
      double[] wIm,
      int at,
      boolean asPolynomial) {
    int degree = asPolynomial ? MAX_DEGREE : SERIES_DEGREE;
    double near = asPolynomial ? 2 * TOGETHER : SHORT;
    double[] input = new double[degree + 1];
    input[0] = pattern.level(segment);
    input[1] = pattern.slope(segment) * length;
    int first = pattern.termFrom(segment);
    for (int t = 0; t < terms; t++) {
      double lRe = growth[t] * length;
      double lIm = 2 * Math.PI * frequencyHz[t] * length;
      double cRe = pattern.cosine(first + t);
      double cIm = frequencyHz[t] == 0 ? 0 : -pattern.sine(first + t);
      if (Math.hypot(lRe, lIm) >= near) {
        farTerm(cluster, t, cRe, cIm, length, wRe, wIm, at, asPolynomial);
        continue;
      }
      for (int n = 0; n <= degree; n++) {
        input[n] += cRe;
        double r = (cRe * lRe - cIm * lIm) / (n + 1);
        cIm = (cRe * lIm + cIm * lRe) / (n + 1);
        cRe = r;
      }
    }
    int m = cluster.size;
    double power = 1;
    for (int n = 0; n <= degree; n++) {
      if (asPolynomial) {
        polynomial[n] += wRe[0] / power;
        power *= length;
      }
      double h = length / (n + 1);
      for (int i = 0; i < m; i++) {
        work.endRe[at + i] += wRe[i];
        work.endIm[at + i] += wIm[i];
        double r = cluster.re[i] * wRe[i] - cluster.im[i] * wIm[i] + cluster.bRe[i] * input[n];
        double q = cluster.re[i] * wIm[i] + cluster.im[i] * wRe[i] + cluster.bIm[i] * input[n];
        if (i + 1 < m) {
          r += cluster.scale * wRe[i + 1];
          q += cluster.scale * wIm[i + 1];
        }
        wRe[i] = h * r;
        wIm[i] = h * q;
      }
    }
  }

  // All others.

  private void general(
      Pattern pattern, int segment, int c, double length, double[] wRe, double[] wIm, int at) {
    Cluster cluster = modes.clusters[c];
    ramp(pattern.level(segment), pattern.slope(segment), cluster, length, wRe, wIm, at);
    double within = Math.min(length, DEAD / cluster.slowest);
    int first = pattern.termFrom(segment);
    List<double[]> resonant = null;
    for (int t = 0; t < terms; t++) {
      double cRe = pattern.cosine(first + t);
      double cIm = frequencyHz[t] == 0 ? 0 : -pattern.sine(first + t);
      double lRe = growth[t];
      double lIm = 2 * Math.PI * frequencyHz[t];
      if (!cluster.resonates(lRe, lIm, within) && !cluster.resonates(lRe, -lIm, within)) {
        farTerm(cluster, t, cRe, cIm, length, wRe, wIm, at, true);
        continue;
      }
      for (double[] drive : drives(cRe, cIm, lRe, lIm)) {
        if (cluster.resonates(drive[2], drive[3], within)) {
          if (resonant == null) {
            resonant = new ArrayList<>();
          }
          resonant.add(drive);
        } else {
          farDrive(cluster, t, drive, length, wRe, wIm, at, true);
        }
      }
    }
    if (resonant != null) {
      resonance(cluster, resonant, length, wRe, wIm, at);
    } else if (cluster.size == 1) {
      loneRe[c] = wRe[0];
      loneIm[c] = wIm[0];
      if (length < Double.POSITIVE_INFINITY) {
        double e = Math.exp(cluster.re[0] * length);
        if (e != 0) {
          double cos = e * Math.cos(cluster.im[0] * length);
          double sin = e * Math.sin(cluster.im[0] * length);
          work.endRe[at] += wRe[0] * cos - wIm[0] * sin;
          work.endIm[at] += wRe[0] * sin + wIm[0] * cos;
        }
      }
    } else {
      Chain chain = Chain.of(cluster);
      addChain(new ChainPart(chain, wRe.clone(), wIm.clone()));
      advance(chain, length, wRe, wIm, cluster.size, at);
    }
  }

  private void advance(Chain chain, double length, double[] wRe, double[] wIm, int size, int at) {
    if (length < Double.POSITIVE_INFINITY) {
      ChainExponential e = chain.exponential();
      e.at(length);
      e.apply(wRe, wIm, 0);
      for (int i = 0; i < size; i++) {
        work.endRe[at + i] += wRe[i];
        work.endIm[at + i] += wIm[i];
      }
    }
  }

  /**
   * Level and slope: the cluster follows with x0 + x1 u, where J x1 = -b slope and J x0 = x1 - b
   * level.
   */
  private void ramp(
      double level,
      double slope,
      Cluster cluster,
      double length,
      double[] wRe,
      double[] wIm,
      int at) {
    int m = cluster.size;
    double[] x0Re = new double[m];
    double[] x0Im = new double[m];
    if (slope != 0) {
      double[] x1Re = new double[m];
      double[] x1Im = new double[m];
      for (int i = 0; i < m; i++) {
        x1Re[i] = cluster.bRe[i] * slope;
        x1Im[i] = cluster.bIm[i] * slope;
      }
      cluster.solveNegated(x1Re, x1Im);
      polynomial[1] += x1Re[0];
      for (int i = 0; i < m; i++) {
        x0Re[i] = -x1Re[i];
        x0Im[i] = -x1Im[i];
        // a slope on an endless segment has no end to be at
        if (length < Double.POSITIVE_INFINITY) {
          work.endRe[at + i] += x1Re[i] * length;
          work.endIm[at + i] += x1Im[i] * length;
        }
      }
    }
    for (int i = 0; i < m; i++) {
      x0Re[i] += cluster.bRe[i] * level;
      x0Im[i] += cluster.bIm[i] * level;
    }
    cluster.solveNegated(x0Re, x0Im);
    polynomial[0] += x0Re[0];
    for (int i = 0; i < m; i++) {
      wRe[i] -= x0Re[i];
      wIm[i] -= x0Im[i];
      work.endRe[at + i] += x0Re[i];
      work.endIm[at + i] += x0Im[i];
    }
  }

  /**
   * A real term as complex exponentials {gRe, gIm, lambdaRe, lambdaIm}: one if it does not turn,
   * else two.
   */
  private static double[][] drives(double cRe, double cIm, double lRe, double lIm) {
    return lIm == 0
        ? new double[][] {{cRe, 0, lRe, 0}}
        : new double[][] {{cRe / 2, cIm / 2, lRe, lIm}, {cRe / 2, -cIm / 2, lRe, -lIm}};
  }

  private void farTerm(
      Cluster cluster,
      int t,
      double cRe,
      double cIm,
      double length,
      double[] wRe,
      double[] wIm,
      int at,
      boolean shown) {
    for (double[] drive : drives(cRe, cIm, growth[t], 2 * Math.PI * frequencyHz[t])) {
      farDrive(cluster, t, drive, length, wRe, wIm, at, shown);
    }
  }

  /**
   * An exponential well apart from the cluster: its steady amplitude, and what the state has to
   * make up for.
   */
  private void farDrive(
      Cluster cluster,
      int t,
      double[] drive,
      double length,
      double[] wRe,
      double[] wIm,
      int at,
      boolean shown) {
    double[] xRe = new double[cluster.size];
    double[] xIm = new double[cluster.size];
    cluster.steady(drive[2], drive[3], drive[0], drive[1], xRe, xIm);
    if (shown) {
      termRe[t] += xRe[0];
    }
    if (shown && drive[3] != 0) {
      // an amplitude of e^{lambda* u} counts, within a real part, as its conjugate of e^{lambda u}
      termIm[t] += drive[3] > 0 ? xIm[0] : -xIm[0];
    }
    double eRe = 0;
    double eIm = 0;
    if (length < Double.POSITIVE_INFINITY) {
      double e = Math.exp(drive[2] * length);
      double angle =
          2
              * Math.PI
              * ExtendedTime.fractionOfCycles(Math.copySign(frequencyHz[t], drive[3]), length, 0);
      eRe = e * Math.cos(angle);
      eIm = e * Math.sin(angle);
    }
    for (int i = 0; i < cluster.size; i++) {
      wRe[i] -= xRe[i];
      wIm[i] -= xIm[i];
      work.endRe[at + i] += xRe[i] * eRe - xIm[i] * eIm;
      work.endIm[at + i] += xRe[i] * eIm + xIm[i] * eRe;
    }
  }

  /** Exponentials that lie on the cluster's poles, or all but: they lengthen its chain. */
  private void resonance(
      Cluster cluster, List<double[]> drives, double length, double[] wRe, double[] wIm, int at) {
    Chain chain = Chain.of(cluster);
    for (double[] d : drives) {
      chain = chain.with(d[2], d[3]);
    }
    int n = chain.size();
    double[] aRe = Arrays.copyOf(wRe, n);
    double[] aIm = Arrays.copyOf(wIm, n);
    for (int k = 0; k < drives.size(); k++) {
      double[] d = drives.get(k);
      lengthen(cluster, chain, cluster.size + k, d[0], d[1], aRe, aIm);
    }
    addChain(new ChainPart(chain, aRe.clone(), aIm.clone()));
    if (length == Double.POSITIVE_INFINITY) {
      return;
    }
    ChainExponential e = chain.exponential();
    e.at(length);
    e.apply(aRe, aIm, 0);
    // take the inputs, as they stand at the end, out again: what remains is the state
    for (int k = 0; k < drives.size(); k++) {
      double[] d = drives.get(k);
      double grown = Math.exp(d[2] * length);
      double angle = d[3] * length;
      double cos = grown * Math.cos(angle);
      double sin = grown * Math.sin(angle);
      lengthen(
          cluster,
          chain,
          cluster.size + k,
          -(d[0] * cos - d[1] * sin),
          -(d[0] * sin + d[1] * cos),
          aRe,
          aIm);
    }
    for (int i = 0; i < cluster.size; i++) {
      work.endRe[at + i] += aRe[i];
      work.endIm[at + i] += aIm[i];
    }
  }

  /**
   * Adds an input g e^{lambda u}, lambda being point {@code place} of the chain: with N_k the
   * chain's basis, N_k/(s - lambda) = N_{k+1}/scale + (lambda - p_{k+1})/scale N_{k+1}/(s -
   * lambda), and so on to the point itself.
   */
  private static void lengthen(
      Cluster cluster, Chain chain, int place, double gRe, double gIm, double[] aRe, double[] aIm) {
    double lRe = chain.re()[place];
    double lIm = chain.im()[place];
    double tRe = 0;
    double tIm = 0;
    for (int k = 0; k < place; k++) {
      if (k < cluster.size) {
        tRe += gRe * cluster.bRe[k] - gIm * cluster.bIm[k];
        tIm += gRe * cluster.bIm[k] + gIm * cluster.bRe[k];
      }
      aRe[k + 1] += tRe / chain.scale();
      aIm[k + 1] += tIm / chain.scale();
      if (k + 1 < place) {
        double dr = (lRe - chain.re()[k + 1]) / chain.scale();
        double di = (lIm - chain.im()[k + 1]) / chain.scale();
        double r = tRe * dr - tIm * di;
        tIm = tRe * di + tIm * dr;
        tRe = r;
      }
    }
  }

  private void addChain(ChainPart part) {
    if (chains.isEmpty()) {
      chains = new ArrayList<>();
    }
    chains.add(part);
  }

  private boolean isBent() {
    for (int n = 2; n <= MAX_DEGREE; n++) {
      if (polynomial[n] != 0) {
        return true;
      }
    }
    return false;
  }

  private void trim(double length) {
    degree = 1;
    if (!isBent()) {
      return;
    }
    double most = 0;
    double power = 1;
    double[] size = new double[MAX_DEGREE + 1];
    for (int n = 0; n <= MAX_DEGREE; n++) {
      size[n] = polynomial[n] == 0 ? 0 : Math.abs(polynomial[n]) * power;
      most = Math.max(most, size[n]);
      power *= length;
    }
    if (length < Double.POSITIVE_INFINITY) {
      for (int n = 2; n <= MAX_DEGREE; n++) {
        if (size[n] > 1e-19 * most) {
          degree = n;
        }
      }
    }
  }

  double polynomialAt(double u) {
    double sum = 0;
    for (int n = degree; n >= 0; n--) {
      sum = sum * u + polynomial[n];
    }
    return sum;
  }

  /** Whether there is nothing but a polynomial and lone modes. */
  boolean isPlain() {
    return terms == 0 && chains.isEmpty();
  }

  /**
   * Of what is plain, the polynomial over a cell of {@code x = (u - middle)/cell}.
   *
   * @param into receives the coefficients, at least {@code MAX_DEGREE + 1}, where there are zeros
   */
  void taylor(CellModes cells, int cell, double cellSeconds, double[] into) {
    double u = (cell + 0.5) * cellSeconds;
    for (int i = degree; i >= 0; i--) {
      for (int k = degree - i; k > 0; k--) {
        into[k] = into[k] * u + into[k - 1];
      }
      into[0] = into[0] * u + polynomial[i];
    }
    double power = 1;
    for (int i = 1; i <= degree; i++) {
      power *= cellSeconds;
      into[i] *= power;
    }
    for (int c = 0; c < loneRe.length; c++) {
      if (loneRe[c] != 0 || loneIm[c] != 0) {
        cells.add(c, loneRe[c], loneIm[c], cell, into);
      }
    }
  }

  /** The output {@code hi + lo} after the segment's start. */
  double valueAt(double hi, double lo) {
    double sum = polynomialAt(hi);
    for (int t = 0; t < terms; t++) {
      double angle = 2 * Math.PI * ExtendedTime.fractionOfCycles(frequencyHz[t], hi, lo);
      sum += Math.exp(growth[t] * hi) * (termRe[t] * Math.cos(angle) - termIm[t] * Math.sin(angle));
    }
    for (int c = 0; c < loneRe.length; c++) {
      if (loneRe[c] != 0 || loneIm[c] != 0) {
        Cluster cluster = modes.clusters[c];
        double e = Math.exp(cluster.re[0] * hi);
        if (e != 0) {
          double angle = cluster.im[0] * hi;
          sum += e * (loneRe[c] * Math.cos(angle) - loneIm[c] * Math.sin(angle));
        }
      }
    }
    for (ChainPart part : chains) {
      ChainExponential e = part.chain.exponential();
      e.at(hi);
      for (int j = 0; j < part.chain.size(); j++) {
        sum += e.re[j] * part.re[j] - e.im[j] * part.im[j];
      }
    }
    return sum;
  }
}
