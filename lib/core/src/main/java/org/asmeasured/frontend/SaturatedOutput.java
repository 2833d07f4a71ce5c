package org.asmeasured.frontend;

import java.util.Arrays;
import java.util.OptionalDouble;
import org.apache.commons.math3.analysis.integration.gauss.GaussIntegrator;
import org.apache.commons.math3.analysis.integration.gauss.GaussIntegratorFactory;
import org.apache.commons.math3.complex.Complex;
import org.asmeasured.internal.ExtendedTime;
import org.asmeasured.internal.Require;
import org.asmeasured.linear.Output;
import org.asmeasured.linear.OutputSampler;
import org.asmeasured.linear.Response;
import org.asmeasured.signal.Component;
import org.asmeasured.signal.Pattern;
import org.asmeasured.signal.SampleClock;
import org.asmeasured.signal.Segments;
import org.asmeasured.signal.Signal;
import org.asmeasured.signal.Tones;
import org.asmeasured.signal.Waveform;

/**
 * What a saturating amplifier makes of a signal, seen behind the roll-off, by events: the instants
 * at which the voltage at the amplifier crosses its levels.
 *
 * <p>The roll-off is linear, so the output is the output without saturation, less the roll-off's
 * output of what the amplifier cut away, plus that of its tails of recovery. The first is exact
 * ({@link Output}). What was cut away is put into segments of the same family to 1e-12 of the
 * levels or the excess, whichever is larger, and goes through the roll-off exactly too; the tails
 * are exponentials. No time step enters anywhere. If nothing saturates, the output is that without
 * saturation, bit for bit.
 *
 * <p>Immutable and safe for use by many threads.
 */
public final class SaturatedOutput implements Waveform {
  private static final GaussIntegrator GAUSS = new GaussIntegratorFactory().legendre(12, 0, 1);

  /** Time constants after which nothing can be seen. */
  private static final double DEAD = 40;

  private final Saturation saturation;
  private final Output linear;
  private final Output correction;
  private final int overloads;
  private final double latest;
  private final double earliest;

  SaturatedOutput(
      Saturation saturation,
      Signal signal,
      Response ahead,
      Response behind,
      double fromSeconds,
      double toSeconds) {
    this.saturation = saturation;
    Require.present("signal", signal);
    Require.present("ahead", ahead);
    Require.present("behind", behind);
    Require.span(fromSeconds, toSeconds);
    linear = product(ahead, behind).of(signal);
    OptionalDouble period = signal.periodSeconds();
    if (saturation.isIdeal()) {
      correction = null;
      overloads = 0;
      earliest = Double.NEGATIVE_INFINITY;
      latest = Double.POSITIVE_INFINITY;
      return;
    }
    Waveform x = ahead.isIdentity() ? signal : ahead.of(signal);
    Signal cut;
    int count;
    if (period.isPresent()) {
      ExtendedTime whole = exactPeriod(signal, period.getAsDouble());
      double base = quietPlace(x, whole.hi());
      Overloads found =
          new Overloads(x, saturation.lowVolts(), saturation.highVolts(), base, base + whole.hi());
      cut = found.isEmpty() ? null : settled(found, base, whole);
      count = found.ends.size();
      earliest = Double.NEGATIVE_INFINITY;
      latest = Double.POSITIVE_INFINITY;
    } else {
      double memory = DEAD * slowestSeconds(behind);
      if (saturation.recoveryFraction() > 0) {
        memory = Math.max(memory, DEAD * saturation.recoverySeconds());
      }
      double base = Math.max(fromSeconds - memory, -1e12);
      Overloads found =
          new Overloads(x, saturation.lowVolts(), saturation.highVolts(), base, toSeconds);
      cut = found.isEmpty() ? null : once(found, base);
      count = found.ends.size();
      earliest = fromSeconds;
      latest = toSeconds;
    }
    correction = cut == null ? null : behind.of(cut);
    overloads = count;
  }

  private static Response product(Response ahead, Response behind) {
    return ahead.isIdentity() ? behind : behind.isIdentity() ? ahead : ahead.times(behind);
  }

  private static double slowestSeconds(Response response) {
    double slowest = 0;
    for (Complex p : response.poles()) {
      slowest = Math.max(slowest, -1 / p.getReal());
    }
    return slowest;
  }

  /** The period as sharp as the component that has the shortest says it. */
  private static ExtendedTime exactPeriod(Signal signal, double period) {
    for (Component c : signal.components()) {
      if (c instanceof Tones t) {
        for (int i = 0; i < t.count(); i++) {
          if (t.cosine(i) != 0 || t.sine(i) != 0) {
            return new ExtendedTime()
                .setQuotient((long) Math.rint(period * t.frequencyHz(i)), t.frequencyHz(i));
          }
        }
      } else {
        Pattern p = (Pattern) c;
        if (p.isPeriodic() && p.bound() > 0) {
          double n = Math.rint(period / p.periodSeconds());
          return new ExtendedTime().addProduct(n, p.periodSeconds()).addProduct(n, p.periodLo());
        }
      }
    }
    return new ExtendedTime().set(period, 0);
  }

  /**
   * An instant without overload, if there is one, so that no overload runs over the period's end.
   */
  private double quietPlace(Waveform x, double period) {
    double[] knots = x.knots(0, period);
    for (int i = 0; i + 1 < knots.length; i++) {
      double m = knots[i] + (knots[i + 1] - knots[i]) / 2;
      double v = x.valueAt(m);
      if (v >= saturation.lowVolts() && v <= saturation.highVolts()) {
        return m;
      }
    }
    return 0;
  }

  private Signal once(Overloads found, double base) {
    Signal cut = found.segments().once(base, "what saturation cuts away").times(-1);
    if (saturation.recoveryFraction() == 0 || found.ends.isEmpty()) {
      return cut;
    }
    return cut.plus(tails(found, 0).once(base, "recovery"));
  }

  private Signal settled(Overloads found, double base, ExtendedTime period) {
    Signal cut =
        found
            .segments()
            .repeated(base, period.hi(), period.lo(), "what saturation cuts away")
            .times(-1);
    if (saturation.recoveryFraction() == 0 || found.ends.isEmpty()) {
      return cut;
    }
    double tau = saturation.recoverySeconds();
    double sum = 0;
    for (double[] end : found.ends) {
      sum += end[1] * Math.exp(-(period.hi() - end[0]) / tau);
    }
    double before = saturation.recoveryFraction() * sum / -Math.expm1(-period.hi() / tau);
    return cut.plus(tails(found, before).repeated(base, period.hi(), period.lo(), "recovery"));
  }

  /** The sum of the tails from the base on, where it starts with what is left of earlier ones. */
  private Segments tails(Overloads found, double before) {
    double tau = saturation.recoverySeconds();
    Segments tails = new Segments().add(0, 0, 0).term(before, 0, -1 / tau, 0);
    double now = before;
    double since = 0;
    for (double[] end : found.ends) {
      now = now * Math.exp(-(end[0] - since) / tau) + saturation.recoveryFraction() * end[1];
      since = end[0];
      tails.add(since, 0, 0).term(now, 0, -1 / tau, 0);
    }
    return tails;
  }

  /**
   * Whether the amplifier saturates anywhere that can be seen.
   *
   * @return false if the output is that without saturation
   */
  public boolean isOverloaded() {
    return correction != null;
  }

  /**
   * How many overloads end within what was followed: one period, or the span and what came before
   * it.
   *
   * @return 0 or more
   */
  public int overloads() {
    return overloads;
  }

  /**
   * The output without saturation.
   *
   * @return the output of the whole chain
   */
  public Output linear() {
    return linear;
  }

  private double known(String name, double timeSeconds) {
    return Require.inRange(
        name,
        timeSeconds,
        "s",
        Math.max(earliest, -Double.MAX_VALUE),
        Math.min(latest, Double.MAX_VALUE));
  }

  @Override
  public double valueAt(double timeSeconds) {
    known("timeSeconds", timeSeconds);
    double v = linear.valueAt(timeSeconds);
    return correction == null ? v : v + correction.valueAt(timeSeconds);
  }

  @Override
  public double valueBefore(double timeSeconds) {
    known("timeSeconds", timeSeconds);
    double v = linear.valueBefore(timeSeconds);
    return correction == null ? v : v + correction.valueBefore(timeSeconds);
  }

  /**
   * A reader of samples that keeps its tables from call to call, for one thread.
   *
   * @param clock when samples are taken
   * @return a new reader
   */
  public Sampler sampler(SampleClock clock) {
    return new Sampler(
        linear.sampler(clock), correction == null ? null : correction.sampler(clock));
  }

  /** Reads the output at uniform instants, or at instants shifted from them. */
  public static final class Sampler {
    private static final int BLOCK = 2048;

    private final OutputSampler linear;
    private final OutputSampler correction;
    private final double[] scratch;
    private final double[] shifts;

    private Sampler(OutputSampler linear, OutputSampler correction) {
      this.linear = linear;
      this.correction = correction;
      scratch = new double[correction == null ? 0 : BLOCK];
      shifts = new double[scratch.length];
    }

    /**
     * Reads samples. They depend on their numbers alone, not on the blocks they are read in. What
     * lies outside the span of an output that does not repeat has no meaning.
     *
     * @param first number of the first sample wanted, up to 2^53 either way
     * @param out receives {@code count} volts
     * @param offset where in {@code out} the first goes
     * @param count how many
     * @throws IndexOutOfBoundsException if {@code out} does not hold them
     * @throws IllegalArgumentException if {@code first} is out of range
     */
    public void read(long first, double[] out, int offset, int count) {
      linear.read(first, out, offset, count);
      if (correction != null) {
        for (int done = 0; done < count; done += BLOCK) {
          int n = Math.min(BLOCK, count - done);
          correction.read(first + done, scratch, 0, n);
          add(scratch, out, offset + done, n);
        }
      }
    }

    /**
     * Reads samples, each later than its place by a time of its own.
     *
     * @param first number of the first sample wanted, up to 2^53 either way
     * @param shiftsSeconds how much later each is taken, either sign; entry {@code j} for sample
     *     {@code first + j}
     * @param out receives {@code count} volts
     * @param offset where in {@code out} the first goes
     * @param count how many
     * @throws IndexOutOfBoundsException if an array does not hold them
     * @throws IllegalArgumentException if {@code first} or a shift is out of range
     */
    public void read(long first, double[] shiftsSeconds, double[] out, int offset, int count) {
      linear.read(first, shiftsSeconds, out, offset, count);
      if (correction != null) {
        for (int done = 0; done < count; done += BLOCK) {
          int n = Math.min(BLOCK, count - done);
          System.arraycopy(shiftsSeconds, done, shifts, 0, n);
          correction.read(first + done, shifts, scratch, 0, n);
          add(scratch, out, offset + done, n);
        }
      }
    }

    private static void add(double[] more, double[] out, int offset, int count) {
      for (int j = 0; j < count; j++) {
        out[offset + j] += more[j];
      }
    }
  }

  @Override
  public OptionalDouble periodSeconds() {
    return linear.periodSeconds();
  }

  @Override
  public double[] knots(double fromSeconds, double toSeconds) {
    double[] a = linear.knots(fromSeconds, toSeconds);
    if (correction == null) {
      return a;
    }
    double[] b = correction.knots(fromSeconds, toSeconds);
    double[] all = Arrays.copyOf(a, a.length + b.length);
    System.arraycopy(b, 0, all, a.length, b.length);
    return Arrays.stream(all).sorted().distinct().toArray();
  }

  @Override
  public double mean(double fromSeconds, double toSeconds) {
    known(fromSeconds, toSeconds);
    double mean = linear.mean(fromSeconds, toSeconds);
    return correction == null ? mean : mean + correction.mean(fromSeconds, toSeconds);
  }

  private void known(double fromSeconds, double toSeconds) {
    Require.span(fromSeconds, toSeconds);
    known("fromSeconds", fromSeconds);
    known("toSeconds", toSeconds);
  }

  @Override
  public double rms(double fromSeconds, double toSeconds) {
    known(fromSeconds, toSeconds);
    if (correction == null) {
      return linear.rms(fromSeconds, toSeconds);
    }
    double period = periodSeconds().orElse(Double.POSITIVE_INFINITY);
    double whole = Math.floor((toSeconds - fromSeconds) / period);
    double sum;
    if (whole >= 2) {
      double rest = fromSeconds + whole * period;
      sum = whole * energy(fromSeconds, fromSeconds + period);
      sum += rest < toSeconds ? energy(rest, toSeconds) : 0;
    } else {
      sum = energy(fromSeconds, toSeconds);
    }
    return Math.sqrt(sum / (toSeconds - fromSeconds));
  }

  private double energy(double from, double to) {
    double[] knots = knots(from, to);
    double sum = 0;
    for (int i = 0; i + 1 < knots.length; i++) {
      double a = knots[i];
      double d = knots[i + 1] - a;
      sum +=
          d
              * GAUSS.integrate(
                  x -> {
                    double v = linear.valueAt(a, x * d) + correction.valueAt(a, x * d);
                    return v * v;
                  });
    }
    return sum;
  }

  @Override
  public double minimum(double fromSeconds, double toSeconds) {
    known(fromSeconds, toSeconds);
    return correction == null
        ? linear.minimum(fromSeconds, toSeconds)
        : Waveform.super.minimum(fromSeconds, withinOnePeriod(fromSeconds, toSeconds));
  }

  @Override
  public double maximum(double fromSeconds, double toSeconds) {
    known(fromSeconds, toSeconds);
    return correction == null
        ? linear.maximum(fromSeconds, toSeconds)
        : Waveform.super.maximum(fromSeconds, withinOnePeriod(fromSeconds, toSeconds));
  }

  private double withinOnePeriod(double from, double to) {
    double period = periodSeconds().orElse(Double.POSITIVE_INFINITY);
    return to - from > 1.5 * period ? from + 1.25 * period : to;
  }

  @Override
  public String toString() {
    return saturation.isIdeal() ? linear.toString() : linear + "; " + saturation;
  }
}
