package org.asmeasured.frontend;

import java.util.OptionalDouble;
import org.asmeasured.linear.Network;
import org.asmeasured.linear.Response;

/**
 * What stands between the circuit under test and the instrument's input. Open: any network of
 * resistors, inductors and capacitors, and any rational response behind it, can be a probe.
 *
 * <p>A probe says what it is made of; {@link Loading} joins it with the source, its ground lead, a
 * coupling capacitor and the termination, and solves the whole. There are two kinds:
 *
 * <ul>
 *   <li>a <em>passive</em> one has elements between {@link #TIP}, {@link #INPUT} and ground, and
 *       what is attached at one end is felt at the other. Without any element it is a direct
 *       connection;
 *   <li>an <em>active</em> one, for which {@link #outputOhms} is given, has elements between {@link
 *       #TIP} and ground alone, which load the source; an amplifier follows the voltage at the tip
 *       and drives the input from its output resistance.
 * </ul>
 *
 * <p>The recorded volts are referred to the tip: they are those at the input times the nominal
 * attenuation. An implementation is immutable, and answers the same at every call.
 *
 * <pre>{@code
 * record Pickoff() implements Probe {
 *   public String name() { return "950 ohm into 50 ohm"; }
 *   public double attenuation() { return 20; }
 *   public Network network(Termination input) {
 *     return Network.empty().resistor(TIP, INPUT, 950);
 *   }
 * }
 * }</pre>
 */
public interface Probe {
  /** The node at the tip of the probe, behind its ground lead. */
  String TIP = "tip";

  /** The node at the instrument's connector. */
  String INPUT = "input";

  /**
   * The probe in a few words, as a table of stages would name it.
   *
   * @return not blank
   */
  String name();

  /**
   * By how much the probe divides, nominally: 10 for a x10 probe.
   *
   * @return 1e-6 to 1e6
   */
  double attenuation();

  /**
   * The elements of the probe, without the input's own and without the ground lead.
   *
   * @param input the termination that it is attached to, and trimmed for if it can be
   * @return elements between {@link #TIP}, {@link #INPUT}, ground and nodes of any other name;
   *     empty for a direct connection
   */
  Network network(Termination input);

  /**
   * What follows the network and does not load it: a bandwidth of the probe's own.
   *
   * @return a response of unit gain at its nominal frequencies; by default the identity
   */
  default Response response() {
    return Response.identity();
  }

  /**
   * The output resistance of a probe with an amplifier.
   *
   * @return 0 to 1e6 ohm; by default empty, for a passive probe
   */
  default OptionalDouble outputOhms() {
    return OptionalDouble.empty();
  }

  /**
   * The input that the probe is made for: with it the nominal attenuation holds.
   *
   * @param input the termination that it is attached to
   * @return by default the same
   */
  default Termination madeFor(Termination input) {
    return input;
  }

  /**
   * The lead that closes the probe's circuit.
   *
   * @return by default none
   */
  default GroundLead groundLead() {
    return GroundLead.none();
  }

  /**
   * The highest voltage at the tip.
   *
   * @return by default unstated
   */
  default InputRating rating() {
    return InputRating.unstated();
  }

  /**
   * No probe: the source is joined to the input, as by a short cable that has no effect. With a
   * {@linkplain Termination#fiftyOhm() termination of 50 ohm} it is the usual connection of a 50
   * ohm source.
   *
   * @return the connection
   */
  static Probe direct() {
    return DirectConnection.INSTANCE;
  }
}
