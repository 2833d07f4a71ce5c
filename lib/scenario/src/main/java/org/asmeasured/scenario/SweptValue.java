package org.asmeasured.scenario;

import java.util.List;
import org.asmeasured.internal.Require;

/**
 * A number of a scenario, and what it is set to in turn.
 *
 * @param pointer JSON pointer (RFC 6901) to the number in the text of the scenario, for instance
 *     {@code /setup/vertical/voltsPerDivision}
 * @param name what tables and pictures call it, not blank
 * @param unit SI unit, as the key of the number tells it; empty for a pure number
 * @param numbers what it is set to, in that unit, each finite, at least one
 */
public record SweptValue(String pointer, String name, String unit, List<Double> numbers) {

  /**
   * Checks and copies.
   *
   * @param pointer JSON pointer to the number
   * @param name not blank
   * @param unit may be empty
   * @param numbers at least one, each finite
   * @throws IllegalArgumentException if the name is blank, there is no number, or one is not finite
   * @throws NullPointerException if one is missing
   */
  public SweptValue {
    Require.present("pointer", pointer);
    Require.present("name", name);
    Require.that(!name.isBlank(), "name = \"" + name + "\": must not be blank");
    Require.present("unit", unit);
    numbers = List.copyOf(Require.present("numbers", numbers));
    Require.that(!numbers.isEmpty(), "numbers = []: must have at least one");
    for (double number : numbers) {
      Require.inRange("numbers", number, unit, -Double.MAX_VALUE, Double.MAX_VALUE);
    }
  }

  /**
   * The name with its unit, as a table heads a column.
   *
   * @return for instance "volts per division (V)"
   */
  public String heading() {
    return unit.isEmpty() ? name : name + " (" + unit + ")";
  }
}
