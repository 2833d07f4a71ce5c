package org.asmeasured.examples;

import java.util.List;
import java.util.OptionalDouble;
import org.asmeasured.signal.Waveform;

/**
 * Invented records and accounts, made by hand, so that pictures and pages are tested apart from the
 * library's figures.
 */
final class Sample {
  private Sample() {}

  /** A sine on a level. */
  record Sine(double levelVolts, double amplitudeVolts, double frequencyHz) implements Waveform {
    @Override
    public double valueAt(double t) {
      return levelVolts + amplitudeVolts * Math.sin(2 * Math.PI * frequencyHz * t);
    }

    @Override
    public double valueBefore(double t) {
      return valueAt(t);
    }

    @Override
    public double[] knots(double from, double to) {
      int pieces = Math.max(1, (int) Math.ceil((to - from) * frequencyHz * 4));
      double[] knots = new double[pieces + 1];
      for (int i = 0; i <= pieces; i++) {
        knots[i] = from + (to - from) * i / pieces;
      }
      return knots;
    }

    @Override
    public OptionalDouble periodSeconds() {
      return OptionalDouble.of(1 / frequencyHz);
    }

    @Override
    public double mean(double from, double to) {
      throw new UnsupportedOperationException();
    }

    @Override
    public double rms(double from, double to) {
      throw new UnsupportedOperationException();
    }

    @Override
    public double minimum(double from, double to) {
      return -new Sine(-levelVolts, amplitudeVolts, frequencyHz)
          .peak(from + 0.5 / frequencyHz, to + 0.5 / frequencyHz);
    }

    @Override
    public double maximum(double from, double to) {
      return peak(from, to);
    }

    private double peak(double from, double to) {
      double crest = (Math.ceil(from * frequencyHz - 0.25) + 0.25) / frequencyHz;
      return crest <= to ? levelVolts + amplitudeVolts : Math.max(valueAt(from), valueAt(to));
    }
  }

  /** A jump from 0 to 1 V. */
  record Jump(double atSeconds) implements Waveform {
    @Override
    public double valueAt(double t) {
      return t >= atSeconds ? 1 : 0;
    }

    @Override
    public double valueBefore(double t) {
      return t > atSeconds ? 1 : 0;
    }

    @Override
    public double[] knots(double from, double to) {
      return atSeconds > from && atSeconds < to
          ? new double[] {from, atSeconds, to}
          : new double[] {from, to};
    }

    @Override
    public OptionalDouble periodSeconds() {
      return OptionalDouble.empty();
    }

    @Override
    public double mean(double from, double to) {
      throw new UnsupportedOperationException();
    }

    @Override
    public double rms(double from, double to) {
      throw new UnsupportedOperationException();
    }

    @Override
    public double minimum(double from, double to) {
      return valueAt(from);
    }

    @Override
    public double maximum(double from, double to) {
      return valueAt(to);
    }
  }

  /** The sine in steps of a converter, point by point. */
  static Comparison points(
      Sine sine, double startSeconds, double rateHz, int size, double stepVolts) {
    double[] volts = new double[size];
    for (int i = 0; i < size; i++) {
      volts[i] = Math.rint(sine.valueAt(startSeconds + i / rateHz) / stepVolts) * stepVolts;
    }
    return new Comparison(startSeconds, rateHz, 0, volts, volts, stepVolts, null, sine, 0);
  }

  /** The extremes of the sine over each interval, in steps. */
  static Comparison envelope(Sine sine, double rateHz, int size, double stepVolts) {
    double[] lower = new double[size];
    double[] upper = new double[size];
    for (int i = 0; i < size; i++) {
      lower[i] = Math.rint(sine.minimum(i / rateHz, (i + 0.9) / rateHz) / stepVolts) * stepVolts;
      upper[i] = Math.rint(sine.maximum(i / rateHz, (i + 0.9) / rateHz) / stepVolts) * stepVolts;
    }
    return new Comparison(0, rateHz, 0.45 / rateHz, lower, upper, stepVolts, null, sine, 0);
  }

  static Reckoning ripple() {
    return new Reckoning(
        "peak to peak",
        "V",
        0.0200,
        0.0471,
        List.of(
            new Reckoning.Part("coupling", 0, true),
            new Reckoning.Part("bandwidth", -0.0003, true),
            new Reckoning.Part("quantisation", 0.0274, true)));
  }

  static Account account(Comparison comparison) {
    return new Account(
        "A rail, invented: <5 V & \"quiet\"",
        List.of("Invented for a test."),
        List.of(new Account.Fact("signal", "a sine"), new Account.Fact("converter", "8 bits")),
        List.of(
            Account.Outcome.taken(ripple(), StageTables.NONE),
            new Account.Outcome(
                "rise time",
                null,
                "1.200 ns",
                "not taken: there is no transition in the record",
                StageTables.NONE)),
        List.of("3 raw samples lay above the converter's range"),
        List.of("The ground clip is earth."),
        comparison);
  }
}
