package org.asmeasured.accuracy;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Predicate;
import org.asmeasured.internal.Require;
import org.asmeasured.uncertainty.Distribution;
import org.asmeasured.uncertainty.Extremities;
import org.asmeasured.uncertainty.Input;
import org.asmeasured.uncertainty.Inputs;
import org.asmeasured.uncertainty.RefusedInput;

/**
 * What is known of a measurement's parameters, and contributions of which the model knows nothing.
 * Immutable.
 *
 * <p>A parameter with a tolerance is drawn from its distribution in each trial; the figure that the
 * measurement states for it no longer counts. What is not named is taken to be exact.
 *
 * <p>A contribution is an error added to every reading of its unit: the stated uncertainty of a
 * calibration certificate, a drift with temperature. A relative one, of unit "", is a fraction of
 * each reading.
 */
public final class Tolerances {
  private static final Tolerances NONE = new Tolerances(List.of(), List.of(), List.of());

  private final List<Toleranced> parameters;
  private final List<Contribution> contributions;
  private final List<Correlation> correlations;

  /** A parameter and what is known of it. */
  record Toleranced(Parameter parameter, Input input) {}

  /** An error added to readings; relative to the reading if so. */
  record Contribution(Input input, boolean relative) {
    boolean concerns(String unit) {
      return relative || input.unit().equals(unit);
    }
  }

  private record Correlation(String first, String second, double coefficient) {}

  private Tolerances(
      List<Toleranced> parameters,
      List<Contribution> contributions,
      List<Correlation> correlations) {
    this.parameters = parameters;
    this.contributions = contributions;
    this.correlations = correlations;
  }

  /**
   * Every parameter exact.
   *
   * @return no tolerances
   */
  public static Tolerances none() {
    return NONE;
  }

  /**
   * With one more parameter that is not exact.
   *
   * @param parameter which
   * @param distribution what is known of it, in its unit
   * @return the changed tolerances
   * @throws IllegalArgumentException if its name is taken
   * @throws NullPointerException if an argument is missing
   */
  public Tolerances with(Parameter parameter, Distribution distribution) {
    Require.present("parameter", parameter);
    return with(parameter, Input.of(parameter.name(), parameter.unit(), distribution));
  }

  /**
   * With one more parameter that is not exact, under a name and with degrees of freedom of its own.
   *
   * @param parameter which
   * @param input what is known of it, in the parameter's unit
   * @return the changed tolerances
   * @throws IllegalArgumentException if the name is taken or the unit another
   * @throws NullPointerException if an argument is missing
   */
  public Tolerances with(Parameter parameter, Input input) {
    Require.present("parameter", parameter);
    requireNew(input);
    Require.that(
        input.unit().equals(parameter.unit()),
        "unit of " + input.name() + " = " + input.unit() + ": must be " + parameter.unit());
    return new Tolerances(
        longer(parameters, new Toleranced(parameter, input)), contributions, correlations);
  }

  /**
   * With an error that is added to every reading of its unit.
   *
   * @param contribution the error, in the unit of the readings that it concerns
   * @return the changed tolerances
   * @throws IllegalArgumentException if its name is taken
   * @throws NullPointerException if it is missing
   */
  public Tolerances plus(Input contribution) {
    requireNew(contribution);
    return new Tolerances(
        parameters, longer(contributions, new Contribution(contribution, false)), correlations);
  }

  /**
   * With an error that is a fraction of every reading.
   *
   * @param contribution the error, a plain number
   * @return the changed tolerances
   * @throws IllegalArgumentException if its name is taken or it has a unit
   * @throws NullPointerException if it is missing
   */
  public Tolerances plusRelative(Input contribution) {
    requireNew(contribution);
    Require.that(
        contribution.unit().isEmpty(),
        "unit of " + contribution.name() + " = " + contribution.unit() + ": must be empty");
    return new Tolerances(
        parameters, longer(contributions, new Contribution(contribution, true)), correlations);
  }

  /**
   * With two that are correlated.
   *
   * @param first name of one
   * @param second name of another
   * @param coefficient r, -1 to 1
   * @return the changed tolerances
   * @throws IllegalArgumentException if there is no such name, or no quantities can be correlated
   *     so
   */
  public Tolerances correlated(String first, String second, double coefficient) {
    Tolerances changed =
        new Tolerances(
            parameters,
            contributions,
            longer(correlations, new Correlation(first, second, coefficient)));
    inputs().correlated(first, second, coefficient); // refuses what there is not
    return changed;
  }

  /**
   * With several that are correlated with one another, all at once: of three no two can be stated
   * alone where the third must follow.
   *
   * @param names of those
   * @param coefficients r, symmetric, 1 on the diagonal, of no negative eigenvalue, in the order of
   *     the names
   * @return the changed tolerances
   * @throws IllegalArgumentException if there is no such name, or no quantities can be correlated
   *     so
   * @throws NullPointerException if an argument is missing
   */
  public Tolerances correlated(List<String> names, double[][] coefficients) {
    Require.present("names", names);
    Require.present("coefficients", coefficients);
    Inputs all = inputs();
    List<Input> named = names.stream().map(n -> all.get(all.index(n))).toList();
    Inputs.of(named).withCorrelations(coefficients); // refuses what there is not
    List<Correlation> more = new ArrayList<>(correlations);
    for (int i = 0; i < names.size(); i++) {
      for (int j = 0; j < i; j++) {
        more.add(new Correlation(names.get(i), names.get(j), coefficients[i][j]));
      }
    }
    Tolerances changed = new Tolerances(parameters, contributions, List.copyOf(more));
    changed.inputs(); // refuses what the others do not allow
    return changed;
  }

  private void requireNew(Input input) {
    Require.present("input", input);
    for (Input known : list()) {
      Require.that(
          !known.name().equals(input.name()), "name = " + input.name() + ": must not come twice");
    }
  }

  private static <T> List<T> longer(List<T> list, T last) {
    List<T> longer = new ArrayList<>(list);
    longer.add(last);
    return List.copyOf(longer);
  }

  /**
   * What is known of every parameter and of every contribution, in this order.
   *
   * @return an unchangeable list
   */
  public List<Input> list() {
    List<Input> list = new ArrayList<>();
    parameters.forEach(p -> list.add(p.input()));
    contributions.forEach(c -> list.add(c.input()));
    return List.copyOf(list);
  }

  /** Parameters first, then contributions. */
  Inputs inputs() {
    return inputs(list());
  }

  /** Some of them and others, with the correlations among those that are there. */
  Inputs inputs(List<Input> some) {
    Inputs inputs = Inputs.of(some);
    List<String> names = some.stream().map(Input::name).toList();
    double[][] r = new double[some.size()][some.size()];
    for (int i = 0; i < r.length; i++) {
      r[i][i] = 1;
    }
    boolean any = false;
    for (Correlation c : correlations) {
      int i = names.indexOf(c.first());
      int j = names.indexOf(c.second());
      if (i >= 0 && j >= 0) {
        r[i][j] = c.coefficient();
        r[j][i] = c.coefficient();
        any = true;
      }
    }
    // at once: some of the correlations without the others may not be possible
    return any ? inputs.withCorrelations(r) : inputs;
  }

  List<Toleranced> parameters() {
    return parameters;
  }

  List<Contribution> contributions() {
    return contributions;
  }

  /** The measurement at drawn values, of which the first belong to the parameters. */
  Measurement drawn(Measurement stated, double[] values) {
    Measurement drawn = stated;
    for (int i = 0; i < parameters.size(); i++) {
      drawn = with(drawn, parameters.get(i), values[i]);
    }
    return drawn;
  }

  private static Measurement with(Measurement measurement, Toleranced p, double value) {
    try {
      return p.parameter().with(measurement, value);
    } catch (IllegalArgumentException refused) {
      throw has(measurement, p.parameter()) ? new RefusedInput(p.input(), value, refused) : refused;
    }
  }

  /**
   * Refuses tolerances that reach where a measurement cannot be, such as a negative bandwidth: each
   * parameter is tried at both ends of its distribution, the others at their estimates ({@link
   * Extremities}). No capture is made. Who makes trials calls it before the first, so that a
   * refusal does not depend on what happens to be drawn.
   *
   * @param stated the measurement as stated
   * @throws IllegalArgumentException naming the one parameter that is refused and its distribution;
   *     or if the measurement has no such parameter
   * @throws NullPointerException if it is missing
   */
  public void requirePossible(Measurement stated) {
    Require.present("stated", stated);
    Extremities.require(
        inputs(parameters.stream().map(Toleranced::input).toList()), x -> drawn(stated, x));
  }

  /**
   * These and others, such as those of an instrument and of its probe.
   *
   * @param others whose names are other ones
   * @return all of them, these first
   * @throws IllegalArgumentException if a name is taken
   * @throws NullPointerException if they are missing
   */
  public Tolerances and(Tolerances others) {
    Require.present("others", others);
    Tolerances all = this;
    for (Toleranced p : others.parameters) {
      all = all.with(p.parameter(), p.input());
    }
    for (Contribution c : others.contributions) {
      all = c.relative() ? all.plusRelative(c.input()) : all.plus(c.input());
    }
    for (Correlation c : others.correlations) {
      all = all.correlated(c.first(), c.second(), c.coefficient());
    }
    return all;
  }

  /**
   * Those of parameters that a measurement has, with all contributions: a bandwidth limit that is
   * switched off has no half-power frequency to be uncertain of.
   *
   * @param measurement the measurement
   * @return the tolerances that concern it
   * @throws NullPointerException if it is missing
   */
  public Tolerances concerning(Measurement measurement) {
    Require.present("measurement", measurement);
    return only(p -> has(measurement, p));
  }

  /**
   * Those of some parameters, with all contributions.
   *
   * @param which whether a parameter is one of them
   * @return the tolerances of these parameters, with the correlations among them
   * @throws NullPointerException if it is missing
   */
  public Tolerances only(Predicate<Parameter> which) {
    Require.present("which", which);
    List<Toleranced> there = parameters.stream().filter(p -> which.test(p.parameter())).toList();
    if (there.size() == parameters.size()) {
      return this;
    }
    List<String> names = new ArrayList<>();
    there.forEach(p -> names.add(p.input().name()));
    contributions.forEach(c -> names.add(c.input().name()));
    return new Tolerances(
        there,
        contributions,
        correlations.stream()
            .filter(c -> names.contains(c.first()) && names.contains(c.second()))
            .toList());
  }

  /**
   * Whether a parameter has a tolerance here, under whatever name.
   *
   * @param parameter which, by its own name
   * @return false if it is exact
   * @throws NullPointerException if it is missing
   */
  public boolean areOf(Parameter parameter) {
    Require.present("parameter", parameter);
    return parameters.stream().anyMatch(p -> p.parameter().name().equals(parameter.name()));
  }

  /** A parameter says by an exception that a measurement has no such figure. */
  static boolean has(Measurement measurement, Parameter parameter) {
    try {
      parameter.of(measurement);
      return true;
    } catch (IllegalArgumentException none) {
      return false;
    }
  }

  /**
   * The measurement with every parameter at its estimate.
   *
   * @param stated the measurement as stated
   * @return the changed measurement
   * @throws IllegalArgumentException if it has no such parameter, or cannot have the estimate,
   *     naming its distribution
   * @throws NullPointerException if it is missing
   */
  public Measurement atEstimates(Measurement stated) {
    Require.present("stated", stated);
    return drawn(
        stated,
        parameters.stream().mapToDouble(p -> p.input().distribution().estimate()).toArray());
  }

  @Override
  public String toString() {
    List<Input> list = list();
    if (list.isEmpty()) {
      return "no tolerances";
    }
    StringBuilder words = new StringBuilder();
    for (Input input : list) {
      words.append(words.isEmpty() ? "" : "; ").append(input.name()).append(' ');
      words.append(input.distribution().words(input.unit()));
    }
    return words.toString();
  }
}
