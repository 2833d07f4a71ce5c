package org.asmeasured.uncertainty;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.asmeasured.measure.Measured;
import org.asmeasured.measure.Outcome;

/** The trials of one output, as they come in, and the figures of every whole block of them. */
final class OutputTrials {
  private static final int MEAN = 0;
  private static final int UNCERTAINTY = 1;
  private static final int LOWER = 2;
  private static final int UPPER = 3;
  private static final int FIGURES = 4;

  private final Inputs inputs;
  private final MonteCarlo settings;
  private final int output;
  private final double reference;
  private final boolean finite;
  private final List<double[]> parts = new ArrayList<>();
  private final List<double[]> figures = new ArrayList<>();
  private int partsBeforeBlock;
  private String reason;

  OutputTrials(Inputs inputs, MonteCarlo settings, int output, double reference) {
    this.inputs = inputs;
    this.settings = settings;
    this.output = output;
    this.reference = reference;
    this.finite = endless(inputs) == null;
  }

  /** The first input without a standard deviation, or null. */
  private static Input endless(Inputs inputs) {
    for (Input input : inputs.list()) {
      if (input.distribution().standardDeviation() == Double.POSITIVE_INFINITY) {
        return input;
      }
    }
    return null;
  }

  void add(double[] values, String reasonForNone) {
    parts.add(values);
    if (reason == null) {
      reason = reasonForNone;
    }
  }

  void endBlock(Moments moments, boolean whole) {
    List<double[]> own = parts.subList(partsBeforeBlock, parts.size());
    partsBeforeBlock = parts.size();
    if (!whole) {
      return;
    }
    double[] sorted = sortedTaken(own);
    if (sorted.length < 2) {
      return;
    }
    double[] row = new double[FIGURES];
    double[] two = meanAndUncertainty(moments, sorted);
    row[MEAN] = two[0];
    row[UNCERTAINTY] = two[1];
    if (settings.intervals) {
      Interval interval = Sorted.symmetric(sorted, settings.probability);
      row[LOWER] = interval.lower();
      row[UPPER] = interval.upper();
    }
    figures.add(row);
  }

  /** By control where every trial has an output, else of those that have one. */
  private double[] meanAndUncertainty(Moments moments, double[] sorted) {
    Straight straight =
        settings.sobol && finite && sorted.length == moments.trials
            ? Straight.of(inputs, moments, output)
            : null;
    if (straight != null) {
      return new double[] {reference + straight.meanShift, Math.sqrt(straight.variance)};
    }
    double shift = sorted[sorted.length / 2];
    double sum = 0;
    double squares = 0;
    for (double value : sorted) {
      sum += value - shift;
      squares += (value - shift) * (value - shift);
    }
    int n = sorted.length;
    double variance = Math.max(0, squares - sum * (sum / n)) / (n - 1);
    return new double[] {shift + sum / n, Math.sqrt(variance)};
  }

  /** JCGM 101, 7.9.4, at the end of a block. */
  boolean isStable() {
    int blocks = figures.size();
    if (blocks < MonteCarlo.LEAST_BLOCKS) {
      return false;
    }
    double tolerance = 0.5 * numericalUnit(scale());
    for (int f = 0; f < (settings.intervals ? FIGURES : LOWER); f++) {
      if (!finite && f <= UNCERTAINTY) {
        continue;
      }
      if (!(2 * errorOfMean(f) <= tolerance)) {
        return false;
      }
    }
    return true;
  }

  /** The standard uncertainty, or where there is none a quarter of the interval. */
  private double scale() {
    return finite ? mean(UNCERTAINTY) : 0.25 * (mean(UPPER) - mean(LOWER));
  }

  /** 10^l of u = c 10^l. */
  private double numericalUnit(double u) {
    return Agreement.numericalUnit(u, Math.max(1, settings.digits));
  }

  private double mean(int f) {
    double sum = 0;
    for (double[] row : figures) {
      sum += row[f] - figures.get(0)[f];
    }
    return figures.get(0)[f] + sum / figures.size();
  }

  private double errorOfMean(int f) {
    double mean = mean(f);
    double squares = 0;
    for (double[] row : figures) {
      squares += (row[f] - mean) * (row[f] - mean);
    }
    double h = figures.size();
    return Math.sqrt(squares / (h - 1) / h);
  }

  private static double[] sortedTaken(List<double[]> parts) {
    int n = 0;
    for (double[] part : parts) {
      for (double value : part) {
        n += Double.isNaN(value) ? 0 : 1;
      }
    }
    double[] all = new double[n];
    int at = 0;
    for (double[] part : parts) {
      for (double value : part) {
        if (!Double.isNaN(value)) {
          all[at++] = value;
        }
      }
    }
    Arrays.sort(all);
    return all;
  }

  Outcome<Simulated> result(Moments total) {
    double[] sorted = sortedTaken(parts);
    long missing = total.trials - sorted.length;
    if (sorted.length * 2L < total.trials || sorted.length < settings.leastTrials()) {
      return new Outcome.NotTaken<>(
          "only " + sorted.length + " of " + total.trials + " trials have an output: " + reason);
    }
    Measured mean;
    Measured uncertainty;
    Input endless = endless(inputs);
    if (endless != null) {
      mean =
          new Measured.NotTaken(
              "the standard deviation of "
                  + endless.name()
                  + " ("
                  + endless.distribution().name()
                  + ") does not exist: trials give intervals only");
      uncertainty = mean;
    } else {
      double[] two = meanAndUncertainty(total, sorted);
      mean = new Measured.Value(two[0]);
      uncertainty = new Measured.Value(two[1]);
    }
    Straight straight = missing == 0 ? Straight.of(inputs, total, output) : null;
    return new Outcome.Taken<>(
        new Simulated(
            settings.probability,
            sorted,
            mean,
            uncertainty,
            error(MEAN),
            error(UNCERTAINTY),
            error(LOWER),
            error(UPPER),
            settings.digits == 0 || isStable(),
            missing,
            reason,
            straight == null ? List.of() : straight.budget(inputs),
            straight == null || !(straight.variance > 0)
                ? Double.NaN
                : straight.remainder / straight.variance));
  }

  private Measured error(int f) {
    if (!finite && f <= UNCERTAINTY) {
      return new Measured.NotTaken("an input has no standard deviation");
    }
    if (f >= LOWER && !settings.intervals) {
      return new Measured.NotTaken("no interval was asked for");
    }
    return figures.size() < 2
        ? new Measured.NotTaken("fewer than two whole blocks of trials")
        : new Measured.Value(errorOfMean(f));
  }
}
