package org.asmeasured.linear;

import java.math.BigDecimal;
import java.math.BigInteger;
import java.math.MathContext;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import org.apache.commons.math3.complex.Complex;

/** Poles of the classical all-pole shapes, at a half-power frequency of 1 rad/s. */
final class Shapes {
  static final int MAX_ORDER = 10;
  private static final MathContext DIGITS = new MathContext(60);

  private static final Map<Integer, List<Complex>> BESSEL = new ConcurrentHashMap<>();
  private static final Map<Integer, List<Complex>> GAUSSIAN = new ConcurrentHashMap<>();

  private Shapes() {}

  /** On the unit circle (S. Butterworth, Wireless Engineer, 1930). */
  static List<Complex> butterworth(int order) {
    List<Complex> poles = new ArrayList<>();
    for (int k = 1; k <= order / 2; k++) {
      double angle = Math.PI * (2 * k - 1) / (2 * order);
      Complex p = new Complex(-Math.sin(angle), Math.cos(angle));
      poles.add(p);
      poles.add(p.conjugate());
    }
    if (order % 2 == 1) {
      poles.add(new Complex(-1, 0));
    }
    return poles;
  }

  /** Roots of theta_n(s) = sum_k (2n-k)!/(2^(n-k) k! (n-k)!) s^k (W. Thomson, 1949). */
  static List<Complex> bessel(int order) {
    return BESSEL.computeIfAbsent(order, Shapes::besselPoles);
  }

  private static List<Complex> besselPoles(int order) {
    BigDecimal[] theta = new BigDecimal[order + 1];
    for (int k = 0; k <= order; k++) {
      BigInteger numerator = factorial(2 * order - k);
      BigInteger denominator =
          BigInteger.TWO.pow(order - k).multiply(factorial(k)).multiply(factorial(order - k));
      theta[k] = new BigDecimal(numerator.divide(denominator));
    }
    return normalised(Roots.of(theta, DIGITS));
  }

  /**
   * The Gaussian magnitude to order n: |H|^2 = 1 / sum_{k<=n} (c w^2)^k / k!, poles -sqrt(-x/c)
   * with x the roots of the truncated exponential (A. Zverev, Handbook of Filter Synthesis, 1967,
   * ch. 3; from memory).
   */
  static List<Complex> gaussian(int order) {
    return GAUSSIAN.computeIfAbsent(order, Shapes::gaussianPoles);
  }

  private static List<Complex> gaussianPoles(int order) {
    BigDecimal[] exponential = new BigDecimal[order + 1];
    for (int k = 0; k <= order; k++) {
      exponential[k] = new BigDecimal(factorial(order).divide(factorial(k)));
    }
    List<Complex> poles = new ArrayList<>();
    for (Complex x : Roots.of(exponential, DIGITS)) {
      // of the two square roots, the one with a negative real part
      if (x.getImaginary() == 0) {
        poles.add(new Complex(-Math.sqrt(-x.getReal()), 0));
      } else {
        poles.add(x.negate().sqrt().negate());
      }
    }
    return normalised(poles);
  }

  private static BigInteger factorial(int n) {
    BigInteger product = BigInteger.ONE;
    for (int i = 2; i <= n; i++) {
      product = product.multiply(BigInteger.valueOf(i));
    }
    return product;
  }

  /** Divides by the frequency at which the modulus has fallen to the square root of one half. */
  private static List<Complex> normalised(List<Complex> poles) {
    double low = 0;
    double high = 1;
    while (lossAt(high, poles) < Math.log(2)) {
      high *= 2;
    }
    // Newton's rule, held within the bracket: the loss in log grows monotonically
    double w = high / 2;
    for (int i = 0; i < 100; i++) {
      double excess = lossAt(w, poles) - Math.log(2);
      if (excess > 0) {
        high = w;
      } else {
        low = w;
      }
      double next = w - excess / slopeAt(w, poles);
      if (!(next > low && next < high)) {
        next = (low + high) / 2;
      }
      if (Math.abs(next - w) <= Math.ulp(w)) {
        break;
      }
      w = next;
    }
    List<Complex> out = new ArrayList<>();
    for (Complex p : poles) {
      out.add(new Complex(p.getReal() / w, p.getImaginary() / w));
    }
    return List.copyOf(out);
  }

  /** -log |H(jw)|^2 = sum log |1 - jw/p|^2 = sum log1p((w^2 - 2 w Im p)/|p|^2). */
  private static double lossAt(double w, List<Complex> poles) {
    double sum = 0;
    for (Complex p : poles) {
      double square = p.getReal() * p.getReal() + p.getImaginary() * p.getImaginary();
      sum += Math.log1p(w * (w - 2 * p.getImaginary()) / square);
    }
    return sum;
  }

  private static double slopeAt(double w, List<Complex> poles) {
    double sum = 0;
    for (Complex p : poles) {
      double x = w - p.getImaginary();
      sum += 2 * x / (p.getReal() * p.getReal() + x * x);
    }
    return sum;
  }
}
