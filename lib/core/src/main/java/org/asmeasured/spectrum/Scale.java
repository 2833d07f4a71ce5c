package org.asmeasured.spectrum;

/**
 * What the values of a spectrum mean. The first three read a line right and scatter noise by the
 * width of a bin; the last reads noise right and a line by how wide its bin is.
 */
public enum Scale {
  /**
   * The amplitude of a cosine, in volts: half of its peak to peak. At zero frequency the modulus of
   * the mean, and at half the rate the modulus of what alternates from point to point. On two sides
   * the modulus of the complex exponential, half of a cosine's amplitude.
   */
  PEAK("V"),

  /** The root of the mean square of a line, in volts. */
  RMS("V"),

  /** The mean square of a line, in V<sup>2</sup>: its power in one ohm. */
  MEAN_SQUARE("V^2"),

  /**
   * The power density, in V<sup>2</sup>/Hz: mean square divided by the noise bandwidth of a bin.
   * Summed over all bins and multiplied by their distance, it is the (weighted) mean square of the
   * values: Parseval's theorem.
   */
  DENSITY("V^2/Hz");

  private final String unit;

  Scale(String unit) {
    this.unit = unit;
  }

  /**
   * The unit of the values.
   *
   * @return V, V^2 or V^2/Hz
   */
  public String unit() {
    return unit;
  }
}
