package org.asmeasured.accuracy;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CancellationException;
import org.asmeasured.accuracy.Sensitivity.Move;
import org.asmeasured.acquisition.Trigger;
import org.asmeasured.capture.Setup;
import org.asmeasured.digitizer.ConverterNoise;
import org.asmeasured.frontend.Bandwidth;
import org.asmeasured.frontend.Coupling;
import org.asmeasured.frontend.PassiveDivider;
import org.asmeasured.frontend.Termination;
import org.asmeasured.frontend.VerticalScale;
import org.asmeasured.internal.Cases;
import org.asmeasured.internal.Refusals;
import org.asmeasured.measure.Outcome;
import org.asmeasured.measure.Reading;
import org.asmeasured.measure.Readings;
import org.asmeasured.pulse.PulseQuantity;
import org.asmeasured.pulse.PulseReadings;
import org.asmeasured.signal.RandomSignals;
import org.asmeasured.signal.Signal;
import org.asmeasured.signal.Signals;
import org.asmeasured.uncertainty.Distribution;
import org.asmeasured.uncertainty.Input;
import org.asmeasured.uncertainty.MonteCarlo;
import org.asmeasured.uncertainty.Tolerance;
import org.junit.jupiter.api.Test;

/** How readings follow their quantities, against closed forms of the chain. */
class SensitivityTest {
  private static final AssessmentMethod METHOD =
      AssessmentMethod.usual().withTrials(MonteCarlo.ofTrials(0.95, 4096));
  private static final AssessmentMethod FEW = METHOD.withTrials(MonteCarlo.ofTrials(0.95, 512));
  private static final Tolerances VOLTS_UNSURE =
      Tolerances.none().plus(Input.of("other", "V", Distribution.normal(0, 1e-4)));

  private static Assessment assessed(
      Reading reading, Signal signal, Setup setup, Tolerances tolerances) {
    return Assessment.of(List.of(reading), new Measurement(signal, setup), tolerances, METHOD)
        .get(0);
  }

  private static Sensitivity of(Reading reading, Signal signal, Setup setup) {
    return sensitivities(List.of(reading), new Measurement(signal, setup), FEW).get(0).orThrow();
  }

  /** An ideal chain hands on what is there: S = 1, whatever moves the quantity. */
  @Test
  void anIdealChainFollows() {
    Signal train = Signals.trapezoid(-1, 3, 1e-6, 0.4, 0.1e-6, 0.15e-6);
    Setup setup = Setup.ideal(1e9, 10_000);
    List<Reading> readings =
        List.of(
            Readings.mean(),
            Readings.rms(),
            Readings.acRms(),
            Readings.peakToPeak(),
            Readings.maximum(),
            Readings.minimum(),
            PulseReadings.amplitude(),
            PulseReadings.riseTime(),
            PulseReadings.fallTime(),
            PulseReadings.period(),
            PulseReadings.frequency());
    List<Assessment> all =
        Assessment.of(readings, new Measurement(train, setup), Tolerances.none(), METHOD);
    for (Assessment a : all) {
      Sensitivity s = a.sensitivity().orThrow();
      // samples of 1 ns: means of stretched trains end between samples
      assertEquals(1, s.value(), 2e-3, a.reading().name());
      assertTrue(s.follows() && !s.isWeak());
      assertEquals(a.reading().unit().equals("V"), s.move() != Move.STRETCH, a.reading().name());
    }
  }

  /**
   * Every bundled reading that a move moves, of edges of any shape: S = 1 through an ideal chain.
   */
  @Test
  void anIdealChainFollowsInEveryReading() {
    Cases.check(
        7100,
        12,
        random -> {
          double period = Cases.logUniform(random, 1e-7, 1e-6);
          double rise = random.nextDouble(0.05, 0.15) * period;
          double fall = random.nextDouble(0.05, 0.15) * period;
          double low = random.nextDouble(-2, 0.5);
          Signal train =
              Signals.trapezoid(
                  low,
                  low + random.nextDouble(0.5, 3),
                  period,
                  random.nextDouble(0.35, 0.6),
                  rise,
                  fall);
          // whole periods, 2000 points each: means end where cycles do
          Setup setup = Setup.ideal(2000 / period, 8000);
          List<Reading> readings = new ArrayList<>(Readings.all());
          readings.addAll(PulseReadings.all());
          List<Outcome<Sensitivity>> found =
              sensitivities(readings, new Measurement(train, setup), FEW);
          int moved = 0;
          for (int r = 0; r < readings.size(); r++) {
            if (found.get(r) instanceof Outcome.Taken<Sensitivity> taken) {
              // crossings and extremes between points of a two-thousandth of a period
              assertEquals(1, taken.result().value(), 0.01, readings.get(r).toString());
              moved++;
            } else {
              assertEquals("%", readings.get(r).unit(), readings.get(r) + ": " + found.get(r));
            }
          }
          assertTrue(moved >= 15, "moved: " + moved);
        });
  }

  /**
   * A linear chain makes of k times a signal k times the output: what alternates is followed by the
   * share of it that is read, and every step says the same.
   */
  @Test
  void aLinearChainFollowsByTheShareThatItReads() {
    Cases.check(
        7200,
        50,
        random -> {
          Signal signal = RandomSignals.settled(random).plus(random.nextDouble(-5, 5));
          Setup setup =
              Setup.ideal(Cases.logUniform(random, 1e7, 1e9), 500)
                  .bandwidth(
                      Bandwidth.butterworth(
                          1 + random.nextInt(5), Cases.logUniform(random, 1e5, 1e8)))
                  .vertical(VerticalScale.of(1).withGainError(random.nextDouble(-0.1, 0.1)));
          Assessment a =
              Assessment.of(
                      List.of(Readings.acRms()),
                      new Measurement(signal, setup),
                      Tolerances.none(),
                      FEW)
                  .get(0);
          double truth = a.truth().orThrow();
          if (truth < 1e-3 * signal.bound()) {
            return; // still, or nearly so over this record
          }
          Sensitivity s = a.sensitivity().orThrow();
          double share = a.measured().orThrow() / truth;
          assertEquals(Move.SPREAD, s.move());
          assertEquals(share, s.value(), 1e-9 * Math.max(1, share) * signal.bound() / truth);
          assertEquals(0, s.standardError(), 1e-9 * signal.bound() / truth);
        });
  }

  /** A share stays what it is however the signal is moved: this is said, and nothing is divided. */
  @Test
  void whatNothingMovesIsNotChecked() {
    Assessment a =
        assessed(
            PulseReadings.of(PulseQuantity.DUTY_FACTOR),
            Signals.trapezoid(0, 1, 1e-6, 0.4, 0.1e-6, 0.1e-6),
            Setup.ideal(1e9, 5_000).converterNoise(new ConverterNoise(1e-4)),
            Tolerances.none());
    assertEquals(
        "not taken: no move of the signal moves the true value", a.sensitivity().toString());
    assertEquals(a.standardUncertainty().orThrow(), a.corrected().standardDeviation(), 1e-3 * 1e-2);
    assertEquals(a.standardUncertainty(), a.correctedStandardUncertainty());
    assertTrue(
        a.decide(Tolerance.atMost(90))
            .orThrow()
            .toString()
            .contains(
                "(not checked whether the reading follows the quantity: no move of the signal moves"),
        a.decide(Tolerance.atMost(90)).toString());
  }

  /** A gain error of g on a mean: S = 1 + g. */
  @Test
  void aGainIsTheSensitivity() {
    Setup setup = Setup.ideal(1e6, 10).vertical(VerticalScale.of(1).withGainError(-0.2));
    Sensitivity s = of(Readings.mean(), Signals.constant(2), setup);
    assertEquals(0.8, s.value(), 1e-12);
    assertEquals(Move.SHIFT, s.move());
    assertEquals(0, s.standardError(), 1e-12);
    assertEquals("a change of the quantity shows by 80 % in the reading", s.toString());
  }

  /** A first-order low pass takes 1/sqrt(1 + (f/B)^2) of a sine's RMS, and of its changes. */
  @Test
  void aLimitBelowTheRippleHidesIt() {
    Signal ripple = Signals.sine(0.01, 100e6).plus(3.3);
    Setup setup = Setup.ideal(10e9, 1000).limit(Bandwidth.singlePole(20e6));
    Sensitivity s = of(Readings.acRms(), ripple, setup);
    assertEquals(Move.SPREAD, s.move());
    assertEquals(1 / Math.sqrt(26), s.value(), 1e-9);
    assertTrue(s.isWeak());
  }

  /** Alternating coupling takes the mean away: no reading of it decides anything. */
  @Test
  void aMeanBehindACouplingIsUndecided() {
    Setup setup = Setup.ideal(1e9, 1000).coupling(Coupling.ac());
    Assessment a = assessed(Readings.mean(), Signals.sine(0.1, 10e6).plus(1), setup, VOLTS_UNSURE);
    Sensitivity s = a.sensitivity().orThrow();
    assertEquals(0, s.value(), 1e-12);
    assertFalse(s.follows());
    Verdict v = a.decide(Tolerance.atMost(2)).orThrow();
    assertEquals(Verdict.Ruling.UNDECIDED, v.ruling());
    assertTrue(v.corrected().isEmpty());
    assertEquals(1, v.risk(), 0);
    assertTrue(
        v.toString()
            .startsWith(
                "cannot be decided with this setup: the reading does not follow the quantity:"
                    + " a change of "),
        v.toString());
    assertTrue(v.toString().endsWith(" changes it by 0 V"), v.toString());
    assertFalse(a.smallestUpperLimit(0.05).isTaken());
    assertFalse(a.greatestLowerLimit(0.05).isTaken());
    assertTrue(a.standardUncertainty().isTaken());
    assertEquals("not taken: " + s, a.correctedStandardUncertainty().toString());
    assertThrows(IllegalStateException.class, a::corrected);
    assertThrows(IllegalStateException.class, () -> a.corrected(1));
    // the same reading with direct coupling is decided
    Assessment direct =
        assessed(
            Readings.mean(),
            Signals.sine(0.1, 10e6).plus(1),
            setup.coupling(Coupling.dc()),
            VOLTS_UNSURE);
    assertEquals(Verdict.Ruling.PASSES, direct.decide(Tolerance.atMost(2)).orThrow().ruling());
  }

  /** A maximum needs both, what varies and what stands still: the lesser counts. */
  @Test
  void aMaximumBehindACouplingIsUndecidedToo() {
    Signal signal = Signals.sine(0.1, 10e6).plus(1);
    Setup setup = Setup.ideal(1e9, 1000).coupling(Coupling.ac());
    assertFalse(of(Readings.maximum(), signal, setup).follows());
    assertFalse(of(Readings.rms(), signal, setup).follows());
    assertEquals(1, of(Readings.acRms(), signal, setup).value(), 1e-9);
    assertEquals(1, of(Readings.peakToPeak(), signal, setup).value(), 1e-9);
  }

  /**
   * A times ten divider for a megohm on 50 ohm hands on 50/(9 Mohm + 50 ohm) where a tenth is
   * expected: S = 10 x that share.
   */
  @Test
  void aDividerOnTheWrongInputReadsNothing() {
    Setup setup =
        Setup.ideal(1e6, 100).probe(PassiveDivider.times10()).termination(Termination.fiftyOhm());
    Sensitivity s = of(Readings.mean(), Signals.constant(2), setup);
    double share = setup.frontEnd().loading().response().dcGain();
    assertEquals(share, s.value(), 1e-12);
    assertEquals(10 * 50 / (9e6 + 50), s.value(), 1e-8);
    Assessment noisy =
        assessed(
            Readings.peakToPeak(),
            Signals.sine(0.01, 1e4),
            setup.converterNoise(new ConverterNoise(2e-4)),
            Tolerances.none());
    Verdict v = noisy.decide(Tolerance.atMost(0.025)).orThrow();
    assertEquals(Verdict.Ruling.UNDECIDED, v.ruling());
    assertTrue(v.asRead() > 0.99, "as it stands the noise would pass, " + v.asRead());
    assertTrue(v.toString().contains("quantity"), v.toString());
  }

  /**
   * A ramp of T through a pole of tau, 10 % to 90 %, by its own closed form: behind the ramp's end
   * the pole settles by exp(-t/tau), within it y = (t - tau (1 - exp(-t/tau)))/T. S = dr/dT, over
   * the same steps.
   */
  @Test
  void aRiseTimeIsFollowedByWhatTheClosedFormSays() {
    double tau = 1e-9;
    double rise = 1e-9;
    Signal edge = Signals.ramp(1, 0, rise / 0.8);
    Setup setup =
        Setup.ideal(100e9, 4000)
            .startingAt(-2e-9)
            .bandwidth(Bandwidth.singlePole(1 / (2 * Math.PI * tau)));
    Sensitivity s = of(PulseReadings.riseTime(), edge, setup);
    double above = 0;
    double below = 0;
    for (int k = 0; k < 8; k++) {
      double h = 0.05 + 0.1 * k / 7;
      double change = riseOf(rise * (1 + h), tau) - riseOf(rise * (1 - h), tau);
      above += change * 2 * h * rise;
      below += 4 * h * h * rise * rise;
    }
    assertEquals(Move.STRETCH, s.move());
    // crossings by straight lines between samples 10 ps apart
    assertEquals(above / below, s.value(), 1e-3);
    assertTrue(s.value() > 0.2 && s.value() < 0.6, s.toString());
    // the rule of root sum of squares, common practice: dr/dt = t/r
    double r = riseOf(rise, tau);
    assertEquals(rise / r, s.value(), 0.1);
  }

  private static double riseOf(double rise, double tau) {
    double ramp = rise / 0.8;
    return crossing(0.9, ramp, tau) - crossing(0.1, ramp, tau);
  }

  private static double crossing(double level, double ramp, double tau) {
    double low = 0;
    double high = ramp + 40 * tau;
    for (int i = 0; i < 200; i++) {
      double t = (low + high) / 2;
      double within = (Math.min(t, ramp) + tau * Math.expm1(-Math.min(t, ramp) / tau)) / ramp;
      double y = t <= ramp ? within : 1 - (1 - within) * Math.exp(-(t - ramp) / tau);
      if (y < level) {
        low = t;
      } else {
        high = t;
      }
    }
    return low;
  }

  /** Half the gain: twice the uncertainty, and the verdict's distribution by its closed form. */
  @Test
  void aCorrectedReadingIsAsMuchLessSure() {
    Setup setup = Setup.ideal(1e6, 10).vertical(VerticalScale.of(1).withGainError(-0.5));
    Tolerances t = Tolerances.none().plus(Input.of("other", "V", Distribution.normal(0, 0.01)));
    Assessment a = assessed(Readings.mean(), Signals.constant(2), setup, t);
    assertEquals(1, a.measured().orThrow(), 1e-6);
    assertEquals(2, a.corrected().estimate(), 1e-6);
    // 4096 Sobol points: a sample deviation to 1e-3 of itself
    assertEquals(0.02, a.corrected().standardDeviation(), 2e-5);
    assertEquals(0.01, a.asRead().standardDeviation(), 1e-5);
    assertEquals(a.corrected().standardDeviation(), a.correctedStandardUncertainty().orThrow(), 0);
    assertEquals(
        a.standardUncertainty().orThrow() / a.sensitivity().orThrow().value(),
        a.correctedStandardUncertainty().orThrow(),
        0);
    assertEquals(2.2, a.corrected(1.1).estimate(), 1e-6);
    assertEquals(0.5, a.corrected(1.1).cumulative(2.2), 1e-3);
    // Phi(1) and Phi^-1(0.95) = 1.6449, normal table
    assertEquals(
        0.8413, a.decide(Tolerance.atMost(2.02)).orThrow().corrected().orElseThrow(), 1e-3);
    assertEquals(2 + 1.6449 * 0.02, a.smallestUpperLimit(0.05).orThrow(), 2e-4);
    assertEquals(1 - 1.6449 * 0.01, a.greatestLowerLimit(0.05).orThrow(), 1e-4);
    double p = a.corrected().cumulative(2.013);
    assertEquals(2.013, a.corrected().quantile(p), 1e-4);
  }

  /**
   * RMS of a constant x under white noise of sigma is sqrt(x^2 + sigma^2) for many points: S = x/
   * that, and less than that for a sum of what only grows. 5 standard errors: false alarm below
   * 1e-6.
   */
  @Test
  void noiseThatIsReadWithTheQuantityHidesIt() {
    double sigma = 8 * 0.0125;
    Setup setup = Setup.ideal(1e6, 4000).converterNoise(new ConverterNoise(0.0125));
    Signal sine = Signals.sine(0.1 * Math.sqrt(2), 10e3);
    Sensitivity s = of(Readings.acRms(), sine, setup);
    double above = 0;
    double below = 0;
    for (int k = 0; k < 8; k++) {
      double h = 0.05 + 0.1 * k / 7;
      double change = Math.hypot(0.1 * (1 + h), sigma) - Math.hypot(0.1 * (1 - h), sigma);
      above += change * 0.2 * h;
      below += 0.04 * h * h;
    }
    // noise and sine meet by chance: sigma/sqrt(N) of the sine, by pair
    assertEquals(above / below, s.value(), 5 * s.standardError() + 1e-3);
    assertTrue(s.standardError() > 0 && s.standardError() < 0.01, "u = " + s.standardError());
    assertEquals(100, s.pairs());
  }

  /**
   * What a corrected reading means: another quantity than the assumed one, 30 % larger, is within
   * its 95 % interval in 95 % of fresh captures. 1000 of them, five standard deviations of a
   * binomial share: false alarm below 1e-6. Less its bias alone, the reading would be off by 0.3 (1
   * - S), some 13 standard deviations.
   */
  @Test
  void aCorrectedReadingCoversAnotherQuantity() {
    Setup setup =
        Setup.ideal(1e9, 1000)
            .limit(Bandwidth.singlePole(10e6))
            .converterNoise(new ConverterNoise(0.005));
    double half = 1 / Math.sqrt(2);
    Signal assumed = Signals.sine(1, 10e6);
    Assessment a = assessed(Readings.acRms(), assumed, setup, Tolerances.none());
    double s = a.sensitivity().orThrow().value();
    assertEquals(half, s, 0.01);
    Signal there = assumed.times(1.3);
    double truth = 1.3 * half;
    int covered = 0;
    int bare = 0;
    int n = 1000;
    for (int i = 0; i < n; i++) {
      double read = Readings.acRms().of(setup.capture(there, 1_000_000 + i)).orThrow();
      Distribution known = a.corrected(read);
      covered += truth > known.quantile(0.025) && truth < known.quantile(0.975) ? 1 : 0;
      double error = read - truth - a.bias().orThrow();
      bare += Math.abs(error) < 2 * a.standardUncertainty().orThrow() ? 1 : 0;
    }
    assertEquals(0.95, (double) covered / n, 5 * Math.sqrt(0.95 * 0.05 / n) + 0.005);
    assertEquals(0, bare);
  }

  /** Steps of a converter coarser than the moves: sizes differ, so that it is told. */
  @Test
  void aLatticeTooCoarseToFollowIsTold() {
    Setup coarse = Setup.ideal(1e6, 100).vertical(VerticalScale.of(10)).bits(2); // 20 V a step
    Sensitivity s = of(Readings.peakToPeak(), Signals.sine(1, 1e5).plus(0.3), coarse);
    assertFalse(s.follows(), s.toString());
    assertEquals(8, s.pairs());
    Setup fine = Setup.ideal(1e6, 100).vertical(VerticalScale.of(1)).bits(12);
    assertEquals(1, of(Readings.peakToPeak(), Signals.sine(1, 125e3), fine).value(), 0.02);
  }

  /** A screen filled to 98 % clips what is moved up: then the other way alone is looked at. */
  @Test
  void aFullScreenIsMovedInward() {
    Setup setup = Setup.ideal(1e9, 1000).vertical(VerticalScale.of(0.25)).bits(12); // 2 V in all
    Sensitivity s = of(Readings.peakToPeak(), Signals.sine(0.98, 10e6), setup);
    assertEquals(1, s.value(), 2e-3);
    // RMS is taken of a clipped record too, and would be less than it is
    assertEquals(1, of(Readings.acRms(), Signals.sine(0.98, 10e6), setup).value(), 2e-3);
  }

  /** A trigger holds the record to its event, and the level stays within the shifted signal. */
  @Test
  void aTriggeredRecordIsMovedToo() {
    Signal train = Signals.trapezoid(0, 0.01, 1e-6, 0.5, 0.1e-6, 0.1e-6).plus(1);
    Setup setup = Setup.ideal(1e9, 4000).trigger(Trigger.at(1.005));
    assertEquals(1, of(Readings.maximum(), train, setup).value(), 2e-3);
    assertEquals(1, of(PulseReadings.riseTime(), train, setup).value(), 5e-3);
    assertEquals(1, of(PulseReadings.period(), train, setup).value(), 1e-3);
  }

  @Test
  void theNumberOfThreadsChangesNothing() {
    Setup setup =
        Setup.ideal(1e9, 500)
            .converterNoise(new ConverterNoise(0.001))
            .bits(8)
            .bandwidth(Bandwidth.singlePole(50e6));
    Measurement m = new Measurement(Signals.trapezoid(0, 3, 100e-9, 0.5, 10e-9, 10e-9), setup);
    List<Reading> readings =
        List.of(
            Readings.rms(),
            PulseReadings.riseTime(),
            Readings.maximum(),
            PulseReadings.of(PulseQuantity.OVERSHOOT_RISING));
    List<Outcome<Sensitivity>> one = sensitivities(readings, m, FEW.withThreads(1));
    assertEquals(one, sensitivities(readings, m, FEW.withThreads(8)));
    assertFalse(one.equals(sensitivities(readings, m, FEW.withSeed(1))));
  }

  private static List<Outcome<Sensitivity>> sensitivities(
      List<Reading> readings, Measurement m, AssessmentMethod method) {
    return Assessment.of(readings, m, Tolerances.none(), method).stream()
        .map(Assessment::sensitivity)
        .toList();
  }

  /** The slowest sine there can be is made faster alone, and followed. */
  @Test
  void aSignalThatCannotBeSlowerIsMadeFaster() {
    Sensitivity s = of(PulseReadings.period(), Signals.sine(1, 1e-9), Setup.ideal(1e-7, 1000));
    assertEquals(1, s.value(), 1e-3);
  }

  /** A mean of zero is moved by shifts, and so is a still voltage of any size. */
  @Test
  void stillVoltagesAreShifted() {
    for (double volts : new double[] {0, 3.3, -0.1, 1e6}) {
      for (Reading reading : List.of(Readings.mean(), Readings.maximum())) {
        Sensitivity s = of(reading, Signals.constant(volts), Setup.ideal(1e6, 7));
        assertEquals(Move.SHIFT, s.move());
        assertEquals(1, s.value(), 1e-9, volts + " V");
      }
    }
    assertEquals(1, of(Readings.mean(), Signals.sine(1, 1e5), Setup.ideal(1e6, 100)).value(), 1e-9);
  }

  @Test
  void whereThereIsNoTruthThereIsNoSensitivity() {
    Assessment a =
        assessed(PulseReadings.riseTime(), Signals.constant(1), Setup.ideal(1e6, 10), VOLTS_UNSURE);
    assertFalse(a.sensitivity().isTaken());
    assertEquals(a.truth().toString(), a.sensitivity().toString());
    assertEquals(a.truth(), a.correctedStandardUncertainty());
  }

  @Test
  void itCanBeCancelled() {
    assertThrows(
        CancellationException.class,
        () ->
            Assessment.of(
                List.of(Readings.mean()),
                new Measurement(Signals.constant(1), Setup.ideal(1e6, 4)),
                Tolerances.none(),
                METHOD.withProgress((done, most) -> false)));
  }

  @Test
  void wordsAndBadInput() {
    assertEquals(
        "a change of the quantity shows by 0.34 % in the reading",
        new Sensitivity(Move.SPREAD, 0.0034, 0.001, 8, 0.002, "V").toString());
    assertEquals(
        "a change of the quantity shows by 121 % in the reading",
        new Sensitivity(Move.SPREAD, 1.2091, 0.001, 8, 0.002, "V").toString());
    assertEquals(
        "the reading cannot be told to follow the quantity: a change of 2 mV changes it by 20 uV with a"
            + " standard error of 10 uV",
        new Sensitivity(Move.SPREAD, 0.01, 0.005, 8, 0.002, "V").toString());
    Refusals.absent("move", () -> new Sensitivity(null, 1, 0, 8, 1, "V"));
    Refusals.absent("unit", () -> new Sensitivity(Move.SHIFT, 1, 0, 8, 1, null));
    for (double bad : new double[] {Double.NaN, Double.POSITIVE_INFINITY}) {
      assertThrows(
          IllegalArgumentException.class, () -> new Sensitivity(Move.SHIFT, bad, 0, 8, 1, "V"));
      assertThrows(
          IllegalArgumentException.class, () -> new Sensitivity(Move.SHIFT, 1, bad, 8, 1, "V"));
      assertThrows(
          IllegalArgumentException.class, () -> new Sensitivity(Move.SHIFT, 1, 0, 8, bad, "V"));
    }
    assertThrows(
        IllegalArgumentException.class, () -> new Sensitivity(Move.SHIFT, 1, -1, 8, 1, "V"));
    assertThrows(
        IllegalArgumentException.class, () -> new Sensitivity(Move.SHIFT, 1, 0, 1, 1, "V"));
    assertThrows(
        IllegalArgumentException.class, () -> new Sensitivity(Move.SHIFT, 1, 0, 8, 0, "V"));
  }
}
