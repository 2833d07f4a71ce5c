package org.asmeasured.advice;

import java.math.BigDecimal;
import java.util.Optional;
import org.asmeasured.accuracy.Measurement;
import org.asmeasured.accuracy.Parameter;
import org.asmeasured.accuracy.Tolerances;
import org.asmeasured.capture.Setup;
import org.asmeasured.frontend.FrontEnd;
import org.asmeasured.frontend.Probe;
import org.asmeasured.internal.Require;

/**
 * An instrument of a bench: what it is by itself, what is known of its figures, and what can be
 * set. Immutable.
 *
 * @param name as a person would say it, not blank
 * @param setup termination, input rating, own stages, bandwidth, limit, saturation and noise of its
 *     front end, divisions and errors of its vertical scale, converter and its noise, sampler; what
 *     else the setup has is taken from what is asked
 * @param mostRateHz its highest raw sample rate, 1e-9 to 1e15 Hz
 * @param mostPoints its memory, 1 to 2<sup>28</sup> stored points
 * @param probe what it has at its input; empty for the probe that is asked for
 * @param tolerances what is known of its parameters, and of the probe's
 * @param choices what can be set
 */
public record Instrument(
    String name,
    Setup setup,
    double mostRateHz,
    int mostPoints,
    Optional<Probe> probe,
    Tolerances tolerances,
    Choices choices) {
  private static final double ROUNDING = 1e-9;

  /**
   * Checks the values.
   *
   * @param name as a person would say it, not blank
   * @param setup what it is by itself
   * @param mostRateHz its highest raw sample rate, 1e-9 to 1e15 Hz
   * @param mostPoints its memory, 1 to 2<sup>28</sup> stored points
   * @param probe what it has at its input; empty for the probe that is asked for
   * @param tolerances what is known of its parameters, and of the probe's
   * @param choices what can be set
   * @throws IllegalArgumentException if a value is out of range
   * @throws NullPointerException if one is missing
   */
  public Instrument {
    Require.present("name", name);
    Require.that(!name.isBlank(), "name = \"" + name + "\": must not be blank");
    Require.present("setup", setup);
    Require.hertz("mostRateHz", mostRateHz);
    Require.inRange("mostPoints", mostPoints, 1, Setup.MAX_POINTS);
    Require.present("probe", probe);
    Require.present("tolerances", tolerances);
    Require.present("choices", choices);
  }

  /**
   * The same instrument with a probe of its own.
   *
   * @param probeName as a person would say it, not blank
   * @param value the probe
   * @param its what is known of its parameters
   * @return the instrument with the probe, named so
   * @throws IllegalArgumentException if the name is blank, or a tolerance has a name that is taken
   * @throws NullPointerException if an argument is missing
   */
  public Instrument withProbe(String probeName, Probe value, Tolerances its) {
    Require.present("probeName", probeName);
    Require.that(!probeName.isBlank(), "probeName = \"" + probeName + "\": must not be blank");
    return new Instrument(
        name + " with " + probeName,
        setup,
        mostRateHz,
        mostPoints,
        Optional.of(Require.present("value", value)),
        tolerances.and(its),
        choices);
  }

  /**
   * A measurement as this instrument makes it. The source, coupling, volts per division, offset,
   * start, span, decimation, averaging and trigger are those that are asked for, and so is the
   * probe unless it has its own. Its raw rate is the highest of its greatest and of 1, 2 and 5
   * times powers of ten below that with which the span fits into its memory.
   *
   * @param asked what is to be measured
   * @return the measurement by this instrument
   * @throws IllegalArgumentException if it cannot
   * @throws NullPointerException if it is missing
   */
  public Measurement of(Measurement asked) {
    Setup wanted = Require.present("asked", asked).setup();
    FrontEnd source = wanted.frontEnd();
    int factor = wanted.decimation().factor();
    double rate = rateHz(wanted.spanSeconds() / factor);
    Setup made =
        setup
            .source(source.source())
            .probe(probe.orElse(source.probe()))
            .coupling(source.coupling())
            .sourceNoise(source.sourceNoise())
            .sourceJitter(source.sourceJitter())
            .vertical(
                setup
                    .vertical()
                    .withVoltsPerDivision(wanted.vertical().voltsPerDivision())
                    .withOffset(wanted.vertical().offsetVolts()))
            .startingAt(wanted.startSeconds())
            .rateHz(rate)
            .points((int) Math.floor(wanted.spanSeconds() / factor * rate * (1 + ROUNDING)))
            .decimation(wanted.decimation())
            .ensemble(wanted.ensemble());
    return asked.withSetup(wanted.trigger().map(made::trigger).orElseGet(made::untriggered));
  }

  /**
   * The same instrument, with what is known of all that it does not bring itself: the signal, the
   * source, the probe unless it has its own, the start of the record, the trigger. Which parameters
   * these are is found by changing each in what is asked: those that change the measurement by this
   * instrument count. A tolerance of a parameter of which the instrument has its own does not.
   * Contributions count for every instrument.
   *
   * @param asked what is to be measured
   * @param stated what is known of it; those of the instrument that it was stated for are left out
   * @return the instrument with both
   * @throws IllegalArgumentException if two have one name
   * @throws NullPointerException if an argument is missing
   */
  public Instrument withTolerancesOf(Measurement asked, Tolerances stated) {
    Require.present("asked", asked);
    Require.present("stated", stated);
    return new Instrument(
        name,
        setup,
        mostRateHz,
        mostPoints,
        probe,
        tolerances.and(stated.only(p -> !tolerances.areOf(p) && isOf(asked, p))),
        choices);
  }

  private boolean isOf(Measurement asked, Parameter parameter) {
    try {
      double value = parameter.of(asked);
      // any other value that it can have
      double step = Math.max(1e-12, 1e-3 * Math.abs(value));
      for (double other : new double[] {value + step, value - step}) {
        Optional<Measurement> changed = changed(asked, parameter, other);
        if (changed.isPresent()) {
          return changed.get().signal() != asked.signal()
              || !of(changed.get()).setup().equals(of(asked).setup());
        }
      }
      return false;
    } catch (IllegalArgumentException none) {
      return false;
    }
  }

  private static Optional<Measurement> changed(Measurement asked, Parameter parameter, double to) {
    try {
      return Optional.of(parameter.with(asked, to));
    } catch (IllegalArgumentException impossible) {
      return Optional.empty();
    }
  }

  private double rateHz(double spanOverFactor) {
    double most = (mostPoints + ROUNDING) / spanOverFactor;
    double least = (1 - ROUNDING) / spanOverFactor;
    if (mostRateHz <= most && mostRateHz >= least) {
      return mostRateHz;
    }
    for (int exponent = 15; exponent >= -9; exponent--) {
      for (int digit : new int[] {5, 2, 1}) {
        double rate = BigDecimal.valueOf(digit).scaleByPowerOfTen(exponent).doubleValue();
        if (rate <= mostRateHz && rate <= most && rate >= least) {
          return rate;
        }
      }
    }
    throw new IllegalArgumentException(
        "span of the record: no rate of " + name + " makes 1 to " + mostPoints + " points of it");
  }

  @Override
  public String toString() {
    return name;
  }
}
