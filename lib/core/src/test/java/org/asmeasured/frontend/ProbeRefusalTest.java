package org.asmeasured.frontend;

import static org.asmeasured.frontend.Refused.message;
import static org.asmeasured.frontend.Refused.missing;
import static org.asmeasured.frontend.Refused.values;

import java.util.OptionalDouble;
import org.asmeasured.linear.Network;
import org.asmeasured.linear.Response;
import org.junit.jupiter.api.Test;

/** Bad values of source, lead, probe, rating and coupling, and probes that break their contract. */
class ProbeRefusalTest {
  private static final Termination INPUT = Termination.oneMegohm();

  @Test
  void source() {
    values("sourceOhms", v -> new Source(v, 0), -1, 1e13);
    values("sourceOhms", Source::ofOhms, -1, 1e13);
    values("sourceFarads", v -> new Source(50, v), -1e-12, 1e-19, 1);
    values("sourceReferenceVolts", v -> new Source(50, 0, v), -1e10, 1e10);
    message("sourceFarads", "1.0E-12", () -> new Source(0, 1e-12));
  }

  @Test
  void groundLead() {
    values("henries", v -> new GroundLead(v, 0, 0), -1e-9, 1e-16, 1);
    values("ohms", v -> new GroundLead(1e-9, v, 0), -1, 1e-7, 1e7);
    values("strayFarads", v -> new GroundLead(1e-9, 0, v), -1e-12, 1e-19, 1);
    values("millimetres", GroundLead::ofLength, -1, 1e-7, 1e7);
    values("ohms", GroundLead.ofLength(10)::withDamping, -1);
    values("strayFarads", GroundLead.ofLength(10)::withStray, -1);
    message("henries", "0.0", () -> GroundLead.none().withDamping(10));
    message("henries", "0.0", () -> GroundLead.none().withStray(1e-12));
  }

  @Test
  void rating() {
    for (double bad : new double[] {Double.NaN, Double.NEGATIVE_INFINITY, 0, -300, 1e-4, 1e10}) {
      message("peakVolts", "" + bad, () -> new InputRating(bad, 5));
      message("rmsVolts", "" + bad, () -> new InputRating(5, bad));
    }
    values("peakVolts", InputRating::ofPeak, 0, -300, 1e10);
  }

  @Test
  void coupling() {
    values("farads", Coupling::capacitor, 0, -1e-9, 1e-16, 2);
  }

  @Test
  void passiveDivider() {
    PassiveDivider probe = PassiveDivider.times10();
    values("attenuation", PassiveDivider::times, 1, 0, -10, 1e6);
    values("trimmerError", probe::withTrimmerError, -1, 11);
    values("cableFarads", probe::withCable, -1e-12, 1e-19, 1);
    values(
        "madeForOhms",
        v ->
            new PassiveDivider(
                10,
                v,
                0,
                0,
                probe.trimmedAt(),
                probe.bandwidth(),
                probe.groundLead(),
                probe.rating()),
        0,
        -1,
        1e10);
    missing("input", () -> probe.withTrimmedAt(null));
    missing("input", () -> probe.seriesFarads(null));
    missing("bandwidth", () -> probe.withBandwidth(null));
    missing("groundLead", () -> probe.withGroundLead(null));
    missing("rating", () -> probe.withRating(null));
    missing(
        "trimmedAt",
        () ->
            new PassiveDivider(
                10, 1e6, 0, 0, null, probe.bandwidth(), probe.groundLead(), probe.rating()));
  }

  @Test
  void timesOneProbe() {
    values("seriesOhms", v -> TimesOneProbe.of(v, 0), 0, -1, 1e10);
    values("cableFarads", v -> TimesOneProbe.of(100, v), -1e-12, 1e-19, 1);
    TimesOneProbe probe = TimesOneProbe.of(100, 0);
    missing("bandwidth", () -> probe.withBandwidth(null));
    missing("groundLead", () -> probe.withGroundLead(null));
    missing("rating", () -> probe.withRating(null));
  }

  @Test
  void activeProbe() {
    values("inputOhms", v -> ActiveProbe.of(v, 0, Bandwidth.unlimited()), 0, -1, 1e16);
    values("inputFarads", v -> ActiveProbe.of(1e6, v, Bandwidth.unlimited()), -1e-12, 1e-19, 1);
    ActiveProbe probe = ActiveProbe.of(1e6, 0, Bandwidth.unlimited());
    values("attenuation", probe::withAttenuation, 0, -1, 1e7);
    values("outputOhms", v -> new ActiveProbe.Output(v, 50), -1, 1e7);
    values("madeForOhms", v -> new ActiveProbe.Output(50, v), 0, -1, 1e13);
    missing("bandwidth", () -> ActiveProbe.of(1e6, 0, null));
    missing("bandwidth", () -> probe.withBandwidth(null));
    missing("groundLead", () -> probe.withGroundLead(null));
    missing("rating", () -> probe.withRating(null));
    missing(
        "output",
        () ->
            new ActiveProbe(
                1e6, 0, 1, null, probe.bandwidth(), probe.groundLead(), probe.rating()));
  }

  @Test
  void networkProbe() {
    Network parts = Network.empty().resistor(Probe.TIP, Probe.INPUT, 100);
    values("attenuation", v -> NetworkProbe.of("any", parts, v), 0, -1, 1e7);
    message("words", "\" \"", () -> NetworkProbe.of(" ", parts, 1));
    message("parts", "\"tip\"", () -> NetworkProbe.of("any", Network.empty(), 1));
    missing("words", () -> NetworkProbe.of(null, parts, 1));
    missing("parts", () -> NetworkProbe.of("any", null, 1));
    NetworkProbe probe = NetworkProbe.of("any", parts, 1);
    missing("bandwidth", () -> probe.withBandwidth(null));
    missing("groundLead", () -> probe.withGroundLead(null));
    missing("rating", () -> probe.withRating(null));
  }

  @Test
  void loading() {
    missing("source", () -> new Loading(null, Probe.direct(), INPUT, Coupling.dc()));
    missing("probe", () -> new Loading(Source.ideal(), null, INPUT, Coupling.dc()));
    missing("termination", () -> new Loading(Source.ideal(), Probe.direct(), null, Coupling.dc()));
    missing("coupling", () -> new Loading(Source.ideal(), Probe.direct(), INPUT, null));
    // an ideal source, a lead without damping, a capacitor: rings for ever
    Network parts =
        Network.empty()
            .capacitor(Probe.TIP, Network.GROUND, 1e-12)
            .resistor(Probe.TIP, Probe.INPUT, 1e18);
    Probe lossless =
        NetworkProbe.of("lossless", parts, 1).withGroundLead(GroundLead.ofLength(1000));
    message(
        "poles",
        "negative real part",
        () -> new Loading(Source.ideal(), lossless, INPUT, Coupling.dc()));
  }

  private static Loading with(
      String name, double attenuation, Network network, OptionalDouble output, Response response) {
    Probe own =
        new Probe() {
          @Override
          public String name() {
            return name;
          }

          @Override
          public double attenuation() {
            return attenuation;
          }

          @Override
          public Network network(Termination input) {
            return network;
          }

          @Override
          public OptionalDouble outputOhms() {
            return output;
          }

          @Override
          public Response response() {
            return response;
          }
        };
    return new Loading(Source.ofOhms(50), own, INPUT, Coupling.dc());
  }

  @Test
  void ownProbesThatBreakTheirContract() {
    Network parts = Network.empty().resistor(Probe.TIP, Probe.INPUT, 100);
    OptionalDouble none = OptionalDouble.empty();
    Response flat = Response.identity();
    missing("probe.name", () -> with(null, 1, parts, none, flat));
    missing("probe.network", () -> with("own", 1, null, none, flat));
    missing("probe.outputOhms", () -> with("own", 1, parts, null, flat));
    missing("probe.response", () -> with("own", 1, parts, none, null));
    values("probe.attenuation", v -> with("own", v, parts, none, flat), 0, -1, 1e7);
    Network load = Network.empty().resistor(Probe.TIP, Network.GROUND, 1e6);
    values("probe.outputOhms", v -> with("own", 1, load, OptionalDouble.of(v), flat), -1, 1e7);
    message(
        "probe.network",
        "must not reach \"input\"",
        () -> with("own", 1, parts, OptionalDouble.of(50), flat));
    message("probe.network", "\"input\"", () -> with("own", 1, load, none, flat));
  }
}
