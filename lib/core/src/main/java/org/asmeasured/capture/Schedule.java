package org.asmeasured.capture;

import java.util.Collections;
import java.util.EnumMap;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.asmeasured.acquisition.LiveTime;
import org.asmeasured.acquisition.NoEvent;
import org.asmeasured.acquisition.Trigger;
import org.asmeasured.internal.CounterRandom;
import org.asmeasured.internal.ExtendedTime;
import org.asmeasured.internal.Quantity;
import org.asmeasured.internal.Require;
import org.asmeasured.signal.Waveform;

/**
 * When each acquisition of an ensemble takes place, and by how much the instants of its samples are
 * off. Immutable; a pure function of its arguments.
 *
 * <p>Events come from the closed form of what the trigger sees, to about 1e-13 of the stretch they
 * lie on, not from samples. Event, record, rearm time and holdoff follow one another as {@link
 * Trigger} says. A periodic signal meets the recorder at a phase drawn from the seed, unless the
 * trigger is armed at a stated instant; its events are found in one period, and instants of later
 * periods are taken in the first, which is the same, so that nothing drifts over many acquisitions.
 *
 * <p><b>Shift.</b> Sample k of acquisition a is taken at start + k/rate + shift(a), where start is
 * the instant at which the first record would start without any error. The shift is the sum of
 *
 * <ul>
 *   <li>what lies between the events, whole periods of a periodic signal left out;
 *   <li>jitter: normal, of the trigger's standard deviation;
 *   <li>the trigger's noise: normal, of standard deviation sigma/|dy/dt|, sigma the noise at the
 *       end of the path and dy/dt the slope there at the event: first order in sigma. It is taken
 *       as independent of the noise in the record, and as making no events of its own;
 *   <li>the alignment: uniform over &plusmn;r/2 raw sample intervals;
 *   <li>where edges of the source jitter, by how much the event is late with them. Which events
 *       there are is settled by the undisturbed signal: jitter makes none and takes none away.
 * </ul>
 *
 * The record does not know of all but the first. An acquisition that runs free has none of them.
 */
public final class Schedule {
  /** Streams of random numbers; numbered by acquisition within each. */
  private static final long ARMING = 0x747269676701L;

  private static final long JITTER = 0x747269676702L;
  private static final long NOISE = 0x747269676703L;
  private static final long ALIGNMENT = 0x747269676704L;

  /** This many standard deviations of the noise are to stay within the edge. */
  private static final double EDGE_SIGMAS = 3;

  private static final int MAX_COUNT = 1 << 16;
  private static final double ROUNDING = 1e-12;
  private static final double LEAST_SECONDS = 1e-18;
  private static final double MOST_SECONDS = 1e12;

  private final int wanted;
  private final int size;
  private final double startSeconds;
  private final double foundAtSeconds;
  private final double[] eventHi;
  private final double[] eventLo;
  private final double[] shiftSeconds;
  private final boolean[] free;
  private final Map<Flag, String> notes;
  private final LiveTime liveTime;

  private Schedule(Planner planner) {
    wanted = planner.wanted;
    size = planner.size;
    startSeconds = planner.startSeconds;
    foundAtSeconds = planner.reduced(startSeconds);
    eventHi = planner.eventHi;
    eventLo = planner.eventLo;
    shiftSeconds = planner.shiftSeconds;
    free = planner.free;
    notes = Collections.unmodifiableMap(planner.notes());
    liveTime = planner.liveTime();
  }

  /**
   * Finds the acquisitions of an ensemble.
   *
   * @param trigger when an acquisition takes place
   * @param path what the trigger compares with its level: {@link Trigger#pathOutput}
   * @param pathNoiseVolts standard deviation of the noise on it, 0 to 1e9 V
   * @param startSeconds the start of the setup's clock, from which on events are looked for unless
   *     the trigger says otherwise, -1e12 to 1e12 s
   * @param rateHz raw samples per second, 1e-9 to 1e15 Hz
   * @param spanSeconds the span of a record, 1e-18 to 1e12 s
   * @param count acquisitions wanted, 1 to 65 536
   * @param seed of all that is random
   * @return the acquisitions, or as many as there are events for
   * @throws IllegalArgumentException if a value is out of range
   * @throws NullPointerException if one is missing
   */
  public static Schedule of(
      Trigger trigger,
      Waveform path,
      double pathNoiseVolts,
      double startSeconds,
      double rateHz,
      double spanSeconds,
      int count,
      long seed) {
    return of(trigger, path, pathNoiseVolts, startSeconds, rateHz, spanSeconds, count, seed, null);
  }

  /**
   * As above, of a signal whose edges are displaced.
   *
   * @param displaced by how much events are late with them, or null
   */
  static Schedule of(
      Trigger trigger,
      Waveform path,
      double pathNoiseVolts,
      double startSeconds,
      double rateHz,
      double spanSeconds,
      int count,
      long seed,
      DisplacedEvents displaced) {
    Require.present("trigger", trigger);
    Require.present("path", path);
    Require.inRange("pathNoiseVolts", pathNoiseVolts, "V", 0, 1e9);
    Require.instant("startSeconds", startSeconds);
    Require.hertz("rateHz", rateHz);
    Require.duration("spanSeconds", spanSeconds);
    Require.inRange("count", count, 1, MAX_COUNT);
    Planner planner =
        new Planner(trigger, path, pathNoiseVolts, startSeconds, rateHz, spanSeconds, count, seed);
    planner.displaced = displaced;
    planner.plan();
    return new Schedule(planner);
  }

  /**
   * How many acquisitions were asked for.
   *
   * @return 1 to 65 536
   */
  public int wanted() {
    return wanted;
  }

  /**
   * How many acquisitions there are.
   *
   * @return 0 to as many as were asked for
   */
  public int size() {
    return size;
  }

  /**
   * When the first record starts, if it is free of errors.
   *
   * @return seconds; without any acquisition, where a record would start whose event is at the
   *     instant of arming
   */
  public double startSeconds() {
    return startSeconds;
  }

  /**
   * The event of an acquisition, without errors; of one that ran free, the instant at which the
   * wait was over.
   *
   * @param acquisition 0 to size - 1
   * @return seconds since the zero of the signal, all periods counted
   * @throws IndexOutOfBoundsException if there is no such acquisition
   */
  public double eventSeconds(int acquisition) {
    return eventHi[check(acquisition)] + eventLo[acquisition];
  }

  /**
   * By how much the samples of an acquisition are later than start + k/rate.
   *
   * @param acquisition 0 to size - 1
   * @return seconds, either sign
   * @throws IndexOutOfBoundsException if there is no such acquisition
   */
  public double shiftSeconds(int acquisition) {
    return shiftSeconds[check(acquisition)];
  }

  /**
   * Where in the signal an acquisition is found: an instant at which all is the same as at start +
   * shift. Of a periodic signal it lies within two periods of zero, so that one double says it to a
   * last place of the period, however late the acquisition; of any other it is start + shift.
   *
   * @param acquisition 0 to size - 1
   * @return seconds
   * @throws IndexOutOfBoundsException if there is no such acquisition
   */
  public double foundAtSeconds(int acquisition) {
    return foundAtSeconds + shiftSeconds[check(acquisition)];
  }

  /**
   * Whether an acquisition took place without an event.
   *
   * @param acquisition 0 to size - 1
   * @return true if it did
   * @throws IndexOutOfBoundsException if there is no such acquisition
   */
  public boolean ranFree(int acquisition) {
    return free[check(acquisition)];
  }

  /**
   * What is to be said about the trigger.
   *
   * @return a reason for each flag that is raised, in words; unmodifiable
   */
  public Map<Flag, String> notes() {
    return notes;
  }

  /**
   * How much of the time is recorded. Of a periodic signal that triggers, exactly: over the cycle
   * in which the acquisitions come back to the same event. Otherwise the mean over the acquisitions
   * there are.
   *
   * @return the live time, or empty if fewer than two acquisitions say nothing about it
   */
  public Optional<LiveTime> liveTime() {
    return Optional.ofNullable(liveTime);
  }

  private int check(int acquisition) {
    if (acquisition < 0 || acquisition >= size) {
      throw new IndexOutOfBoundsException(
          "acquisition = " + acquisition + ": must be from 0 to " + (size - 1));
    }
    return acquisition;
  }

  @Override
  public String toString() {
    return size + " of " + wanted + (wanted == 1 ? " acquisition" : " acquisitions");
  }

  /** Goes from event to event. */
  private static final class Planner {
    private final Trigger trigger;
    private final double noiseVolts;
    private final double intervalSeconds;
    private final double spanSeconds;
    private final double offsetSeconds;
    private final int wanted;
    private final long seed;
    private final TriggerEvents events;
    private final ExtendedTime armed;
    private final double[] eventHi;
    private final double[] eventLo;
    private final double[] shiftSeconds;
    private final boolean[] free;
    private DisplacedEvents displaced;
    private TriggerEvents.Event firstEvent;
    private int size;
    private double startSeconds;
    private int freeCount;
    private int slowCount;
    private double slowestSlope = Double.POSITIVE_INFINITY;

    Planner(
        Trigger trigger,
        Waveform path,
        double noiseVolts,
        double clockStartSeconds,
        double rateHz,
        double spanSeconds,
        int wanted,
        long seed) {
      this.trigger = trigger;
      this.noiseVolts = noiseVolts;
      this.spanSeconds = spanSeconds;
      this.wanted = wanted;
      this.seed = seed;
      intervalSeconds = 1 / rateHz;
      offsetSeconds = trigger.startAfterEventSeconds(spanSeconds);
      OptionalDouble stated = trigger.armedSeconds();
      double from = stated.orElse(clockStartSeconds);
      events = new TriggerEvents(trigger, path, from, spanSeconds);
      armed = new ExtendedTime().set(from, 0);
      if (stated.isEmpty() && events.isPeriodic()) {
        double phase = CounterRandom.uniform(CounterRandom.key(seed, ARMING), -1);
        armed.addProduct(phase, events.periodSeconds());
      }
      startSeconds = armed.hi() + offsetSeconds;
      eventHi = new double[wanted];
      eventLo = new double[wanted];
      shiftSeconds = new double[wanted];
      free = new boolean[wanted];
    }

    void plan() {
      ExtendedTime ready = new ExtendedTime().set(armed.hi(), armed.lo());
      NoEvent none = trigger.noEvent();
      ExtendedTime start = new ExtendedTime();
      ExtendedTime at = new ExtendedTime();
      while (size < wanted) {
        TriggerEvents.Event event = events.next(ready, none.afterSeconds());
        if (event != null) {
          at.set(event.hi(), event.lo());
        } else if (none.runsFree()) {
          runFree(at, ready);
        } else {
          break;
        }
        if (size == 0) {
          firstEvent = event;
          start.set(at.hi(), at.lo()).add(offsetSeconds);
          startSeconds = start.hi();
          start.set(start.hi(), 0);
        }
        eventHi[size] = at.hi();
        eventLo[size] = at.lo();
        shiftSeconds[size] = shift(at, start, event);
        size++;
        nextReady(ready, at);
      }
    }

    private void runFree(ExtendedTime at, ExtendedTime ready) {
      at.set(ready.hi(), ready.lo()).add(trigger.noEvent().afterSeconds());
      if (events.isPeriodic()) {
        double phase = CounterRandom.uniform(CounterRandom.key(seed, ARMING), size);
        at.addProduct(phase, events.periodSeconds());
      }
      free[size] = true;
      freeCount++;
    }

    /** The recorder is ready when rearmed and filled up to the event, and the holdoff is over. */
    private void nextReady(ExtendedTime ready, ExtendedTime event) {
      double recorder =
          offsetSeconds + spanSeconds + trigger.rearmSeconds() + Math.max(0, -offsetSeconds);
      ready.set(event.hi(), event.lo()).add(Math.max(recorder, trigger.holdoffSeconds()));
    }

    private double shift(ExtendedTime at, ExtendedTime start, TriggerEvents.Event event) {
      ExtendedTime between =
          new ExtendedTime().set(at.hi(), at.lo()).add(offsetSeconds).add(-start.hi(), -start.lo());
      if (events.isPeriodic()) {
        double periods = Math.rint(between.hi() / events.periodSeconds());
        between.addProduct(-periods, events.periodSeconds());
      }
      double shift = between.hi();
      if (event == null) {
        return shift;
      }
      if (displaced != null) {
        // where in the signal the event is found, and the record beside it
        double found = reduced(startSeconds) + shift - offsetSeconds;
        shift += displaced.lateSeconds(size, found, event);
      }
      return shift + error(event);
    }

    private double error(TriggerEvents.Event event) {
      double error = 0;
      if (trigger.jitterSeconds() > 0) {
        error += trigger.jitterSeconds() * normal(JITTER);
      }
      if (noiseVolts > 0) {
        double sigma = noiseVolts / Math.abs(event.slope());
        if (EDGE_SIGMAS * sigma > event.edgeSeconds()) {
          slowCount++;
          slowestSlope = Math.min(slowestSlope, Math.abs(event.slope()));
        }
        if (event.slope() != 0) {
          error += sigma * normal(NOISE);
        }
      }
      if (trigger.resolution() > 0) {
        double phase = CounterRandom.uniform(CounterRandom.key(seed, ALIGNMENT), size);
        error += trigger.resolution() * intervalSeconds * (phase - 0.5);
      }
      return error;
    }

    double reduced(double seconds) {
      if (!events.isPeriodic()) {
        return seconds;
      }
      ExtendedTime t = new ExtendedTime().set(seconds, 0);
      t.removeWhole(events.periodSeconds(), 0);
      return t.hi();
    }

    private double normal(long stream) {
      return CounterRandom.gaussian(CounterRandom.key(seed, stream), size);
    }

    Map<Flag, String> notes() {
      Map<Flag, String> notes = new EnumMap<>(Flag.class);
      String wait = Quantity.of(trigger.noEvent().afterSeconds(), "s");
      if (size == 0) {
        notes.put(Flag.NO_TRIGGER, "no event within " + wait + ": " + why());
      } else if (size < wanted) {
        notes.put(
            Flag.TOO_FEW_EVENTS,
            size + " of " + wanted + " acquisitions, then no event within " + wait + ": " + why());
      }
      if (freeCount > 0) {
        notes.put(
            Flag.RAN_FREE,
            freeCount
                + " of "
                + size
                + (size == 1 ? " acquisition" : " acquisitions")
                + " without an event within "
                + wait
                + ": "
                + why());
      }
      if (slowCount > 0) {
        notes.put(
            Flag.SLOW_EDGE,
            slowCount
                + " of "
                + size
                + (size == 1 ? " event" : " events")
                + " on a slope of as little as "
                + Quantity.of(slowestSlope, "V/s")
                + ", which noise of "
                + Quantity.of(noiseVolts, "V")
                + " rms leaves: the errors of their instants are of the first order only");
      }
      return notes;
    }

    private String why() {
      return events.reason();
    }

    LiveTime liveTime() {
      if (events.isPeriodic() && firstEvent != null) {
        LiveTime cycle = overCycle();
        if (cycle != null) {
          return cycle;
        }
      }
      if (size < 2) {
        return null;
      }
      double all = (eventHi[size - 1] - eventHi[0]) + (eventLo[size - 1] - eventLo[0]);
      return live(all / (size - 1));
    }

    /** From event to event until one comes again; null if the recorder does not wait so long. */
    private LiveTime overCycle() {
      int count = events.countInPeriod();
      double[] seenHi = new double[count];
      double[] seenLo = new double[count];
      int[] order = new int[count];
      ExtendedTime ready = new ExtendedTime();
      ExtendedTime at = new ExtendedTime();
      TriggerEvents.Event event = firstEvent;
      for (int step = 1; event != null; step++) {
        int number = events.numberInPeriod(event);
        if (order[number] > 0) {
          double cycle = (event.hi() - seenHi[number]) + (event.lo() - seenLo[number]);
          return live(cycle / (step - order[number]));
        }
        order[number] = step;
        seenHi[number] = event.hi();
        seenLo[number] = event.lo();
        at.set(event.hi(), event.lo());
        nextReady(ready, at);
        event = events.next(ready, trigger.noEvent().afterSeconds());
      }
      return null;
    }

    private LiveTime live(double cycleSeconds) {
      double dead = cycleSeconds - spanSeconds;
      if (dead > MOST_SECONDS) {
        return null;
      }
      return new LiveTime(
          spanSeconds, dead < Math.max(ROUNDING * spanSeconds, LEAST_SECONDS) ? 0 : dead);
    }
  }
}
