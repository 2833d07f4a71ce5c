package org.asmeasured.scenario;

import java.util.List;
import org.asmeasured.internal.Require;

/**
 * One direction of a sweep: a value of the scenario that is varied, and others that move with it.
 *
 * @param values the value itself first; each is set to as many numbers or whole values as the
 *     others
 * @param isRatio whether the numbers of the first are spaced by a ratio, so that a logarithmic axis
 *     shows them evenly
 */
public record SweepAxis(List<SweptValue> values, boolean isRatio) {

  /**
   * Checks and copies.
   *
   * @param values at least one
   * @param isRatio whether the numbers of the first are spaced by a ratio
   * @throws IllegalArgumentException if there is none, their numbers are not as many, the first has
   *     a number or a label twice, or a ratio is claimed where not all are numbers above 0
   * @throws NullPointerException if it is missing
   */
  public SweepAxis {
    values = List.copyOf(Require.present("values", values));
    Require.that(!values.isEmpty(), "values = []: must have at least one");
    List<Double> numbers = values.get(0).numbers();
    for (SweptValue other : values) {
      Require.that(
          other.numbers().size() == numbers.size(),
          other.name()
              + " has "
              + other.numbers().size()
              + " numbers: must have "
              + numbers.size()
              + ", as many as "
              + values.get(0).name());
    }
    Require.that(
        numbers.stream().distinct().count() == numbers.size(),
        values.get(0).name() + ": each number must be given once");
    SweptValue first = values.get(0);
    Require.that(
        first.wholes().stream().map(SweptValue.Whole::label).distinct().count()
            == first.wholes().size(),
        first.name() + ": each label must be given once");
    Require.that(
        !isRatio || !first.isWhole(),
        "isRatio = true: " + first.name() + " must be set to numbers, not to whole values");
    Require.that(
        !isRatio || numbers.stream().allMatch(n -> n > 0),
        "isRatio = true: each number of " + values.get(0).name() + " must be above 0");
  }

  /**
   * How many places it has.
   *
   * @return at least 1
   */
  public int size() {
    return values.get(0).numbers().size();
  }
}
