package org.asmeasured.advice;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import org.asmeasured.accuracy.Assessment;
import org.asmeasured.accuracy.AssessmentMethod;
import org.asmeasured.accuracy.Measurement;
import org.asmeasured.accuracy.Parameters;
import org.asmeasured.accuracy.Tolerances;
import org.asmeasured.acquisition.Boxcar;
import org.asmeasured.acquisition.Pick;
import org.asmeasured.capture.Setup;
import org.asmeasured.digitizer.ConverterNoise;
import org.asmeasured.frontend.Bandwidth;
import org.asmeasured.frontend.Coupling;
import org.asmeasured.frontend.Noise;
import org.asmeasured.measure.Reading;
import org.asmeasured.measure.Readings;
import org.asmeasured.pulse.PulseReadings;
import org.asmeasured.signal.Signals;
import org.asmeasured.uncertainty.Distribution;
import org.asmeasured.uncertainty.MonteCarlo;
import org.junit.jupiter.api.Test;

/**
 * Five problems small enough to work through one and all: each combination is written out here, and
 * assessed by 4096 plain trials of another seed. What is advised must be no worse than the best of
 * these by more than the margin that the advice states.
 *
 * <p>A score of n trials scatters by u k/sqrt(2 n) and u/sqrt(n) at least for normal errors,
 * together 1.4 % of U; of two of them, 1.9 %. Five of these are left to the assessment: false alarm
 * below 1e-5 for all.
 */
class AdviceAgainstExhaustiveSearchTest {
  private static final int TRIALS = 4096;
  private static final double SLACK = 5 * 0.019;

  private static final Tolerances USUAL =
      Tolerances.none()
          .with(Parameters.gainError(), Distribution.normal(0, 0.01))
          .with(Parameters.offsetError(), Distribution.rectangular(-0.01, 0.01));

  private static double score(Reading reading, Measurement asked, Setup setup, Tolerances t) {
    AssessmentMethod method =
        AssessmentMethod.usual()
            .withSeed(4711)
            .withThreads(2)
            .withCaptures(2)
            .withTrials(MonteCarlo.ofTrials(0.95, TRIALS).plain());
    Measurement m = asked.withSetup(setup);
    Assessment a = Assessment.of(List.of(reading), asked, m, t.concerning(m), method).get(0);
    // a reading that is missing now and then is none that can be advised
    return a.trials().isTaken() && a.trials().orThrow().trialsNotTaken() == 0
        ? 2 * a.standardUncertainty().orThrow() + Math.abs(a.bias().orThrow())
        : Double.POSITIVE_INFINITY;
  }

  private static void holds(
      Reading reading, Measurement asked, Tolerances t, Choices choices, List<Setup> all) {
    Advice advice = Advice.of(reading, asked, t, choices, AdviceMethod.usual()).orThrow();
    assertTrue(advice.isExhaustive());
    assertTrue(advice.combinations() == all.size(), "as many as written out here");
    Setup advised = advice.best().orElseThrow().setup();
    assertTrue(all.contains(advised), "one of those written out here");
    double least = Double.POSITIVE_INFINITY;
    for (Setup setup : all) {
      least = Math.min(least, score(reading, asked, setup, t));
    }
    double got = score(reading, asked, advised, t);
    assertTrue(
        got <= least + advice.margin() + SLACK * least,
        advice + ": " + got + " against " + least + " within " + advice.margin());
    assertTrue(
        advice.margin() <= 0.2 * advice.best().orElseThrow().score(),
        "the margin says something: " + advice);
    double stated = advice.best().orElseThrow().score();
    assertTrue(Math.abs(stated - got) <= 0.15 * got, stated + " against " + got);
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
    holds(Readings.peakToPeak(), m, USUAL, Choices.none().scales(scales), all);
  }

  /** A limit takes noise from a peak to peak, and signal too. */
  @Test
  void limitAndAveragingOfAPeakToPeak() {
    Setup setup =
        Setup.ideal(20e6, 400).bandwidth(Bandwidth.singlePole(100e6)).noise(Noise.white(5e-6));
    Measurement m = new Measurement(Signals.sine(0.1, 500e3), setup);
    List<Setup> all = new ArrayList<>();
    Bandwidth[] limits = {
      Bandwidth.unlimited(),
      Bandwidth.singlePole(20e6),
      Bandwidth.singlePole(5e6),
      Bandwidth.singlePole(1e6)
    };
    for (Bandwidth limit : limits) {
      for (int n : new int[] {1, 8}) {
        all.add(setup.limit(limit).averaging(n));
      }
    }
    Tolerances t = USUAL.with(Parameters.relative(Parameters.limit()), Distribution.normal(0, 0.1));
    holds(Readings.peakToPeak(), m, t, Choices.none().limits(limits).averages(1, 8), all);
  }

  /** The offset of a rail asks for AC coupling, whose corner costs little here. */
  @Test
  void couplingOfARippleOnARail() {
    Setup setup = Setup.ideal(5e6, 500).bits(8).converterNoise(new ConverterNoise(0.001)).scale(1);
    Measurement m = new Measurement(Signals.sine(0.02, 100e3).plus(3.3), setup);
    List<Setup> all = new ArrayList<>();
    for (Coupling coupling : List.of(Coupling.dc(), Coupling.ac())) {
      for (double scale : new double[] {0.005, 0.01, 0.02, 0.1, 0.5, 1}) {
        all.add(setup.coupling(coupling).scale(scale));
      }
    }
    holds(
        Readings.peakToPeak(),
        m,
        USUAL,
        Choices.none()
            .couplings(Coupling.dc(), Coupling.ac())
            .scales(0.005, 0.01, 0.02, 0.1, 0.5, 1),
        all);
  }

  /** A rise time: rate against noise and limit. */
  @Test
  void rateAndLimitOfARiseTime() {
    Setup setup =
        Setup.ideal(1e9, 1000)
            .bandwidth(Bandwidth.gaussian(4, 200e6))
            .converterNoise(new ConverterNoise(0.002))
            .bits(8)
            .scale(0.2);
    Measurement m = new Measurement(Signals.trapezoid(-0.5, 0.5, 1e-6, 0.5, 10e-9, 10e-9), setup);
    Tolerances t =
        USUAL.with(Parameters.relative(Parameters.bandwidth()), Distribution.normal(0, 0.03));
    List<Setup> all = new ArrayList<>();
    for (double rate : new double[] {2e8, 5e8, 1e9}) {
      for (Bandwidth limit : List.of(Bandwidth.unlimited(), Bandwidth.singlePole(20e6))) {
        all.add(setup.limit(limit).points((int) Math.round(1e-6 * rate)).rateHz(rate));
      }
    }
    holds(
        PulseReadings.riseTime(),
        m,
        t,
        Choices.none()
            .limits(Bandwidth.unlimited(), Bandwidth.singlePole(20e6))
            .rates(1000, 2e8, 5e8, 1e9),
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
        USUAL,
        Choices.none()
            .couplings(Coupling.dc(), Coupling.ac())
            .scales(0.2, 0.5, 1)
            .decimations(new Pick(1), Boxcar.of(10)),
        all);
  }
}
