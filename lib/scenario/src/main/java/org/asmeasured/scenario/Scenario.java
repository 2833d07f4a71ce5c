package org.asmeasured.scenario;

import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import org.asmeasured.capture.Setup;
import org.asmeasured.internal.Require;
import org.asmeasured.measure.Reading;
import org.asmeasured.measure.Statistics;
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
 * @param channels all channels, if there are several; signal, setup and readings are those of the
 *     first of them
 * @param rareEvents the chance of seeing these is asked for; may be empty
 * @param captures over how many captures the readings are repeated, for their statistics and for
 *     the random part of each stage, and how many records go into the test of the converter; 0 for
 *     none, and one
 * @param linearityTest a test of the converter by the histogram of the record, if one is asked for
 * @param assessment how sure the readings are, if that is asked for
 */
public record Scenario(
    String title,
    List<String> notes,
    Signal signal,
    Setup setup,
    List<Reading> readings,
    long seed,
    Optional<FurtherChannels> channels,
    List<RareEvent> rareEvents,
    int captures,
    Optional<LinearityTest> linearityTest,
    Optional<RequestedAssessment> assessment) {
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
   * A scenario of one channel.
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
  public Scenario(
      String title,
      List<String> notes,
      Signal signal,
      Setup setup,
      List<Reading> readings,
      long seed) {
    this(title, notes, signal, setup, readings, seed, Optional.empty(), List.of());
  }

  /**
   * A scenario without statistics and without a test of the converter.
   *
   * @param title not blank
   * @param notes may be empty
   * @param signal in volts over seconds
   * @param setup how it is captured
   * @param readings at least one
   * @param seed any number
   * @param channels all channels, if there are several
   * @param rareEvents may be empty
   * @throws NullPointerException if anything is null
   * @throws IllegalArgumentException if the title is blank, there is no reading, or the first of
   *     the channels has another signal or setup than the scenario
   */
  public Scenario(
      String title,
      List<String> notes,
      Signal signal,
      Setup setup,
      List<Reading> readings,
      long seed,
      Optional<FurtherChannels> channels,
      List<RareEvent> rareEvents) {
    this(
        title,
        notes,
        signal,
        setup,
        readings,
        seed,
        channels,
        rareEvents,
        0,
        Optional.empty(),
        Optional.empty());
  }

  /** All values, some of them about to be others. */
  private static final class Draft {
    private String title;
    private List<String> notes;
    private Signal signal;
    private Setup setup;
    private List<Reading> readings;
    private long seed;
    private Optional<FurtherChannels> channels;
    private List<RareEvent> rareEvents;
    private int captures;
    private Optional<LinearityTest> linearityTest;
    private Optional<RequestedAssessment> assessment;
  }

  private Scenario with(Consumer<Draft> change) {
    Draft d = new Draft();
    d.title = title;
    d.notes = notes;
    d.signal = signal;
    d.setup = setup;
    d.readings = readings;
    d.seed = seed;
    d.channels = channels;
    d.rareEvents = rareEvents;
    d.captures = captures;
    d.linearityTest = linearityTest;
    d.assessment = assessment;
    change.accept(d);
    return new Scenario(
        d.title,
        d.notes,
        d.signal,
        d.setup,
        d.readings,
        d.seed,
        d.channels,
        d.rareEvents,
        d.captures,
        d.linearityTest,
        d.assessment);
  }

  /**
   * With another seed.
   *
   * @param value any number
   * @return the changed scenario
   */
  public Scenario withSeed(long value) {
    return with(d -> d.seed = value);
  }

  /**
   * With the readings repeated over many captures, for their statistics.
   *
   * @param count 2 to 10 000 000, or 0 for none
   * @return the changed scenario
   * @throws IllegalArgumentException if the number is out of range
   */
  public Scenario withCaptures(int count) {
    return with(d -> d.captures = count);
  }

  /**
   * With a test of the converter by the histogram of the record.
   *
   * @param test what is asked
   * @return the changed scenario
   * @throws NullPointerException if it is missing
   */
  public Scenario withLinearityTest(LinearityTest test) {
    return with(d -> d.linearityTest = Optional.of(Require.present("test", test)));
  }

  /**
   * With the question how sure the readings are.
   *
   * @param request what is known for it
   * @return the changed scenario
   * @throws IllegalArgumentException if a limit is of a reading that is not asked for
   * @throws NullPointerException if it is missing
   */
  public Scenario withAssessment(RequestedAssessment request) {
    return with(d -> d.assessment = Optional.of(Require.present("request", request)));
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
   * @param channels all channels, if there are several
   * @param rareEvents may be empty
   * @param captures 2 to 10 000 000, or 0 for none
   * @param linearityTest may be empty
   * @param assessment may be empty
   * @throws NullPointerException if anything is null
   * @throws IllegalArgumentException if the title is blank, there is no reading, the number of
   *     captures is out of range, a limit is of a reading that is not asked for, or the first of
   *     the channels has another signal or setup than the scenario
   */
  public Scenario {
    Require.present("title", title);
    notes = List.copyOf(Require.present("notes", notes));
    Require.present("signal", signal);
    Require.present("setup", setup);
    readings = List.copyOf(Require.present("readings", readings));
    Require.that(!title.isBlank(), "title is blank: must have at least one character that shows");
    Require.present("channels", channels);
    if (channels.isPresent()) {
      Require.that(
          channels.get().signals().get(0) == signal
              && channels.get().set().channels().get(0).setup().equals(setup),
          "channels: the first of them must have the scenario's own signal and setup");
    }
    rareEvents = List.copyOf(Require.present("rareEvents", rareEvents));
    if (captures != 0) {
      Require.inRange("captures", captures, 2, Statistics.MAX_ACQUISITIONS);
    }
    Require.present("linearityTest", linearityTest);
    Require.present("assessment", assessment);
    Require.that(!readings.isEmpty(), "readings = []: must name at least one reading");
    for (RequestedAssessment.Limit limit :
        assessment.map(RequestedAssessment::limits).orElse(List.of())) {
      Require.that(
          readings.contains(limit.reading()),
          "limits: " + limit.reading() + " is not asked for, must be one of readings");
    }
  }
}
