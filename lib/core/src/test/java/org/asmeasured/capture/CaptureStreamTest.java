package org.asmeasured.capture;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.sun.management.ThreadMXBean;
import java.lang.management.ManagementFactory;
import java.util.Arrays;
import java.util.Random;
import java.util.stream.Stream;
import org.asmeasured.acquisition.Boxcar;
import org.asmeasured.acquisition.PeakDetect;
import org.asmeasured.acquisition.Pick;
import org.asmeasured.acquisition.RollingBoxcar;
import org.asmeasured.digitizer.Converter;
import org.asmeasured.frontend.Bandwidth;
import org.asmeasured.frontend.Coupling;
import org.asmeasured.frontend.VerticalScale;
import org.asmeasured.linear.StreamFilter;
import org.asmeasured.signal.Signals;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

class CaptureStreamTest {
  private static final double RATE = 1e9;
  private static final int SAMPLES = 12_000;

  private static Setup bench() {
    return Setup.ideal(RATE, 100)
        .coupling(Coupling.ac())
        .bandwidth(Bandwidth.bessel(4, 200e6))
        .limit(Bandwidth.butterworth(2, 20e6))
        .vertical(new VerticalScale(0.25, 8, 0.1, 0.013, -0.02))
        .bits(8);
  }

  static Stream<Setup> setups() {
    return Stream.of(
        Setup.ideal(RATE, 100),
        Setup.ideal(RATE, 100).bits(12),
        bench(),
        bench().converter(Converter.none()),
        bench().decimation(new Pick(7)),
        bench().decimation(new PeakDetect(10)),
        bench().decimation(new PeakDetect(5000)).bits(10),
        bench().decimation(Boxcar.of(16)),
        bench().decimation(RollingBoxcar.of(9)),
        bench().decimation(RollingBoxcar.of(5000)),
        bench().decimation(new RollingBoxcar(4, 6)));
  }

  private static double[] input(long seed) {
    Random random = new Random(seed);
    double[] u = new double[SAMPLES];
    double level = 0.3;
    for (int k = 0; k < u.length; k++) {
      level = 0.98 * level + 0.12 * random.nextGaussian();
      u[k] = level;
    }
    return u;
  }

  /** Points of a stream, in blocks of a size; codes if it has them, else bits of the volts. */
  private static long[][] points(CaptureStream stream, double[] u, Random blocks, int block) {
    long[][] out = new long[2][u.length];
    int n = 0;
    for (int k = 0; k < u.length; ) {
      int count = Math.min(blocks == null ? block : blocks.nextInt(block), u.length - k);
      int places = stream.mostPoints(count);
      int written;
      if (stream.hasCodes()) {
        int[] low = new int[places];
        int[] high = new int[places];
        written = stream.process(u, k, count, low, high);
        for (int i = 0; i < written; i++) {
          out[0][n + i] = low[i];
          out[1][n + i] = high[i];
        }
      } else {
        double[] low = new double[places];
        double[] high = new double[places];
        written = stream.process(u, k, count, low, high);
        for (int i = 0; i < written; i++) {
          out[0][n + i] = Double.doubleToRawLongBits(low[i]);
          out[1][n + i] = Double.doubleToRawLongBits(high[i]);
        }
      }
      n += written;
      k += count;
    }
    assertEquals(n, stream.points());
    assertEquals(u.length, stream.samples());
    return new long[][] {Arrays.copyOf(out[0], n), Arrays.copyOf(out[1], n)};
  }

  /** The stream and the capture of the same samples, two ways of working it out. */
  @ParameterizedTest
  @MethodSource("setups")
  void equalsTheCaptureOfTheRecordedSignal(Setup setup) {
    double[] u = input(1);
    CaptureStream stream = setup.stream();
    long[][] got = points(stream, u, null, u.length);
    int whole = (int) (SAMPLES - setup.decimation().rawSamples(1)) / setup.decimation().factor();
    Record want =
        setup.points(Math.min(got[0].length, whole)).capture(Signals.recorded(0, RATE, u));
    for (int i = 0; i < want.size(); i++) {
      if (stream.hasCodes()) {
        assertEquals(
            want.isEnvelope() ? Math.round((want.lower(i) - 0.1) / want.stepVolts()) : want.code(i),
            got[0][i],
            setup + ", point " + i);
      } else {
        assertEquals(
            want.volts(i), Double.longBitsToDouble(got[0][i]), 1e-11, setup + ", point " + i);
      }
      assertEquals(want.timeSeconds(i), stream.timeSeconds(i), 1e-20, "time of " + i);
    }
    assertEquals(want.stepVolts(), stream.stepVolts());
    assertEquals(want.isEnvelope(), stream.isEnvelope());
  }

  @ParameterizedTest
  @MethodSource("setups")
  void blocksDoNotMatter(Setup setup) {
    double[] u = input(2);
    for (StreamFilter.Start start : StreamFilter.Start.values()) {
      CaptureStream stream = setup.stream(start, 0);
      long[][] want = points(stream, u, null, u.length);
      long low = stream.clippedLow();
      long high = stream.clippedHigh();
      for (int block : new int[] {1, 3, 512, 2047, 2048, 2049}) {
        stream.reset();
        assertEquals(0, stream.samples() + stream.points() + stream.clippedHigh());
        long[][] got = points(stream, u, null, block);
        assertArrayEquals(want[0], got[0], setup + ", blocks of " + block);
        assertArrayEquals(want[1], got[1], setup + ", blocks of " + block);
      }
      long[][] got = points(setup.stream(start, 0), u, new Random(3), 5000);
      assertArrayEquals(want[0], got[0], setup + ", blocks of any size");
      assertArrayEquals(want[1], got[1], setup + ", blocks of any size");
      assertEquals(low, stream.clippedLow());
      assertEquals(high, stream.clippedHigh());
    }
  }

  @ParameterizedTest
  @MethodSource("setups")
  void nothingIsAllocatedAtWork(Setup setup) {
    ThreadMXBean threads = (ThreadMXBean) ManagementFactory.getThreadMXBean();
    CaptureStream stream = setup.stream();
    double[] u = input(4);
    int[] low = new int[SAMPLES];
    int[] high = new int[SAMPLES];
    double[] lowVolts = new double[SAMPLES];
    double[] highVolts = new double[SAMPLES];
    long self = Thread.currentThread().getId();
    long before = 0;
    for (int round = 0; round < 60; round++) {
      if (round == 40) {
        before = threads.getThreadAllocatedBytes(self);
      }
      for (int k = 0; k < SAMPLES; k += 1000) {
        if (stream.hasCodes()) {
          stream.process(u, k, 1000, low, high);
        }
        stream.process(u, k, 1000, lowVolts, highVolts);
      }
    }
    long bytes = threads.getThreadAllocatedBytes(self) - before;
    // the question itself may cost a few bytes; one array a call would cost two million
    assertTrue(bytes < 4096, setup + ": " + bytes + " bytes in 240 blocks or more");
  }

  @Test
  void codesAndVoltsAgree() {
    double[] u = input(5);
    CaptureStream codes = bench().stream();
    CaptureStream volts = bench().stream();
    int[] c = new int[SAMPLES];
    double[] v = new double[SAMPLES];
    assertEquals(SAMPLES, codes.process(u, 0, SAMPLES, c));
    assertEquals(SAMPLES, volts.process(u, 0, SAMPLES, v));
    for (int i = 0; i < SAMPLES; i++) {
      assertEquals(0.1 + c[i] * codes.stepVolts(), v[i], 0);
    }
    assertEquals(2.0 / 256, codes.stepVolts());
    assertTrue(codes.clippedHigh() > 0);
    assertEquals(codes.clippedHigh(), volts.clippedHigh());
    assertEquals(codes.clippedLow(), volts.clippedLow());
    CaptureStream turns = bench().stream();
    for (int at = 0, turn = 0; at < SAMPLES; turn++) {
      int n = Math.min(777, SAMPLES - at);
      double[] some = new double[n];
      int[] others = new int[n];
      assertEquals(
          n, turn % 2 == 0 ? turns.process(u, at, n, some) : turns.process(u, at, n, others));
      for (int i = 0; i < n; i++) {
        assertEquals(c[at + i], turn % 2 == 0 ? Math.rint((some[i] - 0.1) * 128) : others[i]);
      }
      at += n;
    }
    assertEquals(codes.clippedHigh(), turns.clippedHigh());
  }

  @Test
  void clippedSamplesAreCounted() {
    CaptureStream stream = Setup.ideal(1, 1).scale(0.25).bits(8).stream();
    double[] u = {0, 0.999, 1.5, -1.5, -1.0, -7};
    int[] codes = new int[6];
    stream.process(u, 0, 6, codes);
    assertArrayEquals(new int[] {0, 127, 127, -128, -128, -128}, codes);
    assertEquals(2, stream.clippedLow());
    // 127.5 steps of 7.8125 mV lie at 0.99609 V
    assertEquals(2, stream.clippedHigh());
  }

  @Test
  void whatIsRefused() {
    CaptureStream stream = bench().stream();
    double[] u = input(6);
    int[] codes = new int[100];
    double[] volts = new double[100];
    u[50] = Double.NaN;
    String message =
        assertThrows(IllegalArgumentException.class, () -> stream.process(u, 0, 100, codes))
            .getMessage();
    assertTrue(message.startsWith("in[50] = NaN V"), message);
    assertEquals(0, stream.samples());
    message =
        assertThrows(IllegalArgumentException.class, () -> stream.process(u, 60, 101, codes))
            .getMessage();
    assertEquals("codes.length = 100: must be at least 101", message);
    assertThrows(IndexOutOfBoundsException.class, () -> stream.process(u, SAMPLES - 5, 6, codes));
    assertThrows(IndexOutOfBoundsException.class, () -> stream.process(u, 0, -1, codes));
    assertThrows(NullPointerException.class, () -> stream.process(null, 0, 1, codes));
    assertThrows(NullPointerException.class, () -> stream.process(u, 0, 1, (int[]) null));
    CaptureStream none = Setup.ideal(RATE, 1).stream();
    assertFalse(none.hasCodes());
    assertThrows(IllegalStateException.class, () -> none.process(u, 0, 1, codes));
    CaptureStream envelope = bench().decimation(new PeakDetect(2)).stream();
    assertThrows(IllegalStateException.class, () -> envelope.process(u, 0, 1, codes));
    assertThrows(IllegalStateException.class, () -> envelope.process(u, 0, 1, volts));
    assertThrows(IllegalArgumentException.class, () -> bench().averaging(2).stream());
    assertThrows(NullPointerException.class, () -> bench().stream(null, 0));
    assertThrows(IllegalArgumentException.class, () -> stream.timeSeconds(-1));
    assertThrows(IllegalArgumentException.class, () -> stream.mostPoints(-1));
  }

  @Test
  void nothingInNothingOut() {
    CaptureStream stream = bench().decimation(RollingBoxcar.of(9)).stream();
    assertEquals(0, stream.process(new double[0], 0, 0, new int[0]));
    assertEquals(0, stream.samples());
    assertEquals(0, stream.process(new double[] {1}, 0, 1, new int[1]), "five samples to point 0");
  }
}
