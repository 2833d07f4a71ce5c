package org.asmeasured.frontend;

import java.util.ArrayList;
import java.util.List;
import org.apache.commons.math3.complex.Complex;
import org.asmeasured.internal.Quantity;
import org.asmeasured.internal.Require;
import org.asmeasured.linear.Response;

/**
 * Source, probe, ground lead, coupling capacitor and termination, solved as one network: none of
 * them has a response of its own while the others are there.
 *
 * <p>The truth is the source's open-circuit voltage, and what comes out is the voltage at the
 * input's resistance times the probe's nominal attenuation. A source of R<sub>s</sub> joined
 * directly to an input R || C gives H(s) = k<sub>0</sub>/(1 + s tau) with k<sub>0</sub> = R/(R +
 * R<sub>s</sub>) and tau = (R<sub>s</sub>||R) C, so a 50 ohm source into 50 ohm reads half: a
 * loading error of -50 %. All else is solved from the node equations with some hundred digits.
 *
 * <p><b>One at a time.</b> {@link #steps} makes the network real by one more element each time, in
 * the order of the chain: the source's impedance (the voltage at the tip while the probe on the
 * input that it is made for, or the input itself, loads it), the probe, its ground lead, the
 * termination in place of the one that the probe is made for, the coupling capacitor. Each is a
 * whole network again; the last is this one, so the changes from step to step add up to the whole
 * exactly.
 *
 * <p>Immutable; the network is solved once.
 */
public final class Loading implements AnalogStage {
  private static final double MIN_SECONDS = 1e-16;

  private final Source source;
  private final Probe probe;
  private final Termination termination;
  private final Coupling coupling;
  private final Response response;

  /** A network with some of its elements still ideal. */
  private record Step(String name, Response response) implements AnalogStage {
    @Override
    public String toString() {
      return name;
    }
  }

  /**
   * A source of resistance alone, joined directly to an input.
   *
   * @param sourceOhms resistance of the source, 0 to 1e12 ohm; 0 is ideal
   * @param termination what the source drives
   * @throws IllegalArgumentException if the resistance is out of range, or the time constant is
   *     neither 0 nor at least 1e-16 s
   * @throws NullPointerException if the termination is missing
   */
  public Loading(double sourceOhms, Termination termination) {
    this(Source.ofOhms(sourceOhms), Probe.direct(), termination, Coupling.dc());
  }

  /**
   * Solves the network.
   *
   * @param source what the signal comes from
   * @param probe what stands between source and input
   * @param termination the input
   * @param coupling of it only a capacitor ahead of the input takes part
   * @throws IllegalArgumentException if a time constant or a frequency of the network is beyond
   *     what a response can have, an element of the probe is, the probe leaves a node open, or a
   *     loop has no loss; the message says which
   * @throws NullPointerException if a value is missing, or the probe leaves one out
   */
  public Loading(Source source, Probe probe, Termination termination, Coupling coupling) {
    this.source = Require.present("source", source);
    this.probe = Require.present("probe", probe);
    this.termination = Require.present("termination", termination);
    this.coupling = Require.present("coupling", coupling);
    Circuit.check(probe, termination);
    this.response = isPlain() ? plain(source.ohms(), termination) : whole().recorded();
  }

  private boolean isPlain() {
    return isDirect() && source.farads() == 0 && !coupling.isCapacitor();
  }

  private boolean isDirect() {
    return probe instanceof DirectConnection;
  }

  private static Response plain(double sourceOhms, Termination termination) {
    if (sourceOhms == 0) {
      return Response.identity();
    }
    double dcGain = termination.ohms() / (termination.ohms() + sourceOhms);
    double parallelOhms = sourceOhms * dcGain;
    double seconds = parallelOhms * termination.farads();
    if (seconds == 0) {
      return Response.gain(dcGain);
    }
    Require.that(
        seconds >= MIN_SECONDS,
        "sourceOhms = "
            + sourceOhms
            + " ohm, farads = "
            + termination.farads()
            + " F: their time constant of "
            + seconds
            + " s must be at least "
            + MIN_SECONDS
            + " s, or one of them 0");
    return Response.of(List.of(), List.of(new Complex(-1 / seconds)), dcGain / seconds);
  }

  private Circuit whole() {
    return new Circuit(source, probe, probe.groundLead(), termination, coupling);
  }

  /**
   * What the signal comes from.
   *
   * @return the source
   */
  public Source source() {
    return source;
  }

  /**
   * What stands between source and input.
   *
   * @return the probe
   */
  public Probe probe() {
    return probe;
  }

  /**
   * The input.
   *
   * @return the termination
   */
  public Termination termination() {
    return termination;
  }

  /**
   * Direct or AC coupling; only a capacitor takes part in the network.
   *
   * @return the coupling
   */
  public Coupling coupling() {
    return coupling;
  }

  @Override
  public String name() {
    return isDirect() ? "source and termination" : "source, probe and termination";
  }

  @Override
  public Response response() {
    return response;
  }

  /**
   * The network with one more element real each time, in the order of the chain. Elements that are
   * ideal have no step.
   *
   * @return stages whose response is that of everything so far, not of the last element alone; the
   *     last has the response of the whole; empty if that is ideal
   */
  public List<AnalogStage> steps() {
    List<AnalogStage> steps = new ArrayList<>();
    Termination madeFor = probe.madeFor(termination);
    Circuit plain = new Circuit(source, probe, GroundLead.none(), madeFor, Coupling.dc());
    if (!source.isIdeal()) {
      steps.add(
          isDirect()
              ? step(name(), coupling.isCapacitor() ? plain.recorded() : response)
              : step("source loaded by the probe", plain.atTip()));
    }
    if (!isDirect()) {
      steps.add(step(probe.name(), plain.recorded()));
      GroundLead lead = probe.groundLead();
      if (!lead.isIdeal()) {
        Circuit led = new Circuit(source, probe, lead, madeFor, Coupling.dc());
        steps.add(step("ground lead", led.recorded()));
      }
      if (!madeFor.equals(termination)) {
        Circuit ended = new Circuit(source, probe, lead, termination, Coupling.dc());
        steps.add(step("termination", ended.recorded()));
      }
    }
    if (coupling.isCapacitor()) {
      steps.add(step(coupling.name(), response));
    }
    return List.copyOf(steps);
  }

  private static AnalogStage step(String name, Response response) {
    return new Step(name, response);
  }

  /**
   * From the source's open-circuit voltage to the voltage at the probe's tip, behind its ground
   * lead; without a probe, to that at the connector.
   *
   * @return the loaded voltage over the open-circuit one
   */
  public Response atTip() {
    return isPlain() ? response : whole().atTip();
  }

  /**
   * From the source's open-circuit voltage to the voltage at the instrument's connector, ahead of a
   * coupling capacitor, as it is: not referred to the tip.
   *
   * @return the voltage at the connector over the open-circuit one
   */
  public Response atConnector() {
    return isPlain() ? response : whole().atConnector();
  }

  @Override
  public boolean equals(Object other) {
    return other instanceof Loading that
        && that.source.equals(source)
        && that.probe.equals(probe)
        && that.termination.equals(termination)
        && that.coupling.equals(coupling);
  }

  @Override
  public int hashCode() {
    return 31 * (31 * source.hashCode() + probe.hashCode()) + termination.hashCode();
  }

  @Override
  public String toString() {
    StringBuilder words = new StringBuilder();
    words.append(source).append(isDirect() ? " into " : ", " + probe + ", into ");
    words.append(termination);
    if (coupling.isCapacitor()) {
      words.append(" behind ").append(Quantity.of(coupling.farads(), "F"));
    }
    return words.toString();
  }
}
