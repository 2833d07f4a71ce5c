package org.asmeasured.linear;

import java.math.BigDecimal;
import java.math.MathContext;

/** A complex number of many digits, for the few places where doubles do not reach. */
record BigComplex(BigDecimal re, BigDecimal im) {
  static final BigComplex ZERO = new BigComplex(BigDecimal.ZERO, BigDecimal.ZERO);
  static final BigComplex ONE = new BigComplex(BigDecimal.ONE, BigDecimal.ZERO);

  /** e^{logRadius + j angle}; the radius may lie far outside the range of a double. */
  static BigComplex polar(double logRadius, double angle) {
    double decades = Math.rint(logRadius / Math.log(10));
    double radius = Math.exp(logRadius - decades * Math.log(10));
    return new BigComplex(
        new BigDecimal(radius * Math.cos(angle)).scaleByPowerOfTen((int) decades),
        new BigDecimal(radius * Math.sin(angle)).scaleByPowerOfTen((int) decades));
  }

  boolean isZero() {
    return re.signum() == 0 && im.signum() == 0;
  }

  double modulus() {
    return Math.hypot(re.doubleValue(), im.doubleValue());
  }

  BigComplex plus(BigComplex b, MathContext mc) {
    return new BigComplex(re.add(b.re, mc), im.add(b.im, mc));
  }

  BigComplex minus(BigComplex b, MathContext mc) {
    return new BigComplex(re.subtract(b.re, mc), im.subtract(b.im, mc));
  }

  BigComplex times(BigComplex b, MathContext mc) {
    return new BigComplex(
        re.multiply(b.re, mc).subtract(im.multiply(b.im, mc), mc),
        re.multiply(b.im, mc).add(im.multiply(b.re, mc), mc));
  }

  BigComplex over(BigComplex b, MathContext mc) {
    BigDecimal square = b.re.multiply(b.re, mc).add(b.im.multiply(b.im, mc), mc);
    return new BigComplex(
        re.multiply(b.re, mc).add(im.multiply(b.im, mc), mc).divide(square, mc),
        im.multiply(b.re, mc).subtract(re.multiply(b.im, mc), mc).divide(square, mc));
  }
}
