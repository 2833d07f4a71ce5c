package org.asmeasured.accuracy;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.concurrent.CancellationException;
import org.asmeasured.capture.Setup;
import org.asmeasured.digitizer.ConverterNoise;
import org.asmeasured.frontend.Bandwidth;
import org.asmeasured.frontend.VerticalScale;
import org.asmeasured.measure.Measured;
import org.asmeasured.measure.Outcome;
import org.asmeasured.measure.Readings;
import org.asmeasured.pulse.PulseReadings;
import org.asmeasured.signal.Signal;
import org.asmeasured.signal.Signals;
import org.asmeasured.uncertainty.Agreement;
import org.asmeasured.uncertainty.BudgetLine;
import org.asmeasured.uncertainty.Distribution;
import org.asmeasured.uncertainty.GlobalRisk;
import org.asmeasured.uncertainty.Input;
import org.asmeasured.uncertainty.MonteCarlo;
import org.asmeasured.uncertainty.Propagated;
import org.asmeasured.uncertainty.RuleOfThree;
import org.asmeasured.uncertainty.Tolerance;
import org.junit.jupiter.api.Test;

class AssessmentTest {
  private static final double FULL_SCALE = 8;

  private static Measurement still(double volts, int points) {
    return new Measurement(Signals.constant(volts), Setup.ideal(1e6, points));
  }

  private static Assessment one(Measurement m, Tolerances t) {
    return Assessment.of(List.of(Readings.mean()), m, t, method()).get(0);
  }

  private static AssessmentMethod method() {
    return AssessmentMethod.usual().withTrials(MonteCarlo.ofTrials(0.95, 4096)).withThreads(1);
  }

  /** Mean of a still voltage: y = V (1 + g) + o F, so u^2 = (V u_g)^2 + (F u_o)^2. */
  @Test
  void gainAndOffsetFollowTheirClosedForm() {
    Tolerances t =
        Tolerances.none()
            .with(Parameters.gainError(), Distribution.normal(0.002, 0.01))
            .with(Parameters.offsetError(), Distribution.rectangular(-0.006, 0.006));
    Assessment a = one(still(2, 10), t);
    double u = Math.sqrt(0.02 * 0.02 + Math.pow(FULL_SCALE * 0.006, 2) / 3);
    assertEquals(2, a.truth().orThrow(), 0);
    assertEquals(0.004, a.bias().orThrow(), 1e-12);
    assertEquals(2.004, a.measured().orThrow(), 1e-12);
    assertEquals(u, a.standardUncertainty().orThrow(), 1e-12);
    Propagated law = a.law().orThrow();
    assertEquals(0.004, law.estimate(), 1e-12);
    assertEquals(u, law.standardUncertainty(), 1e-12);
    assertEquals(2, law.budget().get(0).sensitivity(), 1e-9);
    assertEquals(FULL_SCALE, law.budget().get(1).sensitivity(), 1e-9);
    assertEquals(0, a.repeatability().orThrow(), 0);
    assertEquals(u, a.reproducibility().orThrow(), 1e-12);
  }

  /** r = 1 between the two: u = V u_g + F u_o. */
  @Test
  void correlatedTolerancesAddUp() {
    Tolerances t =
        Tolerances.none()
            .with(Parameters.gainError(), Distribution.normal(0, 0.01))
            .with(Parameters.offsetError(), Distribution.normal(0, 0.001))
            .correlated("gain error", "offset error", 1);
    Assessment a = one(still(2, 10), t);
    double u = 2 * 0.01 + FULL_SCALE * 0.001;
    assertEquals(u, a.law().orThrow().standardUncertainty(), 1e-12);
    assertEquals(u, a.standardUncertainty().orThrow(), 1e-9 * u);
  }

  /** y = V g1 + V g2 + F o with r = 0.9 among all three, of which no two can stand alone. */
  @Test
  void correlationsOfSeveralAreStatedAtOnce() {
    Tolerances t =
        Tolerances.none()
            .with(Parameters.gainError(), Distribution.normal(0, 0.01))
            .with(Parameters.offsetError(), Distribution.normal(0, 0.001))
            .plus(Input.of("drift", "V", Distribution.normal(0, 0.004)))
            .correlated(
                List.of("drift", "gain error", "offset error"),
                new double[][] {{1, 0.9, 0.95}, {0.9, 1, 0.9}, {0.95, 0.9, 1}});
    Assessment a = one(still(2, 10), t);
    double g = 0.02;
    double o = FULL_SCALE * 0.001;
    double d = 0.004;
    double square = g * g + o * o + d * d + 2 * (0.9 * g * d + 0.95 * o * d + 0.9 * g * o);
    assertEquals(Math.sqrt(square), a.law().orThrow().standardUncertainty(), 1e-12);
    assertEquals(Math.sqrt(square), a.standardUncertainty().orThrow(), 1e-9);
    IllegalArgumentException impossible =
        assertThrows(
            IllegalArgumentException.class,
            () ->
                t.correlated(
                    List.of("drift", "gain error", "offset error"),
                    new double[][] {{1, 0.9, -0.9}, {0.9, 1, 0.9}, {-0.9, 0.9, 1}}));
    assertTrue(impossible.getMessage().startsWith("least eigenvalue of the stated correlations"));
    assertThrows(
        IllegalArgumentException.class,
        () -> t.correlated(List.of("drift", "nobody"), new double[][] {{1, 0}, {0, 1}}));
    assertThrows(
        IllegalArgumentException.class,
        () -> t.correlated(List.of("drift", "gain error"), new double[][] {{1, 0}}));
  }

  /**
   * White noise of the converter alone: the mean of N points scatters by sigma/sqrt(N). 4096 trials
   * and 400 captures; 5 standard deviations of a sample deviation, sigma/sqrt(2 n): false alarm
   * below 1e-6.
   */
  @Test
  void noiseIsRepeatabilityAndTolerancesAreNot() {
    Measurement m = still(1, 16);
    m = m.withSetup(m.setup().converterNoise(new ConverterNoise(0.001)));
    double scatter = FULL_SCALE * 0.001 / 4;
    Tolerances t = Tolerances.none().with(Parameters.gainError(), Distribution.normal(0, 0.003));
    Assessment a = Assessment.of(List.of(Readings.mean()), m, t, method().withCaptures(400)).get(0);
    assertEquals(scatter, a.repeatability().orThrow(), 5 * scatter / Math.sqrt(2 * 399));
    double u = Math.hypot(scatter, 0.003);
    assertEquals(u, a.standardUncertainty().orThrow(), 5 * u / Math.sqrt(2 * 4095));
    assertEquals(0.003, a.reproducibility().orThrow(), 5e-4);
    List<BudgetLine> budget = a.law().orThrow().budget();
    assertEquals("repeatability", budget.get(1).input().name());
    assertEquals(399, budget.get(1).input().degreesOfFreedom(), 0);
    assertEquals(a.repeatability().orThrow(), budget.get(1).contribution(), 1e-15);
    assertTrue(a.agreement().orThrow().agrees());
  }

  /** No parameter is uncertain, and noise alone makes the trials. */
  @Test
  void noiseWithoutTolerancesIsAssessed() {
    Measurement m = still(1, 16);
    m = m.withSetup(m.setup().converterNoise(new ConverterNoise(0.001)));
    Assessment a = one(m, Tolerances.none());
    double u = FULL_SCALE * 0.001 / 4;
    assertEquals(u, a.standardUncertainty().orThrow(), 5 * u / Math.sqrt(2 * 4095));
    assertEquals(1, a.law().orThrow().budget().size());
  }

  @Test
  void whereNothingVariesItSaysSo() {
    Assessment a = one(still(1, 4), Tolerances.none());
    assertEquals(0, a.bias().orThrow(), 0);
    assertFalse(a.standardUncertainty().isTaken());
    assertFalse(a.law().isTaken());
    assertFalse(a.interval().isTaken());
    assertFalse(a.agreement().isTaken());
    assertFalse(a.decide(Tolerance.atMost(2)).isTaken());
    assertFalse(a.smallestUpperLimit(0.05).isTaken());
    assertThrows(IllegalStateException.class, a::asRead);
  }

  /** A fraction of the reading and an error in volts: u^2 = (V f)^2 + o^2; seconds do not count. */
  @Test
  void contributionsAddToReadingsOfTheirUnit() {
    Tolerances t =
        Tolerances.none()
            .plus(Input.of("certificate", "V", Distribution.normal(0.001, 0.004)))
            .plus(Input.of("clock", "s", Distribution.normal(0, 1)))
            .plusRelative(Input.of("temperature", "", Distribution.rectangular(-0.003, 0.003)));
    Assessment a = one(still(2, 4), t);
    double u = Math.hypot(0.004, 2 * 0.003 / Math.sqrt(3));
    assertEquals(0.001, a.bias().orThrow(), 1e-9);
    assertEquals(u, a.law().orThrow().standardUncertainty(), 2e-5 * u);
    assertEquals(u, a.standardUncertainty().orThrow(), 2e-5 * u);
    assertEquals(2, a.law().orThrow().budget().size());
  }

  /** A measurand that is larger is no error: a factor on the signal leaves none. */
  @Test
  void theTruthFollowsTheSignal() {
    Tolerances t =
        Tolerances.none().with(Parameters.signalFactor(), Distribution.rectangular(0.9, 1.1));
    Assessment a = one(still(2, 4), t);
    assertEquals(0, a.bias().orThrow(), 1e-15);
    assertEquals(0, a.standardUncertainty().orThrow(), 1e-15);
  }

  /** A single pole of bandwidth B takes 1/sqrt(1 + (f/B)^2) of a sine; slope by its derivative. */
  @Test
  void aBandwidthHasItsClosedFormSensitivity() {
    Signal sine = Signals.sine(1, 100e6);
    Setup setup =
        Setup.ideal(10e9, 1000).bandwidth(Bandwidth.singlePole(200e6)); // ten whole cycles
    Tolerances t = Tolerances.none().with(Parameters.bandwidth(), Distribution.normal(200e6, 1e3));
    Assessment a =
        Assessment.of(List.of(Readings.rms()), new Measurement(sine, setup), t, method()).get(0);
    double r = 0.5;
    double gain = 1 / Math.sqrt(1 + r * r);
    double slope = Math.sqrt(0.5) * gain * gain * gain * r * r / 200e6;
    assertEquals(Math.sqrt(0.5) * (gain - 1), a.bias().orThrow(), 1e-9);
    assertEquals(slope, a.law().orThrow().budget().get(0).sensitivity(), 1e-6 * slope);
    assertEquals(slope * 1e3, a.standardUncertainty().orThrow(), 1e-5 * slope * 1e3);
  }

  /** Normal errors about a bias: closed forms of the normal distribution, 2^16 Sobol trials. */
  @Test
  void verdictsCountAnUncorrectedBiasAgainstTheReading() {
    Tolerances t = Tolerances.none().plus(Input.of("error", "V", Distribution.normal(0.5, 0.1)));
    Assessment a =
        Assessment.of(
                List.of(Readings.mean()),
                still(1, 1),
                t,
                method().withTrials(MonteCarlo.ofTrials(0.95, 1 << 16)))
            .get(0);
    assertEquals(1.5, a.measured().orThrow(), 1e-6);
    assertEquals(1.5, a.asRead().estimate(), 1e-6);
    assertEquals(1, a.corrected().estimate(), 1e-6);
    // true 1, read 1.5: below 1.3 it is, and does not look so
    Verdict between = a.decide(Tolerance.atMost(1.3)).orThrow();
    assertEquals(Verdict.Ruling.UNDECIDED, between.ruling());
    assertEquals("cannot be decided with this setup", between.toString());
    assertEquals(0.9987, between.corrected().orElseThrow(), 2e-4); // Phi(3)
    assertEquals(0.0228, between.asRead(), 2e-4); // Phi(-2)
    Verdict passes = a.decide(Tolerance.atMost(1.7)).orThrow();
    assertEquals(Verdict.Ruling.PASSES, passes.ruling());
    assertEquals(0.0228, passes.risk(), 2e-4);
    Verdict fails = a.decide(Tolerance.between(0, 0.8)).orThrow();
    assertEquals(Verdict.Ruling.FAILS, fails.ruling());
    assertEquals(0.0228, fails.risk(), 2e-4);
    assertEquals(
        Verdict.Ruling.UNDECIDED, a.decide(Tolerance.atMost(1.7), 0.01).orThrow().ruling());
    Verdict sure = a.decide(Tolerance.atMost(3)).orThrow();
    assertTrue(sure.riskIsBelowResolution());
    assertEquals("passes, risk of a wrong pass below 0.0046 %", sure.toString());
    // quantile of 5 %: 1.645 standard deviations beyond the worse of both
    assertEquals(1.5 + 0.1645, a.smallestUpperLimit(0.05).orThrow(), 2e-4);
    assertEquals(1 - 0.1645, a.greatestLowerLimit(0.05).orThrow(), 2e-4);
    assertEquals(2.5, a.corrected(3).estimate(), 1e-6);
  }

  /** N(1, 0.01), limit 4.5 u above: the risk is Phi(-4.5) = 3.4e-6, and 4096 trials show none. */
  @Test
  void aRiskThatTheTrialsCannotShowIsNotGranted() {
    Tolerances t = Tolerances.none().plus(Input.of("error", "V", Distribution.normal(0, 0.01)));
    Assessment few =
        Assessment.of(
                List.of(Readings.mean()),
                still(1, 1),
                t,
                method().withTrials(MonteCarlo.ofTrials(0.95, 4096)))
            .get(0);
    String why = "too few trials for this risk: 4096 trials show no risk below 0.073 %";
    Verdict v = few.decide(Tolerance.atMost(1.045), 1e-9).orThrow();
    assertEquals(Verdict.Ruling.UNDECIDED, v.ruling());
    assertTrue(v.needsMoreTrials());
    assertEquals("cannot be decided: " + why, v.toString());
    Verdict fail = few.decide(Tolerance.atMost(0.955), 1e-4).orThrow();
    assertEquals(Verdict.Ruling.UNDECIDED, fail.ruling());
    assertEquals(why, fail.reason().orElseThrow());
    // more trials would not decide about half and half
    Verdict half = few.decide(Tolerance.atMost(1), 1e-4).orThrow();
    assertFalse(half.needsMoreTrials());
    assertEquals("cannot be decided with this setup", half.toString());
    for (double risk : new double[] {1e-9, 1e-4, Math.nextDown(3.0 / 4096)}) {
      assertEquals(new Measured.NotTaken(why), few.smallestUpperLimit(risk));
      assertEquals(new Measured.NotTaken(why), few.greatestLowerLimit(risk));
    }
    assertTrue(few.smallestUpperLimit(3.0 / 4096).isTaken());
    assertEquals(
        Verdict.Ruling.PASSES, few.decide(Tolerance.atMost(1.045), 1e-3).orThrow().ruling());
    // enough of them: the quantile of a normal distribution, 3.719 u for 1e-4
    Assessment enough =
        Assessment.of(
                List.of(Readings.mean()),
                still(1, 1),
                t,
                method()
                    .withTrials(
                        MonteCarlo.forStandardUncertainty(1).withAtLeast(RuleOfThree.trials(1e-4))))
            .get(0);
    assertEquals(30 * 1024, enough.trials().orThrow().trials());
    // three of the outermost trials: the scatter of that quantile is some 0.15 u
    assertEquals(1.0372, enough.smallestUpperLimit(1e-4).orThrow(), 5 * 0.0015);
    assertEquals(
        Verdict.Ruling.PASSES, enough.decide(Tolerance.atMost(1.05), 1e-4).orThrow().ruling());
  }

  /** A limit that is verified is decided, and one nearer by a fifth of u is not. */
  @Test
  void aVerifiedLimitIsTheSmallestThatPasses() {
    Tolerances t = Tolerances.none().plus(Input.of("error", "V", Distribution.normal(0.02, 0.1)));
    Assessment a = one(still(1, 1), t);
    for (double risk : new double[] {0.5, 0.31, 0.05, 0.0123, 0.001}) {
      double upper = a.smallestUpperLimit(risk).orThrow();
      assertEquals(
          Verdict.Ruling.PASSES, a.decide(Tolerance.atMost(upper), risk).orThrow().ruling());
      assertNotEquals(
          Verdict.Ruling.PASSES, a.decide(Tolerance.atMost(upper - 0.02), risk).orThrow().ruling());
      double lower = a.greatestLowerLimit(risk).orThrow();
      assertEquals(
          Verdict.Ruling.PASSES, a.decide(Tolerance.atLeast(lower), risk).orThrow().ruling());
      assertNotEquals(
          Verdict.Ruling.PASSES,
          a.decide(Tolerance.atLeast(lower + 0.02), risk).orThrow().ruling());
    }
  }

  private static Assessment normal(double bias, double u) {
    return Assessment.of(
            List.of(Readings.mean()),
            still(1, 1),
            Tolerances.none().plus(Input.of("error", "V", Distribution.normal(bias, u))),
            method().withTrials(MonteCarlo.ofTrials(0.95, 1 << 16)))
        .get(0);
  }

  /** N(1, 0.1) of 2^16 even trials: T = 1.960 u about the truth; 1.645 u from one far nominal. */
  @Test
  void theSmallestToleranceHasTheRiskOfBothLimits() {
    Assessment a = normal(0, 0.1);
    double t = a.smallestTolerance(1, 0.05).orThrow();
    assertEquals(0.195996, t, 2e-4);
    assertEquals(
        Verdict.Ruling.PASSES, a.decide(Tolerance.between(1 - t, 1 + t), 0.05).orThrow().ruling());
    // two limits that are verified each by itself: 5 % beyond either
    Tolerance each =
        Tolerance.between(
            a.greatestLowerLimit(0.05).orThrow(), a.smallestUpperLimit(0.05).orThrow());
    assertEquals(Verdict.Ruling.UNDECIDED, a.decide(each, 0.05).orThrow().ruling());
    assertEquals(1.16449, a.smallestTolerance(0, 0.05).orThrow(), 2e-4);
    // read 1.3, true 1: the worse of both
    Assessment biased = normal(0.3, 0.1);
    double worse = biased.smallestTolerance(1, 0.05).orThrow();
    assertEquals(0.3 + 0.164485, worse, 2e-4);
    assertEquals(
        Verdict.Ruling.PASSES,
        biased.decide(Tolerance.between(1 - worse, 1 + worse), 0.05).orThrow().ruling());
    assertFalse(normal(0, 0.1).smallestTolerance(1, 1e-5).isTaken());
    assertThrows(IllegalArgumentException.class, () -> a.smallestTolerance(Double.NaN, 0.05));
    assertThrows(IllegalArgumentException.class, () -> a.smallestTolerance(1, 0));
    assertThrows(IllegalArgumentException.class, () -> a.smallestTolerance(1, 0.6));
  }

  /** w = 1.645 u (JCGM 106, 8.3.2) of one limit, and of two that are far apart. */
  @Test
  void guardBandsMoveTheLimitsInward() {
    Assessment a = normal(0.2, 0.1);
    for (Tolerance t :
        List.of(Tolerance.atMost(2), Tolerance.atLeast(0), Tolerance.between(0, 2))) {
      assertEquals(0.164485, a.guardBand(t, 0.05).orThrow(), 2e-4, t.toString());
    }
    Measured narrow = a.guardBand(Tolerance.between(0.9, 1.1), 0.05);
    assertTrue(narrow.toString().contains("too narrow for this uncertainty"), narrow.toString());
    Measured few = a.guardBand(Tolerance.atMost(2), 1e-6);
    assertTrue(few.toString().contains("too few trials for this risk"), few.toString());
    assertThrows(NullPointerException.class, () -> a.guardBand(null, 0.05));
    assertThrows(IllegalArgumentException.class, () -> a.guardBand(Tolerance.atMost(1), 0.6));
    assertFalse(one(still(1, 4), Tolerances.none()).guardBand(Tolerance.atMost(1), 0.1).isTaken());
  }

  /**
   * Limits at the mean of a production: half conforms, and of u_m/u_0 = 1 a share of 1/4 -
   * atan(1)/(2 pi) = 1/8 is accepted and does not conform, and as much the other way (JCGM 106,
   * 9.5, clause from memory; orthant probability of a binormal distribution).
   */
  @Test
  void risksOfAProduction() {
    Assessment a = normal(0.2, 0.1);
    Distribution production = Distribution.normal(1.5, 0.1);
    Tolerance limit = Tolerance.atMost(1.5);
    GlobalRisk simple = a.globalRisk(production, limit, limit).orThrow();
    assertEquals(0.5, simple.conforming(), 1e-12);
    assertEquals(0.125, simple.consumersRisk(), 1e-5);
    assertEquals(0.125, simple.producersRisk(), 1e-5);
    GlobalRisk guarded =
        a.globalRisk(production, limit, limit.guarded(a.guardBand(limit, 0.05).orThrow()))
            .orThrow();
    assertTrue(guarded.consumersRisk() < 0.05 && guarded.producersRisk() > 0.25);
    assertFalse(one(still(1, 4), Tolerances.none()).globalRisk(production, limit, limit).isTaken());
    assertThrows(NullPointerException.class, () -> a.globalRisk(null, limit, limit));
    assertThrows(NullPointerException.class, () -> a.globalRisk(production, null, limit));
    assertThrows(NullPointerException.class, () -> a.globalRisk(production, limit, null));
  }

  @Test
  void theNumberOfThreadsChangesNothing() {
    Measurement m = still(1, 64);
    m = m.withSetup(m.setup().converterNoise(new ConverterNoise(0.001)).bits(8));
    Tolerances t = Tolerances.none().with(Parameters.gainError(), Distribution.normal(0, 0.003));
    List<Assessment> single =
        Assessment.of(List.of(Readings.mean(), Readings.peakToPeak()), m, t, method());
    List<Assessment> many =
        Assessment.of(
            List.of(Readings.mean(), Readings.peakToPeak()), m, t, method().withThreads(8));
    for (int r = 0; r < 2; r++) {
      assertEquals(single.get(r).toString(), many.get(r).toString());
      assertEquals(single.get(r).bias(), many.get(r).bias());
      assertEquals(single.get(r).standardUncertainty(), many.get(r).standardUncertainty());
      assertEquals(single.get(r).repeated(), many.get(r).repeated());
      assertEquals(
          single.get(r).law().orThrow().standardUncertainty(),
          many.get(r).law().orThrow().standardUncertainty());
    }
  }

  /** The trials are the same without the law of propagation; what is its own is not there. */
  @Test
  void trialsDoNotNeedTheLaw() {
    Measurement m = still(1, 64);
    m = m.withSetup(m.setup().converterNoise(new ConverterNoise(0.001)).bits(8));
    Tolerances t = Tolerances.none().with(Parameters.gainError(), Distribution.normal(0, 0.003));
    Assessment both = Assessment.of(List.of(Readings.mean()), m, t, method()).get(0);
    Assessment alone =
        Assessment.of(List.of(Readings.mean()), m, t, method().byTrialsAlone()).get(0);
    assertEquals(both.toString(), alone.toString());
    assertEquals(both.standardUncertainty(), alone.standardUncertainty());
    assertEquals(both.repeated(), alone.repeated());
    assertEquals(
        both.decide(Tolerance.atMost(1.01)).orThrow(),
        alone.decide(Tolerance.atMost(1.01)).orThrow());
    assertTrue(both.law().isTaken());
    assertEquals(
        "the law of propagation was not asked for", ((Outcome.NotTaken<?>) alone.law()).reason());
    assertEquals(
        "the law of propagation was not asked for",
        ((Outcome.NotTaken<?>) alone.agreement()).reason());
  }

  /** The quantiser's step is no straight line: a wide one makes the methods disagree. */
  @Test
  void disagreementOfTheMethodsIsSaid() {
    Measurement m = still(0.4, 1);
    m = m.withSetup(m.setup().vertical(VerticalScale.of(1)).bits(3)); // steps of 1 V
    Tolerances t =
        Tolerances.none().with(Parameters.offsetError(), Distribution.rectangular(-0.03, 0.03));
    Assessment a = one(m, t);
    Agreement agreement = a.agreement().orThrow();
    assertFalse(agreement.agrees());
    assertTrue(agreement.sentence().contains("disagree"));
  }

  @Test
  void aToleranceThatCannotBeIsRefusedByName() {
    Setup setup = Setup.ideal(1e9, 10).bandwidth(Bandwidth.singlePole(1e6));
    Measurement m = new Measurement(Signals.constant(1), setup);
    Tolerances t = Tolerances.none().with(Parameters.bandwidth(), Distribution.normal(1e6, 0.4e6));
    IllegalArgumentException refused =
        assertThrows(IllegalArgumentException.class, () -> one(m, t));
    assertTrue(refused.getMessage().startsWith("bandwidth (normal, "), refused.getMessage());
    Tolerances none =
        Tolerances.none().with(Parameters.trimmerError(), Distribution.normal(0, 0.1));
    assertThrows(IllegalArgumentException.class, () -> one(m, none));
    assertThrows(
        IllegalArgumentException.class,
        () -> Assessment.of(List.of(), m, Tolerances.none(), method()));
  }

  @Test
  void itCanBeCancelled() {
    Tolerances t = Tolerances.none().with(Parameters.gainError(), Distribution.normal(0, 0.003));
    assertThrows(
        CancellationException.class,
        () ->
            Assessment.of(
                List.of(Readings.mean()),
                still(1, 4),
                t,
                method().withProgress((done, most) -> false)));
    Thread.currentThread().interrupt();
    assertThrows(CancellationException.class, () -> one(still(1, 4), t));
    assertTrue(Thread.interrupted());
  }

  @Test
  void aReadingThatIsNotTakenGivesItsReason() {
    Assessment a =
        Assessment.of(
                List.of(PulseReadings.riseTime()),
                still(1, 4),
                Tolerances.none().with(Parameters.gainError(), Distribution.normal(0, 0.1)),
                method())
            .get(0);
    assertFalse(a.truth().isTaken());
    assertFalse(a.measured().isTaken());
    assertTrue(a.decide(Tolerance.atMost(1)) instanceof Outcome.NotTaken<Verdict>);
  }
}
