package org.asmeasured.internal;

/**
 * An instant in seconds as an unevaluated sum of two doubles, about 32 digits: a 1 ps edge at t = 3
 * s needs more than one double holds.
 *
 * <p>Mutable, for one caller; the error-free sums and products are the textbook ones (Dekker,
 * Numerische Mathematik 18 (1971) 224).
 */
public final class ExtendedTime {
  private double hi;
  private double lo;

  /** Zero. */
  public ExtendedTime() {}

  /** The leading part; as a double, the best approximation of the whole. */
  public double hi() {
    return hi;
  }

  /** What the leading part leaves over. */
  public double lo() {
    return lo;
  }

  /** Becomes {@code h + l}. */
  public ExtendedTime set(double h, double l) {
    hi = h + l;
    lo = l - (hi - h);
    return this;
  }

  /** Becomes {@code k / rate}; {@code |k|} up to 2^53. */
  public ExtendedTime setQuotient(long k, double rate) {
    double q = k / rate;
    hi = q;
    lo = Math.fma(-q, rate, (double) k) / rate;
    return this;
  }

  /** Adds a double. */
  public ExtendedTime add(double a) {
    double s = hi + a;
    double b = s - hi;
    double e = (hi - (s - b)) + (a - b) + lo;
    hi = s + e;
    lo = e - (hi - s);
    return this;
  }

  /** Adds {@code h + l}. */
  public ExtendedTime add(double h, double l) {
    double s = hi + h;
    double b = s - hi;
    double e = (hi - (s - b)) + (h - b);
    double t = lo + l;
    double c = t - lo;
    double f = (lo - (t - c)) + (l - c);
    e += t;
    double u = s + e;
    e = e - (u - s) + f;
    hi = u + e;
    lo = e - (hi - u);
    return this;
  }

  /** Adds the exact product {@code a b}. */
  public ExtendedTime addProduct(double a, double b) {
    double p = a * b;
    return add(p, Math.fma(a, b, -p));
  }

  /**
   * Takes out the whole periods below this instant and leaves the rest, from zero to just below the
   * period.
   *
   * @return how many there were, negative before zero; exact up to 2^53
   */
  public double removeWhole(double periodHi, double periodLo) {
    double n = Math.floor(hi / periodHi);
    addProduct(-n, periodHi).addProduct(-n, periodLo);
    // the quotient may have been rounded across a whole number
    if (hi < 0) {
      add(periodHi, periodLo);
      return n - 1;
    }
    if ((hi - periodHi) + (lo - periodLo) >= 0) {
      add(-periodHi, -periodLo);
      return n + 1;
    }
    return n;
  }

  /**
   * Cycles of a frequency elapsed at this instant, less their nearest whole number: within half a
   * cycle of zero.
   */
  public double fractionOfCycles(double frequencyHz) {
    return fractionOfCycles(frequencyHz, hi, lo);
  }

  /** Cycles of a frequency in {@code h + l} seconds, less their nearest whole number. */
  public static double fractionOfCycles(double frequencyHz, double h, double l) {
    double p = frequencyHz * h;
    return (p - Math.rint(p)) + Math.fma(frequencyHz, l, Math.fma(frequencyHz, h, -p));
  }
}
