package org.asmeasured.signal;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.asmeasured.internal.ExtendedTime;
import org.asmeasured.internal.Require;

/**
 * A voltage over time in closed form: a sum of components, each a row of segments made of a
 * constant, a slope and (complex) exponentials. The family is closed under sums, scaling, delay,
 * gating and repetition, and a linear system maps it to itself, which is why a chain can be
 * evaluated exactly at any instant.
 *
 * <p>Immutable and safe for use by many threads. Built by {@link Signals}.
 *
 * <p>Instants are meant exactly, as the doubles given: a sample that falls on an ideal jump takes
 * the value after it.
 */
public final class Signal implements Waveform {
  private static final int MAX_PIECES = 1 << 24;
  private static final int MAX_SEGMENTS = 1 << 20;
  private static final int MAX_COMMON_MULTIPLE = 4096;
  private static final double SAME_PERIOD = 1e-12;
  private static final double MAX_VOLTS = 1e30;

  /**
   * Beyond this many time constants an exponential is below the last bit of what it started from.
   */
  private static final double DEAD = 37;

  private final List<Component> components;
  private final String words;
  private final double bound;

  Signal(List<Component> components, String words) {
    this.components = List.copyOf(components);
    this.words = words;
    double sum = 0;
    for (Component c : components) {
      sum += c.bound();
    }
    bound = sum;
    Require.that(
        bound <= MAX_VOLTS || bound == Double.POSITIVE_INFINITY && slopesAreFinite(),
        "the signal reaches " + bound + " V: must stay within " + MAX_VOLTS + " V");
  }

  /** An endless ramp has no bound, but it has slopes. */
  private boolean slopesAreFinite() {
    for (Component c : components) {
      if (c instanceof Pattern p) {
        for (int i = 0; i < p.count(); i++) {
          if (!(Math.abs(p.slope(i)) <= MAX_VOLTS && Math.abs(p.level(i)) <= MAX_VOLTS)) {
            return false;
          }
        }
      }
    }
    return true;
  }

  static Signal of(Component component, String words) {
    return new Signal(List.of(component), words);
  }

  /**
   * The parts whose sum this signal is.
   *
   * @return at least one component, in an order that never changes
   */
  public List<Component> components() {
    return components;
  }

  Signal named(String newWords) {
    return new Signal(components, newWords);
  }

  // Algebra.

  /**
   * The sum of two signals.
   *
   * @param other the other signal
   * @return the sum, each part with its own way of starting
   */
  public Signal plus(Signal other) {
    Require.present("other", other);
    List<Component> all = new ArrayList<>();
    Tones tones = null;
    for (Component c : joined(components, other.components)) {
      if (c instanceof Tones t) {
        tones = tones == null ? t : tones.plus(t);
      } else {
        all.add(c);
      }
    }
    if (tones != null) {
      all.add(0, tones);
    }
    return new Signal(all, words + " + " + other.words);
  }

  private static List<Component> joined(List<Component> a, List<Component> b) {
    List<Component> all = new ArrayList<>(a);
    all.addAll(b);
    return all;
  }

  /**
   * The signal raised by a constant.
   *
   * @param volts the constant
   * @return the sum
   * @throws IllegalArgumentException if the constant is not finite or beyond 1e9 V
   */
  public Signal plus(double volts) {
    return plus(Signals.constant(volts));
  }

  /**
   * The difference of two signals.
   *
   * @param other what is taken away
   * @return this less the other
   */
  public Signal minus(Signal other) {
    return plus(Require.present("other", other).times(-1));
  }

  /**
   * The signal with all values multiplied.
   *
   * @param factor any number from -1e9 to 1e9
   * @return the scaled signal
   * @throws IllegalArgumentException if the factor is out of range
   */
  public Signal times(double factor) {
    Require.inRange("factor", factor, "", -1e9, 1e9);
    if (factor == 1) {
      return this;
    }
    return new Signal(
        components.stream().map(c -> c.times(factor)).toList(), factor + " x (" + words + ")");
  }

  /**
   * The signal moved to later times.
   *
   * @param seconds delay, either sign
   * @return a signal whose value at t is this one's at t - seconds
   * @throws IllegalArgumentException if the delay is not finite or beyond 1e12 s
   */
  public Signal delayedBy(double seconds) {
    Require.instant("seconds", seconds);
    if (seconds == 0) {
      return this;
    }
    return new Signal(
        components.stream().map(c -> c.delayedBy(seconds)).toList(),
        "(" + words + ") delayed by " + Words.seconds(seconds));
  }

  /**
   * The signal slowed down about t = 0: x(t/k). Rises, widths and periods become k times as long,
   * frequencies 1/k of what they were; volts stay.
   *
   * @param factor k, 1e-6 to 1e6; above 1 takes longer
   * @return a signal whose value at t is this one's at t/k
   * @throws IllegalArgumentException if the factor is out of range, or a sine leaves 1e-9 to 1e15
   *     Hz
   */
  public Signal stretchedBy(double factor) {
    Require.inRange("factor", factor, "", 1e-6, 1e6);
    if (factor == 1) {
      return this;
    }
    return new Signal(
        components.stream().map(c -> c.stretchedBy(factor)).toList(),
        "(" + words + ") stretched by " + factor);
  }

  /**
   * The signal between two instants, zero outside: it begins there from rest.
   *
   * @param fromSeconds the first instant
   * @param toSeconds the end, later than the first
   * @return the gated signal
   * @throws IllegalArgumentException if an instant is out of range, the end is not after the start,
   *     or more than 2^20 segments would result
   */
  public Signal gated(double fromSeconds, double toSeconds) {
    Require.span(fromSeconds, toSeconds);
    return gate(fromSeconds, toSeconds)
        .named(
            "("
                + words
                + ") from "
                + Words.seconds(fromSeconds)
                + " to "
                + Words.seconds(toSeconds));
  }

  /**
   * The signal from an instant on, zero before: it begins there from rest. A repeating part cannot
   * begin in this way without an end; gate it instead.
   *
   * @param seconds the first instant
   * @return the signal that starts
   * @throws IllegalArgumentException if the instant is out of range or a part of the signal repeats
   *     a pattern for ever
   */
  public Signal startingAt(double seconds) {
    Require.instant("seconds", seconds);
    for (Component c : components) {
      Require.that(
          !(c instanceof Pattern p && p.isPeriodic()),
          "startingAt("
              + seconds
              + " s): a repeated pattern has no last segment, so say where it ends: gated(from, to)");
    }
    return gate(seconds, Double.POSITIVE_INFINITY)
        .named("(" + words + ") starting at " + Words.seconds(seconds));
  }

  private Signal gate(double from, double to) {
    List<Component> gated = new ArrayList<>();
    for (Component c : components) {
      gated.add(gated(c, from, to));
    }
    return new Signal(gated, words);
  }

  private static Pattern gated(Component component, double from, double to) {
    Pattern.Builder builder = new Pattern.Builder();
    ExtendedTime t = new ExtendedTime();
    if (component instanceof Tones tones) {
      builder.add(0, 0, tones.termsAt(from, 0));
    } else {
      Pattern pattern = (Pattern) component;
      Require.that(
          !pattern.isPeriodic()
              || (to - from) / pattern.periodSeconds() * pattern.count() < MAX_SEGMENTS,
          "gated from "
              + from
              + " s to "
              + to
              + " s: more than "
              + MAX_SEGMENTS
              + " segments lie between");
      builder.add(0, 0, pattern.termsAt(from, 0, new Terms()));
      Breakpoints breakpoints = new Breakpoints(pattern, from);
      while (breakpoints.next(to)) {
        t.set(breakpoints.hi(), breakpoints.lo()).add(-from);
        if (t.hi() <= 0) {
          continue;
        }
        Terms terms = new Terms();
        pattern.addTerms(breakpoints.segment(), 0, 0, terms);
        builder.add(t.hi(), t.lo(), terms);
        Require.that(
            builder.count() <= MAX_SEGMENTS,
            "gated from "
                + from
                + " s to "
                + to
                + " s: more than "
                + MAX_SEGMENTS
                + " segments lie between");
      }
    }
    if (to < Double.POSITIVE_INFINITY) {
      t.set(to, 0).add(-from);
      builder.add(t, 0, 0);
    }
    return builder.once(from, 0);
  }

  /**
   * The sum of all copies of the signal, shifted by every whole multiple of a period: a settled
   * train. Copies may overlap.
   *
   * @param periodSeconds the period
   * @return the repeated signal
   * @throws IllegalArgumentException if the period is out of range, or if the signal does not die
   *     away (a constant, an undamped sine, a ramp), or if more than 2^20 segments would result
   */
  public Signal repeatedEvery(double periodSeconds) {
    Require.duration("periodSeconds", periodSeconds);
    return repeatedEvery(new ExtendedTime().set(periodSeconds, 0));
  }

  Signal repeatedEvery(ExtendedTime period) {
    List<Pattern> once = new ArrayList<>();
    for (Component c : components) {
      Require.that(
          c instanceof Pattern p && !p.isPeriodic() || c.bound() == 0,
          "repeatedEvery("
              + period.hi()
              + " s): the signal has a part without beginning: gate it first");
      if (c instanceof Pattern p) {
        once.add(p);
      }
    }
    if (once.isEmpty()) {
      return Signals.constant(0);
    }
    return Signal.of(
        Repetition.of(once.size() == 1 ? once.get(0) : Repetition.merged(once), period),
        "(" + words + ") every " + Words.seconds(period.hi()));
  }

  // Values.

  @Override
  public double valueAt(double timeSeconds) {
    return valueAt(Require.instant("timeSeconds", timeSeconds), 0);
  }

  @Override
  public double valueAt(double hi, double lo) {
    double sum = components.get(0).valueAt(hi, lo);
    for (int i = 1; i < components.size(); i++) {
      sum += components.get(i).valueAt(hi, lo);
    }
    return sum;
  }

  @Override
  public double valueBefore(double timeSeconds) {
    Require.instant("timeSeconds", timeSeconds);
    double sum = components.get(0).valueBefore(timeSeconds);
    for (int i = 1; i < components.size(); i++) {
      sum += components.get(i).valueBefore(timeSeconds);
    }
    return sum;
  }

  /**
   * The values at uniform instants, each as exact as {@link #valueAt}: a pure function of the
   * sample number.
   *
   * @param clock when samples are taken
   * @param first number of the first sample wanted, up to 2^53 either way
   * @param out receives {@code count} volts
   * @param offset where in {@code out} the first goes
   * @param count how many
   * @throws IndexOutOfBoundsException if {@code out} does not hold them
   */
  public void sample(SampleClock clock, long first, double[] out, int offset, int count) {
    Require.present("clock", clock);
    java.util.Objects.checkFromIndexSize(offset, count, Require.present("out", out).length);
    Require.inRange("first", first, -(1L << 53), (1L << 53) - count);
    ExtendedTime t = new ExtendedTime();
    for (int j = 0; j < count; j++) {
      t.setQuotient(first + j, clock.rateHz()).add(clock.startSeconds());
      out[offset + j] = valueAt(t.hi(), t.lo());
    }
  }

  /**
   * A bound of the modulus over all time, reached or not.
   *
   * @return volts; infinite for a ramp that never ends
   */
  public double bound() {
    return bound;
  }

  // Exact readings.

  @Override
  public OptionalDouble periodSeconds() {
    double common = 0;
    for (Component c : components) {
      if (c instanceof Pattern p) {
        if (!p.isPeriodic()) {
          if (p.bound() > 0) {
            return OptionalDouble.empty();
          }
          continue;
        }
        common = common == 0 ? p.periodSeconds() : commonMultiple(common, p.periodSeconds());
      } else if (c instanceof Tones t) {
        for (int i = 0; i < t.count(); i++) {
          if (t.cosine(i) != 0 || t.sine(i) != 0) {
            double period = 1 / t.frequencyHz(i);
            common = common == 0 ? period : commonMultiple(common, period);
          }
        }
      }
      if (common < 0) {
        return OptionalDouble.empty();
      }
    }
    return common > 0 ? OptionalDouble.of(common) : OptionalDouble.empty();
  }

  @Override
  public Optional<Tones> asTones() {
    Tones all = null;
    for (Component c : components) {
      if (c instanceof Tones some) {
        all = all == null ? some : all.plus(some);
      } else if (c.bound() > 0) {
        return Optional.empty();
      }
    }
    return Optional.ofNullable(all);
  }

  /**
   * The least common multiple of two durations whose ratio is a quotient of small whole numbers; -1
   * if it is none.
   */
  private static double commonMultiple(double a, double b) {
    if (a < 0) {
      return a;
    }
    // continued fraction of a / b: the first convergent m / n that meets it
    double x = a / b;
    long m0 = 1;
    long m1 = (long) Math.floor(x);
    long n0 = 0;
    long n1 = 1;
    double rest = x - Math.floor(x);
    while (Math.abs(m1 - n1 * x) > SAME_PERIOD * m1 || m1 == 0) {
      if (rest < SAME_PERIOD) {
        return -1;
      }
      double y = 1 / rest;
      long digit = (long) Math.floor(y);
      rest = y - digit;
      long m2 = digit * m1 + m0;
      long n2 = digit * n1 + n0;
      m0 = m1;
      n0 = n1;
      m1 = m2;
      n1 = n2;
      if (m1 > MAX_COMMON_MULTIPLE || n1 > MAX_COMMON_MULTIPLE) {
        return -1;
      }
    }
    return Math.max(a * n1, b * m1);
  }

  /**
   * Every jump and kink strictly inside a span, ascending and distinct, with both ends of the span.
   */
  private double[] breakpoints(double from, double to) {
    Require.span(from, to);
    double[] all = {from, to};
    int n = 2;
    for (Component c : components) {
      if (c instanceof Pattern p) {
        Require.that(
            !p.isPeriodic() || (to - from) / p.periodSeconds() * p.count() < MAX_PIECES,
            "from " + from + " s to " + to + " s: more than " + MAX_PIECES + " pieces");
        Breakpoints breakpoints = new Breakpoints(p, from);
        while (breakpoints.next(to)) {
          if (breakpoints.hi() > from) {
            Require.that(
                n < MAX_PIECES,
                "from " + from + " s to " + to + " s: more than " + MAX_PIECES + " pieces");
            if (n == all.length) {
              all = Arrays.copyOf(all, 2 * n);
            }
            all[n++] = breakpoints.hi();
          }
        }
      }
    }
    Arrays.sort(all, 0, n);
    int m = 1;
    for (int i = 1; i < n; i++) {
      if (all[i] > all[m - 1]) {
        all[m++] = all[i];
      }
    }
    return Arrays.copyOf(all, m);
  }

  @Override
  public double[] knots(double fromSeconds, double toSeconds) {
    double[] breaks = breakpoints(fromSeconds, toSeconds);
    double[] knots = new double[2 * breaks.length];
    int n = 0;
    for (int i = 0; i + 1 < breaks.length; i++) {
      double t = breaks[i];
      double end = breaks[i + 1];
      Require.that(
          (end - t) * 8 * undampedAt(t + (end - t) / 2) < MAX_PIECES,
          "from " + fromSeconds + " s to " + toSeconds + " s: more than " + MAX_PIECES + " knots");
      while (t < end) {
        Require.that(
            n < MAX_PIECES,
            "from "
                + fromSeconds
                + " s to "
                + toSeconds
                + " s: more than "
                + MAX_PIECES
                + " knots");
        if (n + 1 >= knots.length) {
          knots = Arrays.copyOf(knots, 2 * knots.length);
        }
        knots[n++] = t;
        double next = t + stepAfter(t, end);
        // equal shares rather than a sliver at the end
        t = end - next < 0.5 * (next - t) || next <= t ? end : next;
      }
    }
    knots[n++] = toSeconds;
    return Arrays.copyOf(knots, n);
  }

  /** The highest frequency of the sines that do not die away. */
  private double undampedAt(double t) {
    double fastest = 0;
    for (Component c : components) {
      if (c instanceof Tones tones) {
        for (int i = 0; i < tones.count(); i++) {
          fastest = Math.max(fastest, tones.frequencyHz(i));
        }
      } else {
        fastest = Math.max(fastest, ((Pattern) c).undampedAt(t));
      }
    }
    return fastest;
  }

  private double stepAfter(double t, double end) {
    double middle = t + Math.min((end - t) / 2, Math.ulp(t));
    double fastest = undampedAt(middle);
    for (Component c : components) {
      if (c instanceof Pattern p) {
        fastest = Math.max(fastest, p.fastestAt(middle, DEAD));
      }
    }
    return fastest == 0 ? end - t : 1 / (8 * fastest);
  }

  @Override
  public double mean(double fromSeconds, double toSeconds) {
    return integrate(fromSeconds, toSeconds, false) / (toSeconds - fromSeconds);
  }

  @Override
  public double rms(double fromSeconds, double toSeconds) {
    return Math.sqrt(
        Math.max(0, integrate(fromSeconds, toSeconds, true) / (toSeconds - fromSeconds)));
  }

  /** Whole periods are integrated once. */
  private double integrate(double from, double to, boolean square) {
    Require.span(from, to);
    double period = periodSeconds().orElse(Double.POSITIVE_INFINITY);
    double whole = Math.floor((to - from) / period);
    if (whole >= 2) {
      double rest = from + whole * period;
      return whole * overPieces(0, period, square) + (rest < to ? overPieces(rest, to, square) : 0);
    }
    return overPieces(from, to, square);
  }

  private double overPieces(double from, double to, boolean square) {
    double[] breaks = breakpoints(from, to);
    double sum = 0;
    double rest = 0;
    for (int i = 0; i + 1 < breaks.length; i++) {
      double d = breaks[i + 1] - breaks[i];
      Terms terms = termsFrom(breaks[i], d);
      double part = square ? terms.integralOfSquare(d) : terms.integral(d);
      double s = sum + part;
      rest += Math.abs(sum) >= Math.abs(part) ? (sum - s) + part : (part - s) + sum;
      sum = s;
    }
    return sum + rest;
  }

  /**
   * All terms in force on a piece, seen from its start; the segment is chosen at the piece's
   * middle.
   */
  private Terms termsFrom(double start, double length) {
    Terms all = new Terms();
    for (Component c : components) {
      if (c instanceof Tones tones) {
        all.addAll(tones.termsAt(start, 0));
      } else {
        ((Pattern) c).addTermsAround(start, 0, length / 2, all);
      }
    }
    return all;
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
    return words;
  }
}
