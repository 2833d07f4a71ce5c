package org.asmeasured.pulse;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import java.util.stream.Stream;
import org.asmeasured.capture.Record;
import org.asmeasured.capture.Setup;
import org.asmeasured.measure.Measured;
import org.asmeasured.signal.Signal;
import org.asmeasured.signal.Signals;
import org.asmeasured.signal.Waveform;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** What every way to find the levels of two states keeps, ours and anyone's. */
class StateLevelsContractTest {

  /** As a user would write it: the values at a quarter and at three quarters of the range. */
  private record Quarters() implements StateLevels {
    @Override
    public States of(Record record) {
      double low = Double.POSITIVE_INFINITY;
      double high = Double.NEGATIVE_INFINITY;
      for (int i = 0; i < record.size(); i++) {
        low = Math.min(low, record.volts(i));
        high = Math.max(high, record.volts(i));
      }
      return between(low, high);
    }

    @Override
    public States of(Waveform truth, double fromSeconds, double toSeconds) {
      return between(truth.minimum(fromSeconds, toSeconds), truth.maximum(fromSeconds, toSeconds));
    }

    private static States between(double low, double high) {
      return new States(low + (high - low) / 4, high - (high - low) / 4);
    }
  }

  static Stream<StateLevels> found() {
    return Stream.of(
        StateLevels.histogramMode(),
        StateLevels.histogramMode(100),
        StateLevels.histogramMean(),
        StateLevels.peakMagnitude(),
        new Quarters());
  }

  private static Signal trapezoid() {
    return Signals.trapezoid(-0.3, 0.7, 1e-6, 0.43, 3.1e-8, 4.3e-8);
  }

  @ParameterizedTest
  @MethodSource("found")
  void recordAndTruthAgreeInTheLimit(StateLevels levels) {
    States truth = levels.of(trapezoid(), 0, 1e-5);
    for (int points : new int[] {1000, 100_000}) {
      States read = levels.of(Setup.ideal(points / 1e-5, points).capture(trapezoid()));
      assertEquals(truth.lowVolts(), read.lowVolts(), 20.0 / points);
      assertEquals(truth.highVolts(), read.highVolts(), 20.0 / points);
    }
  }

  @ParameterizedTest
  @MethodSource("found")
  void scaleAndShiftWithTheSignal(StateLevels levels) {
    States one = levels.of(trapezoid(), 0, 1e-5);
    States other = levels.of(trapezoid().times(4).plus(2), 0, 1e-5);
    assertEquals(4 * one.lowVolts() + 2, other.lowVolts(), 1e-11);
    assertEquals(4 * one.highVolts() + 2, other.highVolts(), 1e-11);
  }

  @ParameterizedTest
  @MethodSource("found")
  void lieWithinTheRangeInOrderAndAreEqualForAConstant(StateLevels levels) {
    for (long seed = 1; seed <= 300; seed++) {
      Random random = new Random(seed);
      double scale = Math.pow(10, -200 + 208 * random.nextDouble());
      double[] volts = random.doubles(1 + random.nextInt(40), -scale, scale).toArray();
      States states = levels.of(Record.of(0, 1, volts));
      double low = java.util.Arrays.stream(volts).min().orElseThrow();
      double high = java.util.Arrays.stream(volts).max().orElseThrow();
      double slack = 1e-15 * scale;
      assertTrue(low - slack <= states.lowVolts(), "seed " + seed);
      assertTrue(states.lowVolts() <= states.highVolts(), "seed " + seed);
      assertTrue(states.highVolts() <= high + slack, "seed " + seed);
    }
    assertEquals(0, levels.of(Record.of(0, 1, new double[] {0.1, 0.1, 0.1})).amplitudeVolts());
    assertEquals(0, levels.of(Signals.constant(0.1), 0, 1).amplitudeVolts());
  }

  @ParameterizedTest
  @MethodSource("found")
  void serveEveryPulseReading(StateLevels levels) {
    assertFalse(levels.areGiven());
    PulseMethod method = PulseMethod.standard().levels(levels);
    Measured read =
        PulseReadings.of(PulseQuantity.values()[0], method)
            .of(Setup.ideal(1e9, 10_000).capture(trapezoid()));
    assertTrue(read.isTaken());
    assertFalse(levels.toString().contains("@"));
  }
}
