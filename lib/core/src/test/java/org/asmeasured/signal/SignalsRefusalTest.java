package org.asmeasured.signal;

import static org.asmeasured.internal.Refusals.absent;
import static org.asmeasured.internal.Refusals.bounded;
import static org.asmeasured.internal.Refusals.duration;
import static org.asmeasured.internal.Refusals.durationOrZero;
import static org.asmeasured.internal.Refusals.hertz;
import static org.asmeasured.internal.Refusals.instant;
import static org.asmeasured.internal.Refusals.mismatch;
import static org.asmeasured.internal.Refusals.refused;
import static org.asmeasured.internal.Refusals.volts;
import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;

/** Every parameter of every builder refuses what makes no signal. */
class SignalsRefusalTest {
  @Test
  void levelsAndRamps() {
    volts("volts", v -> Signals.constant(v));
    volts("volts", v -> Signals.step(v, 0));
    instant("atSeconds", t -> Signals.step(1, t));
    bounded("voltsPerSecond", "V/s", -1e21, 1e21, v -> Signals.ramp(v, 0));
    instant("fromSeconds", t -> Signals.ramp(1, t));
    volts("volts", v -> Signals.ramp(v, 0, 1));
    refused("fromSeconds", "s", t -> Signals.ramp(1, t, 1), -1.001e12);
    refused("toSeconds", "s", t -> Signals.ramp(1, 0, t), 1.001e12);
    refused("toSeconds - fromSeconds", 1e-310, "s", () -> Signals.ramp(1, 0, 1e-310));
    mismatch(() -> Signals.ramp(1, 2, 2), "toSeconds = 2.0 s", "fromSeconds = 2.0 s");
    mismatch(() -> Signals.ramp(1, 2, 1), "toSeconds = 1.0 s", "fromSeconds = 2.0 s");
  }

  @Test
  void sines() {
    volts("amplitudeVolts", v -> Signals.sine(v, 1));
    hertz("frequencyHz", f -> Signals.sine(1, f));
    volts("amplitudeVolts", v -> Signals.sine(v, 1, 0));
    hertz("frequencyHz", f -> Signals.sine(1, f, 0));
    bounded("phaseRadians", "rad", -1e6, 1e6, p -> Signals.sine(1, 1, p));
  }

  @Test
  void multiTones() {
    double[] two = {1, 1};
    volts("amplitudesVolts[1]", v -> Signals.multiTone(new double[] {1, v}, two, two));
    hertz("frequenciesHz[1]", f -> Signals.multiTone(two, new double[] {1, f}, two));
    bounded(
        "phasesRadians[1]",
        "rad",
        -1e6,
        1e6,
        p -> Signals.multiTone(two, two, new double[] {0, p}));
    double[] none = {};
    absent("amplitudesVolts", () -> Signals.multiTone(null, two, two));
    absent("frequenciesHz", () -> Signals.multiTone(two, null, two));
    absent("phasesRadians", () -> Signals.multiTone(two, two, null));
    mismatch(() -> Signals.multiTone(none, none, none), "0, 0, 0", "amplitudesVolts");
    mismatch(() -> Signals.multiTone(new double[3], two, two), "3, 2, 2", "frequenciesHz");
    mismatch(() -> Signals.multiTone(two, new double[3], two), "2, 3, 2", "frequenciesHz");
    mismatch(() -> Signals.multiTone(two, two, new double[3]), "2, 2, 3", "phasesRadians");
  }

  @Test
  void squares() {
    volts("lowVolts", v -> Signals.square(v, 1, 1, 0.5));
    volts("highVolts", v -> Signals.square(0, v, 1, 0.5));
    duration("periodSeconds", t -> Signals.square(0, 1, t, 0.5));
    refused("dutyFactor", "", d -> Signals.square(0, 1, 1, d), 0, -0.0, -0.5, 1, 1.5, 50);
    refused("dutyFactor x periodSeconds", 1e-310, "s", () -> Signals.square(0, 1, 1, 1e-310));
  }

  @Test
  void trapezoids() {
    volts("lowVolts", v -> Signals.trapezoid(v, 1, 1, 0.5, 0.1, 0.1));
    volts("highVolts", v -> Signals.trapezoid(0, v, 1, 0.5, 0.1, 0.1));
    duration("periodSeconds", t -> Signals.trapezoid(0, 1, t, 0.5, 0.1, 0.1));
    refused("dutyFactor", "", d -> Signals.trapezoid(0, 1, 1, d, 0, 0), 0, -0.5, 1, 1.5);
    durationOrZero("riseSeconds", t -> Signals.trapezoid(0, 1, 1, 0.5, t, 0.1));
    durationOrZero("fallSeconds", t -> Signals.trapezoid(0, 1, 1, 0.5, 0.1, t));
    mismatch(
        () -> Signals.trapezoid(0, 1, 1, 0.5, 0.6, 0.6),
        "riseSeconds = 0.6 s",
        "fallSeconds = 0.6 s",
        "0.5 s");
    mismatch(() -> Signals.trapezoid(0, 1, 1, 0.9, 0.2, 0.2), "periodSeconds = 1.0 s", "0.2 s");
  }

  @Test
  void pulses() {
    volts("baseVolts", v -> Signals.pulseTrain(v, 1, 1, 0.5, 0, 0));
    volts("topVolts", v -> Signals.pulseTrain(0, v, 1, 0.5, 0, 0));
    duration("periodSeconds", t -> Signals.pulseTrain(0, 1, t, 0.5, 0, 0));
    duration("widthSeconds", t -> Signals.pulseTrain(0, 1, 1, t, 0, 0));
    durationOrZero("riseSeconds", t -> Signals.pulseTrain(0, 1, 1, 0.5, t, 0));
    durationOrZero("fallSeconds", t -> Signals.pulseTrain(0, 1, 1, 0.5, 0, t));
    mismatch(() -> Signals.pulseTrain(0, 1, 1, 2, 0, 0), "width 2.0 s", "periodSeconds = 1.0 s");
    mismatch(() -> Signals.pulseTrain(0, 1, 1, 0.1, 0.2, 0.2), "riseSeconds = 0.2 s", "0.1 s");

    volts("amplitudeVolts", v -> Signals.pulse(v, 0, 1, 0, 0));
    instant("startSeconds", t -> Signals.pulse(1, t, 1, 0, 0));
    duration("widthSeconds", t -> Signals.pulse(1, 0, t, 0, 0));
    durationOrZero("riseSeconds", t -> Signals.pulse(1, 0, 1, t, 0));
    durationOrZero("fallSeconds", t -> Signals.pulse(1, 0, 1, 0, t));
    mismatch(() -> Signals.pulse(1, 0, 1, 1.5, 1.5), "riseSeconds = 1.5 s", "1.0 s");
  }

  @Test
  void triangles() {
    volts("lowVolts", v -> Signals.triangle(v, 1, 1, 0.5));
    volts("highVolts", v -> Signals.triangle(0, v, 1, 0.5));
    duration("periodSeconds", t -> Signals.triangle(0, 1, t, 0.5));
    refused("symmetry", "", s -> Signals.triangle(0, 1, 1, s), -0.1, 1.1, -1e-300);
    refused("symmetry x periodSeconds", 1e-310, "s", () -> Signals.triangle(0, 1, 1, 1e-310));
    double nearlyOne = Math.nextDown(1.0);
    refused(
        "(1 - symmetry) x periodSeconds",
        1e-9 * (1 - nearlyOne),
        "s",
        () -> Signals.triangle(0, 1, 1e-9, nearlyOne));
    assertEquals(1, Signals.triangle(0, 1, 1, 0).valueAt(0));
    assertEquals(0, Signals.triangle(0, 1, 1, 1).valueAt(0));
  }

  @Test
  void runts() {
    volts("amplitudeVolts", v -> Signals.runt(v, 0.5, 1, 0.5, 0.1, 3));
    volts("runtVolts", v -> Signals.runt(1, v, 1, 0.5, 0.1, 3));
    duration("periodSeconds", t -> Signals.runt(1, 0.5, t, 0.5, 0.1, 3));
    duration("widthSeconds", t -> Signals.runt(1, 0.5, 1, t, 0.1, 3));
    refused(
        "every", n -> Signals.runt(1, 0.5, 1, 0.5, 0.1, n), -1, 0, 1, 10_001, Integer.MAX_VALUE);
    mismatch(() -> Signals.runt(1, 0.5, 1, 0.9, 0.2, 3), "width 0.9 s", "periodSeconds = 1.0 s");
  }

  @Test
  void bursts() {
    volts("amplitudeVolts", v -> Signals.burst(v, 1, 1, 0));
    hertz("frequencyHz", f -> Signals.burst(1, f, 1, 0));
    refused("cycles", n -> Signals.burst(1, 1, n, 0), -1, 0, 1_000_000_001, Integer.MIN_VALUE);
    instant("startSeconds", t -> Signals.burst(1, 1, 1, t));
  }

  @Test
  void edgesAndRinging() {
    volts("volts", v -> Signals.exponentialEdge(v, 0, 1));
    instant("startSeconds", t -> Signals.exponentialEdge(1, t, 1));
    duration("timeConstantSeconds", t -> Signals.exponentialEdge(1, 0, t));

    volts("amplitudeVolts", v -> Signals.dampedRinging(v, 1, 1, 0));
    hertz("frequencyHz", f -> Signals.dampedRinging(1, f, 1, 0));
    duration("decaySeconds", t -> Signals.dampedRinging(1, 1, t, 0));
    instant("startSeconds", t -> Signals.dampedRinging(1, 1, 1, t));
  }

  @Test
  void rails() {
    volts("railVolts", v -> Signals.rippleOnRail(v, 0.1, 1e6, 0, 1e8, 1e-8));
    bounded(
        "ripplePeakToPeakVolts", "V", 0, 1e9, v -> Signals.rippleOnRail(1, v, 1e6, 0, 1e8, 1e-8));
    hertz("rippleHz", f -> Signals.rippleOnRail(1, 0.1, f, 0, 1e8, 1e-8));
    for (double ringing : new double[] {0, 0.1}) {
      hertz("ringingHz", f -> Signals.rippleOnRail(1, 0.1, 1e6, ringing, f, 1e-8));
      duration("ringingDecaySeconds", t -> Signals.rippleOnRail(1, 0.1, 1e6, ringing, 1e8, t));
    }
    volts("ringingVolts", v -> Signals.rippleOnRail(1, 0.1, 1e6, v, 1e8, 1e-8));
  }

  @Test
  void recordedPoints() {
    double[] two = {1, 2};
    volts("volts[1]", v -> Signals.recorded(two, new double[] {0, v}));
    refused("timesSeconds[1]", "s", t -> Signals.recorded(new double[] {0, t}, two), 1.001e12);
    refused("timesSeconds[0]", "s", t -> Signals.recorded(new double[] {t, 0}, two), -1.001e12);
    absent("timesSeconds", () -> Signals.recorded(null, two));
    absent("volts", () -> Signals.recorded(two, null));
    refused(
        "the time from point 0 to point 1",
        4.9e-324,
        "s",
        () -> Signals.recorded(new double[] {0, 4.9e-324}, two));
    mismatch(
        () -> Signals.recorded(new double[] {0, 2, 2}, new double[3]),
        "timesSeconds[2] = 2.0 s",
        "timesSeconds[1] = 2.0 s");
    mismatch(
        () -> Signals.recorded(new double[] {0, 2, 1}, new double[3]),
        "timesSeconds[2] = 1.0 s",
        "timesSeconds[1] = 2.0 s");
    mismatch(() -> Signals.recorded(new double[0], new double[0]), "lengths 0 and 0", "volts");
    mismatch(() -> Signals.recorded(new double[1], new double[1]), "lengths 1 and 1", "volts");
    mismatch(() -> Signals.recorded(two, new double[3]), "lengths 2 and 3", "timesSeconds");

    instant("startSeconds", t -> Signals.recorded(t, 1, two));
    hertz("rateHz", f -> Signals.recorded(0, f, two));
    volts("volts[0]", v -> Signals.recorded(0, 1, new double[] {v, 0}));
    absent("volts", () -> Signals.recorded(0, 1, null));
    mismatch(() -> Signals.recorded(0, 1, new double[0]), "volts has length 0");
    mismatch(() -> Signals.recorded(0, 1, new double[1]), "volts has length 1");
  }

  @Test
  void fittedFunctions() {
    absent("function", () -> Signals.fitted(null, 0, 1, 1e-3));
    refused("fromSeconds", "s", t -> Signals.fitted(x -> 0, t, 1, 1e-3), -1.001e12);
    refused("toSeconds", "s", t -> Signals.fitted(x -> 0, 0, t, 1e-3), 1.001e12);
    refused("toleranceVolts", "V", v -> Signals.fitted(x -> x, 0, 1, v), 0, -1e-3, 1.001e9);
    mismatch(() -> Signals.fitted(x -> 0, 1, 1, 1), "toSeconds = 1.0 s", "fromSeconds = 1.0 s");
    refused("function(0.0 s)", "V", v -> Signals.fitted(x -> v, 0, 1, 1e-3), 1.001e9, -1.001e9);
    refused(
        "function(0.5 s)",
        Double.NaN,
        "V",
        () -> Signals.fitted(x -> x == 0.5 ? Double.NaN : 0, 0, 1, 1e-3));
    // a jump cannot be met by a straight piece however short
    mismatch(
        () -> Signals.fitted(x -> x < 0.3 ? 0 : 1, 0, 1, 1e-3),
        "toleranceVolts = 0.001 V",
        "0.29999");
    // nor can rounding noise
    mismatch(() -> Signals.fitted(Math::sin, 0, 1, 1e-300), "toleranceVolts = 1.0E-300 V");
  }
}
