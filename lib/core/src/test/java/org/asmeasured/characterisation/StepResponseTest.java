package org.asmeasured.characterisation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import org.apache.commons.math3.complex.Complex;
import org.asmeasured.acquisition.PeakDetect;
import org.asmeasured.capture.Record;
import org.asmeasured.capture.Setup;
import org.asmeasured.digitizer.ConverterNoise;
import org.asmeasured.frontend.Bandwidth;
import org.asmeasured.internal.Cases;
import org.asmeasured.internal.Refusals;
import org.asmeasured.linear.Response;
import org.asmeasured.measure.Outcome;
import org.asmeasured.signal.Signal;
import org.asmeasured.signal.Signals;
import org.junit.jupiter.api.Test;

class StepResponseTest {
  private static final double RATE = 20e9;

  private static Setup setup(Bandwidth bandwidth, int points) {
    return Setup.ideal(RATE, points).bandwidth(bandwidth);
  }

  /** ln 9 and ln 4 of a single pole; straight lines between 16 points a time constant. */
  @Test
  void readsASinglePole() {
    double f = 200e6;
    double tau = 1 / (2 * Math.PI * f);
    double at = 50.013e-9;
    Record record = setup(Bandwidth.singlePole(f), 4000).capture(Signals.step(-2, at).plus(0.5));
    StepResponse step = StepResponse.of(record).orThrow();
    assertEquals(0.5, step.firstLevelVolts(), 1e-14);
    assertEquals(-1.5, step.secondLevelVolts(), 1e-13);
    assertEquals(-2, step.amplitudeVolts(), 1e-13);
    // the error of a straight line: (h/tau)^2/8 of what is left to go, over the slope
    double line = tau * Math.pow(1 / (RATE * tau), 2) / 8;
    assertEquals(Math.log(9) * tau, step.transitionSeconds(), 2 * line);
    assertEquals(at + Math.log(2) * tau, step.instantSeconds(), line);
    assertEquals(step.transitionSeconds() * RATE, step.pointsOnTransition(), 1e-9);
    assertEquals(0, step.overshoot(), 1e-12);
    assertEquals(0, step.preshoot(), 1e-12);
    // from the 50 % instant to 1 %: ln 50
    assertEquals(Math.log(50) * tau, step.settlingSeconds(0.01).orThrow(), 2 * line);
    assertEquals(Math.log(500) * tau, step.settlingSeconds(1e-3).orThrow(), 2 * line);
    double[] curve = step.settling();
    double[] shares = step.shares();
    int i = (int) Math.ceil((at + 3 * tau) * RATE);
    double exact = Math.exp(-(i / RATE - at) / tau);
    assertEquals(exact, curve[i], 1e-12);
    assertEquals(1 - exact, shares[i], 1e-12);
    for (int k = 1; k < curve.length; k++) {
      assertTrue(curve[k] <= curve[k - 1]);
    }
    assertTrue(step.settlingSeconds(1e-9).isTaken());
  }

  /** Second order, zeta = 1/sqrt 2: overshoot exp(-pi). */
  @Test
  void readsOvershootAndPreshoot() {
    Signal edge = Signals.step(1, 50e-9);
    StepResponse step =
        StepResponse.of(setup(Bandwidth.butterworth(2, 200e6), 4000).capture(edge)).orThrow();
    assertEquals(Math.exp(-Math.PI), step.overshoot(), 1e-5);
    // the same played backwards
    double[] v = setup(Bandwidth.butterworth(2, 200e6), 4000).capture(edge).volts();
    double[] back = new double[v.length];
    for (int i = 0; i < v.length; i++) {
      back[i] = v[v.length - 1 - i];
    }
    StepResponse reversed = StepResponse.of(Record.of(0, RATE, back)).orThrow();
    assertEquals(step.overshoot(), reversed.preshoot(), 1e-12);
    assertEquals(0, reversed.overshoot(), 1e-12);
    assertEquals(step.transitionSeconds(), reversed.transitionSeconds(), 1e-9 * 1e-9);
  }

  /**
   * The transform of the first difference of a sampled step is the sum over k of H(f - k rate)
   * sinc(f - k rate), the exact response with all its folds: held to 1e-9. And H itself to within
   * what is folded.
   */
  @Test
  void frequencyResponseIsThatOfTheChain() {
    int points = 4001;
    for (Response chain :
        List.of(
            Response.bessel(4, 1e9), Response.butterworth(3, 0.8e9), Response.singlePole(0.5e9))) {
      double at = 50.02e-9;
      double[] v = new double[points];
      for (int i = 0; i < points; i++) {
        v[i] = chain.stepResponse(i / RATE - at);
      }
      StepResponse step = StepResponse.of(Record.of(0, RATE, v)).orThrow();
      FrequencyResponse found = step.frequencyResponse();
      double from50 = step.instantSeconds() - at;
      assertEquals(points / 2 + 1, found.size());
      for (int k : new int[] {0, 1, 7, 50, 200, 500, 1000}) {
        double f = k * RATE / (points - 1);
        assertEquals(f, found.frequencyHz(k), 1e-6);
        Complex folded = folded(chain, f, at).multiply(turn(f * step.instantSeconds()));
        assertEquals(folded.getReal(), found.real(k), 2e-7, chain + " at " + f);
        assertEquals(folded.getImaginary(), found.imaginary(k), 2e-7, chain + " at " + f);
        if (k <= 200) {
          Complex exact = chain.at(f).multiply(turn(f * from50));
          double nearest = k == 0 ? 0 : chain.magnitude(RATE - f) * f / (RATE - f);
          assertEquals(exact.abs(), found.magnitude(k), 2.5 * nearest + 1e-9);
          assertEquals(
              0,
              Math.IEEEremainder(exact.getArgument() - found.phaseRadians(k), 2 * Math.PI),
              2.5 * nearest / exact.abs() + 1e-9);
        }
      }
      assertEquals(1, found.halfPowerHz().orThrow() / chain.halfPowerHz(), 2e-3);
    }
  }

  private static Complex turn(double cycles) {
    return new Complex(0, 2 * Math.PI * Math.IEEEremainder(cycles, 1)).exp();
  }

  /** sum over k of H(g) exp(-j 2 pi g at) (-1)^k f/g, g = f - k rate; in pairs, it converges. */
  private static Complex folded(Response chain, double f, double at) {
    Complex sum = chain.at(f).multiply(turn(-f * at));
    if (f == 0) {
      return sum;
    }
    for (int k = 1; k <= 4000; k++) {
      for (int sign = -1; sign <= 1; sign += 2) {
        double g = f - sign * k * RATE;
        Complex h = g < 0 ? chain.at(-g).conjugate() : chain.at(g);
        sum = sum.add(h.multiply(turn(-g * at)).multiply(f / g));
      }
    }
    return sum;
  }

  /** 64 records: noise of 1 mV leaves 1/8 mV on each point, and less on the levels. */
  @Test
  void meanOfManyRecordsHasLessNoise() {
    Setup setup =
        setup(Bandwidth.gaussian(4, 200e6), 4000)
            .scale(0.25)
            .converterNoise(new ConverterNoise(0.5e-3));
    List<Record> records = new ArrayList<>();
    for (int k = 0; k < 64; k++) {
      records.add(setup.capture(Signals.step(1, 100e-9), k));
    }
    StepResponse one = StepResponse.of(records.get(0)).orThrow();
    StepResponse mean = StepResponse.of(records, 0.2).orThrow();
    // the greatest of 2000 deviates: about 3.4 of them
    assertTrue(one.overshoot() > 2.5e-3, one.toString());
    assertTrue(mean.overshoot() < 0.8e-3 && mean.preshoot() < 0.8e-3, mean.toString());
    double exact = Response.gaussian(4, 200e6).riseTimeSeconds();
    assertEquals(exact, mean.transitionSeconds(), 0.01 * exact);
    assertEquals(0, mean.firstLevelVolts(), 6e-3 / Math.sqrt(64 * 800));
    // the noise outside the part does not enter
    FrequencyResponse whole = mean.frequencyResponse();
    FrequencyResponse part = mean.frequencyResponse(5e-9, 10e-9);
    double roughWhole = 0;
    double roughPart = 0;
    for (int k = 1; k < 200; k++) {
      double magnitude = Response.gaussian(4, 200e6).magnitude(whole.frequencyHz(k));
      roughWhole += Math.pow(whole.magnitude(k) - magnitude, 2);
      roughPart += Math.pow(part.magnitude(k) - magnitude, 2);
    }
    assertTrue(roughPart < 0.5 * roughWhole, roughPart + " " + roughWhole);
  }

  @Test
  void saysWhyNot() {
    reason("at least 8", Record.of(0, 1, new double[7]));
    reason("no step", Record.of(0, 1, new double[8]));
    Record early = Record.of(0, 1, new double[] {0, 0, 1, 1, 1, 1, 1, 1, 1, 1});
    Outcome<StepResponse> within = StepResponse.of(List.of(early), 0.4);
    assertTrue(within.toString().contains("no transition between the first and the last 4 points"));
    Record late = Record.of(0, 1, new double[] {0, 0, 0, 0, 0, 0, 0, 0, 0, 1});
    assertFalse(StepResponse.of(List.of(late), 0.4).isTaken());
    reason("no step stands out", Record.of(0, 1, new double[] {0, 0, 0, 5, 5, 5, 0, 0, 0, -1e-3}));
    reason(
        "an envelope",
        Setup.ideal(1e8, 100).decimation(new PeakDetect(3)).capture(Signals.step(1, 5e-7)));
    reason("clipped", Setup.ideal(1e8, 100).scale(0.1).bits(8).capture(Signals.step(1, 5e-7)));
    Record ringing =
        Setup.ideal(1e9, 1000).capture(Signals.step(1, 5e-7).plus(Signals.sine(0.01, 3.3e7)));
    assertFalse(StepResponse.of(ringing).orThrow().settlingSeconds(1e-3).isTaken());
    StepResponse fast =
        StepResponse.of(Record.of(0, 1, new double[] {0, 0, 0, 0, 0, 1, 1, 1, 1, 1})).orThrow();
    assertEquals(0.8, fast.transitionSeconds(), 1e-14);
    assertFalse(fast.frequencyResponse().halfPowerHz().isTaken());
    assertThrows(IndexOutOfBoundsException.class, () -> fast.frequencyResponse().magnitude(5));
    assertThrows(IndexOutOfBoundsException.class, () -> fast.frequencyResponse().frequencyHz(-1));
  }

  private static void reason(String part, Record record) {
    Outcome<StepResponse> outcome = StepResponse.of(record);
    assertFalse(outcome.isTaken());
    assertTrue(outcome.toString().contains(part), outcome.toString());
  }

  @Test
  void givesAValueOrAReason() {
    Cases.check(
        1,
        1000,
        random -> {
          int n = 1 + random.nextInt(50);
          double scale = Math.pow(10, -323 + 332 * random.nextDouble());
          double[] v = new double[n];
          double share = random.nextDouble();
          for (int i = 0; i < n; i++) {
            v[i] = scale * ((i < n / 2 ? -1 : 1) * (1 - share) + share * random.nextDouble());
          }
          Outcome<StepResponse> outcome = StepResponse.of(Record.of(0, 1, v));
          if (outcome instanceof Outcome.Taken<StepResponse> taken) {
            StepResponse step = taken.result();
            assertTrue(step.transitionSeconds() > 0 && step.overshoot() >= 0);
            assertTrue(Double.isFinite(step.overshoot()) && Double.isFinite(step.preshoot()));
            assertTrue(Double.isFinite(step.frequencyResponse().magnitude(1)));
            assertFalse(step.settlingSeconds(0.05).toString().contains("NaN"));
            assertFalse(step.toString().contains("NaN"));
          }
        });
  }

  @Test
  void refusesBadArguments() {
    Record record = Record.of(0, 1, new double[] {0, 0, 0, 0, 0, 1, 1, 1, 1, 1});
    StepResponse step = StepResponse.of(record).orThrow();
    Refusals.absent("record", () -> StepResponse.of(null));
    Refusals.absent("records", () -> StepResponse.of(null, 0.1));
    Refusals.mismatch(() -> StepResponse.of(List.of(), 0.1), "records.size = 0");
    Refusals.refused("levelShare", "", v -> StepResponse.of(List.of(record), v), 0, 0.5);
    Refusals.mismatch(
        () -> StepResponse.of(List.of(record, Record.of(0, 2, record.volts())), 0.1), "records[1]");
    Refusals.refused("tolerance", "", step::settlingSeconds, 0, 0.5);
    Refusals.refused("beforeSeconds", "s", v -> step.frequencyResponse(v, 1), 0, -1);
    Refusals.refused("afterSeconds", "s", v -> step.frequencyResponse(1, v), 0, -1);
  }
}
