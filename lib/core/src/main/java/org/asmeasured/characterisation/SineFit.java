package org.asmeasured.characterisation;

import java.util.Optional;
import org.asmeasured.capture.Record;
import org.asmeasured.characterisation.SineSolver.Solution;
import org.asmeasured.characterisation.SineSolver.Trial;
import org.asmeasured.internal.Quantity;
import org.asmeasured.internal.Require;
import org.asmeasured.measure.Measured;
import org.asmeasured.measure.Outcome;

/**
 * The sine that comes nearest to the points of a record, in the sense of least squares: with its
 * frequency given (three parameters) or sought (four). Immutable.
 *
 * <pre>v(t) = offset + amplitude cos(2 pi frequency t + phase),    t = 0 at the first point</pre>
 *
 * <p>IEEE Std 1057-2017 and 1241-2010, sine fit with three and with four parameters (Annex A of
 * both, from memory). The standards write A cos + B sin + C: amplitude = hypot(A, B), phase =
 * atan2(-B, A).
 *
 * <p><b>What it tells.</b> The residual is noise and distortion: NAD = sqrt(sum of r<sup>2</sup>/M)
 * over M points (the standards divide by M, not by the degrees of freedom). From it come SINAD,
 * (amplitude/sqrt 2)/NAD, and the effective bits, log2(full scale/(sqrt 12 NAD)): an ideal
 * converter of that many bits would leave as much, if its error had the mean square of
 * q<sup>2</sup>/12.
 *
 * <p><b>Covariance.</b> That of the linearised problem, with the variance of the residual by its
 * degrees of freedom, M - 4 or M - 3. For white noise s it is the bound of Cramer and Rao; for many
 * points and periods var amplitude = 2 s<sup>2</sup>/M, var 2 pi frequency/rate = 24
 * s<sup>2</sup>/(A<sup>2</sup> M (M<sup>2</sup> - 1)) (D. Rife, R. Boorstyn, IEEE Trans. IT 20
 * (1974) 591, from memory).
 *
 * <p><b>Accuracy.</b> Without noise the parameters come back to 1e-12, whatever the length. The
 * phase of a place is reduced in cycles, and each step solves for what the one before has left
 * over.
 *
 * <p><b>Limits.</b> One sine alone is fitted: harmonics and trends stay in the residual, and over a
 * broken number of periods they lean on the parameters. The frequency sought lies between one
 * period in the record and half the rate; a start may be given beyond, for a sine that is folded.
 */
public final class SineFit {

  /** What is fitted. */
  public enum Parameter {
    /** Volts, half the peak to peak. */
    AMPLITUDE,
    /** Radians, of the cosine at the first point. */
    PHASE,
    /** Volts. */
    OFFSET,
    /** Hertz. */
    FREQUENCY
  }

  /** Said where a ratio to the residual is asked for. */
  static final String NOTHING_LEFT = "the sine leaves no more than rounding does: ";

  private final int points;
  private final double rateHz;
  private final boolean frequencyFitted;
  private final double amplitude;
  private final double phase;
  private final double offset;
  private final double cycles;
  private final double more;
  private final double residual;
  private final double[][] covariance;

  private SineFit(
      int points, double rateHz, boolean fitted, Solution solution, double centre, double unit) {
    this.points = points;
    this.rateHz = rateHz;
    frequencyFitted = fitted;
    Trial trial = solution.trial();
    double r = trial.amplitude();
    double middle = (points - 1) / 2.0;
    cycles = trial.cycles();
    more = trial.more();
    amplitude = r * unit;
    offset = centre + trial.level() * unit;
    phase =
        Cycles.wrapped(
            Math.atan2(-trial.b(), trial.a())
                - Cycles.radians(trial.cycles(), trial.more(), middle));
    residual = Math.sqrt(solution.meanSquare()) * unit;
    double freedom = points - (fitted ? 4 : 3);
    covariance = covariance(solution, points / 2.0, middle, unit, rateHz, points / freedom);
  }

  /** From a, b, level, radians at the ends to amplitude, phase, offset, frequency. */
  private static double[][] covariance(
      Solution solution, double half, double middle, double unit, double rate, double inflation) {
    Trial t = solution.trial();
    double r = t.amplitude();
    double c = t.a() / r;
    double s = -t.b() / r;
    double[][] derivative = {
      {c * unit, -s * unit, 0, 0},
      {-s / r, -c / r, 0, -middle / half},
      {0, 0, unit, 0},
      {0, 0, 0, rate / (2 * Math.PI * half)}
    };
    int n = solution.inverse().length;
    double variance = solution.meanSquare() * inflation;
    double[][] out = new double[4][4];
    for (int i = 0; i < 4; i++) {
      for (int k = 0; k < 4; k++) {
        for (int p = 0; p < n; p++) {
          for (int q = 0; q < n; q++) {
            out[i][k] += derivative[i][p] * solution.inverse()[p][q] * derivative[k][q] * variance;
          }
        }
      }
    }
    return out;
  }

  /**
   * The fit at a given frequency.
   *
   * @param record at least 4 points
   * @param frequencyHz 1e-9 to 1e15 Hz, at most 1e6 times the record's rate; known from elsewhere
   * @return the fit; or a reason: no points, an envelope, too few points, all values equal, less
   *     than one period in the record, or a frequency at which the points do not tell a sine from a
   *     constant
   * @throws IllegalArgumentException if the frequency is out of range
   * @throws NullPointerException if the record is missing
   */
  public static Outcome<SineFit> threeParameters(Record record, double frequencyHz) {
    Require.present("record", record);
    double cycles = cycles("frequencyHz", record, frequencyHz);
    return fitted(record, Optional.of(cycles), false);
  }

  /**
   * The fit of amplitude, phase, offset and frequency.
   *
   * @param record at least 5 points
   * @return the fit; or a reason: no points, an envelope, too few points, all values equal, less
   *     than one period in the record, or no convergence
   * @throws NullPointerException if the record is missing
   */
  public static Outcome<SineFit> fourParameters(Record record) {
    Require.present("record", record);
    return fitted(record, Optional.empty(), true);
  }

  /**
   * The same from a given start: for a sine above half the rate, or another than the strongest.
   *
   * @param record at least 5 points
   * @param startHz a guess good to less than one period over the record; 1e-9 to 1e15 Hz, at most
   *     1e6 times the record's rate
   * @return the fit, or a reason as above
   * @throws IllegalArgumentException if the start is out of range
   * @throws NullPointerException if the record is missing
   */
  public static Outcome<SineFit> fourParameters(Record record, double startHz) {
    Require.present("record", record);
    return fitted(record, Optional.of(cycles("startHz", record, startHz)), true);
  }

  private static double cycles(String name, Record record, double hertz) {
    Require.hertz(name, hertz);
    Require.that(
        hertz <= 1e6 * record.rateHz(),
        name
            + " = "
            + hertz
            + " Hz: must be at most 1e6 times the record's rate of "
            + record.rateHz()
            + " Hz");
    return hertz / record.rateHz();
  }

  private static Outcome<SineFit> fitted(Record record, Optional<Double> given, boolean free) {
    Optional<String> reason = Records.noValues("a sine fit", record);
    if (reason.isPresent()) {
      return new Outcome.NotTaken<>(reason.get());
    }
    return fitted(record.volts(), record.rateHz(), given, free);
  }

  /** The values are used up. */
  static Outcome<SineFit> fitted(
      double[] values, double rateHz, Optional<Double> given, boolean free) {
    int parameters = free ? 4 : 3;
    if (values.length <= parameters) {
      return notTaken(
          values.length
              + (values.length == 1 ? " point does" : " points do")
              + " not settle "
              + parameters
              + " parameters and leave a residual: at least "
              + (parameters + 1)
              + " are needed");
    }
    Normalised data = Normalised.inPlace(values);
    if (data.unit() == 0) {
      return notTaken("all values are equal: there is no sine");
    }
    if (!free && given.orElseThrow() * values.length < 1) {
      return notTaken(underAPeriod(given.orElseThrow() * values.length));
    }
    UniformSamples samples = new UniformSamples(values);
    Optional<Solution> solution =
        free
            ? SineSolver.free(samples, given.map(Trial::at).orElseGet(() -> SineStart.of(values)))
            : SineSolver.linear(samples, given.orElseThrow());
    if (solution.isEmpty() || solution.get().trial().amplitude() == 0) {
      return notTaken(
          "at this frequency and rate the points do not tell a sine from a constant"
              + (free ? ", or its frequency from its phase" : ""));
    }
    double periods = solution.get().trial().cycles() * values.length;
    if (periods < 1) {
      return notTaken(underAPeriod(periods));
    }
    if (!solution.get().converged()) {
      return notTaken("the fit does not converge: no sine stands out of the record");
    }
    if (solution.get().trial().amplitude() * data.unit() < Double.MIN_NORMAL) {
      return notTaken("the sine is smaller than a number with all its digits can be");
    }
    return new Outcome.Taken<>(
        new SineFit(values.length, rateHz, free, solution.get(), data.centre(), data.unit()));
  }

  private static Outcome<SineFit> notTaken(String reason) {
    return new Outcome.NotTaken<>(reason);
  }

  static String underAPeriod(double periods) {
    return "less than one period in the record"
        + (periods > 0 ? " (" + Quantity.of(periods, "") + ")" : "");
  }

  /**
   * The number of points fitted.
   *
   * @return M
   */
  public int points() {
    return points;
  }

  /**
   * Whether the frequency was fitted.
   *
   * @return true for four parameters
   */
  public boolean frequencyFitted() {
    return frequencyFitted;
  }

  /**
   * The amplitude.
   *
   * @return volts, half the peak to peak, above 0
   */
  public double amplitudeVolts() {
    return amplitude;
  }

  /**
   * The phase of the cosine at the first point.
   *
   * @return radians, -pi to pi
   */
  public double phaseRadians() {
    return phase;
  }

  /**
   * The offset.
   *
   * @return volts
   */
  public double offsetVolts() {
    return offset;
  }

  /**
   * The frequency, fitted or given.
   *
   * @return Hz, by the record's nominal rate
   */
  public double frequencyHz() {
    return cycles * rateHz;
  }

  /**
   * Noise and distortion (NAD): the root mean square of what the sine leaves over, by the number of
   * points.
   *
   * @return volts
   */
  public double residualVolts() {
    return residual;
  }

  /**
   * The covariance of two parameters, by the residual.
   *
   * @param first one
   * @param second another, or the same
   * @return in the product of their units; 0 for a frequency that was given
   * @throws NullPointerException if one is missing
   */
  public double covariance(Parameter first, Parameter second) {
    return covariance[Require.present("first", first).ordinal()][
        Require.present("second", second).ordinal()];
  }

  /**
   * The standard deviation of a parameter, by the residual: as if the residual were white noise.
   *
   * @param parameter which
   * @return in its unit; 0 for a frequency that was given
   * @throws NullPointerException if it is missing
   */
  public double deviation(Parameter parameter) {
    return Math.sqrt(covariance(Require.present("parameter", parameter), parameter));
  }

  /**
   * Signal to noise and distortion: 20 log10 of the sine's RMS over the residual's.
   *
   * @return dB; not taken if no more than rounding is left over, 1e-14 of amplitude and offset
   */
  public Measured sinadDb() {
    return SineFigures.of(this).leavesSomething()
        ? new Measured.Value(20 * (Math.log10(amplitude / Math.sqrt(2)) - Math.log10(residual)))
        : new Measured.NotTaken(NOTHING_LEFT + "the ratio has no bound");
  }

  /**
   * The effective number of bits: log2(full scale/(sqrt 12 NAD)).
   *
   * @param fullScaleVolts the converter's span, above 0 to 1e9 V
   * @return bits, negative where the residual is more than a converter of one code would leave; not
   *     taken if no more than rounding is left over, 1e-14 of amplitude and offset
   * @throws IllegalArgumentException if the full scale is out of range
   */
  public Measured effectiveBits(double fullScaleVolts) {
    Require.positiveVolts("fullScaleVolts", fullScaleVolts);
    return SineFigures.of(this).leavesSomething()
        ? new Measured.Value(bits(fullScaleVolts, residual))
        : new Measured.NotTaken(NOTHING_LEFT + "the number of bits has no bound");
  }

  static double bits(double fullScale, double residual) {
    return (Math.log(fullScale / Math.sqrt(12)) - Math.log(residual)) / Math.log(2);
  }

  /**
   * The sine at a point.
   *
   * @param index of the point, whole or broken, from 0; up to 1e15 either way
   * @return volts
   * @throws IllegalArgumentException if it is out of range
   */
  public double volts(double index) {
    Require.inRange("index", index, "", -1e15, 1e15);
    return Math.fma(amplitude, Math.cos(Cycles.radians(cycles, more, index) + phase), offset);
  }

  /**
   * What the sine leaves over of a record.
   *
   * @param record of as many points as were fitted
   * @return a new array: value less sine, in volts
   * @throws IllegalArgumentException if the record has another number of points
   * @throws IllegalStateException if it is an envelope
   * @throws NullPointerException if it is missing
   */
  public double[] residuals(Record record) {
    Require.present("record", record);
    Require.that(
        record.size() == points,
        "record.size = " + record.size() + ": must be the number of points fitted, " + points);
    double[] left = record.volts();
    for (int i = 0; i < left.length; i++) {
      left[i] -= volts(i);
    }
    return left;
  }

  @Override
  public String toString() {
    return "sine of "
        + Quantity.of(amplitude, "V")
        + " amplitude, "
        + Quantity.of(frequencyHz(), "Hz")
        + (frequencyFitted ? "" : " (given)")
        + ", offset "
        + Quantity.of(offset, "V")
        + ", residual "
        + Quantity.of(residual, "V")
        + " RMS";
  }
}
