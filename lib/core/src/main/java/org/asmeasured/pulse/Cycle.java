package org.asmeasured.pulse;

/**
 * A whole cycle, between the middle instants of two transitions of one polarity.
 *
 * @param startsRising whether it begins with a rising transition
 * @param startSeconds when it begins, seconds after {@link PulseAnalysis#originSeconds}
 * @param positiveSeconds how long it is above the middle level: the duration of its positive pulse,
 *     and the separation of its negative ones
 * @param negativeSeconds how long it is below: the duration of its negative pulse, and the
 *     separation of its positive ones
 */
public record Cycle(
    boolean startsRising, double startSeconds, double positiveSeconds, double negativeSeconds) {

  /**
   * The length of the cycle.
   *
   * @return seconds
   */
  public double periodSeconds() {
    return positiveSeconds + negativeSeconds;
  }

  /**
   * The share of the cycle that the positive pulse lasts.
   *
   * @return 0 to 100 %
   */
  public double dutyFactorPercent() {
    return 100 * positiveSeconds / (positiveSeconds + negativeSeconds);
  }
}
