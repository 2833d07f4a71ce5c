package org.asmeasured.linear;

import org.asmeasured.internal.Quantity;
import org.asmeasured.internal.Require;

/**
 * White noise behind a response, seen at uniform instants: continuous noise, sampled exactly.
 *
 * <p><b>The process.</b> Noise of a one-sided density of {@code e} V/sqrt(Hz), flat to any
 * frequency, goes through {@code H}. At instants {@code h = 1/rate} apart it is a stationary normal
 * process of the autocovariance {@code R(k) = e^2/2 integral h(t) h(t + k h) dt}, where h(t) is the
 * impulse response; so {@code R(0) = e^2 integral |H|^2 df}, which is e^2 times the equivalent
 * noise bandwidth times the square of the greatest gain. R is computed in closed form from the
 * poles, the integral of the state's products solving a Lyapunov equation; what lies beyond half
 * the rate is folded, as a sampler folds it.
 *
 * <p><b>What a sampler makes.</b> A filter of white values, one for each sample, whose
 * autocovariance is R to the stated tolerance: the innovations form of the process, with the states
 * left out that the tolerance does not need. For white values of unit variance it holds that
 *
 * <ul>
 *   <li>its variance is R(0), to rounding;
 *   <li>its autocovariance differs from R by no more than tolerance x R(0) at any lag tried (zero,
 *       one, and two lags for each octave until R has died away);
 *   <li>its spectrum differs from the folded one by no more than 1 % (0.04 dB) plus a tenth of
 *       tolerance x the mean density {@code 2 R(0)/rate}, at twenty frequencies a decade up to half
 *       the rate.
 * </ul>
 *
 * What was attained is measured on the finished filter and reported by {@link #covarianceError()};
 * a response that cannot be sampled so is refused. A white floor of at most 1e-8 R(0) stands in for
 * what double arithmetic cannot tell from nothing: the far skirt of a steep response sampled fast.
 *
 * <p>Two samplers of different keys are independent. Noise between the samples is not modelled: a
 * jittered sampler reads the noise at the even instants.
 *
 * <p>Immutable and safe for use by many threads.
 */
public final class NoiseProcess {
  /** The tolerance where none is given: one part in ten thousand of the variance. */
  public static final double DEFAULT_TOLERANCE = 1e-4;

  private final Response response;
  private final double densityVoltsPerRootHz;
  private final double rateHz;
  private final double tolerance;
  private final double variance;
  private final NoiseShape shape;
  private final NoiseSections sections;

  private NoiseProcess(
      Response response,
      double densityVoltsPerRootHz,
      double rateHz,
      double tolerance,
      NoiseShape shape) {
    this.response = response;
    this.densityVoltsPerRootHz = densityVoltsPerRootHz;
    this.rateHz = rateHz;
    this.tolerance = tolerance;
    this.shape = shape;
    variance = densityVoltsPerRootHz * densityVoltsPerRootHz * shape.energy / 2;
    sections = shape.unit.scaledBy(Math.sqrt(variance));
  }

  /**
   * Noise through a response, at the usual tolerance of 1e-4 of the variance.
   *
   * @param response what the noise goes through; it must fall to zero at high frequencies, with
   *     fewer zeros than poles
   * @param densityVoltsPerRootHz one-sided density of the white noise ahead of it, above 0 and at
   *     most 1e6 V/sqrt(Hz)
   * @param rateHz samples a second, 1e-9 to 1e15 Hz
   * @return the process
   * @throws IllegalArgumentException if a value is out of range, if the response does not fall to
   *     zero, so that the noise would be unbounded, or if its slowest pole is too slow for the rate
   */
  public static NoiseProcess of(Response response, double densityVoltsPerRootHz, double rateHz) {
    return of(response, densityVoltsPerRootHz, rateHz, DEFAULT_TOLERANCE);
  }

  /**
   * Noise through a response.
   *
   * @param response what the noise goes through; it must fall to zero at high frequencies, with
   *     fewer zeros than poles
   * @param densityVoltsPerRootHz one-sided density of the white noise ahead of it, above 0 and at
   *     most 1e6 V/sqrt(Hz)
   * @param rateHz samples a second, 1e-9 to 1e15 Hz
   * @param tolerance of the sampled autocovariance, as a share of the variance, 1e-7 to 0.1
   * @return the process
   * @throws IllegalArgumentException if a value is out of range, if the response does not fall to
   *     zero, so that the noise would be unbounded, or if its slowest pole is too slow for the rate
   */
  public static NoiseProcess of(
      Response response, double densityVoltsPerRootHz, double rateHz, double tolerance) {
    Require.present("response", response);
    Require.above("densityVoltsPerRootHz", densityVoltsPerRootHz, "V/sqrt(Hz)", 0, 1e6);
    Require.hertz("rateHz", rateHz);
    Require.inRange("tolerance", tolerance, "", 1e-7, 0.1);
    Require.that(
        response.zeros().size() < response.poles().size(),
        () ->
            "response ("
                + response
                + "): must fall to zero at high frequencies, or white noise behind it has no bound");
    Require.that(
        response.mantissa() != 0, () -> "response (" + response + "): must let something through");
    return new NoiseProcess(
        response,
        densityVoltsPerRootHz,
        rateHz,
        tolerance,
        NoiseShape.of(response, rateHz, tolerance));
  }

  /**
   * The response that shapes the noise.
   *
   * @return what was given
   */
  public Response response() {
    return response;
  }

  /**
   * The density ahead of the response.
   *
   * @return V/sqrt(Hz), one-sided
   */
  public double densityVoltsPerRootHz() {
    return densityVoltsPerRootHz;
  }

  /**
   * The rate of the samples.
   *
   * @return Hz
   */
  public double rateHz() {
    return rateHz;
  }

  /**
   * The tolerance that a sampler holds.
   *
   * @return a share of the variance
   */
  public double tolerance() {
    return tolerance;
  }

  /**
   * The root mean square of the noise behind the response, exactly: e sqrt(integral of |H|^2 df).
   *
   * @return V
   */
  public double rms() {
    return Math.sqrt(variance);
  }

  /**
   * The exact autocovariance of samples some way apart.
   *
   * @param lag how many samples apart, either way
   * @return V^2
   */
  public double autocovariance(long lag) {
    double t = Math.abs((double) lag) / rateHz;
    double sum = 0;
    Modes modes = response.modes();
    for (Cluster c : modes.clusters) {
      double[][] w = modes.withOutput(c);
      ChainExponential e = new ChainExponential(c.re, c.im, c.scale);
      e.at(t);
      e.apply(w[0], w[1], 0);
      sum += w[0][0];
    }
    return sum * densityVoltsPerRootHz * densityVoltsPerRootHz / 2;
  }

  /**
   * The exact one-sided spectrum of the samples, folded: {@code e^2 sum |H(f + n rate)|^2} over all
   * whole n. Its integral from 0 to half the rate is the variance.
   *
   * @param frequencyHz 0 to half the rate
   * @return V^2/Hz
   * @throws IllegalArgumentException if the frequency is out of range
   */
  public double spectrumAt(double frequencyHz) {
    return 2 * variance / rateHz * shape.exact.spectrum(angle(frequencyHz));
  }

  /**
   * The one-sided spectrum of what a sampler makes, within the tolerance of {@link #spectrumAt}.
   *
   * @param frequencyHz 0 to half the rate
   * @return V^2/Hz
   * @throws IllegalArgumentException if the frequency is out of range
   */
  public double sampledSpectrumAt(double frequencyHz) {
    return 2 / rateHz * sections.spectrum().applyAsDouble(angle(frequencyHz));
  }

  /** The covariance of what a sampler makes. */
  NoiseCovariance sampled() {
    return sections.covariance();
  }

  private double angle(double frequencyHz) {
    Require.inRange("frequencyHz", frequencyHz, "Hz", 0, rateHz / 2);
    return 2 * Math.PI * (frequencyHz / rateHz);
  }

  /**
   * The largest deviation of a sampler's autocovariance from the exact one that was found.
   *
   * @return a share of the variance, at most {@link #tolerance()}
   */
  public double covarianceError() {
    return shape.covarianceError;
  }

  /**
   * How many states a sampler keeps.
   *
   * @return 0 for noise that is white at this rate
   */
  public int states() {
    return sections.states();
  }

  /**
   * A record of this noise, to be read in order.
   *
   * @param key which record: another key, another and independent record
   * @return the sampler, at its first sample; for one thread
   */
  public NoiseSampler sampler(long key) {
    return new NoiseSampler(sections, shape.stateRoot, key);
  }

  @Override
  public String toString() {
    return Quantity.of(rms(), "V")
        + " rms: "
        + Quantity.of(densityVoltsPerRootHz, "V")
        + "/sqrt(Hz) through "
        + response
        + ", at "
        + Quantity.of(rateHz, "Hz")
        + ", "
        + states()
        + (states() == 1 ? " state" : " states");
  }
}
