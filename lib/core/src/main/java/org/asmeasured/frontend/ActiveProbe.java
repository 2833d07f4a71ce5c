package org.asmeasured.frontend;

import java.util.OptionalDouble;
import org.asmeasured.internal.Quantity;
import org.asmeasured.internal.Require;
import org.asmeasured.linear.Network;
import org.asmeasured.linear.Response;

/**
 * A probe with an amplifier: it loads the circuit with a resistance and a capacitance across it,
 * and drives the instrument from its output resistance.
 *
 * <p>What the instrument does is not felt at the tip. The gain is right at the input that the probe
 * is made for: with an output resistance R<sub>o</sub> and that input's R<sub>m</sub>, an input of
 * R makes the reading R (R<sub>o</sub> + R<sub>m</sub>)/((R<sub>o</sub> + R) R<sub>m</sub>) of the
 * truth. Any rational response can be its bandwidth: {@link Bandwidth#of}. It does not saturate.
 *
 * @param inputOhms resistance at the tip, 1 to 1e15 ohm
 * @param inputFarads capacitance at the tip, 0 or 1e-18 to 1e-6 F
 * @param attenuation nominal, 1e-6 to 1e6
 * @param output resistance of the output in ohm, 0 to 1e6, and the input that it is made for
 * @param bandwidth the probe's own, behind its network
 * @param groundLead what closes its circuit
 * @param rating the highest voltage at its tip
 */
public record ActiveProbe(
    double inputOhms,
    double inputFarads,
    double attenuation,
    Output output,
    Bandwidth bandwidth,
    GroundLead groundLead,
    InputRating rating)
    implements Probe {
  private static final double USUAL_OHMS = 50;

  /**
   * How the amplifier drives the input.
   *
   * @param ohms resistance, 0 to 1e6 ohm
   * @param madeForOhms resistance of the input at which the gain is right, 0.001 to 1e12 ohm
   */
  public record Output(double ohms, double madeForOhms) {
    /**
     * Checks the two values.
     *
     * @param ohms resistance, 0 to 1e6 ohm
     * @param madeForOhms resistance of the input at which the gain is right, 0.001 to 1e12 ohm
     * @throws IllegalArgumentException if either is out of range
     */
    public Output {
      Require.inRange("outputOhms", ohms, "ohm", 0, 1e6);
      Require.inRange("madeForOhms", madeForOhms, "ohm", 1e-3, 1e12);
    }
  }

  /**
   * Checks the values.
   *
   * @param inputOhms resistance at the tip, 1 to 1e15 ohm
   * @param inputFarads capacitance at the tip, 0 or 1e-18 to 1e-6 F
   * @param attenuation nominal, 1e-6 to 1e6
   * @param output resistance of the output in ohm, 0 to 1e6, and the input that it is made for
   * @param bandwidth the probe's own, behind its network
   * @param groundLead what closes its circuit
   * @param rating the highest voltage at its tip
   * @throws IllegalArgumentException if one is out of range
   * @throws NullPointerException if a value is missing
   */
  public ActiveProbe {
    Require.inRange("inputOhms", inputOhms, "ohm", 1, 1e15);
    if (inputFarads != 0) {
      Require.inRange("inputFarads", inputFarads, "F", 1e-18, 1e-6);
    }
    Require.inRange("attenuation", attenuation, "", 1e-6, 1e6);
    Require.present("output", output);
    Require.present("bandwidth", bandwidth);
    Require.present("groundLead", groundLead);
    Require.present("rating", rating);
  }

  /**
   * A probe whose output no input changes.
   *
   * @param inputOhms resistance at the tip, 1 to 1e15 ohm
   * @param inputFarads capacitance at the tip, 0 or 1e-18 to 1e-6 F
   * @param bandwidth the probe's own
   * @return the probe, without attenuation
   * @throws IllegalArgumentException if one is out of range
   * @throws NullPointerException if the bandwidth is missing
   */
  public static ActiveProbe of(double inputOhms, double inputFarads, Bandwidth bandwidth) {
    return new ActiveProbe(
        inputOhms,
        inputFarads,
        1,
        new Output(0, USUAL_OHMS),
        bandwidth,
        GroundLead.none(),
        InputRating.unstated());
  }

  @Override
  public String name() {
    return "probe";
  }

  @Override
  public Network network(Termination input) {
    Network network = Network.empty().resistor(TIP, Network.GROUND, inputOhms);
    return inputFarads == 0 ? network : network.capacitor(TIP, Network.GROUND, inputFarads);
  }

  @Override
  public OptionalDouble outputOhms() {
    return OptionalDouble.of(output.ohms);
  }

  @Override
  public Termination madeFor(Termination input) {
    return output.ohms == 0
        ? Require.present("input", input)
        : new Termination(output.madeForOhms, 0);
  }

  /**
   * The same probe with another attenuation.
   *
   * @param value nominal, 1e-6 to 1e6
   * @return the probe
   * @throws IllegalArgumentException if the value is out of range
   */
  public ActiveProbe withAttenuation(double value) {
    return new ActiveProbe(inputOhms, inputFarads, value, output, bandwidth, groundLead, rating);
  }

  /**
   * The same probe with an output of 50 ohm, whose gain is right into 50 ohm; into a high
   * resistance it reads twice the truth.
   *
   * @return the probe
   */
  public ActiveProbe drivingFiftyOhm() {
    return new ActiveProbe(
        inputOhms,
        inputFarads,
        attenuation,
        new Output(USUAL_OHMS, USUAL_OHMS),
        bandwidth,
        groundLead,
        rating);
  }

  /**
   * The same probe with another bandwidth of its own.
   *
   * @param value the bandwidth of its own
   * @return the probe
   * @throws NullPointerException if it is missing
   */
  public ActiveProbe withBandwidth(Bandwidth value) {
    return new ActiveProbe(inputOhms, inputFarads, attenuation, output, value, groundLead, rating);
  }

  /**
   * The same probe with another ground lead.
   *
   * @param value the ground lead
   * @return the probe
   * @throws NullPointerException if it is missing
   */
  public ActiveProbe withGroundLead(GroundLead value) {
    return new ActiveProbe(inputOhms, inputFarads, attenuation, output, bandwidth, value, rating);
  }

  /**
   * The same probe with another rating.
   *
   * @param value the rating
   * @return the probe
   * @throws NullPointerException if it is missing
   */
  public ActiveProbe withRating(InputRating value) {
    return new ActiveProbe(
        inputOhms, inputFarads, attenuation, output, bandwidth, groundLead, value);
  }

  @Override
  public Response response() {
    return bandwidth.response();
  }

  @Override
  public String toString() {
    String words =
        "active probe x"
            + ProbeWords.number(attenuation)
            + ", "
            + Quantity.of(inputOhms, "ohm")
            + (inputFarads == 0 ? "" : " in parallel with " + Quantity.of(inputFarads, "F"))
            + (output.ohms == 0 ? "" : ", output of " + Quantity.of(output.ohms, "ohm"));
    return words + ProbeWords.of(bandwidth, groundLead);
  }
}
