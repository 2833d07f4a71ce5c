package org.asmeasured.advice;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.concurrent.CancellationException;
import java.util.concurrent.atomic.AtomicInteger;
import org.asmeasured.accuracy.Measurement;
import org.asmeasured.accuracy.Parameters;
import org.asmeasured.accuracy.Tolerances;
import org.asmeasured.acquisition.Boxcar;
import org.asmeasured.acquisition.Pick;
import org.asmeasured.acquisition.Trigger;
import org.asmeasured.capture.Setup;
import org.asmeasured.digitizer.ConverterNoise;
import org.asmeasured.frontend.Bandwidth;
import org.asmeasured.frontend.Coupling;
import org.asmeasured.measure.Outcome;
import org.asmeasured.measure.Reading;
import org.asmeasured.measure.Readings;
import org.asmeasured.pulse.PulseQuantity;
import org.asmeasured.pulse.PulseReadings;
import org.asmeasured.signal.Signals;
import org.asmeasured.uncertainty.Distribution;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.function.Executable;

class AdviceTest {
  private static final Tolerances USUAL =
      Tolerances.none()
          .with(Parameters.gainError(), Distribution.normal(0, 0.01))
          .with(Parameters.offsetError(), Distribution.rectangular(-0.01, 0.01));

  private static Measurement still(double volts) {
    return new Measurement(Signals.constant(volts), Setup.ideal(1e6, 10));
  }

  private static Advice advice(Reading reading, Measurement m, Tolerances t, Choices c) {
    return Advice.of(reading, m, t, c, AdviceMethod.usual()).orThrow();
  }

  /** Scores 2 sqrt((V u_g)^2 + (F u_o)^2) of every scale, exactly; the finest is best. */
  @Test
  void scoresFollowTheirClosedForm() {
    Advice a = advice(Readings.mean(), still(2), USUAL, Choices.none().scales(1, 0.5, 0.2, 2));
    double[] scales = {0.2, 0.5, 1, 2};
    assertEquals(4, a.ranking().size());
    for (int i = 0; i < 4; i++) {
      double u = Math.hypot(0.02, 8 * scales[i] * 0.01 / Math.sqrt(3));
      Candidate c = a.ranking().get(i);
      assertEquals(scales[i], c.setup().vertical().voltsPerDivision());
      assertEquals(2 * u, c.score(), 1e-9);
      assertEquals(0, c.bias(), 1e-12);
      assertEquals(2, c.measured(), 1e-12);
      assertEquals(0, c.scoreError(), 1e-9);
      assertEquals(1e-5, c.acquisitionSeconds().orElseThrow(), 1e-18);
    }
    assertEquals(0, a.margin(), 1e-9);
    assertTrue(a.isExhaustive());
    assertFalse(a.isBudgetSpent());
    assertEquals(List.of("200 mV per division"), a.best().orElseThrow().settings());
    assertEquals(List.of(), a.ranking().get(2).settings(), "1 V per division is as asked");
    assertEquals(a.ranking().get(2).score(), a.asked().orThrow().score(), 1e-9);
    assertEquals(
        "mean: 200 mV per division: 2.000 V +/- 0.044 V; true value 2 V; "
            + "of 4 combinations none is better by more than 0 V",
        a.toString().replaceAll("more than .* V$", "more than 0 V"));
  }

  /** Bias counts by its modulus: |V g| + 2 V u_g, and a gain of one's own that takes it away. */
  @Test
  void biasCountsByItsModulus() {
    Choices c =
        Choices.none()
            .own(
                "trim",
                Alternative.of("trimmed", s -> s.vertical(s.vertical().withGainError(0))),
                Alternative.of("low", s -> s.vertical(s.vertical().withGainError(-0.03))),
                Alternative.of("high", s -> s.vertical(s.vertical().withGainError(0.02))));
    Measurement m = still(1);
    Advice a = advice(Readings.mean(), m, Tolerances.none(), c);
    assertEquals(
        List.of(0.0, 0.02, -0.03),
        a.ranking().stream()
            .map(Candidate::bias)
            .map(b -> Math.rint(b * 1e9) / 1e9 + 0.0)
            .toList());
    assertEquals(0.03, a.ranking().get(2).score(), 1e-12);
    assertEquals(0, a.ranking().get(2).standardUncertainty());
    assertEquals(3 * 1 + 0, a.trials() - 1, "where nothing varies one trial tells all");
  }

  /**
   * Averaging 64 instead of 16 gives less than the margin where the gain's tolerance rules: the
   * shorter is advised. u^2 = u_g^2 + s^2/(10 n).
   */
  @Test
  void tiesGoToTheShorter() {
    Measurement m = still(1);
    m = m.withSetup(m.setup().converterNoise(new ConverterNoise(0.002)));
    Tolerances t = Tolerances.none().with(Parameters.gainError(), Distribution.normal(0, 0.01));
    Choices c = Choices.none().averages(64, 16, 1);
    Advice a = advice(Readings.mean(), m, t, c);
    // 5.06e-3/sqrt(n): 1.12 %, 1.008 %, 1.002 % of a volt
    assertEquals(List.of("mean of 16"), a.best().orElseThrow().settings());
    assertTrue(a.margin() < 0.05 * a.best().orElseThrow().score());
    assertTrue(a.margin() > 0.002 * a.best().orElseThrow().score());
    assertEquals(16e-5, a.best().orElseThrow().acquisitionSeconds().orElseThrow(), 1e-15);
    // u^2 of the two differ by 1.2 % of it, which 65 536 common draws tell to within 0.1 %
    AdviceMethod method = AdviceMethod.usual().withMargin(1e-3).withTrials(32, 1 << 16, 2_000_000);
    Advice keen = Advice.of(Readings.mean(), m, t, c, method).orThrow();
    assertEquals(List.of("mean of 64"), keen.best().orElseThrow().settings());
  }

  /** A triggered acquisition takes its span, the rearming, and the wait for the next event. */
  @Test
  void triggeredAcquisitionsWait() {
    Setup setup = Setup.ideal(1e6, 1500).trigger(Trigger.at(0).preTrigger(0).armedAt(0));
    Measurement m = new Measurement(Signals.sine(1, 1e3), setup);
    Advice a = advice(Readings.rms(), m, Tolerances.none(), Choices.none().averages(1, 8));
    // 1.5 ms of record, and a rising crossing every 1 ms: one acquisition in 2 ms
    for (Candidate c : a.ranking()) {
      assertEquals(
          c.setup().ensemble().count() * 2e-3, c.acquisitionSeconds().orElseThrow(), 1e-12);
    }
    assertEquals(1, a.best().orElseThrow().setup().ensemble().count());
  }

  /** What clips gives no peak to peak, and says so; what cannot be set is counted. */
  @Test
  void whatGivesNoReadingIsOutWithItsReason() {
    Setup setup = Setup.ideal(1e6, 1000).bits(8);
    Measurement m = new Measurement(Signals.sine(1, 1e3).plus(3), setup);
    Choices c =
        Choices.none()
            .scalesBetween(0.1, 1)
            .offsets(0)
            .centred(2)
            .only("too coarse", s -> s.vertical().voltsPerDivision() < 0.9);
    Advice a = advice(Readings.peakToPeak(), m, USUAL, c);
    assertEquals(8, a.combinations());
    assertEquals(4, a.skipped().get("offset = 3.0 V: must be from -2.0 V to 2.0 V"));
    assertEquals(1, a.skipped().get("too coarse"));
    assertEquals(3, a.lookedAt());
    assertTrue(a.best().isEmpty());
    assertEquals(3, a.dropped().size());
    assertTrue(a.dropped().get(0).reason().contains("clipped"), a.dropped().get(0).reason());
    assertTrue(a.toString().contains("no combination gives a reading"));

    Advice wide =
        advice(Readings.peakToPeak(), m, USUAL, Choices.none().scalesBetween(0.1, 1).centred(5));
    Candidate best = wide.best().orElseThrow();
    assertEquals(0.5, best.setup().vertical().voltsPerDivision());
    assertEquals(List.of("500 mV per division", "centred at 3 V"), best.settings());
    assertTrue(wide.asked().toString().contains("clipped at the top"), "gain errors reach 4 V");
  }

  /** Behind AC coupling the middle of a sine is zero but for rounding, and is told so. */
  @Test
  void aMiddleOfNothingIsZero() {
    Measurement m =
        new Measurement(
            Signals.sine(0.01, 1e6).plus(1.8),
            Setup.ideal(500e6, 500).bandwidth(Bandwidth.gaussian(4, 200e6)).bits(8));
    Choices c = Choices.none().couplings(Coupling.ac()).scales(0.005).centred(1);
    Candidate best = advice(Readings.peakToPeak(), m, USUAL, c).best().orElseThrow();
    assertTrue(best.setup().vertical().offsetVolts() != 0, "rounding leaves something");
    assertEquals(0, best.setup().vertical().offsetVolts(), 1e-14);
    assertTrue(best.settings().contains("centred at 0 V"), best.settings().toString());
  }

  /** More combinations than may be looked at: group by group, to the same advice. */
  @Test
  void tooManyAreChosenGroupByGroup() {
    Measurement m = noisyRipple();
    Choices c =
        Choices.none()
            .scalesBetween(1e-3, 1)
            .offsets(0)
            .centred(10)
            .couplings(Coupling.dc(), Coupling.ac())
            .limits(Bandwidth.unlimited(), Bandwidth.singlePole(20e6))
            .averages(1, 16);
    Advice all = advice(Readings.peakToPeak(), m, USUAL, c);
    AdviceMethod few = AdviceMethod.usual().withMostCombinations(40);
    Advice some = Advice.of(Readings.peakToPeak(), m, USUAL, c, few).orThrow();
    assertTrue(all.isExhaustive());
    assertFalse(some.isExhaustive());
    assertTrue(some.lookedAt() < all.lookedAt());
    assertEquals(all.best().orElseThrow().setup(), some.best().orElseThrow().setup());
    assertTrue(some.toString().contains("looked at out of 160"), some.toString());
  }

  static Measurement noisyRipple() {
    Setup setup =
        Setup.ideal(50e6, 1000)
            .bandwidth(Bandwidth.singlePole(100e6))
            .converterNoise(new ConverterNoise(0.002))
            .bits(8);
    return new Measurement(Signals.sine(0.02, 240e3).plus(3.3), setup);
  }

  @Test
  void theSameOnAnyNumberOfThreads() {
    Choices c =
        Choices.none()
            .scalesBetween(1e-2, 1)
            .couplings(Coupling.dc(), Coupling.ac())
            .decimations(new Pick(1), Boxcar.of(10));
    Advice one = advice(Readings.peakToPeak(), noisyRipple(), USUAL, c);
    Advice four =
        Advice.of(
                Readings.peakToPeak(), noisyRipple(), USUAL, c, AdviceMethod.usual().withThreads(4))
            .orThrow();
    assertEquals(one.toString(), four.toString());
    assertEquals(one.margin(), four.margin());
    assertEquals(one.trials(), four.trials());
    for (int i = 0; i < one.ranking().size(); i++) {
      assertEquals(one.ranking().get(i).score(), four.ranking().get(i).score());
      assertEquals(one.ranking().get(i).toString(), four.ranking().get(i).toString());
    }
  }

  @Test
  void itCanBeCancelled() {
    AtomicInteger calls = new AtomicInteger();
    AdviceMethod method =
        AdviceMethod.usual().withProgress((done, most) -> calls.incrementAndGet() < 2);
    Choices c = Choices.none().scalesBetween(1e-3, 1).averages(1, 2, 4, 8, 16);
    assertThrows(
        CancellationException.class,
        () -> Advice.of(Readings.peakToPeak(), noisyRipple(), USUAL, c, method));
    assertEquals(2, calls.get(), "asked until it says no");
    Thread.currentThread().interrupt();
    assertThrows(
        CancellationException.class,
        () -> Advice.of(Readings.mean(), still(1), USUAL, c, AdviceMethod.usual()));
    assertTrue(Thread.interrupted());
  }

  /** A budget that ends the search is told, and the margin says what is left open. */
  @Test
  void aSpentBudgetLeavesAMargin() {
    Measurement m = noisyRipple();
    Choices c = Choices.none().scales(1).offsets(0, 0.001, 0.002, 0.003);
    AdviceMethod poor = AdviceMethod.usual().withTrials(250, 4096, 1000).withMargin(1e-6);
    Advice a = Advice.of(Readings.acRms(), m, Tolerances.none(), c, poor).orThrow();
    assertTrue(a.isBudgetSpent());
    assertTrue(a.margin() > 1e-6 * a.best().orElseThrow().score());
  }

  @Test
  void aTruthThatThereIsNotIsAReason() {
    Outcome<Advice> none =
        Advice.of(
            PulseReadings.of(PulseQuantity.PERIOD),
            still(1),
            USUAL,
            Choices.none(),
            AdviceMethod.usual());
    assertFalse(none.isTaken());
  }

  @Test
  void nothingToChooseIsTheSetupAsAsked() {
    Advice a = advice(Readings.mean(), still(2), USUAL, Choices.none());
    assertEquals(1, a.combinations());
    assertEquals(1, a.ranking().size());
    assertEquals(List.of(), a.best().orElseThrow().settings());
    assertTrue(a.best().orElseThrow().toString().startsWith("as asked: 2.00 V +/- 0.10 V"));
  }

  @Test
  void refusesBadInput() {
    AdviceMethod method = AdviceMethod.usual();
    Choices none = Choices.none();
    Reading mean = Readings.mean();
    assertThrows(NullPointerException.class, () -> Advice.of(null, still(1), USUAL, none, method));
    assertThrows(NullPointerException.class, () -> Advice.of(mean, null, USUAL, none, method));
    assertThrows(NullPointerException.class, () -> Advice.of(mean, still(1), null, none, method));
    assertThrows(NullPointerException.class, () -> Advice.of(mean, still(1), USUAL, null, method));
    assertThrows(NullPointerException.class, () -> Advice.of(mean, still(1), USUAL, none, null));
    Tolerances endless =
        Tolerances.none().with(Parameters.gainError(), Distribution.studentT(0, 0.01, 2));
    assertThrows(
        IllegalArgumentException.class, () -> Advice.of(mean, still(1), endless, none, method));
    assertThrows(IllegalArgumentException.class, () -> method.withCoverageFactor(0.5));
    assertThrows(IllegalArgumentException.class, () -> method.withMargin(0));
    assertThrows(IllegalArgumentException.class, () -> method.withTrials(8, 16, 1000));
    assertThrows(IllegalArgumentException.class, () -> method.withTrials(32, 16, 1000));
    assertThrows(IllegalArgumentException.class, () -> method.withTrials(32, 64, 10));
    assertThrows(IllegalArgumentException.class, () -> method.withMostCombinations(0));
    assertThrows(IllegalArgumentException.class, () -> method.withThreads(0));
    assertThrows(NullPointerException.class, () -> method.withProgress(null));
    assertThrows(
        IllegalArgumentException.class,
        () -> new AdviceMethod(2, 0.05, 1, 32, 64, 1000, 1, 0, 1, (d, m) -> true));
  }

  /**
   * A share of the trials would have a negative bandwidth: 4e-4 of them at 0.3 MHz, where one seed
   * meets it and another does not. It is refused for all, and named alone.
   */
  @Test
  void aToleranceThatReachesTooFarIsRefusedForEverySeed() {
    Setup setup = Setup.ideal(10e6, 100).bandwidth(Bandwidth.singlePole(1e6));
    Measurement m = new Measurement(Signals.sine(1, 100e3), setup);
    for (double deviation : new double[] {0.3e6, 0.35e6}) {
      Tolerances t = USUAL.with(Parameters.bandwidth(), Distribution.normal(1e6, deviation));
      for (long seed = 0; seed < 4; seed++) {
        AdviceMethod method = AdviceMethod.usual().withSeed(seed);
        refusedAlone(
            "bandwidth (" + Distribution.normal(1e6, deviation).name() + "): reaches -",
            () -> Advice.of(Readings.rms(), m, t, Choices.none(), method));
      }
    }
    Tolerances possible = USUAL.with(Parameters.bandwidth(), Distribution.normal(1e6, 0.2e6));
    assertTrue(advice(Readings.rms(), m, possible, Choices.none()).best().isPresent());
  }

  /** A limit that is off as asked, and on among what is offered. */
  @Test
  void aToleranceOfWhatIsOfferedIsTriedToo() {
    Measurement m = still(1);
    Tolerances t = USUAL.with(Parameters.relative(Parameters.limit()), Distribution.normal(0, 0.3));
    Choices limits = Choices.none().limits(Bandwidth.unlimited(), Bandwidth.singlePole(20e3));
    refusedAlone(
        "bandwidth limit (" + Distribution.normal(0, 0.3).name() + "): reaches -1.4",
        () -> Advice.of(Readings.mean(), m, t, limits, AdviceMethod.usual()));
    assertTrue(advice(Readings.mean(), m, t, Choices.none()).best().isPresent());
  }

  private static void refusedAlone(String words, Executable call) {
    String message = assertThrows(IllegalArgumentException.class, call).getMessage();
    assertTrue(message.startsWith(words), message);
    assertFalse(message.contains("gain error"), message);
  }
}
