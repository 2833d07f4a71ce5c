package org.asmeasured.signal;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;

/** Each builder's values, both sides of every jump, against the formula in its Javadoc. */
class SignalValueTest {
  /** Value before and after an instant. */
  private static void jump(Signal s, double t, double before, double after) {
    assertEquals(before, s.valueBefore(t), 1e-12, "before " + t);
    assertEquals(after, s.valueAt(t), 1e-12, "at " + t);
  }

  /** No jump. */
  private static void smooth(Signal s, double t, double value) {
    jump(s, t, value, value);
  }

  @Test
  void constants() {
    Signal s = Signals.constant(-1.25);
    for (double t : new double[] {-1e12, -1, 0, 1e-18, 1e12}) {
      assertEquals(-1.25, s.valueAt(t));
      assertEquals(-1.25, s.valueBefore(t));
    }
  }

  @Test
  void steps() {
    Signal s = Signals.step(2, 3);
    assertEquals(0, s.valueAt(Math.nextDown(3.0)));
    jump(s, 3, 0, 2);
    assertEquals(2, s.valueBefore(Math.nextUp(3.0)));
    assertEquals(0, s.valueAt(-1e12));
    assertEquals(2, s.valueAt(1e12));
  }

  @Test
  void ramps() {
    Signal endless = Signals.ramp(2, 1);
    smooth(endless, 1, 0);
    smooth(endless, 0, 0);
    smooth(endless, 4, 6);
    assertEquals(2e9, endless.valueAt(1e9), 2.1);
    Signal held = Signals.ramp(-4, 1, 3);
    smooth(held, 1, 0);
    smooth(held, 1.5, -1);
    smooth(held, 3, -4);
    smooth(held, 1e6, -4);
  }

  @Test
  void sines() {
    Signal s = Signals.sine(2, 50, Math.PI / 6);
    for (double t : new double[] {0, 0.0013, -0.0271, 0.5}) {
      smooth(s, t, 2 * Math.sin(2 * Math.PI * 50 * t + Math.PI / 6));
    }
    smooth(Signals.sine(1, 50), 0.005, 1);
    Signal two =
        Signals.multiTone(new double[] {1, 0.5}, new double[] {10, 30}, new double[] {0, 1});
    for (double t : new double[] {0, 0.0131, -0.2}) {
      smooth(two, t, Math.sin(2 * Math.PI * 10 * t) + 0.5 * Math.sin(2 * Math.PI * 30 * t + 1));
    }
  }

  @Test
  void squares() {
    Signal s = Signals.square(-1, 3, 4, 0.25);
    for (int k = -3; k < 4; k++) {
      jump(s, 4 * k, -1, 3);
      smooth(s, 4 * k + 0.5, 3);
      jump(s, 4 * k + 1, 3, -1);
      smooth(s, 4 * k + 3.999, -1);
    }
  }

  @Test
  void aHairBeforeTheFirstEdgeIsTheEndOfThePeriodBefore() {
    for (double t : new double[] {-1e-30, -1e-25, -1e-300, -Double.MIN_VALUE}) {
      assertEquals(1, Signals.square(1, 2, 1e-3, 0.5).valueAt(t), "at " + t);
      assertEquals(1, Signals.trapezoid(1, 2, 1e-3, 0.5, 1e-6, 1e-6).valueAt(t), "at " + t);
      assertEquals(1, Signals.triangle(1, 2, 1e-3, 0.5).valueAt(t), 1e-12, "at " + t);
      assertEquals(2, Signals.triangle(1, 2, 1e-3, 1).valueAt(t), 1e-12, "at " + t);
    }
  }

  @Test
  void trapezoids() {
    // T = 10, rise 1, top 4, fall 2: above mid level for 4 + 0.5 + 1
    Signal s = Signals.trapezoid(0, 3, 10, 0.55, 1, 2);
    for (int k = -2; k < 3; k++) {
      double t = 10 * k;
      smooth(s, t, 0);
      smooth(s, t + 0.5, 1.5);
      smooth(s, t + 1, 3);
      smooth(s, t + 5, 3);
      smooth(s, t + 6, 1.5);
      smooth(s, t + 7, 0);
      smooth(s, t + 9.5, 0);
    }
    Signal falling = Signals.trapezoid(2, -2, 10, 0.55, 1, 2);
    smooth(falling, 0.25, 1);
    smooth(falling, 6.5, 1);
    // no top: rise and fall meet
    Signal peak = Signals.trapezoid(0, 1, 8, 0.375, 4, 2);
    smooth(peak, 4, 1);
    smooth(peak, 6, 0);
    smooth(peak, 5, 0.5);
    // 0.3 x 10 is a little less than 3: the edges meet all the same
    Signal rounded = Signals.trapezoid(0, 1, 10, 0.3, 4, 2);
    smooth(rounded, 4, 1);
    smooth(rounded, 5, 0.5);
    smooth(rounded, 6, 0);
    smooth(Signals.trapezoid(0, 1, 1e-6, 0.6, 0.4e-6, 0.4e-6), 0.8e-6, 0.5);
    // no rest: fall and rise meet
    Signal valley = Signals.trapezoid(0, 1, 8, 0.625, 2, 4);
    smooth(valley, 8, 0);
    smooth(valley, 6, 0.5);
    smooth(valley, 9, 0.5);
    // one ideal edge, one straight
    Signal mixed = Signals.trapezoid(0, 1, 10, 0.5, 0, 2);
    jump(mixed, 0, 0, 1);
    smooth(mixed, 5, 0.5);
  }

  @Test
  void pulseTrains() {
    Signal s = Signals.pulseTrain(1, 5, 20, 4, 2, 1);
    smooth(s, 0, 1);
    smooth(s, 1, 3);
    smooth(s, 2, 5);
    smooth(s, 4.5, 5);
    smooth(s, 5, 3);
    smooth(s, 5.5, 1);
    smooth(s, -15, 3);
    smooth(s, -19, 3);
  }

  @Test
  void triangles() {
    Signal s = Signals.triangle(-1, 1, 4, 0.5);
    for (int k = -2; k < 3; k++) {
      smooth(s, 4 * k, -1);
      smooth(s, 4 * k + 0.5, -0.5);
      smooth(s, 4 * k + 2, 1);
      smooth(s, 4 * k + 3, 0);
    }
    Signal uneven = Signals.triangle(0, 1, 4, 0.25);
    smooth(uneven, 0.5, 0.5);
    smooth(uneven, 1, 1);
    smooth(uneven, 2.5, 0.5);
    Signal up = Signals.triangle(0, 1, 4, 1);
    jump(up, 0, 1, 0);
    jump(up, -4, 1, 0);
    smooth(up, 3, 0.75);
    Signal down = Signals.triangle(0, 1, 4, 0);
    jump(down, 0, 0, 1);
    smooth(down, 3, 0.25);
  }

  @Test
  void singlePulses() {
    Signal s = Signals.pulse(2, 10, 4, 2, 1);
    smooth(s, 9, 0);
    smooth(s, 10, 0);
    smooth(s, 11, 1);
    smooth(s, 12, 2);
    smooth(s, 14.5, 2);
    smooth(s, 15, 1);
    smooth(s, 15.5, 0);
    smooth(s, 1e9, 0);
    Signal ideal = Signals.pulse(2, 10, 4, 0, 0);
    jump(ideal, 10, 0, 2);
    jump(ideal, 14, 2, 0);
  }

  @Test
  void runts() {
    Signal s = Signals.runt(2, 0.5, 10, 4, 1, 3);
    for (int group = -2; group < 3; group++) {
      for (int i = 0; i < 3; i++) {
        double t = 30 * group + 10 * i;
        double top = i == 2 ? 0.5 : 2;
        smooth(s, t, 0);
        smooth(s, t + 0.5, top / 2);
        smooth(s, t + 1, top);
        smooth(s, t + 4, top);
        smooth(s, t + 4.5, top / 2);
        smooth(s, t + 5, 0);
        smooth(s, t + 8, 0);
      }
    }
  }

  @Test
  void bursts() {
    Signal s = Signals.burst(2, 5, 3, 10);
    smooth(s, 9.99, 0);
    smooth(s, 10, 0);
    smooth(s, 10.05, 2);
    smooth(s, 10.55, -2);
    smooth(s, 10.6, 0);
    smooth(s, 10.65, 0);
    smooth(s, 10.5, 2 * Math.sin(2 * Math.PI * 2.5));
  }

  @Test
  void edgesAndRinging() {
    Signal edge = Signals.exponentialEdge(5, 1, 0.5);
    smooth(edge, 0.9, 0);
    smooth(edge, 1, 0);
    smooth(edge, 1.5, 5 * -Math.expm1(-1));
    // reference: t10, t50, t90 of 1 - exp(-t/tau)
    smooth(edge, 1 + 0.5 * 0.1053605156578263, 0.5);
    smooth(edge, 1 + 0.5 * 0.6931471805599453, 2.5);
    smooth(edge, 1 + 0.5 * 2.302585092994046, 4.5);
    smooth(edge, 1000, 5);
    Signal ring = Signals.dampedRinging(2, 4, 0.25, 1);
    smooth(ring, 1, 0);
    smooth(ring, 0.5, 0);
    for (double u : new double[] {0.01, 0.0625, 0.3, 2}) {
      smooth(ring, 1 + u, 2 * Math.exp(-u / 0.25) * Math.sin(2 * Math.PI * 4 * u));
    }
    smooth(ring, 1e6, 0);
  }

  @Test
  void rails() {
    Signal plain = Signals.rippleOnRail(3.3, 0.02, 500e3, 0, 80e6, 30e-9);
    smooth(plain, 0, 3.29);
    smooth(plain, 1e-6, 3.31);
    smooth(plain, 0.5e-6, 3.3);
    smooth(plain, -2e-6, 3.29);
    // ringing long dead before the next: one term of the sum of copies is enough
    Signal ringing = Signals.rippleOnRail(3.3, 0.02, 500e3, 0.05, 80e6, 30e-9);
    for (double u : new double[] {3e-9, 20e-9, 100e-9}) {
      double expected =
          3.29 + 0.02 * u / 1e-6 + 0.05 * Math.exp(-u / 30e-9) * Math.sin(2 * Math.PI * 80e6 * u);
      assertEquals(expected, ringing.valueAt(u), 1e-12);
      assertEquals(expected, ringing.valueAt(4e-6 + u), 1e-10, "two periods later");
    }
  }

  @Test
  void recordedPoints() {
    double[] times = {-1, 0.5, 2, 2.5};
    double[] volts = {4, 1, 1, -2};
    Signal s = Signals.recorded(times, volts);
    for (int i = 0; i < times.length; i++) {
      smooth(s, times[i], volts[i]);
    }
    smooth(s, -5, 4);
    smooth(s, -1e12, 4);
    smooth(s, -0.25, 2.5);
    smooth(s, 1.7, 1);
    smooth(s, 2.25, -0.5);
    smooth(s, 3, -2);
    smooth(s, 1e12, -2);
    Signal uniform = Signals.recorded(10, 4, new double[] {1, 3, 2});
    smooth(uniform, 9, 1);
    smooth(uniform, 10.125, 2);
    smooth(uniform, 10.25, 3);
    smooth(uniform, 10.5, 2);
    smooth(uniform, 11, 2);
  }
}
