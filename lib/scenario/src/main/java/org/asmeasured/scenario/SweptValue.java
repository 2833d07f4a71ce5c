package org.asmeasured.scenario;

import java.util.List;
import java.util.stream.IntStream;
import org.asmeasured.internal.Require;

/**
 * A value of a scenario, and what it is set to in turn: numbers, or whole values of any kind, such
 * as one coupling after the other.
 *
 * @param pointer JSON pointer (RFC 6901) to the value in the text of the scenario, for instance
 *     {@code /setup/vertical/voltsPerDivision}; where the scenario leaves the last key out it is
 *     put there
 * @param name what tables and pictures call it, not blank
 * @param unit SI unit, as the key of the number tells it; empty for a pure number
 * @param numbers what it is set to, in that unit, each finite, at least one; of whole values their
 *     places, from 0
 * @param wholes the whole values; empty where it is set to numbers
 */
public record SweptValue(
    String pointer, String name, String unit, List<Double> numbers, List<Whole> wholes) {

  /**
   * A value of any kind.
   *
   * @param label what tables and pictures call it, not blank
   * @param json its text in JSON
   */
  public record Whole(String label, String json) {

    /**
     * Checks the values.
     *
     * @param label not blank
     * @param json its text in JSON
     * @throws IllegalArgumentException if the label is blank
     * @throws ScenarioException if the text is no JSON value
     * @throws NullPointerException if one is missing
     */
    public Whole {
      Require.present("label", label);
      Require.that(!label.isBlank(), "label = \"" + label + "\": must not be blank");
      Require.present("json", json);
      Json alone = Json.parse("value", "{\"value\":" + json + "}");
      Require.that(alone.members().size() == 1, "json = " + json + ": must be one JSON value");
    }
  }

  /**
   * A number, and what it is set to in turn.
   *
   * @param pointer JSON pointer to the number
   * @param name not blank
   * @param unit may be empty
   * @param numbers at least one, each finite
   * @throws IllegalArgumentException if the name is blank, there is no number, or one is not finite
   * @throws NullPointerException if one is missing
   */
  public SweptValue(String pointer, String name, String unit, List<Double> numbers) {
    this(pointer, name, unit, numbers, List.of());
  }

  /**
   * Whole values.
   *
   * @param pointer JSON pointer to the value
   * @param name not blank
   * @param wholes what it is set to in turn, at least one
   * @return set to one after the other; its numbers are their places, from 0
   * @throws IllegalArgumentException if the name is blank, or there is none
   * @throws NullPointerException if one is missing
   */
  public static SweptValue ofWholes(String pointer, String name, List<Whole> wholes) {
    return new SweptValue(pointer, name, "", places(Require.present("wholes", wholes)), wholes);
  }

  private static List<Double> places(List<Whole> wholes) {
    return IntStream.range(0, wholes.size()).mapToObj(i -> (double) i).toList();
  }

  /**
   * Checks and copies.
   *
   * @param pointer JSON pointer to the number
   * @param name not blank
   * @param unit may be empty
   * @param numbers at least one, each finite
   * @param wholes empty, or one for each number
   * @throws IllegalArgumentException if the name is blank, there is no number, one is not finite,
   *     or those of whole values are not their places
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
    wholes = List.copyOf(Require.present("wholes", wholes));
    Require.that(
        wholes.isEmpty() || numbers.equals(places(wholes)),
        "numbers = " + numbers + ": must be the places of the whole values, from 0");
  }

  /**
   * Whether it is set to whole values instead of numbers.
   *
   * @return true if so
   */
  public boolean isWhole() {
    return !wholes.isEmpty();
  }

  /** What it is set to at a coordinate, as JSON. */
  String json(double coordinate) {
    return isWhole() ? wholes.get((int) coordinate).json() : Numbers.text(coordinate);
  }

  /** What it is set to at a coordinate, without its unit. */
  String label(double coordinate) {
    return isWhole() ? wholes.get((int) coordinate).label() : Numbers.text(coordinate);
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
