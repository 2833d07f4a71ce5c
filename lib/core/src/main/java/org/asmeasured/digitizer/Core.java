package org.asmeasured.digitizer;

import org.asmeasured.internal.Quantity;
import org.asmeasured.internal.Require;
import org.asmeasured.linear.Response;

/**
 * One of the converters that take samples in turn, by what sets it apart from the others.
 *
 * <p>With M cores of gains g<sub>m</sub>, skews d<sub>m</sub> and offsets o<sub>m</sub>, a sine of
 * amplitude A and frequency f gets lines at f + k f<sub>s</sub>/M, folded, of amplitude A
 * |G<sub>k</sub>|, where
 *
 * <pre>G_k = (1/M) sum over m of g_m H_m(f) exp(j 2 pi f d_m) exp(-j 2 pi k m/M),</pre>
 *
 * and there are lines at k f<sub>s</sub>/M, whatever the signal, of amplitude 2 |O<sub>k</sub>|
 * with O<sub>k</sub> = (1/M) sum of o<sub>m</sub> exp(-j 2 pi k m/M); |O<sub>k</sub>| at k = 0 and
 * M/2 (Y. C. Jenq, IEEE Trans. IM 37 (1988) 245; N. Kurosawa et al., IEEE Trans. CAS-I 48 (2001)
 * 261; both cited from memory). For two cores a gain mismatch of +/- e/2 makes an image of e/2 at
 * f<sub>s</sub>/2 - f, a skew of +/- D/2 one of sin(pi f D).
 *
 * @param gainError gain - 1 about the middle of the range, -0.5 to 0.5
 * @param offsetError fraction of full scale, -0.5 to 0.5; positive reads too high
 * @param skewSeconds -1 to 1 s; positive = sampled later
 * @param response the core's own bandwidth, a factor of the chain's response
 */
public record Core(double gainError, double offsetError, double skewSeconds, Response response) {
  private static final Core IDEAL = new Core(0, 0, 0, Response.identity());

  /**
   * Checks the values.
   *
   * @param gainError gain - 1, -0.5 to 0.5
   * @param offsetError fraction of full scale, -0.5 to 0.5
   * @param skewSeconds -1 to 1 s
   * @param response the core's own bandwidth
   * @throws IllegalArgumentException if a value is out of range
   * @throws NullPointerException if the response is missing
   */
  public Core {
    Require.inRange("gainError", gainError, "", -0.5, 0.5);
    Require.inRange("offsetError", offsetError, "", -0.5, 0.5);
    Require.inRange("skewSeconds", skewSeconds, "s", -1, 1);
    Require.present("response", response);
  }

  /**
   * A core without errors.
   *
   * @return the core
   */
  public static Core ideal() {
    return IDEAL;
  }

  /**
   * With another gain error.
   *
   * @param value gain - 1, -0.5 to 0.5
   * @return the core
   * @throws IllegalArgumentException if it is out of range
   */
  public Core withGainError(double value) {
    return new Core(value, offsetError, skewSeconds, response);
  }

  /**
   * With another offset error.
   *
   * @param value fraction of full scale, -0.5 to 0.5
   * @return the core
   * @throws IllegalArgumentException if it is out of range
   */
  public Core withOffsetError(double value) {
    return new Core(gainError, value, skewSeconds, response);
  }

  /**
   * With another skew.
   *
   * @param seconds -1 to 1 s; positive = sampled later
   * @return the core
   * @throws IllegalArgumentException if it is out of range
   */
  public Core withSkew(double seconds) {
    return new Core(gainError, offsetError, seconds, response);
  }

  /**
   * With another response.
   *
   * @param value the core's own bandwidth
   * @return the core
   * @throws NullPointerException if it is missing
   */
  public Core withResponse(Response value) {
    return new Core(gainError, offsetError, skewSeconds, value);
  }

  /**
   * Whether the core has no errors.
   *
   * @return true if it changes nothing
   */
  public boolean isIdeal() {
    return gainError == 0 && offsetError == 0 && skewSeconds == 0 && response.isIdentity();
  }

  @Override
  public String toString() {
    if (isIdeal()) {
      return "core without errors";
    }
    StringBuilder words = new StringBuilder("core with");
    String separator = " ";
    if (gainError != 0) {
      words.append(separator).append("gain error ").append(gainError);
      separator = ", ";
    }
    if (offsetError != 0) {
      words.append(separator).append("offset ").append(offsetError).append(" of full scale");
      separator = ", ";
    }
    if (skewSeconds != 0) {
      words.append(separator).append("skew ").append(Quantity.of(skewSeconds, "s"));
      separator = ", ";
    }
    if (!response.isIdentity()) {
      words.append(separator).append(response);
    }
    return words.toString();
  }
}
