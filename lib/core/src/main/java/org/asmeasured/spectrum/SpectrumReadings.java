package org.asmeasured.spectrum;

import java.util.List;
import java.util.Optional;
import org.asmeasured.internal.Require;
import org.asmeasured.measure.Reading;

/**
 * Readings of a spectrum, each of a record and of the truth. Their definitions stand at the head of
 * this package.
 *
 * <p>Of a record they come from a {@link HarmonicMethod}; of a waveform from its Fourier
 * coefficients. A waveform without distortion and noise reads 0 as THD, as noise and distortion and
 * as noise floor; SINAD, SNR, SFDR and effective bits of it have no bound and are not taken.
 */
public final class SpectrumReadings {
  private SpectrumReadings() {}

  /**
   * Total harmonic distortion, a plain number: 0.01 is 1 %, or -40 dB.
   *
   * @param method how harmonics are looked for
   * @return the reading
   * @throws NullPointerException if the method is missing
   */
  public static Reading thd(HarmonicMethod method) {
    return new HarmonicReading(HarmonicReading.Kind.THD, method, 0);
  }

  /**
   * Everything but the fundamental and the mean, in volts RMS. Its truth is 0 V for a sine, so that
   * a prediction can say which stage it comes from.
   *
   * @param method how harmonics are looked for
   * @return the reading
   * @throws NullPointerException if the method is missing
   */
  public static Reading noiseAndDistortion(HarmonicMethod method) {
    return new HarmonicReading(HarmonicReading.Kind.NOISE_AND_DISTORTION, method, 0);
  }

  /**
   * Signal to noise and distortion, in dB.
   *
   * @param method how harmonics are looked for
   * @return the reading
   * @throws NullPointerException if the method is missing
   */
  public static Reading sinad(HarmonicMethod method) {
    return new HarmonicReading(HarmonicReading.Kind.SINAD, method, 0);
  }

  /**
   * Signal to noise without the harmonics, in dB.
   *
   * @param method how harmonics are looked for
   * @return the reading
   * @throws NullPointerException if the method is missing
   */
  public static Reading snr(HarmonicMethod method) {
    return new HarmonicReading(HarmonicReading.Kind.SNR, method, 0);
  }

  /**
   * Spurious-free dynamic range, in dB.
   *
   * @param method how harmonics are looked for
   * @return the reading
   * @throws NullPointerException if the method is missing
   */
  public static Reading sfdr(HarmonicMethod method) {
    return new HarmonicReading(HarmonicReading.Kind.SFDR, method, 0);
  }

  /**
   * The noise floor, in V/sqrt(Hz).
   *
   * @param method how harmonics are looked for
   * @return the reading
   * @throws NullPointerException if the method is missing
   */
  public static Reading noiseFloor(HarmonicMethod method) {
    return new HarmonicReading(HarmonicReading.Kind.NOISE_FLOOR, method, 0);
  }

  /**
   * Effective bits from SINAD: as if the sine filled the range of the converter.
   *
   * @param method how harmonics are looked for
   * @return the reading
   * @throws NullPointerException if the method is missing
   */
  public static Reading effectiveBits(HarmonicMethod method) {
    return new HarmonicReading(HarmonicReading.Kind.EFFECTIVE_BITS, method, 0);
  }

  /**
   * Effective bits of a converter with a given range, however much of it the sine fills.
   *
   * @param method how harmonics are looked for
   * @param fullScaleVolts the range, above 0 V, at most 1e9 V
   * @return the reading
   * @throws IllegalArgumentException if the range is out of range
   * @throws NullPointerException if the method is missing
   */
  public static Reading effectiveBits(HarmonicMethod method, double fullScaleVolts) {
    Require.positiveVolts("fullScaleVolts", fullScaleVolts);
    return new HarmonicReading(HarmonicReading.Kind.EFFECTIVE_BITS, method, fullScaleVolts);
  }

  /**
   * The frequency of the fundamental, in Hz.
   *
   * @param method how harmonics are looked for
   * @return the reading
   * @throws NullPointerException if the method is missing
   */
  public static Reading fundamentalFrequency(HarmonicMethod method) {
    return new HarmonicReading(HarmonicReading.Kind.FREQUENCY, method, 0);
  }

  /**
   * The amplitude of the fundamental: of the cosine, half its peak to peak, in volts.
   *
   * @param method how harmonics are looked for
   * @return the reading
   * @throws NullPointerException if the method is missing
   */
  public static Reading fundamentalAmplitude(HarmonicMethod method) {
    return new HarmonicReading(HarmonicReading.Kind.AMPLITUDE, method, 0);
  }

  /**
   * The amplitude at a frequency: of the cosine, half its peak to peak, in volts. Of a record that
   * is what a tone there must have to leave what is there; of the truth, 0 V where it has no line.
   *
   * @param method how the spectrum is taken
   * @param frequencyHz 1e-9 to 1e15 Hz
   * @return the reading
   * @throws IllegalArgumentException if the frequency is out of range
   * @throws NullPointerException if the method is missing
   */
  public static Reading amplitudeAt(SpectrumMethod method, double frequencyHz) {
    return new AmplitudeReading(method, frequencyHz);
  }

  /**
   * How a reading of this class looks for harmonics: for whoever wants to show what it rests on.
   *
   * @param reading any reading
   * @return its method; empty if it is not one of this class, or an amplitude at a frequency
   * @throws NullPointerException if the reading is missing
   */
  public static Optional<HarmonicMethod> harmonicMethodOf(Reading reading) {
    return Require.present("reading", reading) instanceof HarmonicReading harmonic
        ? Optional.of(harmonic.method())
        : Optional.empty();
  }

  /**
   * How a reading of this class takes the spectrum.
   *
   * @param reading any reading
   * @return its method; empty if it is not one of this class
   * @throws NullPointerException if the reading is missing
   */
  public static Optional<SpectrumMethod> spectrumMethodOf(Reading reading) {
    return Require.present("reading", reading) instanceof AmplitudeReading amplitude
        ? Optional.of(amplitude.method())
        : harmonicMethodOf(reading).map(HarmonicMethod::spectrum);
  }

  /**
   * The readings of this class by {@link HarmonicMethod#standard}, in the order in which they stand
   * here, without those that need a range or a frequency.
   *
   * @return unmodifiable
   */
  public static List<Reading> all() {
    HarmonicMethod method = HarmonicMethod.standard();
    return List.of(
        thd(method),
        noiseAndDistortion(method),
        sinad(method),
        snr(method),
        sfdr(method),
        noiseFloor(method),
        effectiveBits(method),
        fundamentalFrequency(method),
        fundamentalAmplitude(method));
  }
}
