package org.asmeasured.advice;

import java.util.List;
import java.util.OptionalDouble;
import org.asmeasured.accuracy.Measurement;
import org.asmeasured.capture.Setup;
import org.asmeasured.measure.Reading;

/**
 * One combination of settings, what it gives and what it costs. Immutable.
 *
 * <p>Figures come from the trials that the search spent on it; {@link #scoreError} tells how sure
 * they are. Bandwidth and rules are worked out when they are asked for.
 */
public final class Candidate {
  private final List<String> settings;
  private final Measurement measurement;
  private final Reading reading;
  private final double truth;
  private final double bias;
  private final double standardUncertainty;
  private final double coverageFactor;
  private final double scoreError;
  private final int trials;
  private final OptionalDouble acquisitionSeconds;

  Candidate(
      List<String> settings, Reading reading, double truth, double coverageFactor, Runner runner) {
    this.settings = List.copyOf(settings);
    this.measurement = runner.measurement;
    this.reading = reading;
    this.truth = truth;
    this.coverageFactor = coverageFactor;
    trials = runner.done();
    bias = runner.figures(trials).mean();
    standardUncertainty = runner.figures(trials).standardUncertainty();
    scoreError = runner.scoreError(trials, coverageFactor, null);
    acquisitionSeconds = runner.acquisitionSeconds();
  }

  /**
   * Which settings are other than asked, as a person would say it.
   *
   * @return unmodifiable; empty for the setup as asked
   */
  public List<String> settings() {
    return settings;
  }

  /**
   * The setup with these settings.
   *
   * @return the setup
   */
  public Setup setup() {
    return measurement.setup();
  }

  /**
   * The mean reading: the measurand and the bias.
   *
   * @return in the reading's unit
   */
  public double measured() {
    return truth + bias;
  }

  /**
   * The mean error, of the reading of the signal over the span that was asked for.
   *
   * @return in the reading's unit
   */
  public double bias() {
    return bias;
  }

  /**
   * The standard uncertainty of the reading.
   *
   * @return in the reading's unit
   */
  public double standardUncertainty() {
    return standardUncertainty;
  }

  /**
   * The expanded uncertainty U = k u.
   *
   * @return in the reading's unit
   */
  public double expandedUncertainty() {
    return coverageFactor * standardUncertainty;
  }

  /**
   * What is to be small: U + |bias|.
   *
   * @return in the reading's unit
   */
  public double score() {
    return expandedUncertainty() + Math.abs(bias);
  }

  /**
   * The standard error of the score, for so many trials; an upper estimate, since the draws are
   * more even than random ones.
   *
   * @return in the reading's unit
   */
  public double scoreError() {
    return scoreError;
  }

  /**
   * From how many trials the figures come.
   *
   * @return 16 or more
   */
  public int trials() {
    return trials;
  }

  /**
   * The time that the acquisitions take: their spans, and of triggered ones the mean times of
   * rearming and waiting.
   *
   * @return in s; empty where the event does not come often enough
   */
  public OptionalDouble acquisitionSeconds() {
    return acquisitionSeconds;
  }

  /**
   * The half-power frequency of what the record keeps: of the analog chain, together with a mean of
   * raw samples where the decimation is one.
   *
   * @return in Hz; empty where nothing limits it
   */
  public OptionalDouble bandwidthHz() {
    return EffectiveBandwidth.hertz(measurement.setup());
  }

  /**
   * What the rules of common practice say of it.
   *
   * @return a finding for each rule, unmodifiable
   */
  public List<Rule.Finding> rules() {
    return Rule.all(measurement, reading);
  }

  /** Settings, and the reading with its expanded uncertainty. */
  @Override
  public String toString() {
    return (settings.isEmpty() ? "as asked" : String.join(", ", settings))
        + ": "
        + PlusMinus.of(measured(), expandedUncertainty(), reading.unit());
  }
}
