package org.asmeasured.frontend;

import java.util.Objects;
import java.util.OptionalDouble;
import java.util.function.DoubleFunction;
import java.util.function.Supplier;
import org.asmeasured.internal.Quantity;
import org.asmeasured.internal.Require;
import org.asmeasured.linear.Response;

/**
 * A low-pass by its shape and its half-power frequency (-3.0103 dB): the bandwidth of the analog
 * path, or a limit switched into it.
 *
 * <p>As a stage by itself it is called "bandwidth"; a {@link FrontEnd} calls its second one
 * "bandwidth limit".
 */
public final class Bandwidth implements AnalogStage {
  private static final String NAME = "bandwidth";
  private static final Bandwidth UNLIMITED =
      new Bandwidth(NAME, () -> "unlimited bandwidth", Response.identity(), Double.NaN, null);

  private final String name;

  /** Put together only if someone asks. */
  private final Supplier<String> words;

  private final Response response;

  /** Half-power frequency, and the same shape at another one; NaN and null where none is stated. */
  private final double hertz;

  private final DoubleFunction<Bandwidth> shape;

  private Bandwidth(
      String name,
      Supplier<String> words,
      Response response,
      double hertz,
      DoubleFunction<Bandwidth> shape) {
    this.name = name;
    this.words = words;
    this.response = response;
    this.hertz = hertz;
    this.shape = shape;
  }

  /**
   * No limit: ideal.
   *
   * @return the bandwidth
   */
  public static Bandwidth unlimited() {
    return UNLIMITED;
  }

  /**
   * One real pole; 10-90 % rise time 0.3497/bandwidth.
   *
   * @param bandwidthHz half-power frequency, 1e-9 to 1e15 Hz
   * @return the bandwidth
   * @throws IllegalArgumentException if the frequency is out of range
   */
  public static Bandwidth singlePole(double bandwidthHz) {
    return shaped(
        () -> "single pole", Response.singlePole(bandwidthHz), bandwidthHz, Bandwidth::singlePole);
  }

  /**
   * Maximally flat magnitude (S. Butterworth, 1930).
   *
   * @param order number of poles, 1 to 10
   * @param bandwidthHz half-power frequency, 1e-9 to 1e15 Hz
   * @return the bandwidth
   * @throws IllegalArgumentException if either is out of range
   */
  public static Bandwidth butterworth(int order, double bandwidthHz) {
    return shaped(
        () -> "Butterworth of order " + order,
        Response.butterworth(order, bandwidthHz),
        bandwidthHz,
        value -> butterworth(order, value));
  }

  /**
   * Maximally flat delay (W. E. Thomson, 1949), normalised to half power at the stated frequency.
   *
   * @param order number of poles, 1 to 10
   * @param bandwidthHz half-power frequency, 1e-9 to 1e15 Hz
   * @return the bandwidth
   * @throws IllegalArgumentException if either is out of range
   */
  public static Bandwidth bessel(int order, double bandwidthHz) {
    return shaped(
        () -> "Bessel of order " + order,
        Response.bessel(order, bandwidthHz),
        bandwidthHz,
        value -> bessel(order, value));
  }

  /**
   * All-pole approximation of a Gaussian magnitude, normalised to half power at the stated
   * frequency.
   *
   * @param order number of poles, 1 to 10
   * @param bandwidthHz half-power frequency, 1e-9 to 1e15 Hz
   * @return the bandwidth
   * @throws IllegalArgumentException if either is out of range
   */
  public static Bandwidth gaussian(int order, double bandwidthHz) {
    return shaped(
        () -> "Gaussian of order " + order,
        Response.gaussian(order, bandwidthHz),
        bandwidthHz,
        value -> gaussian(order, value));
  }

  /**
   * Any other shape.
   *
   * @param words how a person would say it, not blank
   * @param response the shape
   * @return the bandwidth
   * @throws IllegalArgumentException if the words are blank
   * @throws NullPointerException if either is missing
   */
  public static Bandwidth of(String words, Response response) {
    Require.present("words", words);
    Require.that(!words.isBlank(), "words = \"" + words + "\": must not be blank");
    return new Bandwidth(
        NAME, () -> words, Require.present("response", response), Double.NaN, null);
  }

  private static Bandwidth shaped(
      Supplier<String> words,
      Response response,
      double bandwidthHz,
      DoubleFunction<Bandwidth> shape) {
    return new Bandwidth(
        NAME,
        () -> words.get() + ", -3 dB at " + Quantity.of(bandwidthHz, "Hz"),
        response,
        bandwidthHz,
        shape);
  }

  /** The same low-pass under the name of the limit. */
  Bandwidth asLimit() {
    return new Bandwidth("bandwidth limit", () -> "limit: " + words.get(), response, hertz, shape);
  }

  /**
   * The half-power frequency.
   *
   * @return in Hz; empty where it is not stated: unlimited, or a shape of the user's own
   */
  public OptionalDouble bandwidthHz() {
    return shape == null ? OptionalDouble.empty() : OptionalDouble.of(hertz);
  }

  /**
   * The same shape at another half-power frequency.
   *
   * @param value 1e-9 to 1e15 Hz
   * @return the bandwidth
   * @throws IllegalArgumentException if the value is out of range
   * @throws IllegalStateException if no half-power frequency is stated
   */
  public Bandwidth withBandwidthHz(double value) {
    if (shape == null) {
      throw new IllegalStateException(words.get() + ": has no stated half-power frequency");
    }
    return shape.apply(value);
  }

  @Override
  public String name() {
    return name;
  }

  @Override
  public Response response() {
    return response;
  }

  /** Equal if shape and frequency are; a shape of the user's own is equal to itself alone. */
  @Override
  public boolean equals(Object other) {
    return other instanceof Bandwidth that
        && name.equals(that.name)
        && toString().equals(that.toString())
        && (response == that.response
            || shape != null && that.shape != null && hertz == that.hertz);
  }

  @Override
  public int hashCode() {
    return Objects.hash(name, toString());
  }

  @Override
  public String toString() {
    return words.get();
  }
}
