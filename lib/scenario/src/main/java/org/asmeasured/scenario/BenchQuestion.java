package org.asmeasured.scenario;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.asmeasured.accuracy.Measurement;
import org.asmeasured.advice.Instrument;
import org.asmeasured.internal.Require;

/**
 * The limits of a scenario, put to the instruments of a bench: which of them verifies them, at what
 * risk? Immutable.
 *
 * <p>Every instrument is asked by itself, which is with the probe of the scenario, and with every
 * probe of the bench. What the scenario knows of its signal, source, probe, start and trigger
 * counts for all; what it knows of its own instrument counts for none.
 *
 * @param scenario signal, record and limits; one channel
 * @param instruments at least one, each of another name
 * @param probes each of another name; may be empty
 * @param asSet whether instruments keep the scale, coupling and averaging of the scenario; else
 *     each takes the settings that are best for it among those that it offers
 */
public record BenchQuestion(
    Scenario scenario,
    List<DescribedInstrument> instruments,
    List<DescribedProbe> probes,
    boolean asSet) {

  /**
   * Checks and copies.
   *
   * @param scenario signal, record and limits
   * @param instruments at least one
   * @param probes may be empty
   * @param asSet whether instruments keep the settings of the scenario
   * @throws NullPointerException if anything is null
   * @throws IllegalArgumentException if the scenario states no limit or has several channels, there
   *     is no instrument, two have one name, or a tolerance of one has the name of another
   */
  public BenchQuestion {
    Require.present("scenario", scenario);
    instruments = List.copyOf(Require.present("instruments", instruments));
    probes = List.copyOf(Require.present("probes", probes));
    Require.that(
        !limits(scenario).isEmpty(),
        "limits = []: the scenario must state at least one limit to verify, in its assessment");
    Require.that(
        scenario.channels().isEmpty(),
        "channels: the scenario has several, an instrument is compared by one");
    Require.that(!instruments.isEmpty(), "instruments = []: must name at least one instrument");
    requireDistinct("instrument", instruments.stream().map(i -> i.instrument().name()).toList());
    requireDistinct("probe", probes.stream().map(DescribedProbe::name).toList());
    bench(scenario, instruments, probes);
  }

  private static void requireDistinct(String what, List<String> names) {
    Set<String> known = new HashSet<>();
    for (String name : names) {
      Require.that(known.add(name), what + " \"" + name + "\": must not come twice");
    }
  }

  private static List<RequestedAssessment.Limit> limits(Scenario scenario) {
    return scenario.assessment().map(RequestedAssessment::limits).orElse(List.of());
  }

  /**
   * The limits that are asked about.
   *
   * @return at least one, in the scenario's order
   */
  public List<RequestedAssessment.Limit> limits() {
    return limits(scenario);
  }

  /**
   * Every instrument by itself and with every probe, with all that is known of each.
   *
   * @return at least one
   */
  public List<Instrument> bench() {
    return bench(scenario, instruments, probes);
  }

  private static List<Instrument> bench(
      Scenario scenario, List<DescribedInstrument> instruments, List<DescribedProbe> probes) {
    Measurement asked = new Measurement(scenario.signal(), scenario.setup());
    List<Instrument> bench = new ArrayList<>();
    for (DescribedInstrument one : instruments) {
      bench.add(one.instrument());
      probes.forEach(probe -> bench.add(probe.on(one.instrument())));
    }
    return bench.stream()
        .map(i -> i.withTolerancesOf(asked, scenario.assessment().orElseThrow().tolerances()))
        .toList();
  }
}
