package org.asmeasured.scenario;

import java.util.List;
import org.asmeasured.advice.Instrument;
import org.asmeasured.internal.Require;

/**
 * An instrument as a file describes it.
 *
 * @param instrument what it is, what is known of it, and what it offers
 * @param notes where its figures come from, for whoever reads the file
 */
public record DescribedInstrument(Instrument instrument, List<String> notes) {

  /**
   * Checks and copies the values.
   *
   * @param instrument what it is
   * @param notes where its figures come from
   * @throws NullPointerException if one is missing
   */
  public DescribedInstrument {
    Require.present("instrument", instrument);
    notes = List.copyOf(Require.present("notes", notes));
  }
}
