package org.asmeasured.accuracy;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Map;
import java.util.concurrent.atomic.AtomicInteger;
import org.asmeasured.acquisition.Boxcar;
import org.asmeasured.acquisition.Trigger;
import org.asmeasured.capture.Record;
import org.asmeasured.capture.Setup;
import org.asmeasured.characterisation.CharacterisationReadings;
import org.asmeasured.digitizer.ConverterNoise;
import org.asmeasured.digitizer.InterleavedSampler;
import org.asmeasured.frontend.Bandwidth;
import org.asmeasured.frontend.Noise;
import org.asmeasured.frontend.Refused;
import org.asmeasured.frontend.VerticalScale;
import org.asmeasured.internal.Cases;
import org.asmeasured.measure.Measured;
import org.asmeasured.measure.Measured.NotTaken;
import org.asmeasured.measure.Measured.Value;
import org.asmeasured.measure.Reading;
import org.asmeasured.measure.Readings;
import org.asmeasured.measure.Statistics;
import org.asmeasured.pulse.PulseReadings;
import org.asmeasured.signal.Signal;
import org.asmeasured.signal.Signals;
import org.asmeasured.signal.Waveform;
import org.junit.jupiter.api.Test;

/**
 * The random part by stage. Bounds on what scatters are five standard deviations of a normal
 * variable or of a sample variance, relatively sqrt(2/(n - 1)): a false alarm in 1.7 million, and
 * the seed is fixed.
 */
class ScatterTest {
  private static final double SIGMA = 0.01;

  /** Noise of SIGMA volts at the converter, on the usual 8 V. */
  private static Setup noisy(Setup setup) {
    return setup.converterNoise(ConverterNoise.ofSteps(SIGMA / 8 * 256, 8));
  }

  private static StageBias row(List<StageBias> rows, String stage) {
    return rows.stream().filter(r -> r.stage().equals(stage)).findFirst().orElseThrow();
  }

  private static Prediction predict(Reading reading, Signal signal, Setup setup, int captures) {
    return Prediction.of(List.of(reading), signal, setup, 3, captures, 2).get(0);
  }

  private static double randomPart(Scatter scatter) {
    return scatter.randomPart().orThrow();
  }

  /** White noise of one point: sigma; of the mean of N acquisitions, sigma/sqrt(N). */
  @Test
  void averagingTakesVarianceAway() {
    int captures = 2000;
    int acquisitions = 16;
    Setup setup = noisy(Setup.ideal(1e6, 1)).averaging(acquisitions);
    Prediction p = predict(Readings.mean(), Signals.constant(1), setup, captures);
    double bound = 5 * Math.sqrt(2.0 / captures);
    double variance = SIGMA * SIGMA;
    Scatter noise = row(p.byStage(), "converter noise").scatter();
    assertEquals(captures, noise.captures());
    assertEquals(captures, noise.taken());
    assertEquals(SIGMA, randomPart(noise), SIGMA * bound / 2);
    assertEquals(variance, noise.addedVariance().orThrow(), variance * bound);
    Scatter averaging = row(p.byStage(), "averaging").scatter();
    assertEquals(SIGMA / 4, randomPart(averaging), SIGMA / 4 * bound / 2);
    assertEquals(
        -variance * (1 - 1.0 / acquisitions),
        averaging.addedVariance().orThrow(),
        variance * bound);
    assertEquals(averaging.randomPart(), p.scatter().randomPart());
    // The mean over captures is as sure as its scatter lets it be.
    double error = p.scatter().standardError().orThrow();
    assertEquals(randomPart(averaging) / Math.sqrt(captures), error, 1e-15);
    assertTrue(Math.abs(p.bias().orThrow()) < 5 * error);
  }

  /**
   * The sum of independent noises has the sum of their variances. What the second adds is s^2(y) +
   * 2 cov(x, y), whose variance is 2 b^2/n + 4 a b/n for variances a and b.
   */
  @Test
  void independentNoisesAdd() {
    int captures = 4000;
    double density = 1e-5;
    double first = density * density * Math.PI / 2 * 1e6;
    double second = SIGMA * SIGMA;
    Setup setup =
        noisy(Setup.ideal(1e6, 1)).bandwidth(Bandwidth.singlePole(1e6)).noise(Noise.white(density));
    Prediction p = predict(Readings.mean(), Signals.constant(0), setup, captures);
    double added = row(p.byStage(), "amplifier noise").scatter().addedVariance().orThrow();
    assertEquals(first, added, 5 * first * Math.sqrt(2.0 / captures));
    double more = row(p.byStage(), "converter noise").scatter().addedVariance().orThrow();
    double scatter = Math.sqrt((2 * second * second + 4 * first * second) / captures);
    assertEquals(second, more, 5 * scatter);
  }

  /** Over setups of all kinds, with and without a trigger. */
  @Test
  void variancesOfTheStagesSumToTheWhole() {
    Signal signal = Signals.trapezoid(-1, 1, 2e-7, 0.4, 3e-8, 2e-8);
    List<Reading> readings =
        List.of(Readings.mean(), Readings.peakToPeak(), PulseReadings.riseTime());
    Cases.check(
        1,
        12,
        random -> {
          Setup setup =
              noisy(Setup.ideal(1e9, 400))
                  .bandwidth(Bandwidth.singlePole(2e8))
                  .vertical(VerticalScale.of(0.5).withGainError(0.01))
                  .bits(6 + random.nextInt(4));
          if (random.nextBoolean()) {
            setup =
                setup
                    .noise(Noise.white(1e-7))
                    .sampler(InterleavedSampler.ideal().withJitter(1e-10));
          }
          if (random.nextBoolean()) {
            setup = setup.decimation(Boxcar.of(2 + random.nextInt(3)));
          }
          if (random.nextBoolean()) {
            setup = setup.averaging(4);
          }
          if (random.nextBoolean()) {
            setup = setup.trigger(Trigger.at(0).jitter(1e-9));
          }
          for (Prediction p : Prediction.of(readings, signal, setup, 5, 20, 2)) {
            double variance = Math.pow(randomPart(p.scatter()), 2);
            double ofTruth = Math.pow(randomPart(p.truthScatter()), 2);
            double sum = 0;
            double bias = 0;
            double scale = variance + ofTruth;
            for (StageBias row : p.byStage()) {
              sum += row.scatter().addedVariance().orThrow();
              scale += Math.pow(randomPart(row.scatter()), 2);
              bias += row.bias().orThrow();
            }
            assertEquals(p.scatter().addedVariance().orThrow(), sum, 1e-14 * scale);
            assertEquals(variance - ofTruth, sum, 1e-14 * scale);
            assertEquals(p.bias().orThrow(), bias, 1e-14);
            assertTrue(setup.trigger().isPresent() || ofTruth == 0);
          }
        });
  }

  @Test
  void rowsAheadOfTheNoiseDoNotScatter() {
    Setup setup = noisy(Setup.ideal(1e8, 50)).bandwidth(Bandwidth.singlePole(1e7)).bits(10);
    Prediction p = predict(Readings.maximum(), Signals.sine(1, 1e6), setup, 50);
    for (String stage : List.of("bandwidth", "sampling")) {
      Scatter scatter = row(p.byStage(), stage).scatter();
      assertEquals(new Value(0), scatter.randomPart());
      assertEquals(new Value(0), scatter.addedVariance());
      assertEquals(new Value(0), scatter.standardError());
      assertEquals(50, scatter.taken());
    }
    // With the same noise in both rows, what quantising changes is surer than either.
    Scatter quantised = row(p.byStage(), "quantisation").scatter();
    double unpaired = Math.sqrt(2.0 / 50) * randomPart(quantised);
    assertTrue(quantised.standardError().orThrow() < 0.5 * unpaired, quantised::toString);
    assertTrue(quantised.standardError().orThrow() > 0);
  }

  @Test
  void theSameOnAnyNumberOfThreads() {
    Setup setup = noisy(Setup.ideal(1e8, 100)).bits(8).trigger(Trigger.at(0).jitter(1e-9));
    Signal signal = Signals.sine(1, 1.1e6);
    List<Reading> readings = List.of(Readings.peakToPeak(), PulseReadings.period());
    List<Prediction> one = Prediction.of(readings, signal, setup, 5, 300, 1);
    List<IdealStages> alone = IdealStages.of(readings, signal, setup, 5, 300, 1);
    for (int threads : new int[] {2, 7}) {
      List<Prediction> more = Prediction.of(readings, signal, setup, 5, 300, threads);
      List<IdealStages> moreAlone = IdealStages.of(readings, signal, setup, 5, 300, threads);
      for (int r = 0; r < readings.size(); r++) {
        assertEquals(one.get(r).byStage(), more.get(r).byStage());
        assertEquals(one.get(r).truth(), more.get(r).truth());
        assertEquals(one.get(r).scatter(), more.get(r).scatter());
        assertEquals(alone.get(r).rows(), moreAlone.get(r).rows());
        assertEquals(one.get(r).measured(), moreAlone.get(r).measured());
      }
    }
    assertNotEquals(
        one.get(0).measured(), Prediction.of(readings, signal, setup, 6, 300, 1).get(0).measured());
  }

  /** The last row is what repeated captures of the setup give, with the same seeds. */
  @Test
  void theWholeIsThatOfStatistics() {
    Setup setup = noisy(Setup.ideal(1e8, 100)).bits(8);
    Signal signal = Signals.sine(1, 1.1e6);
    Statistics statistics = Statistics.over(Readings.maximum(), signal, setup, 3, 400, 2);
    Prediction p = predict(Readings.maximum(), signal, setup, 400);
    assertEquals(statistics.mean(), p.measured());
    assertEquals(statistics.standardDeviation().orThrow(), randomPart(p.scatter()), 1e-13 * SIGMA);
  }

  @Test
  void aSingleCaptureIsThatOfTheSeed() {
    Setup setup = noisy(Setup.ideal(1e8, 100)).bandwidth(Bandwidth.singlePole(1e7)).bits(8);
    Signal signal = Signals.sine(1, 1.1e6);
    Prediction one = Prediction.of(Readings.maximum(), signal, setup, 9);
    assertEquals(Readings.maximum().of(setup.capture(signal, 9)), one.measured());
    assertEquals(
        Readings.maximum().of(setup.capture(signal, 9)),
        one.byStage().get(one.byStage().size() - 1).reading());
    assertEquals(1, one.scatter().captures());
    assertTrue(one.scatter().randomPart().toString().contains("single reading"));
    assertTrue(one.scatter().standardError().toString().contains("single reading"));
    assertEquals(new Value(0), row(one.byStage(), "bandwidth").scatter().randomPart());
  }

  /** A reading that counts how often it is taken of a record. */
  private record Counting(Reading reading, AtomicInteger records) implements Reading {
    @Override
    public String name() {
      return reading.name();
    }

    @Override
    public String unit() {
      return reading.unit();
    }

    @Override
    public Measured of(Record record) {
      records.incrementAndGet();
      return reading.of(record);
    }

    @Override
    public Measured of(Waveform truth, double fromSeconds, double toSeconds) {
      return reading.of(truth, fromSeconds, toSeconds);
    }
  }

  @Test
  void whereNothingIsRandomOneCaptureStandsForAll() {
    Setup setup = Setup.ideal(1e8, 100).bits(8).averaging(4);
    Counting reading = new Counting(Readings.maximum(), new AtomicInteger());
    Signal signal = Signals.sine(1, 1.1e6);
    Prediction p = predict(reading, signal, setup, 1000);
    assertEquals(p.byStage().size(), reading.records().get());
    assertEquals(1, p.scatter().captures());
    assertEquals(new Value(0), p.scatter().randomPart());
    assertEquals(new Value(0), p.scatter().standardError());
    assertEquals(Prediction.of(Readings.maximum(), signal, setup).byStage(), p.byStage());
    // Noise makes the rows behind it random, and those ahead of it are still read once.
    reading.records().set(0);
    predict(reading, signal, noisy(setup), 10);
    assertEquals(1 + 3 * 10, reading.records().get());
  }

  /** The mean, where it is above 0. */
  private record Positive() implements Reading {
    @Override
    public String name() {
      return "positive mean";
    }

    @Override
    public String unit() {
      return "V";
    }

    @Override
    public Measured of(Record record) {
      double mean = Readings.mean().of(record).orThrow();
      return mean > 0 ? new Value(mean) : new NotTaken("it is not positive");
    }

    @Override
    public Measured of(Waveform truth, double fromSeconds, double toSeconds) {
      return Readings.mean().of(truth, fromSeconds, toSeconds);
    }
  }

  /** Of a normal variable about 0 the positive half has the mean sqrt(2/pi) sigma. */
  @Test
  void meansOverTheCapturesThatGiveAReading() {
    int captures = 2000;
    Setup setup = noisy(Setup.ideal(1e6, 1)).averaging(4);
    Prediction p = predict(new Positive(), Signals.constant(0), setup, captures);
    StageBias sampling = row(p.byStage(), "sampling");
    assertEquals(new NotTaken("it is not positive"), sampling.reading());
    assertEquals(0, sampling.scatter().taken());
    StageBias noise = row(p.byStage(), "converter noise");
    int taken = noise.scatter().taken();
    assertEquals(captures / 2.0, taken, 5 * Math.sqrt(captures) / 2);
    assertEquals(Map.of("it is not positive", captures - taken), noise.scatter().notTaken());
    double half = Math.sqrt(2 / Math.PI) * SIGMA;
    double spread = Math.sqrt(1 - 2 / Math.PI) * SIGMA;
    assertEquals(half, noise.reading().orThrow(), 5 * spread / Math.sqrt(taken));
    assertEquals(noise.reading(), noise.bias());
    // Its deviation is that of a half-normal variable, whose kurtosis is 3.87 (from memory).
    assertEquals(spread, randomPart(noise.scatter()), 5 * spread * Math.sqrt(2.87 / 4 / taken));
    StageBias averaging = row(p.byStage(), "averaging");
    assertEquals(half / 2, averaging.reading().orThrow(), 5 * spread / 2 / Math.sqrt(taken - 200));
    assertEquals(
        averaging.reading().orThrow() - noise.reading().orThrow(), averaging.bias().orThrow());
    assertTrue(averaging.scatter().standardError().isTaken());
  }

  /**
   * Effective bits of a sine: none are lost until there is noise, then there is a number, and what
   * each further stage takes from it. Noise of sigma V in a span of 8 V leaves log2(8/(sqrt(12)
   * sigma)) bits (IEEE Std 1057, effective bits from the residual; clause from memory); quantising
   * to 8 bits adds a twelfth of a step squared.
   */
  @Test
  void effectiveBitsByStage() {
    Setup setup = noisy(Setup.ideal(1e6, 4096)).bits(8).decimation(Boxcar.of(1)).averaging(4);
    Reading bits = CharacterisationReadings.effectiveBits(8);
    Signal sine = Signals.sine(3.8, 9.7e3).plus(0.1);
    Prediction p = predict(bits, sine, setup, 20);
    assertTrue(p.truth().toString().contains("no bound"), p::toString);
    assertEquals(p.truth(), p.bias());
    StageBias sampling = row(p.byStage(), "sampling");
    assertTrue(sampling.reading().toString().contains("no bound"), sampling::toString);
    StageBias noise = row(p.byStage(), "converter noise");
    double expected = Math.log(8 / (Math.sqrt(12) * SIGMA)) / Math.log(2);
    assertEquals(expected, noise.reading().orThrow(), 0.01);
    assertEquals(p.truth(), noise.bias());
    double step = 8.0 / 256;
    double total = Math.sqrt(SIGMA * SIGMA + step * step / 12);
    double quantised = Math.log(8 / (Math.sqrt(12) * total)) / Math.log(2);
    StageBias quantisation = row(p.byStage(), "quantisation");
    assertEquals(quantised - expected, quantisation.bias().orThrow(), 0.02);
    assertTrue(randomPart(quantisation.scatter()) > 0);
    assertTrue(row(p.byStage(), "averaging").bias().orThrow() > 0.5);
    IdealStages alone = IdealStages.of(List.of(bits), sine, setup, 3, 20, 2).get(0);
    assertTrue(row(alone.rows(), "converter noise").reading().isTaken());
    // without steps, four averages of the noise
    assertEquals(expected + 1, row(alone.rows(), "quantisation").reading().orThrow(), 0.01);
  }

  @Test
  void sumsDoNotCancelAboutALargeMean() {
    // NIST StRD NumAcc4: certified mean 10000000.2, deviation 0.1.
    Tally tally = new Tally();
    tally.add(new Value(10000000.2));
    for (int i = 1; i < 1001; i++) {
      tally.add(new Value(i % 2 == 1 ? 10000000.1 : 10000000.3));
    }
    assertEquals(10000000.2, tally.mean().orThrow(), 1e-8);
    assertEquals(0.1, Math.sqrt(tally.variance()), 1e-9);
  }

  @Test
  void saysItselfAsAPersonWould() {
    String words =
        predict(Readings.mean(), Signals.constant(1), noisy(Setup.ideal(1e6, 1)), 100).toString();
    assertTrue(words.contains(", random part "), words);
  }

  @Test
  void refusesBadArguments() {
    Setup setup = Setup.ideal(1e6, 10);
    Signal signal = Signals.constant(1);
    List<Reading> mean = List.of(Readings.mean());
    Refused.wholes("captures", n -> Prediction.of(mean, signal, setup, 0, n, 1), 0, -1, 10_000_001);
    Refused.wholes("threads", n -> Prediction.of(mean, signal, setup, 0, 2, n), 0, 1025);
    Refused.missing("readings", () -> Prediction.of(null, signal, setup, 0, 2, 1));
    Refused.missing("signal", () -> Prediction.of(mean, null, setup, 0, 2, 1));
    Refused.missing("setup", () -> Prediction.of(mean, signal, null, 0, 2, 1));
    Refused.wholes("acquisition", n -> Statistics.seedOf(0, n), -1);
    Measured v = new Value(1);
    Refused.wholes("captures", n -> new Scatter(n, 0, Map.of(), v, v, v), 0);
    Refused.wholes("taken", n -> new Scatter(5, n, Map.of(), v, v, v), -1, 6);
    Refused.missing("notTaken", () -> new Scatter(1, 1, null, v, v, v));
    Refused.missing("randomPart", () -> new Scatter(1, 1, Map.of(), null, v, v));
    Refused.missing("addedVariance", () -> new Scatter(1, 1, Map.of(), v, null, v));
    Refused.missing("standardError", () -> new Scatter(1, 1, Map.of(), v, v, null));
    assertThrows(
        UnsupportedOperationException.class,
        () -> new Scatter(1, 1, Map.of(), v, v, v).notTaken().put("late", 1));
  }
}
