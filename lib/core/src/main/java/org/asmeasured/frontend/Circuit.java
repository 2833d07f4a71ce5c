package org.asmeasured.frontend;

import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import org.asmeasured.internal.Require;
import org.asmeasured.linear.Network;
import org.asmeasured.linear.Response;

/**
 * The network that source, ground lead, probe, coupling capacitor and termination make, and the
 * voltages in it over the source's open-circuit voltage.
 */
final class Circuit {
  private static final String SOURCE = "source";
  private static final String AMPLIFIER = "amplifier";
  private static final double LEAST_ATTENUATION = 1e-6;
  private static final double MOST_ATTENUATION = 1e6;

  private final Probe probe;
  private final Termination termination;

  /** Source, lead and the probe's network; of a passive probe, all of it. */
  private final Network front;

  /** What the amplifier of an active probe drives; empty for a passive one. */
  private final Network back;

  /** The same in closed form, where it has one; then the networks are not made. */
  private final Optional<RcDivider> divider;

  private final String tip;
  private final String connector;
  private final String input;

  Circuit(Source source, Probe probe, GroundLead lead, Termination termination, Coupling coupling) {
    this.probe = probe;
    this.termination = termination;
    divider = RcDivider.of(source, probe, lead, termination, coupling);
    if (divider.isPresent()) {
      front = Network.empty();
      back = front;
      tip = "tip";
      connector = "connector";
      input = connector;
      return;
    }
    OptionalDouble outputOhms = probe.outputOhms();
    Network parts = probe.network(termination);
    Network network = Network.empty();

    String terminals = SOURCE;
    if (!source.isIdeal()) {
      terminals = "terminals";
      network = network.resistor(SOURCE, terminals, source.ohms());
      if (source.farads() > 0) {
        network = network.capacitor(SOURCE, terminals, source.farads());
      }
    }
    tip = lead.isIdeal() ? terminals : "tip";
    if (!lead.isIdeal()) {
      network = joined(network, lead, terminals, tip);
    }
    if (outputOhms.isPresent()) {
      front = network.joinedWith(parts.renamed(this::place));
      connector = outputOhms.getAsDouble() == 0 ? AMPLIFIER : "connector";
      input = coupling.isCapacitor() ? "input" : connector;
      Network output = Network.empty();
      if (outputOhms.getAsDouble() > 0) {
        output = output.resistor(AMPLIFIER, connector, outputOhms.getAsDouble());
      }
      back = ended(output, coupling);
    } else {
      connector = parts.nodes().isEmpty() ? tip : "connector";
      input = coupling.isCapacitor() ? "input" : connector;
      front = ended(network.joinedWith(parts.renamed(this::place)), coupling);
      back = Network.empty();
    }
  }

  private static Network joined(Network network, GroundLead lead, String from, String to) {
    String between = lead.ohms() > 0 ? "lead" : from;
    Network all = network;
    if (lead.ohms() > 0) {
      all = all.resistor(from, between, lead.ohms());
    }
    all = all.inductor(between, to, lead.henries());
    return lead.strayFarads() > 0 ? all.capacitor(to, Network.GROUND, lead.strayFarads()) : all;
  }

  private Network ended(Network network, Coupling coupling) {
    Network all = network;
    if (coupling.isCapacitor()) {
      all = all.capacitor(connector, input, coupling.farads());
    }
    all = all.resistor(input, Network.GROUND, termination.ohms());
    return termination.farads() > 0
        ? all.capacitor(input, Network.GROUND, termination.farads())
        : all;
  }

  /** A node of the probe in the whole network. */
  private String place(String node) {
    return switch (node) {
      case Probe.TIP -> tip;
      case Probe.INPUT -> connector;
      default -> "probe's " + node;
    };
  }

  /** Refuses a probe that does not keep to its interface. */
  static void check(Probe probe, Termination termination) {
    Require.present("probe.name", probe.name());
    Require.inRange(
        "probe.attenuation", probe.attenuation(), "", LEAST_ATTENUATION, MOST_ATTENUATION);
    Require.present("probe.response", probe.response());
    Require.present("probe.groundLead", probe.groundLead());
    Require.present("probe.rating", probe.rating());
    Require.present("probe.madeFor", probe.madeFor(termination));
    Set<String> nodes = Require.present("probe.network", probe.network(termination)).nodes();
    boolean direct = nodes.isEmpty();
    OptionalDouble outputOhms = Require.present("probe.outputOhms", probe.outputOhms());
    if (outputOhms.isPresent()) {
      Require.inRange("probe.outputOhms", outputOhms.getAsDouble(), "ohm", 0, 1e6);
      Require.that(
          !nodes.contains(Probe.INPUT),
          "probe.network has the nodes "
              + nodes
              + ": with an output resistance it must not reach \""
              + Probe.INPUT
              + "\"");
    } else {
      Require.that(
          direct || nodes.contains(Probe.TIP) && nodes.contains(Probe.INPUT),
          "probe.network has the nodes "
              + nodes
              + ": must have \""
              + Probe.TIP
              + "\" and \""
              + Probe.INPUT
              + "\", or none");
    }
  }

  private static Response between(Network network, String from, String to) {
    // An ideal source without a load of its own has no element at its node.
    return from.equals(to) ? Response.identity() : network.response(from, to);
  }

  Response atTip() {
    return divider.map(RcDivider::atTip).orElseGet(() -> between(front, SOURCE, tip));
  }

  /** The voltage at the input's resistance, referred to the tip. */
  Response recorded() {
    return at(input, probe.attenuation());
  }

  Response atConnector() {
    return at(connector, 1);
  }

  private Response at(String node, double factor) {
    if (divider.isPresent()) {
      return divider.get().atInput().scaledBy(factor).times(probe.response());
    }
    OptionalDouble outputOhms = probe.outputOhms();
    if (outputOhms.isEmpty()) {
      return between(front, SOURCE, node).scaledBy(factor).times(probe.response());
    }
    double madeForOhms = probe.madeFor(termination).ohms();
    double open = (outputOhms.getAsDouble() + madeForOhms) / madeForOhms / probe.attenuation();
    return atTip()
        .times(between(back, AMPLIFIER, node))
        .scaledBy(factor * open)
        .times(probe.response());
  }
}
