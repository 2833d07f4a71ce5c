package org.asmeasured.accuracy;

import java.util.function.ToDoubleFunction;
import org.asmeasured.internal.Require;

/**
 * One figure of a measurement that may be other than stated: a bandwidth, a gain error, the
 * resistance of a source. Open: a parameter of your own says where the figure stands and what the
 * measurement is with another one. {@link Parameters} has the usual ones. An implementation is
 * immutable and used by several threads at once.
 */
public interface Parameter {

  /**
   * What it is called in budgets and messages.
   *
   * @return not blank
   */
  String name();

  /**
   * The SI unit of the figure.
   *
   * @return V, s, Hz, ...; empty for a plain number
   */
  String unit();

  /**
   * The figure as stated.
   *
   * @param measurement where it stands
   * @return in the unit
   * @throws IllegalArgumentException if the measurement has no such figure
   */
  double of(Measurement measurement);

  /**
   * The same measurement with another figure.
   *
   * @param measurement not changed
   * @param value in the unit
   * @return the measurement
   * @throws IllegalArgumentException if the measurement has no such figure, or cannot have this one
   */
  Measurement with(Measurement measurement, double value);

  /**
   * The measurement with one figure changed.
   *
   * @see Parameter#of(String, String, ToDoubleFunction, Change)
   */
  @FunctionalInterface
  interface Change {

    /**
     * The same measurement with another figure.
     *
     * @param measurement not changed
     * @param value in the unit
     * @return the measurement
     */
    Measurement of(Measurement measurement, double value);
  }

  /**
   * A parameter by two functions.
   *
   * @param name not blank
   * @param unit empty for a plain number
   * @param stated the figure of a measurement
   * @param change the measurement with another figure
   * @return the parameter
   * @throws IllegalArgumentException if the name is blank
   * @throws NullPointerException if an argument is missing
   */
  static Parameter of(
      String name, String unit, ToDoubleFunction<Measurement> stated, Change change) {
    Require.present("name", name);
    Require.that(!name.isBlank(), "name = \"" + name + "\": must not be blank");
    Require.present("unit", unit);
    Require.present("stated", stated);
    Require.present("change", change);
    return new Parameter() {
      @Override
      public String name() {
        return name;
      }

      @Override
      public String unit() {
        return unit;
      }

      @Override
      public double of(Measurement measurement) {
        return stated.applyAsDouble(measurement);
      }

      @Override
      public Measurement with(Measurement measurement, double value) {
        return change.of(measurement, value);
      }

      @Override
      public String toString() {
        return name;
      }
    };
  }
}
