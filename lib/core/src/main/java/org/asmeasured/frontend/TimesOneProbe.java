package org.asmeasured.frontend;

import org.asmeasured.internal.Quantity;
import org.asmeasured.internal.Require;
import org.asmeasured.linear.Network;
import org.asmeasured.linear.Response;

/**
 * A passive probe that does not divide: a resistance in series, then the capacitance of the cable
 * across the input.
 *
 * <p>It loads the circuit with the whole capacitance of cable and input: with a source of
 * resistance R<sub>s</sub> into a large input resistance f<sub>3dB</sub> = 1/(2 pi (R<sub>s</sub> +
 * R) C) where C is that capacitance. The cable is taken as its capacitance: no reflections.
 *
 * @param seriesOhms resistance in series, 0.001 to 1e9 ohm
 * @param cableFarads capacitance of the cable, 0 or 1e-18 to 1e-6 F
 * @param bandwidth the probe's own, behind its network
 * @param groundLead what closes its circuit
 * @param rating the highest voltage at its tip
 */
public record TimesOneProbe(
    double seriesOhms,
    double cableFarads,
    Bandwidth bandwidth,
    GroundLead groundLead,
    InputRating rating)
    implements Probe {

  /**
   * Checks the values.
   *
   * @param seriesOhms resistance in series, 0.001 to 1e9 ohm
   * @param cableFarads capacitance of the cable, 0 or 1e-18 to 1e-6 F
   * @param bandwidth the probe's own, behind its network
   * @param groundLead what closes its circuit
   * @param rating the highest voltage at its tip
   * @throws IllegalArgumentException if one is out of range
   * @throws NullPointerException if a value is missing
   */
  public TimesOneProbe {
    Require.inRange("seriesOhms", seriesOhms, "ohm", 1e-3, 1e9);
    if (cableFarads != 0) {
      Require.inRange("cableFarads", cableFarads, "F", 1e-18, 1e-6);
    }
    Require.present("bandwidth", bandwidth);
    Require.present("groundLead", groundLead);
    Require.present("rating", rating);
  }

  /**
   * A probe that nothing else limits.
   *
   * @param seriesOhms resistance in series, 0.001 to 1e9 ohm
   * @param cableFarads capacitance of the cable, 0 or 1e-18 to 1e-6 F
   * @return the probe
   * @throws IllegalArgumentException if one is out of range
   */
  public static TimesOneProbe of(double seriesOhms, double cableFarads) {
    return new TimesOneProbe(
        seriesOhms, cableFarads, Bandwidth.unlimited(), GroundLead.none(), InputRating.unstated());
  }

  @Override
  public String name() {
    return "probe";
  }

  @Override
  public double attenuation() {
    return 1;
  }

  @Override
  public Network network(Termination input) {
    Network network = Network.empty().resistor(TIP, INPUT, seriesOhms);
    return cableFarads == 0 ? network : network.capacitor(INPUT, Network.GROUND, cableFarads);
  }

  /**
   * The same probe with another bandwidth of its own.
   *
   * @param value the bandwidth of its own
   * @return the probe
   * @throws NullPointerException if it is missing
   */
  public TimesOneProbe withBandwidth(Bandwidth value) {
    return new TimesOneProbe(seriesOhms, cableFarads, value, groundLead, rating);
  }

  /**
   * The same probe with another ground lead.
   *
   * @param value the ground lead
   * @return the probe
   * @throws NullPointerException if it is missing
   */
  public TimesOneProbe withGroundLead(GroundLead value) {
    return new TimesOneProbe(seriesOhms, cableFarads, bandwidth, value, rating);
  }

  /**
   * The same probe with another rating.
   *
   * @param value the rating
   * @return the probe
   * @throws NullPointerException if it is missing
   */
  public TimesOneProbe withRating(InputRating value) {
    return new TimesOneProbe(seriesOhms, cableFarads, bandwidth, groundLead, value);
  }

  @Override
  public Response response() {
    return bandwidth.response();
  }

  @Override
  public String toString() {
    String words =
        "passive probe x1, "
            + Quantity.of(seriesOhms, "ohm")
            + ", cable of "
            + Quantity.of(cableFarads, "F");
    return words + ProbeWords.of(bandwidth, groundLead);
  }
}
