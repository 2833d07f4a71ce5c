package org.asmeasured.scenario;

import java.util.List;
import org.asmeasured.capture.Setup;
import org.asmeasured.internal.Require;
import org.asmeasured.measure.Reading;
import org.asmeasured.signal.Signal;

/**
 * A question, whole: what is there, how it is captured, and what is read from the record.
 *
 * <p>Immutable. {@link Scenarios} reads one from a file; a program may as well build one.
 *
 * @param title one line that names the scenario
 * @param notes what a reader should know, one paragraph an entry: where the figures come from, what
 *     is invented; may be empty
 * @param signal the signal at the tip, before any loading, in volts over seconds
 * @param setup how it is captured
 * @param readings what is read from the record, in order; at least one
 * @param seed from which all that is random follows: noise, jitter, when the trigger is armed; any
 *     number here, 0 to 2<sup>53</sup> - 1 in a file
 */
public record Scenario(
    String title,
    List<String> notes,
    Signal signal,
    Setup setup,
    List<Reading> readings,
    long seed) {
  /** The seed of a scenario that states none. */
  public static final long USUAL_SEED = 0;

  /**
   * A scenario with the usual seed.
   *
   * @param title not blank
   * @param notes may be empty
   * @param signal in volts over seconds
   * @param setup how it is captured
   * @param readings at least one
   * @throws NullPointerException if anything is null
   * @throws IllegalArgumentException if the title is blank or there is no reading
   */
  public Scenario(
      String title, List<String> notes, Signal signal, Setup setup, List<Reading> readings) {
    this(title, notes, signal, setup, readings, USUAL_SEED);
  }

  /**
   * Checks and copies.
   *
   * @param title not blank
   * @param notes may be empty
   * @param signal in volts over seconds
   * @param setup how it is captured
   * @param readings at least one
   * @param seed any number
   * @throws NullPointerException if anything is null
   * @throws IllegalArgumentException if the title is blank or there is no reading
   */
  public Scenario {
    Require.present("title", title);
    notes = List.copyOf(Require.present("notes", notes));
    Require.present("signal", signal);
    Require.present("setup", setup);
    readings = List.copyOf(Require.present("readings", readings));
    Require.that(!title.isBlank(), "title is blank: must have at least one character that shows");
    Require.that(!readings.isEmpty(), "readings = []: must name at least one reading");
  }
}
