package org.asmeasured.spectrum;

import org.asmeasured.capture.Record;
import org.asmeasured.internal.Quantity;
import org.asmeasured.internal.Require;
import org.asmeasured.measure.Analysis;
import org.asmeasured.measure.Outcome;
import org.asmeasured.signal.Waveform;

/**
 * How a fundamental and its harmonics are looked for.
 *
 * @param spectrum how the spectrum is taken, with the mean removed
 * @param highestOrder the last harmonic that counts as one, 2 to 1000; what lies above is noise
 * @param fundamentalHz the fundamental, 1e-9 to 1e15 Hz, above half the rate too; 0 for the
 *     strongest line
 */
public record HarmonicMethod(SpectrumMethod spectrum, int highestOrder, double fundamentalHz)
    implements Analysis<Harmonics> {
  private static final HarmonicMethod STANDARD =
      new HarmonicMethod(
          SpectrumMethod.wholeRecord(Window.blackmanHarris()).withMeanRemoved(), 10, 0);

  /**
   * Checks the method.
   *
   * @param spectrum how the spectrum is taken, with the mean removed
   * @param highestOrder the last harmonic that counts as one
   * @param fundamentalHz the fundamental; 0 for the strongest line
   * @throws IllegalArgumentException if a value is out of range, or the mean is left in
   * @throws NullPointerException if there is no spectrum
   */
  public HarmonicMethod {
    Require.present("spectrum", spectrum);
    Require.that(
        spectrum.meanRemoved(),
        "spectrum.meanRemoved = false: must be true, or the mean hides what is slow");
    Require.inRange("highestOrder", highestOrder, 2, 1000);
    if (fundamentalHz != 0) {
      Require.hertz("fundamentalHz", fundamentalHz);
    }
  }

  /**
   * Blackman-Harris over the whole record; the strongest line; harmonics 2 to 10 (IEEE Std
   * 1241-2010, total harmonic distortion: the nine lowest by default, from memory).
   *
   * @return the method
   */
  public static HarmonicMethod standard() {
    return STANDARD;
  }

  /**
   * This method with another spectrum.
   *
   * @param value how the spectrum is taken, with the mean removed
   * @return the changed method
   * @throws IllegalArgumentException if the mean is left in
   * @throws NullPointerException if it is missing
   */
  public HarmonicMethod withSpectrum(SpectrumMethod value) {
    return new HarmonicMethod(value, highestOrder, fundamentalHz);
  }

  /**
   * This method with another window.
   *
   * @param value weights
   * @return the changed method
   * @throws IllegalArgumentException if the segments are too short for it
   * @throws NullPointerException if it is missing
   */
  public HarmonicMethod withWindow(Window value) {
    return withSpectrum(spectrum.withWindow(value));
  }

  /**
   * This method with another number of harmonics.
   *
   * @param value the last harmonic that counts as one, 2 to 1000
   * @return the changed method
   * @throws IllegalArgumentException if the order is out of range
   */
  public HarmonicMethod withHighestOrder(int value) {
    return new HarmonicMethod(spectrum, value, fundamentalHz);
  }

  /**
   * This method with the fundamental given, as the signal has it: it may fold too.
   *
   * @param value 1e-9 to 1e15 Hz
   * @return the changed method
   * @throws IllegalArgumentException if the frequency is out of range
   */
  public HarmonicMethod withFundamentalHz(double value) {
    Require.hertz("fundamentalHz", value);
    return new HarmonicMethod(spectrum, highestOrder, value);
  }

  /**
   * The harmonics of a record.
   *
   * @param record what was stored
   * @return the harmonics, or why there are none
   * @throws NullPointerException if the record is missing
   */
  @Override
  public Outcome<Harmonics> of(Record record) {
    return spectrum.of(record).then(this::in);
  }

  /**
   * The harmonics of a waveform, from its Fourier coefficients: nothing folds, and nothing is
   * noise.
   *
   * @param truth the waveform
   * @param fromSeconds start of the span
   * @param toSeconds end of the span, after its start
   * @return the harmonics, or why there are none
   * @throws IllegalArgumentException if the span is empty or an end of it is not finite
   * @throws NullPointerException if the waveform is missing
   */
  @Override
  public Outcome<Harmonics> of(Waveform truth, double fromSeconds, double toSeconds) {
    return TrueHarmonics.of(truth, fromSeconds, toSeconds, this);
  }

  /**
   * The harmonics of values at equal distances.
   *
   * @param volts the values, each -1e9 to 1e9 V
   * @param rateHz values a second, 1e-9 to 1e15 Hz
   * @return the harmonics, or why there are none
   * @throws IllegalArgumentException if the rate or a value is out of range
   * @throws NullPointerException if there is no array
   */
  public Outcome<Harmonics> of(double[] volts, double rateHz) {
    return spectrum.of(volts, rateHz).then(this::in);
  }

  /**
   * The harmonics in a spectrum that is there.
   *
   * @param taken a spectrum of this method
   * @return the harmonics, or why there are none
   * @throws IllegalArgumentException if the spectrum was taken in another way
   * @throws NullPointerException if the spectrum is missing
   */
  public Outcome<Harmonics> of(Spectrum taken) {
    Require.present("taken", taken);
    Require.that(
        taken.method().equals(spectrum),
        "taken = " + taken + ": must be a spectrum of " + spectrum);
    return in(taken);
  }

  private Outcome<Harmonics> in(Spectrum taken) {
    return new HarmonicSearch(taken, highestOrder, fundamentalHz).harmonics();
  }

  @Override
  public String toString() {
    return "harmonics 2 to "
        + highestOrder
        + " of "
        + (fundamentalHz == 0 ? "the strongest line" : Quantity.of(fundamentalHz, "Hz"))
        + ", "
        + spectrum;
  }
}
