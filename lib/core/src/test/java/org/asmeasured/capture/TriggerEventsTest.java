package org.asmeasured.capture;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import org.asmeasured.acquisition.PulseWidth;
import org.asmeasured.acquisition.Qualifier;
import org.asmeasured.acquisition.Slope;
import org.asmeasured.acquisition.Trigger;
import org.asmeasured.acquisition.TriggerPath;
import org.asmeasured.internal.Cases;
import org.asmeasured.internal.ExtendedTime;
import org.asmeasured.linear.Response;
import org.asmeasured.signal.Signal;
import org.asmeasured.signal.Signals;
import org.asmeasured.signal.Waveform;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** The instants of events against closed forms of our own derivation. */
class TriggerEventsTest {

  private static Waveform path(Trigger trigger, Signal signal) {
    return trigger.pathOutput(signal, Response.identity());
  }

  private static TriggerEvents events(Trigger trigger, Signal signal, double from) {
    return new TriggerEvents(trigger, path(trigger, signal), from, 1e-6);
  }

  /** The instants of so many events from an instant on. */
  private static double[] first(int count, Trigger trigger, Signal signal, double from) {
    TriggerEvents events = events(trigger, signal, from);
    ExtendedTime t = new ExtendedTime().set(from, 0);
    List<Double> found = new ArrayList<>();
    while (found.size() < count) {
      TriggerEvents.Event e = events.next(t, 1e9);
      if (e == null) {
        break;
      }
      found.add(e.hi());
      t.set(e.hi(), e.lo()).add(events.isPeriodic() ? 1e-9 * events.periodSeconds() : 1e-15);
    }
    return found.stream().mapToDouble(Double::doubleValue).toArray();
  }

  /**
   * A sin(2 pi f t + phi) through H is A |H| sin(2 pi f t + phi + arg H), which crosses L upward at
   * (asin(L/(A |H|)) - phi - arg H)/(2 pi f) + n/f.
   */
  @Test
  void sineThroughThePathCrossesAtItsPhase() {
    Cases.check(
        20250701,
        200,
        random -> {
          double f = Cases.logUniform(random, 1, 1e9);
          double amplitude = Cases.logUniform(random, 1e-3, 100);
          double phase = (random.nextDouble() - 0.5) * 6;
          double high = random.nextBoolean() ? 0 : f * Cases.logUniform(random, 0.01, 3);
          double low = random.nextBoolean() ? 0 : f * Cases.logUniform(random, 0.3, 100);
          double magnitude = amplitude;
          double lag = phase;
          if (high > 0) {
            magnitude /= Math.hypot(1, high / f);
            lag += Math.atan(high / f);
          }
          if (low > 0) {
            magnitude /= Math.hypot(1, f / low);
            lag -= Math.atan(f / low);
          }
          double level = magnitude * (1.8 * random.nextDouble() - 0.9);
          boolean rising = random.nextBoolean();
          Trigger trigger =
              Trigger.at(level)
                  .path(new TriggerPath(high, low))
                  .slope(rising ? Slope.RISING : Slope.FALLING)
                  .hysteresis(0.05 * magnitude);
          double angle = Math.asin(level / magnitude);
          double expected = ((rising ? angle : Math.PI - angle) - lag) / (2 * Math.PI);
          expected -= Math.floor(expected);
          TriggerEvents events = events(trigger, Signals.sine(amplitude, f, phase), 0);
          assertEquals(1, events.countInPeriod());
          TriggerEvents.Event e = events.next(new ExtendedTime(), 1e9);
          double cycles = e.hi() * f;
          assertEquals(expected, cycles - Math.floor(cycles), 1e-12, "phase in cycles");
          double slope = 2 * Math.PI * f * magnitude * Math.cos(angle) * (rising ? 1 : -1);
          assertEquals(slope, e.slope(), 1e-7 * Math.abs(2 * Math.PI * f * magnitude));
        });
  }

  /** Linear edges: an edge of duration r from a to b reaches L at (L - a)/(b - a) r. */
  @Test
  void trapezoidCrossesWithinItsEdges() {
    Signal signal = Signals.trapezoid(-1, 3, 1e-6, 0.5, 1e-7, 2e-7);
    double[] rising = first(3, Trigger.at(0.2), signal, 0);
    for (int n = 0; n < 3; n++) {
      assertEquals(n * 1e-6 + 0.3e-7, rising[n], 1e-19);
    }
    // the fall begins so that the width at 50 % is half the period
    double fall = 0.5e-6 + 0.5e-7 - 1e-7;
    double[] falling = first(2, Trigger.at(0.2).slope(Slope.FALLING), signal, 0);
    assertEquals(fall + 2e-7 * 2.8 / 4, falling[0], 1e-19);
    assertEquals(4 / 1e-7, onlyEvent(Trigger.at(0.2), signal).slope(), 40);
    assertEquals(-4 / 2e-7, onlyEvent(Trigger.at(0.2).slope(Slope.FALLING), signal).slope(), 20);
  }

  private static TriggerEvents.Event onlyEvent(Trigger trigger, Signal signal) {
    TriggerEvents events = events(trigger, signal, 0);
    assertEquals(1, events.countInPeriod());
    return events.next(new ExtendedTime(), 1e9);
  }

  @Test
  void jumpsAreCrossedAtTheirInstant() {
    Signal square = Signals.square(0, 1, 1e-3, 0.25);
    assertEquals(0, onlyEvent(Trigger.at(0.5), square).hi());
    TriggerEvents.Event falls = onlyEvent(Trigger.at(0.5).slope(Slope.FALLING), square);
    assertEquals(0.25e-3, falls.hi());
    assertEquals(Double.NEGATIVE_INFINITY, falls.slope());
    // to reach the level is to cross it; to start at it is not to have been below
    assertEquals(1, events(Trigger.at(1), square, 0).countInPeriod());
    assertEquals(0, events(Trigger.at(0), square, 0).countInPeriod());
    assertEquals(0, events(Trigger.at(Math.nextUp(1)), square, 0).countInPeriod());
  }

  /** 1 - exp(-t/tau) reaches p at -tau ln(1 - p), to about 32 digits' worth of time of day. */
  @ParameterizedTest
  @ValueSource(doubles = {0, 1, 1000, -3})
  void stepThroughOnePoleCrossesAtItsLogarithm(double at) {
    double tau = 1e-12;
    Trigger trigger = Trigger.at(0.3);
    Waveform path =
        trigger.pathOutput(Signals.step(1, at), Response.singlePole(1 / (2 * Math.PI * tau)));
    TriggerEvents events = new TriggerEvents(trigger, path, at - 1e-9, 1e-9);
    TriggerEvents.Event e = events.next(new ExtendedTime().set(at - 1e-9, 0), 1);
    assertEquals(-tau * Math.log(0.7), (e.hi() - at) + e.lo(), 1e-12 * tau);
    assertEquals(0.7 / tau, e.slope(), 1e-6 / tau);
  }

  /** 20 mV on 10 V: with the direct part gone, the level is met; with it, it is not. */
  @Test
  void acPathTakesTheDirectPartAway() {
    Signal signal = Signals.sine(0.01, 1e3).plus(10);
    assertEquals(0, events(Trigger.at(0.005), signal, 0).countInPeriod());
    TriggerEvents.Event e = onlyEvent(Trigger.at(0.005).path(TriggerPath.ac()), signal);
    double magnitude = 0.01 / Math.hypot(1, 10 / 1e3);
    double expected = (Math.asin(0.005 / magnitude) - Math.atan(10 / 1e3)) / (2 * Math.PI);
    assertEquals(expected, e.hi() * 1e3, 1e-12);
  }

  /**
   * The baseline of a pulse train of height A and duty factor D settles at -D A: an AC path at a
   * corner far below shifts the level that must be set from A/2 to A/2 - D A.
   */
  @Test
  void acPathShiftsTheLevelOfPulseTrains() {
    Signal pulses = Signals.pulseTrain(0, 1, 1e-6, 0.1e-6, 20e-9, 20e-9);
    Trigger ac = Trigger.at(0.4).path(TriggerPath.ac());
    double half = onlyEvent(Trigger.at(0.5), pulses).hi();
    // droop over one period is 2 pi 10 Hz x 1 us = 6e-5 of the height, on an edge of 20 ns
    assertEquals(half, onlyEvent(ac, pulses).hi(), 20e-9 * 7e-5);
    assertEquals(0, events(ac.level(0.95), pulses, 0).countInPeriod());
    assertEquals(1, events(ac.path(TriggerPath.dc()).level(0.95), pulses, 0).countInPeriod());
  }

  /** 50 Hz hum of 1 V on a 1 MHz sine of 0.1 V: low-frequency reject leaves 1e-3 of the hum. */
  @Test
  void rejectsWhatIsToBeRejected() {
    Signal hum = Signals.sine(1, 50);
    Signal carrier = Signals.sine(0.1, 1e6);
    Trigger high = Trigger.at(0).path(TriggerPath.lowFrequencyReject());
    Waveform path = high.pathOutput(hum, Response.identity());
    // reference values, section 15: -60 dB
    assertEquals(0.000999999, path.maximum(0, 0.02), 1e-9);
    double[] found = first(20, high, hum.plus(carrier), 0);
    double shift = Math.atan(0.05) / (2 * Math.PI);
    for (double t : found) {
      double cycles = t * 1e6 + shift;
      assertEquals(0, cycles - Math.rint(cycles), 1e-3 / 0.1 / (2 * Math.PI) * 1.01);
    }
    Trigger low = Trigger.at(0).path(TriggerPath.highFrequencyReject());
    assertEquals(
        0.1 * 0.0499376, low.pathOutput(carrier, Response.identity()).maximum(0, 1e-6), 1e-8);
  }

  /**
   * sin(2 pi t) + 0.2 sin(2 pi 20 t): where the slow part crosses zero the fast one crosses it
   * several times. By a scan of the closed form the events are counted; with hysteresis above the
   * swing of the fast part there is one.
   */
  @Test
  void hysteresisKeepsOneEventOfATwoTone() {
    Signal signal =
        Signals.multiTone(new double[] {1, 0.2}, new double[] {1, 20}, new double[] {0, 0});
    for (double hysteresis : new double[] {0, 0.05, 0.1, 0.2, 0.3, 0.5}) {
      int scanned = 0;
      boolean armed = false;
      int n = 1_000_000;
      double offset = 0.25;
      for (int i = 0; i < 2 * n; i++) {
        double t = offset + (double) i / n;
        double v = Math.sin(2 * Math.PI * t) + 0.2 * Math.sin(40 * Math.PI * t);
        if (v < -hysteresis) {
          armed = true;
        } else if (armed && v >= 0) {
          armed = false;
          scanned += i >= n ? 1 : 0;
        }
      }
      TriggerEvents events = events(Trigger.at(0).hysteresis(hysteresis), signal, 0);
      assertEquals(scanned, events.countInPeriod(), "hysteresis " + hysteresis);
    }
    // by symmetry one upward crossing at each of the two zeros of the slow part
    assertEquals(2, events(Trigger.at(0), signal, 0).countInPeriod());
    assertEquals(1, events(Trigger.at(0).hysteresis(0.3), signal, 0).countInPeriod());
    assertEquals(0, events(Trigger.at(0).hysteresis(1.3), signal, 0).countInPeriod());
  }

  /** Random two-tones, both slopes, against a scan; seeds 20250720 and on. */
  @Test
  void findsWhatAFineScanFinds() {
    Cases.check(
        20250720,
        60,
        random -> {
          int k = 2 + random.nextInt(12);
          double a = 0.05 + random.nextDouble();
          double phase = 6 * random.nextDouble();
          double level = 1.6 * random.nextDouble() - 0.8;
          double hysteresis = random.nextBoolean() ? 0 : random.nextDouble();
          int sign = random.nextBoolean() ? 1 : -1;
          Signal signal =
              Signals.multiTone(new double[] {1, a}, new double[] {1, k}, new double[] {0, phase});
          Trigger trigger =
              Trigger.at(level)
                  .hysteresis(hysteresis)
                  .slope(sign > 0 ? Slope.RISING : Slope.FALLING);
          List<Double> scanned = new ArrayList<>();
          boolean armed = false;
          int n = 200_000;
          for (int i = -n; i < n; i++) {
            double t = (double) i / n;
            double v =
                sign * (Math.sin(2 * Math.PI * t) + a * Math.sin(2 * Math.PI * k * t + phase));
            if (v < sign * level - hysteresis) {
              armed = true;
            } else if (armed && v >= sign * level) {
              armed = false;
              if (i >= 0) {
                scanned.add(t);
              }
            }
          }
          double[] found = first(scanned.size() + 1, trigger, signal, 0);
          if (scanned.isEmpty()) {
            assertEquals(0, found.length);
            return;
          }
          assertEquals(scanned.size() + 1, found.length);
          int shift = scanned.get(0) < 1.0 / n && found[0] > 0.5 / k ? 1 : 0;
          for (int i = shift; i < scanned.size(); i++) {
            assertEquals(scanned.get(i), found[i - shift], 1.001 / n);
          }
        });
  }

  @Test
  void runtsCrossOneLevelButNotTheOther() {
    // every fourth pulse reaches 0.5 V of 1 V
    Signal train = Signals.runt(1, 0.5, 1e-6, 0.3e-6, 10e-9, 4);
    Trigger plain = Trigger.at(0.25);
    assertEquals(4, events(plain, train, 0).countInPeriod());
    TriggerEvents.Event runt = onlyEvent(plain.qualifier(Qualifier.runtBelow(0.75)), train);
    TriggerEvents tall = events(plain.level(0.75), train, 0);
    assertEquals(3, tall.countInPeriod());
    // the event is at the end of the pulse, where the edge of 10 ns falls through half of 0.5 V
    double at = -1;
    for (double t = 0; t < 4e-6; t += 1e-6) {
      if (train.maximum(t, t + 1e-6) < 0.6) {
        at = t;
      }
    }
    double cycle = runt.hi() - at;
    double end = Double.NaN;
    for (double x = 0; x < 1e-6; x += 1e-12) {
      if (train.valueAt(at + x) > 0.25) {
        end = x;
      }
    }
    assertEquals(end, cycle, 2e-12);
    assertEquals(-0.5 / 10e-9, runt.slope(), 1e3);
    assertEquals(0, events(plain.qualifier(Qualifier.runtBelow(0.4)), train, 0).countInPeriod());
    assertEquals(4, events(plain.qualifier(Qualifier.runtBelow(1.1)), train, 0).countInPeriod());
    // upside down, the same
    Trigger mirrored = Trigger.at(-0.25).slope(Slope.FALLING).qualifier(Qualifier.runtBelow(-0.75));
    assertEquals(runt.hi(), onlyEvent(mirrored, train.times(-1)).hi(), 1e-18);
  }

  /** Width at level L of a pulse with edges r: between two linear edges. */
  @Test
  void pulseWidthsAreTold() {
    Signal train =
        Signals.pulseTrain(0, 1, 10e-6, 1e-6, 100e-9, 100e-9)
            .plus(Signals.pulseTrain(0, 1, 10e-6, 2e-6, 100e-9, 100e-9).delayedBy(4e-6));
    double level = 0.25;
    double widthOfFirst = 1e-6 + 2 * 100e-9 * (0.5 - level);
    Trigger trigger = Trigger.at(level);
    TriggerEvents.Event shorter =
        onlyEvent(trigger.qualifier(Qualifier.shorterThan(1.5e-6)), train);
    double begin = first(1, trigger, train, 0)[0];
    assertEquals(begin + widthOfFirst, shorter.hi(), 1e-18);
    TriggerEvents.Event longer = onlyEvent(trigger.qualifier(Qualifier.longerThan(1.5e-6)), train);
    assertEquals(begin + 4e-6 + widthOfFirst + 1e-6, longer.hi(), 1e-18);
    // the limit itself is met from both sides
    double hair = 1e-17;
    assertEquals(
        1,
        events(trigger.qualifier(Qualifier.shorterThan(widthOfFirst + hair)), train, 0)
            .countInPeriod());
    assertEquals(
        0,
        events(trigger.qualifier(Qualifier.shorterThan(widthOfFirst - hair)), train, 0)
            .countInPeriod());
    assertEquals(
        1, events(trigger.qualifier(new PulseWidth(0.9e-6, 1.2e-6)), train, 0).countInPeriod());
    assertEquals(
        0, events(trigger.qualifier(new PulseWidth(1.2e-6, 1.9e-6)), train, 0).countInPeriod());
    // hysteresis makes a pulse end further down: 100 ns x 0.1 later
    TriggerEvents.Event lower =
        onlyEvent(trigger.hysteresis(0.1).qualifier(Qualifier.shorterThan(1.5e-6)), train);
    assertEquals(shorter.hi() + 10e-9, lower.hi(), 1e-18);
  }

  /** A pulse of 2 ps within 10 s of a sine of 1 kHz: found from the closed form. */
  @Test
  void findsOnePulseInALongTime() {
    Signal signal = Signals.pulse(1, 7.25, 2e-12, 1e-12, 1e-12).plus(Signals.sine(0.1, 1e3));
    TriggerEvents events = events(Trigger.at(0.5), signal, 0);
    assertFalse(events.isPeriodic());
    TriggerEvents.Event e = events.next(new ExtendedTime(), 10);
    assertNotNull(e);
    assertEquals(7.25, e.hi(), 2e-12);
    assertNull(events.next(new ExtendedTime().set(e.hi() + 1e-9, 0), 1));
  }

  @Test
  void aPulseThatBeganBeforeTheSearchHasNoWidth() {
    Signal signal = Signals.pulse(1, 0, 1e-3, 1e-6, 1e-6);
    Trigger trigger = Trigger.at(0.5).qualifier(Qualifier.longerThan(1e-6));
    assertNotNull(events(trigger, signal, -1e-3).next(new ExtendedTime().set(-1e-3, 0), 1));
    assertNull(events(trigger, signal, 0.5e-3).next(new ExtendedTime().set(0.5e-3, 0), 1));
  }

  @Test
  void aStepAtTheVeryStartCounts() {
    Signal step = Signals.step(1, 0);
    assertEquals(0, events(Trigger.at(0.5), step, 0).next(new ExtendedTime(), 1).hi());
    assertNull(events(Trigger.at(0.5), step, 1e-9).next(new ExtendedTime().set(1e-9, 0), 1));
  }

  @Test
  void anEventBeyondTheWaitIsKept() {
    Signal step = Signals.step(1, 2);
    TriggerEvents events = events(Trigger.at(0.5), step, 0);
    assertNull(events.next(new ExtendedTime(), 1));
    assertNull(events.next(new ExtendedTime().set(0.5, 0), 1));
    TriggerEvents.Event e = events.next(new ExtendedTime().set(1, 0), 1);
    assertEquals(2, e.hi());
    assertNull(events.next(new ExtendedTime().set(3, 0), 1));
  }

  @Test
  void laterPeriodsAreTheFirst() {
    Signal signal = Signals.multiTone(new double[] {1, 1}, new double[] {3e6, 7e6}, new double[2]);
    TriggerEvents events = events(Trigger.at(0.3), signal, 0);
    double period = events.periodSeconds();
    assertEquals(1e-6, period, 1e-18);
    ExtendedTime early = new ExtendedTime().set(1e-7, 0);
    ExtendedTime late = new ExtendedTime().set(1e-7, 0).addProduct(1e9, period);
    for (int i = 0; i < 2 * events.countInPeriod(); i++) {
      TriggerEvents.Event a = events.next(early, 1);
      TriggerEvents.Event b = events.next(late, 1);
      ExtendedTime between =
          new ExtendedTime().set(b.hi(), b.lo()).add(-a.hi(), -a.lo()).addProduct(-1e9, period);
      assertEquals(0, between.hi(), 1e-20);
      assertEquals(events.numberInPeriod(a), events.numberInPeriod(b));
      early.set(a.hi(), a.lo()).add(1e-9);
      late.set(b.hi(), b.lo()).add(1e-9);
    }
  }

  @Test
  void saysWhyThereIsNone() {
    Signal sine = Signals.sine(1, 1e3);
    said(events(Trigger.at(1.5), sine, 0), "from -1 V to 1 V", "does not cross 1.5 V", "1 ms");
    said(events(Trigger.at(0.5).hysteresis(2), sine, 0), "never below -1.5 V", "hysteresis");
    said(events(Trigger.at(0.5).hysteresis(2).slope(Slope.FALLING), sine, 0), "never above 2.5 V");
    said(
        events(Trigger.at(0).qualifier(Qualifier.longerThan(1e-3)), sine, 0),
        "of 2 pulses none counts",
        "longer than 1 ms",
        "500 us");
    said(events(Trigger.at(0.5), Signals.constant(1), 0), "from 1 V to 1 V", "does not cross");
  }

  private static void said(TriggerEvents events, String... parts) {
    assertNull(events.next(new ExtendedTime(), 1));
    for (String part : parts) {
      assertTrue(events.reason().contains(part), () -> part + " is not in: " + events.reason());
    }
  }
}
