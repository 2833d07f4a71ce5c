package org.asmeasured.fitting;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CancellationException;
import org.asmeasured.accuracy.Measurement;
import org.asmeasured.accuracy.Parameter;
import org.asmeasured.accuracy.Parameters;
import org.asmeasured.acquisition.Boxcar;
import org.asmeasured.capture.Record;
import org.asmeasured.capture.Setup;
import org.asmeasured.digitizer.ConverterNoise;
import org.asmeasured.frontend.Bandwidth;
import org.asmeasured.frontend.Coupling;
import org.asmeasured.frontend.Noise;
import org.asmeasured.frontend.PassiveDivider;
import org.asmeasured.frontend.VerticalScale;
import org.asmeasured.internal.CounterRandom;
import org.asmeasured.measure.Outcome;
import org.asmeasured.signal.Signals;
import org.junit.jupiter.api.Test;

class ChainFitTest {
  private static final double SIGMA = 0.01;

  private static String reason(Outcome<ChainFit> outcome) {
    return ((Outcome.NotTaken<ChainFit>) outcome).reason();
  }

  private static Record noisy(Measurement m, double sigma, long seed) {
    double[] volts = m.setup().capture(m.signal()).volts();
    double[] noise = new double[volts.length];
    CounterRandom.gaussians(seed, 0, noise, 0, noise.length);
    for (int i = 0; i < volts.length; i++) {
      volts[i] += sigma * noise[i];
    }
    return Record.of(m.setup().startSeconds(), m.setup().storedRateHz(), volts);
  }

  private static Outcome<ChainFit> fit(Record record, Measurement m, Unknown... unknowns) {
    return ChainFit.of(
        List.of(new Recording(record, m, RecordNoise.white(SIGMA))),
        List.of(unknowns),
        FitMethod.usual());
  }

  /** y = v + g v + o F: the straight least squares of two columns, with their covariance. */
  @Test
  void gainAndOffsetAreLinearLeastSquares() {
    Measurement m = new Measurement(Signals.sine(1.5, 17e3), Setup.ideal(1e6, 300));
    double[] v = m.setup().capture(m.signal()).volts();
    Record record = noisy(m, SIGMA, 7);
    ChainFit fit =
        fit(
                record,
                m,
                Unknown.of(Parameters.gainError(), -0.5, 0.5),
                Unknown.of(Parameters.offsetError(), -1, 1))
            .orThrow();
    double f = 8;
    double a = 0;
    double b = 0;
    double c = 0;
    double p = 0;
    double q = 0;
    for (int i = 0; i < v.length; i++) {
      double y = record.volts(i) - v[i];
      a += v[i] * v[i];
      b += v[i] * f;
      c += f * f;
      p += v[i] * y;
      q += f * y;
    }
    double d = a * c - b * b;
    double s2 = SIGMA * SIGMA;
    assertEquals((c * p - b * q) / d, fit.estimate(0), 1e-13);
    assertEquals((a * q - b * p) / d, fit.estimate(1), 1e-13);
    assertEquals(s2 * c / d, fit.covariance(0, 0), 1e-9 * s2 * c / d);
    assertEquals(s2 * a / d, fit.covariance(1, 1), 1e-9 * s2 * a / d);
    assertEquals(-b / Math.sqrt(a * c), fit.correlation(0, 1), 1e-9);
    assertEquals(298, fit.degreesOfFreedom(), 1e-6);
    double left = 0;
    double[] residuals = fit.residualVolts(0);
    for (double r : residuals) {
      left += r * r;
    }
    assertEquals(left / s2, fit.chiSquared(), 1e-9 * fit.chiSquared());
    assertEquals(fit.chiSquared() / 298, fit.reducedChiSquared(), 1e-9);
    assertEquals(Math.sqrt(left / 300), fit.residualRmsVolts(0), 1e-12);
    assertEquals(SIGMA, fit.expectedRmsVolts(0), 0);
    assertTrue(fit.notes().isEmpty(), fit.notes().toString());
    for (int i = 0; i < v.length; i++) {
      assertEquals(record.volts(i), fit.fittedVolts(0)[i] + residuals[i], 1e-15);
    }
  }

  /** y = 1 - exp(-2 pi f t): dy/df = 2 pi t exp(-2 pi f t), var f = sigma^2/sum (dy/df)^2. */
  @Test
  void theTimeConstantOfAPoleHasItsClosedVariance() {
    double f = 3e6;
    Measurement m =
        new Measurement(
            Signals.step(1, 0), Setup.ideal(1e9, 400).bandwidth(Bandwidth.singlePole(5e6)));
    Measurement true1 = m.withSetup(m.setup().bandwidth(Bandwidth.singlePole(f)));
    double sum = 0;
    for (int k = 0; k < 400; k++) {
      double t = k / 1e9;
      double slope = 2 * Math.PI * t * Math.exp(-2 * Math.PI * f * t);
      sum += slope * slope;
    }
    ChainFit fit =
        fit(true1.setup().capture(true1.signal()), m, Unknown.of(Parameters.bandwidth(), 1e5, 1e9))
            .orThrow();
    assertEquals(f, fit.estimate(0), 1e-9 * f);
    assertEquals(SIGMA / Math.sqrt(sum), fit.standardUncertainty(0), 1e-9 * fit.estimate(0));
    assertTrue(fit.chiSquared() < 1e-12, "left: " + fit.chiSquared());
  }

  /** Without noise everything comes back, from a start that is well off. */
  @Test
  void manyParametersComeBackExactly() {
    Measurement stated =
        new Measurement(
            Signals.trapezoid(-1, 1, 20e-6, 0.5, 1e-6, 2e-6),
            Setup.ideal(50e6, 2000)
                .source(50)
                .probe(PassiveDivider.times10().withTrimmerError(0))
                .coupling(Coupling.ac(10))
                .bandwidth(Bandwidth.gaussian(4, 10e6)));
    double[] truth = {0.04, 7.3e6, 13, 1.3e-7, -0.012};
    Parameter[] parameters = {
      Parameters.trimmerError(),
      Parameters.bandwidth(),
      Parameters.couplingCorner(),
      Parameters.start(),
      Parameters.gainError()
    };
    Measurement real = stated;
    for (int j = 0; j < truth.length; j++) {
      real = parameters[j].with(real, truth[j]);
    }
    Record seen = Record.of(0, 50e6, real.setup().capture(real.signal()).volts());
    ChainFit fit =
        fit(
                seen,
                stated,
                Unknown.of(parameters[0], -0.3, 0.3),
                Unknown.of(parameters[1], 1e6, 100e6),
                Unknown.of(parameters[2], 1, 100),
                Unknown.of(parameters[3], -1e-6, 1e-6),
                Unknown.of(parameters[4], -0.1, 0.1))
            .orThrow();
    for (int j = 0; j < truth.length; j++) {
      // to what 1e-15 of the signal in every point is worth
      double rounding = 1e-6 * fit.standardUncertainty(j);
      assertEquals(truth[j], fit.estimate(j), rounding, parameters[j].name());
    }
  }

  @Test
  void gainAndSizeOfTheSignalAreNotToldApart() {
    Measurement m =
        new Measurement(
            Signals.sine(1, 1e5), Setup.ideal(1e7, 500).bandwidth(Bandwidth.singlePole(1e6)));
    Outcome<ChainFit> fit =
        fit(
            noisy(m, SIGMA, 3),
            m,
            Unknown.of(Parameters.bandwidth(), 1e5, 1e8),
            Unknown.of(Parameters.gainError(), -0.5, 0.5),
            Unknown.of(Parameters.signalFactor(), 0.5, 2));
    assertFalse(fit.isTaken());
    assertTrue(
        reason(fit)
            .matches(
                "the records do not tell gain error from signal factor: no point changes where gain"
                    + " error rises by 1 while signal factor falls by [01](\\.[0-9]+)?"),
        reason(fit));
  }

  /** The closed direction: (1 + g) k stays where dg/(1 + g) = -dk/k. */
  @Test
  void theDirectionIsThatAlongWhichNothingChanges() {
    Measurement m = new Measurement(Signals.sine(1, 1e5), Setup.ideal(1e7, 500));
    Outcome<ChainFit> fit =
        fit(
            m.setup().capture(m.signal().times(2.2)),
            m.withSignal(m.signal().times(2)),
            Unknown.of(Parameters.gainError(), -0.5, 0.5),
            Unknown.of(Parameters.signalFactor(), 0.5, 2));
    String words = reason(fit);
    double ratio = Double.parseDouble(words.substring(words.lastIndexOf(' ')));
    // the search ends anywhere on (1 + g) k = 1.1: of the ratio k/(1 + g) both ends are known
    assertTrue(words.contains("gain error rises by 1 while signal factor falls by "), words);
    assertTrue(ratio >= 0.48 && ratio <= 2, words);
  }

  @Test
  void whatHasNoEffectIsNamed() {
    Measurement m =
        new Measurement(
            Signals.sine(1, 1e5),
            Setup.ideal(1e7, 500).bandwidth(Bandwidth.singlePole(1e6)).noise(Noise.white(1e-9)));
    Outcome<ChainFit> fit =
        fit(
            noisy(m, SIGMA, 3),
            m,
            Unknown.of(Parameters.bandwidth(), 1e5, 1e8),
            Unknown.of(Parameters.noiseDensity(), 1e-10, 1e-8));
    assertEquals(
        "the records tell nothing of amplifier noise density: no point depends on it", reason(fit));
  }

  @Test
  void anUnknownAtItsBoundSaysSo() {
    Measurement m =
        new Measurement(
            Signals.step(1, 1e-7), Setup.ideal(1e9, 500).bandwidth(Bandwidth.singlePole(3e6)));
    Measurement stated = m.withSetup(m.setup().bandwidth(Bandwidth.singlePole(5e6)));
    ChainFit fit =
        fit(
                noisy(m, SIGMA, 5),
                stated,
                Unknown.of(Parameters.bandwidth(), 4e6, 1e7),
                Unknown.of(Parameters.gainError(), -0.5, 0.5))
            .orThrow();
    assertEquals(4e6, fit.estimate(0), 0);
    assertEquals(List.of("bandwidth"), fit.atBounds());
    assertTrue(fit.notes().get(0).startsWith("bandwidth ends at a bound, 4 MHz"));
    // one unknown alone takes from the residuals
    assertEquals(499, fit.degreesOfFreedom(), 1e-6);
    IllegalStateException e = assertThrows(IllegalStateException.class, fit::asTolerances);
    assertEquals("bandwidth ended at a bound, 4 MHz: widen it", e.getMessage());
    // the other is where it is with the bandwidth held there
    Measurement held = m.withSetup(m.setup().bandwidth(Bandwidth.singlePole(4e6)));
    ChainFit alone =
        fit(noisy(m, SIGMA, 5), held, Unknown.of(Parameters.gainError(), -0.5, 0.5)).orThrow();
    assertEquals(alone.estimate(0), fit.estimate(1), 1e-9);
  }

  /** Noise twice as large as stated: the same estimates, uncertainties by the residuals. */
  @Test
  void theSizeOfNoiseMayComeFromTheResiduals() {
    Measurement m = new Measurement(Signals.sine(1.5, 17e3), Setup.ideal(1e6, 300));
    Record record = noisy(m, 2 * SIGMA, 11);
    List<Recording> recordings = List.of(new Recording(record, m, RecordNoise.white(SIGMA)));
    List<Unknown> unknowns =
        List.of(
            Unknown.of(Parameters.gainError(), -0.5, 0.5),
            Unknown.of(Parameters.offsetError(), -1, 1));
    ChainFit stated = ChainFit.of(recordings, unknowns, FitMethod.usual()).orThrow();
    ChainFit free =
        ChainFit.of(recordings, unknowns, FitMethod.usual().withSizeOfNoiseFromResiduals())
            .orThrow();
    assertTrue(stated.probability().orThrow() < 1e-6);
    assertTrue(
        stated.notes().get(0).startsWith("the residuals are larger than the stated noise makes"),
        stated.notes().toString());
    assertFalse(free.probability().isTaken());
    double size = Math.sqrt(free.reducedChiSquared());
    // chi-squared of 298 degrees: 5 standard deviations of its root, 1/sqrt(2 x 298)
    assertEquals(2, size, 2 * 5 / Math.sqrt(2 * 298));
    for (int j = 0; j < 2; j++) {
      assertEquals(stated.estimate(j), free.estimate(j), 0);
      assertEquals(
          size * stated.standardUncertainty(j), free.standardUncertainty(j), 1e-12 * SIGMA);
    }
    assertEquals(
        "Student t", free.asTolerances().list().get(0).distribution().name().substring(0, 9));
    assertEquals(298, free.asTolerances().list().get(0).degreesOfFreedom(), 1e-6);
    assertEquals(
        Double.POSITIVE_INFINITY, stated.asTolerances().list().get(0).degreesOfFreedom(), 0);
  }

  /** Two records at different instants; the bandwidth is common, the starts are not. */
  @Test
  void severalRecordingsShareWhatTheyHaveInCommon() {
    Measurement m =
        new Measurement(
            Signals.step(1, 1e-7), Setup.ideal(1e9, 500).bandwidth(Bandwidth.singlePole(5e6)));
    Measurement real = m.withSetup(m.setup().bandwidth(Bandwidth.singlePole(4e6)));
    List<Recording> recordings = new ArrayList<>();
    double[] late = {3.3e-9, -7.4e-9};
    for (int i = 0; i < 2; i++) {
      Record seen = noisy(real.withSetup(real.setup().startingAt(late[i])), SIGMA, 20 + i);
      recordings.add(new Recording(Record.of(0, 1e9, seen.volts()), m, RecordNoise.white(SIGMA)));
    }
    List<Unknown> unknowns =
        List.of(
            Unknown.of(Parameters.start(), -2e-8, 2e-8).ofRecording(0),
            Unknown.of(Parameters.bandwidth(), 1e6, 1e8),
            Unknown.of(Parameters.start(), -2e-8, 2e-8).ofRecording(1));
    ChainFit fit = ChainFit.of(recordings, unknowns, FitMethod.usual()).orThrow();
    assertEquals(late[0], fit.estimate(0), 5 * fit.standardUncertainty(0));
    assertEquals(4e6, fit.estimate(1), 5 * fit.standardUncertainty(1));
    assertEquals(late[1], fit.estimate(2), 5 * fit.standardUncertainty(2));
    assertEquals("start of the record, recording 2", fit.unknowns().get(2).name());
    assertEquals(1, fit.asTolerances().list().size());
    assertEquals("bandwidth", fit.asTolerances().list().get(0).name());
    Measurement other = new Measurement(Signals.sine(1, 1e5), m.setup());
    Measurement fitted = fit.asFitted(other);
    assertEquals(fit.estimate(1), Parameters.bandwidth().of(fitted), 0);
    assertEquals(0, Parameters.start().of(fitted), 0);
    assertEquals(fit.estimate(2), Parameters.start().of(fit.measurement(1)), 0);

    // what each tells of the bandwidth, its own start being open, adds up
    double[] alone = new double[2];
    for (int i = 0; i < 2; i++) {
      Measurement late1 = real.withSetup(real.setup().startingAt(late[i]));
      Record exact = Record.of(0, 1e9, late1.setup().capture(late1.signal()).volts());
      recordings.set(i, new Recording(exact, m, RecordNoise.white(SIGMA)));
      ChainFit one =
          ChainFit.of(
                  recordings.subList(i, i + 1),
                  List.of(unknowns.get(2 * i).ofRecording(0), unknowns.get(1)),
                  FitMethod.usual())
              .orThrow();
      alone[i] = 1 / one.covariance(1, 1);
    }
    ChainFit both = ChainFit.of(recordings, unknowns, FitMethod.usual()).orThrow();
    double sum = alone[0] + alone[1];
    assertEquals(sum, 1 / both.covariance(1, 1), 1e-9 * sum);
  }

  /** A record of the setup's own, reduced: its points stand in the middle of their samples. */
  @Test
  void aReducedRecordIsPredictedAtItsPlace() {
    Measurement m =
        new Measurement(
            Signals.step(1, 1e-6),
            Setup.ideal(1e9, 300)
                .startingAt(2e-7)
                .decimation(Boxcar.of(10))
                .bandwidth(Bandwidth.singlePole(2e6)));
    Record own = m.setup().capture(m.signal());
    // as a file has it: the instants of the points
    Record read = Record.of(own.timeSeconds(0), own.rateHz(), own.volts());
    for (Record record : List.of(own, read)) {
      ChainFit fit =
          fit(
                  record,
                  m,
                  Unknown.of(Parameters.start(), 1e-7, 3e-7),
                  Unknown.of(Parameters.bandwidth(), 1e6, 1e7).from(1.1e6))
              .orThrow();
      assertEquals(2e-7, fit.estimate(0), 1e-16);
      assertEquals(2e6, fit.estimate(1), 1e-3);
    }
  }

  @Test
  void anyNumberOfThreadsGivesTheSameBits() {
    Measurement m =
        new Measurement(
            Signals.step(1, 1e-7),
            Setup.ideal(1e9, 1000).bandwidth(Bandwidth.gaussian(4, 5e6)).noise(Noise.white(1e-6)));
    Record record = m.setup().capture(m.signal(), 4);
    List<Unknown> unknowns =
        List.of(
            Unknown.of(Parameters.bandwidth(), 1e6, 1e8).from(8e6),
            Unknown.of(Parameters.gainError(), -0.5, 0.5),
            Unknown.of(Parameters.start(), -2e-8, 2e-8));
    double[][] seen = new double[3][];
    int[] threads = {1, 2, 5};
    for (int i = 0; i < 3; i++) {
      ChainFit fit =
          ChainFit.of(
                  List.of(Recording.of(record, m)),
                  unknowns,
                  FitMethod.usual().withThreads(threads[i]))
              .orThrow();
      seen[i] =
          new double[] {
            fit.estimate(0),
            fit.estimate(1),
            fit.estimate(2),
            fit.chiSquared(),
            fit.covariance(0, 0),
            fit.covariance(0, 2),
            fit.degreesOfFreedom()
          };
    }
    assertArrayEquals(seen[0], seen[1], 0);
    assertArrayEquals(seen[0], seen[2], 0);
  }

  @Test
  void clippedRecordsAreNotFitted() {
    Measurement m =
        new Measurement(
            Signals.sine(5, 1e5), Setup.ideal(1e7, 500).vertical(VerticalScale.of(1)).bits(8));
    Outcome<ChainFit> own =
        ChainFit.of(
            m.setup().capture(m.signal()), m, Unknown.of(Parameters.gainError(), -0.5, 0.5));
    assertTrue(reason(own).matches("recording 1: \\d+ raw samples were clipped"), reason(own));
    Outcome<ChainFit> read =
        ChainFit.of(
            Record.of(0, 1e7, m.setup().capture(m.signal()).volts()),
            m,
            Unknown.of(Parameters.gainError(), -0.5, 0.5));
    assertTrue(
        reason(read)
            .matches(
                "recording 1: \\d+ points lie at an end of the converter's range, and may be"
                    + " clipped"),
        reason(read));
  }

  @Test
  void fewPointsAndFewStepsSaySo() {
    Measurement m = new Measurement(Signals.sine(1, 1e5), Setup.ideal(1e7, 2));
    assertEquals(
        "2 points do not settle 2 unknowns and leave a residual",
        reason(
            fit(
                noisy(m, SIGMA, 1),
                m,
                Unknown.of(Parameters.gainError(), -0.5, 0.5),
                Unknown.of(Parameters.offsetError(), -1, 1))));
    Measurement edge =
        new Measurement(
            Signals.step(1, 1e-7), Setup.ideal(1e9, 500).bandwidth(Bandwidth.singlePole(50e6)));
    Outcome<ChainFit> cut =
        ChainFit.of(
            List.of(new Recording(noisy(edge, SIGMA, 1), edge, RecordNoise.white(SIGMA))),
            List.of(Unknown.of(Parameters.bandwidth(), 1e6, 1e8).from(2e6)),
            FitMethod.usual().withMostSteps(1));
    assertTrue(
        reason(cut).startsWith("no least sum of squares was found in 1 step: bandwidth "),
        reason(cut));
  }

  /** Noise of a tenth of a step leaves the codes where they are. */
  @Test
  void quantisationThatNoiseDoesNotSpreadIsNoted() {
    Setup setup =
        Setup.ideal(1e6, 400)
            .bandwidth(Bandwidth.singlePole(1e5))
            .vertical(VerticalScale.of(0.5))
            .bits(8);
    double step = 4.0 / 256;
    Measurement coarse =
        new Measurement(
            Signals.sine(1, 1e4), setup.converterNoise(new ConverterNoise(0.1 * step / 4)));
    Unknown gain = Unknown.of(Parameters.gainError(), -0.5, 0.5);
    ChainFit noted =
        ChainFit.of(coarse.setup().capture(coarse.signal(), 1), coarse, gain).orThrow();
    assertTrue(
        noted.notes().get(noted.notes().size() - 1).startsWith("recording 1: noise of 1.563 mV"),
        noted.notes().toString());
    Measurement fine = coarse.withSetup(setup.converterNoise(new ConverterNoise(0.6 * step / 4)));
    ChainFit quiet = ChainFit.of(fine.setup().capture(fine.signal(), 1), fine, gain).orThrow();
    assertTrue(quiet.notes().isEmpty(), quiet.notes().toString());
    assertEquals(Math.hypot(0.6 * step, step / Math.sqrt(12)), quiet.expectedRmsVolts(0), 1e-12);
  }

  /** Told before every step, and asked whether to take it. */
  @Test
  void tellsItsStepsAndCanBeCancelled() {
    Measurement m =
        new Measurement(
            Signals.step(1, 1e-7), Setup.ideal(1e9, 300).bandwidth(Bandwidth.singlePole(5e6)));
    List<Recording> recordings =
        List.of(new Recording(noisy(m, SIGMA, 3), m, RecordNoise.white(SIGMA)));
    List<Unknown> unknowns = List.of(Unknown.of(Parameters.bandwidth(), 1e6, 1e8).from(2e7));
    List<Long> told = new ArrayList<>();
    FitMethod method =
        FitMethod.usual()
            .withProgress(
                (done, most) -> {
                  assertEquals(100, most);
                  return told.add(done);
                });
    ChainFit fit = ChainFit.of(recordings, unknowns, method).orThrow();
    assertEquals(fit.steps(), told.size());
    for (int i = 0; i < told.size(); i++) {
      assertEquals(i, told.get(i));
    }
    assertTrue(fit.steps() > 2, "a start so far off takes more");
    assertThrows(
        CancellationException.class,
        () -> ChainFit.of(recordings, unknowns, method.withProgress((done, most) -> done < 2)));
    Thread.currentThread().interrupt();
    assertThrows(
        CancellationException.class, () -> ChainFit.of(recordings, unknowns, FitMethod.usual()));
    assertTrue(Thread.interrupted());
    assertThrows(NullPointerException.class, () -> method.withProgress(null));
  }
}
