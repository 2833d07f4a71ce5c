package org.asmeasured.fitting;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.apache.commons.math3.complex.Complex;
import org.asmeasured.acquisition.Boxcar;
import org.asmeasured.acquisition.Decimation;
import org.asmeasured.acquisition.Pick;
import org.asmeasured.acquisition.RollingBoxcar;
import org.asmeasured.acquisition.Trigger;
import org.asmeasured.capture.Setup;
import org.asmeasured.digitizer.InterleavedSampler;
import org.asmeasured.digitizer.Sampler;
import org.asmeasured.internal.Require;
import org.asmeasured.linear.NoiseProcess;

/** The noise that a setup states, at its stored points. */
final class StatedNoise implements RecordNoise {
  /** exp(-40) of the variance is less than rounding. */
  private static final double DEAD = 40;

  private static final long MOST_LAGS = 1L << 24;

  @Override
  public double[] autocovariance(Setup setup, int points) {
    requireStationary(setup);
    List<NoiseProcess> processes = processes(setup);
    double converter = converterVolts(setup);
    double white = converter * converter + squaredStep(setup, setup.converter().bits()) / 12;
    Require.that(
        white > 0 || !processes.isEmpty(),
        "setup ("
            + setup
            + "): states no noise and no converter; the noise of the record must be given");
    Decimation decimation = setup.decimation();
    int length = length(decimation);
    double[] raw = raw(processes, white, length, decimation.factor(), points);
    double[] stored = length == 1 ? raw : means(raw, length, decimation.factor(), points);
    stored[0] += rounding(setup, length);
    int count = setup.ensemble().count();
    for (int k = 0; k < stored.length; k++) {
      stored[k] /= count;
    }
    return stored;
  }

  private static List<NoiseProcess> processes(Setup setup) {
    List<NoiseProcess> processes = new ArrayList<>();
    setup
        .frontEnd()
        .noise()
        .process(
            setup.frontEnd(),
            setup.vertical().fullScaleVolts(),
            setup.rateHz(),
            setup.spanSeconds())
        .ifPresent(processes::add);
    setup
        .frontEnd()
        .sourceNoise()
        .process(setup.frontEnd(), setup.rateHz())
        .ifPresent(processes::add);
    return processes;
  }

  private static double converterVolts(Setup setup) {
    return setup.converterNoise().rmsOfFullScale() * setup.vertical().fullScaleVolts();
  }

  /** The standard deviation of a raw sample, but for quantisation; volts. */
  static double aheadOfConverter(Setup setup) {
    double converter = converterVolts(setup);
    double square = converter * converter;
    for (NoiseProcess process : processes(setup)) {
      square += process.rms() * process.rms();
    }
    return Math.sqrt(square);
  }

  private static void requireStationary(Setup setup) {
    Sampler sampler = setup.sampler();
    boolean still =
        sampler instanceof InterleavedSampler i ? i.jitterSeconds() == 0 : sampler.onTime();
    String noise =
        ": its noise follows the slope of the signal; the noise of the record must be given";
    Require.that(still, "sampler = " + sampler + noise);
    Require.that(
        setup.frontEnd().sourceJitter().isNone(),
        "sourceJitter = " + setup.frontEnd().sourceJitter() + noise);
    if (setup.ensemble().count() > 1 && setup.trigger().isPresent()) {
      Trigger trigger = setup.trigger().get();
      Require.that(
          trigger.jitterSeconds() == 0 && trigger.resolution() == 0,
          "trigger = " + trigger + " of an average" + noise);
    }
    Require.that(
        !setup.ensemble().isEnvelope(),
        "ensemble = " + setup.ensemble() + ": extremes have no noise that is known");
  }

  private static double squaredStep(Setup setup, int bits) {
    if (bits == 0) {
      return 0;
    }
    double step = Math.scalb(setup.vertical().fullScaleVolts(), -bits);
    return step * step;
  }

  /** Raw samples in a stored point. */
  private static int length(Decimation decimation) {
    if (decimation instanceof Pick) {
      return 1;
    }
    if (decimation instanceof Boxcar boxcar) {
      return boxcar.factor();
    }
    if (decimation instanceof RollingBoxcar rolling) {
      return rolling.length();
    }
    throw new IllegalArgumentException(
        "decimation = "
            + decimation
            + ": what it makes of noise is not known; the noise of the record must be given");
  }

  /** What storing a mean with fewer bits than it has adds. */
  private static double rounding(Setup setup, int length) {
    int bits = setup.converter().bits();
    if (bits == 0 || length == 1) {
      return 0;
    }
    int stored = setup.decimation().storedBits(bits);
    boolean exact =
        Integer.bitCount(length) == 1 && stored >= bits + Integer.numberOfTrailingZeros(length);
    return exact ? 0 : squaredStep(setup, stored) / 12;
  }

  /** Of raw samples that are needed: every one for means, else those picked. */
  private static double[] raw(
      List<NoiseProcess> processes, double white, int length, int factor, int points) {
    int apart = length == 1 ? factor : 1;
    long last = length == 1 ? points - 1 : (points - 1L) * factor + length - 1;
    double alive = 0;
    for (NoiseProcess process : processes) {
      double slowest = Double.POSITIVE_INFINITY;
      for (Complex pole : process.response().poles()) {
        slowest = Math.min(slowest, -pole.getReal());
      }
      alive = Math.max(alive, Math.ceil(DEAD / slowest * process.rateHz() / apart));
    }
    int lags = (int) Math.min(Math.min(last, alive), MOST_LAGS);
    Require.that(
        lags < MOST_LAGS,
        "noise of the setup: correlated over more than "
            + MOST_LAGS
            + " raw samples; the noise of the record must be given");
    double[] r = new double[lags + 1];
    for (NoiseProcess process : processes) {
      for (int k = 0; k <= lags; k++) {
        r[k] += process.autocovariance((long) k * apart);
      }
    }
    r[0] += white;
    return r;
  }

  /** R(k) = sum over |j| below L of (L - |j|) r(k factor + j) / L^2. */
  private static double[] means(double[] raw, int length, int factor, int points) {
    double[] r = new double[points];
    int used = 0;
    for (int k = 0; k < points; k++) {
      long centre = (long) k * factor;
      if (centre - length >= raw.length) {
        break;
      }
      double sum = 0;
      int highest = (int) Math.min(length - 1L, raw.length - 1 - centre);
      int lowest = (int) Math.max(1L - length, 1 - raw.length - centre);
      for (int j = lowest; j <= highest; j++) {
        sum += (length - Math.abs(j)) * raw[(int) Math.abs(centre + j)];
      }
      r[k] = sum / length / length;
      used = k + 1;
    }
    return Arrays.copyOf(r, used);
  }
}
