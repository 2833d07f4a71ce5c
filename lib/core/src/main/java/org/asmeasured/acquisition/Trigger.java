package org.asmeasured.acquisition;

import java.util.OptionalDouble;
import java.util.function.Consumer;
import org.asmeasured.internal.Quantity;
import org.asmeasured.internal.Require;
import org.asmeasured.linear.Response;
import org.asmeasured.signal.Signal;
import org.asmeasured.signal.Waveform;

/**
 * When an acquisition takes place. The trigger looks at the signal behind the amplifier by a path
 * of its own, and each event that it accepts makes one acquisition.
 *
 * <p><b>Event.</b> For a rising slope: the path crosses the level upward after it has been below
 * level minus hysteresis. For a falling slope, the mirror image: downward after it has been above
 * level plus hysteresis. To reach the level is to cross it. A {@link Qualifier} asks more of the
 * pulse that begins so.
 *
 * <p><b>The record</b> starts at event + delay - share x span. It is aligned to the event exactly,
 * or with a time resolution of r raw sample intervals: the free-running sample clock then leaves an
 * error that is uniform over &plusmn;r/2 intervals, and lessens a mean over many acquisitions at
 * frequency f by sin(pi f r/f<sub>s</sub>)/(pi f r/f<sub>s</sub>). Jitter of standard deviation s
 * lessens it by exp(-(2 pi f s)<sup>2</sup>/2) (T. M. Souders, D. R. Flach, C. Hagwood, G. L. Yang,
 * IEEE Trans. Instrum. Meas. 39 (1990) 80; from memory).
 *
 * <p><b>The next event</b> is accepted no sooner than the holdoff after the event, and not before
 * the recorder is ready: the rearm time after the end of the record, and then as long again as the
 * part of a record ahead of its event, which has to be filled first. An event at that very instant
 * counts.
 *
 * <p>Immutable; each method that is given a value returns another trigger.
 *
 * @param path what the trigger sees of the signal
 * @param levelVolts the level, behind the path, -1e9 to 1e9 V
 * @param slope which way it is crossed
 * @param hysteresisVolts how far the path must have been on the other side of the level, 0 to 1e9 V
 * @param qualifier which pulses count
 * @param preTriggerShare the share of the record's span that lies before the event, 0 to 1; without
 *     the delay
 * @param delaySeconds by how much the record is late of that, 0 or 1e-18 to 1e12 s
 * @param holdoffSeconds the least time from one event to the next that is accepted, 0 or 1e-18 to
 *     1e12 s
 * @param rearmSeconds dead time from the end of a record, 0 or 1e-18 to 1e12 s
 * @param jitterSeconds standard deviation of the error of an event's instant, 0 or 1e-18 to 1e12 s
 * @param resolution with which a record is aligned to its event, 0 (exactly) to 1 (to the sample
 *     grid) raw sample intervals
 * @param noEvent what is done when none comes
 * @param armedSeconds the instant from which on events are looked for, -1e12 to 1e12 s; if empty,
 *     it is drawn for a periodic signal, and the start of the setup's clock for any other
 */
public record Trigger(
    TriggerPath path,
    double levelVolts,
    Slope slope,
    double hysteresisVolts,
    Qualifier qualifier,
    double preTriggerShare,
    double delaySeconds,
    double holdoffSeconds,
    double rearmSeconds,
    double jitterSeconds,
    double resolution,
    NoEvent noEvent,
    OptionalDouble armedSeconds) {
  private static final double USUAL_PATIENCE_SECONDS = 10;

  /**
   * Checks the values.
   *
   * @param path what the trigger sees of the signal
   * @param levelVolts the level, behind the path, -1e9 to 1e9 V
   * @param slope which way it is crossed
   * @param hysteresisVolts how far the path must have been on the other side of the level, 0 to 1e9
   *     V
   * @param qualifier which pulses count
   * @param preTriggerShare the share of the record's span that lies before the event, 0 to 1;
   *     without the delay
   * @param delaySeconds by how much the record is late of that, 0 or 1e-18 to 1e12 s
   * @param holdoffSeconds the least time from one event to the next that is accepted, 0 or 1e-18 to
   *     1e12 s
   * @param rearmSeconds dead time from the end of a record, 0 or 1e-18 to 1e12 s
   * @param jitterSeconds standard deviation of the error of an event's instant, 0 or 1e-18 to 1e12
   *     s
   * @param resolution with which a record is aligned to its event, 0 (exactly) to 1 (to the sample
   *     grid) raw sample intervals
   * @param noEvent what is done when none comes
   * @param armedSeconds the instant from which on events are looked for, -1e12 to 1e12 s; if empty,
   *     it is drawn for a periodic signal, and the start of the setup's clock for any other
   * @throws IllegalArgumentException if one is out of range, or a runt's other level is not beyond
   *     the level in the direction of the slope
   * @throws NullPointerException if one is missing
   */
  public Trigger {
    Require.present("path", path);
    Require.volts("levelVolts", levelVolts);
    Require.present("slope", slope);
    Require.inRange("hysteresisVolts", hysteresisVolts, "V", 0, 1e9);
    Require.present("qualifier", qualifier);
    if (qualifier instanceof Runt runt) {
      boolean rising = slope == Slope.RISING;
      Require.that(
          rising ? runt.otherVolts() > levelVolts : runt.otherVolts() < levelVolts,
          "otherVolts = "
              + runt.otherVolts()
              + " V, levelVolts = "
              + levelVolts
              + " V, slope = "
              + slope
              + ": the first must be "
              + (rising ? "above" : "below")
              + " the second");
    }
    Require.inRange("preTriggerShare", preTriggerShare, "", 0, 1);
    delaySeconds = Require.durationOrZero("delaySeconds", delaySeconds);
    holdoffSeconds = Require.durationOrZero("holdoffSeconds", holdoffSeconds);
    rearmSeconds = Require.durationOrZero("rearmSeconds", rearmSeconds);
    jitterSeconds = Require.durationOrZero("jitterSeconds", jitterSeconds);
    Require.inRange("resolution", resolution, "", 0, 1);
    Require.present("noEvent", noEvent);
    Require.present("armedSeconds", armedSeconds);
    if (armedSeconds.isPresent()) {
      Require.instant("armedSeconds", armedSeconds.getAsDouble());
    }
  }

  /**
   * A rising edge, nothing more: no hysteresis, holdoff, dead time or jitter, exact alignment, the
   * event in the middle of the record, given up on after 10 s without an event.
   *
   * @param levelVolts the level, -1e9 to 1e9 V
   * @return the trigger
   * @throws IllegalArgumentException if the level is out of range
   */
  public static Trigger at(double levelVolts) {
    return new Trigger(
        TriggerPath.dc(),
        levelVolts,
        Slope.RISING,
        0,
        Qualifier.none(),
        0.5,
        0,
        0,
        0,
        0,
        0,
        NoEvent.waitFor(USUAL_PATIENCE_SECONDS),
        OptionalDouble.empty());
  }

  /**
   * With another path.
   *
   * @param value what the trigger sees of the signal
   * @return the trigger
   * @throws NullPointerException if it is missing
   */
  public Trigger path(TriggerPath value) {
    return with(d -> d.path = value);
  }

  /**
   * With another level.
   *
   * @param value the level, behind the path, -1e9 to 1e9 V
   * @return the trigger
   * @throws IllegalArgumentException if it is out of range
   */
  public Trigger level(double value) {
    return with(d -> d.levelVolts = value);
  }

  /**
   * With another slope.
   *
   * @param value which way it is crossed
   * @return the trigger
   * @throws NullPointerException if it is missing
   */
  public Trigger slope(Slope value) {
    return with(d -> d.slope = value);
  }

  /**
   * With another hysteresis.
   *
   * @param volts how far the path must have been on the other side of the level, 0 to 1e9 V
   * @return the trigger
   * @throws IllegalArgumentException if it is out of range
   */
  public Trigger hysteresis(double volts) {
    return with(d -> d.hysteresisVolts = volts);
  }

  /**
   * With another qualifier.
   *
   * @param value which pulses count
   * @return the trigger
   * @throws NullPointerException if it is missing
   */
  public Trigger qualifier(Qualifier value) {
    return with(d -> d.qualifier = value);
  }

  /**
   * With another part of the record before the event.
   *
   * @param share of the record's span, 0 to 1
   * @return the trigger
   * @throws IllegalArgumentException if it is out of range
   */
  public Trigger preTrigger(double share) {
    return with(d -> d.preTriggerShare = share);
  }

  /**
   * With another delay of the record.
   *
   * @param seconds by how much the record is late of that, 0 or 1e-18 to 1e12 s
   * @return the trigger
   * @throws IllegalArgumentException if it is out of range
   */
  public Trigger delay(double seconds) {
    return with(d -> d.delaySeconds = seconds);
  }

  /**
   * With another holdoff, which runs from the event.
   *
   * @param seconds the least time from one event to the next that is accepted, 0 or 1e-18 to 1e12 s
   * @return the trigger
   * @throws IllegalArgumentException if it is out of range
   */
  public Trigger holdoff(double seconds) {
    return with(d -> d.holdoffSeconds = seconds);
  }

  /**
   * With another rearm time, which runs from the end of the record.
   *
   * @param seconds dead time from the end of a record, 0 or 1e-18 to 1e12 s
   * @return the trigger
   * @throws IllegalArgumentException if it is out of range
   */
  public Trigger rearm(double seconds) {
    return with(d -> d.rearmSeconds = seconds);
  }

  /**
   * With another jitter.
   *
   * @param seconds standard deviation of the error of an event's instant, 0 or 1e-18 to 1e12 s
   * @return the trigger
   * @throws IllegalArgumentException if it is out of range
   */
  public Trigger jitter(double seconds) {
    return with(d -> d.jitterSeconds = seconds);
  }

  /**
   * With another time resolution of the alignment.
   *
   * @param intervals 0 (exactly) to 1 (to the sample grid) raw sample intervals
   * @return the trigger
   * @throws IllegalArgumentException if it is out of range
   */
  public Trigger resolution(double intervals) {
    return with(d -> d.resolution = intervals);
  }

  /**
   * With something else done when no event comes.
   *
   * @param value what is done when none comes
   * @return the trigger
   * @throws NullPointerException if it is missing
   */
  public Trigger noEvent(NoEvent value) {
    return with(d -> d.noEvent = value);
  }

  /**
   * Armed at a stated instant.
   *
   * @param seconds the instant, -1e12 to 1e12 s
   * @return the trigger
   * @throws IllegalArgumentException if it is out of range
   */
  public Trigger armedAt(double seconds) {
    return with(d -> d.armedSeconds = OptionalDouble.of(seconds));
  }

  /**
   * From the event to the start of the record.
   *
   * @param spanSeconds the span of the record
   * @return delay - share x span, in seconds
   */
  public double startAfterEventSeconds(double spanSeconds) {
    return delaySeconds - preTriggerShare * spanSeconds;
  }

  /**
   * What the trigger compares with its level, in closed form.
   *
   * @param signal the open-circuit voltage of the source
   * @param ahead the response of all that comes before the path splits off
   * @return the signal itself if nothing lies between
   * @throws NullPointerException if one is missing
   */
  public Waveform pathOutput(Signal signal, Response ahead) {
    Require.present("signal", signal);
    Response response = Require.present("ahead", ahead).times(path.response());
    return response.isIdentity() ? signal : response.of(signal);
  }

  /** All values, some of them about to be others. */
  private static final class Draft {
    private TriggerPath path;
    private double levelVolts;
    private Slope slope;
    private double hysteresisVolts;
    private Qualifier qualifier;
    private double preTriggerShare;
    private double delaySeconds;
    private double holdoffSeconds;
    private double rearmSeconds;
    private double jitterSeconds;
    private double resolution;
    private NoEvent noEvent;
    private OptionalDouble armedSeconds;
  }

  private Trigger with(Consumer<Draft> change) {
    Draft d = new Draft();
    d.path = path;
    d.levelVolts = levelVolts;
    d.slope = slope;
    d.hysteresisVolts = hysteresisVolts;
    d.qualifier = qualifier;
    d.preTriggerShare = preTriggerShare;
    d.delaySeconds = delaySeconds;
    d.holdoffSeconds = holdoffSeconds;
    d.rearmSeconds = rearmSeconds;
    d.jitterSeconds = jitterSeconds;
    d.resolution = resolution;
    d.noEvent = noEvent;
    d.armedSeconds = armedSeconds;
    change.accept(d);
    return new Trigger(
        d.path,
        d.levelVolts,
        d.slope,
        d.hysteresisVolts,
        d.qualifier,
        d.preTriggerShare,
        d.delaySeconds,
        d.holdoffSeconds,
        d.rearmSeconds,
        d.jitterSeconds,
        d.resolution,
        d.noEvent,
        d.armedSeconds);
  }

  @Override
  public String toString() {
    StringBuilder words = new StringBuilder("trigger: ");
    words.append(slope).append(" through ").append(Quantity.of(levelVolts, "V"));
    if (!path.isIdeal()) {
      words.append(", ").append(path);
    }
    amount(words, "hysteresis", hysteresisVolts, "V");
    if (qualifier != Qualifier.none()) {
      words.append(", ").append(qualifier);
    }
    words.append(", ").append(Quantity.of(100 * preTriggerShare, "%"));
    words.append(" of the record before the event");
    amount(words, "delay", delaySeconds, "s");
    amount(words, "holdoff", holdoffSeconds, "s");
    amount(words, "rearm time", rearmSeconds, "s");
    amount(words, "jitter", jitterSeconds, "s rms");
    amount(words, "aligned to", resolution, "samples");
    words.append(", ").append(noEvent);
    if (armedSeconds.isPresent()) {
      words.append(", armed at ").append(Quantity.of(armedSeconds.getAsDouble(), "s"));
    }
    return words.toString();
  }

  private static void amount(StringBuilder words, String what, double value, String unit) {
    if (value != 0) {
      words.append(", ").append(what).append(' ').append(Quantity.of(value, unit));
    }
  }
}
