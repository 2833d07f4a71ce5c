package org.asmeasured.signal;

import java.util.function.DoubleUnaryOperator;
import org.asmeasured.internal.ExtendedTime;
import org.asmeasured.internal.Require;

/**
 * Builders of signals. Levels are volts, instants and durations seconds, frequencies hertz; each
 * argument is checked where it is given.
 *
 * <p>Signals that begin (step, ramp, pulse, burst, edge, ringing) are zero before; signals that
 * repeat have been repeating for ever.
 */
public final class Signals {
  private Signals() {}

  private static final double[] NONE = {};

  /** Parts that fill a period or a pulse to within this share of it fill it. */
  private static final double ROUNDING = 0x1p-51;

  /**
   * A level that never changes.
   *
   * @param volts the level, at most 1e9 V either way
   * @return the constant
   * @throws IllegalArgumentException if the level is out of range
   */
  public static Signal constant(double volts) {
    Require.volts("volts", volts);
    return Signal.of(new Tones(volts, NONE, NONE, NONE), "constant " + Words.volts(volts));
  }

  /**
   * A jump from zero that holds.
   *
   * @param volts the level after the jump
   * @param atSeconds when
   * @return the step
   * @throws IllegalArgumentException if an argument is out of range
   */
  public static Signal step(double volts, double atSeconds) {
    Require.volts("volts", volts);
    Require.instant("atSeconds", atSeconds);
    return Signal.of(
        new Pattern.Builder().add(0, 0, volts, 0).once(atSeconds, 0),
        "step of " + Words.volts(volts) + " at " + Words.seconds(atSeconds));
  }

  /**
   * A straight line from zero that never ends.
   *
   * @param voltsPerSecond slope, at most 1e21 V/s either way
   * @param fromSeconds when it begins
   * @return the ramp
   * @throws IllegalArgumentException if an argument is out of range
   */
  public static Signal ramp(double voltsPerSecond, double fromSeconds) {
    Require.inRange("voltsPerSecond", voltsPerSecond, "V/s", -1e21, 1e21);
    Require.instant("fromSeconds", fromSeconds);
    return Signal.of(
        new Pattern.Builder().add(0, 0, 0, voltsPerSecond).once(fromSeconds, 0),
        "ramp of " + voltsPerSecond + " V/s from " + Words.seconds(fromSeconds));
  }

  /**
   * A straight line from zero to a level that it then holds.
   *
   * @param volts the level reached
   * @param fromSeconds when it begins
   * @param toSeconds when it ends, later
   * @return the ramp
   * @throws IllegalArgumentException if an argument is out of range or the end is not after the
   *     start
   */
  public static Signal ramp(double volts, double fromSeconds, double toSeconds) {
    Require.volts("volts", volts);
    Require.span(fromSeconds, toSeconds);
    ExtendedTime length = new ExtendedTime().set(toSeconds, 0).add(-fromSeconds);
    Require.duration("toSeconds - fromSeconds", length.hi());
    return Signal.of(
        new Pattern.Builder()
            .add(0, 0, 0, volts / length.hi())
            .add(length, volts, 0)
            .once(fromSeconds, 0),
        "ramp to "
            + Words.volts(volts)
            + " from "
            + Words.seconds(fromSeconds)
            + " to "
            + Words.seconds(toSeconds));
  }

  /**
   * A sine, rising through zero at t = 0.
   *
   * @param amplitudeVolts half its peak to peak
   * @param frequencyHz its frequency
   * @return the sine
   * @throws IllegalArgumentException if an argument is out of range
   */
  public static Signal sine(double amplitudeVolts, double frequencyHz) {
    return sine(amplitudeVolts, frequencyHz, 0);
  }

  /**
   * {@code amplitude sin(2 pi f t + phase)}.
   *
   * @param amplitudeVolts half its peak to peak
   * @param frequencyHz its frequency
   * @param phaseRadians its phase at t = 0, at most 1e6 rad either way
   * @return the sine
   * @throws IllegalArgumentException if an argument is out of range
   */
  public static Signal sine(double amplitudeVolts, double frequencyHz, double phaseRadians) {
    Require.volts("amplitudeVolts", amplitudeVolts);
    Require.hertz("frequencyHz", frequencyHz);
    Require.inRange("phaseRadians", phaseRadians, "rad", -1e6, 1e6);
    return multiTone(
            new double[] {amplitudeVolts}, new double[] {frequencyHz}, new double[] {phaseRadians})
        .named(
            "sine of " + Words.volts(amplitudeVolts) + " amplitude, " + Words.hertz(frequencyHz));
  }

  /**
   * A sum of sines {@code amplitude_i sin(2 pi f_i t + phase_i)}.
   *
   * @param amplitudesVolts amplitudes
   * @param frequenciesHz frequencies, as many
   * @param phasesRadians phases at t = 0, as many
   * @return the sum
   * @throws IllegalArgumentException if an argument is out of range, there is none, or the lengths
   *     differ
   */
  public static Signal multiTone(
      double[] amplitudesVolts, double[] frequenciesHz, double[] phasesRadians) {
    Require.present("amplitudesVolts", amplitudesVolts);
    Require.present("frequenciesHz", frequenciesHz);
    Require.present("phasesRadians", phasesRadians);
    int n = amplitudesVolts.length;
    Require.that(
        n > 0 && frequenciesHz.length == n && phasesRadians.length == n,
        "amplitudesVolts, frequenciesHz and phasesRadians have lengths "
            + n
            + ", "
            + frequenciesHz.length
            + ", "
            + phasesRadians.length
            + ": must be equal and not zero");
    double[] cosine = new double[n];
    double[] sine = new double[n];
    for (int i = 0; i < n; i++) {
      Require.volts("amplitudesVolts[" + i + "]", amplitudesVolts[i]);
      Require.hertz("frequenciesHz[" + i + "]", frequenciesHz[i]);
      Require.inRange("phasesRadians[" + i + "]", phasesRadians[i], "rad", -1e6, 1e6);
      cosine[i] = amplitudesVolts[i] * Math.sin(phasesRadians[i]);
      sine[i] = amplitudesVolts[i] * Math.cos(phasesRadians[i]);
    }
    return Signal.of(new Tones(0, frequenciesHz, cosine, sine), "sum of " + n + " sines");
  }

  /**
   * A square with ideal edges that rises at t = 0.
   *
   * @param lowVolts low level
   * @param highVolts high level
   * @param periodSeconds period
   * @param dutyFactor share of the period spent high, above 0 and below 1
   * @return the square
   * @throws IllegalArgumentException if an argument is out of range
   */
  public static Signal square(
      double lowVolts, double highVolts, double periodSeconds, double dutyFactor) {
    return trapezoid(lowVolts, highVolts, periodSeconds, dutyFactor, 0, 0)
        .named(
            levels("square", lowVolts, highVolts, periodSeconds) + ", duty factor " + dutyFactor);
  }

  /**
   * A square with straight edges; its rise begins at t = 0.
   *
   * @param lowVolts low level
   * @param highVolts high level
   * @param periodSeconds period
   * @param dutyFactor time above mid level as a share of the period, above 0 and below 1
   * @param riseSeconds length of the rising edge, 0 to 100 %; zero for a jump
   * @param fallSeconds length of the falling edge, 100 to 0 %; zero for a jump
   * @return the trapezoid
   * @throws IllegalArgumentException if an argument is out of range or the edges do not fit
   */
  public static Signal trapezoid(
      double lowVolts,
      double highVolts,
      double periodSeconds,
      double dutyFactor,
      double riseSeconds,
      double fallSeconds) {
    Require.above("dutyFactor", dutyFactor, "", 0, Math.nextDown(1.0));
    Require.duration("periodSeconds", periodSeconds);
    ExtendedTime width = new ExtendedTime().addProduct(dutyFactor, periodSeconds);
    Require.duration("dutyFactor x periodSeconds", width.hi());
    return train(lowVolts, highVolts, periodSeconds, width, riseSeconds, fallSeconds)
        .named(
            levels("trapezoid", lowVolts, highVolts, periodSeconds)
                + ", duty factor "
                + dutyFactor
                + ", edges "
                + Words.seconds(riseSeconds)
                + " and "
                + Words.seconds(fallSeconds));
  }

  /**
   * A train of pulses with straight edges; the first edge of a pulse begins at t = 0.
   *
   * @param baseVolts level between pulses
   * @param topVolts level of the pulses
   * @param periodSeconds period
   * @param widthSeconds width at mid level
   * @param riseSeconds length of the first edge, 0 to 100 %; zero for a jump
   * @param fallSeconds length of the second edge; zero for a jump
   * @return the train
   * @throws IllegalArgumentException if an argument is out of range or the pulse does not fit
   */
  public static Signal pulseTrain(
      double baseVolts,
      double topVolts,
      double periodSeconds,
      double widthSeconds,
      double riseSeconds,
      double fallSeconds) {
    Require.volts("baseVolts", baseVolts);
    Require.volts("topVolts", topVolts);
    Require.duration("periodSeconds", periodSeconds);
    Require.duration("widthSeconds", widthSeconds);
    return train(
            baseVolts,
            topVolts,
            periodSeconds,
            new ExtendedTime().set(widthSeconds, 0),
            riseSeconds,
            fallSeconds)
        .named(
            levels("pulses", baseVolts, topVolts, periodSeconds)
                + ", width "
                + Words.seconds(widthSeconds)
                + ", edges "
                + Words.seconds(riseSeconds)
                + " and "
                + Words.seconds(fallSeconds));
  }

  private static Signal train(
      double low, double high, double period, ExtendedTime width, double rise, double fall) {
    Require.volts("lowVolts", low);
    Require.volts("highVolts", high);
    Pattern.Builder builder = new Pattern.Builder();
    ExtendedTime end = addPulse(builder, low, high, new ExtendedTime(), width, rise, fall);
    double rest = (period - end.hi()) - end.lo();
    boolean filled = Math.abs(rest) <= ROUNDING * period;
    Require.that(
        rest >= 0 || filled,
        "the pulse (width "
            + width.hi()
            + " s at mid level, edges "
            + rise
            + " s and "
            + fall
            + " s) ends at "
            + end.hi()
            + " s: must fit in periodSeconds = "
            + period
            + " s");
    if (!filled) {
      builder.add(end, low, 0);
    }
    return Signal.of(builder.repeated(0, 0, new ExtendedTime().set(period, 0)), "pulses");
  }

  /** Adds rise, top and fall of a pulse that begins at {@code start}; returns where it ends. */
  private static ExtendedTime addPulse(
      Pattern.Builder builder,
      double low,
      double high,
      ExtendedTime start,
      ExtendedTime width,
      double rise,
      double fall) {
    Require.durationOrZero("riseSeconds", rise);
    Require.durationOrZero("fallSeconds", fall);
    ExtendedTime topStart = new ExtendedTime().set(start.hi(), start.lo()).add(rise);
    ExtendedTime topEnd =
        new ExtendedTime()
            .set(start.hi(), start.lo())
            .add(rise / 2)
            .add(width.hi(), width.lo())
            .add(-fall / 2);
    double top = (topEnd.hi() - topStart.hi()) + (topEnd.lo() - topStart.lo());
    // edges that meet may miss each other by the rounding of the width
    if (Math.abs(top) <= ROUNDING * width.hi()) {
      top = 0;
      topEnd.set(topStart.hi(), topStart.lo());
    }
    Require.that(
        top >= 0,
        "riseSeconds = "
            + rise
            + " s and fallSeconds = "
            + fall
            + " s: their mean must not exceed the width of "
            + width.hi()
            + " s");
    if (rise > 0) {
      builder.add(start, low, (high - low) / rise);
    }
    if (top > 0) {
      builder.add(topStart, high, 0);
    }
    if (fall > 0) {
      builder.add(topEnd, high, (low - high) / fall);
    }
    return topEnd.add(fall);
  }

  /**
   * A triangle or sawtooth; its rise begins at t = 0.
   *
   * @param lowVolts lowest value
   * @param highVolts highest value
   * @param periodSeconds period
   * @param symmetry share of the period spent rising, 0 to 1; 0.5 is the symmetric triangle, 0 and
   *     1 are sawteeth
   * @return the triangle
   * @throws IllegalArgumentException if an argument is out of range
   */
  public static Signal triangle(
      double lowVolts, double highVolts, double periodSeconds, double symmetry) {
    Require.duration("periodSeconds", periodSeconds);
    return triangle(lowVolts, highVolts, new ExtendedTime().set(periodSeconds, 0), symmetry);
  }

  private static Signal triangle(
      double lowVolts, double highVolts, ExtendedTime period, double symmetry) {
    Require.volts("lowVolts", lowVolts);
    Require.volts("highVolts", highVolts);
    Require.inRange("symmetry", symmetry, "", 0, 1);
    Pattern.Builder builder = new Pattern.Builder();
    ExtendedTime rise =
        new ExtendedTime().addProduct(symmetry, period.hi()).addProduct(symmetry, period.lo());
    double fall = (period.hi() - rise.hi()) + (period.lo() - rise.lo());
    Require.durationOrZero("symmetry x periodSeconds", rise.hi());
    Require.durationOrZero("(1 - symmetry) x periodSeconds", fall);
    if (symmetry > 0) {
      builder.add(0, 0, lowVolts, (highVolts - lowVolts) / rise.hi());
    }
    if (fall > 0) {
      builder.add(rise, highVolts, (lowVolts - highVolts) / fall);
    }
    return Signal.of(
        builder.repeated(0, 0, period),
        levels("triangle", lowVolts, highVolts, period.hi())
            + ", rising for "
            + symmetry
            + " of it");
  }

  /**
   * A single pulse with straight edges on a base of zero.
   *
   * @param amplitudeVolts its top
   * @param startSeconds when its first edge begins
   * @param widthSeconds width at mid level
   * @param riseSeconds length of the first edge, 0 to 100 %; zero for a jump
   * @param fallSeconds length of the second edge; zero for a jump
   * @return the pulse
   * @throws IllegalArgumentException if an argument is out of range or the edges do not fit
   */
  public static Signal pulse(
      double amplitudeVolts,
      double startSeconds,
      double widthSeconds,
      double riseSeconds,
      double fallSeconds) {
    Require.volts("amplitudeVolts", amplitudeVolts);
    Require.instant("startSeconds", startSeconds);
    Require.duration("widthSeconds", widthSeconds);
    Pattern.Builder builder = new Pattern.Builder();
    ExtendedTime end =
        addPulse(
            builder,
            0,
            amplitudeVolts,
            new ExtendedTime(),
            new ExtendedTime().set(widthSeconds, 0),
            riseSeconds,
            fallSeconds);
    builder.add(end, 0, 0);
    return Signal.of(
        builder.once(startSeconds, 0),
        "pulse of "
            + Words.volts(amplitudeVolts)
            + ", "
            + Words.seconds(widthSeconds)
            + " wide, at "
            + Words.seconds(startSeconds));
  }

  /**
   * A train of pulses from zero of which every n-th is a runt: it reaches a lower top.
   *
   * @param amplitudeVolts top of the whole pulses
   * @param runtVolts top of the runts
   * @param periodSeconds time from pulse to pulse
   * @param widthSeconds width at mid level
   * @param edgeSeconds length of each edge, 0 to 100 %; zero for jumps
   * @param every one runt among so many pulses, 2 to 10 000; the last of each group is the runt
   * @return the train, of period {@code every} times {@code periodSeconds}
   * @throws IllegalArgumentException if an argument is out of range or the pulse does not fit
   */
  public static Signal runt(
      double amplitudeVolts,
      double runtVolts,
      double periodSeconds,
      double widthSeconds,
      double edgeSeconds,
      int every) {
    Require.volts("amplitudeVolts", amplitudeVolts);
    Require.volts("runtVolts", runtVolts);
    Require.duration("periodSeconds", periodSeconds);
    Require.duration("widthSeconds", widthSeconds);
    Require.durationOrZero("edgeSeconds", edgeSeconds);
    Require.inRange("every", every, 2, 10_000);
    Pattern.Builder builder = new Pattern.Builder();
    for (int i = 0; i < every; i++) {
      ExtendedTime start = new ExtendedTime().addProduct(i, periodSeconds);
      ExtendedTime next = new ExtendedTime().addProduct(i + 1, periodSeconds);
      ExtendedTime end =
          addPulse(
              builder,
              0,
              i == every - 1 ? runtVolts : amplitudeVolts,
              start,
              new ExtendedTime().set(widthSeconds, 0),
              edgeSeconds,
              edgeSeconds);
      double rest = (next.hi() - end.hi()) + (next.lo() - end.lo());
      Require.that(
          rest > 0,
          "the pulse (width "
              + widthSeconds
              + " s at mid level, edges "
              + edgeSeconds
              + " s) must fit in periodSeconds = "
              + periodSeconds
              + " s");
      builder.add(end, 0, 0);
    }
    return Signal.of(
        builder.repeated(0, 0, new ExtendedTime().addProduct(every, periodSeconds)),
        levels("pulses", 0, amplitudeVolts, periodSeconds)
            + ", one in "
            + every
            + " a runt of "
            + Words.volts(runtVolts));
  }

  /**
   * Whole cycles of a sine, once.
   *
   * @param amplitudeVolts half its peak to peak
   * @param frequencyHz its frequency
   * @param cycles how many, 1 to 10^9
   * @param startSeconds when it begins, rising from zero
   * @return the burst
   * @throws IllegalArgumentException if an argument is out of range
   */
  public static Signal burst(
      double amplitudeVolts, double frequencyHz, int cycles, double startSeconds) {
    Require.volts("amplitudeVolts", amplitudeVolts);
    Require.hertz("frequencyHz", frequencyHz);
    Require.inRange("cycles", cycles, 1, 1_000_000_000);
    Require.instant("startSeconds", startSeconds);
    return Signal.of(
        new Pattern.Builder()
            .add(0, 0, 0, 0)
            .term(0, amplitudeVolts, 0, frequencyHz)
            .add(new ExtendedTime().setQuotient(cycles, frequencyHz), 0, 0)
            .once(startSeconds, 0),
        "burst of "
            + cycles
            + " cycles of "
            + Words.volts(amplitudeVolts)
            + " amplitude, "
            + Words.hertz(frequencyHz)
            + ", at "
            + Words.seconds(startSeconds));
  }

  /**
   * The charging curve {@code volts (1 - exp(-(t - start)/tau))}, zero before.
   *
   * @param volts the level approached
   * @param startSeconds when it begins
   * @param timeConstantSeconds tau
   * @return the edge
   * @throws IllegalArgumentException if an argument is out of range
   */
  public static Signal exponentialEdge(
      double volts, double startSeconds, double timeConstantSeconds) {
    Require.volts("volts", volts);
    Require.instant("startSeconds", startSeconds);
    Require.duration("timeConstantSeconds", timeConstantSeconds);
    return Signal.of(
        new Pattern.Builder()
            .add(0, 0, volts, 0)
            .term(-volts, 0, -1 / timeConstantSeconds, 0)
            .once(startSeconds, 0),
        "exponential edge to "
            + Words.volts(volts)
            + " at "
            + Words.seconds(startSeconds)
            + ", time constant "
            + Words.seconds(timeConstantSeconds));
  }

  /**
   * {@code amplitude exp(-(t - start)/decay) sin(2 pi f (t - start))}, zero before.
   *
   * @param amplitudeVolts amplitude at the start
   * @param frequencyHz frequency
   * @param decaySeconds time in which it falls to 1/e
   * @param startSeconds when it begins
   * @return the ringing
   * @throws IllegalArgumentException if an argument is out of range
   */
  public static Signal dampedRinging(
      double amplitudeVolts, double frequencyHz, double decaySeconds, double startSeconds) {
    Require.volts("amplitudeVolts", amplitudeVolts);
    Require.hertz("frequencyHz", frequencyHz);
    Require.duration("decaySeconds", decaySeconds);
    Require.instant("startSeconds", startSeconds);
    return Signal.of(
        new Pattern.Builder()
            .add(0, 0, 0, 0)
            .term(0, amplitudeVolts, -1 / decaySeconds, frequencyHz)
            .once(startSeconds, 0),
        "ringing of "
            + Words.volts(amplitudeVolts)
            + ", "
            + Words.hertz(frequencyHz)
            + ", decay "
            + Words.seconds(decaySeconds)
            + ", at "
            + Words.seconds(startSeconds));
  }

  /**
   * A supply rail as a switching converter leaves it: a level, a triangular ripple about it, and
   * ringing at each of the ripple's lowest points, where the switch turns on.
   *
   * @param railVolts the level
   * @param ripplePeakToPeakVolts peak to peak of the triangle alone, zero or more
   * @param rippleHz its frequency, the switching frequency
   * @param ringingVolts amplitude of the ringing at each turn-on; zero for none
   * @param ringingHz frequency of the ringing
   * @param ringingDecaySeconds time in which it falls to 1/e
   * @return the rail
   * @throws IllegalArgumentException if an argument is out of range
   */
  public static Signal rippleOnRail(
      double railVolts,
      double ripplePeakToPeakVolts,
      double rippleHz,
      double ringingVolts,
      double ringingHz,
      double ringingDecaySeconds) {
    Require.volts("railVolts", railVolts);
    Require.inRange("ripplePeakToPeakVolts", ripplePeakToPeakVolts, "V", 0, 1e9);
    Require.hertz("rippleHz", rippleHz);
    Require.volts("ringingVolts", ringingVolts);
    Require.hertz("ringingHz", ringingHz);
    Require.duration("ringingDecaySeconds", ringingDecaySeconds);
    double half = ripplePeakToPeakVolts / 2;
    ExtendedTime period = new ExtendedTime().setQuotient(1, rippleHz);
    Signal rail = constant(railVolts).plus(triangle(-half, half, period, 0.5));
    Signal ringing = dampedRinging(ringingVolts, ringingHz, ringingDecaySeconds, 0);
    if (ringingVolts != 0) {
      rail = rail.plus(ringing.repeatedEvery(period));
    }
    return rail.named(
        "rail of "
            + Words.volts(railVolts)
            + " with a ripple of "
            + Words.volts(ripplePeakToPeakVolts)
            + " peak to peak at "
            + Words.hertz(rippleHz)
            + (ringingVolts == 0
                ? ""
                : " and ringing of "
                    + Words.volts(ringingVolts)
                    + " at "
                    + Words.hertz(ringingHz)));
  }

  /**
   * A recorded waveform, straight between its points. Before the first point it held that value for
   * ever, after the last it holds.
   *
   * @param timesSeconds strictly ascending instants, at least two
   * @param volts as many values
   * @return the waveform
   * @throws IllegalArgumentException if there are fewer than two points, the lengths differ, a
   *     value is out of range or the times do not ascend; the message names the index
   */
  public static Signal recorded(double[] timesSeconds, double[] volts) {
    Require.present("timesSeconds", timesSeconds);
    Require.present("volts", volts);
    Require.that(
        timesSeconds.length == volts.length && volts.length >= 2,
        "timesSeconds and volts have lengths "
            + timesSeconds.length
            + " and "
            + volts.length
            + ": must be equal and at least 2");
    for (int i = 0; i < volts.length; i++) {
      Require.instant("timesSeconds[" + i + "]", timesSeconds[i]);
      Require.volts("volts[" + i + "]", volts[i]);
      Require.that(
          i == 0 || timesSeconds[i] > timesSeconds[i - 1],
          "timesSeconds["
              + i
              + "] = "
              + timesSeconds[i]
              + " s: must be after timesSeconds["
              + (i - 1)
              + "] = "
              + timesSeconds[Math.max(0, i - 1)]
              + " s");
    }
    ExtendedTime[] starts = new ExtendedTime[volts.length];
    for (int i = 0; i < volts.length; i++) {
      starts[i] = new ExtendedTime().set(timesSeconds[i], 0).add(-timesSeconds[0]);
    }
    return polyline(timesSeconds[0], starts, volts);
  }

  /**
   * A recorded waveform at a uniform rate, straight between its points. Before the first point it
   * held that value for ever, after the last it holds.
   *
   * @param startSeconds instant of the first point
   * @param rateHz points per second
   * @param volts at least two values
   * @return the waveform
   * @throws IllegalArgumentException if there are fewer than two points or a value is out of range;
   *     the message names the index
   */
  public static Signal recorded(double startSeconds, double rateHz, double[] volts) {
    Require.instant("startSeconds", startSeconds);
    Require.hertz("rateHz", rateHz);
    Require.present("volts", volts);
    Require.that(volts.length >= 2, "volts has length " + volts.length + ": must be at least 2");
    ExtendedTime[] starts = new ExtendedTime[volts.length];
    for (int i = 0; i < volts.length; i++) {
      Require.volts("volts[" + i + "]", volts[i]);
      starts[i] = new ExtendedTime().setQuotient(i, rateHz);
    }
    return polyline(startSeconds, starts, volts);
  }

  /**
   * The first value has been there for ever; what moves away from it begins at the origin,
   * continuously.
   */
  private static Signal polyline(double origin, ExtendedTime[] starts, double[] volts) {
    Pattern.Builder builder = new Pattern.Builder();
    int last = volts.length - 1;
    for (int i = 0; i < last; i++) {
      double length = (starts[i + 1].hi() - starts[i].hi()) + (starts[i + 1].lo() - starts[i].lo());
      Require.duration("the time from point " + i + " to point " + (i + 1), length);
      builder.add(starts[i], volts[i] - volts[0], (volts[i + 1] - volts[i]) / length);
    }
    builder.add(starts[last], volts[last] - volts[0], 0);
    return constant(volts[0])
        .plus(Signal.of(builder.once(origin, 0), ""))
        .named("recorded waveform of " + volts.length + " points from " + Words.seconds(origin));
  }

  /**
   * Any other function of time over a span, as straight pieces of unequal length, joined at points
   * of the function. Before and after the span the end values hold.
   *
   * @param function volts of seconds; must be finite over the span
   * @param fromSeconds start of the span
   * @param toSeconds end of the span, later
   * @param toleranceVolts the greatest error allowed, above zero
   * @return the fitted signal with the greatest error seen
   * @throws IllegalArgumentException if an argument is out of range, the function is not finite
   *     somewhere, or the tolerance is not met with 2^20 pieces
   */
  public static Fit fitted(
      DoubleUnaryOperator function, double fromSeconds, double toSeconds, double toleranceVolts) {
    Require.present("function", function);
    Require.span(fromSeconds, toSeconds);
    Require.positiveVolts("toleranceVolts", toleranceVolts);
    return new PiecewiseFit(function, toleranceVolts).over(fromSeconds, toSeconds);
  }

  private static String levels(String what, double low, double high, double period) {
    return what
        + " from "
        + Words.volts(low)
        + " to "
        + Words.volts(high)
        + ", period "
        + Words.seconds(period);
  }
}
