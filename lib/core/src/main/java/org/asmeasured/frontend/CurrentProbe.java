package org.asmeasured.frontend;

import java.util.OptionalDouble;
import org.asmeasured.internal.Quantity;
import org.asmeasured.internal.Require;
import org.asmeasured.linear.Network;
import org.asmeasured.linear.Response;

/**
 * A probe that gives so many volts for an ampere: a clamp about a conductor, or a shunt with its
 * amplifier. Generic.
 *
 * <p>The signal is the current in the conductor, in amperes where a signal says volts, of a source
 * without resistance: what the probe adds to the circuit is not modelled. The record is referred to
 * the conductor, so its volts are amperes, and so is a vertical scale; the product with a voltage
 * channel is watts. At the connector there are {@link #voltsPerAmpere} for each of them, which is
 * what the input's rating limits. The gain is right into any input; a low corner, as a transformer
 * has, is an own response: {@link Bandwidth#of}.
 *
 * @param voltsPerAmpere 1e-6 to 1e6 V/A
 * @param bandwidth the probe's own
 * @param rating the highest current, as volts of a tip
 */
public record CurrentProbe(double voltsPerAmpere, Bandwidth bandwidth, InputRating rating)
    implements Probe {

  /**
   * Checks the values.
   *
   * @param voltsPerAmpere 1e-6 to 1e6 V/A
   * @param bandwidth the probe's own
   * @param rating the highest current, as volts of a tip
   * @throws IllegalArgumentException if the scaling is out of range
   * @throws NullPointerException if a value is missing
   */
  public CurrentProbe {
    Require.inRange("voltsPerAmpere", voltsPerAmpere, "V/A", 1e-6, 1e6);
    Require.present("bandwidth", bandwidth);
    Require.present("rating", rating);
  }

  /**
   * A probe that nothing else limits.
   *
   * @param voltsPerAmpere 1e-6 to 1e6 V/A
   * @return the probe
   * @throws IllegalArgumentException if the scaling is out of range
   */
  public static CurrentProbe of(double voltsPerAmpere) {
    return new CurrentProbe(voltsPerAmpere, Bandwidth.unlimited(), InputRating.unstated());
  }

  /**
   * The same probe with another bandwidth of its own.
   *
   * @param value the bandwidth
   * @return the probe
   * @throws NullPointerException if it is missing
   */
  public CurrentProbe withBandwidth(Bandwidth value) {
    return new CurrentProbe(voltsPerAmpere, value, rating);
  }

  @Override
  public String name() {
    return "current probe";
  }

  @Override
  public double attenuation() {
    return 1 / voltsPerAmpere;
  }

  @Override
  public Network network(Termination input) {
    return Network.empty();
  }

  @Override
  public OptionalDouble outputOhms() {
    return OptionalDouble.of(0);
  }

  @Override
  public Response response() {
    return bandwidth.response();
  }

  @Override
  public String toString() {
    return "current probe, "
        + Quantity.of(voltsPerAmpere, "V/A")
        + (bandwidth.isIdeal() ? "" : ", " + bandwidth);
  }
}
