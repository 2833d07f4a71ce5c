package org.asmeasured.capture;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Map;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.stream.IntStream;
import org.asmeasured.acquisition.Boxcar;
import org.asmeasured.acquisition.Ensemble;
import org.asmeasured.acquisition.NoEvent;
import org.asmeasured.acquisition.PeakDetect;
import org.asmeasured.acquisition.Trigger;
import org.asmeasured.acquisition.TriggerPath;
import org.asmeasured.digitizer.ConverterNoise;
import org.asmeasured.digitizer.Core;
import org.asmeasured.digitizer.InterleavedSampler;
import org.asmeasured.digitizer.Sampler;
import org.asmeasured.frontend.Bandwidth;
import org.asmeasured.frontend.Noise;
import org.asmeasured.frontend.Saturation;
import org.asmeasured.frontend.SourceNoise;
import org.asmeasured.linear.StreamFilter;
import org.asmeasured.measure.Readings;
import org.asmeasured.pulse.PulseReadings;
import org.asmeasured.signal.Signal;
import org.asmeasured.signal.Signals;
import org.junit.jupiter.api.Test;

/** Noise, saturation, sampler, trigger and ensemble at their places in one setup. */
class WholeChainTest {
  private static final int POINTS = 1 << 16;

  /**
   * Half a part in a thousand of a deviation from n values is 1/sqrt(2n); six of those: 2e-9 a
   * check.
   */
  private static final double SIX_SIGMA = 6 / Math.sqrt(2.0 * POINTS);

  private static Setup noisy() {
    return Setup.ideal(4e9, POINTS)
        .bandwidth(Bandwidth.singlePole(200e6))
        .noise(Noise.white(10e-9));
  }

  private static double deviation(Record record) {
    double mean = 0;
    for (int i = 0; i < record.size(); i++) {
      mean += record.volts(i) / record.size();
    }
    double sum = 0;
    for (int i = 0; i < record.size(); i++) {
      sum += Math.pow(record.volts(i) - mean, 2);
    }
    return Math.sqrt(sum / record.size());
  }

  @Test
  void whatIsIdealChangesNoBit() {
    Signal signal = Signals.trapezoid(-1, 1, 97.3e-9, 0.4, 3e-9, 5e-9);
    Setup plain = Setup.ideal(1e9, 5000).bandwidth(Bandwidth.bessel(4, 200e6)).scale(0.5).bits(8);
    Setup spelled =
        plain
            .noise(Noise.none())
            .sourceNoise(SourceNoise.none())
            .saturation(Saturation.none())
            .sampler(Sampler.ideal())
            .converterNoise(ConverterNoise.none());
    assertTrue(spelled.isRepeatable());
    assertArrayEquals(plain.capture(signal).volts(), spelled.capture(signal, 42).volts());
  }

  /**
   * e sqrt(ENBW), ENBW = pi/2 f of a single pole; successive values hold about as much as a third
   * of them.
   */
  @Test
  void amplifierNoiseHasItsDeviation() {
    double expected = 10e-9 * Math.sqrt(Math.PI / 2 * 200e6);
    double seen = deviation(noisy().capture(Signals.constant(0), 7));
    assertEquals(expected, seen, expected * SIX_SIGMA * Math.sqrt(4));
    Setup limited = noisy().limit(Bandwidth.singlePole(20e6));
    double less = deviation(limited.capture(Signals.constant(0), 7));
    // two poles: ENBW = pi/2 f1 f2/(f1 + f2)
    double two = 10e-9 * Math.sqrt(Math.PI / 2 * 200e6 * 20e6 / 220e6);
    assertEquals(two, less, two * SIX_SIGMA * Math.sqrt(40));
  }

  @Test
  void averagingLowersItByTheRootOfTheNumber() {
    double single = deviation(noisy().capture(Signals.constant(0), 3));
    double mean = deviation(noisy().averaging(64).capture(Signals.constant(0), 3));
    assertEquals(single / 8, mean, single / 8 * SIX_SIGMA * 4);
  }

  @Test
  void sameSeedSameBitsOnAnyThread() throws Exception {
    Signal signal = Signals.sine(0.5, 13e6);
    Setup setup =
        noisy()
            .points(4000)
            .scale(0.2)
            .bits(8)
            .converterNoise(ConverterNoise.ofSteps(0.4, 8))
            .sampler(InterleavedSampler.of(2e-6, 3e-12, List.of(Core.ideal(), Core.ideal())))
            .decimation(new PeakDetect(10))
            .trigger(Trigger.at(0.1).jitter(5e-12))
            .averaging(5);
    Record alone = setup.capture(signal, 11);
    ExecutorService eight = Executors.newFixedThreadPool(8);
    try {
      List<Callable<Record>> captures =
          IntStream.range(0, 16)
              .mapToObj(i -> (Callable<Record>) () -> setup.capture(signal, 11))
              .toList();
      for (Future<Record> other : eight.invokeAll(captures)) {
        assertArrayEquals(alone.lower(), other.get().lower());
        assertArrayEquals(alone.upper(), other.get().upper());
      }
    } finally {
      eight.shutdownNow();
    }
    assertFalse(java.util.Arrays.equals(alone.lower(), setup.capture(signal, 12).lower()));
  }

  @Test
  void aStreamHasTheNoiseOfACapture() {
    Setup setup =
        noisy().points(3000).scale(1e-4).bits(8).converterNoise(ConverterNoise.ofSteps(0.3, 8));
    Record once = setup.capture(Signals.constant(2e-5), 5);
    CaptureStream stream = setup.stream(StreamFilter.Start.SETTLED, 5);
    double[] in = new double[3000];
    java.util.Arrays.fill(in, 2e-5);
    int[] codes = new int[3000];
    for (int round = 0; round < 2; round++) {
      int written = 0;
      for (int at = 0; at < 3000; at += 7) {
        int[] some = new int[7];
        int n = stream.process(in, at, Math.min(7, 3000 - at), some);
        System.arraycopy(some, 0, codes, written, n);
        written += n;
      }
      assertEquals(3000, written);
      for (int i = 0; i < 3000; i++) {
        assertEquals(once.code(i), codes[i], "point " + i);
      }
      stream.reset();
    }
  }

  @Test
  void whatAStreamCannotDoIsRefused() {
    Setup setup = Setup.ideal(1e9, 100);
    for (Setup not :
        List.of(
            setup.trigger(Trigger.at(0)),
            setup.saturation(Saturation.at(1)),
            setup.averaging(2),
            setup.sampler(InterleavedSampler.of(0, 1e-12, List.of(Core.ideal()))))) {
      assertThrows(IllegalArgumentException.class, not::stream);
    }
  }

  @Test
  void aClockErrorShiftsThePeriod() {
    Setup setup =
        Setup.ideal(1e9, 100_000).sampler(InterleavedSampler.of(100e-6, 0, List.of(Core.ideal())));
    double period = PulseReadings.period().of(setup.capture(Signals.sine(1, 1.01e6))).orThrow();
    // a clock that runs fast takes more samples in a period
    assertEquals((1 + 100e-6) / 1.01e6, period, 1e-9 / 1.01e6 * 1e3);
  }

  @Test
  void saturationCutsAheadOfTheRollOff() {
    Setup setup = Setup.ideal(1e9, 2000).saturation(Saturation.at(0.5));
    Record record = setup.capture(Signals.sine(1, 1e6));
    assertEquals(0.5, Readings.maximum().of(record).orThrow(), 1e-9);
    // reference values, section 4: A/c = 2 by the formula RMS^2/A^2 = (asin r - r sqrt(1-r^2))/pi +
    // r^2 (1 - 2/pi asin r)
    double r = 0.5;
    double rms =
        Math.sqrt(
            (Math.asin(r) - r * Math.sqrt(1 - r * r)) / Math.PI
                + r * r * (1 - 2 / Math.PI * Math.asin(r)));
    assertEquals(rms, Readings.rms().of(record).orThrow(), 1e-4);
    assertEquals(
        rms, Readings.rms().of(setup.analogOutput(Signals.sine(1, 1e6)), 0, 2e-6).orThrow(), 1e-9);
  }

  @Test
  void aTriggeredRecordStandsAtItsEvent() {
    Setup setup = Setup.ideal(1e9, 1000).trigger(Trigger.at(0.5).preTrigger(0.5));
    Record record = setup.capture(Signals.sine(1, 1.237e6), 9);
    // the event is in the middle of the span
    double middle = (record.volts(499) + record.volts(500) + record.volts(501)) / 3;
    assertEquals(0.5, middle, 0.01);
    assertTrue(record.volts(500) > record.volts(499));
    assertTrue(record.notes().isEmpty());
  }

  @Test
  void withoutAnEventNothingIsRecordedAndTheReasonIsSaid() {
    Setup setup = Setup.ideal(1e9, 1000).bits(8).trigger(Trigger.at(2));
    Record record = setup.capture(Signals.sine(1, 1e6));
    assertEquals(0, record.size());
    Map<Flag, String> notes = record.notes();
    assertTrue(notes.containsKey(Flag.NO_TRIGGER), notes.toString());
    assertEquals(notes.keySet(), record.flags());
    for (var reading : Readings.all()) {
      assertTrue(
          reading.of(record).toString().contains("no trigger"),
          reading + ": " + reading.of(record));
    }
  }

  @Test
  void runningFreeIsFlagged() {
    Setup setup = Setup.ideal(1e9, 1000).trigger(Trigger.at(2).noEvent(NoEvent.runFreeAfter(1e-3)));
    Record record = setup.capture(Signals.sine(1, 1e6), 4);
    assertEquals(1000, record.size());
    assertTrue(record.flags().contains(Flag.RAN_FREE));
  }

  @Test
  void anEnvelopeHoldsEveryAcquisition() {
    Setup setup = noisy().points(500).ensemble(Ensemble.envelopeOf(20));
    Record record = setup.capture(Signals.constant(0), 1);
    assertTrue(record.isEnvelope());
    double width = 0;
    for (int i = 0; i < record.size(); i++) {
      assertTrue(record.lower(i) < record.upper(i));
      width += (record.upper(i) - record.lower(i)) / record.size();
    }
    // expected range of 20 normals: d2 = 3.735 (ISO 7870-2 table of factors, from memory)
    double sigma = 10e-9 * Math.sqrt(Math.PI / 2 * 200e6);
    assertEquals(3.735 * sigma, width, 0.2 * sigma);
  }

  @Test
  void aBoxcarLowersCorrelatedNoiseByLessThanTheRoot() {
    Setup setup = noisy().points(8000).decimation(Boxcar.of(16));
    double sigma = 10e-9 * Math.sqrt(Math.PI / 2 * 200e6);
    double seen = deviation(setup.capture(Signals.constant(0), 2));
    // exact: variance (1/M^2) sum over lags of (M - |m|) rho^|m|, rho = exp(-w/fs)
    double rho = Math.exp(-2 * Math.PI * 200e6 / 4e9);
    double sum = 0;
    for (int m = -15; m <= 15; m++) {
      sum += (16 - Math.abs(m)) * Math.pow(rho, Math.abs(m));
    }
    double expected = sigma * Math.sqrt(sum) / 16;
    assertTrue(expected > 1.4 * sigma / 4);
    assertEquals(expected, seen, expected * 6 / Math.sqrt(2 * 8000.0) * 1.2);
  }

  @Test
  void unboundedNoiseIsRefused() {
    Setup setup = Setup.ideal(1e9, 100).noise(Noise.white(1e-9));
    IllegalArgumentException e =
        assertThrows(IllegalArgumentException.class, () -> setup.capture(Signals.constant(0)));
    assertTrue(e.getMessage().contains("bandwidth"), e.getMessage());
  }

  /** A jump on a level puts two knots side by side, with nothing between them to search. */
  @Test
  void aLevelWithinAJumpIsFound() {
    Signal signal = Signals.square(-1, 1.5, 3.7e-5, 0.3).plus(Signals.sine(0.2, 2.2e5, 1));
    Record record =
        Setup.ideal(1e6, 200)
            .startingAt(5e-7)
            .saturation(new Saturation(-0.5, 1, 0, 1e-9))
            .capture(signal);
    for (int i = 0; i < record.size(); i++) {
      double v = signal.valueAt(record.timeSeconds(i));
      assertEquals(Math.max(-0.5, Math.min(1, v)), record.volts(i), 1e-9, "point " + i);
    }
  }

  @Test
  void theTriggersFilterQuietensItsNoise() {
    Setup wide = noisy().points(64).trigger(Trigger.at(0));
    Trigger filtered = Trigger.at(0).path(TriggerPath.highFrequencyReject());
    double open = RawNoise.onTriggerPath(wide, wide.trigger().orElseThrow());
    double quiet = RawNoise.onTriggerPath(wide, filtered);
    // two poles of 200 MHz and 50 kHz: ENBW = pi/2 f1 f2/(f1 + f2)
    double ratio = Math.sqrt(50e3 / (200e6 + 50e3));
    assertEquals(open * ratio, quiet, 1e-3 * open * ratio);
  }

  @Test
  void aSetupSaysAllOfItself() {
    String words =
        noisy()
            .sampler(InterleavedSampler.of(1e-6, 1e-12, List.of(Core.ideal())))
            .converterNoise(ConverterNoise.ofSteps(0.5, 8))
            .trigger(Trigger.at(0.25))
            .toString();
    for (String part : new String[] {"noise", "jitter", "converter noise", "250 mV"}) {
      assertTrue(words.contains(part), part + " in: " + words);
    }
  }
}
