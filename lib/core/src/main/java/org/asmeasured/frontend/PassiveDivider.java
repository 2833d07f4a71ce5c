package org.asmeasured.frontend;

import java.util.Optional;
import org.asmeasured.internal.Quantity;
import org.asmeasured.internal.Require;
import org.asmeasured.linear.Network;
import org.asmeasured.linear.Response;

/**
 * A passive divider: R<sub>1</sub> || C<sub>1</sub> over the input's own resistance R<sub>2</sub>
 * with C<sub>2</sub>, the capacitance of the input and the cable, across it.
 *
 * <p>Behind an ideal source H(s) = k<sub>0</sub> (1 + s R<sub>1</sub> C<sub>1</sub>)/(1 + s tau),
 * k<sub>0</sub> = R<sub>2</sub>/(R<sub>1</sub> + R<sub>2</sub>), tau =
 * (R<sub>1</sub>||R<sub>2</sub>) (C<sub>1</sub> + C<sub>2</sub>): a step goes from
 * C<sub>1</sub>/(C<sub>1</sub> + C<sub>2</sub>) to k<sub>0</sub>, and is flat when R<sub>1</sub>
 * C<sub>1</sub> = R<sub>2</sub> C<sub>2</sub> (J. Millman, H. Taub, Pulse, Digital and Switching
 * Waveforms, 1965, attenuators; from memory). A trimmer error e stands for C<sub>1</sub> = (1 + e)
 * R<sub>2</sub> C<sub>2</sub>/R<sub>1</sub>; with the ratio n a step then starts (1 + e)/(1 + e/n)
 * - 1 off, not e.
 *
 * <p>R<sub>1</sub> = (n - 1) times the resistance of the input that the divider is made for. It is
 * trimmed on the input in use, unless {@link #withTrimmedAt} says on which other one it was. The
 * inner conductor is taken as without loss, and the cable as its capacitance: no reflections.
 *
 * @param attenuation n, 1.001 to 1e5
 * @param madeForOhms resistance of the input that it is made for, 1 to 1e9 ohm
 * @param cableFarads capacitance of the cable, 0 or 1e-18 to 1e-6 F
 * @param trimmerError e, as a fraction of C<sub>1</sub>, -0.99 to 10
 * @param trimmedAt the input that it was trimmed at; empty for the one in use
 * @param bandwidth the probe's own, behind its network
 * @param groundLead what closes its circuit
 * @param rating the highest voltage at its tip
 */
public record PassiveDivider(
    double attenuation,
    double madeForOhms,
    double cableFarads,
    double trimmerError,
    Optional<Termination> trimmedAt,
    Bandwidth bandwidth,
    GroundLead groundLead,
    InputRating rating)
    implements Probe {
  private static final double USUAL_INPUT_OHMS = 1e6;
  private static final double USUAL_CABLE_FARADS = 85e-12;

  /**
   * Checks the values.
   *
   * @param attenuation n, 1.001 to 1e5
   * @param madeForOhms resistance of the input that it is made for, 1 to 1e9 ohm
   * @param cableFarads capacitance of the cable, 0 or 1e-18 to 1e-6 F
   * @param trimmerError e, as a fraction of C<sub>1</sub>, -0.99 to 10
   * @param trimmedAt the input that it was trimmed at; empty for the one in use
   * @param bandwidth the probe's own, behind its network
   * @param groundLead what closes its circuit
   * @param rating the highest voltage at its tip
   * @throws IllegalArgumentException if one is out of range
   * @throws NullPointerException if a value is missing
   */
  public PassiveDivider {
    Require.inRange("attenuation", attenuation, "", 1.001, 1e5);
    Require.inRange("madeForOhms", madeForOhms, "ohm", 1, 1e9);
    if (cableFarads != 0) {
      Require.inRange("cableFarads", cableFarads, "F", 1e-18, 1e-6);
    }
    Require.inRange("trimmerError", trimmerError, "", -0.99, 10);
    Require.present("trimmedAt", trimmedAt);
    Require.present("bandwidth", bandwidth);
    Require.present("groundLead", groundLead);
    Require.present("rating", rating);
  }

  /**
   * A divider by ten for an input of 1 Mohm: 9 Mohm, a cable of 85 pF, trimmed without error,
   * nothing else limiting (generic, invented values). With 15 pF at the input it shows 10 Mohm in
   * parallel with 10 pF.
   *
   * @return the probe
   */
  public static PassiveDivider times10() {
    return times(10);
  }

  /**
   * A divider for an input of 1 Mohm with a cable of 85 pF (invented), trimmed without error.
   *
   * @param attenuation n, 1.001 to 1e5
   * @return the probe
   * @throws IllegalArgumentException if the value is out of range
   */
  public static PassiveDivider times(double attenuation) {
    return new PassiveDivider(
        attenuation,
        USUAL_INPUT_OHMS,
        USUAL_CABLE_FARADS,
        0,
        Optional.empty(),
        Bandwidth.unlimited(),
        GroundLead.none(),
        InputRating.unstated());
  }

  /**
   * The resistance of the tip, R<sub>1</sub>.
   *
   * @return ohm
   */
  public double seriesOhms() {
    return (attenuation - 1) * madeForOhms;
  }

  /**
   * The trimmed capacitance of the tip, C<sub>1</sub> = (1 + e) R<sub>2</sub>
   * C<sub>2</sub>/R<sub>1</sub>.
   *
   * @param input the input that it is attached to
   * @return F; 0 if neither the cable nor the input it was trimmed at has a capacitance
   * @throws NullPointerException if the input is missing
   */
  public double seriesFarads(Termination input) {
    Termination at = trimmedAt.orElse(Require.present("input", input));
    return (1 + trimmerError) * (at.ohms() / seriesOhms()) * (at.farads() + cableFarads);
  }

  @Override
  public String name() {
    return "probe";
  }

  @Override
  public Network network(Termination input) {
    Network network = Network.empty().resistor(TIP, INPUT, seriesOhms());
    double seriesFarads = seriesFarads(input);
    if (seriesFarads > 0) {
      network = network.capacitor(TIP, INPUT, seriesFarads);
    }
    return cableFarads == 0 ? network : network.capacitor(INPUT, Network.GROUND, cableFarads);
  }

  @Override
  public Termination madeFor(Termination input) {
    double farads = trimmedAt.orElse(Require.present("input", input)).farads();
    return new Termination(madeForOhms, farads);
  }

  /**
   * The same probe with another error of the trimmer.
   *
   * @param fraction e, -0.99 to 10
   * @return the probe
   * @throws IllegalArgumentException if the value is out of range
   */
  public PassiveDivider withTrimmerError(double fraction) {
    return new PassiveDivider(
        attenuation, madeForOhms, cableFarads, fraction, trimmedAt, bandwidth, groundLead, rating);
  }

  /**
   * The same probe with another resistance of the tip: its nominal attenuation stays, and with the
   * input that it was made for it is off by it. It stays trimmed.
   *
   * @param ohms R<sub>1</sub>, n - 1 to 1e9 (n - 1) ohm
   * @return the probe
   * @throws IllegalArgumentException if the value is out of range
   */
  public PassiveDivider withSeriesOhms(double ohms) {
    double ratio = attenuation - 1;
    Require.inRange("seriesOhms", ohms, "ohm", ratio, ratio * 1e9);
    return new PassiveDivider(
        attenuation,
        ohms / ratio,
        cableFarads,
        trimmerError,
        trimmedAt,
        bandwidth,
        groundLead,
        rating);
  }

  /**
   * The same probe, trimmed at another input than the one that it is used with.
   *
   * @param input where it was trimmed
   * @return the probe
   * @throws NullPointerException if the input is missing
   */
  public PassiveDivider withTrimmedAt(Termination input) {
    return new PassiveDivider(
        attenuation,
        madeForOhms,
        cableFarads,
        trimmerError,
        Optional.of(Require.present("input", input)),
        bandwidth,
        groundLead,
        rating);
  }

  /**
   * The same probe with another cable.
   *
   * @param farads capacitance, 0 or 1e-18 to 1e-6 F
   * @return the probe
   * @throws IllegalArgumentException if the value is out of range
   */
  public PassiveDivider withCable(double farads) {
    return new PassiveDivider(
        attenuation, madeForOhms, farads, trimmerError, trimmedAt, bandwidth, groundLead, rating);
  }

  /**
   * The same probe with another bandwidth of its own.
   *
   * @param value the bandwidth of its own
   * @return the probe
   * @throws NullPointerException if it is missing
   */
  public PassiveDivider withBandwidth(Bandwidth value) {
    return new PassiveDivider(
        attenuation, madeForOhms, cableFarads, trimmerError, trimmedAt, value, groundLead, rating);
  }

  /**
   * The same probe with another ground lead.
   *
   * @param value the ground lead
   * @return the probe
   * @throws NullPointerException if it is missing
   */
  public PassiveDivider withGroundLead(GroundLead value) {
    return new PassiveDivider(
        attenuation, madeForOhms, cableFarads, trimmerError, trimmedAt, bandwidth, value, rating);
  }

  /**
   * The same probe with another rating.
   *
   * @param value the rating
   * @return the probe
   * @throws NullPointerException if it is missing
   */
  public PassiveDivider withRating(InputRating value) {
    return new PassiveDivider(
        attenuation,
        madeForOhms,
        cableFarads,
        trimmerError,
        trimmedAt,
        bandwidth,
        groundLead,
        value);
  }

  @Override
  public Response response() {
    return bandwidth.response();
  }

  @Override
  public String toString() {
    StringBuilder words =
        new StringBuilder("passive divider x").append(ProbeWords.number(attenuation));
    words.append(", ").append(Quantity.of(seriesOhms(), "ohm"));
    words.append(", cable of ").append(Quantity.of(cableFarads, "F"));
    if (trimmerError != 0) {
      words.append(", trimmer ").append(ProbeWords.percent(trimmerError));
    }
    trimmedAt.ifPresent(input -> words.append(", trimmed at ").append(input));
    return words.append(ProbeWords.of(bandwidth, groundLead)).toString();
  }
}
