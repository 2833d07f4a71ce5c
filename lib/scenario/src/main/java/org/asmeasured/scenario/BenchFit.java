package org.asmeasured.scenario;

import java.util.List;
import org.asmeasured.accuracy.Measurement;
import org.asmeasured.fitting.FitMethod;
import org.asmeasured.fitting.Recording;
import org.asmeasured.fitting.Unknown;
import org.asmeasured.internal.Require;
import org.asmeasured.measure.Reading;

/**
 * What a bench recorded of a known signal, what is sought of its chain, and readings taken on it
 * that are to be corrected. Immutable.
 *
 * <p>{@link BenchFits} reads one from a file; a program may as well build one.
 *
 * @param title one line that names it
 * @param notes what a reader should know, one paragraph an entry; may be empty
 * @param recordings the records, each with its signal and setup; at least one
 * @param unknowns what is sought; at least one
 * @param method how it is sought
 * @param readings that were taken on the same bench; may be empty
 */
public record BenchFit(
    String title,
    List<String> notes,
    List<Recording> recordings,
    List<Unknown> unknowns,
    FitMethod method,
    List<Taken> readings) {

  /**
   * A reading that was taken on the bench, to be corrected.
   *
   * @param measurement the signal that it is assumed to be of, and the setup as stated without the
   *     fit
   * @param reading what was read
   * @param value what it came to, in the reading's unit
   */
  public record Taken(Measurement measurement, Reading reading, double value) {

    /**
     * Checks the values.
     *
     * @param measurement the signal that it is assumed to be of, and the setup as stated
     * @param reading what was read
     * @param value what it came to, in the reading's unit
     * @throws IllegalArgumentException if the value is not finite
     * @throws NullPointerException if another is missing
     */
    public Taken {
      Require.present("measurement", measurement);
      Require.present("reading", reading);
      Require.inRange("value", value, reading.unit(), -Double.MAX_VALUE, Double.MAX_VALUE);
    }
  }

  /**
   * Checks and copies.
   *
   * @param title not blank
   * @param notes may be empty
   * @param recordings at least one
   * @param unknowns at least one
   * @param method how it is sought
   * @param readings may be empty
   * @throws NullPointerException if anything is null
   * @throws IllegalArgumentException if the title is blank, or a list that must not be is empty
   */
  public BenchFit {
    Require.present("title", title);
    Require.that(!title.isBlank(), "title is blank: must have at least one character that shows");
    notes = List.copyOf(Require.present("notes", notes));
    recordings = List.copyOf(Require.present("recordings", recordings));
    unknowns = List.copyOf(Require.present("unknowns", unknowns));
    Require.present("method", method);
    readings = List.copyOf(Require.present("readings", readings));
    Require.that(!recordings.isEmpty(), "recordings = []: must have at least one");
    Require.that(!unknowns.isEmpty(), "unknowns = []: must have at least one");
  }
}
