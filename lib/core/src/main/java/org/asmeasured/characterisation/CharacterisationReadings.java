package org.asmeasured.characterisation;

import java.util.List;
import org.asmeasured.internal.Require;
import org.asmeasured.measure.Measured;
import org.asmeasured.measure.Reading;

/**
 * Figures of the four-parameter sine fit as readings. Of a waveform in closed form they are those
 * of the sine for which the integral of the squared remainder over the span is least; so the truth
 * of a pure sine is that sine, and of a distorted one, its best sine and its own distortion.
 */
public final class CharacterisationReadings {
  private static final Reading AMPLITUDE =
      new SineReading("sine amplitude", "V", f -> new Measured.Value(f.amplitude()));
  private static final Reading FREQUENCY =
      new SineReading("sine frequency", "Hz", f -> new Measured.Value(f.frequency()));
  private static final Reading OFFSET =
      new SineReading("sine offset", "V", f -> new Measured.Value(f.offset()));
  private static final Reading RESIDUAL =
      new SineReading("residual noise", "V", f -> new Measured.Value(f.residual()));

  private CharacterisationReadings() {}

  /**
   * The amplitude of the sine fitted, in volts.
   *
   * @return the reading
   */
  public static Reading sineAmplitude() {
    return AMPLITUDE;
  }

  /**
   * The frequency of the sine fitted, in hertz.
   *
   * @return the reading
   */
  public static Reading sineFrequency() {
    return FREQUENCY;
  }

  /**
   * The offset of the sine fitted, in volts.
   *
   * @return the reading
   */
  public static Reading sineOffset() {
    return OFFSET;
  }

  /**
   * Noise and distortion: the root mean square of what the sine leaves over, in volts.
   *
   * @return the reading
   */
  public static Reading residualNoise() {
    return RESIDUAL;
  }

  /**
   * The effective number of bits by {@link SineFit#effectiveBits}. Not taken where nothing is left
   * over: of a pure sine it has no bound, so that its truth is not taken either.
   *
   * @param fullScaleVolts the converter's span, above 0 to 1e9 V
   * @return the reading, in bits
   * @throws IllegalArgumentException if the full scale is out of range
   */
  public static Reading effectiveBits(double fullScaleVolts) {
    Require.positiveVolts("fullScaleVolts", fullScaleVolts);
    return new SineReading(
        "effective bits by sine fit",
        "bit",
        fullScaleVolts,
        f ->
            f.leavesSomething()
                ? new Measured.Value(SineFit.bits(fullScaleVolts, f.residual()))
                : new Measured.NotTaken(SineFit.NOTHING_LEFT + "the number of bits has no bound"));
  }

  /**
   * Whether a reading is a figure of the sine fit.
   *
   * @param reading any reading
   * @return true for those of this class
   * @throws NullPointerException if the reading is missing
   */
  public static boolean isOfSineFit(Reading reading) {
    return Require.present("reading", reading) instanceof SineReading;
  }

  /**
   * Every reading of this class without a parameter, in the order in which they stand here.
   *
   * @return unmodifiable
   */
  public static List<Reading> all() {
    return List.of(AMPLITUDE, FREQUENCY, OFFSET, RESIDUAL);
  }
}
