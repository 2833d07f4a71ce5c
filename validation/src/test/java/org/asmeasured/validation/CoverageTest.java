package org.asmeasured.validation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.SplittableRandom;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.stream.IntStream;
import org.asmeasured.accuracy.Assessment;
import org.asmeasured.accuracy.AssessmentMethod;
import org.asmeasured.accuracy.Measurement;
import org.asmeasured.accuracy.Parameter;
import org.asmeasured.accuracy.Parameters;
import org.asmeasured.accuracy.Tolerances;
import org.asmeasured.acquisition.Boxcar;
import org.asmeasured.acquisition.Trigger;
import org.asmeasured.capture.Setup;
import org.asmeasured.characterisation.CharacterisationReadings;
import org.asmeasured.digitizer.ConverterNoise;
import org.asmeasured.digitizer.InterleavedSampler;
import org.asmeasured.frontend.Bandwidth;
import org.asmeasured.frontend.Coupling;
import org.asmeasured.frontend.Noise;
import org.asmeasured.frontend.VerticalScale;
import org.asmeasured.measure.Reading;
import org.asmeasured.measure.Readings;
import org.asmeasured.pulse.PulseReadings;
import org.asmeasured.signal.Signal;
import org.asmeasured.signal.Signals;
import org.asmeasured.uncertainty.Distribution;
import org.asmeasured.uncertainty.Input;
import org.asmeasured.uncertainty.Interval;
import org.asmeasured.uncertainty.MonteCarlo;
import org.junit.jupiter.api.Test;

/**
 * A 95 % interval is one that covers the true value in 95 % of all measurements (JCGM 101, 3.12;
 * JCGM 100, 6.2.2; clauses from memory): intervals of twelve measurements, each against fresh
 * instruments and captures, drawn here by the generator of the JDK and the quantiles of the
 * distributions. Two have correlated tolerances and a contribution that the model does not know;
 * one of these intervals is that of the law of propagation, the others are those of trials.
 *
 * <p>Usually 2000 captures each, within five standard deviations of so many and of the interval's
 * own trials: a false alarm in 10^5 for all of them. Where evidence is asked for, 100 000 captures,
 * within half a percent.
 */
class CoverageTest {
  private static final double PROBABILITY = 0.95;

  private record Drawn(Parameter parameter, Distribution distribution) {}

  /** The correlation of the first two tolerances, which are normal, and a fraction of readings. */
  private record Joint(double correlation, Distribution certificate) {
    static final Joint NONE = new Joint(0, Distribution.normal(0, 1));
  }

  private enum Way {
    TRIALS,
    LAW
  }

  private record Case(
      String words,
      Reading reading,
      Signal signal,
      Setup setup,
      List<Drawn> tolerances,
      Joint joint,
      Way way) {
    Case(String words, Reading reading, Signal signal, Setup setup, List<Drawn> tolerances) {
      this(words, reading, signal, setup, tolerances, Joint.NONE, Way.TRIALS);
    }

    Case with(Joint other) {
      return new Case(words, reading, signal, setup, tolerances, other, way);
    }

    Case by(Way other, String otherWords) {
      return new Case(otherWords, reading, signal, setup, tolerances, joint, other);
    }
  }

  private static Drawn drawn(Parameter parameter, Distribution distribution) {
    return new Drawn(parameter, distribution);
  }

  private static List<Case> cases() {
    Drawn gain = drawn(Parameters.gainError(), Distribution.normal(0, 0.01));
    Drawn offset = drawn(Parameters.offsetError(), Distribution.rectangular(-0.004, 0.004));
    Signal sine = Signals.sine(1, 1e6);
    Signal square = Signals.trapezoid(-1, 1, 10e-6, 0.5, 5e-9, 5e-9);
    Setup twelve =
        Setup.ideal(100e6, 400)
            .bandwidth(Bandwidth.bessel(4, 20e6))
            .vertical(VerticalScale.of(0.4))
            .bits(12);
    Setup noisy = twelve.converterNoise(ConverterNoise.ofSteps(1, 12));
    Drawn phase = drawn(Parameters.start(), Distribution.rectangular(0, 1e-6));
    Drawn bandwidth =
        drawn(Parameters.relative(Parameters.bandwidth()), Distribution.triangular(-0.2, 0.2));
    Case correlated =
        new Case(
                "maximum of a sine; gain and offset correlated by 0.6, a certificate of 1.2 %",
                Readings.maximum(),
                sine,
                noisy,
                List.of(gain, drawn(Parameters.offsetError(), Distribution.normal(0, 0.003))))
            .with(new Joint(0.6, Distribution.normal(0, 0.012)));
    return List.of(
        correlated,
        correlated.by(Way.LAW, "the same by the law of propagation"),
        new Case(
            "mean of a still voltage; gain, offset, converter noise",
            Readings.mean(),
            Signals.constant(1),
            noisy.points(64),
            List.of(gain, offset)),
        new Case(
            "RMS of a sine; gain of few readings, bandwidth, phase",
            Readings.rms(),
            sine,
            noisy,
            List.of(
                drawn(Parameters.gainError(), Distribution.studentT(0, 0.004, 5)),
                bandwidth,
                phase)),
        new Case(
            "peak to peak of a sine in amplifier noise",
            Readings.peakToPeak(),
            sine,
            twelve.noise(Noise.white(500e-9)),
            List.of(gain, bandwidth, phase)),
        new Case(
            "rise time; bandwidth, phase",
            PulseReadings.riseTime(),
            square,
            noisy.points(1000),
            List.of(bandwidth, drawn(Parameters.start(), Distribution.rectangular(2e-6, 2.01e-6)))),
        new Case(
            "AC RMS of a square behind AC coupling; corner",
            Readings.acRms(),
            square,
            noisy.points(1000).coupling(Coupling.ac(10e3)),
            List.of(gain, drawn(Parameters.couplingCorner(), Distribution.rectangular(7e3, 13e3)))),
        new Case(
            "frequency; clock error, jitter",
            CharacterisationReadings.sineFrequency(),
            sine,
            noisy.sampler(InterleavedSampler.ideal().withJitter(50e-12)),
            List.of(drawn(Parameters.clockError(), Distribution.arcsine(-20e-6, 20e-6)), phase)),
        new Case(
            "mean of 16 acquisitions, maximum",
            Readings.maximum(),
            sine,
            noisy.trigger(Trigger.at(0).jitter(100e-12)).averaging(16),
            List.of(gain, offset)),
        new Case(
            "minimum of means of eight samples",
            Readings.minimum(),
            sine,
            noisy.decimation(Boxcar.of(8)).points(50),
            List.of(gain, offset, phase)),
        new Case(
            "amplitude of a fitted sine; bandwidth limit",
            CharacterisationReadings.sineAmplitude(),
            sine,
            noisy.limit(Bandwidth.singlePole(5e6)),
            List.of(
                gain,
                drawn(Parameters.limit(), Distribution.curvilinearTrapezoid(4e6, 6e6, 0.3e6)),
                phase)),
        new Case(
            "percentile of a triangle; noise of the amplifier not known well",
            Readings.percentile(90),
            Signals.triangle(-1, 1, 1e-6, 0.5),
            twelve.noise(Noise.white(200e-9)),
            List.of(
                drawn(Parameters.noiseDensity(), Distribution.rectangular(0, 600e-9)),
                offset,
                phase)));
  }

  private static Interval interval(Case c, int trials) {
    Tolerances tolerances = Tolerances.none();
    for (Drawn d : c.tolerances) {
      tolerances = tolerances.with(d.parameter, d.distribution);
    }
    if (c.joint != Joint.NONE) {
      tolerances =
          tolerances
              .plusRelative(Input.of("certificate", "", c.joint.certificate))
              .correlated(
                  c.tolerances.get(0).parameter.name(),
                  c.tolerances.get(1).parameter.name(),
                  c.joint.correlation);
    }
    AssessmentMethod method =
        AssessmentMethod.usual()
            .withTrials(MonteCarlo.ofTrials(PROBABILITY, trials))
            // the law's estimate is a mean of captures
            .withCaptures(c.way == Way.LAW ? 64 : 2)
            .withThreads(2)
            .withSeed(20);
    Assessment assessment =
        Assessment.of(List.of(c.reading), new Measurement(c.signal, c.setup), tolerances, method)
            .get(0);
    if (c.way == Way.TRIALS) {
      return assessment.interval().orThrow();
    }
    Interval errors = assessment.law().orThrow().interval(PROBABILITY);
    double truth = assessment.truth().orThrow();
    return new Interval(truth + errors.lower(), truth + errors.upper());
  }

  /** The truth lies within reading - errors where the reading lies within truth + errors. */
  private static double covered(Case c, Interval interval, int captures) {
    AtomicInteger inside = new AtomicInteger();
    IntStream.range(0, captures)
        .parallel()
        .forEach(
            i -> {
              double value = freshReading(c, new SplittableRandom(0x5eed0000L + i));
              if (value >= interval.lower() && value <= interval.upper()) {
                inside.incrementAndGet();
              }
            });
    return (double) inside.get() / captures;
  }

  private static double freshReading(Case c, SplittableRandom random) {
    Measurement fresh = new Measurement(c.signal, c.setup);
    double first = 0;
    for (int i = 0; i < c.tolerances.size(); i++) {
      Drawn d = c.tolerances.get(i);
      double value = d.distribution.quantile(uniform(random));
      if (c.joint != Joint.NONE && i < 2) {
        // normal values: the second is partly the first
        double r = i == 0 ? 0 : c.joint.correlation;
        double deviation = d.distribution.standardDeviation();
        double z = (value - d.distribution.estimate()) / deviation;
        z = r * first + Math.sqrt(1 - r * r) * z;
        value = d.distribution.estimate() + deviation * z;
        first = z;
      }
      fresh = d.parameter.with(fresh, value);
    }
    double value = c.reading.of(fresh.setup().capture(c.signal, random.nextLong())).orThrow();
    return c.joint == Joint.NONE
        ? value
        : value * (1 + c.joint.certificate.quantile(uniform(random)));
  }

  private static double uniform(SplittableRandom random) {
    return (random.nextLong() >>> 11 | 1) * 0x1p-53;
  }

  @Test
  void intervalsCoverWhatTheySay() {
    boolean whole = Evidence.wanted();
    int trials = whole ? 1 << 17 : 1 << 12;
    int captures = whole ? 100_000 : 2000;
    double allowed =
        whole
            ? 0.005
            : 5 * Math.sqrt(PROBABILITY * (1 - PROBABILITY) * (1.0 / captures + 1.0 / trials));
    List<String> rows = new ArrayList<>();
    for (Case c : cases()) {
      double share = covered(c, interval(c, trials), captures);
      rows.add(String.format(Locale.ROOT, "| %s | %.2f %% |", c.words, 100 * share));
      assertEquals(PROBABILITY, share, allowed, c.words);
    }
    assertTrue(rows.size() >= 12);
    if (whole) {
      Evidence.write(
          "coverage.md",
          "How often intervals of 95 % cover",
          "Intervals of "
              + trials
              + " trials against "
              + captures
              + " fresh instruments and captures.\n\n| measurement | covered |\n| --- | ---: |\n"
              + String.join("\n", rows)
              + "\n");
    }
  }
}
