package org.asmeasured.linear;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.SplittableRandom;
import org.asmeasured.internal.ExtendedTime;
import org.asmeasured.signal.SampleClock;
import org.asmeasured.signal.Signal;
import org.asmeasured.signal.Signals;
import org.junit.jupiter.api.Test;

/**
 * Samples taken later or earlier than their places, against the output at those instants one by
 * one.
 */
class ShiftedReadTest {
  /** The series is cut off at 1e-11 of each mode; the modes here add up to less than 5 V. */
  private static final double SERIES = 5e-11;

  private static final double RATE = 1.25e9;
  private static final SampleClock CLOCK = new SampleClock(-1.7e-6, RATE);

  private static Response chain() {
    return Response.highPass(10)
        .times(Response.bessel(4, 200e6))
        .times(Response.singlePole(30e6))
        .times(Response.singlePole(30e6))
        .times(Response.butterworth(2, 20e6));
  }

  private static Signal signal() {
    return Signals.trapezoid(-1, 1, 987.654321e-9, 0.4, 3e-9, 5e-9)
        .plus(Signals.triangle(-0.2, 0.2, 7.1e-9, 0.3))
        .plus(Signals.sine(0.1, 83.21e6))
        .plus(Signals.dampedRinging(0.3, 40e6, 80e-9, 1e-6))
        .plus(Signals.burst(0.2, 11e6, 30, 2e-6))
        .plus(0.25);
  }

  private static double[] shifts(int n, double sigma) {
    SplittableRandom random = new SplittableRandom(11);
    double[] shifts = new double[n];
    for (int i = 0; i < n; i++) {
      shifts[i] = sigma * random.nextGaussian();
    }
    return shifts;
  }

  @Test
  void smallShiftsAreExact() {
    for (double sigma : new double[] {1e-12, 5e-12, 50e-12, 2e-9}) {
      Output y = chain().of(signal());
      int n = 4000;
      double[] shifts = shifts(n, sigma);
      double[] out = new double[n];
      y.sampler(CLOCK, Math.min(6 * sigma, 1e-10)).read(-300, shifts, out, 0, n);
      ExtendedTime t = new ExtendedTime();
      for (int j = 0; j < n; j++) {
        t.setQuotient(j - 300, RATE).add(CLOCK.startSeconds()).add(shifts[j]);
        assertEquals(y.valueAt(t.hi(), t.lo()), out[j], SERIES, sigma + " s, sample " + j);
      }
    }
  }

  @Test
  void anyBlocksGiveTheSameBits() {
    Output y = chain().of(signal());
    int n = 5000;
    double[] shifts = shifts(n, 8e-12);
    double[] whole = new double[n];
    OutputSampler sampler = y.sampler(CLOCK, 40e-12);
    sampler.read(0, shifts, whole, 0, n);
    SplittableRandom random = new SplittableRandom(5);
    for (int i = 0; i < 500; i++) {
      int from = random.nextInt(n);
      int count = Math.min(n - from, 1 + random.nextInt(700));
      double[] part = new double[count];
      sampler.read(from, java.util.Arrays.copyOfRange(shifts, from, from + count), part, 0, count);
      assertArrayEquals(
          java.util.Arrays.copyOfRange(whole, from, from + count), part, "from " + from);
    }
  }

  @Test
  void noShiftIsNoShift() {
    Output y = chain().of(signal());
    double[] plain = new double[3000];
    double[] shifted = new double[3000];
    OutputSampler sampler = y.sampler(CLOCK, 1e-11);
    sampler.read(0, plain, 0, 3000);
    sampler.read(0, new double[3000], shifted, 0, 3000);
    assertArrayEquals(plain, shifted, 1e-14);
  }

  @Test
  void sampleZeroCanBeMoved() {
    Output y = chain().of(signal());
    double[] moved = new double[2000];
    double[] made = new double[2000];
    OutputSampler sampler = y.sampler(CLOCK);
    sampler.read(0, moved, 0, 2000);
    sampler.startAt(0.3e-9);
    sampler.read(0, moved, 0, 2000);
    y.sampler(new SampleClock(0.3e-9, RATE)).read(0, made, 0, 2000);
    assertArrayEquals(made, moved);
  }

  @Test
  void throughNothingAtAll() {
    Signal s = signal();
    double[] shifts = shifts(500, 1e-9);
    double[] out = new double[500];
    Response.identity().of(s).sampler(CLOCK, 1e-9).read(0, shifts, out, 0, 500);
    ExtendedTime t = new ExtendedTime();
    for (int j = 0; j < 500; j++) {
      t.setQuotient(j, RATE).add(CLOCK.startSeconds()).add(shifts[j]);
      assertEquals(s.valueAt(t.hi(), t.lo()), out[j]);
    }
  }

  @Test
  void badShiftsAreRefused() {
    OutputSampler sampler = chain().of(signal()).sampler(CLOCK, 1e-11);
    assertThrows(
        IllegalArgumentException.class,
        () -> sampler.read(0, new double[] {Double.NaN}, new double[1], 0, 1));
    assertThrows(
        IndexOutOfBoundsException.class, () -> sampler.read(0, new double[1], new double[2], 0, 2));
    assertThrows(IllegalArgumentException.class, () -> sampler.startAt(Double.POSITIVE_INFINITY));
    assertThrows(IllegalArgumentException.class, () -> chain().of(signal()).sampler(CLOCK, -1e-12));
  }
}
