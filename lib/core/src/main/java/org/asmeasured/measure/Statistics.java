package org.asmeasured.measure;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.LongFunction;
import org.asmeasured.capture.ChannelSet;
import org.asmeasured.capture.Record;
import org.asmeasured.capture.Setup;
import org.asmeasured.internal.CompensatedSum;
import org.asmeasured.internal.CounterRandom;
import org.asmeasured.internal.Parallel;
import org.asmeasured.internal.Require;
import org.asmeasured.measure.Measured.NotTaken;
import org.asmeasured.measure.Measured.Value;
import org.asmeasured.signal.Signal;

/**
 * What many readings come to: how many were taken, why others were not, and mean, standard
 * deviation and extremes of those that were. Immutable.
 */
public final class Statistics {
  /** The most acquisitions that are made for one statistic. */
  public static final int MAX_ACQUISITIONS = 10_000_000;

  /** The most threads that share the work. */
  public static final int MAX_THREADS = 1024;

  private static final long ACQUISITIONS = 0x3c6ef372fe94f82bL;

  private final int count;
  private final Map<String, Integer> notTaken;
  private final double mean;
  private final double deviation;
  private final double minimum;
  private final double maximum;

  private Statistics(List<Measured> readings) {
    Map<String, Integer> reasons = new TreeMap<>();
    CompensatedSum sums = new CompensatedSum();
    int n = 0;
    double least = Double.POSITIVE_INFINITY;
    double greatest = Double.NEGATIVE_INFINITY;
    for (Measured reading : readings) {
      if (reading instanceof Value taken) {
        n++;
        sums.add(taken.value());
        least = Math.min(least, taken.value());
        greatest = Math.max(greatest, taken.value());
      } else {
        reasons.merge(((NotTaken) reading).reason(), 1, Integer::sum);
      }
    }
    count = n;
    notTaken = Collections.unmodifiableMap(reasons);
    minimum = least;
    maximum = greatest;
    // The mean of what is all alike is just that, without the rounding of a sum.
    mean = least == greatest ? least : sums.total() / n;
    CompensatedSum squares = new CompensatedSum();
    for (Measured reading : readings) {
      if (reading instanceof Value taken) {
        double distance = taken.value() - mean;
        squares.add(distance * distance);
      }
    }
    deviation = Math.sqrt(squares.total() / (n - 1));
  }

  /**
   * The statistics of readings at hand.
   *
   * @param readings any number of them, in one unit
   * @return their statistics
   * @throws NullPointerException if one is missing
   */
  public static Statistics of(List<? extends Measured> readings) {
    Require.present("readings", readings);
    for (Measured reading : readings) {
      Require.present("reading", reading);
    }
    return new Statistics(List.copyOf(readings));
  }

  /**
   * The statistics of a reading over many acquisitions of the same signal. Acquisition i has a seed
   * of its own, which follows from the seed given and i alone; so the figures are the same on any
   * number of threads, bit for bit.
   *
   * @param reading what is read of each record; used by several threads at once
   * @param signal what is there: the open-circuit voltage of the source
   * @param setup how it is captured
   * @param seed of all that is random
   * @param acquisitions how many, 1 to 10 000 000
   * @param threads how many share the work, 1 to 1024
   * @return the statistics
   * @throws IllegalArgumentException if a number is out of range, or a capture refuses
   * @throws NullPointerException if something is missing
   */
  public static Statistics over(
      Reading reading, Signal signal, Setup setup, long seed, int acquisitions, int threads) {
    return over(
            List.of(Require.present("reading", reading)),
            signal,
            setup,
            seed,
            acquisitions,
            threads)
        .get(0);
  }

  /**
   * The statistics of several readings over the same acquisitions.
   *
   * @param readings what is read of each record; used by several threads at once
   * @param signal what is there: the open-circuit voltage of the source
   * @param setup how it is captured
   * @param seed of all that is random
   * @param acquisitions how many, 1 to 10 000 000
   * @param threads how many share the work, 1 to 1024
   * @return the statistics of each reading, in their order
   * @throws IllegalArgumentException if a number is out of range, or a capture refuses
   * @throws NullPointerException if something is missing
   */
  public static List<Statistics> over(
      List<Reading> readings,
      Signal signal,
      Setup setup,
      long seed,
      int acquisitions,
      int threads) {
    ReadingGroup group = ReadingGroup.of(readings);
    Require.present("signal", signal);
    Require.present("setup", setup);
    return repeated(
        readings.size(), key -> group.of(setup.capture(signal, key)), seed, acquisitions, threads);
  }

  /**
   * The statistics of readings between channels over the same acquisitions: those whose seeds
   * {@link #over(List, Signal, Setup, long, int, int)} gives them too.
   *
   * @param readings what is read, each with the names of two channels of the set; used by several
   *     threads at once
   * @param signals one for each channel of the set, in their order
   * @param channels how they are captured
   * @param seed of all that is random
   * @param acquisitions how many, 1 to 10 000 000
   * @param threads how many share the work, 1 to 1024
   * @return the statistics of each reading, in their order
   * @throws IllegalArgumentException if there is no such channel, a number is out of range, or a
   *     capture refuses
   * @throws NullPointerException if something is missing
   */
  public static List<Statistics> between(
      List<ChannelPair> readings,
      List<Signal> signals,
      ChannelSet channels,
      long seed,
      int acquisitions,
      int threads) {
    Require.present("readings", readings);
    Require.present("signals", signals);
    Require.present("channels", channels);
    int[] first = new int[readings.size()];
    int[] second = new int[readings.size()];
    for (int r = 0; r < first.length; r++) {
      ChannelPair pair = Require.present("reading", readings.get(r));
      first[r] = channels.indexOf(pair.first());
      second[r] = channels.indexOf(pair.second());
    }
    List<ChannelPair> asked = List.copyOf(readings);
    return repeated(
        first.length,
        key -> {
          List<Record> records = channels.capture(signals, key);
          List<Measured> all = new ArrayList<>(first.length);
          for (int r = 0; r < first.length; r++) {
            all.add(asked.get(r).reading().of(records.get(first[r]), records.get(second[r])));
          }
          return all;
        },
        seed,
        acquisitions,
        threads);
  }

  private static List<Statistics> repeated(
      int readings,
      LongFunction<List<Measured>> acquisition,
      long seed,
      int acquisitions,
      int threads) {
    Require.inRange("acquisitions", acquisitions, 1, MAX_ACQUISITIONS);
    Require.inRange("threads", threads, 1, MAX_THREADS);
    Measured[][] all = new Measured[readings][acquisitions];
    Parallel.each(
        acquisitions,
        threads,
        i -> {
          List<Measured> measured = acquisition.apply(seedOf(seed, i));
          for (int r = 0; r < readings; r++) {
            all[r][i] = measured.get(r);
          }
        });
    List<Statistics> statistics = new ArrayList<>();
    for (Measured[] measured : all) {
      statistics.add(of(List.of(measured)));
    }
    return List.copyOf(statistics);
  }

  /**
   * The seed of one of many acquisitions.
   *
   * @param seed of all of them
   * @param acquisition the number of the acquisition, 0 to 9 999 999
   * @return what {@link #over} gives to the capture of that number
   * @throws IllegalArgumentException if the number is out of range
   */
  public static long seedOf(long seed, int acquisition) {
    Require.inRange("acquisition", acquisition, 0, MAX_ACQUISITIONS - 1);
    return CounterRandom.key(CounterRandom.key(seed, ACQUISITIONS), acquisition);
  }

  /**
   * How many readings were taken.
   *
   * @return 0 or more
   */
  public int count() {
    return count;
  }

  /**
   * Why others were not taken.
   *
   * @return each reason with the number of readings that gave it, unmodifiable
   */
  public Map<String, Integer> notTaken() {
    return notTaken;
  }

  /**
   * The mean of those taken.
   *
   * @return in the unit of the reading; not taken if there is none
   */
  public Measured mean() {
    return atLeast(1, mean);
  }

  /**
   * The standard deviation of those taken about their mean, with n - 1.
   *
   * @return in the unit of the reading; not taken of fewer than two
   */
  public Measured standardDeviation() {
    return atLeast(2, deviation);
  }

  /**
   * The least of those taken.
   *
   * @return in the unit of the reading; not taken if there is none
   */
  public Measured minimum() {
    return atLeast(1, minimum);
  }

  /**
   * The greatest of those taken.
   *
   * @return in the unit of the reading; not taken if there is none
   */
  public Measured maximum() {
    return atLeast(1, maximum);
  }

  private Measured atLeast(int needed, double value) {
    if (count >= needed) {
      return new Value(value);
    }
    if (count == 1) {
      return new NotTaken("a single reading has no standard deviation");
    }
    return new NotTaken(
        notTaken.isEmpty() ? "there is no reading" : String.join("; ", notTaken.keySet()));
  }

  @Override
  public boolean equals(Object other) {
    return other instanceof Statistics that
        && count == that.count
        && notTaken.equals(that.notTaken)
        && Double.compare(mean, that.mean) == 0
        && Double.compare(deviation, that.deviation) == 0
        && Double.compare(minimum, that.minimum) == 0
        && Double.compare(maximum, that.maximum) == 0;
  }

  @Override
  public int hashCode() {
    return 31 * count + Double.hashCode(mean);
  }

  @Override
  public String toString() {
    return count
        + " taken, mean "
        + mean()
        + ", standard deviation "
        + standardDeviation()
        + ", from "
        + minimum()
        + " to "
        + maximum()
        + (notTaken.isEmpty() ? "" : ", not taken: " + notTaken);
  }
}
