package org.asmeasured.capture;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.asmeasured.acquisition.Ensemble;
import org.asmeasured.acquisition.NoEvent;
import org.asmeasured.acquisition.Trigger;
import org.asmeasured.digitizer.IdealConverter;
import org.asmeasured.internal.CounterRandom;
import org.asmeasured.linear.Output;
import org.asmeasured.linear.OutputSampler;
import org.asmeasured.linear.Response;
import org.asmeasured.signal.SampleClock;
import org.asmeasured.signal.Signal;
import org.asmeasured.signal.Signals;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * What an ensemble makes of noise, of the quantiser, of time errors and of a wrong trigger: closed
 * forms of reference values, sections 4 and 7. Seeds are fixed; each bound of 4.5 standard errors
 * is passed by chance once in 150 000.
 */
class AveragingTest {
  private static final double ODDS = 4.5;
  private static final double RATE_HZ = 1e9;
  private static final long SEED = 20250901;

  /** The gathered volts of an ensemble, nothing but the trigger in between. */
  private static Gathering gathered(
      Ensemble ensemble, Schedule schedule, Signal signal, Response response, int points) {
    Gathering gathering = new Gathering(ensemble, points, false, false, 0, 0);
    OutputSampler sampler = new Output(signal, response).sampler(new SampleClock(0, RATE_HZ));
    for (int a = 0; a < schedule.size(); a++) {
      double[] volts = new double[points];
      sampler.startAt(schedule.foundAtSeconds(a));
      sampler.read(0, volts, 0, points);
      gathering.add(new Record.Points(null, volts), null);
    }
    gathering.finish();
    return gathering;
  }

  private static double[] mean(Trigger trigger, Signal signal, int points, int count, long seed) {
    Schedule schedule = Schedule.of(trigger, signal, 0, 0, RATE_HZ, points / RATE_HZ, count, seed);
    return gathered(Ensemble.averageOf(count), schedule, signal, Response.identity(), points)
        .lower()
        .volts();
  }

  /** Amplitude and phase of a frequency in a record of whole cycles. */
  private static double[] tone(double[] volts, double cyclesPerSample) {
    double c = 0;
    double s = 0;
    for (int i = 0; i < volts.length; i++) {
      c += volts[i] * Math.cos(2 * Math.PI * cyclesPerSample * i) * 2 / volts.length;
      s += volts[i] * Math.sin(2 * Math.PI * cyclesPerSample * i) * 2 / volts.length;
    }
    return new double[] {s, c};
  }

  @Test
  void noiseFallsWithTheRootOfN() {
    int points = 4096;
    for (int count : new int[] {2, 16, 64}) {
      Gathering gathering = new Gathering(Ensemble.averageOf(count), points, false, false, 0, 0);
      for (int a = 0; a < count; a++) {
        double[] volts = new double[points];
        CounterRandom.gaussians(CounterRandom.key(SEED, a), 0, volts, 0, points);
        gathering.add(new Record.Points(null, volts), null);
      }
      gathering.finish();
      double squares = 0;
      for (double v : gathering.lower().volts()) {
        squares += v * v;
      }
      assertEquals(1, squares / points * count, ODDS * Math.sqrt(2.0 / points));
    }
  }

  /** Section 4: noise s/q, bias/q at x = q/4; Widrow and Kollar's series, to 1e-25 there. */
  @ParameterizedTest
  @CsvSource({
    "0.1, -0.2437903346742558, 1000",
    "0.2, -0.1444386434131192, 1000",
    "0.3, -0.05386583278176264, 1000",
    "0.4, -0.01352786976906428, 1000",
    "0.5, -0.002289247572440189, 4000",
    "1.0, -8.515706159477032e-10, 1000"
  })
  void quantiserKeepsItsBiasHoweverManyAreAveraged(double noise, double bias, int count) {
    int points = 1000;
    double step = 0.01;
    IdealConverter converter = new IdealConverter(8);
    Gathering gathering = new Gathering(Ensemble.averageOf(count), points, true, false, 0, step);
    double[] levels = new double[points];
    for (int a = 0; a < count; a++) {
      CounterRandom.gaussians(CounterRandom.key(SEED, a), 0, levels, 0, points);
      int[] codes = new int[points];
      for (int i = 0; i < points; i++) {
        levels[i] = 3.25 + noise * levels[i];
      }
      converter.convert(levels, 0, points);
      for (int i = 0; i < points; i++) {
        codes[i] = (int) levels[i];
      }
      gathering.add(new Record.Points(codes, null), null);
    }
    gathering.finish();
    double sum = 0;
    for (double v : gathering.lower().volts()) {
      sum += v / step;
    }
    // the variance of a quantised sample is at most s^2 + 1/4 of a step
    double error = ODDS * Math.sqrt((noise * noise + 0.25) / points / count);
    assertEquals(bias, sum / points - 3.25, error);
  }

  /** Without noise: the sawtooth, whole. */
  @Test
  void withoutNoiseAveragingDoesNothing() {
    Gathering gathering = new Gathering(Ensemble.averageOf(100), 1, true, false, 0, 0.01);
    for (int a = 0; a < 100; a++) {
      double[] level = {3.25};
      new IdealConverter(8).convert(level, 0, 1);
      gathering.add(new Record.Points(new int[] {(int) level[0]}, null), null);
    }
    gathering.finish();
    assertEquals(-0.25, gathering.lower().volts()[0] / 0.01 - 3.25, 1e-12);
  }

  /** Section 7: gain exp(-(2 pi f s)^2/2) at f s = 0.01, 0.05, 0.1, 0.2. */
  @ParameterizedTest
  @CsvSource({
    "0.01, 0.9980280260203829",
    "0.05, 0.9518498073692734",
    "0.1, 0.8208687174155399",
    "0.2, 0.454040738727245"
  })
  void jitterIsALowPass(double cycles, double gain) {
    double f = 50e6;
    int count = 10_000;
    Trigger trigger = Trigger.at(0).jitter(cycles / f).preTrigger(0);
    double[] tone = tone(mean(trigger, Signals.sine(1, f), 20, count, SEED), f / RATE_HZ);
    double g2 = gain * gain;
    double inPhase = (1 + g2 * g2) / 2 - g2;
    double quadrature = (1 - g2 * g2) / 2;
    assertEquals(gain, tone[0], ODDS * Math.sqrt(inPhase / count));
    assertEquals(0, tone[1], ODDS * Math.sqrt(quadrature / count));
  }

  /** Section 7 and 8: gain sin(pi f r/fs)/(pi f r/fs) of a uniform clock phase. */
  @ParameterizedTest
  @CsvSource({
    "0.4, 1, 0.756826728640657",
    "0.2, 1, 0.935489283788639",
    "0.1, 1, 0.983631643083466",
    "0.4, 0.5, 0.935489283788639",
    "0.4, 0, 1"
  })
  void alignmentToTheGridIsASinc(double share, double resolution, double gain) {
    double f = share * RATE_HZ;
    int count = 10_000;
    Trigger trigger = Trigger.at(0).resolution(resolution).preTrigger(0);
    double[] tone = tone(mean(trigger, Signals.sine(1, f), 20, count, SEED), share);
    double twice = 2 * Math.PI * share * resolution;
    double sinc = twice == 0 ? 1 : Math.sin(twice) / twice;
    double inPhase = (1 + sinc) / 2 - gain * gain;
    assertEquals(gain, tone[0], ODDS * Math.sqrt(Math.max(inPhase, 0) / count) + 1e-12);
    assertEquals(0, tone[1], ODDS * Math.sqrt((1 - sinc) / 2 / count) + 1e-12);
  }

  /** The mean of N records still scatters by |dy/dt| s/sqrt(N): on an edge of 0.1 V/ns. */
  @Test
  void jitterScattersTheMean() {
    Signal edge = Signals.trapezoid(0, 10, 1e-6, 0.5, 100e-9, 100e-9);
    double s = 0.5e-9;
    int count = 25;
    int ensembles = 4000;
    double squares = 0;
    double sum = 0;
    for (int e = 0; e < ensembles; e++) {
      Trigger trigger = Trigger.at(5).jitter(s).preTrigger(0);
      double v = mean(trigger, edge, 1, count, SEED + e)[0] - 5;
      sum += v;
      squares += v * v;
    }
    double variance = 0.1e9 * s * 0.1e9 * s / count;
    assertEquals(1, squares / ensembles / variance, ODDS * Math.sqrt(2.0 / ensembles));
    assertEquals(0, sum / ensembles, ODDS * Math.sqrt(variance / ensembles));
  }

  /** Noise of the trigger's path does the same by way of its slope: sigma/|dy/dt|. */
  @Test
  void triggerNoiseMovesWhatIsRecorded() {
    Signal edge = Signals.trapezoid(0, 10, 1e-6, 0.5, 100e-9, 100e-9);
    int count = 10_000;
    Schedule schedule =
        Schedule.of(Trigger.at(5).preTrigger(0), edge, 0.05, 0, RATE_HZ, 1e-9, count, SEED);
    double squares = 0;
    for (int a = 0; a < count; a++) {
      double v = edge.valueAt(schedule.foundAtSeconds(a)) - 5;
      squares += v * v;
    }
    assertEquals(0.05 * 0.05, squares / count, ODDS * 0.05 * 0.05 * Math.sqrt(2.0 / count));
  }

  /**
   * Section 7: a single-pole edge, tau = 1, under jitter: the mean step passes 0.1, 0.5 and 0.9 at
   * these times (ex-Gaussian).
   */
  @ParameterizedTest
  @CsvSource({
    "0.1, 0.100873666084587, 0.698147180559904, 2.30758509299405",
    "0.5, -0.161496101756826, 0.788399913636889, 2.42758445898108",
    "1.0, -0.660333852791617, 0.875798343698272, 2.79187409668328",
    "2.0, -1.80788454203829, 0.945735440114608, 3.86403196777366"
  })
  void jitterWidensAnEdge(double s, double t10, double t50, double t90) {
    double tau = 10e-9;
    // the trigger sees the square itself; the record sees it behind a pole
    Signal square = Signals.square(0, 1, 10e-6, 0.5);
    Response pole = Response.singlePole(1 / (2 * Math.PI * tau));
    int count = 20_000;
    int points = 120;
    int zero = 50;
    Trigger trigger = Trigger.at(0.5).jitter(s * tau).preTrigger((double) zero / points);
    Schedule schedule = Schedule.of(trigger, square, 0, 0, RATE_HZ, points / RATE_HZ, count, SEED);
    double[] mean =
        gathered(Ensemble.averageOf(count), schedule, square, pole, points).lower().volts();
    // settled before and after: exp(-5 us/tau) is nothing
    passes(mean, zero, tau, t10, 0.1, s, count);
    passes(mean, zero, tau, t50, 0.5, s, count);
    passes(mean, zero, tau, t90, 0.9, s, count);
  }

  private static void passes(
      double[] mean, int zero, double tau, double time, double level, double s, int count) {
    double at = zero + time * tau * RATE_HZ;
    int i = (int) Math.floor(at);
    double value = mean[i] + (at - i) * (mean[i + 1] - mean[i]);
    // a record is within 0 and 1: its variance is at most p (1 - p); and the chord of a tenth of
    // tau is
    // off by an eighth of its square times the second derivative, N(0, s) less the edge's density
    double bend = Math.max(1, 1 / (s * Math.sqrt(2 * Math.PI)));
    double error = ODDS * Math.sqrt(level * (1 - level) / count) + 0.01 / 8 * bend;
    assertEquals(level, value, error);
  }

  /** Every second pulse reaches half height: the mean is neither, and both are in the envelope. */
  @Test
  void meanOfARuntTrainIsNeither() {
    Signal train = Signals.runt(1, 0.5, 1e-6, 0.4e-6, 10e-9, 2);
    Trigger trigger = Trigger.at(0.25).preTrigger(0);
    int points = 100;
    int count = 64;
    Schedule all = Schedule.of(trigger, train, 0, 0, RATE_HZ, points / RATE_HZ, count, SEED);
    double[] mean =
        gathered(Ensemble.averageOf(count), all, train, Response.identity(), points)
            .lower()
            .volts();
    Gathering envelope =
        gathered(Ensemble.envelopeOf(count), all, train, Response.identity(), points);
    assertTrue(envelope.isEnvelope());
    for (int i = 20; i < points; i++) {
      assertEquals(0.75, mean[i], 1e-12, "half of 1 V and half of 0.5 V");
      assertEquals(0.5, envelope.lower().volts()[i], 1e-12);
      assertEquals(1, envelope.upper().volts()[i], 1e-12);
    }
    // above the runts, or by holdoff, the trigger finds one kind alone
    double[] tall = mean(trigger.level(0.75), train, points, count, SEED);
    assertEquals(1, tall[50], 1e-12);
    double[] locked = mean(trigger.holdoff(1.5e-6), train, points, count, SEED);
    assertEquals(0.25, Math.abs(locked[50] - 0.75), 1e-12);
  }

  /** What runs free over a sine averages to noise of A/sqrt(2 N), and the envelope is full. */
  @Test
  void meanOfWhatRunsFreeIsNothing() {
    double f = 50e6;
    Signal sine = Signals.sine(1, f);
    Trigger trigger = Trigger.at(2).noEvent(NoEvent.runFreeAfter(1e-6));
    int points = 20;
    int count = 10_000;
    double[] tone = tone(mean(trigger, sine, points, count, SEED), f / RATE_HZ);
    double error = ODDS / Math.sqrt(2.0 * count);
    assertEquals(0, tone[0], error);
    assertEquals(0, tone[1], error);
    Schedule free = Schedule.of(trigger, sine, 0, 0, RATE_HZ, points / RATE_HZ, count, SEED);
    Gathering envelope =
        gathered(Ensemble.envelopeOf(count), free, sine, Response.identity(), points);
    for (int i = 0; i < points; i++) {
      // the nearest of 10 000 uniform phases is within 1e-3 of a cycle but for a chance of 2e-9
      assertEquals(-1, envelope.lower().volts()[i], 2e-5);
      assertEquals(1, envelope.upper().volts()[i], 2e-5);
    }
  }

  /** A level where a fast ripple crosses it several times: the mean loses the ripple. */
  @Test
  void wronglyLevelledTriggerAveragesTheRippleAway() {
    Signal signal =
        Signals.multiTone(new double[] {1, 0.5}, new double[] {1e6, 17e6}, new double[2]);
    int points = 1000;
    int count = 999;
    double[] good = mean(Trigger.at(0).hysteresis(1.2), signal, points, count, SEED);
    // a rearm time that is no whole number of periods: else the same event would come each time
    Trigger wrong = Trigger.at(0).rearm(20e-9);
    double[] poor = mean(wrong, signal, points, count, SEED);
    double fast = 17e6 / RATE_HZ;
    double slow = 1e6 / RATE_HZ;
    assertEquals(0.5, Math.hypot(tone(good, fast)[0], tone(good, fast)[1]), 1e-12);
    assertEquals(1, Math.hypot(tone(good, slow)[0], tone(good, slow)[1]), 1e-12);
    Schedule events = Schedule.of(wrong, signal, 0, 0, RATE_HZ, points / RATE_HZ, count, SEED);
    double[] vector = new double[4];
    for (int a = 0; a < count; a++) {
      double t = events.eventSeconds(a);
      vector[0] += Math.cos(2 * Math.PI * 1e6 * t) / count;
      vector[1] += Math.sin(2 * Math.PI * 1e6 * t) / count;
      vector[2] += Math.cos(2 * Math.PI * 17e6 * t) / count;
      vector[3] += Math.sin(2 * Math.PI * 17e6 * t) / count;
    }
    double slowGain = Math.hypot(vector[0], vector[1]);
    double fastGain = Math.hypot(vector[2], vector[3]);
    assertTrue(slowGain < 0.999, "several events a period: " + slowGain);
    assertEquals(slowGain, Math.hypot(tone(poor, slow)[0], tone(poor, slow)[1]), 1e-8);
    assertEquals(0.5 * fastGain, Math.hypot(tone(poor, fast)[0], tone(poor, fast)[1]), 1e-8);
  }

  @Test
  void gathersWhatItIsGiven() {
    Record.Points a = new Record.Points(new int[] {1, 5}, null);
    Record.Points b = new Record.Points(new int[] {2, 8}, null);
    Gathering one = new Gathering(Ensemble.single(), 2, true, true, 0, 1);
    one.add(a, b);
    one.finish();
    assertSame(a, one.lower());
    assertSame(b, one.upper());
    assertTrue(one.isEnvelope());
    Gathering mean = new Gathering(Ensemble.averageOf(2), 2, true, true, 10, 0.5);
    mean.add(a, b);
    mean.add(b, b);
    mean.finish();
    assertArrayEquals(new double[] {10.75, 13.25}, mean.lower().volts());
    assertArrayEquals(new double[] {11, 14}, mean.upper().volts());
    assertEquals(2, mean.count());
    Gathering envelope = new Gathering(Ensemble.envelopeOf(2), 2, true, true, 0, 1);
    envelope.add(b, b);
    envelope.add(a, b);
    envelope.finish();
    assertArrayEquals(new int[] {1, 5}, envelope.lower().codes());
    assertArrayEquals(new int[] {2, 8}, envelope.upper().codes());
    Gathering none = new Gathering(Ensemble.averageOf(2), 2, false, false, 0, 0);
    assertThrows(IllegalStateException.class, none::finish);
  }
}
