package org.asmeasured.linear;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.apache.commons.math3.complex.Complex;
import org.asmeasured.internal.Require;
import org.asmeasured.signal.Component;
import org.asmeasured.signal.Pattern;
import org.asmeasured.signal.PieceQuadrature;
import org.asmeasured.signal.SampleClock;
import org.asmeasured.signal.Signal;
import org.asmeasured.signal.Tones;
import org.asmeasured.signal.Waveform;

/**
 * What a response makes of a signal, exactly: no oversampling, no start-up transient, no drift.
 *
 * <p>Each component of the signal enters in its own way: constants, tones and repeated patterns
 * have been there for ever and are settled; a pattern that begins starts from rest. The output is a
 * pure function of time. Its error against the closed form is below 1e-9 of the signal's full
 * scale, for poles that repeat, lie nearly together or nine decades apart, for edges of a
 * picosecond and at sample 10<sup>9</sup>; usually below 1e-12.
 *
 * <p>Immutable and safe for use by many threads.
 */
public final class Output implements Waveform {
  private static final int MAX_KNOTS = 1 << 24;
  private static final double DEAD = 37;

  private final Signal signal;
  private final Response response;
  private final TonesOutput[] tones;
  private final PatternOutput[] patterns;

  /**
   * The output of a response.
   *
   * @param signal the input
   * @param response what it goes through
   * @throws IllegalArgumentException if segments times states exceed 2^30
   */
  public Output(Signal signal, Response response) {
    this.signal = Require.present("signal", signal);
    this.response = Require.present("response", response);
    List<TonesOutput> t = new ArrayList<>();
    List<PatternOutput> p = new ArrayList<>();
    for (Component c : signal.components()) {
      if (c instanceof Tones through) {
        t.add(new TonesOutput(through, response));
      } else {
        p.add(new PatternOutput((Pattern) c, response.modes()));
      }
    }
    tones = t.toArray(TonesOutput[]::new);
    patterns = p.toArray(PatternOutput[]::new);
  }

  /** A constant and tones, each with the complex gain at its frequency. */
  static final class TonesOutput {
    final double level;
    final double[] frequencyHz;

    /** Output amplitude a of Re(a e^{2 pi j f t}). */
    final double[] re;

    final double[] im;

    TonesOutput(Tones tones, Response response) {
      int n = tones.count();
      level = tones.level() == 0 ? 0 : tones.level() * response.dcGain();
      frequencyHz = new double[n];
      re = new double[n];
      im = new double[n];
      for (int i = 0; i < n; i++) {
        frequencyHz[i] = tones.frequencyHz(i);
        Complex h = response.at(frequencyHz[i]);
        re[i] = h.getReal() * tones.cosine(i) + h.getImaginary() * tones.sine(i);
        im[i] = h.getImaginary() * tones.cosine(i) - h.getReal() * tones.sine(i);
      }
    }

    double valueAt(double hi, double lo) {
      double sum = level;
      for (int i = 0; i < re.length; i++) {
        double angle =
            2
                * Math.PI
                * org.asmeasured.internal.ExtendedTime.fractionOfCycles(frequencyHz[i], hi, lo);
        sum += re[i] * Math.cos(angle) - im[i] * Math.sin(angle);
      }
      return sum;
    }
  }

  /**
   * The input.
   *
   * @return the signal
   */
  public Signal signal() {
    return signal;
  }

  /**
   * What the input goes through.
   *
   * @return the response
   */
  public Response response() {
    return response;
  }

  TonesOutput[] tones() {
    return tones;
  }

  PatternOutput[] patterns() {
    return patterns;
  }

  @Override
  public double valueAt(double timeSeconds) {
    return valueAt(Require.instant("timeSeconds", timeSeconds), 0);
  }

  @Override
  public double valueAt(double hi, double lo) {
    return response.isIdentity() ? signal.valueAt(hi, lo) : sum(hi, lo, false);
  }

  @Override
  public double valueBefore(double timeSeconds) {
    Require.instant("timeSeconds", timeSeconds);
    return response.isIdentity() ? signal.valueBefore(timeSeconds) : sum(timeSeconds, 0, true);
  }

  private double sum(double hi, double lo, boolean before) {
    double sum = 0;
    for (TonesOutput t : tones) {
      sum += t.valueAt(hi, lo);
    }
    for (PatternOutput p : patterns) {
      sum += p.valueAt(hi, lo, before);
    }
    return sum;
  }

  /**
   * The values at uniform instants. For repeated use over the same clock a {@link #sampler} keeps
   * its tables.
   *
   * @param clock when samples are taken
   * @param first number of the first sample wanted, up to 2^53 either way
   * @param out receives {@code count} volts
   * @param offset where in {@code out} the first goes
   * @param count how many
   * @throws IndexOutOfBoundsException if {@code out} does not hold them
   * @throws IllegalArgumentException if {@code first} is out of range
   */
  public void sample(SampleClock clock, long first, double[] out, int offset, int count) {
    sampler(clock).read(first, out, offset, count);
  }

  /**
   * A reader of uniform samples that keeps its tables from call to call, for one thread.
   *
   * @param clock when samples are taken
   * @return a new reader
   */
  public OutputSampler sampler(SampleClock clock) {
    return sampler(clock, 0);
  }

  /**
   * A reader of samples shifted from uniform instants, for one thread.
   *
   * @param clock when samples are taken, but for their shifts
   * @param maxShiftSeconds the shift up to which reading is fast; 0 to 1 s
   * @return a new reader
   * @throws IllegalArgumentException if the shift is out of range
   */
  public OutputSampler sampler(SampleClock clock, double maxShiftSeconds) {
    Require.inRange("maxShiftSeconds", maxShiftSeconds, "s", 0, 1);
    return new OutputSampler(this, Require.present("clock", clock), maxShiftSeconds);
  }

  /**
   * The greatest rate of change of any part, rad/s.
   *
   * @param rateHz where it is of samples: lone modes that are gone within one do not count; 0 for
   *     all modes
   */
  double fastestPerSecond(double rateHz) {
    double fastest = 1 / Double.MAX_VALUE;
    for (TonesOutput t : tones) {
      for (double f : t.frequencyHz) {
        fastest = Math.max(fastest, 2 * Math.PI * f);
      }
    }
    for (PatternOutput p : patterns) {
      for (Cluster c : p.modes.clusters) {
        boolean counts = rateHz == 0 || c.size > 1 || !Shift.isGoneAtOnce(c.re[0] / rateHz);
        fastest = counts ? Math.max(fastest, c.fastest) : fastest;
      }
      for (int k = 0; k < p.pattern.termFrom(p.pattern.count()); k++) {
        fastest =
            Math.max(
                fastest, Math.hypot(p.pattern.growth(k), 2 * Math.PI * p.pattern.frequencyHz(k)));
      }
    }
    return fastest;
  }

  @Override
  public OptionalDouble periodSeconds() {
    return signal.periodSeconds();
  }

  @Override
  public double[] knots(double fromSeconds, double toSeconds) {
    double[] coarse = signal.knots(fromSeconds, toSeconds);
    double[] knots = new double[2 * coarse.length];
    int n = 0;
    for (int i = 0; i + 1 < coarse.length; i++) {
      double t = coarse[i];
      double end = coarse[i + 1];
      while (t < end) {
        Require.that(
            n < MAX_KNOTS,
            "from " + fromSeconds + " s to " + toSeconds + " s: more than " + MAX_KNOTS + " knots");
        if (n + 1 >= knots.length) {
          knots = Arrays.copyOf(knots, 2 * knots.length);
        }
        knots[n++] = t;
        double fastest = 0;
        double inside = t + Math.min((end - t) / 2, Math.ulp(t));
        for (PatternOutput p : patterns) {
          fastest = Math.max(fastest, p.fastestAt(inside, DEAD));
        }
        double next = fastest == 0 ? end : t + 1 / (8 * fastest);
        t = end - next < 0.5 * (next - t) || next <= t ? end : next;
      }
    }
    knots[n++] = toSeconds;
    return Arrays.copyOf(knots, n);
  }

  @Override
  public Optional<Tones> asTones() {
    if (response.isIdentity()) {
      return signal.asTones();
    }
    return signal
        .asTones()
        .map(
            input -> {
              TonesOutput output = new TonesOutput(input, response);
              double[] sine = new double[output.im.length];
              for (int i = 0; i < sine.length; i++) {
                sine[i] = -output.im[i];
              }
              return new Tones(output.level, output.frequencyHz, output.re, sine);
            });
  }

  /** Sines that never repeat together: any span in closed form, where others end at their knots. */
  private Optional<Tones> endless() {
    return periodSeconds().isPresent() ? Optional.empty() : asTones();
  }

  @Override
  public double mean(double fromSeconds, double toSeconds) {
    Optional<Tones> sines = endless();
    if (sines.isPresent()) {
      return sines.get().mean(fromSeconds, toSeconds);
    }
    return PieceQuadrature.integral(this, fromSeconds, toSeconds) / (toSeconds - fromSeconds);
  }

  @Override
  public double rms(double fromSeconds, double toSeconds) {
    Optional<Tones> sines = endless();
    if (sines.isPresent()) {
      return sines.get().rms(fromSeconds, toSeconds);
    }
    return Math.sqrt(
        PieceQuadrature.integralOfSquare(this, fromSeconds, toSeconds) / (toSeconds - fromSeconds));
  }

  @Override
  public double minimum(double fromSeconds, double toSeconds) {
    return Waveform.super.minimum(fromSeconds, withinOnePeriod(fromSeconds, toSeconds));
  }

  @Override
  public double maximum(double fromSeconds, double toSeconds) {
    return Waveform.super.maximum(fromSeconds, withinOnePeriod(fromSeconds, toSeconds));
  }

  private double withinOnePeriod(double from, double to) {
    Require.span(from, to);
    double period = periodSeconds().orElse(Double.POSITIVE_INFINITY);
    return to - from > 1.5 * period ? from + 1.25 * period : to;
  }

  @Override
  public String toString() {
    return signal + " through " + response;
  }
}
