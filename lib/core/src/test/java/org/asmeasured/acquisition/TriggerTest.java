package org.asmeasured.acquisition;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.OptionalDouble;
import java.util.function.DoubleFunction;
import org.asmeasured.internal.Refusals;
import org.asmeasured.linear.Response;
import org.asmeasured.signal.Signal;
import org.asmeasured.signal.Signals;
import org.junit.jupiter.api.Test;

/** The trigger and its parts as values. */
class TriggerTest {
  private static final Trigger TRIGGER = Trigger.at(0.5);

  @Test
  void saysWhatItIs() {
    assertEquals(
        "trigger: rising through 500 mV, 50 % of the record before the event, waits for 10 s",
        TRIGGER.toString());
    assertEquals(
        "trigger: falling through -200 mV, path with high-pass at 10 Hz, hysteresis 10 mV,"
            + " pulses shorter than 1 us, 10 % of the record before the event, delay 1 ms,"
            + " holdoff 2 ms, rearm time 3 ms, jitter 4 ps rms, aligned to 1 samples,"
            + " runs free after 20 ms, armed at 5 s",
        TRIGGER
            .level(-0.2)
            .path(TriggerPath.ac())
            .slope(Slope.FALLING)
            .hysteresis(0.01)
            .qualifier(Qualifier.shorterThan(1e-6))
            .preTrigger(0.1)
            .delay(1e-3)
            .holdoff(2e-3)
            .rearm(3e-3)
            .jitter(4e-12)
            .resolution(1)
            .noEvent(NoEvent.runFreeAfter(0.02))
            .armedAt(5)
            .toString());
  }

  @Test
  void eachPropertyIsReplacedAlone() {
    Trigger other =
        new Trigger(
            TriggerPath.lowFrequencyReject(),
            0.25,
            Slope.FALLING,
            0.1,
            Qualifier.longerThan(1e-3),
            0.125,
            1,
            2,
            3,
            4,
            0.75,
            NoEvent.waitFor(5),
            OptionalDouble.of(6));
    Trigger built =
        TRIGGER
            .path(other.path())
            .level(other.levelVolts())
            .slope(other.slope())
            .hysteresis(other.hysteresisVolts())
            .qualifier(other.qualifier())
            .preTrigger(other.preTriggerShare())
            .delay(other.delaySeconds())
            .holdoff(other.holdoffSeconds())
            .rearm(other.rearmSeconds())
            .jitter(other.jitterSeconds())
            .resolution(other.resolution())
            .noEvent(other.noEvent())
            .armedAt(6);
    assertEquals(other, built);
    assertEquals(other.hashCode(), built.hashCode());
    assertNotEquals(TRIGGER, built);
    assertEquals(TRIGGER, Trigger.at(0.5));
  }

  @Test
  void placesTheRecordAboutTheEvent() {
    assertEquals(-0.5, TRIGGER.startAfterEventSeconds(1));
    assertEquals(-1, TRIGGER.preTrigger(1).startAfterEventSeconds(1));
    assertEquals(2.75, TRIGGER.preTrigger(0.25).delay(3).startAfterEventSeconds(1));
  }

  @Test
  void anIdealPathIsTheSignalItself() {
    Signal signal = Signals.sine(1, 1e3);
    assertSame(signal, TRIGGER.pathOutput(signal, Response.identity()));
    assertTrue(TRIGGER.path().isIdeal());
    // 10 Hz on 1 kHz, and half power at the corner
    assertEquals(
        1 / Math.hypot(1, 0.01),
        TRIGGER.path(TriggerPath.ac()).pathOutput(signal, Response.identity()).maximum(0, 1e-3),
        1e-12);
    assertEquals(
        Math.sqrt(0.5),
        TRIGGER.pathOutput(signal, Response.singlePole(1e3)).maximum(0, 1e-3),
        1e-12);
  }

  /** Corners 10 Hz and 50 kHz: common practice, no source; the gains are the closed form's. */
  @Test
  void pathsHaveTheirGains() {
    double half = Math.sqrt(0.5);
    assertEquals(1, TriggerPath.dc().response().magnitude(1e9));
    assertEquals(half, TriggerPath.ac().response().magnitude(10), 1e-12);
    assertEquals(half, TriggerPath.lowFrequencyReject().response().magnitude(50e3), 1e-12);
    assertEquals(half, TriggerPath.highFrequencyReject().response().magnitude(50e3), 1e-12);
    assertEquals(
        1 / Math.hypot(1, 1000), TriggerPath.lowFrequencyReject().response().magnitude(50), 1e-12);
    assertEquals(
        1 / Math.hypot(1, 20), TriggerPath.highFrequencyReject().response().magnitude(1e6), 1e-12);
    TriggerPath both = new TriggerPath(10, 50e3);
    assertEquals(
        1 / Math.hypot(1, 0.1) / Math.hypot(1, 100 / 50e3), both.response().magnitude(100), 1e-12);
    assertEquals("path with high-pass at 10 Hz and low-pass at 50 kHz", both.toString());
    assertEquals("DC path", TriggerPath.dc().toString());
    assertEquals("trigger path", both.name());
  }

  @Test
  void refusesBadValues() {
    Refusals.volts("levelVolts", TRIGGER::level);
    Refusals.bounded("hysteresisVolts", "V", 0, 1e9, TRIGGER::hysteresis);
    Refusals.bounded("preTriggerShare", "", 0, 1, TRIGGER::preTrigger);
    Refusals.durationOrZero("delaySeconds", TRIGGER::delay);
    Refusals.durationOrZero("holdoffSeconds", TRIGGER::holdoff);
    Refusals.durationOrZero("rearmSeconds", TRIGGER::rearm);
    Refusals.durationOrZero("jitterSeconds", TRIGGER::jitter);
    Refusals.bounded("resolution", "", 0, 1, TRIGGER::resolution);
    Refusals.instant("armedSeconds", TRIGGER::armedAt);
    Refusals.absent("path", () -> TRIGGER.path(null));
    Refusals.absent("slope", () -> TRIGGER.slope(null));
    Refusals.absent("qualifier", () -> TRIGGER.qualifier(null));
    Refusals.absent("noEvent", () -> TRIGGER.noEvent(null));
    Refusals.absent("signal", () -> TRIGGER.pathOutput(null, Response.identity()));
    Refusals.absent("ahead", () -> TRIGGER.pathOutput(Signals.constant(0), null));
    Refusals.absent(
        "armedSeconds",
        () ->
            new Trigger(
                TriggerPath.dc(),
                0,
                Slope.RISING,
                0,
                Qualifier.none(),
                0,
                0,
                0,
                0,
                0,
                0,
                NoEvent.waitFor(1),
                null));
  }

  @Test
  void partsRefuseBadValues() {
    DoubleFunction<?> high = v -> new TriggerPath(v, 0);
    Refusals.bounded("highPassHz", "Hz", 1e-6, 1e12, high);
    Refusals.bounded("lowPassHz", "Hz", 1e-6, 1e12, v -> new TriggerPath(0, v));
    Refusals.duration("afterSeconds", v -> new NoEvent(v, true));
    Refusals.duration("seconds", NoEvent::waitFor);
    Refusals.duration("seconds", NoEvent::runFreeAfter);
    Refusals.duration("seconds", Qualifier::shorterThan);
    Refusals.duration("seconds", Qualifier::longerThan);
    Refusals.volts("otherVolts", Qualifier::runtBelow);
    Refusals.durationOrZero("longerThanSeconds", v -> new PulseWidth(v, Double.POSITIVE_INFINITY));
    for (double bad : new double[] {Double.NaN, Double.NEGATIVE_INFINITY, 0, -1, 1e13}) {
      Refusals.refused("shorterThanSeconds", bad, "s", () -> new PulseWidth(0, bad));
    }
    Refusals.mismatch(
        () -> new PulseWidth(2, 1), "longerThanSeconds = 2.0 s", "shorterThanSeconds = 1.0 s");
    Refusals.mismatch(() -> new PulseWidth(1, 1), "longerThanSeconds = 1.0 s");
  }

  @Test
  void aRuntsOtherLevelIsBeyondTheLevel() {
    Refusals.mismatch(
        () -> TRIGGER.qualifier(Qualifier.runtBelow(0.5)),
        "otherVolts = 0.5 V",
        "levelVolts = 0.5 V",
        "above");
    Refusals.mismatch(
        () -> TRIGGER.slope(Slope.FALLING).qualifier(Qualifier.runtBelow(0.6)), "below");
    Trigger runt = TRIGGER.qualifier(Qualifier.runtBelow(0.8));
    Refusals.mismatch(() -> runt.level(0.9), "otherVolts = 0.8 V", "levelVolts = 0.9 V");
    Refusals.mismatch(() -> runt.slope(Slope.FALLING), "slope = falling");
  }

  @Test
  void qualifiersSayWhatTheyAre() {
    assertEquals("every pulse", Qualifier.none().toString());
    assertEquals("pulses shorter than 2 ns", Qualifier.shorterThan(2e-9).toString());
    assertEquals("pulses longer than 3 us", Qualifier.longerThan(3e-6).toString());
    assertEquals(
        "pulses longer than 1 us and shorter than 2 us", new PulseWidth(1e-6, 2e-6).toString());
    assertEquals("pulses that do not reach 800 mV", Qualifier.runtBelow(0.8).toString());
    assertEquals("pulses of any width", new PulseWidth(0, Double.POSITIVE_INFINITY).toString());
    assertEquals("waits for 1 s", NoEvent.waitFor(1).toString());
    assertEquals("runs free after 1 ms", NoEvent.runFreeAfter(1e-3).toString());
  }
}
