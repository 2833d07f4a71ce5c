package org.asmeasured.capture;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import org.asmeasured.acquisition.PulseWidth;
import org.asmeasured.acquisition.Qualifier;
import org.asmeasured.acquisition.Runt;
import org.asmeasured.acquisition.Slope;
import org.asmeasured.acquisition.Trigger;
import org.asmeasured.internal.ExtendedTime;
import org.asmeasured.internal.Quantity;
import org.asmeasured.signal.LevelWalk;
import org.asmeasured.signal.Waveform;

/**
 * The events that a trigger finds in what its path gives it, from the closed form. Of a periodic
 * waveform those of one period are found once; any other is searched as far as it is asked for.
 */
final class TriggerEvents {
  private static final double SAME_INSTANT = 1e-11;

  private final Trigger trigger;
  private final Waveform path;
  private final double fromSeconds;
  private final double sign;
  private final double level;
  private final double low;
  private final double period;
  private final double[] offsets;
  private final Event[] within;
  private final Comparator search;
  private Event pending;

  /**
   * An event.
   *
   * @param hi seconds
   * @param lo seconds left over by {@code hi}
   * @param slope of the path there, V/s
   * @param edgeSeconds for how long the path keeps about this slope: up to a quarter of a cycle of
   *     its fastest part; infinite at a jump
   */
  record Event(double hi, double lo, double slope, double edgeSeconds) {}

  TriggerEvents(Trigger trigger, Waveform path, double fromSeconds, double chunkSeconds) {
    this.trigger = trigger;
    this.path = path;
    this.fromSeconds = fromSeconds;
    sign = trigger.slope() == Slope.RISING ? 1 : -1;
    level = sign * trigger.levelVolts();
    low = level - trigger.hysteresisVolts();
    OptionalDouble repeats = path.periodSeconds();
    Event[] found = null;
    Comparator comparator = null;
    if (repeats.isPresent()) {
      comparator = new Comparator(0, repeats.getAsDouble());
      found = onePeriod(comparator, repeats.getAsDouble());
    }
    if (found != null) {
      period = repeats.getAsDouble();
      search = comparator;
      within = found;
      offsets = new double[within.length];
      for (int i = 0; i < within.length; i++) {
        offsets[i] = within[i].hi();
      }
    } else {
      period = Double.POSITIVE_INFINITY;
      offsets = null;
      within = null;
      search = new Comparator(fromSeconds, chunkSeconds);
    }
  }

  /**
   * One period of events, ascending from zero; null if the search had to be given up. They are
   * those from the first event of the second period on, when the state of the comparator is no
   * longer unknown.
   */
  private static Event[] onePeriod(Comparator comparator, double period) {
    List<Event> found = new ArrayList<>();
    double end = 3 * period;
    for (Event e = comparator.next(end); e != null; e = comparator.next(end)) {
      double t = e.hi();
      if (t < period) {
        continue;
      }
      if (found.isEmpty()) {
        end = t + period * (1 - SAME_INSTANT);
      }
      if (t >= end) {
        break;
      }
      found.add(e);
    }
    if (comparator.walk.isExhausted()) {
      return null;
    }
    return found.stream()
        .map(e -> new Event(reduced(e.hi(), period), 0, e.slope(), e.edgeSeconds()))
        .sorted((a, b) -> Double.compare(a.hi(), b.hi()))
        .toArray(Event[]::new);
  }

  private static double reduced(double t, double period) {
    return t - period >= period ? t - 2 * period : t - period;
  }

  /** Whether the waveform repeats itself, and so do its events. */
  boolean isPeriodic() {
    return within != null;
  }

  /** The period, or infinity. */
  double periodSeconds() {
    return period;
  }

  /**
   * How many events there are in a period.
   *
   * @throws IllegalStateException if there is no period
   */
  int countInPeriod() {
    return within.length;
  }

  /** The number, in its period, of an event that {@link #next} gave. */
  int numberInPeriod(Event event) {
    ExtendedTime t = new ExtendedTime().set(event.hi(), event.lo());
    t.removeWhole(period, 0);
    return after(t.hi() - SAME_INSTANT * period) % within.length;
  }

  /**
   * The first event from an instant on. Instants asked for must ascend unless the waveform is
   * periodic.
   *
   * @param notBefore from when; an event at that very instant counts
   * @param withinSeconds for how long to look; an event later than that is kept for later
   * @return the event, or null if there is none
   */
  Event next(ExtendedTime notBefore, double withinSeconds) {
    if (isPeriodic()) {
      return nextOfPeriodic(notBefore, withinSeconds);
    }
    double until = notBefore.hi() + withinSeconds;
    while (true) {
      if (pending == null) {
        pending = search.next(until);
      }
      if (pending == null) {
        return null;
      }
      double after = (pending.hi() - notBefore.hi()) + (pending.lo() - notBefore.lo());
      if (after > withinSeconds) {
        return null;
      }
      Event event = pending;
      if (after >= 0) {
        pending = null;
        return event;
      }
      pending = null;
    }
  }

  private Event nextOfPeriodic(ExtendedTime notBefore, double withinSeconds) {
    if (within.length == 0) {
      return null;
    }
    ExtendedTime t = new ExtendedTime().set(notBefore.hi(), notBefore.lo());
    double periods = t.removeWhole(period, 0);
    int i = after(t.hi() - SAME_INSTANT * period);
    if (i == within.length) {
      i = 0;
      periods += 1;
    }
    Event e = within[i];
    t.set(e.hi(), 0).addProduct(periods, period);
    double wait = (t.hi() - notBefore.hi()) + (t.lo() - notBefore.lo());
    return wait > withinSeconds ? null : new Event(t.hi(), t.lo(), e.slope(), e.edgeSeconds());
  }

  /** The first event of a period at or after an offset; the number of them if there is none. */
  private int after(double offset) {
    int a = 0;
    int b = offsets.length;
    while (a < b) {
      int m = (a + b) >>> 1;
      if (offsets[m] >= offset) {
        b = m;
      } else {
        a = m + 1;
      }
    }
    return a;
  }

  /** Why no event was found in time, as far as the search has gone. */
  String reason() {
    if (pending != null) {
      return "the next one comes at " + Quantity.of(pending.hi(), "s");
    }
    if (isPeriodic() && within.length > 0) {
      return "there "
          + (within.length == 1 ? "is one" : "are " + within.length)
          + " in every "
          + Quantity.of(period, "s");
    }
    String where =
        isPeriodic()
            ? "in its period of " + Quantity.of(period, "s")
            : "from "
                + Quantity.of(fromSeconds, "s")
                + " to "
                + Quantity.of(search.walk.reachedSeconds(), "s");
    String limit =
        search.walk.isExhausted() ? " (the search was given up there: too many turns)" : "";
    String range =
        "from "
            + Quantity.of(Math.min(sign * search.least, sign * search.greatest), "V")
            + " to "
            + Quantity.of(Math.max(sign * search.least, sign * search.greatest), "V");
    String words = "the trigger's path goes " + range + " " + where + limit;
    if (search.greatest < level || search.least >= level) {
      return words + ", and does not cross " + Quantity.of(sign * level, "V");
    }
    if (!search.wasLow) {
      return words
          + ", and is never "
          + (sign > 0 ? "below " : "above ")
          + Quantity.of(sign * low, "V")
          + ", as the hysteresis asks";
    }
    if (trigger.qualifier() != Qualifier.none() && search.pulses > 0) {
      return words
          + "; of "
          + search.pulses
          + (search.pulses == 1 ? " pulse" : " pulses")
          + " none counts ("
          + trigger.qualifier()
          + "): their widths are "
          + Quantity.of(search.narrowest, "s")
          + " to "
          + Quantity.of(search.widest, "s")
          + ", their "
          + (sign > 0 ? "highest" : "lowest")
          + " points "
          + Quantity.of(sign * search.lowestPeak, "V")
          + " to "
          + Quantity.of(sign * search.highestPeak, "V");
    }
    return words + ", and crosses " + Quantity.of(sign * level, "V") + " at no time that counts";
  }

  /** High from the crossing of the level upward to the crossing of the lower level downward. */
  private final class Comparator {
    private final LevelWalk walk;
    private boolean isLow;
    private boolean isHigh;
    private boolean began;
    private double beganHi;
    private double beganLo;
    private double peak;
    double least = Double.POSITIVE_INFINITY;
    double greatest = Double.NEGATIVE_INFINITY;
    boolean wasLow;
    long pulses;
    double narrowest = Double.POSITIVE_INFINITY;
    double widest;
    double lowestPeak = Double.POSITIVE_INFINITY;
    double highestPeak = Double.NEGATIVE_INFINITY;

    Comparator(double from, double chunk) {
      walk =
          trigger.qualifier() instanceof Runt runt
              ? new LevelWalk(path, sign, from, chunk, level, low, sign * runt.otherVolts())
              : new LevelWalk(path, sign, from, chunk, level, low);
    }

    /** The next event that begins before an instant, or null. */
    Event next(double until) {
      for (LevelWalk.Piece p = walk.next(until); p != null; p = walk.next(until)) {
        Event e = step(p);
        if (e != null) {
          return e;
        }
      }
      return null;
    }

    private Event step(LevelWalk.Piece p) {
      least = Math.min(least, Math.min(p.v0(), p.v1()));
      greatest = Math.max(greatest, Math.max(p.v0(), p.v1()));
      if (!isHigh && p.v0() < low) {
        isLow = true;
      }
      Event event = null;
      if (isLow && p.v1() >= level) {
        event = rises(p);
      } else if (!isHigh && !isLow && p.v1() >= level) {
        isHigh = true;
        began = false;
        peak = p.v1();
      } else if (isHigh && p.v1() < low) {
        event = falls(p);
      } else if (p.v1() < low) {
        isLow = true;
      }
      wasLow |= isLow;
      if (isHigh) {
        peak = Math.max(peak, Math.max(p.v0(), p.v1()));
      }
      return event;
    }

    private Event rises(LevelWalk.Piece p) {
      isLow = false;
      isHigh = true;
      peak = p.v1();
      began = true;
      double x = walk.crossing(p, level);
      beganHi = p.knot();
      beganLo = x;
      return trigger.qualifier() == Qualifier.none() ? event(p, x) : null;
    }

    private Event falls(LevelWalk.Piece p) {
      isHigh = false;
      isLow = true;
      if (!began || trigger.qualifier() == Qualifier.none()) {
        return null;
      }
      double x = walk.crossing(p, low);
      double width = (p.knot() - beganHi) + (x - beganLo);
      if (counts(width)) {
        return event(p, x);
      }
      pulses++;
      narrowest = Math.min(narrowest, width);
      widest = Math.max(widest, width);
      lowestPeak = Math.min(lowestPeak, peak);
      highestPeak = Math.max(highestPeak, peak);
      return null;
    }

    private boolean counts(double width) {
      if (trigger.qualifier() instanceof PulseWidth limits) {
        return width > limits.longerThanSeconds() && width < limits.shorterThanSeconds();
      }
      return peak < sign * ((Runt) trigger.qualifier()).otherVolts();
    }

    private Event event(LevelWalk.Piece p, double x) {
      ExtendedTime t = new ExtendedTime().set(p.knot(), x);
      double slope = walk.slope(p, x);
      double edge = Double.isInfinite(slope) ? Double.POSITIVE_INFINITY : p.length();
      return new Event(t.hi(), t.lo(), slope, edge);
    }
  }
}
