package org.asmeasured.pulse;

/**
 * What can be read of pulses. Where a quantity is one of a transition, the name says of which; an
 * aberration is in percent of the amplitude. The words are those of IEEE Std 181 (from memory).
 */
public enum PulseQuantity {
  /** Level of the low state. */
  LOW_LEVEL("low state level", "V", Of.LEVELS),
  /** Level of the high state. */
  HIGH_LEVEL("high state level", "V", Of.LEVELS),
  /** High less low state level. */
  AMPLITUDE("amplitude", "V", Of.LEVELS),
  /** From the low to the high reference level of a rising transition. */
  RISE_TIME("rise time", "s", Of.RISING),
  /** From the high to the low reference level of a falling transition. */
  FALL_TIME("fall time", "s", Of.FALLING),
  /** From a middle instant to the next of the same polarity. */
  PERIOD("period", "s", Of.CYCLES),
  /** One over the period. */
  FREQUENCY("frequency", "Hz", Of.CYCLES),
  /**
   * From a rising middle instant to the next falling one. It is also the separation of negative
   * pulses.
   */
  POSITIVE_DURATION("positive pulse duration", "s", Of.POSITIVE),
  /**
   * From a falling middle instant to the next rising one. It is also the separation of positive
   * pulses.
   */
  NEGATIVE_DURATION("negative pulse duration", "s", Of.NEGATIVE),
  /** The positive pulse duration of a cycle over its period. */
  DUTY_FACTOR("duty factor", "%", Of.CYCLES),
  /** How far the value goes beyond the high state in the region after a rising transition. */
  OVERSHOOT_RISING("overshoot after a rising transition", "%", Of.RISING),
  /** How far the value goes beyond the low state in the region after a falling transition. */
  OVERSHOOT_FALLING("overshoot after a falling transition", "%", Of.FALLING),
  /**
   * How far the value comes back from the high state, once reached, in the region after a rising
   * transition.
   */
  UNDERSHOOT_RISING("undershoot after a rising transition", "%", Of.RISING),
  /** How far the value comes back from the low state, once reached, after a falling transition. */
  UNDERSHOOT_FALLING("undershoot after a falling transition", "%", Of.FALLING),
  /** How far the value goes below the low state in the region before a rising transition. */
  PRESHOOT_RISING("preshoot before a rising transition", "%", Of.RISING),
  /** How far the value goes above the high state in the region before a falling transition. */
  PRESHOOT_FALLING("preshoot before a falling transition", "%", Of.FALLING),
  /**
   * By how much the high state of a positive pulse falls over the pulse duration, by a straight
   * line in least squares through the middle part of it.
   */
  TILT_HIGH("tilt of the high state", "%", Of.POSITIVE),
  /** By how much the low state of a negative pulse rises over the pulse duration. */
  TILT_LOW("tilt of the low state", "%", Of.NEGATIVE),
  /**
   * From the middle instant of a rising transition to when the value enters the band about the high
   * state for the last time, up to one duration of the next transition ahead of it, or the end.
   */
  SETTLING_RISING("settling duration after a rising transition", "s", Of.RISING),
  /** The same of a falling transition and the low state. */
  SETTLING_FALLING("settling duration after a falling transition", "s", Of.FALLING),
  /**
   * The greatest distance from the high state, from the stated delay after the middle instant of a
   * rising transition up to one duration of the next transition ahead of it, or the end.
   */
  SETTLING_ERROR_RISING("settling error after a rising transition", "%", Of.RISING),
  /** The same of a falling transition and the low state. */
  SETTLING_ERROR_FALLING("settling error after a falling transition", "%", Of.FALLING),
  /** The mean over whole cycles. */
  CYCLE_MEAN("mean over whole cycles", "V", Of.WHOLE),
  /** The root of the mean square over whole cycles. */
  CYCLE_RMS("RMS over whole cycles", "V", Of.WHOLE),
  /** The root of the mean square distance from the mean over whole cycles. */
  CYCLE_AC_RMS("AC RMS over whole cycles", "V", Of.WHOLE);

  /** What there is one figure for. */
  enum Of {
    LEVELS,
    RISING,
    FALLING,
    CYCLES,
    POSITIVE,
    NEGATIVE,
    WHOLE
  }

  private final String words;
  private final String unit;
  private final Of of;

  PulseQuantity(String words, String unit, Of of) {
    this.words = words;
    this.unit = unit;
    this.of = of;
  }

  /**
   * The quantity in a few words.
   *
   * @return its name
   */
  public String words() {
    return words;
  }

  /**
   * The unit of its values.
   *
   * @return V, s, Hz or %
   */
  public String unit() {
    return unit;
  }

  Of of() {
    return of;
  }

  /**
   * What a record with several is read as unless told otherwise: transitions by the first, cycles
   * and pulses by the mean.
   *
   * @return the summary
   */
  public Summary summary() {
    return of == Of.RISING || of == Of.FALLING ? Summary.FIRST : Summary.MEAN;
  }
}
