package org.asmeasured.digitizer;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.Collections;
import java.util.List;
import org.asmeasured.frontend.Refused;
import org.asmeasured.internal.CounterRandom;
import org.asmeasured.linear.Output;
import org.asmeasured.linear.Response;
import org.asmeasured.signal.SampleClock;
import org.asmeasured.signal.Signal;
import org.asmeasured.signal.Signals;
import org.junit.jupiter.api.Test;

class SamplerTest {
  private static final Sampler IDEAL = Sampler.ideal();

  /**
   * True rate = nominal (1 + e): after 10^9 samples at +20 ppm the clock is 20 000 samples early.
   */
  @Test
  void aFastClockTakesSamplesEarly() {
    double e = 20e-6;
    Sampler sampler = InterleavedSampler.ideal().withClockError(e);
    SampleClock clock = sampler.clock(new SampleClock(0.5, 1e9));
    assertEquals(1.00002e9, clock.rateHz());
    assertEquals(0.5, clock.startSeconds());
    double f = 10e6;
    Signal sine = Signals.sine(1, f);
    double[] v = new double[4];
    long k = 1_000_000_000;
    new SampledOutput(sine, Response.identity(), sampler, new SampleClock(0, 1e9))
        .read(1, k, v, 0, 4);
    for (int i = 0; i < 4; i++) {
      // f k/(nominal (1 + e)) cycles: whole cycles off, k/100 less a part of e
      double cycles = (double) (k + i) / 100.002;
      double exact = Math.sin(2 * Math.PI * (cycles - Math.rint(cycles)));
      assertEquals(exact, v[i], 1e-7);
    }
  }

  @Test
  void skewIsLaterWhenPositive() {
    Sampler sampler =
        InterleavedSampler.ideal().withCores(Core.ideal(), Core.ideal().withSkew(20e-12));
    double[] v = new double[6];
    new SampledOutput(Signals.ramp(1e9, -1), Response.identity(), sampler, new SampleClock(0, 1e9))
        .read(0, -2, v, 0, 6);
    for (int i = 0; i < 6; i++) {
      double expected = 1e9 + i - 2 + (i % 2 == 1 ? 0.02 : 0);
      assertEquals(expected, v[i], 1e-6);
    }
  }

  @Test
  void jitterIsSigmaTimesTheStreamsDeviates() {
    double[] shifts = new double[1000];
    InterleavedSampler.ideal().withJitter(3e-12).shifts(77, -300, shifts, 0, 1000);
    for (int i = 0; i < 1000; i++) {
      assertEquals(CounterRandom.gaussian(77, i - 300) * 3e-12, shifts[i]);
    }
  }

  /** A core's own response is a factor of the chain: sample k is that output's sample k. */
  @Test
  void eachCoreSeesTheChainThroughItsOwnResponse() {
    Response chain = Response.bessel(4, 300e6);
    Response own = Response.singlePole(900e6);
    Sampler sampler =
        InterleavedSampler.ideal()
            .withJitter(1e-12)
            .withCores(
                Core.ideal(),
                Core.ideal().withResponse(own).withSkew(4e-12),
                Core.ideal(),
                Core.ideal().withResponse(Response.singlePole(700e6)));
    Signal signal = Signals.trapezoid(0, 1, 2.3e-8, 0.5, 1e-9, 1e-9);
    Output[] outputs = {
      chain.of(signal),
      chain.times(own).of(signal),
      chain.of(signal),
      chain.times(Response.singlePole(700e6)).of(signal)
    };
    double[] shifts = new double[400];
    sampler.shifts(5, -101, shifts, 0, 400);
    double[] v = new double[400];
    new SampledOutput(signal, chain, sampler, new SampleClock(1e-6, 1e9)).read(5, -101, v, 0, 400);
    for (int i = 0; i < 400; i++) {
      double t = (i - 101) / 1e9;
      assertEquals(
          outputs[Math.floorMod(i - 101, 4)].valueAt(1e-6, t + shifts[i]), v[i], 1e-12, "" + i);
    }
  }

  @Test
  void aReaderMovesWithItsStart() {
    Sampler sampler = InterleavedSampler.ideal().withJitter(1e-12);
    Signal signal = Signals.sine(1, 33e6);
    SampledOutput moved =
        new SampledOutput(signal, Response.singlePole(1e8), sampler, new SampleClock(0, 1e9));
    moved.startAt(2e-9);
    double[] a = new double[10];
    double[] b = new double[10];
    moved.read(3, 0, a, 0, 10);
    new SampledOutput(signal, Response.singlePole(1e8), sampler, new SampleClock(2e-9, 1e9))
        .read(3, 0, b, 0, 10);
    for (int i = 0; i < 10; i++) {
      assertEquals(b[i], a[i], 1e-14);
    }
  }

  @Test
  void valuesThatAreEqualAreEqual() {
    InterleavedSampler a =
        InterleavedSampler.of(1e-6, 2e-12, List.of(Core.ideal(), Core.ideal().withSkew(1e-12)));
    InterleavedSampler b =
        InterleavedSampler.ideal()
            .withCores(Core.ideal(), Core.ideal().withSkew(1e-12))
            .withJitter(2e-12)
            .withClockError(1e-6);
    assertEquals(a, b);
    assertEquals(a.hashCode(), b.hashCode());
    assertNotEquals(a, b.withJitter(3e-12));
    assertNotEquals(a, b.withClockError(0));
    assertNotEquals(a, b.withCores(Core.ideal()));
    assertEquals(1e-6, a.clockError());
    assertEquals(2e-12, a.jitterSeconds());
  }

  @Test
  void saysItselfAsAPersonWould() {
    assertEquals("ideal sampler", IDEAL.toString());
    assertEquals(
        "sampler with clock error 2.0E-5, jitter 1.5 ps, 2 cores in turn: core without errors; "
            + "core with gain error 0.001, offset -2.0E-4 of full scale, skew 3 ps",
        InterleavedSampler.of(
                2e-5,
                1.5e-12,
                List.of(
                    Core.ideal(),
                    Core.ideal().withGainError(0.001).withOffsetError(-2e-4).withSkew(3e-12)))
            .toString());
    assertEquals(
        "sampler with a core with gain error 0.1",
        InterleavedSampler.ideal().withCores(Core.ideal().withGainError(0.1)).toString());
  }

  @Test
  void refusesBadValues() {
    Refused.values("gainError", v -> Core.ideal().withGainError(v), -0.51, 0.51);
    Refused.values("offsetError", v -> Core.ideal().withOffsetError(v), -0.51, 0.51);
    Refused.values("skewSeconds", v -> Core.ideal().withSkew(v), -1.1, 1.1);
    Refused.missing("response", () -> Core.ideal().withResponse(null));
    InterleavedSampler ideal = InterleavedSampler.ideal();
    Refused.values("clockError", ideal::withClockError, -0.11, 0.11, -1);
    Refused.values("jitterSeconds", ideal::withJitter, -1e-12, 1.1, 1e-19);
    Refused.missing("cores", () -> ideal.withCores((Core[]) null));
    Refused.missing("cores[1]", () -> ideal.withCores(Core.ideal(), null));
    Refused.missing("cores", () -> InterleavedSampler.of(0, 0, null));
    Refused.message("cores.size", "0", ideal::withCores);
    Refused.message(
        "cores.size",
        "65",
        () -> InterleavedSampler.of(0, 0, Collections.nCopies(65, Core.ideal())));
    Refused.missing("nominal", () -> IDEAL.clock(null));
    Refused.missing("shiftsSeconds", () -> IDEAL.shifts(0, 0, null, 0, 0));
    Refused.missing("volts", () -> IDEAL.mismatch(0, 0, 1, null, 0, 0));
    SampleClock clock = new SampleClock(0, 1);
    Signal s = Signals.constant(1);
    Response r = Response.identity();
    Refused.missing("signal", () -> new SampledOutput(null, r, IDEAL, clock));
    Refused.missing("chain", () -> new SampledOutput(s, null, IDEAL, clock));
    Refused.missing("sampler", () -> new SampledOutput(s, r, null, clock));
    Refused.missing("nominal", () -> new SampledOutput(s, r, IDEAL, null));
    SampledOutput reader = new SampledOutput(s, r, IDEAL, clock);
    Refused.missing("out", () -> reader.read(0, 0, null, 0, 0));
    Refused.values("newStartSeconds", reader::startAt, 1.1e12);
    assertThrows(IndexOutOfBoundsException.class, () -> reader.read(0, 0, new double[3], 1, 3));
  }
}
