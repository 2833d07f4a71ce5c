package org.asmeasured.signal;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;

/** Signals say what they are, as a person would. */
class WordsTest {
  @Test
  void builders() {
    assertEquals("constant 3.3 V", Signals.constant(3.3).toString());
    assertEquals("step of 1 V at 2 us", Signals.step(1, 2e-6).toString());
    assertEquals("sine of 500 mV amplitude, 1 MHz", Signals.sine(0.5, 1e6).toString());
    assertEquals(
        "square from 0 V to 5 V, period 1 ms, duty factor 0.25",
        Signals.square(0, 5, 1e-3, 0.25).toString());
    assertEquals(
        "trapezoid from -1 V to 1 V, period 1 us, duty factor 0.5, edges 3 ns and 5 ns",
        Signals.trapezoid(-1, 1, 1e-6, 0.5, 3e-9, 5e-9).toString());
    assertEquals(
        "pulse of 2 V, 10 ns wide, at 0 s", Signals.pulse(2, 0, 10e-9, 1e-9, 1e-9).toString());
    assertEquals(
        "rail of 3.3 V with a ripple of 20 mV peak to peak at 500 kHz and ringing of 50 mV at 80 MHz",
        Signals.rippleOnRail(3.3, 0.02, 500e3, 0.05, 80e6, 30e-9).toString());
    assertEquals(
        "recorded waveform of 3 points from 0 s",
        Signals.recorded(0, 1, new double[] {1, 2, 3}).toString());
  }

  @Test
  void operations() {
    Signal a = Signals.step(1, 0);
    Signal b = Signals.constant(2);
    assertEquals("step of 1 V at 0 s + constant 2 V", a.plus(b).toString());
    assertEquals("3.0 x (step of 1 V at 0 s)", a.times(3).toString());
    assertEquals("(step of 1 V at 0 s) delayed by 5 ns", a.delayedBy(5e-9).toString());
    assertEquals("(constant 2 V) from 1 s to 2 s", b.gated(1, 2).toString());
    assertEquals("(constant 2 V) starting at 1 s", b.startingAt(1).toString());
    assertEquals(
        "(pulse of 1 V, 1 us wide, at 0 s) every 10 us",
        Signals.pulse(1, 0, 1e-6, 0, 0).repeatedEvery(10e-6).toString());
  }
}
