package org.asmeasured.capture;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.EnumSet;
import java.util.Random;
import java.util.Set;
import java.util.stream.Stream;
import org.asmeasured.acquisition.Boxcar;
import org.asmeasured.acquisition.Decimation;
import org.asmeasured.acquisition.PeakDetect;
import org.asmeasured.acquisition.Pick;
import org.asmeasured.acquisition.Reducer;
import org.asmeasured.acquisition.RollingBoxcar;
import org.asmeasured.digitizer.Converter;
import org.asmeasured.frontend.Bandwidth;
import org.asmeasured.frontend.Coupling;
import org.asmeasured.frontend.Termination;
import org.asmeasured.frontend.VerticalScale;
import org.asmeasured.linear.Response;
import org.asmeasured.signal.SampleClock;
import org.asmeasured.signal.Signal;
import org.asmeasured.signal.Signals;
import org.asmeasured.signal.Waveform;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

class CaptureTest {
  /** Of full scale; the figure that the analog chain is held to. */
  private static final double ANALOG = 1e-9;

  static Stream<Signal> signals() {
    return Stream.of(
        Signals.constant(1.25),
        Signals.step(1, 3.3e-8),
        Signals.ramp(1e6, 1e-8),
        Signals.sine(0.7, 31.7e6, 0.2),
        Signals.square(-1, 1, 1.7e-7, 0.4),
        Signals.trapezoid(0, 3, 1e-7, 0.3, 3e-9, 5e-9).plus(0.1),
        Signals.exponentialEdge(2, 1.1e-8, 2.2e-8),
        Signals.rippleOnRail(3.3, 0.02, 1e6, 0.05, 80e6, 3e-8),
        Signals.recorded(0, 50e6, new double[] {0, 1, -0.5, 0.25, 0.7}));
  }

  @ParameterizedTest
  @MethodSource("signals")
  void idealChainIsTheIdentityBitForBit(Signal signal) {
    for (int points : new int[] {1, 2, 2047, 2048, 2049, 5000}) {
      double[] expected = new double[points];
      signal.sample(new SampleClock(-1.3e-8, 1.1e9), 0, expected, 0, points);
      Setup ideal = Setup.ideal(1.1e9, points).startingAt(-1.3e-8);
      assertArrayEquals(expected, ideal.capture(signal).volts(), 0);
      assertArrayEquals(expected, ideal.decimation(Boxcar.of(1)).capture(signal).volts(), 0);
      assertArrayEquals(expected, ideal.decimation(RollingBoxcar.of(1)).capture(signal).volts(), 0);
      assertArrayEquals(expected, ideal.averaging(7).capture(signal).volts(), 0);
      Record envelope = ideal.decimation(new PeakDetect(1)).capture(signal);
      assertArrayEquals(expected, envelope.lower(), 0);
      assertArrayEquals(expected, envelope.upper(), 0);
    }
    assertSame(signal, Setup.ideal(1e9, 1).analogOutput(signal));
  }

  @ParameterizedTest
  @MethodSource("signals")
  void codesAreThoseOfTheDefinition(Signal signal) {
    Setup setup = Setup.ideal(0.9e9, 3000).vertical(new VerticalScale(0.3, 8, 0.2, 0, 0)).bits(8);
    Record record = setup.capture(signal);
    double fullScale = 0.3 * 8;
    double q = fullScale / 256;
    long low = 0;
    long high = 0;
    for (int i = 0; i < record.size(); i++) {
      double level = (raw(signal, i) - 0.2) * (256 / fullScale);
      low += level < -128.5 ? 1 : 0;
      high += level > 127.5 ? 1 : 0;
      int code = (int) Math.max(-128, Math.min(127, Math.rint(level)));
      assertEquals(code, record.code(i), "point " + i);
      assertEquals(0.2 + code * q, record.volts(i));
      assertEquals(record.code(i), record.lowerCode(i));
      assertEquals(record.code(i), record.upperCode(i));
    }
    assertEquals(low, record.clippedLow());
    assertEquals(high, record.clippedHigh());
    assertEquals(q, record.stepVolts());
    assertTrue(record.hasCodes());
  }

  private static double raw(Signal signal, int i) {
    double[] out = new double[1];
    signal.sample(new SampleClock(0, 0.9e9), i, out, 0, 1);
    return out[0];
  }

  static Stream<Decimation> decimations() {
    return Stream.of(
        new Pick(1),
        new Pick(10),
        new PeakDetect(10),
        Boxcar.of(10),
        Boxcar.of(3000),
        RollingBoxcar.of(10),
        RollingBoxcar.of(11));
  }

  /** More points must not change those that were there: a point is a function of its number. */
  @ParameterizedTest
  @MethodSource("decimations")
  void aLongerRecordBeginsWithTheShorterOne(Decimation decimation) {
    Setup setup =
        Setup.ideal(1e9, 701)
            .coupling(Coupling.ac(1e5))
            .bandwidth(Bandwidth.bessel(4, 200e6))
            .scale(0.5)
            .bits(8)
            .decimation(decimation);
    Signal signal = Signals.trapezoid(-1, 1, 1.37e-7, 0.5, 2e-9, 2e-9);
    Record shorter = setup.capture(signal);
    Record longer = setup.points(1900).capture(signal);
    for (int i = 0; i < shorter.size(); i++) {
      assertEquals(shorter.lower(i), longer.lower(i));
      assertEquals(shorter.upper(i), longer.upper(i));
      assertEquals(shorter.timeSeconds(i), longer.timeSeconds(i));
    }
  }

  /**
   * Of a ramp, the mean is the value at the middle of the samples: so points must stand where they
   * say.
   */
  @ParameterizedTest
  @MethodSource("decimations")
  void pointsStandWhereTheySay(Decimation decimation) {
    double slope = 1e6;
    Signal ramp = Signals.ramp(slope, -1);
    Record record = Setup.ideal(1e9, 20).startingAt(2e-3).decimation(decimation).capture(ramp);
    for (int i = 0; i < record.size(); i++) {
      double middle = (record.lower(i) + record.upper(i)) / 2;
      assertEquals(slope * (1 + record.timeSeconds(i)), middle, 1e-9 * 1e6);
    }
    double interval = decimation.factor() / 1e9;
    assertEquals(interval, 1 / record.rateHz(), 1e-24);
    assertEquals(20 * interval, record.spanSeconds(), 1e-20);
    assertEquals(2e-3, record.startSeconds());
    double first = record.timeSeconds(0) - record.startSeconds();
    assertTrue(first >= 0 && first < interval, "a point stands within the interval that it owns");
  }

  @Test
  void verticalErrorsAreThoseOfTheDefinition() {
    VerticalScale scale = new VerticalScale(0.5, 8, 0.3, 0.02, -0.01);
    Setup setup = Setup.ideal(1e9, 500).vertical(scale);
    Signal signal = Signals.sine(1, 13e6).plus(0.3);
    double[] measured = setup.capture(signal).volts();
    double[] plain = setup.vertical(scale.withoutErrors()).capture(signal).volts();
    Waveform output = setup.analogOutput(signal);
    for (int i = 0; i < 500; i++) {
      assertEquals(plain[i] * 1.02 - 0.04, measured[i], 1e-15);
      assertEquals(measured[i], output.valueAt(i / 1e9), 4 * ANALOG);
      assertEquals(measured[i], output.valueBefore(i / 1e9), 4 * ANALOG);
    }
    assertEquals(0.3 * 1.02 - 0.04, output.mean(0, 1e-6), 1e-12);
    assertEquals(Math.hypot(0.3 * 1.02 - 0.04, 1.02 * Math.sqrt(0.5)), output.rms(0, 1e-6), 1e-12);
    assertEquals(1.3 * 1.02 - 0.04, output.maximum(0, 1e-6), 1e-12);
    assertEquals(-0.7 * 1.02 - 0.04, output.minimum(0, 1e-6), 1e-12);
    assertEquals(signal.periodSeconds(), output.periodSeconds());
    assertArrayEquals(signal.knots(0, 1e-6), output.knots(0, 1e-6));
  }

  /**
   * The offset error enters behind the coupling: AC coupling must not take it away, the gains after
   * it act on it.
   */
  @Test
  void offsetErrorPassesThroughWhatFollowsIt() {
    Setup setup =
        Setup.ideal(1e6, 10)
            .coupling(Coupling.ac())
            .bandwidth(Bandwidth.of("half", Response.gain(0.5)))
            .vertical(VerticalScale.of(1).withOffsetError(0.125));
    for (double volts : setup.capture(Signals.constant(5)).volts()) {
      assertEquals(0.5, volts);
    }
  }

  /**
   * A settled 1 kHz square of +/-A behind 10 Hz: each plateau starts at 2A/(1 + x) and falls as
   * exp(-t/tau), x = exp(-pi fc/f): first-order periodic steady state, Millman and Halkias,
   * Integrated Electronics (from memory).
   */
  @Test
  void acCouplingIsSettledInAShortRecord() {
    double tau = 1 / (2 * Math.PI * 10);
    double x = Math.exp(-Math.PI * 10 / 1000);
    Record record =
        Setup.ideal(1e9, 2000).coupling(Coupling.ac()).capture(Signals.square(-1, 1, 1e-3, 0.5));
    for (int i = 0; i < 2000; i++) {
      assertEquals(2 / (1 + x) * Math.exp(-i / 1e9 / tau), record.volts(i), ANALOG);
    }
    assertEquals(1.01570667146725, record.volts(0), 1e-12);
  }

  /**
   * Share of time and RMS of a sine of amplitude A clipped at +/-c: 1 - (2/pi) asin r and [(asin r
   * - r sqrt(1 - r^2))/pi + r^2 (1 - (2/pi) asin r)]^(1/2) A/c, r = c/A; figures by mpmath, checked
   * by quadrature. Phases spread evenly: the share is exact to one sample at each of four
   * crossings, 4/N.
   */
  @ParameterizedTest
  @CsvSource({
    "1.01, 0.089658901771042, 0.713337342285668",
    "1.1, 0.273555303651746, 0.753117806291579",
    "1.2, 0.372858997354675, 0.783107672898712",
    "1.5, 0.53544094560246, 0.837966950476631"
  })
  void clippingIsThatOfTheClosedForm(double overdrive, double share, double rms) {
    int n = 1 << 16;
    // 24 bits: the range ends half a step, 6e-8 of c, short of c at the top.
    Setup setup = Setup.ideal(n, n).scale(0.25).bits(24);
    Record record = setup.capture(Signals.sine(overdrive, 4999, 0.1));
    assertEquals(share, (record.clippedLow() + record.clippedHigh()) / (double) n, 4.0 / n);
    assertEquals(share / 2, record.clippedHigh() / (double) n, 2.0 / n);
    assertEquals(EnumSet.of(Flag.CLIPPED_LOW, Flag.CLIPPED_HIGH), record.flags());
    double sum = 0;
    for (double v : record.volts()) {
      sum += v * v;
    }
    assertEquals(rms, Math.sqrt(sum / n), 1e-6);
  }

  @Test
  void flagsSayWhichSide() {
    Setup setup = Setup.ideal(1e6, 10).scale(0.125).bits(3);
    // full scale 1 V, steps of 1/8 V: codes -4 to 3, range -0.5625 V to 0.4375 V
    assertEquals(Set.of(), setup.capture(Signals.constant(0.4375)).flags());
    assertEquals(Set.of(Flag.CLIPPED_HIGH), setup.capture(Signals.constant(0.4376)).flags());
    assertEquals(Set.of(), setup.capture(Signals.constant(-0.5625)).flags());
    assertEquals(Set.of(Flag.CLIPPED_LOW), setup.capture(Signals.constant(-0.5626)).flags());
    assertEquals(10, setup.capture(Signals.constant(9)).clippedHigh());
    assertEquals(3, setup.capture(Signals.constant(9)).code(4));
    assertEquals(-4, setup.capture(Signals.constant(-9)).code(4));
    assertEquals(
        70,
        setup.decimation(new Pick(7)).capture(Signals.constant(9)).clippedHigh(),
        "all raw samples");
    assertEquals(
        40, setup.averaging(4).capture(Signals.constant(9)).clippedHigh(), "all acquisitions");
    assertEquals(Set.of(), setup.converter(Converter.none()).capture(Signals.constant(9)).flags());
    assertThrows(
        UnsupportedOperationException.class,
        () -> setup.capture(Signals.constant(9)).flags().add(Flag.CLIPPED_LOW));
  }

  @Test
  void boxcarAveragesCodesAndStoresMoreBits() {
    // Levels 0.4 and 0.6 in turns: codes 0 and 1; their mean is half a step, of 10 samples with
    // four more bits.
    Setup setup = Setup.ideal(1e6, 4).scale(0.25).bits(8).decimation(Boxcar.of(10));
    double q = 2.0 / 256;
    Signal twoLevels = Signals.square(0.4 * q, 0.6 * q, 2e-6, 0.5).delayedBy(-0.25e-6);
    Record record = setup.capture(twoLevels);
    assertEquals(q / 16, record.stepVolts());
    assertEquals(8, record.code(0));
    assertEquals(q / 2, record.volts(3));
    Record few = setup.decimation(new Boxcar(10, 8)).capture(twoLevels);
    assertEquals(0, few.code(0), "0.5 of a step, a tie, goes to the even code");
  }

  @Test
  void storedMeansStayInRange() {
    // A mean at the top end code, stored in fewer bits, would round up out of their range.
    Setup setup = Setup.ideal(1e6, 3).scale(0.25).bits(8).decimation(new Boxcar(4, 4));
    assertEquals(7, setup.capture(Signals.constant(5)).code(0));
    assertEquals(-8, setup.capture(Signals.constant(-5)).code(0));
  }

  @Test
  void peakDetectFindsWhatPickMisses() {
    Signal glitch = Signals.pulse(1, 3.45e-7, 1.2e-9, 1e-10, 1e-10);
    Setup setup = Setup.ideal(1e9, 100).scale(0.5).bits(8);
    Record picked = setup.decimation(new Pick(10)).capture(glitch);
    Record peaks = setup.decimation(new PeakDetect(10)).capture(glitch);
    for (int i = 0; i < 100; i++) {
      assertEquals(0, picked.volts(i));
      assertEquals(0, peaks.lower(i));
      assertEquals(i == 34 ? 1 : 0, peaks.upper(i), "point " + i);
    }
    assertTrue(peaks.isEnvelope());
    assertEquals(64, peaks.upperCode(34));
    assertThrows(IllegalStateException.class, () -> peaks.volts(0));
    assertThrows(IllegalStateException.class, peaks::volts);
    assertThrows(IllegalStateException.class, () -> peaks.code(0));
  }

  @ParameterizedTest
  @ValueSource(ints = {2, 3, 16, 65536})
  void averagingEqualAcquisitionsChangesNoValue(int count) {
    Setup setup = Setup.ideal(1e9, 300).scale(0.1).bits(8);
    Signal signal = Signals.sine(0.3, 17e6);
    for (Decimation decimation : new Decimation[] {new Pick(1), new PeakDetect(5), Boxcar.of(10)}) {
      Record single = setup.decimation(decimation).capture(signal);
      Record mean = setup.decimation(decimation).averaging(count).capture(signal);
      assertArrayEquals(single.lower(), mean.lower(), 0);
      assertArrayEquals(single.upper(), mean.upper(), 0);
      assertFalse(mean.hasCodes());
      assertEquals(single.stepVolts(), mean.stepVolts());
      assertThrows(IllegalStateException.class, () -> mean.lowerCode(0));
    }
  }

  /** Random setups without a converter: linear in the signal, and the same at another time. */
  @Test
  void randomChainsAreLinearAndKeepTime() {
    for (long seed = 1; seed <= 60; seed++) {
      Random random = new Random(seed);
      Setup setup = randomAnalogSetup(random);
      Signal a =
          Signals.trapezoid(
              -1,
              1,
              1e-6 * (0.2 + random.nextDouble()),
              0.2 + 0.5 * random.nextDouble(),
              5e-9,
              8e-9);
      Signal b = Signals.sine(1, 1e6 * (1 + 30 * random.nextDouble()), 6 * random.nextDouble());
      double factor = -2 + 4 * random.nextDouble();
      double[] ofA = setup.capture(a).lower();
      double[] ofB = setup.capture(b).lower();
      double[] ofSum = setup.capture(a.times(factor).plus(b)).lower();
      // Dyadic, so that the instants differ by exactly the shift.
      double shift = Math.scalb(1.0, -30 + random.nextInt(8));
      double[] shifted =
          setup.startingAt(setup.startSeconds() + shift).capture(a.delayedBy(shift)).lower();
      for (int i = 0; i < ofA.length; i++) {
        if (!setup.decimation().isEnvelope()) {
          assertEquals(
              factor * ofA[i] + ofB[i], ofSum[i], 4 * ANALOG, "seed " + seed + ", point " + i);
        }
        assertEquals(ofA[i], shifted[i], 4 * ANALOG, "seed " + seed + ", point " + i);
      }
    }
  }

  private static Setup randomAnalogSetup(Random random) {
    Setup setup = Setup.ideal(1e8 * (1 + 20 * random.nextDouble()), 200);
    if (random.nextBoolean()) {
      setup = setup.source(1000 * random.nextDouble() + 1);
      setup =
          setup.termination(
              random.nextBoolean() ? Termination.oneMegohm() : Termination.fiftyOhm());
    }
    if (random.nextBoolean()) {
      setup = setup.coupling(Coupling.ac(Math.pow(10, 6 * random.nextDouble())));
    }
    if (random.nextBoolean()) {
      setup =
          setup.bandwidth(
              Bandwidth.bessel(1 + random.nextInt(6), 50e6 + 500e6 * random.nextDouble()));
    }
    if (random.nextBoolean()) {
      setup = setup.limit(Bandwidth.butterworth(1 + random.nextInt(4), 20e6));
    }
    Decimation[] choices = {
      new Pick(1), new Pick(3), new PeakDetect(4), Boxcar.of(5), RollingBoxcar.of(6)
    };
    return setup.decimation(choices[random.nextInt(choices.length)]);
  }

  @Test
  void aConverterThatBreaksItsContractIsNamed() {
    Converter stray =
        new Converter() {
          @Override
          public int bits() {
            return 4;
          }

          @Override
          public void convert(double[] levels, int offset, int count) {
            Arrays.fill(levels, offset, offset + count, 99);
          }

          @Override
          public String toString() {
            return "stray converter";
          }
        };
    Setup setup = Setup.ideal(1e6, 10).converter(stray);
    IllegalStateException e =
        assertThrows(IllegalStateException.class, () -> setup.capture(Signals.constant(0)));
    assertTrue(e.getMessage().contains("stray converter"), e.getMessage());
    assertTrue(e.getMessage().contains("99"), e.getMessage());
  }

  private static Decimation decimation(Reducer reducer) {
    return new Decimation() {
      @Override
      public int factor() {
        return 2;
      }

      @Override
      public double centre() {
        return 0;
      }

      @Override
      public Reducer reducer() {
        return reducer;
      }

      @Override
      public String toString() {
        return "stray decimation";
      }
    };
  }

  @Test
  void aDecimationThatBreaksItsContractIsNamed() {
    Setup setup = Setup.ideal(1e6, 10);
    Reducer[] stray = {
      (raw, offset, count, lower, upper, at) -> 0,
      (raw, offset, count, lower, upper, at) -> -1,
      (raw, offset, count, lower, upper, at) -> 12,
      (raw, offset, count, lower, upper, at) -> {
        Arrays.fill(lower, Double.NaN);
        return 10;
      }
    };
    for (Reducer reducer : stray) {
      IllegalStateException e =
          assertThrows(
              IllegalStateException.class,
              () -> setup.decimation(decimation(reducer)).capture(Signals.constant(0)));
      assertTrue(e.getMessage().contains("stray decimation"), e.getMessage());
    }
  }
}
