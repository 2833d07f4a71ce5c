package org.asmeasured.scenario;

import org.asmeasured.capture.Record;
import org.asmeasured.capture.Setup;
import org.asmeasured.characterisation.CodeHistogram;
import org.asmeasured.characterisation.HistogramLinearity;
import org.asmeasured.digitizer.Converter;
import org.asmeasured.digitizer.Linearity;
import org.asmeasured.internal.Require;
import org.asmeasured.measure.Outcome;

/**
 * A test of the converter by the histogram of the codes of a record: its INL and DNL, beside those
 * that it truly has. The signal must go beyond both ends of the range. What part of a cycle is left
 * over at the end of the record counts some phases twice, and looks like nonlinearity; the record
 * should hold whole cycles, their number without a common factor with that of the points.
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
   */
  public record Result(
      LinearityTest test, Outcome<Linearity> truth, Outcome<HistogramLinearity> found) {
    /**
     * Checks that all is there.
     *
     * @param test what was asked
     * @param truth of the converter's own transition levels
     * @param found by the histogram
     * @throws NullPointerException if one is missing
     */
    public Result {
      Require.present("test", test);
      Require.present("truth", truth);
      Require.present("found", found);
    }

    /**
     * How far each INL and DNL found may be off, had every sample been taken at random: an evenly
     * spread record does better.
     *
     * @return what goes with the deviations of {@link HistogramLinearity}
     */
    public HistogramLinearity.Sampling sampling() {
      return HistogramLinearity.Sampling.independent();
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
   * The test of a record.
   *
   * @param record of a single acquisition, stored as the converter's own codes
   * @param setup that captured it
   * @return what was found, or why the test cannot be done
   * @throws NullPointerException if one is missing
   */
  public Result of(Record record, Setup setup) {
    Require.present("record", record);
    Require.present("setup", setup);
    Converter converter = setup.converter();
    if (converter.bits() < 1 || converter.bits() > Converter.MAX_BITS) {
      String reason = "a converter of infinite resolution has no transition levels";
      return new Result(this, new Outcome.NotTaken<>(reason), new Outcome.NotTaken<>(reason));
    }
    return new Result(
        this, new Outcome.Taken<>(Linearity.of(converter)), found(record, converter.bits()));
  }

  private Outcome<HistogramLinearity> found(Record record, int bits) {
    CodeHistogram histogram;
    try {
      histogram = CodeHistogram.empty(bits).plus(record);
    } catch (IllegalArgumentException e) {
      // nothing recorded, an envelope, or codes of an average, which are not the converter's own
      return new Outcome.NotTaken<>(e.getMessage());
    }
    return stimulus == Stimulus.SINE
        ? HistogramLinearity.sine(histogram)
        : HistogramLinearity.ramp(histogram);
  }

  @Override
  public String toString() {
    return "INL and DNL by the histogram of a "
        + stimulus.words()
        + (line == Linearity.Line.END_POINTS ? ", by end points" : ", by least squares");
  }
}
