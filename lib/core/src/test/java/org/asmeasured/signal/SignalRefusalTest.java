package org.asmeasured.signal;

import static org.asmeasured.internal.Refusals.absent;
import static org.asmeasured.internal.Refusals.bounded;
import static org.asmeasured.internal.Refusals.duration;
import static org.asmeasured.internal.Refusals.hertz;
import static org.asmeasured.internal.Refusals.instant;
import static org.asmeasured.internal.Refusals.mismatch;
import static org.asmeasured.internal.Refusals.refused;
import static org.asmeasured.internal.Refusals.volts;
import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

/** Every operation on signals refuses what makes no signal, and what has no answer. */
class SignalRefusalTest {
  private static final Signal STEP = Signals.step(1, 0);
  private static final Signal SQUARE = Signals.square(0, 1, 1, 0.5);
  private static final SampleClock CLOCK = new SampleClock(0, 1);

  @Test
  void algebra() {
    absent("other", () -> STEP.plus(null));
    absent("other", () -> STEP.minus(null));
    volts("volts", v -> STEP.plus(v));
    bounded("factor", "", -1e9, 1e9, k -> STEP.times(k));
    instant("seconds", t -> STEP.delayedBy(t));
    bounded("factor", "", 1e-6, 1e6, k -> STEP.stretchedBy(k));
    assertThrows(IllegalArgumentException.class, () -> Signals.sine(1, 1e15).stretchedBy(0.9));
  }

  @Test
  void noSumOrProductOutgrowsDoubles() {
    Signal s = Signals.step(1e9, 0).times(1e9).times(1e9);
    mismatch(() -> s.times(1e9), "1.0E36 V", "1.0E30 V");
    mismatch(() -> Signals.sine(1e9, 1).times(1e9).times(1e9).times(-1e9), "V", "1.0E30 V");
    Signal ramp = Signals.ramp(1e21, 0).times(1e9);
    assertThrows(IllegalArgumentException.class, () -> ramp.times(1e9));
    Signal most = Signals.constant(1e9).times(1e9).times(1e9).times(1e3);
    mismatch(() -> most.plus(most), "2.0", "1.0E30 V");
    assertEquals(1e27, s.valueAt(1), 1e12);
  }

  @Test
  void instants() {
    for (Signal signal : new Signal[] {STEP, SQUARE, Signals.sine(1, 1), Signals.constant(1)}) {
      instant("timeSeconds", t -> signal.valueAt(t));
      instant("timeSeconds", t -> signal.valueBefore(t));
    }
  }

  @Test
  void gating() {
    refused("fromSeconds", "s", t -> STEP.gated(t, 1), -1.001e12);
    refused("toSeconds", "s", t -> STEP.gated(0, t), 1.001e12);
    mismatch(() -> STEP.gated(1, 1), "toSeconds = 1.0 s", "fromSeconds = 1.0 s");
    mismatch(() -> STEP.gated(1, 0), "toSeconds = 0.0 s", "fromSeconds = 1.0 s");
    mismatch(() -> Signals.square(0, 1, 1e-9, 0.5).gated(0, 1), "1048576 segments", "1.0 s");
    instant("seconds", t -> STEP.startingAt(t));
    mismatch(() -> SQUARE.startingAt(0), "startingAt(0.0 s)", "gated(from, to)");
  }

  @Test
  void repetition() {
    Signal pulse = Signals.pulse(1, 0, 1e-20 + 1e-18, 0, 0);
    duration("periodSeconds", t -> pulse.repeatedEvery(t));
    mismatch(() -> STEP.repeatedEvery(1), "repeatedEvery(1.0 s)", "come back to zero");
    mismatch(() -> Signals.ramp(1, 0).repeatedEvery(1), "repeatedEvery(1.0 s)", "zero");
    mismatch(() -> Signals.ramp(1, 0, 1).repeatedEvery(1), "repeatedEvery(1.0 s)", "zero");
    mismatch(() -> Signals.exponentialEdge(1, 0, 1).repeatedEvery(1), "repeatedEvery(1.0 s)");
    mismatch(() -> Signals.constant(1).repeatedEvery(1), "repeatedEvery(1.0 s)", "gate");
    mismatch(() -> Signals.sine(1, 1).repeatedEvery(1), "repeatedEvery(1.0 s)", "gate");
    mismatch(() -> SQUARE.repeatedEvery(1), "repeatedEvery(1.0 s)", "gate");
    mismatch(
        () -> Signals.sine(1, 1).startingAt(0).repeatedEvery(1), "repeatedEvery(1.0 s)", "sine");
    mismatch(
        () -> Signals.pulse(1, 0, 1, 0, 0).repeatedEvery(1e-9),
        "repeatedEvery(1.0E-9 s)",
        "1048576");
  }

  @Test
  void spansOfReadings() {
    for (Signal signal : new Signal[] {STEP, Signals.sine(1, 1), Signals.constant(1)}) {
      refused("fromSeconds", "s", t -> signal.mean(t, 1), -1.001e12);
      refused("toSeconds", "s", t -> signal.mean(0, t), 1.001e12);
      refused("fromSeconds", "s", t -> signal.rms(t, 1), -1.001e12);
      refused("toSeconds", "s", t -> signal.rms(0, t), 1.001e12);
      refused("fromSeconds", "s", t -> signal.knots(t, 1), -1.001e12);
      refused("toSeconds", "s", t -> signal.knots(0, t), 1.001e12);
      mismatch(() -> signal.mean(1, 1), "toSeconds = 1.0 s", "fromSeconds = 1.0 s");
      mismatch(() -> signal.rms(1, 0), "toSeconds = 0.0 s", "fromSeconds = 1.0 s");
      mismatch(() -> signal.minimum(1, 1), "toSeconds = 1.0 s", "fromSeconds = 1.0 s");
      mismatch(() -> signal.maximum(1, 0), "toSeconds = 0.0 s", "fromSeconds = 1.0 s");
      mismatch(() -> signal.knots(1, 1), "toSeconds = 1.0 s", "fromSeconds = 1.0 s");
    }
  }

  @Test
  void spansOfPeriodicSignals() {
    refused("toSeconds", "s", t -> SQUARE.mean(0, t), 1.001e12);
    refused("toSeconds", "s", t -> SQUARE.rms(0, t), 1.001e12);
    refused("fromSeconds", "s", t -> SQUARE.mean(t, 0), -1.001e12);
    refused("toSeconds", "s", t -> SQUARE.knots(0, t), 1.001e12);
  }

  @Test
  void moreKnotsThanAnyoneCanHold() {
    Signal fast = Signals.square(0, 1, 1e-17, 0.5);
    mismatch(() -> fast.knots(0, 1), "0.0 s", "1.0 s", "16777216 pieces");
    mismatch(() -> Signals.sine(1, 1e9).knots(0, 1), "0.0 s", "1.0 s", "16777216 knots");
    Signal burst = Signals.burst(1, 1e9, 1_000_000_000, 0);
    mismatch(() -> burst.maximum(0, 1), "0.0 s", "1.0 s", "16777216 knots");
  }

  @Test
  void clocks() {
    instant("startSeconds", t -> new SampleClock(t, 1));
    hertz("rateHz", f -> new SampleClock(0, f));
  }

  @Test
  void sampling() {
    double[] out = {7, 7, 7};
    assertThrows(IndexOutOfBoundsException.class, () -> STEP.sample(CLOCK, 0, out, -1, 1));
    assertThrows(IndexOutOfBoundsException.class, () -> STEP.sample(CLOCK, 0, out, 0, -1));
    assertThrows(IndexOutOfBoundsException.class, () -> STEP.sample(CLOCK, 0, out, 0, 4));
    assertThrows(IndexOutOfBoundsException.class, () -> STEP.sample(CLOCK, 0, out, 3, 1));
    for (long first :
        new long[] {Long.MIN_VALUE, -(1L << 53) - 1, (1L << 53) - 2, Long.MAX_VALUE}) {
      String message =
          assertThrows(IllegalArgumentException.class, () -> STEP.sample(CLOCK, first, out, 0, 3))
              .getMessage();
      assertTrue(message.startsWith("first = " + first + ": must be from "), message);
    }
    absent("clock", () -> STEP.sample(null, 0, out, 0, 1));
    absent("out", () -> STEP.sample(CLOCK, 0, null, 0, 1));
    assertArrayEquals(new double[] {7, 7, 7}, out, "nothing was written");
    STEP.sample(CLOCK, 0, out, 3, 0);
    assertArrayEquals(new double[] {7, 7, 7}, out, "no samples, nothing written");
    STEP.sample(CLOCK, -(1L << 53), out, 0, 1);
    STEP.sample(CLOCK, (1L << 53) - 1, out, 1, 1);
    assertArrayEquals(new double[] {0, 1, 7}, out);
  }

  @Test
  void tones() {
    double[] one = {1};
    volts("level", v -> new Tones(v, one, one, one));
    hertz("frequencyHz[0]", f -> new Tones(0, new double[] {f}, one, one));
    volts("cosine[0]", v -> new Tones(0, one, new double[] {v}, one));
    volts("sine[0]", v -> new Tones(0, one, one, new double[] {v}));
    absent("frequencyHz", () -> new Tones(0, null, one, one));
    absent("cosine", () -> new Tones(0, one, null, one));
    absent("sine", () -> new Tones(0, one, one, null));
    mismatch(() -> new Tones(0, one, one, new double[2]), "1, 1, 2", "frequencyHz");
    mismatch(() -> new Tones(0, one, new double[0], one), "1, 0, 1", "cosine");
    mismatch(() -> new Tones(0, new double[3], one, one), "3, 1, 1", "sine");
    double[] given = {2};
    Tones tones = new Tones(0, given, one, one);
    given[0] = 5;
    assertEquals(2, tones.frequencyHz(0), "a later change of the array does not reach the value");
  }
}
