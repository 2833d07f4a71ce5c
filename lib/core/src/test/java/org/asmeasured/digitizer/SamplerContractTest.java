package org.asmeasured.digitizer;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.Objects;
import java.util.SplittableRandom;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.asmeasured.linear.Response;
import org.asmeasured.signal.SampleClock;
import org.asmeasured.signal.Signal;
import org.asmeasured.signal.Signals;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** What every sampler keeps, ours and anyone's. */
class SamplerContractTest {
  private static final long KEY = 0x5eed_0000_0001L;

  /** A sampler as a user would write it: the clock is pulled to and fro by a hum. */
  private record Hum(double seconds, double samplesPerCycle) implements Sampler {
    @Override
    public void shifts(long key, long first, double[] shiftsSeconds, int offset, int count) {
      Objects.checkFromIndexSize(offset, count, shiftsSeconds.length);
      for (int i = 0; i < count; i++) {
        shiftsSeconds[offset + i] = seconds * Math.sin(2 * Math.PI * (first + i) / samplesPerCycle);
      }
    }

    @Override
    public double maxShiftSeconds() {
      return seconds;
    }
  }

  static Stream<Sampler> samplers() {
    Core odd =
        Core.ideal()
            .withGainError(-0.001)
            .withOffsetError(2e-4)
            .withSkew(3e-12)
            .withResponse(Response.singlePole(300e6));
    return Stream.of(
        Sampler.ideal(),
        InterleavedSampler.ideal().withClockError(20e-6),
        InterleavedSampler.ideal().withJitter(2e-12),
        InterleavedSampler.ideal().withCores(Core.ideal(), odd),
        InterleavedSampler.of(
            -3e-6, 1e-12, java.util.List.of(odd, Core.ideal(), odd.withSkew(-5e-12))),
        InterleavedSampler.ideal().withCores(odd),
        new Hum(4e-12, 777));
  }

  private static double[] shifts(Sampler sampler, long key, long first, int count) {
    double[] out = new double[count];
    sampler.shifts(key, first, out, 0, count);
    return out;
  }

  @ParameterizedTest
  @MethodSource("samplers")
  void idealIsTheIdentityBitForBit(Sampler sampler) {
    SampleClock clock = new SampleClock(-1.25e-6, 1.1e9);
    Signal signal = Signals.trapezoid(-0.3, 0.7, 1.01e-7, 0.4, 2e-9, 5e-9);
    Response chain = Response.bessel(4, 200e6);
    double[] plain = new double[3000];
    chain.of(signal).sample(clock, -1000, plain, 0, plain.length);
    double[] taken = new double[3000];
    new SampledOutput(signal, chain, sampler, clock).read(KEY, -1000, taken, 0, taken.length);
    sampler.mismatch(-1000, 0.2, 4, taken, 0, taken.length);
    if (sampler.isIdeal()) {
      assertArrayEquals(plain, taken, 0);
      assertTrue(sampler.onTime());
      assertSame(clock, sampler.clock(clock));
      assertEquals(0, sampler.maxShiftSeconds());
    } else {
      assertFalse(Arrays.equals(plain, taken));
    }
    if (sampler.onTime()) {
      assertArrayEquals(new double[500], shifts(sampler, KEY, 7, 500), 0);
    }
  }

  @ParameterizedTest
  @MethodSource("samplers")
  void shiftsAreAFunctionOfKeyAndNumber(Sampler sampler) {
    double[] whole = shifts(sampler, KEY, -2500, 6000);
    SplittableRandom random = new SplittableRandom(20250301);
    for (int n = 0; n < 300; n++) {
      int at = random.nextInt(whole.length);
      int count = random.nextInt(Math.min(90, whole.length - at) + 1);
      double[] block = new double[count + 3];
      Arrays.fill(block, 9);
      sampler.shifts(KEY, at - 2500, block, 2, count);
      assertArrayEquals(
          Arrays.copyOfRange(whole, at, at + count), Arrays.copyOfRange(block, 2, 2 + count), 0);
      assertEquals(9, block[1]);
      assertEquals(9, block[count + 2]);
    }
  }

  @ParameterizedTest
  @MethodSource("samplers")
  void threadsChangeNothing(Sampler sampler) {
    double[] whole = shifts(sampler, KEY, 0, 8000);
    double[][] parts =
        IntStream.range(0, 16)
            .parallel()
            .mapToObj(p -> shifts(sampler, KEY, 500L * p, 500))
            .toArray(double[][]::new);
    for (int p = 0; p < 16; p++) {
      assertArrayEquals(Arrays.copyOfRange(whole, 500 * p, 500 * p + 500), parts[p], 0);
    }
  }

  @ParameterizedTest
  @MethodSource("samplers")
  void samplesAndMismatchDoNotDependOnBlocks(Sampler sampler) {
    SampleClock clock = new SampleClock(3e-6, 1e9);
    Signal signal = Signals.triangle(-1, 1, 1.37e-8, 0.3);
    Response chain = Response.butterworth(3, 250e6);
    double[] whole = new double[4000];
    new SampledOutput(signal, chain, sampler, clock).read(KEY, -1234, whole, 0, whole.length);
    sampler.mismatch(-1234, -0.1, 2.5, whole, 0, whole.length);
    double[] blocks = new double[4000];
    SampledOutput reader = new SampledOutput(signal, chain, sampler, clock);
    SplittableRandom random = new SplittableRandom(20250302);
    for (int at = 0; at < blocks.length; ) {
      int count = Math.min(blocks.length - at, random.nextInt(700));
      reader.read(KEY, -1234 + at, blocks, at, count);
      sampler.mismatch(-1234 + at, -0.1, 2.5, blocks, at, count);
      at += count;
    }
    assertArrayEquals(whole, blocks, 0);
  }

  @ParameterizedTest
  @MethodSource("samplers")
  void mismatchIsAffineAndItsOwnCoresOnly(Sampler sampler) {
    double[] volts = {0.5, -0.25, 0.125, 1, Double.NaN, -2, 3};
    double[] bent = volts.clone();
    sampler.mismatch(-3, 0.25, 8, bent, 0, bent.length);
    for (int i = 0; i < volts.length; i++) {
      Core core = sampler.core(Math.floorMod(i - 3, sampler.cores()));
      double expected = volts[i] + (volts[i] - 0.25) * core.gainError() + core.offsetError() * 8;
      assertEquals(expected, bent[i], 1e-15);
      if (core.gainError() == 0 && core.offsetError() == 0) {
        assertEquals(volts[i], bent[i]);
      }
    }
  }

  @ParameterizedTest
  @MethodSource("samplers")
  void takesNoneAndOneSample(Sampler sampler) {
    double[] one = {7, 7, 7};
    sampler.shifts(KEY, 41, one, 1, 0);
    assertArrayEquals(new double[] {7, 7, 7}, one);
    sampler.mismatch(41, 0, 1, one, 1, 0);
    assertArrayEquals(new double[] {7, 7, 7}, one);
    sampler.shifts(KEY, 41, one, 1, 1);
    assertEquals(shifts(sampler, KEY, 40, 3)[1], one[1]);
    assertEquals(7, one[0]);
    assertEquals(7, one[2]);
    assertThrows(IndexOutOfBoundsException.class, () -> sampler.shifts(KEY, 0, one, 2, 2));
    assertThrows(IndexOutOfBoundsException.class, () -> sampler.mismatch(0, 0, 1, one, 2, 2));
    assertThrows(IndexOutOfBoundsException.class, () -> sampler.core(sampler.cores()));
    assertThrows(IndexOutOfBoundsException.class, () -> sampler.core(-1));
  }

  @ParameterizedTest
  @MethodSource("samplers")
  void saysItself(Sampler sampler) {
    assertFalse(sampler.toString().isBlank());
    assertFalse(sampler.toString().contains("@"));
  }
}
