package org.asmeasured.capture;

import org.asmeasured.acquisition.Ensemble;
import org.asmeasured.acquisition.EnvelopeAccumulator;
import org.asmeasured.acquisition.MeanAccumulator;

/**
 * Puts the acquisitions of an ensemble together: one as it is, their mean in volts, or their
 * envelope. Of acquisitions that are envelopes themselves, the mean is that of the least and that
 * of the greatest values. For one thread; acquisitions are added in their order.
 */
final class Gathering {
  private final Ensemble ensemble;
  private final int points;
  private final boolean coded;
  private final boolean pairs;
  private final double offsetVolts;
  private final double stepVolts;
  private final MeanAccumulator lowerMean;
  private final MeanAccumulator upperMean;
  private final EnvelopeAccumulator envelope;
  private Record.Points lower;
  private Record.Points upper;
  private int count;

  /**
   * For acquisitions of one kind.
   *
   * @param coded whether they are codes, not volts
   * @param pairs whether each point has two values
   * @param offsetVolts at code 0
   * @param stepVolts from code to code
   */
  Gathering(
      Ensemble ensemble,
      int points,
      boolean coded,
      boolean pairs,
      double offsetVolts,
      double stepVolts) {
    this.ensemble = ensemble;
    this.points = points;
    this.coded = coded;
    this.pairs = pairs;
    this.offsetVolts = offsetVolts;
    this.stepVolts = stepVolts;
    boolean mean = !ensemble.isSingle() && !ensemble.isEnvelope();
    lowerMean = mean ? accumulator() : null;
    upperMean = mean && pairs ? accumulator() : null;
    envelope = ensemble.isEnvelope() ? envelope() : null;
  }

  private MeanAccumulator accumulator() {
    return coded ? MeanAccumulator.ofCodes(points) : MeanAccumulator.ofVolts(points);
  }

  private EnvelopeAccumulator envelope() {
    return coded ? EnvelopeAccumulator.ofCodes(points) : EnvelopeAccumulator.ofVolts(points);
  }

  /** Whether the record has two values a point. */
  boolean isEnvelope() {
    return pairs || ensemble.isEnvelope();
  }

  /**
   * Adds an acquisition.
   *
   * @param newLower its points; kept, if it is the only one
   * @param newUpper its greatest values if each point has two; else not looked at
   */
  void add(Record.Points newLower, Record.Points newUpper) {
    if (ensemble.isSingle()) {
      lower = newLower;
      upper = pairs ? newUpper : newLower;
    } else if (envelope != null) {
      Record.Points above = pairs ? newUpper : newLower;
      if (coded) {
        envelope.add(newLower.codes(), above.codes());
      } else {
        envelope.add(newLower.volts(), above.volts());
      }
    } else {
      add(lowerMean, newLower);
      if (pairs) {
        add(upperMean, newUpper);
      }
    }
    count++;
  }

  private void add(MeanAccumulator mean, Record.Points more) {
    if (coded) {
      mean.add(more.codes());
    } else {
      mean.add(more.volts());
    }
  }

  /** How many acquisitions were added. */
  int count() {
    return count;
  }

  /** Closes the ensemble, after at least one acquisition. */
  void finish() {
    if (count == 0) {
      throw new IllegalStateException("no acquisition was added");
    }
    if (envelope != null) {
      lower = places();
      upper = places();
      if (coded) {
        envelope.envelope(lower.codes(), upper.codes());
      } else {
        envelope.envelope(lower.volts(), upper.volts());
      }
    } else if (lowerMean != null) {
      lower = mean(lowerMean);
      upper = pairs ? mean(upperMean) : lower;
    }
  }

  private Record.Points places() {
    return coded
        ? new Record.Points(new int[points], null)
        : new Record.Points(null, new double[points]);
  }

  /** In volts: a mean of codes may fall between codes. */
  private Record.Points mean(MeanAccumulator accumulator) {
    double[] volts = new double[points];
    accumulator.mean(volts);
    if (coded) {
      Kernels.volts(volts, points, offsetVolts, stepVolts);
    }
    return new Record.Points(null, volts);
  }

  /** The points; the least values of an envelope. */
  Record.Points lower() {
    return lower;
  }

  /** The greatest values of an envelope; else the points. */
  Record.Points upper() {
    return upper;
  }
}
