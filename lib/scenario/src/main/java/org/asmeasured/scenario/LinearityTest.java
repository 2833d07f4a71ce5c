package org.asmeasured.scenario;

import java.util.List;
import org.asmeasured.capture.Setup;
import org.asmeasured.characterisation.HistogramLinearity;
import org.asmeasured.digitizer.Converter;
import org.asmeasured.digitizer.Linearity;
import org.asmeasured.internal.Require;
import org.asmeasured.measure.Outcome;
import org.asmeasured.measure.Statistics;
import org.asmeasured.signal.Signal;

/**
 * A test of the converter by the histogram of the codes of a record, or of the records of several
 * captures: its INL and DNL, beside those that it truly has. The signal must go beyond both ends of
 * the range. What part of a cycle is left over at the end of a record counts some phases twice, and
 * looks like nonlinearity; a record should hold whole cycles, their number without a common factor
 * with that of the points. Where it does not, the result says so.
 *
 * <p>Without a trigger, nothing ties several captures to the signal: each but the first begins at a
 * phase of its own at random, which follows from the seed. With one they all begin at the same
 * phase, and only noise makes them differ.
 *
 * @param stimulus what the signal is
 * @param line how gain and offset are taken out
 */
public record LinearityTest(Stimulus stimulus, Linearity.Line line) {
  /** What goes into the converter. */
  public enum Stimulus {
    /** A sine of which neither amplitude nor offset is known. */
    SINE("sine"),
    /** A ramp, or a triangle. */
    RAMP("ramp");

    private final String words;

    Stimulus(String words) {
      this.words = words;
    }

    /**
     * The stimulus in a word.
     *
     * @return its name
     */
    public String words() {
      return words;
    }
  }

  /**
   * What was found, beside what is there.
   *
   * @param test what was asked
   * @param truth of the converter's own transition levels, or why they are not known
   * @param found by the histogram, or why the test cannot be done
   * @param sampling how the samples were taken, which says how far each INL and DNL found may be
   *     off: it goes with the deviations of {@link HistogramLinearity}
   * @param caveats what else is to be known of the figures, in sentences; empty where all is well
   */
  public record Result(
      LinearityTest test,
      Outcome<Linearity> truth,
      Outcome<HistogramLinearity> found,
      HistogramLinearity.Sampling sampling,
      List<String> caveats) {
    /**
     * Checks that all is there.
     *
     * @param test what was asked
     * @param truth of the converter's own transition levels
     * @param found by the histogram
     * @param sampling how the samples were taken
     * @param caveats in sentences; may be empty
     * @throws NullPointerException if one is missing
     */
    public Result {
      Require.present("test", test);
      Require.present("truth", truth);
      Require.present("found", found);
      Require.present("sampling", sampling);
      caveats = List.copyOf(Require.present("caveats", caveats));
    }
  }

  /**
   * Checks that all is there.
   *
   * @param stimulus what the signal is
   * @param line how gain and offset are taken out
   * @throws NullPointerException if one is missing
   */
  public LinearityTest {
    Require.present("stimulus", stimulus);
    Require.present("line", line);
  }

  /**
   * The test of a setup.
   *
   * @param signal what goes in
   * @param setup that captures it; single acquisitions, stored as the converter's own codes
   * @param seed of all that is random
   * @param captures how many records go into the histogram, 1 to 10 000 000
   * @return what was found, or why the test cannot be done
   * @throws IllegalArgumentException if the number is out of range, or a capture refuses
   * @throws NullPointerException if something is missing
   */
  public Result of(Signal signal, Setup setup, long seed, int captures) {
    Require.present("signal", signal);
    Require.present("setup", setup);
    Require.inRange("captures", captures, 1, Statistics.MAX_ACQUISITIONS);
    Converter converter = setup.converter();
    if (converter.bits() < 1 || converter.bits() > Converter.MAX_BITS) {
      String reason = "a converter of infinite resolution has no transition levels";
      return new Result(
          this,
          new Outcome.NotTaken<>(reason),
          new Outcome.NotTaken<>(reason),
          HistogramLinearity.Sampling.independent(),
          List.of());
    }
    LinearityCaptures records = new LinearityCaptures(signal, setup, seed, captures);
    Outcome<HistogramLinearity> found =
        records
            .histogram()
            .then(
                h ->
                    stimulus == Stimulus.SINE
                        ? HistogramLinearity.sine(h)
                        : HistogramLinearity.ramp(h));
    Phases phases = Phases.of(stimulus, records, found);
    return new Result(
        this,
        new Outcome.Taken<>(Linearity.of(converter)),
        found,
        phases.sampling(),
        phases.caveats());
  }

  @Override
  public String toString() {
    return "INL and DNL by the histogram of a "
        + stimulus.words()
        + (line == Linearity.Line.END_POINTS ? ", by end points" : ", by least squares");
  }
}
