package org.asmeasured.pulse;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.asmeasured.internal.Require;
import org.asmeasured.measure.Reading;

/**
 * Pulse readings, of a record and of the truth. Their definitions stand together at the head of
 * this package.
 */
public final class PulseReadings {
  private PulseReadings() {}

  /**
   * A quantity by the standard method, by its usual summary.
   *
   * @param quantity what is read
   * @return the reading
   * @throws NullPointerException if it is missing
   */
  public static Reading of(PulseQuantity quantity) {
    return of(quantity, PulseMethod.standard());
  }

  /**
   * A quantity by its usual summary.
   *
   * @param quantity what is read
   * @param method how pulses are analysed
   * @return the reading
   * @throws NullPointerException if one is missing
   */
  public static Reading of(PulseQuantity quantity, PulseMethod method) {
    return new PulseReading(
        quantity, method, quantity == null ? Summary.FIRST : quantity.summary());
  }

  /**
   * A quantity.
   *
   * @param quantity what is read
   * @param method how pulses are analysed
   * @param summary which figure stands for all of a record
   * @return the reading
   * @throws NullPointerException if one is missing
   */
  public static Reading of(PulseQuantity quantity, PulseMethod method, Summary summary) {
    return new PulseReading(quantity, method, summary);
  }

  /**
   * How a reading of this class analyses pulses: for whoever wants to show what it rests on.
   *
   * @param reading any reading
   * @return its method; empty if it is not one of this class
   * @throws NullPointerException if the reading is missing
   */
  public static Optional<PulseMethod> methodOf(Reading reading) {
    return Require.present("reading", reading) instanceof PulseReading pulse
        ? Optional.of(pulse.method())
        : Optional.empty();
  }

  /**
   * Every quantity by the standard method, by its usual summary.
   *
   * @return in the order of the quantities, unmodifiable
   */
  public static List<Reading> all() {
    List<Reading> all = new ArrayList<>();
    for (PulseQuantity quantity : PulseQuantity.values()) {
      all.add(of(quantity));
    }
    return List.copyOf(all);
  }

  /**
   * The 10-90 % duration of the first whole rising transition, in seconds.
   *
   * @return the reading
   */
  public static Reading riseTime() {
    return of(PulseQuantity.RISE_TIME);
  }

  /**
   * The 10-90 % duration of the first whole rising transition between given levels.
   *
   * @param lowVolts the 0 % level, -1e9 to 1e9 V
   * @param highVolts the 100 % level, above the other, -1e9 to 1e9 V
   * @return the reading
   * @throws IllegalArgumentException if a level is out of range or the second is not above the
   *     first
   */
  public static Reading riseTime(double lowVolts, double highVolts) {
    return of(
        PulseQuantity.RISE_TIME,
        PulseMethod.standard().levels(StateLevels.given(lowVolts, highVolts)));
  }

  /**
   * The 10-90 % duration of the first whole falling transition, in seconds.
   *
   * @return the reading
   */
  public static Reading fallTime() {
    return of(PulseQuantity.FALL_TIME);
  }

  /**
   * The mean period over the whole cycles in the span, in seconds.
   *
   * @return the reading
   */
  public static Reading period() {
    return of(PulseQuantity.PERIOD);
  }

  /**
   * One over the mean period over the whole cycles in the span, in hertz.
   *
   * @return the reading
   */
  public static Reading frequency() {
    return of(PulseQuantity.FREQUENCY);
  }

  /**
   * High less low state level, in volts.
   *
   * @return the reading
   */
  public static Reading amplitude() {
    return of(PulseQuantity.AMPLITUDE);
  }
}
