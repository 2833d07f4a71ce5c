package org.asmeasured.scenario;

import java.util.Optional;
import org.asmeasured.accuracy.Sensitivity;
import org.asmeasured.accuracy.Verdict;
import org.asmeasured.internal.Require;
import org.asmeasured.measure.Measured;
import org.asmeasured.measure.Measured.Value;
import org.asmeasured.measure.Outcome;

/**
 * What came of one reading at one point of a sweep.
 *
 * @param name what it is called, unlike the others of its row
 * @param unit of all its figures but the ruling
 * @param truth the reading of the signal itself
 * @param measured the reading of the record
 * @param sureness how sure it is, where that is asked for
 */
public record SweptReading(
    String name, String unit, Measured truth, Measured measured, Optional<Sureness> sureness) {

  /**
   * How sure a reading is.
   *
   * @param mean the mean reading over instruments and captures
   * @param standardUncertainty of the reading
   * @param lower end of the interval in which 95 % of the readings lie, as many beyond either end
   * @param upper end of that interval
   * @param sensitivity by what share a change of the quantity shows in the reading, in its unit; or
   *     why that was not checked
   * @param ruling about the limit of this reading, where one is stated
   */
  public record Sureness(
      Measured mean,
      Measured standardUncertainty,
      Measured lower,
      Measured upper,
      Outcome<Sensitivity> sensitivity,
      Optional<Outcome<Verdict.Ruling>> ruling) {

    /**
     * Checks that all is there.
     *
     * @param mean the mean reading
     * @param standardUncertainty of the reading
     * @param lower end of the interval
     * @param upper end of the interval
     * @param sensitivity or why it was not checked
     * @param ruling may be empty
     * @throws NullPointerException if one is missing
     */
    public Sureness {
      Require.present("mean", mean);
      Require.present("standardUncertainty", standardUncertainty);
      Require.present("lower", lower);
      Require.present("upper", upper);
      Require.present("sensitivity", sensitivity);
      Require.present("ruling", ruling);
    }
  }

  /**
   * Checks that all is there and of one unit.
   *
   * @param name what it is called
   * @param unit of its figures
   * @param truth the reading of the signal itself
   * @param measured the reading of the record
   * @param sureness may be empty
   * @throws IllegalArgumentException if the sensitivity is of another unit
   * @throws NullPointerException if one is missing
   */
  public SweptReading {
    Require.present("name", name);
    Require.present("unit", unit);
    Require.present("truth", truth);
    Require.present("measured", measured);
    Require.present("sureness", sureness);
    if (sureness.isPresent()
        && sureness.get().sensitivity() instanceof Outcome.Taken<Sensitivity> taken) {
      String its = taken.result().unit();
      Require.that(
          its.equals(unit),
          "unit of the sensitivity = \""
              + its
              + "\": must be that of the reading, \""
              + unit
              + '"');
    }
  }

  /**
   * As measured less truth.
   *
   * @return in the reading's unit; the reason, if one of the two could not be taken
   */
  public Measured bias() {
    if (measured instanceof Value m && truth instanceof Value t) {
      return new Value(m.value() - t.value());
    }
    return measured.isTaken() ? truth : measured;
  }
}
