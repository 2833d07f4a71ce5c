package org.asmeasured.linear;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.SplittableRandom;
import org.apache.commons.math3.complex.Complex;
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

  /** Poles that are gone within a sample, such as that of a low source and a small capacitance. */
  private static Response withInstantPoles() {
    double w = 2 * Math.PI * 40e9;
    return chain()
        .times(Response.singlePole(12.5e9))
        .times(Response.singlePole(212e9))
        .times(
            Response.of(
                List.of(),
                List.of(new Complex(-0.4 * w, 0.9 * w), new Complex(-0.4 * w, -0.9 * w)),
                0.97 * w * w));
  }

  private static Signal withEdges() {
    return signal()
        .plus(Signals.step(0.7, 33.3e-9))
        .plus(Signals.square(-0.4, 0.4, 51.37e-9, 0.31))
        .plus(Signals.square(-0.2, 0.2, 0.91e-9, 0.5));
  }

  /** They do not bound the shift, and every sample is as exact as without them. */
  @Test
  void polesThatAreGoneAtOnceAreExact() {
    for (double sigma : new double[] {0.2e-12, 5e-12, 50e-12, 2e-9}) {
      for (Signal signal : List.of(signal(), withEdges(), Signals.step(1, 1.3e-9))) {
        Output y = withInstantPoles().of(signal);
        int n = 3000;
        double[] shifts = shifts(n, sigma);
        double[] out = new double[n];
        y.sampler(CLOCK, Math.min(6 * sigma, 1e-10)).read(2000, shifts, out, 0, n);
        ExtendedTime t = new ExtendedTime();
        for (int j = 0; j < n; j++) {
          t.setQuotient(j + 2000, RATE).add(CLOCK.startSeconds()).add(shifts[j]);
          assertEquals(y.valueAt(t.hi(), t.lo()), out[j], SERIES, sigma + " s, sample " + j);
        }
      }
    }
    // shifts of 0.04 samples beside a pole that turns by 1000 a sample, and one that turns by 1.2
    double fastest = 2 * Math.PI * 212e9 / RATE;
    double lasting = 2 * Math.PI * 230e6 / RATE;
    assertEquals(0.04, Shift.of(0.04, fastest, lasting).maxSamples());
    assertTrue(Shift.of(0.04, fastest, fastest).maxSamples() < 0.001);
    assertEquals(60 / fastest, Shift.of(0.04, fastest, lasting).keptAway(-fastest));
    assertEquals(0, Shift.of(0.04, fastest, lasting).keptAway(-lasting));
    assertEquals(0, Shift.of(0.0001, fastest, lasting).keptAway(-fastest), "its series serves");
  }

  @Test
  void anyBlocksGiveTheSameBits() {
    anyBlocksGiveTheSameBits(chain().of(signal()));
    anyBlocksGiveTheSameBits(withInstantPoles().of(withEdges()));
  }

  private static void anyBlocksGiveTheSameBits(Output y) {
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
