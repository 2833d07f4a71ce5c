package org.asmeasured.scenario;

import java.util.List;
import org.asmeasured.accuracy.Tolerances;
import org.asmeasured.advice.Instrument;
import org.asmeasured.frontend.Probe;
import org.asmeasured.internal.Require;

/**
 * A probe as a file describes it.
 *
 * @param name as a person would say it
 * @param notes where its figures come from, for whoever reads the file
 * @param probe what it is
 * @param tolerances what is known of its parameters
 */
public record DescribedProbe(String name, List<String> notes, Probe probe, Tolerances tolerances) {

  /**
   * Checks and copies the values.
   *
   * @param name as a person would say it
   * @param notes where its figures come from
   * @param probe what it is
   * @param tolerances what is known of its parameters
   * @throws NullPointerException if one is missing
   */
  public DescribedProbe {
    Require.present("name", name);
    notes = List.copyOf(Require.present("notes", notes));
    Require.present("probe", probe);
    Require.present("tolerances", tolerances);
  }

  /**
   * An instrument with this probe at its input.
   *
   * @param instrument without a probe of its own
   * @return the two together
   * @throws IllegalArgumentException if both have a tolerance of the same name
   * @throws NullPointerException if it is missing
   */
  public Instrument on(Instrument instrument) {
    return Require.present("instrument", instrument).withProbe(name, probe, tolerances);
  }
}
