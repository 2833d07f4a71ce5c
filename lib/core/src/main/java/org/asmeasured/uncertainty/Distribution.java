package org.asmeasured.uncertainty;

import java.util.function.DoubleUnaryOperator;
import org.asmeasured.internal.Require;

/**
 * What is known about a quantity: how probable it is that it lies below any value. Given by its
 * inverse distribution function, from which trials are drawn.
 *
 * <p>An own distribution implements {@link #name}, {@link #quantile}, {@link #estimate} and {@link
 * #standardDeviation}, or comes from {@link #own}. Implementations are immutable and may be asked
 * by several threads at once.
 */
public interface Distribution {

  /**
   * What it is, as a person would say it, with its parameters; it stands in messages.
   *
   * @return such as "normal, mean 2.0, standard deviation 0.1"
   */
  String name();

  /**
   * The same with its parameters rounded to four digits, and their unit.
   *
   * @param unit of the quantity, "" of a plain number
   * @return such as "normal, mean 2 V, standard deviation 100 mV"; the name, unless overridden
   */
  default String words(String unit) {
    return name();
  }

  /**
   * The inverse distribution function.
   *
   * @param probability above 0 and below 1
   * @return the value below which the quantity lies with this probability; must not fall as the
   *     probability rises
   */
  double quantile(double probability);

  /**
   * The estimate of the quantity.
   *
   * @return its expectation; where there is none (Student t of one degree of freedom) its median
   */
  double estimate();

  /**
   * The standard deviation, as JCGM 101 takes it.
   *
   * @return not negative; positive infinity where there is none (Student t of up to two degrees of
   *     freedom)
   */
  double standardDeviation();

  /**
   * The standard uncertainty, as JCGM 100 takes it. For a mean of readings that is the experimental
   * standard deviation of the mean (4.2.3), smaller than the standard deviation of the t
   * distribution, the difference being made good by the degrees of freedom.
   *
   * @return not negative, finite; the standard deviation, unless overridden
   */
  default double standardUncertainty() {
    return standardDeviation();
  }

  /**
   * The degrees of freedom of the standard uncertainty.
   *
   * @return at least 1; positive infinity, unless overridden
   */
  default double degreesOfFreedom() {
    return Double.POSITIVE_INFINITY;
  }

  /**
   * The value that lies at the probability of a standard normal value. Unless overridden the upper
   * tail ends where a probability of double precision does, at 1 - 2^-53.
   *
   * @param z any finite value
   * @return the quantile at Phi(z)
   */
  default double atNormal(double z) {
    return quantile(Math.max(Double.MIN_NORMAL, Math.min(1 - 0x1p-53, Normal.phi(z))));
  }

  /**
   * The distribution function, by bisection of the inverse unless overridden.
   *
   * @param value any value, not NaN
   * @return the probability that the quantity is at most this value, 0 to 1, to about 1e-15
   */
  default double cumulative(double value) {
    return Normal.phi(Bisection.normalAt(this, value));
  }

  /**
   * A normal distribution (JCGM 101, 6.4.7): a best estimate and its standard uncertainty.
   *
   * @param mean in the unit of the quantity, finite
   * @param standardDeviation above 0, in the same unit
   * @return the distribution
   * @throws IllegalArgumentException if a value is out of range
   */
  static Distribution normal(double mean, double standardDeviation) {
    return new Normal(mean, standardDeviation);
  }

  /**
   * A normal distribution from an expanded uncertainty, as a calibration certificate states it
   * (JCGM 100, 4.3.3): the standard uncertainty is U/k.
   *
   * @param estimate in the unit of the quantity, finite
   * @param expandedUncertainty U, above 0, in the same unit
   * @param coverageFactor k, 1 to 10
   * @return the distribution
   * @throws IllegalArgumentException if a value is out of range
   */
  static Distribution expanded(double estimate, double expandedUncertainty, double coverageFactor) {
    Require.above("expandedUncertainty", expandedUncertainty, "", 0, Normal.MAX);
    Require.inRange("coverageFactor", coverageFactor, "", 1, 10);
    return new Normal(estimate, expandedUncertainty / coverageFactor);
  }

  /**
   * A rectangular distribution (JCGM 101, 6.4.2): nothing but the limits is known. Standard
   * uncertainty a/sqrt(3) of the half-width a.
   *
   * @param lower limit, finite
   * @param upper limit, above the lower one
   * @return the distribution
   * @throws IllegalArgumentException if a value is out of range
   */
  static Distribution rectangular(double lower, double upper) {
    return new Trapezoidal("rectangular", lower, upper, 1);
  }

  /**
   * A symmetric triangular distribution (JCGM 101, 6.4.5). Standard uncertainty a/sqrt(6) of the
   * half-width a.
   *
   * @param lower limit, finite
   * @param upper limit, above the lower one
   * @return the distribution
   * @throws IllegalArgumentException if a value is out of range
   */
  static Distribution triangular(double lower, double upper) {
    return new Trapezoidal("triangular", lower, upper, 0);
  }

  /**
   * A symmetric trapezoidal distribution (JCGM 101, 6.4.4). Standard uncertainty a sqrt((1 +
   * beta^2)/6) of the half-width a.
   *
   * @param lower limit, finite
   * @param upper limit, above the lower one
   * @param topRatio beta, width of the top over that of the base, 0 (triangular) to 1 (rectangular)
   * @return the distribution
   * @throws IllegalArgumentException if a value is out of range
   */
  static Distribution trapezoidal(double lower, double upper, double topRatio) {
    return new Trapezoidal("trapezoidal", lower, upper, topRatio);
  }

  /**
   * A rectangular distribution whose limits are not exactly known (JCGM 101, 6.4.3): each may be
   * off by d, rectangularly, the middle being fixed. Standard uncertainty sqrt(a^2/3 + d^2/9) of
   * the half-width a.
   *
   * @param lower limit, finite
   * @param upper limit, above the lower one
   * @param inexactness d, above 0 and below the half-width
   * @return the distribution
   * @throws IllegalArgumentException if a value is out of range
   */
  static Distribution curvilinearTrapezoid(double lower, double upper, double inexactness) {
    return new CurvilinearTrapezoid(lower, upper, inexactness);
  }

  /**
   * An arcsine (U-shaped) distribution (JCGM 101, 6.4.6): a sine at an unknown phase. Standard
   * uncertainty a/sqrt(2) of the half-width a.
   *
   * @param lower limit, finite
   * @param upper limit, above the lower one
   * @return the distribution
   * @throws IllegalArgumentException if a value is out of range
   */
  static Distribution arcsine(double lower, double upper) {
    return new Arcsine(lower, upper);
  }

  /**
   * A scaled and shifted t distribution (JCGM 101, 6.4.9). Its standard uncertainty is the scale,
   * with the degrees of freedom; its standard deviation is sqrt(nu/(nu - 2)) times that, and does
   * not exist for nu up to 2.
   *
   * @param estimate where its middle lies, finite
   * @param scale above 0, in the same unit
   * @param degreesOfFreedom nu, 1 to 1e6
   * @return the distribution
   * @throws IllegalArgumentException if a value is out of range
   */
  static Distribution studentT(double estimate, double scale, double degreesOfFreedom) {
    return new StudentT(estimate, scale, degreesOfFreedom);
  }

  /**
   * What n repeated readings say about their mean: a t distribution of n - 1 degrees of freedom
   * about the mean, scaled by s/sqrt(n) (JCGM 100, 4.2; JCGM 101, 6.4.9.2). Of three readings or
   * fewer the standard deviation does not exist: results of trials are intervals only then.
   *
   * @param readings 2 or more, finite, not all the same
   * @return the distribution
   * @throws IllegalArgumentException if there are fewer or a value is out of range
   */
  static Distribution ofReadings(double... readings) {
    return StudentT.of(readings);
  }

  /**
   * An own distribution by its inverse distribution function. Mean and standard deviation are
   * integrals of it over the probability, to about 1e-9 of the standard deviation where the tails
   * are no heavier than those of a t distribution of five degrees of freedom.
   *
   * @param name what it is, not blank
   * @param quantile the inverse distribution function on (0, 1): finite, never falling
   * @return the distribution
   * @throws IllegalArgumentException if the function falls, is not finite, or does not vary
   * @throws NullPointerException if an argument is missing
   */
  static Distribution own(String name, DoubleUnaryOperator quantile) {
    Require.present("name", name);
    Require.that(!name.isBlank(), "name = \"" + name + "\": must not be blank");
    return OwnDistribution.of(name, Require.present("quantile", quantile));
  }
}
