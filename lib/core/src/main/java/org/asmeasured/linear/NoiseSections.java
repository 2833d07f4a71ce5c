package org.asmeasured.linear;

import java.util.function.DoubleUnaryOperator;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.ArrayRealVector;
import org.apache.commons.math3.linear.EigenDecomposition;
import org.apache.commons.math3.linear.LUDecomposition;
import org.apache.commons.math3.linear.MatrixUtils;
import org.apache.commons.math3.linear.RealMatrix;
import org.apache.commons.math3.linear.RealVector;

/**
 * A filter of white values, {@code y = direct e + c x, x <- F x + b e}, in the form in which it
 * runs.
 *
 * <p>Usually F is split into its modes: lone states that decay by their own factor, and pairs u + j
 * v that turn and decay by one complex factor and show {@code weightRe u - weightIm v}; every lone
 * state and every u takes in e as it is. Where modes coincide, F stays whole.
 */
final class NoiseSections {
  final double direct;

  /** Lone states. */
  final double[] factor;

  final double[] weight;

  /** Pairs. */
  final double[] factorRe;

  final double[] factorIm;
  final double[] weightRe;
  final double[] weightIm;

  /** F, b and c where F stays whole; else empty. */
  final double[][] whole;

  final double[] wholeIn;
  final double[] wholeOut;

  private final RealMatrix lessIdentity;
  private final RealVector input;
  private final RealVector output;

  /** Found when asked for, as it follows from the others. */
  private volatile RealMatrix stateCovariance;

  /** Modes: the matrix is block diagonal, lone states first. */
  private NoiseSections(
      int lone, RealMatrix lessIdentity, RealVector input, RealVector output, double direct) {
    this.lessIdentity = lessIdentity;
    this.input = input;
    this.output = output;
    this.direct = direct;
    int n = input.getDimension();
    boolean modes = lone >= 0;
    int pairs = modes ? (n - lone) / 2 : 0;
    factor = new double[modes ? lone : 0];
    weight = new double[factor.length];
    factorRe = new double[pairs];
    factorIm = new double[pairs];
    weightRe = new double[pairs];
    weightIm = new double[pairs];
    for (int i = 0; i < factor.length; i++) {
      factor[i] = 1 + lessIdentity.getEntry(i, i);
      weight[i] = output.getEntry(i);
    }
    for (int p = 0; p < pairs; p++) {
      int u = lone + 2 * p;
      factorRe[p] = 1 + lessIdentity.getEntry(u, u);
      factorIm[p] = lessIdentity.getEntry(u + 1, u);
      weightRe[p] = output.getEntry(u);
      weightIm[p] = -output.getEntry(u + 1);
    }
    whole =
        modes
            ? new double[0][]
            : MatrixUtils.createRealIdentityMatrix(n).add(lessIdentity).getData();
    wholeIn = modes ? new double[0] : input.toArray();
    wholeOut = modes ? new double[0] : output.toArray();
  }

  static NoiseSections white(double direct) {
    RealVector none = new ArrayRealVector(0);
    return new NoiseSections(0, null, none, none, direct);
  }

  /** F as it is. */
  static NoiseSections whole(RealMatrix lessIdentity, RealVector b, RealVector c, double direct) {
    return new NoiseSections(-1, lessIdentity, b, c, direct);
  }

  /** F split into its modes; of no use where modes nearly coincide. */
  static NoiseSections modes(RealMatrix lessIdentity, RealVector b, RealVector c, double direct) {
    int n = b.getDimension();
    EigenDecomposition e = new EigenDecomposition(lessIdentity);
    RealMatrix v = e.getV();
    LUDecomposition lu = new LUDecomposition(v, 0);
    if (!lu.getSolver().isNonSingular()) {
      return whole(lessIdentity, b, c, direct);
    }
    RealVector in = lu.getSolver().solve(b);
    RealVector out = v.preMultiply(c);
    int lone = 0;
    for (int i = 0; i < n; i++) {
      lone += e.getImagEigenvalue(i) == 0 ? 1 : 0;
    }
    RealMatrix x = new Array2DRowRealMatrix(n, n);
    RealVector takes = new ArrayRealVector(n);
    RealVector shows = new ArrayRealVector(n);
    int at = 0;
    int u = lone;
    for (int i = 0; i < n; i++) {
      if (e.getImagEigenvalue(i) == 0) {
        x.setEntry(at, at, e.getRealEigenvalue(i));
        takes.setEntry(at, 1);
        shows.setEntry(at++, out.getEntry(i) * in.getEntry(i));
        continue;
      }
      // columns i and i + 1 of V carry the block [a t; -t a]
      double a = e.getRealEigenvalue(i);
      double t = e.getD().getEntry(i, i + 1);
      double inRe = in.getEntry(i);
      double inIm = in.getEntry(i + 1);
      double outRe = out.getEntry(i);
      double outIm = out.getEntry(i + 1);
      x.setEntry(u, u, a);
      x.setEntry(u + 1, u + 1, a);
      x.setEntry(u, u + 1, -t);
      x.setEntry(u + 1, u, t);
      takes.setEntry(u, 1);
      shows.setEntry(u, outRe * inRe + outIm * inIm);
      shows.setEntry(u + 1, outRe * inIm - outIm * inRe);
      u += 2;
      i++;
    }
    return new NoiseSections(lone, x, takes, shows, direct);
  }

  int states() {
    return input.getDimension();
  }

  private boolean isWhole() {
    return whole.length > 0;
  }

  boolean isStable() {
    boolean stable = true;
    for (double r : factor) {
      stable &= Math.abs(r) < 1;
    }
    for (int p = 0; p < factorRe.length; p++) {
      stable &= Math.hypot(factorRe[p], factorIm[p]) < 1;
    }
    if (isWhole()) {
      EigenDecomposition e = new EigenDecomposition(lessIdentity);
      for (int i = 0; i < whole.length; i++) {
        stable &= Math.hypot(1 + e.getRealEigenvalue(i), e.getImagEigenvalue(i)) < 1;
      }
    }
    return stable;
  }

  NoiseSections scaledBy(double k) {
    NoiseSections scaled =
        new NoiseSections(
            isWhole() ? -1 : factor.length, lessIdentity, input, output.mapMultiply(k), k * direct);
    scaled.stateCovariance = stateCovariance; // that of the states stays
    return scaled;
  }

  /** The stationary covariance of the states for white values of unit variance. */
  RealMatrix stateCovariance() {
    RealMatrix made = stateCovariance;
    if (made == null) {
      made = NoiseModel.gramian(lessIdentity, input);
      stateCovariance = made;
    }
    return made;
  }

  /** What comes out for white values of unit variance. */
  NoiseCovariance covariance() {
    if (states() == 0) {
      return new NoiseCovariance(null, input, output, direct * direct);
    }
    RealVector seen = stateCovariance().operate(output);
    RealVector next = seen.add(lessIdentity.operate(seen)).add(input.mapMultiply(direct));
    return new NoiseCovariance(
        lessIdentity, next, output, direct * direct + output.dotProduct(seen));
  }

  /** The sum over all k of the covariances times e^{-j theta k}, as a function of theta. */
  DoubleUnaryOperator spectrum() {
    return isWhole() ? covariance()::spectrum : this::gain;
  }

  /** |direct + c (zeta - (F - I))^-1 b|^2 with zeta = e^{j theta} - 1. */
  private double gain(double theta) {
    double half = Math.sin(theta / 2);
    double zr = -2 * half * half;
    double zi = Math.sin(theta);
    double re = direct;
    double im = 0;
    for (int i = 0; i < factor.length; i++) {
      double dr = zr - lessIdentity.getEntry(i, i);
      double d2 = dr * dr + zi * zi;
      re += weight[i] * dr / d2;
      im -= weight[i] * zi / d2;
    }
    for (int p = 0; p < factorRe.length; p++) {
      // (weightRe (zeta - a) - weightIm t) / ((zeta - a)^2 + t^2)
      double dr = zr - lessIdentity.getEntry(factor.length + 2 * p, factor.length + 2 * p);
      double t = factorIm[p];
      double nr = weightRe[p] * dr - weightIm[p] * t;
      double ni = weightRe[p] * zi;
      double qr = (dr + zi) * (dr - zi) + t * t;
      double qi = 2 * dr * zi;
      double d2 = qr * qr + qi * qi;
      re += (nr * qr + ni * qi) / d2;
      im += (ni * qr - nr * qi) / d2;
    }
    return re * re + im * im;
  }
}
