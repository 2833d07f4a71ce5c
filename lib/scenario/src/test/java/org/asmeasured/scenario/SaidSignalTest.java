package org.asmeasured.scenario;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.params.provider.Arguments.arguments;

import java.nio.file.Path;
import java.util.HashSet;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.asmeasured.signal.Signal;
import org.asmeasured.signal.Signals;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * A signal said in a file is the signal built in code, to the last bit; every number of it in its
 * own place.
 */
class SaidSignalTest {
  private static final Path RESOURCES = Path.of("src/test/resources/org/asmeasured/scenario");
  private static final Signal SINE = Signals.sine(2, 0.3);
  private static final String SAID_SINE =
      "{'kind': 'sine', 'amplitudeVolts': 2, 'frequencyHz': 0.3}";

  private static Stream<Arguments> pairs() {
    return Stream.of(
        arguments("{'kind': 'constant', 'volts': -1.5}", Signals.constant(-1.5)),
        arguments("{'kind': 'step', 'volts': 2, 'atSeconds': 0.5}", Signals.step(2, 0.5)),
        arguments(
            "{'kind': 'ramp', 'volts': 3, 'fromSeconds': -1, 'toSeconds': 2}",
            Signals.ramp(3, -1, 2)),
        arguments(
            "{'kind': 'endlessRamp', 'voltsPerSecond': 3, 'fromSeconds': 0.25}",
            Signals.ramp(3, 0.25)),
        arguments(
            "{'kind': 'pulse', 'amplitudeVolts': 2, 'startSeconds': -1, 'widthSeconds': 1, 'riseSeconds': 0.25,"
                + " 'fallSeconds': 0.5}",
            Signals.pulse(2, -1, 1, 0.25, 0.5)),
        arguments(
            "{'kind': 'burst', 'amplitudeVolts': 2, 'frequencyHz': 3, 'cycles': 4, 'startSeconds': -0.5}",
            Signals.burst(2, 3, 4, -0.5)),
        arguments(
            "{'kind': 'exponentialEdge', 'volts': 2, 'startSeconds': -0.5, 'timeConstantSeconds': 0.75}",
            Signals.exponentialEdge(2, -0.5, 0.75)),
        arguments(
            "{'kind': 'dampedRinging', 'amplitudeVolts': 2, 'frequencyHz': 3, 'decaySeconds': 0.75, 'startSeconds':"
                + " -0.5}",
            Signals.dampedRinging(2, 3, 0.75, -0.5)),
        arguments(SAID_SINE, SINE),
        arguments(
            "{'kind': 'sine', 'amplitudeVolts': 2, 'frequencyHz': 0.3, 'phaseRadians': 1}",
            Signals.sine(2, 0.3, 1)),
        arguments(
            "{'kind': 'multiTone', 'tones': [{'amplitudeVolts': 1, 'frequencyHz': 2, 'phaseRadians': 3},"
                + " {'amplitudeVolts': 4, 'frequencyHz': 5}]}",
            Signals.multiTone(new double[] {1, 4}, new double[] {2, 5}, new double[] {3, 0})),
        arguments(
            "{'kind': 'square', 'lowVolts': -1, 'highVolts': 2, 'periodSeconds': 1.5, 'dutyFactor': 0.25}",
            Signals.square(-1, 2, 1.5, 0.25)),
        arguments(
            "{'kind': 'trapezoid', 'lowVolts': -1, 'highVolts': 2, 'periodSeconds': 1.5, 'dutyFactor': 0.25,"
                + " 'riseSeconds': 0.125, 'fallSeconds': 0.0625}",
            Signals.trapezoid(-1, 2, 1.5, 0.25, 0.125, 0.0625)),
        arguments(
            "{'kind': 'triangle', 'lowVolts': -1, 'highVolts': 2, 'periodSeconds': 1.5, 'symmetry': 0.25}",
            Signals.triangle(-1, 2, 1.5, 0.25)),
        arguments(
            "{'kind': 'pulseTrain', 'baseVolts': -1, 'topVolts': 2, 'periodSeconds': 1.5, 'widthSeconds': 0.5,"
                + " 'riseSeconds': 0.125, 'fallSeconds': 0.25}",
            Signals.pulseTrain(-1, 2, 1.5, 0.5, 0.125, 0.25)),
        arguments(
            "{'kind': 'runt', 'amplitudeVolts': 2, 'runtVolts': 0.5, 'periodSeconds': 0.75, 'widthSeconds': 0.25,"
                + " 'edgeSeconds': 0.125, 'every': 3}",
            Signals.runt(2, 0.5, 0.75, 0.25, 0.125, 3)),
        arguments(
            "{'kind': 'rippleOnRail', 'railVolts': 5, 'ripplePeakToPeakVolts': 2, 'rippleHz': 0.5, 'ringingVolts': 0.25,"
                + " 'ringingHz': 4, 'ringingDecaySeconds': 0.125}",
            Signals.rippleOnRail(5, 2, 0.5, 0.25, 4, 0.125)),
        arguments(
            "{'kind': 'recorded', 'timesSeconds': [-1, 0, 2], 'volts': [1, 3, -1]}",
            Signals.recorded(new double[] {-1, 0, 2}, new double[] {1, 3, -1})),
        arguments(
            "{'kind': 'recorded', 'startSeconds': -1, 'rateHz': 2, 'volts': [1, 3, -1]}",
            Signals.recorded(-1, 2, new double[] {1, 3, -1})),
        arguments(
            "{'kind': 'recordedFile', 'file': 'points.csv', 'timeColumn': 'time / us', 'secondsPerUnit': 0.5,"
                + " 'valueColumn': 'level', 'voltsPerUnit': 4}",
            Signals.recorded(
                new double[] {0, 0.5, 1.25, 2}, new double[] {0, 0.1 * 4, -0.05 * 4, 0})),
        arguments(
            "{'kind': 'sum', 'signals': ["
                + SAID_SINE
                + ", {'kind': 'step', 'volts': 2, 'atSeconds': 0.5}]}",
            SINE.plus(Signals.step(2, 0.5))),
        arguments("{'kind': 'scaled', 'factor': -3, 'signal': " + SAID_SINE + "}", SINE.times(-3)),
        arguments(
            "{'kind': 'delayed', 'seconds': 0.7, 'signal': " + SAID_SINE + "}",
            SINE.delayedBy(0.7)),
        arguments(
            "{'kind': 'gated', 'fromSeconds': -0.7, 'toSeconds': 1.1, 'signal': " + SAID_SINE + "}",
            SINE.gated(-0.7, 1.1)),
        arguments(
            "{'kind': 'starting', 'seconds': -0.7, 'signal': " + SAID_SINE + "}",
            SINE.startingAt(-0.7)),
        arguments(
            "{'kind': 'repeated', 'periodSeconds': 1.5, 'signal': {'kind': 'pulse', 'amplitudeVolts': 2, 'startSeconds':"
                + " -1, 'widthSeconds': 1, 'riseSeconds': 0.25, 'fallSeconds': 0.5}}",
            Signals.pulse(2, -1, 1, 0.25, 0.5).repeatedEvery(1.5)));
  }

  @ParameterizedTest
  @MethodSource("pairs")
  void isTheSignalBuilt(String said, Signal built) {
    Signal read = read(said);
    assertEquals(built.toString(), read.toString());
    Set<Double> values = new HashSet<>();
    for (int i = -200; i <= 200; i++) {
      assertEquals(built.valueAt(i * 0.013), read.valueAt(i * 0.013), 0);
      values.add(read.valueAt(i * 0.013));
    }
    assertTrue(values.size() > 1 || said.contains("constant"));
  }

  @Test
  void coversEveryKind() {
    Set<String> covered = new TreeSet<>();
    pairs().forEach(pair -> covered.add(((String) pair.get()[0]).split("'")[3]));
    assertEquals(new TreeSet<>(SignalKinds.in(RESOURCES).names()), covered);
  }

  private static Signal read(String said) {
    return SignalKinds.in(RESOURCES).read(Json.parse("said", said.replace('\'', '"')));
  }
}
