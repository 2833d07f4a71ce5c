package org.asmeasured.frontend;

import org.asmeasured.internal.Require;
import org.asmeasured.linear.Network;
import org.asmeasured.linear.Response;

/**
 * A passive probe made of any network of resistors, inductors and capacitors.
 *
 * @param words how a person would say it, not blank
 * @param parts elements between {@link Probe#TIP}, {@link Probe#INPUT}, ground and nodes of any
 *     other name
 * @param attenuation nominal, 1e-6 to 1e6
 * @param bandwidth the probe's own, behind its network
 * @param groundLead what closes its circuit
 * @param rating the highest voltage at its tip
 */
public record NetworkProbe(
    String words,
    Network parts,
    double attenuation,
    Bandwidth bandwidth,
    GroundLead groundLead,
    InputRating rating)
    implements Probe {

  /**
   * Checks the values.
   *
   * @param words how a person would say it, not blank
   * @param parts elements between {@link Probe#TIP}, {@link Probe#INPUT}, ground and nodes of any
   *     other name
   * @param attenuation nominal, 1e-6 to 1e6
   * @param bandwidth the probe's own, behind its network
   * @param groundLead what closes its circuit
   * @param rating the highest voltage at its tip
   * @throws IllegalArgumentException if the words are blank, a node is missing or the attenuation
   *     is out of range
   * @throws NullPointerException if a value is missing
   */
  public NetworkProbe {
    Require.present("words", words);
    Require.that(!words.isBlank(), "words = \"" + words + "\": must not be blank");
    Require.present("parts", parts);
    Require.that(
        parts.nodes().contains(TIP) && parts.nodes().contains(INPUT),
        "parts: must have the nodes \"" + TIP + "\" and \"" + INPUT + "\", has " + parts.nodes());
    Require.inRange("attenuation", attenuation, "", 1e-6, 1e6);
    Require.present("bandwidth", bandwidth);
    Require.present("groundLead", groundLead);
    Require.present("rating", rating);
  }

  /**
   * A probe that nothing else limits.
   *
   * @param words how a person would say it, not blank
   * @param parts elements between {@link Probe#TIP}, {@link Probe#INPUT}, ground and nodes of any
   *     other name
   * @param attenuation nominal, 1e-6 to 1e6
   * @return the probe
   * @throws IllegalArgumentException if the words are blank, a node is missing or the attenuation
   *     is out of range
   * @throws NullPointerException if a value is missing
   */
  public static NetworkProbe of(String words, Network parts, double attenuation) {
    return new NetworkProbe(
        words,
        parts,
        attenuation,
        Bandwidth.unlimited(),
        GroundLead.none(),
        InputRating.unstated());
  }

  @Override
  public String name() {
    return "probe";
  }

  @Override
  public Network network(Termination input) {
    return parts;
  }

  /**
   * The same probe with another bandwidth of its own.
   *
   * @param value the bandwidth of its own
   * @return the probe
   * @throws NullPointerException if it is missing
   */
  public NetworkProbe withBandwidth(Bandwidth value) {
    return new NetworkProbe(words, parts, attenuation, value, groundLead, rating);
  }

  /**
   * The same probe with another ground lead.
   *
   * @param value the ground lead
   * @return the probe
   * @throws NullPointerException if it is missing
   */
  public NetworkProbe withGroundLead(GroundLead value) {
    return new NetworkProbe(words, parts, attenuation, bandwidth, value, rating);
  }

  /**
   * The same probe with another rating.
   *
   * @param value the rating
   * @return the probe
   * @throws NullPointerException if it is missing
   */
  public NetworkProbe withRating(InputRating value) {
    return new NetworkProbe(words, parts, attenuation, bandwidth, groundLead, value);
  }

  @Override
  public Response response() {
    return bandwidth.response();
  }

  @Override
  public String toString() {
    return words + ProbeWords.of(bandwidth, groundLead);
  }
}
