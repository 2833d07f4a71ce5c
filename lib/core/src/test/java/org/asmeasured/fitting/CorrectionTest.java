package org.asmeasured.fitting;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.asmeasured.accuracy.Assessment;
import org.asmeasured.accuracy.AssessmentMethod;
import org.asmeasured.accuracy.Measurement;
import org.asmeasured.accuracy.Parameters;
import org.asmeasured.accuracy.Tolerances;
import org.asmeasured.capture.Record;
import org.asmeasured.capture.Setup;
import org.asmeasured.digitizer.ConverterNoise;
import org.asmeasured.frontend.Bandwidth;
import org.asmeasured.internal.Refusals;
import org.asmeasured.measure.Outcome;
import org.asmeasured.measure.Readings;
import org.asmeasured.signal.Signals;
import org.asmeasured.uncertainty.Distribution;
import org.asmeasured.uncertainty.Input;
import org.asmeasured.uncertainty.MonteCarlo;
import org.junit.jupiter.api.Test;

class CorrectionTest {
  private static final double FULL_SCALE = 8;

  private static Assessment assessed(Measurement m, Tolerances t) {
    return Assessment.of(
            List.of(Readings.mean()),
            m,
            t,
            AssessmentMethod.usual().withTrials(MonteCarlo.ofTrials(0.95, 8192)))
        .get(0);
  }

  private static Measurement still(double volts) {
    return new Measurement(Signals.constant(volts), Setup.ideal(1e6, 16));
  }

  /**
   * y = V (1 + g), g = 2 % with u = 0.5 %. Inverted, V = y/1.02; in first order u(V) = 2 V x 0.5
   * %/1.02 about the assumed 2 V.
   */
  @Test
  void aGainIsCorrectedInClosedForm() {
    Tolerances t =
        Tolerances.none()
            .with(
                Parameters.gainError(),
                Input.of("gain error", "", Distribution.normal(0.02, 0.005))
                    .withDegreesOfFreedom(12));
    Correction c = Correction.of(2.047, assessed(still(2), t)).orThrow();
    assertEquals(2.047, c.value(), 0);
    double quantity = 2.047 / 1.02;
    assertEquals(quantity - 2.047, c.correction(), 1e-9);
    assertEquals(quantity, c.corrected(), 1e-9);
    double u = 0.01 / 1.02;
    assertEquals(u, c.standardUncertainty(), 1e-7);
    assertEquals(c.standardUncertainty(), c.uncertaintyOfCorrection().orThrow(), 1e-12);
    assertEquals(0, c.scatterOfCaptures().orThrow(), 0);
    assertEquals(12, c.effectiveDegreesOfFreedom().getAsDouble(), 1e-6);
    // 8192 scrambled points: ends of the interval to about 1e-3 of its width
    assertEquals(quantity - 1.95996 * u, c.interval().lower(), 1e-4);
    assertEquals(quantity + 1.95996 * u, c.interval().upper(), 1e-4);
    assertEquals(quantity + 0.67449 * u, c.interval(0.5).upper(), 1e-4);
    assertEquals(quantity, c.distribution().estimate(), 1e-9);
    assertTrue(c.isAsExpected());
    assertEquals(
        "read 2.047 V, correction -40.14 mV, corrected 2.007 V, standard uncertainty 9.804 mV",
        c.toString());
  }

  @Test
  void aReadingOfAnotherSignalIsNotAsExpected() {
    Tolerances t = Tolerances.none().with(Parameters.gainError(), Distribution.normal(0.02, 0.005));
    Assessment a = assessed(still(2), t);
    // mean of readings 2.04 V, u = 0.01 V, 99.9 % within 3.29 u
    assertTrue(Correction.of(2.04 + 0.031, a).orThrow().isAsExpected());
    assertFalse(Correction.of(2.04 + 0.038, a).orThrow().isAsExpected());
    assertFalse(Correction.of(2.04 - 0.038, a).orThrow().isAsExpected());
  }

  /** Noise of s at a point: the mean of 16 scatters by s/4, which is not the correction's. */
  @Test
  void theScatterOfCapturesIsKeptApart() {
    Measurement m = still(1);
    m = m.withSetup(m.setup().converterNoise(new ConverterNoise(0.001)));
    Tolerances t = Tolerances.none().with(Parameters.gainError(), Distribution.normal(0, 0.003));
    Assessment a = assessed(m, t);
    Correction c = Correction.of(1.001, a).orThrow();
    double scatter = FULL_SCALE * 0.001 / 4;
    // 100 captures: 5 standard deviations, s/sqrt(2 x 99); false alarm below 1e-6
    assertEquals(scatter, c.scatterOfCaptures().orThrow(), 5 * scatter / Math.sqrt(2 * 99));
    double u = Math.hypot(0.003, scatter);
    assertEquals(u, c.standardUncertainty(), 5 * u / Math.sqrt(2 * 8191));
    assertEquals(
        c.standardUncertainty(),
        Math.hypot(c.uncertaintyOfCorrection().orThrow(), c.scatterOfCaptures().orThrow()),
        1e-12);
  }

  @Test
  void whereNothingVariesItSaysWhy() {
    Outcome<Correction> none = Correction.of(1, assessed(still(1), Tolerances.none()));
    assertEquals(
        "not taken: nothing varies: neither tolerances nor noise are stated", none.toString());
  }

  /**
   * The whole way: a bench of unknown gain, offset and bandwidth records a known step; then it
   * reads another signal, which the fitted model corrects. 5 standard uncertainties: false alarm
   * below 1e-6.
   */
  @Test
  void aReadingOfAFittedBenchComesBackToTheTruth() {
    Setup stated =
        Setup.ideal(500e6, 2000)
            .converterNoise(new ConverterNoise(0.002))
            .bandwidth(Bandwidth.gaussian(4, 20e6));
    Measurement known = new Measurement(Signals.step(2, 1e-6), stated);
    Measurement bench = known;
    bench = Parameters.bandwidth().with(bench, 16e6);
    bench = Parameters.gainError().with(bench, 0.03);
    bench = Parameters.offsetError().with(bench, -0.01);
    Record seen = bench.setup().capture(bench.signal(), 77);
    ChainFit fit =
        ChainFit.of(
                seen,
                known,
                Unknown.of(Parameters.bandwidth(), 1e6, 1e8),
                Unknown.of(Parameters.gainError(), -0.1, 0.1),
                Unknown.of(Parameters.offsetError(), -0.1, 0.1))
            .orThrow();

    // about a microsecond of a 16 MHz sine, which that bandwidth takes 29 % from
    Measurement other = new Measurement(Signals.sine(1, 16e6), stated.points(500));
    Measurement there = other.withSetup(bench.setup().points(500));
    double read = Readings.rms().of(there.setup().capture(there.signal(), 5)).orThrow();
    double truth = Readings.rms().of(other.signal(), 0, 1e-6).orThrow();
    Assessment a =
        Assessment.of(
                List.of(Readings.rms()),
                other,
                fit.asTolerances(),
                AssessmentMethod.usual().withTrials(MonteCarlo.ofTrials(0.95, 2048)))
            .get(0);
    Correction c = Correction.of(read, a).orThrow();
    assertTrue(Math.abs(read - truth) > 0.1, "read " + read);
    assertEquals(truth, c.corrected(), 5 * c.standardUncertainty());
    assertTrue(c.standardUncertainty() < 0.005, c.toString());
    assertTrue(c.isAsExpected());
  }

  @Test
  void badInputIsRefused() {
    Tolerances t = Tolerances.none().with(Parameters.gainError(), Distribution.normal(0, 0.003));
    Assessment a = assessed(still(1), t);
    Refusals.absent("assessment", () -> Correction.of(1, null));
    for (double bad : new double[] {Double.NaN, Double.POSITIVE_INFINITY}) {
      Refusals.refused("value", bad, "V", () -> Correction.of(bad, a));
    }
    Correction c = Correction.of(1, a).orThrow();
    Refusals.bounded("probability", "", 0.5, 0.9999, c::interval);
    assertThrows(IllegalArgumentException.class, () -> c.interval(1));
  }
}
