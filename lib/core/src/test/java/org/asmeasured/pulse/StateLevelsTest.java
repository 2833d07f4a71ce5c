package org.asmeasured.pulse;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.SplittableRandom;
import org.asmeasured.capture.Record;
import org.asmeasured.capture.Setup;
import org.asmeasured.internal.Cases;
import org.asmeasured.linear.Response;
import org.asmeasured.signal.Dwell;
import org.asmeasured.signal.Signal;
import org.asmeasured.signal.Signals;
import org.asmeasured.signal.Waveform;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class StateLevelsTest {

  private static States mode(double... volts) {
    return StateLevels.histogramMode().of(Record.of(0, 1, volts));
  }

  /** Of equally full bins the outermost; of an even number of values the middle two's mean. */
  @Test
  void modesByHand() {
    assertEquals(new States(0, 1), mode(0, 0, 0, 1, 1, 1, 0.3, 0.7));
    assertEquals(new States(0.1, 0.9), mode(0, 0.1, 0.1, 0.1, 0.9, 0.9, 0.9, 1));
    double step = 1.0 / 512;
    States states = mode(-1, 0, 0, step, step, 1, 1, 1, 2, 0.5);
    assertEquals(step / 2, states.lowVolts(), 1e-16);
    assertEquals(new States(-3, 5), StateLevels.given(-3, 5).of(Record.of(0, 1, new double[1])));
  }

  /** Where no bin stands out there is no state to find: the extremes are taken. */
  @Test
  void aTriangleHasNoModes() {
    Signal triangle = Signals.triangle(-1, 3, 1e-3, 0.5);
    assertEquals(new States(-1, 3), StateLevels.histogramMode().of(triangle, 0, 5e-3));
    Record record = Setup.ideal(1e8 / Math.PI, 100_000).capture(triangle);
    States states = StateLevels.histogramMode().of(record);
    assertEquals(-1, states.lowVolts(), 1e-3);
    assertEquals(3, states.highVolts(), 1e-3);
  }

  /** A sine spends acos(1 - 2/256)/pi of its time in each outermost bin; its median there. */
  @Test
  void modesOfASineAreThoseOfItsArcsine() {
    double share = Math.acos(1 - 2.0 / 256) / Math.PI;
    double level = Math.cos(Math.PI * share / 2);
    States states = StateLevels.histogramMode().of(Signals.sine(1, 1e3), 0, 5e-3);
    assertEquals(level, states.highVolts(), 1e-12);
    assertEquals(-level, states.lowVolts(), 1e-12);
  }

  /** The means of the halves of a sine lie at 2/pi, of a triangle midway. */
  @Test
  void meansOfHalves() {
    States sine = StateLevels.histogramMean().of(Signals.sine(1, 1e3).plus(0.2), 0, 5e-3);
    assertEquals(0.2 + 2 / Math.PI, sine.highVolts(), 1e-12);
    assertEquals(0.2 - 2 / Math.PI, sine.lowVolts(), 1e-12);
    States triangle = StateLevels.histogramMean().of(Signals.triangle(0, 4, 1, 0.3), 0, 3);
    assertEquals(1, triangle.lowVolts(), 1e-12);
    assertEquals(3, triangle.highVolts(), 1e-12);
    Record record = Setup.ideal(1e6, 10_000).capture(Signals.sine(1, 1e3).plus(0.2));
    States read = StateLevels.histogramMean().of(record);
    // 500 points a half cycle: the midpoint rule errs by (pi/1000)^2/6 of it
    assertEquals(0.2 + 2 / Math.PI, read.highVolts(), 2e-3);
  }

  /** Neighbouring numbers have no number between them. */
  @Test
  void statesOneUnitApart() {
    for (double low : new double[] {1, Math.nextUp(1.0), 0, -1e9, Double.MIN_VALUE}) {
      States expected = new States(low, Math.nextUp(low));
      Record record = Record.of(0, 1, new double[] {low, Math.nextUp(low), low, Math.nextUp(low)});
      // the middle of the range is one of the two, so that both may fall into one half
      States means = StateLevels.histogramMean().of(record);
      assertTrue(means.lowVolts() >= low && means.highVolts() <= Math.nextUp(low));
      assertEquals(expected, StateLevels.histogramMode().of(record));
      assertEquals(expected, StateLevels.peakMagnitude().of(record));
    }
  }

  /** Flat states are found as they are, with edges, ringing and noise beside them. */
  @ParameterizedTest
  @ValueSource(longs = {1, 2, 3, 4})
  void flatStatesUnderNoise(long seed) {
    SplittableRandom random = new SplittableRandom(seed);
    double[] volts = new double[20_000];
    for (int i = 0; i < volts.length; i++) {
      volts[i] = (i % 1000 < 400 ? 2 : -1) + 0.03 * random.nextGaussian();
    }
    States states = mode(volts);
    // bins of 3.2/256 V, a modal bin within one standard deviation of the state for all but 1e-6
    assertEquals(-1, states.lowVolts(), 0.03);
    assertEquals(2, states.highVolts(), 0.03);
  }

  /** Codes are bins of their own. */
  @Test
  void codesAreBins() {
    Signal square = Signals.trapezoid(-1, 1, 1e-4, 0.5, 1e-5, 1e-5);
    Record record = Setup.ideal(1e7, 10_000).scale(0.5).bits(6).capture(square);
    double q = record.stepVolts();
    States states = StateLevels.histogramMode().of(record);
    assertEquals(q * Math.rint(-1 / q), states.lowVolts(), 1e-15);
    assertEquals(q * Math.rint(1 / q), states.highVolts(), 1e-15);
    // one step between the extremes
    Record two = Setup.ideal(1e7, 1000).scale(0.5).bits(2).capture(Signals.sine(0.6, 1e4));
    States three = StateLevels.histogramMode().of(two);
    assertTrue(three.lowVolts() < three.highVolts());
  }

  /**
   * Time below a level: of a sine 1/2 + asin(v)/pi, of a settling step what its closed form says.
   */
  @Test
  void timeBelowALevel() {
    Dwell sine = Dwell.of(Signals.sine(1, 50), 0, 0.2);
    for (double v = -0.99; v < 1; v += 0.09) {
      assertEquals(0.5 + Math.asin(v) / Math.PI, sine.shareBelow(v), 1e-12);
      assertEquals(v, sine.quantile(0.5 + Math.asin(v) / Math.PI), 1e-12);
    }
    assertEquals(0, sine.shareBelow(-1.1));
    assertEquals(1, sine.shareBelow(1.1));
    Dwell edge = Dwell.of(Signals.exponentialEdge(1, 0, 1), -2, 8);
    for (double v = 0.05; v < 0.999; v += 0.05) {
      assertEquals(0.2 - Math.log(1 - v) / 10, edge.shareBelow(v), 1e-13);
    }
    assertEquals(0, edge.quantile(0.1), 1e-14);
    Dwell square = Dwell.of(Signals.square(-1, 4, 1, 0.25), 0, 7.3);
    assertEquals((0.75 * 7 + 0.05) / 7.3, square.shareBelow(0), 1e-13);
    assertEquals(-1, square.quantile(0.5), 1e-14);
    assertEquals(4, square.quantile(0.9), 1e-14);
  }

  /** The truth's histogram is that of very many samples. */
  @Test
  void sharesAreThoseOfManySamples() {
    Cases.check(
        1,
        20,
        random -> {
          Signal signal =
              Signals.trapezoid(0, 1, 1, 0.3 + 0.4 * random.nextDouble(), 0.1, 0.05)
                  .plus(Signals.sine(0.1, 3 + random.nextInt(9), random.nextDouble()));
          Waveform output = Response.bessel(3, 4).of(signal);
          double[] volts = Setup.ideal(1e5, 200_000).capture(signal).volts();
          double[] sorted = volts.clone();
          Arrays.sort(sorted);
          Dwell dwell = Dwell.of(signal, 0, 2);
          for (int k = 1; k < 20; k++) {
            double v = sorted[10_000 * k] + 1e-9;
            int below = -Arrays.binarySearch(sorted, v) - 1;
            assertEquals(below / 200_000.0, dwell.shareBelow(v), 1e-3);
          }
          Dwell filtered = Dwell.of(output, 0, 2);
          assertEquals(output.maximum(0, 2), filtered.maximum(), 1e-12);
          assertEquals(output.minimum(0, 2), filtered.minimum(), 1e-12);
        });
  }
}
