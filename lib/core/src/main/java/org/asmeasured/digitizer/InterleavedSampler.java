package org.asmeasured.digitizer;

import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.Objects;
import org.asmeasured.internal.CounterRandom;
import org.asmeasured.internal.Quantity;
import org.asmeasured.internal.Require;
import org.asmeasured.signal.SampleClock;

/**
 * A clock that runs off its nominal rate, aperture jitter, and one or more cores that take turns.
 * Immutable.
 *
 * <p><b>Clock error</b> e: the true rate is the nominal one times 1 + e, rounded once to a double.
 * Whoever reads the record does not know, and takes a frequency f for f/(1 + e).
 *
 * <p><b>Aperture jitter</b> s: each shift is s times a normal deviate of its own. To a sine of
 * frequency f, the mean over acquisitions has the gain exp(-(2 pi f s)<sup>2</sup>/2), and the
 * signal-to-noise ratio is -10 log10(exp((2 pi f s)<sup>2</sup>) - 1) dB; for a small phase -20
 * log10(2 pi f s) (M. Shinagawa, Y. Akazawa, T. Wakimoto, IEEE JSSC 25 (1990) 220, from memory).
 *
 * <p><b>Cores</b>: see {@link Core}.
 *
 * <p>Clock and cores are the device's own, the same in every acquisition; the jitter is another in
 * each, if the key is.
 */
public final class InterleavedSampler implements Sampler {
  static final InterleavedSampler IDEAL = new InterleavedSampler(0, 0, List.of(Core.ideal()));

  /** Of normal deviates one in 10^10 is beyond: what a reader should prepare for. */
  private static final double SELDOM = 6.5;

  private final double clockError;
  private final double jitterSeconds;
  private final List<Core> cores;
  private final double[] skews;
  private final boolean onTime;
  private final boolean ideal;

  private InterleavedSampler(double clockError, double jitterSeconds, List<Core> cores) {
    this.clockError = clockError;
    this.jitterSeconds = jitterSeconds;
    this.cores = cores;
    skews = cores.stream().mapToDouble(Core::skewSeconds).toArray();
    onTime = jitterSeconds == 0 && cores.stream().allMatch(c -> c.skewSeconds() == 0);
    ideal = clockError == 0 && jitterSeconds == 0 && cores.stream().allMatch(Core::isIdeal);
  }

  /**
   * A sampler.
   *
   * @param clockError fraction, 1e-6 = 1 ppm; -0.1 to 0.1
   * @param jitterSeconds standard deviation of the aperture jitter, 0 or 1e-18 to 1 s
   * @param cores 1 to 64, in the order in which they take turns; copied
   * @return the sampler
   * @throws IllegalArgumentException if a value is out of range
   * @throws NullPointerException if the list or a core is missing
   */
  public static InterleavedSampler of(double clockError, double jitterSeconds, List<Core> cores) {
    Require.inRange("clockError", clockError, "", -0.1, 0.1);
    Require.inRange("jitterSeconds", jitterSeconds, "s", 0, 1);
    Require.durationOrZero("jitterSeconds", jitterSeconds);
    Require.present("cores", cores);
    Require.inRange("cores.size", cores.size(), 1, MAX_CORES);
    for (int c = 0; c < cores.size(); c++) {
      Require.present("cores[" + c + "]", cores.get(c));
    }
    return new InterleavedSampler(clockError, jitterSeconds, List.copyOf(cores));
  }

  /**
   * One core without errors, at the nominal rate, without jitter.
   *
   * @return the sampler that changes nothing
   */
  public static InterleavedSampler ideal() {
    return IDEAL;
  }

  /**
   * With another clock error.
   *
   * @param value fraction, 1e-6 = 1 ppm; -0.1 to 0.1
   * @return the sampler
   * @throws IllegalArgumentException if it is out of range
   */
  public InterleavedSampler withClockError(double value) {
    return of(value, jitterSeconds, cores);
  }

  /**
   * With another aperture jitter.
   *
   * @param seconds standard deviation, 0 or 1e-18 to 1 s
   * @return the sampler
   * @throws IllegalArgumentException if it is out of range
   */
  public InterleavedSampler withJitter(double seconds) {
    return of(clockError, seconds, cores);
  }

  /**
   * With other cores.
   *
   * @param values 1 to 64, in the order in which they take turns; copied
   * @return the sampler
   * @throws IllegalArgumentException if there are none or too many
   * @throws NullPointerException if the array or a core is missing
   */
  public InterleavedSampler withCores(Core... values) {
    return of(
        clockError,
        jitterSeconds,
        Collections.unmodifiableList(Arrays.asList(Require.present("cores", values))));
  }

  /**
   * By how much the clock runs fast.
   *
   * @return fraction of the nominal rate
   */
  public double clockError() {
    return clockError;
  }

  /**
   * The aperture jitter.
   *
   * @return standard deviation in seconds
   */
  public double jitterSeconds() {
    return jitterSeconds;
  }

  @Override
  public int cores() {
    return cores.size();
  }

  @Override
  public Core core(int index) {
    return cores.get(index);
  }

  @Override
  public SampleClock clock(SampleClock nominal) {
    Require.present("nominal", nominal);
    return clockError == 0
        ? nominal
        : new SampleClock(
            nominal.startSeconds(), Math.fma(nominal.rateHz(), clockError, nominal.rateHz()));
  }

  @Override
  public boolean onTime() {
    return onTime;
  }

  @Override
  public double maxShiftSeconds() {
    double skew = 0;
    for (double s : skews) {
      skew = Math.max(skew, Math.abs(s));
    }
    return Math.min(1, skew + SELDOM * jitterSeconds);
  }

  @Override
  public boolean isIdeal() {
    return ideal;
  }

  @Override
  public void shifts(long key, long first, double[] shiftsSeconds, int offset, int count) {
    Objects.checkFromIndexSize(
        offset, count, Require.present("shiftsSeconds", shiftsSeconds).length);
    if (jitterSeconds == 0) {
      Arrays.fill(shiftsSeconds, offset, offset + count, 0);
    } else {
      CounterRandom.gaussians(key, first, shiftsSeconds, offset, count);
      scale(shiftsSeconds, offset, offset + count, jitterSeconds);
    }
    int m = skews.length;
    int phase = (int) Math.floorMod(first, (long) m);
    for (int c = 0; c < m; c++) {
      if (skews[c] != 0) {
        add(
            shiftsSeconds,
            offset + Math.min(Math.floorMod(c - phase, m), count),
            offset + count,
            m,
            skews[c]);
      }
    }
  }

  private static void scale(double[] values, int from, int to, double factor) {
    for (int i = from; i < to; i++) {
      values[i] *= factor;
    }
  }

  private static void add(double[] values, int from, int to, int stride, double term) {
    for (int i = from; i < to; i += stride) {
      values[i] += term;
    }
  }

  @Override
  public boolean equals(Object other) {
    return other instanceof InterleavedSampler that
        && clockError == that.clockError
        && jitterSeconds == that.jitterSeconds
        && cores.equals(that.cores);
  }

  @Override
  public int hashCode() {
    return Objects.hash(clockError + 0.0, jitterSeconds + 0.0, cores);
  }

  @Override
  public String toString() {
    if (isIdeal()) {
      return "ideal sampler";
    }
    StringBuilder words = new StringBuilder("sampler with");
    String separator = " ";
    if (clockError != 0) {
      words.append(separator).append("clock error ").append(clockError);
      separator = ", ";
    }
    if (jitterSeconds != 0) {
      words.append(separator).append("jitter ").append(Quantity.of(jitterSeconds, "s"));
      separator = ", ";
    }
    if (cores.size() > 1) {
      words.append(separator).append(cores.size()).append(" cores in turn: ");
      words.append(String.join("; ", cores.stream().map(Core::toString).toList()));
    } else if (!cores.get(0).isIdeal()) {
      words.append(separator).append("a ").append(cores.get(0));
    }
    return words.toString();
  }
}
