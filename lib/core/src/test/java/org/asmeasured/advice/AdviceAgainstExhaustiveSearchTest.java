package org.asmeasured.advice;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.stream.IntStream;
import org.asmeasured.accuracy.Measurement;
import org.asmeasured.accuracy.Parameter;
import org.asmeasured.accuracy.Parameters;
import org.asmeasured.accuracy.Tolerances;
import org.asmeasured.acquisition.Boxcar;
import org.asmeasured.acquisition.Pick;
import org.asmeasured.acquisition.Trigger;
import org.asmeasured.capture.Setup;
import org.asmeasured.digitizer.ConverterNoise;
import org.asmeasured.frontend.Bandwidth;
import org.asmeasured.frontend.Coupling;
import org.asmeasured.frontend.Noise;
import org.asmeasured.frontend.PassiveDivider;
import org.asmeasured.frontend.Probe;
import org.asmeasured.frontend.Termination;
import org.asmeasured.measure.Measured;
import org.asmeasured.measure.Reading;
import org.asmeasured.measure.Readings;
import org.asmeasured.pulse.PulseReadings;
import org.asmeasured.signal.Signals;
import org.asmeasured.uncertainty.Distribution;
import org.junit.jupiter.api.Test;

/**
 * Five problems small enough to work through one and all: each combination is written out here and
 * captured 2048 times, with draws of a plain generator and the truth in closed form; nothing of the
 * search is used for it. What is advised, once by looking at all and once setting by setting, must
 * be no worse than any of these by more than the margin that the advice states.
 *
 * <p>The trials leave their own doubt. Combinations share the draws and the seeds, so that of a
 * difference of scores k s + |m| is the standard error of what each trial adds to it, k ((e -
 * m)<sup>2</sup> - s<sup>2</sup>)/(2 s) + sign(m) (e - m), trial by trial. Five of these are
 * allowed: for 150 comparisons a false alarm below 1e-4. They must be below 2 % of the score
 * themselves.
 */
class AdviceAgainstExhaustiveSearchTest {
  private static final int TRIALS = 2048;
  private static final double K = 2;
  private static final double SURE = 5;
  private static final double MOST_SLACK = 0.02;

  /** A parameter and what is known of it. */
  private record Known(Parameter parameter, Distribution distribution) {}

  private static final List<Known> USUAL =
      List.of(
          new Known(Parameters.gainError(), Distribution.normal(0, 0.01)),
          new Known(Parameters.offsetError(), Distribution.rectangular(-0.01, 0.01)));

  private static List<Known> usualAnd(Parameter parameter, Distribution distribution) {
    List<Known> longer = new ArrayList<>(USUAL);
    longer.add(new Known(parameter, distribution));
    return longer;
  }

  /** What the trials of one combination come to. */
  private record Scored(double score, double[] adds) {
    static Scored of(double[] errors) {
      double mean = Arrays.stream(errors).sum() / errors.length;
      double squares = Arrays.stream(errors).map(e -> (e - mean) * (e - mean)).sum();
      double variance = squares / (errors.length - 1);
      double s = Math.sqrt(variance);
      return new Scored(
          K * s + Math.abs(mean),
          Arrays.stream(errors)
              .map(
                  e ->
                      (s == 0 ? 0 : K * ((e - mean) * (e - mean) - variance) / (2 * s))
                          + Math.signum(mean) * (e - mean))
              .toArray());
    }

    /** The standard error of the score, or of the difference to another. */
    double doubt(Scored other) {
      double squares = 0;
      for (int t = 0; t < adds.length; t++) {
        double d = adds[t] - (other == null ? 0 : other.adds[t]);
        squares += d * d;
      }
      return Math.sqrt(squares / (adds.length - 1.0) / adds.length);
    }
  }

  private static boolean has(Measurement m, Parameter parameter) {
    try {
      parameter.of(m);
      return true;
    } catch (IllegalArgumentException none) {
      return false;
    }
  }

  /** Null where one of the trials has no reading: such a combination cannot be advised. */
  private static Scored scored(Reading reading, Measurement m, double truth, List<Known> known) {
    double[] errors =
        IntStream.range(0, TRIALS)
            .parallel()
            .mapToDouble(t -> read(reading, m, known, t) - truth)
            .toArray();
    return Arrays.stream(errors).anyMatch(Double::isNaN) ? null : Scored.of(errors);
  }

  /** NaN where there is no reading. */
  private static double read(Reading reading, Measurement m, List<Known> known, int trial) {
    SplittableRandom random = new SplittableRandom(4711 + 1_000_003L * trial);
    Measurement drawn = m;
    for (Known k : known) {
      double value = k.distribution().quantile(random.nextDouble(1e-12, 1));
      drawn = has(m, k.parameter()) ? k.parameter().with(drawn, value) : drawn;
    }
    return reading.of(drawn.setup().capture(drawn.signal(), random.nextLong()))
            instanceof Measured.Value value
        ? value.value()
        : Double.NaN;
  }

  private static void holds(
      Reading reading,
      Measurement asked,
      double truth,
      List<Known> known,
      Choices choices,
      List<Setup> all) {
    Tolerances t = Tolerances.none();
    for (Known k : known) {
      t = t.with(k.parameter(), k.distribution());
    }
    Map<Setup, Scored> scores = new HashMap<>();
    for (Setup setup : all) {
      Scored one = scored(reading, asked.withSetup(setup), truth, known);
      if (one != null) {
        scores.put(setup, one);
      }
    }
    assertEquals(choices.combinations(), all.size(), "as many as written out here");
    for (boolean whole : new boolean[] {true, false}) {
      AdviceMethod usual = AdviceMethod.usual().withThreads(2);
      AdviceMethod method = whole ? usual : usual.withMostCombinations(4);
      Advice advice = Advice.of(reading, asked, t, choices, method).orThrow();
      assertEquals(whole, advice.isExhaustive());
      assertEquals(truth, advice.truth(), 1e-9 * truth);
      Candidate best = advice.best().orElseThrow();
      Scored got = scores.get(best.setup());
      assertTrue(got != null, "one of those written out here that can be read: " + advice);
      for (Map.Entry<Setup, Scored> other : scores.entrySet()) {
        double better = got.score() - other.getValue().score();
        double slack = SURE * got.doubt(other.getValue());
        assertTrue(
            better <= advice.margin() + slack,
            () -> advice + ": " + better + " worse than " + other.getKey() + ", trials " + slack);
        // of a combination that is far worse the doubt says nothing
        assertTrue(
            better <= 0 || slack <= MOST_SLACK * got.score(),
            () -> "the trials tell: " + slack / got.score() + " of the score, " + other.getKey());
      }
      assertTrue(advice.margin() <= 0.2 * best.score(), "the margin says something: " + advice);
      assertEquals(
          got.score(), best.score(), SURE * Math.hypot(best.scoreError(), got.doubt(null)));
    }
  }

  /** Noise asks for a fine scale, clipping for a coarse one. */
  @Test
  void scaleOfANoisySine() {
    Setup setup = Setup.ideal(1e6, 500).bits(8).converterNoise(new ConverterNoise(0.003));
    Measurement m = new Measurement(Signals.sine(0.3, 11e3), setup);
    List<Setup> all = new ArrayList<>();
    double[] scales = {0.05, 0.1, 0.2, 0.5, 1};
    for (double scale : scales) {
      all.add(setup.scale(scale));
    }
    holds(Readings.peakToPeak(), m, 0.6, USUAL, Choices.none().scales(scales), all);
  }

  /**
   * A limit takes noise from a peak to peak, and signal too. A divider loads the source less than
   * the input by itself (10 kilohm and 15 pF: 1 MHz), at ten times the noise.
   */
  @Test
  void probeLimitAndAveragingOfAPeakToPeak() {
    Setup setup =
        Setup.ideal(20e6, 400)
            .source(10e3)
            .termination(Termination.oneMegohm())
            .bandwidth(Bandwidth.singlePole(100e6))
            .noise(Noise.white(0.5e-6));
    Measurement m = new Measurement(Signals.sine(0.1, 500e3), setup);
    List<Setup> all = new ArrayList<>();
    Bandwidth[] limits = {
      Bandwidth.unlimited(), Bandwidth.singlePole(20e6), Bandwidth.singlePole(5e6)
    };
    Probe[] probes = {Probe.direct(), PassiveDivider.times10()};
    for (Probe probe : probes) {
      for (Bandwidth limit : limits) {
        for (int n : new int[] {1, 4}) {
          all.add(setup.probe(probe).limit(limit).averaging(n));
        }
      }
    }
    holds(
        Readings.peakToPeak(),
        m,
        0.2,
        usualAnd(Parameters.relative(Parameters.limit()), Distribution.normal(0, 0.1)),
        Choices.none().probes(probes).limits(limits).averages(1, 4),
        all);
  }

  /** A rail asks for AC coupling, whose corner costs little here, or for an offset. */
  @Test
  void couplingAndOffsetOfARippleOnARail() {
    Setup setup = Setup.ideal(5e6, 500).bits(8).converterNoise(new ConverterNoise(0.001)).scale(1);
    Measurement m = new Measurement(Signals.sine(0.02, 100e3).plus(3.3), setup);
    List<Setup> all = new ArrayList<>();
    double[] scales = {0.005, 0.01, 0.02, 0.1, 0.5, 1};
    for (Coupling coupling : List.of(Coupling.dc(), Coupling.ac())) {
      for (double offset : new double[] {0, 3.3}) {
        for (double scale : scales) {
          Setup coupled = setup.coupling(coupling);
          all.add(coupled.vertical(coupled.vertical().withOffset(offset)).scale(scale));
        }
      }
    }
    holds(
        Readings.peakToPeak(),
        m,
        0.04,
        USUAL,
        Choices.none().couplings(Coupling.dc(), Coupling.ac()).offsets(0, 3.3).scales(scales),
        all);
  }

  /** A rise time: rate against noise; a mean takes the noise, and slows edges of a soft trigger. */
  @Test
  void rateTriggerAndAveragingOfARiseTime() {
    Trigger soft = Trigger.at(0).jitter(4e-9);
    Trigger sharp = Trigger.at(0).jitter(0.2e-9);
    Setup setup =
        Setup.ideal(5e8, 500)
            .bandwidth(Bandwidth.gaussian(4, 200e6))
            .converterNoise(new ConverterNoise(0.004))
            .bits(8)
            .scale(0.2)
            .trigger(soft);
    Measurement m = new Measurement(Signals.trapezoid(-0.5, 0.5, 1e-6, 0.5, 10e-9, 10e-9), setup);
    List<Setup> all = new ArrayList<>();
    double[] rates = {2e8, 5e8};
    for (double rate : rates) {
      for (Trigger trigger : List.of(soft, sharp)) {
        for (int n : new int[] {1, 4}) {
          all.add(
              setup
                  .points((int) Math.round(1e-6 * rate))
                  .rateHz(rate)
                  .trigger(trigger)
                  .averaging(n));
        }
      }
    }
    holds(
        PulseReadings.riseTime(),
        m,
        8e-9,
        usualAnd(Parameters.relative(Parameters.bandwidth()), Distribution.normal(0, 0.03)),
        Choices.none().rates(1000, rates).triggers(soft, sharp).averages(1, 4),
        all);
  }

  /** The RMS of a slow square: AC coupling droops, DC coupling has the offset's tolerance. */
  @Test
  void couplingAndBoxcarOfASquare() {
    Setup setup =
        Setup.ideal(100e3, 2000).bits(8).converterNoise(new ConverterNoise(0.01)).scale(0.5);
    Measurement m = new Measurement(Signals.square(-1, 1, 2e-3, 0.5), setup);
    List<Setup> all = new ArrayList<>();
    for (Coupling coupling : List.of(Coupling.dc(), Coupling.ac())) {
      for (double scale : new double[] {0.2, 0.5, 1}) {
        all.add(setup.coupling(coupling).scale(scale));
        all.add(setup.coupling(coupling).scale(scale).points(200).decimation(Boxcar.of(10)));
      }
    }
    holds(
        Readings.rms(),
        m,
        1,
        USUAL,
        Choices.none()
            .couplings(Coupling.dc(), Coupling.ac())
            .scales(0.2, 0.5, 1)
            .decimations(new Pick(1), Boxcar.of(10)),
        all);
  }
}
