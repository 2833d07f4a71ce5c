package org.asmeasured.measure;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import org.asmeasured.capture.Channel;
import org.asmeasured.capture.ChannelSet;
import org.asmeasured.capture.Record;
import org.asmeasured.capture.Setup;
import org.asmeasured.digitizer.ConverterNoise;
import org.asmeasured.frontend.Refused;
import org.asmeasured.internal.Cases;
import org.asmeasured.internal.OrderStatistics;
import org.asmeasured.measure.Measured.NotTaken;
import org.asmeasured.measure.Measured.Value;
import org.asmeasured.pulse.PulseMethod;
import org.asmeasured.pulse.PulseQuantity;
import org.asmeasured.pulse.PulseReadings;
import org.asmeasured.pulse.StateLevels;
import org.asmeasured.signal.Signal;
import org.asmeasured.signal.Signals;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class StatisticsTest {
  @Test
  void countsReadingsAndReasons() {
    Statistics statistics =
        Statistics.of(
            List.of(
                new Value(1),
                new NotTaken("late"),
                new Value(2),
                new Value(6),
                new NotTaken("late"),
                new NotTaken("early")));
    assertEquals(3, statistics.count());
    assertEquals(Map.of("late", 2, "early", 1), statistics.notTaken());
    assertEquals(3, statistics.mean().orThrow());
    assertEquals(Math.sqrt(7), statistics.standardDeviation().orThrow(), 1e-15);
    assertEquals(1, statistics.minimum().orThrow());
    assertEquals(6, statistics.maximum().orThrow());
    assertTrue(statistics.toString().contains("3 taken"));
    Statistics none = Statistics.of(List.of(new NotTaken("late")));
    assertEquals(new NotTaken("late"), none.mean());
    assertEquals(new NotTaken("late"), none.standardDeviation());
    assertEquals(new NotTaken("there is no reading"), Statistics.of(List.of()).minimum());
    Statistics one = Statistics.of(List.of(new Value(4)));
    assertEquals(4, one.maximum().orThrow());
    assertTrue(one.standardDeviation().toString().contains("single reading"));
  }

  /** NIST StRD, NumAcc3 and NumAcc4: certified mean 1000000.2, 10000000.2, deviation 0.1. */
  @ParameterizedTest
  @CsvSource({"1000000.2, 1000000.1, 1000000.3, 1e-9", "10000000.2, 10000000.1, 10000000.3, 1e-8"})
  void meanAndDeviationDoNotCancel(double first, double low, double high, double relative) {
    Measured[] values = new Measured[1001];
    values[0] = new Value(first);
    for (int i = 1; i < values.length; i++) {
      values[i] = new Value(i % 2 == 1 ? low : high);
    }
    Statistics statistics = Statistics.of(List.of(values));
    assertEquals(first, statistics.mean().orThrow(), 1e-15 * first);
    assertEquals(0.1, statistics.standardDeviation().orThrow(), relative);
  }

  private static Setup noisy(double volts) {
    return Setup.ideal(1e9, 200).converterNoise(ConverterNoise.ofSteps(volts / 8 * 256, 8));
  }

  @Test
  void theSameOnAnyNumberOfThreads() {
    Signal edge = Signals.trapezoid(0, 1, 200e-9, 0.5, 40e-9, 40e-9);
    List<Reading> readings =
        List.of(
            Readings.mean(),
            PulseReadings.riseTime(0, 1),
            Readings.maximum(),
            PulseReadings.period());
    List<Statistics> one = Statistics.over(readings, edge, noisy(0.01), 5, 300, 1);
    assertEquals(one, Statistics.over(readings, edge, noisy(0.01), 5, 300, 2));
    assertEquals(one, Statistics.over(readings, edge, noisy(0.01), 5, 300, 7));
    assertNotEquals(one, Statistics.over(readings, edge, noisy(0.01), 6, 300, 2));
    assertEquals(one.get(0), Statistics.over(Readings.mean(), edge, noisy(0.01), 5, 300, 3));
    assertEquals(300, one.get(0).count());
    // 300 means of 200 values: u = 0.01/sqrt(200); its scatter is 1/sqrt(600) of it, five of them
    double u = 0.01 / Math.sqrt(200);
    assertEquals(u, one.get(0).standardDeviation().orThrow(), 5 * u / Math.sqrt(600));
  }

  /**
   * Noise moves the duration of a linear edge by nothing in the mean. The edge takes 40 points; for
   * 4000 acquisitions the bound is five standard deviations of the mean (false alarm 6e-7) and 0.1
   * % of the duration.
   */
  @ParameterizedTest
  @CsvSource({"0.002", "0.005", "0.01", "0.02"})
  void transitionDurationsAreUnbiasedUnderNoise(double sigma) {
    Signal edge = Signals.ramp(1, 80e-9, 120e-9);
    Statistics rise =
        Statistics.over(PulseReadings.riseTime(0, 1), edge, noisy(sigma), 11, 4000, 2);
    assertEquals(4000, rise.count());
    double scatter = rise.standardDeviation().orThrow();
    double bias = rise.mean().orThrow() - 32e-9;
    assertTrue(
        Math.abs(bias) < 32e-12 && Math.abs(bias) < 5 * scatter / Math.sqrt(4000) + 1e-14,
        "bias " + bias + ", scatter " + scatter);
  }

  /** With the states found by the histogram, the same within the scatter of the modes. */
  @ParameterizedTest
  @CsvSource({"0.005, 0.002", "0.01, 0.003"})
  void durationsByFoundStates(double sigma, double relative) {
    Signal edge = Signals.ramp(1, 80e-9, 120e-9);
    Statistics rise = Statistics.over(PulseReadings.riseTime(), edge, noisy(sigma), 3, 2000, 2);
    assertEquals(2000, rise.count());
    assertEquals(32e-9, rise.mean().orThrow(), relative * 32e-9);
  }

  /** Rare failures are told with their reason. */
  @Test
  void reasonsOfFailures() {
    Signal low = Signals.sine(0.02, 20e6);
    Statistics period =
        Statistics.over(
            PulseReadings.of(
                PulseQuantity.RISE_TIME, PulseMethod.standard().levels(StateLevels.given(-1, 1))),
            low,
            noisy(0.001),
            1,
            20,
            2);
    assertEquals(0, period.count());
    assertEquals(20, period.notTaken().values().stream().mapToInt(Integer::intValue).sum());
  }

  @Test
  void refusesBadInput() {
    Setup setup = noisy(0.01);
    Signal signal = Signals.constant(0);
    Reading mean = Readings.mean();
    Refused.wholes("acquisitions", n -> Statistics.over(mean, signal, setup, 1, n, 1), 0, -1);
    Refused.wholes("threads", n -> Statistics.over(mean, signal, setup, 1, 1, n), 0, 1025);
    Refused.missing("signal", () -> Statistics.over(mean, null, setup, 1, 1, 1));
    Refused.missing("setup", () -> Statistics.over(mean, signal, null, 1, 1, 1));
    Refused.missing("reading", () -> Statistics.over((Reading) null, signal, setup, 1, 1, 1));
    Refused.missing("readings", () -> Statistics.of(null));
    Refused.values("percent", Readings::percentile, -1, 100.1);
    // a capture that is refused says so on any number of threads
    Reading angry = new Angry();
    for (int threads : new int[] {1, 3}) {
      Refused.message("angry", "", () -> Statistics.over(angry, signal, setup, 1, 9, threads));
    }
  }

  private record Angry() implements Reading {
    @Override
    public String name() {
      return "angry";
    }

    @Override
    public String unit() {
      return "V";
    }

    @Override
    public Measured of(Record record) {
      throw new IllegalArgumentException("angry");
    }

    @Override
    public Measured of(org.asmeasured.signal.Waveform truth, double fromSeconds, double toSeconds) {
      throw new IllegalArgumentException("angry");
    }
  }

  /** Percentiles of codes and of volts, by sorting. */
  @Test
  void percentilesAreThoseOfSorting() {
    Cases.check(
        1,
        100,
        random -> {
          Signal sine = Signals.sine(0.5, 1e5 * (1 + random.nextDouble()));
          Setup setup = noisy(0.05).points(1 + random.nextInt(700));
          int bits = 1 + random.nextInt(24);
          Setup digital = random.nextBoolean() ? setup.bits(bits) : setup;
          Record record = digital.capture(sine, random.nextLong());
          double[] sorted = record.volts();
          java.util.Arrays.sort(sorted);
          double percent = random.nextInt(4) == 0 ? 50 : 100 * random.nextDouble();
          double place = percent / 100 * (sorted.length - 1);
          int below = (int) place;
          double above = sorted[Math.min(below + 1, sorted.length - 1)];
          double expected = sorted[below] + (place - below) * (above - sorted[below]);
          assertEquals(expected, Readings.percentile(percent).of(record).orThrow(), 1e-15);
        });
  }

  /** By sorting, for values that are all equal, spread over decades, or few of them. */
  @Test
  void orderStatisticsAreThoseOfSorting() {
    Cases.check(
        1,
        300,
        random -> {
          double[] values = drawn(random);
          double[] sorted = values.clone();
          java.util.Arrays.sort(sorted);
          for (int k = 0; k < 5; k++) {
            int rank = random.nextInt(values.length);
            double found = OrderStatistics.select(values.clone(), values.length, rank);
            assertEquals(sorted[rank] + 0.0, found + 0.0);
          }
          double[] extremes = OrderStatistics.extremes(values, values.length);
          assertEquals(sorted[0] + 0.0, extremes[0] + 0.0);
          assertEquals(sorted[sorted.length - 1] + 0.0, extremes[1] + 0.0);
        });
  }

  private static double[] drawn(SplittableRandom random) {
    double[] values = new double[1 + random.nextInt(5000)];
    int kind = random.nextInt(4);
    for (int i = 0; i < values.length; i++) {
      double u = random.nextDouble() * 2 - 1;
      values[i] =
          switch (kind) {
            case 0 -> u;
            case 1 -> Math.rint(4 * u);
            case 2 -> u * Math.exp(-600 * random.nextDouble());
            default -> u * Double.MIN_VALUE * 5;
          };
    }
    return values;
  }

  /** A voltage and a current, each with white noise of the converter, 200 points, one cycle. */
  private static ChannelSet noisyPair(double volts, double amperes) {
    return ChannelSet.of(
        new Channel("voltage", noisy(volts)), new Channel("current", noisy(amperes)));
  }

  private static List<Signal> wave() {
    return List.of(Signals.sine(1, 5e6), Signals.sine(0.5, 5e6, -0.7));
  }

  @Test
  void betweenChannelsTheSameOnAnyNumberOfThreads() {
    List<ChannelPair> pairs =
        List.of(
            new ChannelPair(PairReadings.meanPower(), "voltage", "current"),
            new ChannelPair(PairReadings.phaseLag(), "current", "voltage"),
            new ChannelPair(PairReadings.delay(), "voltage", "current"));
    ChannelSet set = noisyPair(0.01, 0.02);
    List<Statistics> one = Statistics.between(pairs, wave(), set, 5, 200, 1);
    assertEquals(one, Statistics.between(pairs, wave(), set, 5, 200, 2));
    assertEquals(one, Statistics.between(pairs, wave(), set, 5, 200, 7));
    assertNotEquals(one, Statistics.between(pairs, wave(), set, 6, 200, 2));
    assertEquals(200, one.get(0).count());
    assertEquals(List.of(), Statistics.between(List.of(), wave(), set, 5, 2, 1));
  }

  /**
   * The acquisitions are those of the statistics of one channel: the mean of a product with a
   * constant of 1 is the mean.
   */
  @Test
  void betweenChannelsOverTheSameAcquisitions() {
    Signal signal = wave().get(0);
    ChannelSet set =
        ChannelSet.of(
            new Channel("voltage", noisy(0.01)), new Channel("one", Setup.ideal(1e9, 200)));
    Statistics pair =
        Statistics.between(
                List.of(new ChannelPair(PairReadings.meanPower(), "voltage", "one")),
                List.of(signal, Signals.constant(1)),
                set,
                5,
                50,
                1)
            .get(0);
    Statistics alone = Statistics.over(Readings.mean(), signal, noisy(0.01), 5, 50, 1);
    assertEquals(alone.mean().orThrow(), pair.mean().orThrow(), 1e-15);
    assertEquals(alone.maximum().orThrow(), pair.maximum().orThrow(), 1e-15);
    assertEquals(alone.standardDeviation().orThrow(), pair.standardDeviation().orThrow(), 1e-15);
  }

  /**
   * White noise s on v, r on w: the mean of the product over n points scatters by
   * sqrt((W<sup>2</sup> s<sup>2</sup> + V<sup>2</sup> r<sup>2</sup> + s<sup>2</sup>
   * r<sup>2</sup>)/n), V and W the RMS values (the variance of a product of independent variables,
   * any text). 4000 acquisitions: the mean within five of its deviations, the deviation within five
   * of its own (false alarm 1e-6).
   */
  @Test
  void powerScattersAsItsNoiseSays() {
    double s = 0.03;
    double r = 0.05;
    int acquisitions = 4000;
    Statistics power =
        Statistics.between(
                List.of(new ChannelPair(PairReadings.meanPower(), "voltage", "current")),
                wave(),
                noisyPair(s, r),
                7,
                acquisitions,
                2)
            .get(0);
    double expected = Math.sqrt((0.125 * s * s + 0.5 * r * r + s * s * r * r) / 200);
    assertEquals(
        0.25 * Math.cos(0.7), power.mean().orThrow(), 5 * expected / Math.sqrt(acquisitions));
    assertEquals(
        expected,
        power.standardDeviation().orThrow(),
        5 * expected / Math.sqrt(2.0 * acquisitions));
  }

  @Test
  void betweenChannelsRefusesBadArguments() {
    ChannelSet set = noisyPair(0.01, 0.02);
    ChannelPair power = new ChannelPair(PairReadings.meanPower(), "voltage", "current");
    Refused.wholes(
        "acquisitions", n -> Statistics.between(List.of(power), wave(), set, 0, n, 1), 0, -1);
    Refused.wholes(
        "threads", n -> Statistics.between(List.of(power), wave(), set, 0, 2, n), 0, 1025);
    Refused.missing("readings", () -> Statistics.between(null, wave(), set, 0, 2, 1));
    Refused.missing(
        "reading", () -> Statistics.between(Arrays.asList(power, null), wave(), set, 0, 2, 1));
    Refused.missing("signals", () -> Statistics.between(List.of(power), null, set, 0, 2, 1));
    Refused.missing("channels", () -> Statistics.between(List.of(power), wave(), null, 0, 2, 1));
    ChannelPair unknown = new ChannelPair(PairReadings.meanPower(), "voltage", "x");
    assertTrue(
        assertThrows(
                IllegalArgumentException.class,
                () -> Statistics.between(List.of(unknown), wave(), set, 0, 2, 1))
            .getMessage()
            .contains("voltage, current"));
    assertThrows(
        IllegalArgumentException.class,
        () -> Statistics.between(List.of(power), wave().subList(0, 1), set, 0, 2, 2));
    Refused.missing("reading", () -> new ChannelPair(null, "a", "b"));
    Refused.missing("first", () -> new ChannelPair(PairReadings.skew(), null, "b"));
    Refused.missing("second", () -> new ChannelPair(PairReadings.skew(), "a", null));
    assertThrows(
        IllegalArgumentException.class, () -> new ChannelPair(PairReadings.skew(), "a", "a"));
  }
}
