package org.asmeasured.measure;

import java.util.OptionalDouble;
import org.apache.commons.math3.analysis.integration.gauss.GaussIntegrator;
import org.apache.commons.math3.analysis.integration.gauss.GaussIntegratorFactory;
import org.asmeasured.capture.Record;
import org.asmeasured.measure.Measured.NotTaken;
import org.asmeasured.measure.Measured.Value;
import org.asmeasured.signal.Waveform;

/** The root of the mean square distance from the mean. */
final class AcRmsReading implements Reading {
  /**
   * Below this share of the mean square, its difference to the squared mean has lost too many
   * digits.
   */
  private static final double CANCELLED = 1e-3;

  /**
   * Between knots a waveform turns at most a quarter of a cycle: 16 points integrate its square to
   * the last digit.
   */
  private static final GaussIntegrator UNIT = new GaussIntegratorFactory().legendre(16);

  @Override
  public String name() {
    return "AC RMS";
  }

  @Override
  public String unit() {
    return "V";
  }

  @Override
  public Measured of(Record record) {
    return Spans.spoilt(name(), record)
        .orElseGet(
            () ->
                record.size() < 2
                    ? new NotTaken("a single point has no alternating part")
                    : new Value(Math.sqrt(Sums.variance(record))));
  }

  /**
   * The mean square less the square of the mean; where these are nearly equal, a small ripple on a
   * large rail, the distance from the mean is integrated itself, over one period and the rest if
   * there are periods.
   */
  @Override
  public Measured of(Waveform truth, double fromSeconds, double toSeconds) {
    return Spans.taken(truth, fromSeconds, toSeconds, () -> taken(truth, fromSeconds, toSeconds));
  }

  private Measured taken(Waveform truth, double fromSeconds, double toSeconds) {
    double mean = truth.mean(fromSeconds, toSeconds);
    double rms = truth.rms(fromSeconds, toSeconds);
    double variance = (rms - Math.abs(mean)) * (rms + Math.abs(mean));
    if (variance < CANCELLED * rms * rms) {
      variance = meanSquareDistance(truth, mean, fromSeconds, toSeconds);
    }
    return new Value(Math.sqrt(Math.max(0, variance)));
  }

  private static double meanSquareDistance(Waveform truth, double mean, double from, double to) {
    OptionalDouble period = truth.periodSeconds();
    double span = to - from;
    if (period.isPresent() && span >= 2 * period.getAsDouble()) {
      double length = period.getAsDouble();
      double cycles = Math.floor(span / length);
      double whole = integral(truth, mean, from, from + length) * cycles;
      double rest = span - cycles * length;
      double end = from + rest;
      return (whole + (end > from ? integral(truth, mean, from, end) : 0)) / span;
    }
    return integral(truth, mean, from, to) / span;
  }

  private static double integral(Waveform truth, double mean, double from, double to) {
    double[] knots = truth.knots(from, to);
    double sum = 0;
    for (int k = 1; k < knots.length; k++) {
      double middle = knots[k - 1] + (knots[k] - knots[k - 1]) / 2;
      double half = (knots[k] - knots[k - 1]) / 2;
      sum +=
          half
              * UNIT.integrate(
                  x -> {
                    double distance = truth.valueAt(middle + half * x) - mean;
                    return distance * distance;
                  });
    }
    return sum;
  }

  @Override
  public String toString() {
    return name();
  }
}
