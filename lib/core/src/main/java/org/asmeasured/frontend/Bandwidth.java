package org.asmeasured.frontend;

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
      new Bandwidth(NAME, "unlimited bandwidth", Response.identity());

  private final String name;
  private final String words;
  private final Response response;

  private Bandwidth(String name, String words, Response response) {
    this.name = name;
    this.words = words;
    this.response = response;
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
    return of("single pole" + at(bandwidthHz), Response.singlePole(bandwidthHz));
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
    return of(
        "Butterworth of order " + order + at(bandwidthHz),
        Response.butterworth(order, bandwidthHz));
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
    return of("Bessel of order " + order + at(bandwidthHz), Response.bessel(order, bandwidthHz));
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
    return of(
        "Gaussian of order " + order + at(bandwidthHz), Response.gaussian(order, bandwidthHz));
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
    return new Bandwidth(NAME, words, Require.present("response", response));
  }

  /** The same low-pass under the name of the limit. */
  Bandwidth asLimit() {
    return new Bandwidth("bandwidth limit", "limit: " + words, response);
  }

  private static String at(double bandwidthHz) {
    return ", -3 dB at " + Quantity.of(bandwidthHz, "Hz");
  }

  @Override
  public String name() {
    return name;
  }

  @Override
  public Response response() {
    return response;
  }

  @Override
  public String toString() {
    return words;
  }
}
