package org.asmeasured.characterisation;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.asmeasured.capture.Record;
import org.asmeasured.internal.Quantity;
import org.asmeasured.internal.Require;
import org.asmeasured.measure.Measured;
import org.asmeasured.measure.Outcome;

/**
 * What a recorder makes of a step: levels, transition duration, overshoot, settling, and the
 * frequency response that follows from it. From one record or from the mean of several of the same
 * step at the same place. Immutable.
 *
 * <p><b>Definitions</b> (IEEE Std 1057-2017, step response parameters, with IEEE Std 181's levels
 * and transition; clauses from memory). The levels are the means of the first and of the last
 * points of the record: a share of all, 10 % unless stated. All else is in shares of the amplitude,
 * the second level less the first, and for a falling step upside down. Instants are interpolated by
 * straight lines between points. The 50 % instant is the first crossing of 50 %; the 10 % instant
 * is the last crossing before it and the 90 % instant the first one after. Overshoot and preshoot
 * are the greatest excess over the second level after the 50 % instant, and below the first level
 * before it. Settling is counted from the 50 % instant.
 *
 * <p><b>Limits of validity.</b> The step must have settled within the record on both sides. Noise
 * adds its extremes to overshoot and settling: take the mean of many records. Straight lines
 * between few points on the edge make it look slower: see {@link #pointsOnTransition}.
 */
public final class StepResponse {
  /** Points of a record that make a level, unless stated. */
  private static final double LEVEL_SHARE = 0.1;

  private static final int LEAST_POINTS = 8;

  private final double startSeconds;
  private final double rateHz;
  private final double first;
  private final double second;
  private final double[] shares;
  private final double at10;
  private final double at50;
  private final double at90;

  private StepResponse(
      double startSeconds,
      double rateHz,
      double first,
      double second,
      double[] shares,
      double[] instants) {
    this.startSeconds = startSeconds;
    this.rateHz = rateHz;
    this.first = first;
    this.second = second;
    this.shares = shares;
    at10 = instants[0];
    at50 = instants[1];
    at90 = instants[2];
  }

  /**
   * The response in one record, with levels from a tenth of it at either end.
   *
   * @param record at least 8 points
   * @return the response; or a reason: no points, an envelope, too few points, clipped, no step, or
   *     a step that reaches into the points that make the levels
   * @throws NullPointerException if the record is missing
   */
  public static Outcome<StepResponse> of(Record record) {
    return of(List.of(Require.present("record", record)), LEVEL_SHARE);
  }

  /**
   * The response in the mean of several records.
   *
   * @param records of as many points, the same rate and the same place about the step
   * @param levelShare share of the points at either end that makes a level, 0.001 to 0.45
   * @return the response, or a reason as above
   * @throws IllegalArgumentException if there is no record, they differ in size or rate, or the
   *     share is out of range
   * @throws NullPointerException if the list or a record is missing
   */
  public static Outcome<StepResponse> of(List<Record> records, double levelShare) {
    Require.present("records", records);
    Require.inRange("records.size", records.size(), 1, Integer.MAX_VALUE);
    Require.inRange("levelShare", levelShare, "", 0.001, 0.45);
    Record one = Require.present("records[0]", records.get(0));
    for (int i = 0; i < records.size(); i++) {
      Record record = Require.present("records[" + i + "]", records.get(i));
      Require.that(
          record.size() == one.size() && record.rateHz() == one.rateHz(),
          "records["
              + i
              + "] = "
              + record
              + ": must have the size and rate of records[0] = "
              + one);
      Optional<String> reason = Records.noValues("a step response", record);
      if (reason.isEmpty() && record.clippedLow() + record.clippedHigh() > 0) {
        reason = Optional.of("the record is clipped: " + record.notes().values());
      }
      if (reason.isPresent()) {
        return new Outcome.NotTaken<>(reason.get());
      }
    }
    if (one.size() < LEAST_POINTS) {
      return new Outcome.NotTaken<>(
          one.size() + " points: at least " + LEAST_POINTS + " are needed for a step response");
    }
    return of(one.timeSeconds(0), one.rateHz(), mean(records), levelShare);
  }

  private static double[] mean(List<Record> records) {
    double[] mean = records.get(0).volts();
    for (int k = 1; k < records.size(); k++) {
      double[] values = records.get(k).volts();
      for (int i = 0; i < mean.length; i++) {
        // running means stay within the range of the values, however many there are
        mean[i] += (values[i] - mean[i]) / (k + 1);
      }
    }
    return mean;
  }

  private static Outcome<StepResponse> of(
      double startSeconds, double rateHz, double[] values, double levelShare) {
    int n = values.length;
    int ends = Math.max(1, (int) (levelShare * n));
    double first = SineKernels.sum(values, 0, ends) / ends;
    double second = SineKernels.sum(values, n - ends, ends) / ends;
    double amplitude = second - first;
    if (amplitude == 0) {
      return new Outcome.NotTaken<>("both levels are equal: there is no step");
    }
    double[] shares = new double[n];
    for (int i = 0; i < n; i++) {
      shares[i] = (values[i] - first) / amplitude;
      if (!Double.isFinite(shares[i])) {
        return new Outcome.NotTaken<>(
            "the levels differ by no more than "
                + Quantity.of(amplitude, "V")
                + ": there is no step");
      }
    }
    for (int i = 0; i < n; i++) {
      if (shares[i] < -1 || shares[i] > 2) {
        return new Outcome.NotTaken<>(
            "point "
                + i
                + " lies further from both levels than these from one another: no step stands out");
      }
    }
    double[] instants = instants(shares);
    if (instants == null || instants[0] <= ends - 1 || instants[2] >= n - ends) {
      return new Outcome.NotTaken<>(
          "no transition between the first and the last "
              + ends
              + (ends == 1 ? " point," : " points,")
              + " which make the levels");
    }
    return new Outcome.Taken<>(
        new StepResponse(startSeconds, rateHz, first, second, shares, instants));
  }

  /** Where 10, 50 and 90 % are crossed, in points; null where they are not. */
  private static double[] instants(double[] shares) {
    int middle = 0;
    while (middle < shares.length && shares[middle] < 0.5) {
      middle++;
    }
    if (middle == 0 || middle == shares.length) {
      return null;
    }
    int low = middle - 1;
    while (low >= 0 && shares[low] > 0.1) {
      low--;
    }
    int high = middle;
    while (high < shares.length && shares[high] < 0.9) {
      high++;
    }
    if (low < 0 || high == shares.length) {
      return null;
    }
    return new double[] {
      crossing(shares, low, 0.1), crossing(shares, middle - 1, 0.5), crossing(shares, high - 1, 0.9)
    };
  }

  private static double crossing(double[] shares, int before, double level) {
    return before + (level - shares[before]) / (shares[before + 1] - shares[before]);
  }

  /**
   * The level before the step.
   *
   * @return volts
   */
  public double firstLevelVolts() {
    return first;
  }

  /**
   * The level after the step.
   *
   * @return volts
   */
  public double secondLevelVolts() {
    return second;
  }

  /**
   * The second level less the first.
   *
   * @return volts, negative for a falling step, never 0
   */
  public double amplitudeVolts() {
    return second - first;
  }

  /**
   * The 50 % instant.
   *
   * @return seconds, on the time axis of the first record
   */
  public double instantSeconds() {
    return startSeconds + at50 / rateHz;
  }

  /**
   * From the 10 % to the 90 % instant.
   *
   * @return seconds
   */
  public double transitionSeconds() {
    return (at90 - at10) / rateHz;
  }

  /**
   * How many intervals between points the transition takes: below about 10, straight lines between
   * them show.
   *
   * @return the transition duration times the rate
   */
  public double pointsOnTransition() {
    return at90 - at10;
  }

  /**
   * The overshoot.
   *
   * @return share of the amplitude, 0 or more
   */
  public double overshoot() {
    double most = 0;
    for (int i = (int) at50 + 1; i < shares.length; i++) {
      most = Math.max(most, shares[i] - 1);
    }
    return most;
  }

  /**
   * The preshoot.
   *
   * @return share of the amplitude, 0 or more
   */
  public double preshoot() {
    double most = 0;
    for (int i = 0; i <= (int) at50; i++) {
      most = Math.max(most, -shares[i]);
    }
    return most;
  }

  /**
   * The step in shares of its amplitude: 0 is the first level, 1 the second.
   *
   * @return a new array, a value a point
   */
  public double[] shares() {
    return shares.clone();
  }

  /**
   * Settling as a curve: how far from the second level the step still gets, at this point or any
   * later.
   *
   * @return a new array, a value a point, in shares of the amplitude, never rising
   */
  public double[] settling() {
    double[] curve = new double[shares.length];
    double most = 0;
    for (int i = shares.length - 1; i >= 0; i--) {
      most = Math.max(most, Math.abs(shares[i] - 1));
      curve[i] = most;
    }
    return curve;
  }

  /**
   * From the 50 % instant until the step stays within a band about its second level, for the rest
   * of the record.
   *
   * @param tolerance half of the band, share of the amplitude, 1e-9 to 0.4
   * @return seconds; not taken if the step is outside the band at the record's last point or only
   *     enters it among the points that make the level
   * @throws IllegalArgumentException if the tolerance is out of range
   */
  public Measured settlingSeconds(double tolerance) {
    Require.inRange("tolerance", tolerance, "", 1e-9, 0.4);
    int last = shares.length - 1;
    while (last >= 0 && Math.abs(shares[last] - 1) <= tolerance) {
      last--;
    }
    if (last >= shares.length - 2) {
      return new Measured.NotTaken(
          "the step does not settle to " + tolerance + " of its amplitude within the record");
    }
    double edge = shares[last] < 1 ? 1 - tolerance : 1 + tolerance;
    return new Measured.Value((crossing(shares, last, edge) - at50) / rateHz);
  }

  /**
   * The frequency response that follows from the step, of the whole record.
   *
   * @return the response
   */
  public FrequencyResponse frequencyResponse() {
    return FrequencyResponse.of(shares, rateHz, at50);
  }

  /**
   * The same from a part of the record about the step alone. What lies outside is held to be level,
   * and its noise does not enter.
   *
   * @param beforeSeconds length of the part ahead of the 50 % instant, 1e-18 to 1e12 s
   * @param afterSeconds length of the part behind it, 1e-18 to 1e12 s
   * @return the response, at the same frequencies as that of the whole record
   * @throws IllegalArgumentException if a length is out of range
   */
  public FrequencyResponse frequencyResponse(double beforeSeconds, double afterSeconds) {
    Require.duration("beforeSeconds", beforeSeconds);
    Require.duration("afterSeconds", afterSeconds);
    double[] part = shares.clone();
    int from = (int) Math.max(0, Math.ceil(at50 - beforeSeconds * rateHz));
    int to = (int) Math.min(part.length - 1.0, Math.floor(at50 + afterSeconds * rateHz));
    Arrays.fill(part, 0, Math.min(from, part.length), part[Math.min(from, part.length - 1)]);
    Arrays.fill(part, Math.max(0, to), part.length, part[Math.max(0, to)]);
    return FrequencyResponse.of(part, rateHz, at50);
  }

  @Override
  public String toString() {
    return "step from "
        + Quantity.of(first, "V")
        + " to "
        + Quantity.of(second, "V")
        + " in "
        + Quantity.of(transitionSeconds(), "s")
        + ", overshoot "
        + Quantity.of(100 * overshoot(), "%");
  }
}
