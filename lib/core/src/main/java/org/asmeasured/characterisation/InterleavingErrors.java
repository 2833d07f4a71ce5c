package org.asmeasured.characterisation;

import java.util.Optional;
import org.asmeasured.capture.Record;
import org.asmeasured.digitizer.Sampler;
import org.asmeasured.internal.Quantity;
import org.asmeasured.internal.Require;
import org.asmeasured.measure.Outcome;

/**
 * The fixed pattern of cores that take samples in turn: gain, offset and skew of each against their
 * mean, from a record of a sine. Immutable.
 *
 * <p>One frequency is fitted to all samples and, at that frequency, amplitude, phase and offset to
 * those of each core (sine fits of IEEE Std 1057-2017; fixed-pattern errors, from memory). With
 * A<sub>m</sub>, phase<sub>m</sub>, C<sub>m</sub> of core m and means over the cores,
 *
 * <pre>
 * gain error_m = A_m/mean A - 1     offset_m = C_m - mean C     skew_m = (phase_m - mean phase)/(2 pi f)
 * </pre>
 *
 * <p>Positive skew is sampled later. What a core's own bandwidth does to the sine is part of its
 * gain and of its skew at this frequency.
 */
public final class InterleavingErrors {
  private static final int MAX_ROUNDS = 40;

  private final double frequencyHz;
  private final double amplitude;
  private final double offset;
  private final double[] gains;
  private final double[] offsets;
  private final double[] skews;
  private final double residual;

  private InterleavingErrors(
      double frequencyHz, double[] amplitudes, double[] phases, double[] offsets, double residual) {
    this.frequencyHz = frequencyHz;
    this.residual = residual;
    int m = amplitudes.length;
    amplitude = SineKernels.sum(amplitudes, 0, m) / m;
    offset = SineKernels.sum(offsets, 0, m) / m;
    double phase = SineKernels.sum(phases, 0, m) / m;
    gains = new double[m];
    this.offsets = new double[m];
    skews = new double[m];
    for (int c = 0; c < m; c++) {
      gains[c] = (amplitudes[c] - amplitude) / amplitude;
      this.offsets[c] = offsets[c] - offset;
      skews[c] = (phases[c] - phase) / (2 * Math.PI * frequencyHz);
    }
  }

  /**
   * The errors of the cores.
   *
   * @param record of raw samples, the first of them of core 0, at least 5 a core
   * @param cores 2 to 64
   * @return the errors; or a reason: those of a sine fit, for the whole or for the samples of a
   *     core
   * @throws IllegalArgumentException if the number is out of range
   * @throws NullPointerException if the record is missing
   */
  public static Outcome<InterleavingErrors> of(Record record, int cores) {
    Require.present("record", record);
    Require.inRange("cores", cores, 2, Sampler.MAX_CORES);
    Optional<String> reason = Records.noValues("a fixed pattern", record);
    if (reason.isPresent()) {
      return new Outcome.NotTaken<>(reason.get());
    }
    int n = record.size();
    if (n < 5 * cores) {
      return new Outcome.NotTaken<>(
          n
              + (n == 1 ? " point" : " points")
              + " of "
              + cores
              + " cores: at least 5 a core are needed");
    }
    double[] volts = record.volts();
    Outcome<SineFit> whole = SineFit.fitted(volts.clone(), record.rateHz(), Optional.empty(), true);
    if (whole instanceof Outcome.NotTaken<SineFit> not) {
      return new Outcome.NotTaken<>(not.reason());
    }
    double frequency = whole.orThrow().frequencyHz();
    // the pattern leans on the frequency: it is taken out and the frequency fitted again
    for (int round = 0; round < MAX_ROUNDS; round++) {
      SineFit[] fits = new SineFit[cores];
      double squares = 0;
      for (int c = 0; c < cores; c++) {
        Outcome<SineFit> fit = core(volts, record.rateHz(), cores, c, frequency);
        if (fit instanceof Outcome.NotTaken<SineFit> not) {
          return new Outcome.NotTaken<>("core " + c + ": " + not.reason());
        }
        fits[c] = fit.orThrow();
        squares += fits[c].residualVolts() * fits[c].residualVolts() * fits[c].points();
      }
      Outcome<SineFit> next =
          SineFit.fitted(
              withoutPattern(volts, fits, frequency, record.rateHz()),
              record.rateHz(),
              Optional.of(frequency / record.rateHz()),
              true);
      if (next instanceof Outcome.NotTaken<SineFit> not) {
        return new Outcome.NotTaken<>(not.reason());
      }
      double change = (next.orThrow().frequencyHz() - frequency) / record.rateHz() * n;
      if (Math.abs(change) < 1e-13 * Math.max(1, frequency / record.rateHz() * n)) {
        return new Outcome.Taken<>(result(fits, frequency, record.rateHz(), squares / n));
      }
      frequency = next.orThrow().frequencyHz();
    }
    return new Outcome.NotTaken<>("the fit does not converge: no sine stands out of the record");
  }

  /** At the samples of one core alone, which are a record of a lower rate; it may fold the sine. */
  private static Outcome<SineFit> core(
      double[] volts, double rate, int cores, int core, double frequency) {
    double[] own = new double[(volts.length - core + cores - 1) / cores];
    for (int i = 0; i < own.length; i++) {
      own[i] = volts[core + i * cores];
    }
    return SineFit.fitted(own, rate / cores, Optional.of(frequency / (rate / cores)), false);
  }

  /** Each core's own sine replaced by the mean one; what is left over stays. */
  private static double[] withoutPattern(
      double[] volts, SineFit[] fits, double frequency, double rate) {
    int m = fits.length;
    double[] phases = phases(fits, frequency / rate);
    double amplitude = 0;
    double offset = 0;
    double phase = 0;
    for (int c = 0; c < m; c++) {
      amplitude += fits[c].amplitudeVolts() / m;
      offset += fits[c].offsetVolts() / m;
      phase += phases[c] / m;
    }
    double[] out = volts.clone();
    for (int i = 0; i < out.length; i++) {
      double angle = Cycles.radians(frequency / rate, 0, i);
      int c = i % m;
      out[i] +=
          offset
              - fits[c].offsetVolts()
              + amplitude * Math.cos(angle + phase)
              - fits[c].amplitudeVolts() * Math.cos(angle + phases[c]);
    }
    return out;
  }

  /** At the first sample of the record, for all cores, within half a turn of core 0. */
  private static double[] phases(SineFit[] fits, double cycles) {
    double[] phases = new double[fits.length];
    phases[0] = fits[0].phaseRadians();
    for (int c = 1; c < fits.length; c++) {
      double own = fits[c].phaseRadians() - Cycles.radians(cycles, 0, c);
      phases[c] = phases[0] + Cycles.wrapped(own - phases[0]);
    }
    return phases;
  }

  private static InterleavingErrors result(
      SineFit[] fits, double frequency, double rate, double meanSquare) {
    int m = fits.length;
    double[] amplitudes = new double[m];
    double[] offsets = new double[m];
    for (int c = 0; c < m; c++) {
      amplitudes[c] = fits[c].amplitudeVolts();
      offsets[c] = fits[c].offsetVolts();
    }
    return new InterleavingErrors(
        frequency, amplitudes, phases(fits, frequency / rate), offsets, Math.sqrt(meanSquare));
  }

  /**
   * The number of cores.
   *
   * @return 2 to 64
   */
  public int cores() {
    return gains.length;
  }

  /**
   * The frequency of the sine.
   *
   * @return Hz
   */
  public double frequencyHz() {
    return frequencyHz;
  }

  /**
   * The mean amplitude.
   *
   * @return volts
   */
  public double amplitudeVolts() {
    return amplitude;
  }

  /**
   * The mean offset.
   *
   * @return volts
   */
  public double offsetVolts() {
    return offset;
  }

  /**
   * The gain error of a core.
   *
   * @param core 0 to cores - 1
   * @return its amplitude over the mean amplitude, less 1
   * @throws IllegalArgumentException if there is no such core
   */
  public double gainError(int core) {
    return gains[checked(core)];
  }

  /**
   * The offset error of a core.
   *
   * @param core 0 to cores - 1
   * @return its offset less the mean offset, in volts
   * @throws IllegalArgumentException if there is no such core
   */
  public double offsetErrorVolts(int core) {
    return offsets[checked(core)];
  }

  /**
   * The skew of a core.
   *
   * @param core 0 to cores - 1
   * @return seconds by which it samples later than the mean
   * @throws IllegalArgumentException if there is no such core
   */
  public double skewSeconds(int core) {
    return skews[checked(core)];
  }

  /**
   * What the sines of the cores leave over, by the number of points: noise and distortion without
   * the pattern.
   *
   * @return volts RMS
   */
  public double residualVolts() {
    return residual;
  }

  private int checked(int core) {
    return Require.inRange("core", core, 0, gains.length - 1);
  }

  @Override
  public String toString() {
    StringBuilder words = new StringBuilder();
    words.append(gains.length).append(" cores in turn, by a sine of ");
    words.append(Quantity.of(frequencyHz, "Hz"));
    for (int c = 0; c < gains.length; c++) {
      words.append(c == 0 ? ": " : "; ").append("gain ").append(Quantity.of(gains[c], ""));
      words.append(", offset ").append(Quantity.of(offsets[c], "V"));
      words.append(", skew ").append(Quantity.of(skews[c], "s"));
    }
    return words.toString();
  }
}
