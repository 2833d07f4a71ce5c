package org.asmeasured.capture;

import static org.asmeasured.internal.Refusals.absent;
import static org.asmeasured.internal.Refusals.mismatch;
import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.apache.commons.math3.distribution.NormalDistribution;
import org.asmeasured.acquisition.Slope;
import org.asmeasured.acquisition.Trigger;
import org.asmeasured.acquisition.TriggerPath;
import org.asmeasured.digitizer.Core;
import org.asmeasured.digitizer.InterleavedSampler;
import org.asmeasured.frontend.Bandwidth;
import org.asmeasured.frontend.Coupling;
import org.asmeasured.frontend.Saturation;
import org.asmeasured.frontend.SourceJitter;
import org.asmeasured.linear.Response;
import org.asmeasured.signal.SampleClock;
import org.asmeasured.signal.Signal;
import org.asmeasured.signal.Signals;
import org.junit.jupiter.api.Test;

/**
 * Edges of the source that jitter: exact against the disturbed signal built in one, and against
 * what theory says of means. Seeds are fixed; each bound of 4.5 standard errors is passed by chance
 * once in 150 000.
 */
class SourceJitterTest {
  private static final double RATE_HZ = 10e9;
  private static final double SIGMA = 50e-12;

  /** By which the edge of a step that lies on a sample comes late enough to show there. */
  private static final long SEED = 20251107;

  private static final double ODDS = 4.5;
  private static final Signal SQUARE = Signals.square(0, 1, 20e-9, 0.5).delayedBy(3e-9);
  private static final Signal TRAPEZOID = Signals.trapezoid(-1, 1, 20e-9, 0.5, 2e-9, 3e-9);

  private static Setup setup(int points) {
    return Setup.ideal(RATE_HZ, points).sourceJitter(SourceJitter.of(SIGMA));
  }

  /** The disturbed signal as one, of far more edges than the capture counts. */
  private static Signal disturbed(Setup setup, Signal signal, int acquisition, double lead) {
    EdgeJitter jitter =
        EdgeJitter.of(setup.frontEnd().sourceJitter(), signal, SEED, 100_000).orElseThrow();
    double from = setup.startSeconds();
    return signal.plus(
        jitter.change(
            acquisition, from - lead, from + setup.spanSeconds() + 1e-9, Response.identity()));
  }

  @Test
  void aRecordIsThatOfTheDisturbedSignal() {
    int points = 3000;
    List<Setup> setups =
        List.of(
            setup(points),
            setup(points).bandwidth(Bandwidth.gaussian(4, 1e9)),
            setup(points).bandwidth(Bandwidth.bessel(4, 300e6)).source(50),
            setup(points)
                .bandwidth(Bandwidth.singlePole(50e6))
                .sampler(InterleavedSampler.ideal().withClockError(-1e-3).withJitter(3e-12)));
    for (Setup setup : setups) {
      for (Signal signal : List.of(SQUARE, TRAPEZOID, Signals.step(1, 100e-9))) {
        Record record = setup.capture(signal, SEED);
        Setup still = setup.sourceJitter(SourceJitter.none());
        Record whole = still.capture(disturbed(setup, signal, 0, 3e-6), SEED);
        for (int k = 0; k < points; k++) {
          assertEquals(whole.volts(k), record.volts(k), 1e-12, setup + ", " + signal + ": " + k);
        }
        Record undisturbed = still.capture(signal, SEED);
        assertFalse(java.util.Arrays.equals(undisturbed.volts(), record.volts()));
      }
    }
  }

  @Test
  void coresWithResponsesOfTheirOwnSeeTheSameEdges() {
    Setup setup =
        setup(2000)
            .bandwidth(Bandwidth.singlePole(1e9))
            .sampler(
                InterleavedSampler.ideal()
                    .withCores(
                        Core.ideal(), Core.ideal().withResponse(Response.singlePole(0.2e9))));
    Record record = setup.capture(TRAPEZOID, SEED);
    Record whole =
        setup.sourceJitter(SourceJitter.none()).capture(disturbed(setup, TRAPEZOID, 0, 3e-6), SEED);
    assertArrayEquals(whole.volts(), record.volts(), 1e-12);
  }

  /** The bound that EdgeJitter states for a coupling far slower than the edges. */
  @Test
  void whatIsLeftOutStaysBelowItsBound() {
    double cornerHz = 1e3;
    Setup setup = setup(2000).bandwidth(Bandwidth.singlePole(1e9)).coupling(Coupling.ac(cornerHz));
    Record record = setup.capture(SQUARE, SEED);
    Setup still = setup.sourceJitter(SourceJitter.none());
    Record whole = still.capture(disturbed(setup, SQUARE, 0, 1e-3), SEED);
    double alpha = 2 * Math.PI * cornerHz;
    double bound = SIGMA * Math.sqrt(100e6 * alpha / 2);
    double greatest = 0;
    for (int k = 0; k < 2000; k++) {
      greatest = Math.max(greatest, Math.abs(whole.volts(k) - record.volts(k)));
    }
    assertTrue(greatest < ODDS * bound, greatest + " against " + bound);
    assertTrue(greatest > 0);
  }

  @Test
  void theMeanOfAJumpIsTheNormalDistribution() {
    int count = 4000;
    Signal step = Signals.step(1, 10e-9);
    Setup setup =
        Setup.ideal(100e9, 41)
            .startingAt(9.8e-9)
            .sourceJitter(SourceJitter.of(SIGMA))
            .averaging(count);
    Record record = setup.capture(step, SEED);
    NormalDistribution normal = new NormalDistribution(null, 0, SIGMA);
    for (int k = 0; k < record.size(); k++) {
      double p = normal.cumulativeProbability(record.timeSeconds(k) - 10e-9);
      double tolerance = ODDS * Math.sqrt(p * (1 - p) / count) + 4.0 / count;
      assertEquals(p, record.volts(k), tolerance, "point " + k);
    }
  }

  /** Every harmonic of the mean is lower by exp(-(2 pi f sigma)^2/2), front end or not. */
  @Test
  void averagingIsALowPassOfTheEdges() {
    int count = 400;
    int points = 1000;
    for (Bandwidth bandwidth : List.of(Bandwidth.unlimited(), Bandwidth.gaussian(4, 500e6))) {
      double sigma = 0.4e-9;
      Setup setup = Setup.ideal(RATE_HZ, points).bandwidth(bandwidth);
      Record still = setup.capture(TRAPEZOID, SEED);
      Record mean =
          setup.sourceJitter(SourceJitter.of(sigma)).averaging(count).capture(TRAPEZOID, SEED);
      for (int harmonic = 1; harmonic <= 9; harmonic += 2) {
        double f = harmonic * 50e6;
        double expected = Math.exp(-Math.pow(2 * Math.PI * f * sigma, 2) / 2);
        double measured = harmonic(mean, f) / harmonic(still, f);
        // 10 edges, displaced by themselves, in each of the records
        double error = Math.sqrt((1 - expected * expected) / (10.0 * count));
        assertEquals(expected, measured, ODDS * error, harmonic + " behind " + bandwidth);
      }
      assertTrue(Math.exp(-Math.pow(2 * Math.PI * 450e6 * sigma, 2) / 2) < 0.6);
    }
  }

  private static double harmonic(Record record, double f) {
    double c = 0;
    double s = 0;
    for (int k = 0; k < record.size(); k++) {
      c += record.volts(k) * Math.cos(2 * Math.PI * f * record.timeSeconds(k));
      s += record.volts(k) * Math.sin(2 * Math.PI * f * record.timeSeconds(k));
    }
    return Math.hypot(c, s);
  }

  /** Mid-level crossings, exact where two points lie on a straight edge. */
  private static double[] crossings(Record record, boolean rising) {
    double[] found = new double[record.size()];
    int n = 0;
    for (int k = 0; k + 1 < record.size(); k++) {
      double a = record.volts(k);
      double b = record.volts(k + 1);
      if (rising ? a < 0 && b >= 0 : a > 0 && b <= 0) {
        found[n++] = record.timeSeconds(k) + a / (a - b) / record.rateHz();
      }
    }
    return java.util.Arrays.copyOf(found, n);
  }

  private static double deviation(double[] values, double mean) {
    double sum = 0;
    for (double v : values) {
      sum += (v - mean) * (v - mean);
    }
    return Math.sqrt(sum / values.length);
  }

  /** Without a trigger each edge jitters by sigma; from the trigger's edge on, by root 2 sigma. */
  @Test
  void theTriggerSeesTheSameEdges() {
    int count = 2000;
    double error = ODDS / Math.sqrt(2 * count);
    for (Slope slope : Slope.values()) {
      Trigger trigger = Trigger.at(0).slope(slope).preTrigger(0.5).armedAt(1e-6);
      Setup triggered = setup(600).trigger(trigger);
      double[] own = new double[count];
      double[] next = new double[count];
      double[] other = new double[count];
      double[] free = new double[count];
      for (int i = 0; i < count; i++) {
        Record record = triggered.capture(TRAPEZOID, SEED + i);
        double event = record.startSeconds() + 30e-9;
        double[] same = crossings(record, slope == Slope.RISING);
        double[] opposite = crossings(record, slope != Slope.RISING);
        int at = 0;
        while (Math.abs(same[at] - event) > 1e-9) {
          at++;
        }
        own[i] = same[at] - event;
        next[i] = same[at + 1] - same[at];
        int after = 0;
        while (opposite[after] < event) {
          after++;
        }
        other[i] = opposite[after] - event;
        free[i] = crossings(setup(600).capture(TRAPEZOID, SEED + i), true)[1];
      }
      for (double v : own) {
        assertEquals(0, v, 1e-18, "the event stands on its edge");
      }
      assertEquals(Math.sqrt(2) * SIGMA, deviation(next, 20e-9), Math.sqrt(2) * SIGMA * error);
      double mean = java.util.Arrays.stream(other).average().orElseThrow();
      assertEquals(Math.sqrt(2) * SIGMA, deviation(other, mean), Math.sqrt(2) * SIGMA * error);
      double freeMean = java.util.Arrays.stream(free).average().orElseThrow();
      assertEquals(SIGMA, deviation(free, freeMean), SIGMA * error);
    }
  }

  /** Behind filters the event is where the path of the disturbed signal crosses the level. */
  @Test
  void behindAFilterTheEventIsTheCrossing() {
    TriggerPath path = new TriggerPath(0, 120e6);
    Bandwidth bandwidth = Bandwidth.bessel(3, 400e6);
    for (Signal signal : List.of(SQUARE, TRAPEZOID)) {
      Trigger trigger = Trigger.at(0.4).path(path).preTrigger(0).armedAt(0);
      Setup setup = setup(10).bandwidth(bandwidth).trigger(trigger).averaging(40);
      Schedule schedule = setup.schedule(signal, SEED).orElseThrow();
      Schedule still = setup.sourceJitter(SourceJitter.none()).schedule(signal, SEED).orElseThrow();
      EdgeJitter jitter =
          EdgeJitter.of(setup.frontEnd().sourceJitter(), signal, SEED).orElseThrow();
      Response chain = bandwidth.response().times(path.response());
      for (int a = 0; a < schedule.size(); a++) {
        double at = schedule.foundAtSeconds(a);
        Signal whole = signal.plus(jitter.change(a, at - 1e-6, at + 1e-6, Response.identity()));
        assertEquals(0.4, chain.of(whole).valueAt(at), 1e-6, "acquisition " + a);
        assertTrue(chain.of(whole).valueAt(at + 1e-12) > chain.of(whole).valueAt(at - 1e-12));
        double late = schedule.shiftSeconds(a) - still.shiftSeconds(a);
        assertTrue(late != 0 && Math.abs(late) < 6 * SIGMA, "late by " + late);
      }
    }
  }

  @Test
  void aTriggerOnAJumpIsAsLateAsTheJump() {
    Setup setup = setup(400).trigger(Trigger.at(0.5).preTrigger(0.5));
    for (int i = 0; i < 100; i++) {
      Record record = setup.capture(SQUARE, SEED + i);
      // the jump lies on point 200: both neighbours are sure
      assertEquals(0, record.volts(199));
      assertEquals(1, record.volts(201));
    }
  }

  @Test
  void sameSeedSameBitsAndAnotherForEveryAcquisition() {
    Setup setup = setup(500).bandwidth(Bandwidth.gaussian(2, 1e9));
    assertFalse(setup.isRepeatable());
    double[] once = setup.capture(TRAPEZOID, SEED).volts();
    assertArrayEquals(once, setup.capture(TRAPEZOID, SEED).volts(), 0.0);
    assertFalse(java.util.Arrays.equals(once, setup.capture(TRAPEZOID, SEED + 1).volts()));
    assertFalse(java.util.Arrays.equals(once, setup.averaging(2).capture(TRAPEZOID, SEED).volts()));
  }

  @Test
  void channelsOfOneDeviceJitterTogether() {
    Setup one = setup(500);
    Setup other = one.sourceJitter(SourceJitter.of(SIGMA).ofDevice(1));
    ChannelSet set =
        ChannelSet.of(new Channel("a", one), new Channel("b", one), new Channel("c", other));
    List<Record> records = set.capture(List.of(TRAPEZOID, TRAPEZOID, TRAPEZOID), SEED);
    assertArrayEquals(records.get(0).volts(), records.get(1).volts(), 0.0);
    assertFalse(java.util.Arrays.equals(records.get(0).volts(), records.get(2).volts()));
  }

  @Test
  void whatCannotJitterIsRefused() {
    mismatch(() -> setup(10).capture(Signals.sine(1, 1e6), 0), "no transition between two levels");
    mismatch(
        () -> setup(10).sourceJitter(SourceJitter.of(1.3e-9)).capture(SQUARE, 0),
        "sourceJitter = ",
        "10 ns apart",
        "eighth");
    mismatch(
        () -> setup(10).saturation(Saturation.at(1)),
        "sourceJitter = ",
        "saturation = ",
        "not modelled");
    mismatch(() -> setup(10).stream(), "sourceJitter = ", "recorded samples");
    absent("sourceJitter", () -> setup(10).sourceJitter(null));
  }

  @Test
  void aLongRecordOfTooManyEdgesSaysSo() {
    mismatch(
        () -> setup(20_000_000).rateHz(1e9).capture(SQUARE, 0), "more than 262144 transitions");
  }

  @Test
  void lateRecordsAreAsGood() {
    Setup setup = setup(300).startingAt(20e-9 * (1 << 20)).bandwidth(Bandwidth.singlePole(1e9));
    Record record = setup.capture(TRAPEZOID, SEED);
    Signal whole = disturbed(setup, TRAPEZOID, 0, 1e-6);
    double[] volts = new double[300];
    Response.singlePole(1e9)
        .of(whole)
        .sample(new SampleClock(setup.startSeconds(), RATE_HZ), 0, volts, 0, 300);
    assertArrayEquals(volts, record.volts(), 1e-12);
  }
}
