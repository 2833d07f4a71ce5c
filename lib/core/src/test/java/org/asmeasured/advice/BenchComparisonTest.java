package org.asmeasured.advice;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assertions.fail;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CancellationException;
import java.util.concurrent.atomic.AtomicInteger;
import org.asmeasured.accuracy.Assessment;
import org.asmeasured.accuracy.AssessmentMethod;
import org.asmeasured.accuracy.Caution;
import org.asmeasured.accuracy.Measurement;
import org.asmeasured.accuracy.Parameters;
import org.asmeasured.accuracy.Tolerances;
import org.asmeasured.accuracy.Verdict;
import org.asmeasured.acquisition.Trigger;
import org.asmeasured.capture.Setup;
import org.asmeasured.digitizer.ConverterNoise;
import org.asmeasured.frontend.Bandwidth;
import org.asmeasured.frontend.Coupling;
import org.asmeasured.frontend.InputRating;
import org.asmeasured.frontend.PassiveDivider;
import org.asmeasured.frontend.Termination;
import org.asmeasured.frontend.VerticalScale;
import org.asmeasured.measure.Readings;
import org.asmeasured.signal.Signals;
import org.asmeasured.uncertainty.Distribution;
import org.asmeasured.uncertainty.Input;
import org.asmeasured.uncertainty.MonteCarlo;
import org.asmeasured.uncertainty.Progress;
import org.asmeasured.uncertainty.Tolerance;
import org.junit.jupiter.api.Test;

/** Instruments are invented. */
class BenchComparisonTest {
  private static final AssessmentMethod METHOD =
      AssessmentMethod.usual().withTrials(MonteCarlo.ofTrials(0.95, 4096)).withCaptures(2);
  private static final Measurement TWO_VOLTS =
      new Measurement(Signals.constant(2), Setup.ideal(1e6, 1000));

  private static Instrument withGainOf(String name, double u) {
    return new Instrument(
        name,
        Setup.ideal(1, 1),
        1e6,
        10_000,
        Optional.empty(),
        Tolerances.none().with(Parameters.gainError(), Distribution.normal(0, u)),
        Choices.none());
  }

  private static BenchComparison.Question atMost(double limit, double risk) {
    return new BenchComparison.Question(Readings.mean(), TWO_VOLTS, Tolerance.atMost(limit), risk);
  }

  /**
   * The mean of 2 V with gain errors of u: verifies 2 (1 + z u) with z = 1.6449 at 5 % (normal
   * table). A limit of 2.05 V is decided by gains of 1 % and of 0.1 %, not by 5 %.
   */
  @Test
  void theFinestGainVerifiesTheSmallestLimit() {
    BenchComparison c =
        BenchComparison.asSet(
            List.of(withGainOf("poor", 0.05), withGainOf("good", 0.001), withGainOf("fair", 0.01)),
            atMost(2.05, 0.05),
            METHOD);
    assertEquals(
        List.of("good", "fair", "poor"),
        c.rows().stream().map(r -> r.instrument().name()).toList());
    double[] u = {0.001, 0.01, 0.05};
    for (int i = 0; i < 3; i++) {
      BenchComparison.Row row = c.rows().get(i);
      // 4096 even trials: the 95th percentile to 1 % of it
      assertEquals(
          2 * 1.6449 * u[i],
          row.smallestUpperLimit().orElseThrow().orThrow() - 2,
          0.01 * 2 * 1.6449 * u[i]);
      assertEquals(i < 2, row.decides());
      assertTrue(row.greatestLowerLimit().isEmpty());
      assertEquals(1e-3, row.acquisitionSeconds().orElseThrow(), 1e-15);
    }
    assertEquals(Verdict.Ruling.UNDECIDED, c.rows().get(2).verdict().orThrow().ruling());
    assertTrue(
        c.toString()
            .startsWith(
                "good: 2.0000 V, U of the quantity 0.0040 V, passes, risk of a wrong pass below"),
        c.toString());
    assertEquals(3, c.toString().lines().count());
  }

  /** u = 20 mV: below by 1.645 u; of two limits about the truth 2.5 % each, 1.960 u. */
  @Test
  void lowerLimitsAndTolerancesToo() {
    BenchComparison.Row row = row(Tolerance.atLeast(1.9));
    assertEquals(2 - 0.0329, row.greatestLowerLimit().orElseThrow().orThrow(), 4e-4);
    assertTrue(row.smallestUpperLimit().isEmpty());
    assertTrue(row.smallestTolerance().isEmpty());
    assertTrue(row.toString().contains("verifies at least 1.967 V"), row.toString());
    BenchComparison.Row both = row(Tolerance.between(1.9, 2.1));
    double t = both.smallestTolerance().orElseThrow().orThrow();
    assertEquals(1.95996 * 0.02, t, 4e-4);
    assertTrue(both.smallestUpperLimit().isEmpty());
    assertTrue(both.greatestLowerLimit().isEmpty());
    assertTrue(both.toString().contains("verifies the middle +/- 39."), both.toString());
    assertTrue(row(Tolerance.between(2 - t, 2 + t)).decides());
    assertFalse(row(Tolerance.between(2 - 0.97 * t, 2 + 0.97 * t)).decides());
  }

  private static BenchComparison.Row row(Tolerance tolerance) {
    BenchComparison.Question q =
        new BenchComparison.Question(Readings.mean(), TWO_VOLTS, tolerance, 0.05);
    return BenchComparison.asSet(List.of(withGainOf("one", 0.01)), q, METHOD).rows().get(0);
  }

  /** 20 mV of ripple on 3.3 V: 8 bits at 1 V per division cannot, advised settings can. */
  @Test
  void advisedSettingsVerifyWhatAskedOnesDoNot() {
    Measurement ripple =
        new Measurement(Signals.sine(0.01, 240e3).plus(3.3), Setup.ideal(100e6, 10_000).scale(1));
    BenchComparison.Question q =
        new BenchComparison.Question(Readings.peakToPeak(), ripple, Tolerance.atMost(0.022), 0.05);
    Instrument plain =
        new Instrument(
            "8 bit",
            Setup.ideal(1, 1).bits(8),
            1e9,
            2000,
            Optional.empty(),
            Tolerances.none()
                .with(Parameters.gainError(), Distribution.normal(0, 0.01))
                .with(Parameters.offsetError(), Distribution.rectangular(-0.01, 0.01)),
            Choices.none().scalesBetween(1e-3, 1).couplings(Coupling.dc(), Coupling.ac()));
    BenchComparison asSet = BenchComparison.asSet(List.of(plain), q, METHOD);
    assertFalse(asSet.rows().get(0).decides());
    BenchComparison advised =
        BenchComparison.advised(List.of(plain), q, AdviceMethod.usual(), METHOD);
    assertTrue(advised.rows().get(0).decides(), advised.toString());
    assertEquals(
        List.of("AC coupling at 10 Hz", "5 mV per division"), advised.rows().get(0).settings());
    assertEquals(q, advised.question());
  }

  /**
   * A times ten divider for a megohm on an input of 50 ohm hands on 50/(9 Mohm + 50 ohm) instead of
   * a tenth. What is read is noise, some 20 mV of it from peak to peak, which would pass a limit of
   * 25 mV and says nothing of the ripple.
   */
  @Test
  void anInstrumentThatReadsItsOwnNoiseDecidesNothing() {
    Measurement ripple =
        new Measurement(
            Signals.sine(0.01, 1e6),
            Setup.ideal(100e6, 1000).source(1).probe(PassiveDivider.times10()).scale(0.5));
    BenchComparison.Question q =
        new BenchComparison.Question(Readings.peakToPeak(), ripple, Tolerance.atMost(0.025), 0.05);
    Instrument low =
        new Instrument(
            "50 ohm",
            Setup.ideal(1, 1)
                .termination(Termination.fiftyOhm())
                .converterNoise(new ConverterNoise(0.0006)),
            1e9,
            10_000,
            Optional.empty(),
            Tolerances.none().with(Parameters.gainError(), Distribution.normal(0, 0.01)),
            Choices.none().couplings(Coupling.dc(), Coupling.ac()));
    BenchComparison.Row row = BenchComparison.asSet(List.of(low), q, METHOD).rows().get(0);
    Verdict verdict = row.verdict().orThrow();
    assertTrue(verdict.asRead() > 0.95, "as it stands: " + verdict.asRead());
    assertEquals(Verdict.Ruling.UNDECIDED, verdict.ruling());
    assertFalse(row.decides());
    assertTrue(row.toString().contains("quantity"), row.toString());
    BenchComparison.Row advised =
        BenchComparison.advised(List.of(low), q, AdviceMethod.usual(), METHOD).rows().get(0);
    assertFalse(advised.decides());
    assertTrue(
        advised.verdict().toString().contains("is of use: the reading does not"),
        advised.toString());
  }

  /**
   * A gain of a half and an offset of 1 V read 2 V of 2 V, and show a change by a half: with 10 mV
   * unsure of the reading, the quantity is unsure by 20 mV. U, risk and the limit verified are all
   * of these 20 mV: Phi(2.5) = 0.99379 and Phi^-1(0.95) = 1.64485, normal table.
   */
  @Test
  void uncertaintyRiskAndGuardBandAreOfTheQuantity() {
    BenchComparison c =
        BenchComparison.asSet(
            List.of(showing("half", -0.5, 0.125, 0.01), showing("whole", 0, 0, 0.015)),
            atMost(2.05, 0.05),
            METHOD);
    // the reading of the half is surer, what it says of the quantity is not
    assertEquals(
        List.of("whole", "half"), c.rows().stream().map(r -> r.instrument().name()).toList());
    double[] u = {0.015, 0.02};
    for (int i = 0; i < 2; i++) {
      BenchComparison.Row row = c.rows().get(i);
      Assessment a = row.assessment().orThrow();
      assertEquals(2, a.measured().orThrow(), 1e-6);
      double expanded = row.correctedExpandedUncertainty().orThrow();
      // 4096 even trials: a deviation to 1e-3 of itself, an end to 1 %
      assertEquals(2 * u[i], expanded, 2e-3 * u[i]);
      assertEquals(2 * a.corrected().standardDeviation(), expanded, 0);
      assertEquals(
          1.64485 * expanded / 2,
          row.smallestUpperLimit().orElseThrow().orThrow() - 2,
          0.01 * 1.64485 * u[i]);
    }
    assertEquals(
        0.01, c.rows().get(1).assessment().orThrow().standardUncertainty().orThrow(), 1e-5);
    Verdict half = c.rows().get(1).verdict().orThrow();
    assertEquals(Verdict.Ruling.PASSES, half.ruling());
    assertEquals(1 - 0.99379, half.risk(), 5e-4);
    assertTrue(
        c.rows().get(1).toString().startsWith("half: 2.000 V, U of the quantity 0.040 V, passes"),
        c.toString());
  }

  private static Instrument showing(String name, double gainError, double offset, double u) {
    return new Instrument(
        name,
        Setup.ideal(1, 1)
            .vertical(VerticalScale.of(1).withGainError(gainError).withOffsetError(offset)),
        1e6,
        10_000,
        Optional.empty(),
        Tolerances.none().plus(Input.of("other", "V", Distribution.normal(0, u))),
        Choices.none());
  }

  /**
   * Nothing bounds what a reading of noise says of the quantity: no U, and the place before last.
   */
  @Test
  void whatDoesNotFollowHasNoUncertaintyOfTheQuantity() {
    Measurement ripple =
        new Measurement(
            Signals.sine(0.01, 1e6),
            Setup.ideal(100e6, 1000).source(1).probe(PassiveDivider.times10()).scale(0.5));
    BenchComparison.Question q =
        new BenchComparison.Question(Readings.peakToPeak(), ripple, Tolerance.atMost(0.025), 0.05);
    Setup megohm = Setup.ideal(1, 1).termination(Termination.oneMegohm());
    Setup low =
        megohm.termination(Termination.fiftyOhm()).converterNoise(new ConverterNoise(0.0006));
    Tolerances unsure =
        Tolerances.none().with(Parameters.gainError(), Distribution.rectangular(-0.4, 0.4));
    List<Instrument> bench = new ArrayList<>();
    bench.add(new Instrument("slow", megohm, 20, 5, Optional.empty(), unsure, Choices.none()));
    bench.add(new Instrument("50 ohm", low, 1e9, 10_000, Optional.empty(), unsure, Choices.none()));
    bench.add(
        new Instrument("poor", megohm, 1e9, 10_000, Optional.empty(), unsure, Choices.none()));
    BenchComparison c = BenchComparison.asSet(bench, q, METHOD);
    assertEquals(
        List.of("poor", "50 ohm", "slow"),
        c.rows().stream().map(r -> r.instrument().name()).toList());
    assertTrue(c.rows().stream().noneMatch(BenchComparison.Row::decides));
    assertTrue(c.rows().get(0).correctedExpandedUncertainty().isTaken());
    BenchComparison.Row still = c.rows().get(1);
    assertTrue(still.assessment().orThrow().standardUncertainty().isTaken());
    assertEquals(
        "not taken: " + still.assessment().orThrow().sensitivity().orThrow(),
        still.correctedExpandedUncertainty().toString());
    assertTrue(still.correctedExpandedUncertainty().toString().contains("quantity"));
    assertFalse(still.toString().contains("U of the quantity"), still.toString());
    assertEquals(
        c.rows().get(2).assessment().toString(),
        c.rows().get(2).correctedExpandedUncertainty().toString());
  }

  /**
   * 325 V on 50 ohm rated 5 V RMS, beside a megohm with no rating stated: the first would decide as
   * surely, and stands behind.
   */
  @Test
  void whatIsBeyondItsRatingStandsBehind() {
    Setup megohm = Setup.ideal(1, 1).termination(Termination.oneMegohm());
    Setup low =
        megohm
            .termination(Termination.fiftyOhm())
            .rating(new InputRating(Double.POSITIVE_INFINITY, 5));
    Tolerances fine = Tolerances.none().with(Parameters.gainError(), Distribution.normal(0, 1e-3));
    Tolerances poor = Tolerances.none().with(Parameters.gainError(), Distribution.normal(0, 0.1));
    List<Instrument> bench = new ArrayList<>();
    bench.add(new Instrument("50 ohm", low, 1e6, 10_000, Optional.empty(), fine, Choices.none()));
    bench.add(new Instrument("none", megohm, 20, 5, Optional.empty(), fine, Choices.none()));
    bench.add(new Instrument("poor", megohm, 1e6, 10_000, Optional.empty(), poor, Choices.none()));
    bench.add(new Instrument("fine", megohm, 1e6, 10_000, Optional.empty(), fine, Choices.none()));
    Measurement mains =
        new Measurement(Signals.sine(325, 50), Setup.ideal(10e3, 400).source(1).scale(100));
    BenchComparison c =
        BenchComparison.asSet(
            bench,
            new BenchComparison.Question(
                Readings.acRms(), mains, Tolerance.between(200, 260), 0.05),
            METHOD);
    assertEquals(
        List.of("fine", "poor", "50 ohm", "none"),
        c.rows().stream().map(r -> r.instrument().name()).toList());
    BenchComparison.Row beyond = c.rows().get(2);
    assertTrue(beyond.decides() && beyond.isBeyondRating(), c.toString());
    assertEquals(
        List.of(
            Caution.Subject.HAZARDOUS_VOLTAGE,
            Caution.Subject.INPUT_RATING,
            Caution.Subject.INPUT_POWER),
        beyond.cautions().stream().map(Caution::subject).toList());
    assertTrue(beyond.toString().startsWith("50 ohm: beyond its rating; "), beyond.toString());
    for (int i : new int[] {0, 1}) {
      assertEquals(
          List.of(Caution.Subject.HAZARDOUS_VOLTAGE),
          c.rows().get(i).cautions().stream().map(Caution::subject).toList());
      assertFalse(c.rows().get(i).isBeyondRating());
    }
  }

  /** An instrument that cannot says why, and comes last. */
  @Test
  void whoCannotSaysWhy() {
    Instrument bits = withGainOf("clipped", 0.01);
    Instrument clipped =
        new Instrument(
            "clipped",
            Setup.ideal(1, 1).bits(8),
            1e6,
            1000,
            Optional.empty(),
            bits.tolerances(),
            Choices.none().scales(0.1));
    Instrument refused =
        new Instrument(
            "refused",
            Setup.ideal(1, 1),
            1e6,
            1000,
            Optional.of(PassiveDivider.times10()),
            Tolerances.none(),
            Choices.none().own("never", Alternative.of("never", s -> s.scale(-1))));
    Measurement sine = new Measurement(Signals.sine(2, 1e3), Setup.ideal(1e6, 1000).scale(0.1));
    BenchComparison.Question q =
        new BenchComparison.Question(Readings.peakToPeak(), sine, Tolerance.atMost(5), 0.05);
    BenchComparison c =
        BenchComparison.advised(List.of(clipped, refused, bits), q, AdviceMethod.usual(), METHOD);
    assertEquals("clipped", c.rows().get(0).instrument().name());
    assertTrue(c.rows().get(0).assessment().isTaken(), "without a converter nothing clips");
    assertTrue(c.toString().contains("is of use: the record is clipped"), c.toString());
    assertTrue(c.toString().contains("voltsPerDivision = -1.0 V"), c.toString());
  }

  /** 1000 trials do not pay for 16 of each of 110 combinations, chosen together. */
  @Test
  void aSearchThatCannotBeginSaysSo() {
    Instrument bits = withGainOf("many", 0.01);
    int[] averages = new int[110];
    Arrays.setAll(averages, i -> i + 1);
    Instrument many =
        new Instrument(
            "many",
            Setup.ideal(1, 1),
            1e6,
            1000,
            Optional.empty(),
            bits.tolerances(),
            Choices.none().averages(averages));
    BenchComparison c =
        BenchComparison.advised(
            List.of(many),
            atMost(2.5, 0.05),
            AdviceMethod.usual().withTrials(16, 64, 1000),
            METHOD);
    assertTrue(c.toString().contains("the budget of the search does not pay"), c.toString());
  }

  /** The rate is the highest whose points fit; the rest is as asked. */
  @Test
  void instrumentsMakeOfItWhatTheyCan() {
    Setup asked =
        Setup.ideal(1e3, 30)
            .source(50)
            .coupling(Coupling.ac())
            .averaging(4)
            .startingAt(2e-3)
            .trigger(Trigger.at(0));
    Instrument i = withGainOf("one", 0.01);
    Setup made = i.of(TWO_VOLTS.withSetup(asked)).setup();
    // 10 000 points in 30 ms: 333 k samples/s, of the sequence 200 k
    assertEquals(200e3, made.rateHz());
    assertEquals(6000, made.points());
    assertEquals(asked.frontEnd().source(), made.frontEnd().source());
    assertEquals(Coupling.ac(), made.frontEnd().coupling());
    assertEquals(4, made.ensemble().count());
    assertEquals(2e-3, made.startSeconds());
    assertEquals(asked.trigger(), made.trigger());
    assertEquals(1e6, i.of(TWO_VOLTS).setup().rateHz(), "its highest");
    Instrument small =
        new Instrument(
            "small",
            Setup.ideal(1, 1),
            1e6,
            5,
            Optional.empty(),
            Tolerances.none(),
            Choices.none());
    // 5 points in 30 ms: 167 samples/s, of the sequence 100
    assertEquals(100, small.of(TWO_VOLTS.withSetup(asked)).setup().rateHz());
    assertEquals(3, small.of(TWO_VOLTS.withSetup(asked)).setup().points());
    Instrument slow =
        new Instrument(
            "slow", Setup.ideal(1, 1), 20, 5, Optional.empty(), Tolerances.none(), Choices.none());
    assertTrue(
        assertThrows(IllegalArgumentException.class, () -> slow.of(TWO_VOLTS.withSetup(asked)))
            .getMessage()
            .contains("no rate of slow makes 1 to 5 points"));
    Instrument probed =
        i.withProbe(
            "x10",
            PassiveDivider.times10(),
            Tolerances.none().with(Parameters.trimmerError(), Distribution.normal(0, 0.02)));
    assertEquals("one with x10", probed.name());
    assertEquals(PassiveDivider.times10(), probed.of(TWO_VOLTS).setup().frontEnd().probe());
    assertEquals(2, probed.tolerances().list().size());
  }

  /**
   * What is known of signal, source, start and probe goes along; what is known of the bench not.
   */
  @Test
  void whatIsKnownOfTheSignalCountsForEveryInstrument() {
    Measurement asked =
        TWO_VOLTS.withSetup(
            Setup.ideal(1e6, 1000).source(50).probe(PassiveDivider.times10().withTrimmerError(0)));
    Tolerances stated =
        Tolerances.none()
            .with(Parameters.signalFactor(), Distribution.normal(1, 0.02))
            .with(Parameters.gainError(), Distribution.normal(0, 0.1))
            .with(Parameters.offsetError(), Distribution.normal(0, 0.1))
            .with(Parameters.start(), Distribution.rectangular(0, 1e-3))
            .with(Parameters.relative(Parameters.sourceOhms()), Distribution.normal(0, 0.1))
            .with(Parameters.trimmerError(), Distribution.normal(0, 0.02))
            .with(Parameters.limit(), Distribution.normal(20e6, 1e6))
            .plus(Input.of("drift", "V", Distribution.normal(0, 1e-3)));
    Instrument bare = withGainOf("bare", 0.01);
    List<String> names =
        bare.withTolerancesOf(asked, stated).tolerances().list().stream().map(Input::name).toList();
    assertEquals(
        List.of(
            "gain error",
            "signal factor",
            "start of the record",
            "source resistance",
            "trimmer error",
            "drift"),
        names);
    Instrument probed =
        bare.withProbe("x1", PassiveDivider.times10().withTrimmerError(0.01), Tolerances.none());
    assertFalse(
        probed.withTolerancesOf(asked, stated).tolerances().toString().contains("trimmer error"),
        "the other probe's");
    // a gain error of 1 %, a signal known to 2 %: the reading is off by the gain error alone
    BenchComparison c =
        BenchComparison.asSet(
            List.of(bare.withTolerancesOf(TWO_VOLTS, stated)), atMost(2.2, 0.05), METHOD);
    assertTrue(c.rows().get(0).assessment().isTaken(), c.toString());
    assertThrows(NullPointerException.class, () -> bare.withTolerancesOf(null, stated));
    assertThrows(NullPointerException.class, () -> bare.withTolerancesOf(asked, null));
    Tolerances twice =
        Tolerances.none().plus(Input.of("gain error", "", Distribution.normal(0, 0.1)));
    assertThrows(IllegalArgumentException.class, () -> bare.withTolerancesOf(asked, twice));
  }

  @Test
  void refusesBadInput() {
    Setup s = Setup.ideal(1, 1);
    Tolerances t = Tolerances.none();
    Choices none = Choices.none();
    Optional<org.asmeasured.frontend.Probe> p = Optional.empty();
    assertThrows(IllegalArgumentException.class, () -> new Instrument(" ", s, 1, 1, p, t, none));
    assertThrows(NullPointerException.class, () -> new Instrument("a", null, 1, 1, p, t, none));
    assertThrows(IllegalArgumentException.class, () -> new Instrument("a", s, 0, 1, p, t, none));
    assertThrows(IllegalArgumentException.class, () -> new Instrument("a", s, 1, 0, p, t, none));
    assertThrows(NullPointerException.class, () -> new Instrument("a", s, 1, 1, null, t, none));
    assertThrows(NullPointerException.class, () -> new Instrument("a", s, 1, 1, p, null, none));
    assertThrows(NullPointerException.class, () -> new Instrument("a", s, 1, 1, p, t, null));
    Instrument one = withGainOf("one", 0.01);
    assertThrows(NullPointerException.class, () -> one.of(null));
    assertThrows(
        IllegalArgumentException.class,
        () -> one.withProbe("x10", PassiveDivider.times10(), one.tolerances()));
    assertThrows(
        IllegalArgumentException.class,
        () -> one.withProbe(" ", PassiveDivider.times10(), Tolerances.none()));
    assertThrows(IllegalArgumentException.class, () -> atMost(2, 0));
    assertThrows(IllegalArgumentException.class, () -> atMost(2, 0.6));
    assertThrows(
        IllegalArgumentException.class,
        () -> BenchComparison.asSet(List.of(), atMost(2, 0.05), METHOD));
    assertThrows(
        NullPointerException.class, () -> BenchComparison.asSet(List.of(one), null, METHOD));
    assertThrows(
        NullPointerException.class,
        () -> BenchComparison.asSet(List.of(one), atMost(2, 0.05), null));
    assertThrows(
        NullPointerException.class,
        () -> BenchComparison.advised(List.of(one), atMost(2, 0.05), null, METHOD));
  }

  /** Each instrument is a part of the whole, its search the first half; nothing goes back. */
  @Test
  void tellsHowFarItHasComeAndCanBeCancelled() {
    List<Instrument> bench =
        List.of(withGainOf("a", 0.05), withGainOf("b", 0.001), withGainOf("c", 0.01));
    for (boolean asSet : new boolean[] {true, false}) {
      List<Double> shares = new ArrayList<>();
      Progress progress =
          (done, most) -> {
            shares.add((double) done / most);
            return true;
          };
      compare(bench, asSet, progress);
      assertEquals(1, shares.get(shares.size() - 1), 0);
      assertTrue(shares.contains(1 / 3.0) && shares.contains(2 / 3.0), shares.toString());
      assertEquals(shares.stream().sorted().toList(), shares);
      for (int allowed = 0; allowed < shares.size(); allowed++) {
        AtomicInteger left = new AtomicInteger(allowed);
        assertThrows(
            CancellationException.class,
            () -> compare(bench, asSet, (done, most) -> left.getAndDecrement() > 0));
        assertEquals(-1, left.get(), "asked until it says no");
      }
    }
  }

  private static BenchComparison compare(List<Instrument> bench, boolean asSet, Progress progress) {
    AssessmentMethod method = METHOD.withProgress(progress);
    BenchComparison.Question question = atMost(2.05, 0.05);
    return asSet
        ? BenchComparison.asSet(bench, question, method)
        : BenchComparison.advised(
            bench, question, AdviceMethod.usual().withProgress(progress), method);
  }

  /** Misstated for one of them: no row says it, the question is refused. */
  @Test
  void aToleranceThatReachesTooFarIsRefused() {
    Instrument wrong =
        new Instrument(
            "wrong",
            Setup.ideal(1, 1).bandwidth(Bandwidth.singlePole(1e6)),
            1e6,
            10_000,
            Optional.empty(),
            Tolerances.none()
                .with(Parameters.gainError(), Distribution.normal(0, 0.01))
                .with(Parameters.bandwidth(), Distribution.normal(1e6, 0.3e6)),
            Choices.none());
    List<Instrument> bench = List.of(withGainOf("good", 0.001), wrong);
    for (boolean asSet : new boolean[] {true, false}) {
      String message =
          assertThrows(
                  IllegalArgumentException.class,
                  () -> compare(bench, asSet, (done, most) -> fail("refused before the work")))
              .getMessage();
      assertTrue(message.startsWith("wrong: bandwidth (normal, mean 1000000.0, "), message);
      assertFalse(message.contains("gain error"), message);
    }
  }
}
