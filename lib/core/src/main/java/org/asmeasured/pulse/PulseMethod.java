package org.asmeasured.pulse;

import org.asmeasured.capture.Record;
import org.asmeasured.internal.Quantity;
import org.asmeasured.internal.Require;
import org.asmeasured.measure.Analysis;
import org.asmeasured.measure.Outcome;
import org.asmeasured.signal.Waveform;

/**
 * How pulses are analysed: everything that a figure depends on, so that it can be said with it.
 *
 * @param levels how the levels of the states are found
 * @param references the levels at which instants are taken
 * @param hysteresisPercent by how much, of the amplitude, the value must pass a reference level on
 *     either side for a crossing to count; 0 to 49 %. Beside a state no more than half of the way
 *     to it
 * @param regionDurations length of the aberration regions before and after a transition, in
 *     transition durations, 0 to 1e6
 * @param settlingPercent half width of the band about a state in which it counts as settled, above
 *     0 to 49 % of the amplitude
 * @param settlingDelayDurations from when on the settling error is taken, after the middle instant
 *     of a transition, in transition durations, 0 to 1e6
 * @param flatPercent the middle part of a state over which tilt is taken, 1 to 100 % of it
 */
public record PulseMethod(
    StateLevels levels,
    ReferenceLevels references,
    double hysteresisPercent,
    double regionDurations,
    double settlingPercent,
    double settlingDelayDurations,
    double flatPercent)
    implements Analysis<PulseAnalysis> {
  private static final double MAX_DURATIONS = 1e6;
  private static final double MAX_PERCENT = 49;

  private static final PulseMethod STANDARD =
      new PulseMethod(StateLevels.histogramMode(), ReferenceLevels.standard(), 10, 3, 2, 3, 80);

  /**
   * Checks the values.
   *
   * @param levels how the levels of the states are found
   * @param references the levels at which instants are taken
   * @param hysteresisPercent 0 to 49 % of the amplitude
   * @param regionDurations 0 to 1e6 transition durations
   * @param settlingPercent above 0 to 49 % of the amplitude
   * @param settlingDelayDurations 0 to 1e6 transition durations
   * @param flatPercent 1 to 100 % of a state
   * @throws IllegalArgumentException if one is out of range
   * @throws NullPointerException if one is missing
   */
  public PulseMethod {
    Require.present("levels", levels);
    Require.present("references", references);
    Require.inRange("hysteresisPercent", hysteresisPercent, "%", 0, MAX_PERCENT);
    Require.inRange("regionDurations", regionDurations, "", 0, MAX_DURATIONS);
    Require.above("settlingPercent", settlingPercent, "%", 0, MAX_PERCENT);
    Require.inRange("settlingDelayDurations", settlingDelayDurations, "", 0, MAX_DURATIONS);
    Require.inRange("flatPercent", flatPercent, "%", 1, 100);
  }

  /**
   * Modes of the histogram; 10, 50 and 90 %; a hysteresis of 10 %; aberration regions of three
   * transition durations; settled within 2 %; the settling error from three transition durations
   * on; tilt over the middle 80 % of a state.
   *
   * @return the method that is used unless another is asked for
   */
  public static PulseMethod standard() {
    return STANDARD;
  }

  /**
   * With other state levels.
   *
   * @param value how they are found
   * @return the method
   * @throws NullPointerException if it is missing
   */
  public PulseMethod levels(StateLevels value) {
    return new PulseMethod(
        value,
        references,
        hysteresisPercent,
        regionDurations,
        settlingPercent,
        settlingDelayDurations,
        flatPercent);
  }

  /**
   * With other reference levels.
   *
   * @param value the levels
   * @return the method
   * @throws NullPointerException if they are missing
   */
  public PulseMethod references(ReferenceLevels value) {
    return new PulseMethod(
        levels,
        value,
        hysteresisPercent,
        regionDurations,
        settlingPercent,
        settlingDelayDurations,
        flatPercent);
  }

  /**
   * With another hysteresis.
   *
   * @param percent 0 to 49 % of the amplitude
   * @return the method
   * @throws IllegalArgumentException if it is out of range
   */
  public PulseMethod hysteresis(double percent) {
    return new PulseMethod(
        levels,
        references,
        percent,
        regionDurations,
        settlingPercent,
        settlingDelayDurations,
        flatPercent);
  }

  /**
   * With other aberration regions.
   *
   * @param durations 0 to 1e6 transition durations
   * @return the method
   * @throws IllegalArgumentException if it is out of range
   */
  public PulseMethod region(double durations) {
    return new PulseMethod(
        levels,
        references,
        hysteresisPercent,
        durations,
        settlingPercent,
        settlingDelayDurations,
        flatPercent);
  }

  /**
   * With another idea of settled.
   *
   * @param bandPercent half width of the band about a state, above 0 to 49 % of the amplitude
   * @param delayDurations from when on the settling error is taken, 0 to 1e6 transition durations
   * @return the method
   * @throws IllegalArgumentException if one is out of range
   */
  public PulseMethod settling(double bandPercent, double delayDurations) {
    return new PulseMethod(
        levels,
        references,
        hysteresisPercent,
        regionDurations,
        bandPercent,
        delayDurations,
        flatPercent);
  }

  /**
   * With tilt over another part of a state.
   *
   * @param percent the middle part, 1 to 100 %
   * @return the method
   * @throws IllegalArgumentException if it is out of range
   */
  public PulseMethod flat(double percent) {
    return new PulseMethod(
        levels,
        references,
        hysteresisPercent,
        regionDurations,
        settlingPercent,
        settlingDelayDurations,
        percent);
  }

  /**
   * The pulses of a record.
   *
   * @param record what was stored
   * @return its pulses; of an empty record or an envelope, no figure of which is taken
   * @throws NullPointerException if the record is missing
   */
  @Override
  public Outcome<PulseAnalysis> of(Record record) {
    return new Outcome.Taken<>(PulseAnalysis.of(record, this));
  }

  /**
   * The pulses of a waveform.
   *
   * @param truth the waveform
   * @param fromSeconds start of the span
   * @param toSeconds end of the span, after its start
   * @return its pulses
   * @throws IllegalArgumentException if the span is empty, or has more pieces than are looked at
   * @throws NullPointerException if the waveform is missing
   */
  @Override
  public Outcome<PulseAnalysis> of(Waveform truth, double fromSeconds, double toSeconds) {
    return new Outcome.Taken<>(PulseAnalysis.of(truth, fromSeconds, toSeconds, this));
  }

  @Override
  public String toString() {
    return "states: "
        + levels
        + "; references: "
        + references
        + "; hysteresis "
        + Quantity.of(hysteresisPercent, "%")
        + "; regions of "
        + regionDurations
        + " durations; settled within "
        + Quantity.of(settlingPercent, "%")
        + ", error from "
        + settlingDelayDurations
        + " durations on; tilt over "
        + Quantity.of(flatPercent, "%");
  }
}
