package org.asmeasured.validation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.apache.commons.math3.complex.Complex;
import org.asmeasured.capture.Record;
import org.asmeasured.capture.Setup;
import org.asmeasured.frontend.Bandwidth;
import org.asmeasured.frontend.Coupling;
import org.asmeasured.frontend.GroundLead;
import org.asmeasured.frontend.InputRating;
import org.asmeasured.frontend.PassiveDivider;
import org.asmeasured.frontend.Probe;
import org.asmeasured.frontend.Source;
import org.asmeasured.frontend.Termination;
import org.asmeasured.frontend.TimesOneProbe;
import org.asmeasured.linear.Response;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Whole networks of source, probe and input against ngspice, an independent circuit simulator. */
class ProbeVectorsTest {
  private static final String FILE = "/vectors/probe-ngspice.csv";

  /** One network with what the simulator says of it. */
  private record Case(Map<String, String> values, List<double[]> ac, List<double[]> tran) {
    double number(String key) {
      return Double.parseDouble(values.get(key));
    }

    String name() {
      return values.get("case");
    }

    @Override
    public String toString() {
      return name();
    }

    Setup setup() {
      Coupling coupling =
          number("coupling") == 0 ? Coupling.dc() : Coupling.capacitor(number("coupling"));
      return Setup.ideal(
              values.containsKey("rate") ? number("rate") : 1e9, Math.max(1, tran.size() + 1))
          .source(new Source(number("rs"), number("cs")))
          .termination(new Termination(number("rin"), number("cin")))
          .coupling(coupling)
          .probe(probe());
    }

    private Probe probe() {
      GroundLead lead = new GroundLead(number("lead"), number("damping"), number("stray"));
      return switch (values.get("kind")) {
        case "divider" ->
            PassiveDivider.times(number("attenuation"))
                .withCable(number("cable"))
                .withTrimmerError(number("trimmer"))
                .withGroundLead(lead);
        case "x1" ->
            new TimesOneProbe(
                number("series"),
                number("cable"),
                Bandwidth.unlimited(),
                lead,
                InputRating.unstated());
        case "direct" -> Probe.direct();
        default -> throw new IllegalArgumentException(values.get("kind"));
      };
    }
  }

  static Stream<Case> cases() {
    String text;
    try (InputStream stream = ProbeVectorsTest.class.getResourceAsStream(FILE)) {
      text = new String(stream.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    List<Case> cases = new ArrayList<>();
    for (String line : text.split("\n")) {
      if (line.isBlank() || line.startsWith("#")) {
        continue;
      }
      if (line.startsWith("case: ")) {
        cases.add(new Case(new HashMap<>(), new ArrayList<>(), new ArrayList<>()));
      }
      Case last = cases.get(cases.size() - 1);
      if (line.startsWith("ac,") || line.startsWith("tran,")) {
        String[] cells = line.split(",");
        double[] row = new double[cells.length - 1];
        for (int i = 0; i < row.length; i++) {
          row[i] = Double.parseDouble(cells[i + 1]);
        }
        (line.startsWith("ac,") ? last.ac : last.tran).add(row);
      } else {
        int colon = line.indexOf(": ");
        last.values.put(line.substring(0, colon), line.substring(colon + 2));
      }
    }
    return cases.stream();
  }

  static Stream<Case> transients() {
    return cases().filter(c -> !c.tran.isEmpty());
  }

  @Test
  void thereAreEnough() {
    assertEquals(15, cases().count());
    assertEquals(4, transients().count());
    assertTrue(cases().allMatch(c -> c.ac.size() == 16));
  }

  @AfterAll
  static void evidence() {
    if (Evidence.wanted()) {
      Evidence.write(
          "probe-networks.md", "Probe networks against ngspice", Worst.table("probe-ngspice"));
    }
  }

  @ParameterizedTest
  @MethodSource("cases")
  void smallSignal(Case network) {
    Response response = network.setup().frontEnd().response();
    double allowed = network.number("ac tolerance");
    for (double[] row : network.ac) {
      double error = response.at(row[0]).subtract(new Complex(row[1], row[2])).abs();
      Worst.note("probe-ngspice.ac", error, allowed);
      assertTrue(error <= allowed, () -> network.name() + " at " + row[0] + " Hz: off by " + error);
    }
  }

  @ParameterizedTest
  @MethodSource("transients")
  void transientFromRest(Case network) {
    Record record = network.setup().capture(SignalExpressions.signal(network.values.get("signal")));
    double allowed = network.number("tran tolerance");
    for (double[] row : network.tran) {
      double error = Math.abs(record.volts((int) row[0]) - row[1]);
      Worst.note("probe-ngspice.tran", error, allowed);
      assertTrue(
          error <= allowed, () -> network.name() + ", sample " + row[0] + ": off by " + error);
    }
  }
}
